/* sw-replace.c: replacing a lost dose, and ending a course before its injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-replan-private.h"

#include "sw-dose-state.h"
#include "sw-lead-in.h"

#include <glib/gi18n-lib.h>

static const SwDosePlan *
current_row (const SwCase *c, gint64 dose)
{
  const SwDosePlan *row;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (row->dose == dose)
      return row;
  return NULL;
}

static void
check_replaceable (SwReplan *replan, const SwCase *c, const SwDosePlan *dose)
{
  SwStanding standing = sw_dose_state (c, dose);
  SwDay treat_day = sw_case_plan (c)->treat_day;

  if (standing != SW_STANDING_MISSED && standing != SW_STANDING_VOMITED)
    sw_finding_of_dose (sw_replan_find (replan, SW_FINDING_DOSE_NOT_LOST), c, dose);
  if (sw_dose_replacement (c, dose->dose) != NULL)
    sw_finding_of_dose (sw_replan_find (replan, SW_FINDING_ALREADY_REPLACED), c, dose);
  if (sw_lead_in_lost (c, treat_day) >= 2 && dose->due_day <= treat_day)
    g_ptr_array_add (replan->findings, sw_finding_of_lost (c, treat_day, sw_move_first_day (c, NULL)));
}

static SwDosePlan *
replacement_new (const SwCase *c, const SwDosePlan *dose, SwMoment due)
{
  SwDosePlan *row = sw_fact_copy (dose);

  row->fact = (SwFact) { .kind = SW_FACT_DOSE_PLAN, .patient = dose->fact.patient };
  row->due_day = due.day;
  row->due_minute = due.minute;
  row->day_number = sw_dose_day_number (sw_case_plan (c), row);
  row->dose = -1;
  row->plan = sw_case_plan (c)->fact.id;
  row->instead_of = dose->dose;
  return row;
}

SwReplan *
sw_replace_dose (const SwCase *c, gint64 dose, SwMoment due)
{
  const SwPlan *plan = sw_case_plan (c);
  const SwDosePlan *lost = current_row (c, dose);
  SwReplan *replan = sw_replan_alloc (plan != NULL ? plan->treat_day : SW_NO_DAY, SW_PLAN_CHANGED);
  const SwCourseEnd *end = sw_case_end (c);
  g_autofree char *when = sw_moment_format (due);
  SwDose *entity;

  replan->vet_only = TRUE;
  if (end != NULL)
    sw_finding_day (sw_replan_find (replan, SW_FINDING_COURSE_OVER), "date", end->day);
  if (plan == NULL || lost == NULL)
    sw_replan_find (replan, SW_FINDING_NO_PLAN);
  else
    check_replaceable (replan, c, lost);
  if (!sw_replan_may (replan))
    return replan;

  entity = sw_new (SW_FACT_DOSE, SwDose);
  entity->fact.patient = lost->fact.patient;
  entity->course = c->course;
  g_ptr_array_add (replan->facts, entity);
  g_ptr_array_add (replan->facts, replacement_new (c, lost, due));
  sw_replan_say (replan, g_strdup_printf (_("%s is given again at %s."), lost->substance, when));
  return replan;
}

static guint
withdraw_open (SwReplan *replan, const SwCase *c)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  guint n = 0;

  for (guint i = 0; i < doses->len; i++)
    if (sw_dose_is_open (c, doses->pdata[i]))
      {
        g_ptr_array_add (replan->facts, sw_fact_withdrawal (doses->pdata[i]));
        n++;
      }
  return n;
}

/* Doses of the lead-in groups that were given, and the day of the last one. */
static guint
lead_in_given (const SwCase *c, SwDay *last)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  guint n = 0;

  for (guint i = 0; protocol != NULL && i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (!sw_protocol_leads_in (protocol, dose->group) || !sw_dose_is_confirmed (sw_dose_state (c, dose)))
        continue;
      *last = sw_dose_actual (c, dose).day;
      n++;
    }
  return n;
}

static gboolean
is_death (const SwCourseEnd *end)
{
  return end->end == SW_END_DIED || end->end == SW_END_EUTHANISED;
}

static gboolean
is_injected (const SwCase *c)
{
  return sw_dossier_injection (c->dossier, c->course) != NULL;
}

/* A dead dog needs no taper, and a lost one can't be told. */
static gboolean
wants_orders (const SwCase *c, const SwCourseEnd *end)
{
  return !is_injected (c) && !is_death (end) && end->end != SW_END_LOST;
}

static void
check_orders (SwReplan *replan, const SwCase *c, const SwCourseEnd *end)
{
  SwDay last = SW_NO_DAY;
  guint given = lead_in_given (c, &last);

  if (given == 0 || !wants_orders (c, end))
    return;
  if (end->vet_orders == NULL || *end->vet_orders == '\0')
    sw_finding_count (sw_replan_find (replan, SW_FINDING_ORDERS_NEEDED), "value", given);
  sw_finding_day (sw_replan_find (replan, SW_FINDING_NSAID_WASHOUT), "date", last);
}

SwReplan *
sw_cancel_course (const SwCase *c, SwCourseEnd *end)
{
  const SwCourseEnd *over = sw_case_end (c);
  SwReplan *replan = sw_replan_alloc (SW_NO_DAY, SW_PLAN_CHANGED);
  guint withdrawn = 0;

  replan->vet_only = TRUE;
  if (over != NULL)
    sw_finding_day (sw_replan_find (replan, SW_FINDING_COURSE_OVER), "date", over->day);
  check_orders (replan, c, end);
  if (!sw_replan_may (replan))
    {
      sw_fact_free (end);
      return replan;
    }
  if (!is_injected (c) || is_death (end))
    withdrawn = withdraw_open (replan, c);
  if (withdrawn > 0)
    sw_replan_say (replan, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u dose not yet due is withdrawn.",
                                                         "%u doses not yet due are withdrawn.", withdrawn),
                                            withdrawn));
  g_ptr_array_add (replan->facts, end);
  return replan;
}
