/* sw-operate-doses.c: what became of planned doses, and the vet's decisions about them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-dose-state.h"
#include "sw-error.h"

#include <glib/gi18n-lib.h>

/* The current row of the dose that the request is about; its course becomes the case's. */
static const SwDosePlan *
planned_dose (SwOperation *op, GError **error)
{
  const SwDosePlan *dose = NULL;

  if (op->dossier != NULL)
    for (guint i = 0; (dose = sw_facts_next (&op->dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
      if (dose->dose == op->request->row)
        break;
  if (dose == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_CONFLICT, _("This dose is no longer planned: the plan has changed since."));
  else
    op->c.course = dose->course;
  return dose;
}

static gboolean
refuse_future (const SwDosePlan *dose, GError **error)
{
  g_autofree char *day = sw_day_format (dose->due_day), *time = sw_time_format ((int) dose->due_minute);

  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("This dose is due on %s at %s: nothing has become of it yet."), day,
               time);
  return FALSE;
}

/* A dose told just before its time was given now, not later. */
static gboolean
given_at_due (SwOperation *op, const SwDosePlan *dose, SwMoment *actual, GError **error)
{
  SwMoment due = sw_dose_due (dose);

  *actual = sw_moment_compare (due, op->now.local) > 0 ? op->now.local : due;
  return sw_dose_classify (&op->c, dose, *actual) == SW_DOSE_GIVEN || refuse_future (dose, error);
}

static gboolean
told_at (SwOperation *op, const SwDosePlan *dose, SwMoment *actual, GError **error)
{
  *actual = op->request->when;
  if (sw_moment_is_set (*actual))
    return sw_operation_moment (op, actual, error);
  if (op->request->choice == SW_DOSE_GIVEN)
    return given_at_due (op, dose, actual, error);
  if (op->request->choice == SW_DOSE_LATE)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Say when the dose was given: a late dose needs its time."));
      return FALSE;
    }
  return sw_moment_compare (sw_dose_due (dose), op->now.local) <= 0 || refuse_future (dose, error);
}

/* The state that is recorded, and the time if one is known. */
static gboolean
tell (SwOperation *op, const SwDosePlan *dose, SwDoseEvent *event, GError **error)
{
  SwMoment actual;

  if (!told_at (op, dose, &actual, error))
    return FALSE;
  event->state = op->request->choice;
  if (event->state == SW_DOSE_GIVEN || event->state == SW_DOSE_LATE)
    event->state = sw_dose_classify (&op->c, dose, actual);
  if (sw_moment_is_set (actual))
    {
      event->day = actual.day;
      event->minute = actual.minute;
    }
  return TRUE;
}

static SwDoseEvent *
event_of (const SwDosePlan *dose, gint64 replaces)
{
  SwDoseEvent *event = sw_new (SW_FACT_DOSE_EVENT, SwDoseEvent);

  event->course = dose->course;
  event->dose = dose->dose;
  event->fact.replaces = replaces;
  return event;
}

gboolean
sw_operate_tick (SwOperation *op, GError **error)
{
  const SwDosePlan *dose = planned_dose (op, error);
  SwDoseEvent *event;

  if (dose == NULL)
    return FALSE;
  event = event_of (dose, op->request->seen);
  event->told_by = g_strdup (op->request->text);
  event->note = g_strdup (op->request->reason);
  sw_operation_add (op, event);
  return tell (op, dose, event, error);
}

gboolean
sw_operate_stop_dose (SwOperation *op, GError **error)
{
  const SwDosePlan *dose = planned_dose (op, error);
  SwDoseEvent *event;

  if (dose == NULL || !sw_operation_has_reason (op, error))
    return FALSE;
  event = event_of (dose, op->request->seen);
  event->state = SW_DOSE_STOPPED;
  event->note = g_strdup (op->request->reason);
  sw_operation_add (op, event);
  return TRUE;
}

gboolean
sw_operate_order_replacement (SwOperation *op, GError **error)
{
  const SwDosePlan *dose = planned_dose (op, error);

  if (dose == NULL)
    return FALSE;
  sw_operation_take_replan (op, sw_replace_dose (&op->c, dose->dose, op->request->when));
  return TRUE;
}
