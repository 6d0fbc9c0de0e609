/* sw-replan.c: changing a signed plan's weight or choices; what all changes share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-replan-private.h"

#include "sw-dose-state.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

SwReplan *
sw_replan_alloc (SwDay treat_day, SwPlanCause cause)
{
  SwReplan *replan = g_new0 (SwReplan, 1);

  replan->treat_day = treat_day;
  replan->cause = cause;
  replan->findings = sw_findings_new ();
  replan->changes = g_ptr_array_new_with_free_func (g_free);
  replan->facts = g_ptr_array_new_with_free_func (sw_fact_free);
  return replan;
}

void
sw_replan_free (SwReplan *replan)
{
  if (replan == NULL)
    return;
  g_ptr_array_unref (replan->findings);
  g_ptr_array_unref (replan->changes);
  g_ptr_array_unref (replan->facts);
  g_free (replan);
}

void
sw_replan_say (SwReplan *replan, char *sentence)
{
  g_ptr_array_add (replan->changes, sentence);
}

SwFinding *
sw_replan_find (SwReplan *replan, SwFindingCode code)
{
  SwFinding *finding = sw_finding_new (code);

  g_ptr_array_add (replan->findings, finding);
  return finding;
}

void
sw_replan_check_open (SwReplan *replan, const SwCase *c)
{
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  const SwRelease *release = sw_case_release (c);
  const SwCourseEnd *end = sw_case_end (c);

  if (end != NULL)
    sw_finding_day (sw_replan_find (replan, SW_FINDING_COURSE_OVER), "date", end->day);
  if (injection != NULL)
    sw_finding_day (sw_replan_find (replan, SW_FINDING_ALREADY_INJECTED), "date", injection->day);
  else if (release != NULL)
    sw_finding_day (sw_replan_find (replan, SW_FINDING_ALREADY_RELEASED), "date", release->day);
  if (sw_case_plan (c) == NULL || sw_case_protocol (c) == NULL)
    sw_replan_find (replan, SW_FINDING_NO_PLAN);
}

gboolean
sw_replan_may (const SwReplan *replan)
{
  return sw_findings_worst (replan->findings) < SW_VET_DECIDES;
}

gboolean
sw_dose_is_open (const SwCase *c, const SwDosePlan *dose)
{
  return sw_moment_compare (sw_dose_due (dose), c->now) > 0 && sw_dossier_dose_event (c->dossier, dose->dose) == NULL;
}

void
sw_finding_of_dose (SwFinding *finding, const SwCase *c, const SwDosePlan *dose)
{
  finding->dose = dose->dose;
  sw_finding_text (finding, "substance", dose->substance);
  sw_finding_day (finding, "date", dose->due_day);
  sw_finding_minute (finding, "time", (int) dose->due_minute);
  sw_finding_text (finding, "state", sw_standing_name (sw_dose_state (c, dose)));
}

void
sw_set_text (char **field, const char *text)
{
  char *copy = g_strdup (text);

  g_free (*field);
  *field = copy;
}

gint64
sw_plan_grams (const SwCase *c, const SwPlan *plan)
{
  const SwWeight *weight = sw_facts_by_id (&c->dossier->facts, SW_FACT_WEIGHT, plan->weight);

  return weight != NULL ? weight->grams : 0;
}

SwSchedule *
sw_replan_schedule (SwReplan *replan, const SwCase *c, SwDay treat_day, gint64 grams, const char *choices)
{
  SwScheduleOrder order = sw_schedule_order (c, treat_day, grams, choices);
  SwSchedule *schedule = sw_schedule_new (&order);

  for (guint i = 0; i < schedule->findings->len; i++)
    g_ptr_array_add (replan->findings, sw_finding_copy (schedule->findings->pdata[i]));
  return schedule;
}

/* The line of a schedule that says how a dose of this group and interval is made up; the group's first for a dose
 * before it. */
static const SwScheduleLine *
line_for (const SwSchedule *schedule, const SwDosePlan *dose, gint64 day_number)
{
  const SwScheduleLine *first = NULL;

  for (guint i = 0; i < schedule->lines->len; i++)
    {
      const SwScheduleLine *line = schedule->lines->pdata[i];

      if (!g_str_equal (line->group, dose->group))
        continue;
      if (line->first_number <= day_number && day_number <= line->last_number)
        return line;
      first = first != NULL ? first : line;
    }
  return first;
}

static SwDosePlan *
remade_dose (const SwDosePlan *dose, const SwScheduleLine *line)
{
  SwDosePlan *row = sw_fact_correction (dose);

  row->plan = -1;
  row->dose_ug = line->dose_ug;
  row->strength_ug = line->strength_ug;
  row->halves = line->halves;
  row->volume_nl = line->volume_nl;
  return row;
}

