/* sw-dose-state.c: where a planned dose stands
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-state.h"

#include "sw-definitions.h"
#include "sw-lead-in.h"

#include <glib/gi18n-lib.h>

static const char *const standing_names[SW_N_STANDINGS] = {
  [SW_STANDING_PLANNED] = N_("planned"),
  [SW_STANDING_DUE] = N_("due"),
  [SW_STANDING_NOT_KNOWN] = N_("not known"),
  [SW_STANDING_GIVEN] = N_("given"),
  [SW_STANDING_LATE] = N_("late"),
  [SW_STANDING_MISSED] = N_("missed"),
  [SW_STANDING_VOMITED] = N_("vomited"),
  [SW_STANDING_STOPPED] = N_("stopped"),
};

const char *
sw_standing_name (SwStanding standing)
{
  g_return_val_if_fail ((guint) standing < SW_N_STANDINGS, NULL);
  return _(standing_names[standing]);
}

SwMoment
sw_dose_due (const SwDosePlan *dose)
{
  return (SwMoment) { dose->due_day, (int) dose->due_minute };
}

gint64
sw_dose_day_number (const SwPlan *plan, const SwDosePlan *dose)
{
  return plan != NULL ? dose->due_day - plan->treat_day : dose->day_number;
}

gboolean
sw_dose_is_confirmed (SwStanding standing)
{
  return standing == SW_STANDING_GIVEN || standing == SW_STANDING_LATE;
}

gboolean
sw_dose_is_lost (SwStanding standing)
{
  return standing == SW_STANDING_MISSED || standing == SW_STANDING_VOMITED || standing == SW_STANDING_STOPPED;
}

/* The first dose of the lead-in may be given until a fixed hour, however long that is after due. */
static gboolean
is_within_first_day (const SwCase *c, const SwDosePlan *dose, SwMoment actual)
{
  const SwProtocol *protocol = sw_case_protocol (c);

  return protocol != NULL
         && sw_dose_day_number (sw_case_plan (c), dose) == sw_lead_in_first_day (protocol)
         && actual.day == dose->due_day && dose->due_minute <= actual.minute && actual.minute <= protocol->gate.first_until;
}

SwDoseState
sw_dose_classify (const SwCase *c, const SwDosePlan *dose, SwMoment actual)
{
  gint64 off = ABS (sw_moment_minutes_between (c->zone, sw_dose_due (dose), actual));

  if (off <= sw_definition_whole (SW_DEF_DOSE_ON_TIME))
    return SW_DOSE_GIVEN;
  if (2 * off <= dose->every_minutes || is_within_first_day (c, dose, actual))
    return SW_DOSE_LATE;
  return SW_DOSE_MISSED;
}

SwMoment
sw_dose_moment_told (const SwDosePlan *dose, int minute, SwMoment now)
{
  gint64 due = dose->due_day * SW_MINUTES_PER_DAY + dose->due_minute, nearest = G_MAXINT64;
  SwMoment told = { dose->due_day, minute };

  for (SwDay day = dose->due_day - 1; day <= dose->due_day + 1; day++)
    {
      gint64 off = ABS (day * SW_MINUTES_PER_DAY + minute - due);

      if (off >= nearest || sw_moment_compare ((SwMoment){ day, minute }, now) > 0)
        continue;
      nearest = off;
      told.day = day;
    }
  return told;
}

static SwMoment
event_time (const SwDosePlan *dose, const SwDoseEvent *event)
{
  if (event->day == SW_UNKNOWN || event->minute == SW_UNKNOWN)
    return sw_dose_due (dose);
  return (SwMoment) { event->day, (int) event->minute };
}

/* What was told as given or late stands as its actual time says. */
static SwStanding
standing_by_time (const SwCase *c, const SwDosePlan *dose, const SwDoseEvent *event)
{
  SwDoseState state = sw_dose_classify (c, dose, event_time (dose, event));

  if (state == SW_DOSE_GIVEN)
    return SW_STANDING_GIVEN;
  return state == SW_DOSE_LATE ? SW_STANDING_LATE : SW_STANDING_MISSED;
}

static SwStanding
standing_of_event (const SwCase *c, const SwDosePlan *dose, const SwDoseEvent *event)
{
  switch ((SwDoseState) event->state)
    {
    case SW_DOSE_GIVEN:
    case SW_DOSE_LATE:
      return standing_by_time (c, dose, event);
    case SW_DOSE_VOMITED:
      return SW_STANDING_VOMITED;
    case SW_DOSE_STOPPED:
      return SW_STANDING_STOPPED;
    case SW_DOSE_MISSED:
    case SW_N_DOSE_STATES:
      break;
    }
  return SW_STANDING_MISSED;
}

static SwStanding
standing_of_clock (const SwCase *c, const SwDosePlan *dose)
{
  gint64 since = sw_moment_minutes_between (c->zone, sw_dose_due (dose), c->now);
  gint64 on_time = sw_definition_whole (SW_DEF_DOSE_ON_TIME);

  if (since < -on_time)
    return SW_STANDING_PLANNED;
  return since <= on_time ? SW_STANDING_DUE : SW_STANDING_NOT_KNOWN;
}

SwStanding
sw_dose_state (const SwCase *c, const SwDosePlan *dose)
{
  const SwDoseEvent *event = sw_dossier_dose_event (c->dossier, dose->dose);

  return event != NULL ? standing_of_event (c, dose, event) : standing_of_clock (c, dose);
}

SwMoment
sw_dose_actual (const SwCase *c, const SwDosePlan *dose)
{
  const SwDoseEvent *event = sw_dossier_dose_event (c->dossier, dose->dose);

  if (event == NULL || !sw_dose_is_confirmed (standing_of_event (c, dose, event)))
    return SW_NO_MOMENT;
  return event_time (dose, event);
}

const SwDosePlan *
sw_dose_replacement (const SwCase *c, gint64 dose)
{
  const SwDosePlan *row;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (row->instead_of == dose)
      return row;
  return NULL;
}

GPtrArray *
sw_doses_vomited_at (const SwCase *c, SwMoment vomiting)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  GPtrArray *brought_up = g_ptr_array_new ();

  for (guint i = 0; i < doses->len; i++)
    {
      SwMoment actual = sw_dose_actual (c, doses->pdata[i]);
      gint64 after;

      if (!sw_moment_is_set (actual))
        continue;
      after = sw_moment_minutes_between (c->zone, actual, vomiting);
      if (0 <= after && after <= sw_definition_whole (SW_DEF_VOMITED_WITHIN))
        g_ptr_array_add (brought_up, doses->pdata[i]);
    }
  return brought_up;
}