/* Open doses that leave their range are made up anew; the sentence names each substance once. */
static void
remake_doses (SwReplan *replan, const SwCase *c, const SwSchedule *schedule, gint64 grams)
{
  const SwPlan *plan = sw_case_plan (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  g_autoptr (GHashTable) said = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      const SwScheduleLine *line = line_for (schedule, dose, sw_dose_day_number (plan, dose));

      if (!sw_dose_is_open (c, dose) || sw_dose_in_range (c, dose, grams) || line == NULL)
        continue;
      g_ptr_array_add (replan->facts, remade_dose (dose, line));
      if (g_hash_table_add (said, dose->substance))
        sw_replan_say (replan,
                       g_strdup_printf (_("%s leaves its range at this weight: its remaining doses are made up anew, with "
                                          "new labels and a new calendar."),
                                        dose->substance));
    }
}

SwReplan *
sw_replan_weight (const SwCase *c, const SwWeight *weight)
{
  const SwPlan *plan = sw_case_plan (c);
  SwReplan *replan = sw_replan_alloc (plan != NULL ? plan->treat_day : SW_NO_DAY, SW_PLAN_REWEIGHED);
  g_autoptr (SwSchedule) schedule = NULL;
  SwPlan *row;

  replan->vet_only = TRUE;
  sw_replan_check_open (replan, c);
  if (!sw_replan_may (replan))
    return replan;
  schedule = sw_replan_schedule (replan, c, plan->treat_day, weight->grams, plan->choices);
  if (!sw_replan_may (replan))
    return replan;

  row = sw_fact_correction (plan);
  row->weight = weight->fact.id;
  row->cause = SW_PLAN_REWEIGHED;
  g_ptr_array_add (replan->facts, row);
  remake_doses (replan, c, schedule, weight->grams);
  if (replan->changes->len == 0)
    sw_replan_say (replan, g_strdup (_("Every remaining medicine stays inside its range: nothing else changes.")));
  return replan;
}

static gboolean
is_changed_group (const char *group, const char *before, const char *after)
{
  g_autofree char *old = sw_choices_get (before, group);
  g_autofree char *new = sw_choices_get (after, group);

  return g_strcmp0 (old, new) != 0;
}

static void
withdraw_changed (SwReplan *replan, const SwCase *c, const char *choices)
{
  const SwPlan *plan = sw_case_plan (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (sw_dose_is_open (c, dose) && is_changed_group (dose->group, plan->choices, choices))
        g_ptr_array_add (replan->facts, sw_fact_withdrawal (dose));
    }
}

static GPtrArray *
doses_to_come (const SwCase *c, const SwSchedule *schedule, const char *before)
{
  GPtrArray *doses = g_ptr_array_new ();

  for (guint i = 0; i < schedule->doses->len; i++)
    {
      SwDosePlan *dose = schedule->doses->pdata[i];

      if (sw_moment_compare (sw_dose_due (dose), c->now) > 0
          && is_changed_group (dose->group, before, schedule->choices))
        g_ptr_array_add (doses, dose);
    }
  return doses;
}

SwReplan *
sw_replan_choices (const SwCase *c, const char *choices, const char *reason)
{
  const SwPlan *plan = sw_case_plan (c);
  SwReplan *replan = sw_replan_alloc (plan != NULL ? plan->treat_day : SW_NO_DAY, SW_PLAN_CHANGED);
  g_autoptr (SwSchedule) schedule = NULL;
  g_autoptr (GPtrArray) doses = NULL;
  SwPlan *row;

  replan->vet_only = TRUE;
  sw_replan_check_open (replan, c);
  if (!sw_replan_may (replan))
    return replan;
  schedule = sw_replan_schedule (replan, c, plan->treat_day, sw_plan_grams (c, plan), choices);
  if (!sw_replan_may (replan))
    return replan;

  row = sw_fact_correction (plan);
  row->cause = SW_PLAN_CHANGED;
  sw_set_text (&row->choices, schedule->choices);
  sw_set_text (&row->reason, reason);
  g_ptr_array_add (replan->facts, row);
  withdraw_changed (replan, c, schedule->choices);
  doses = doses_to_come (c, schedule, plan->choices);
  sw_schedule_append_doses (replan->facts, doses, c->dossier->patient, c->course, -1);
  sw_replan_say (replan,
                 g_strdup_printf (_("From now on: %s. Doses already due stay as recorded."), schedule->choices));
  return replan;
}
