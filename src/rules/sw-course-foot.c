/* sw-course-foot.c: what blocks the next step, in one line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course.h"

#include "sw-definitions.h"
#include "sw-dose.h"
#include "sw-gate-private.h"
#include "sw-lead-in.h"
#include "sw-move.h"
#include "sw-replan-private.h"
#include "sw-suitability.h"

#include <glib/gi18n-lib.h>

/* The first of these that still blocks. `findings` (transfer full) */
static SwFinding *
first_open (const SwCase *c, GPtrArray *findings)
{
  g_autoptr (GPtrArray) open = sw_findings_open (c, findings);

  g_ptr_array_unref (findings);
  return open->len > 0 ? g_ptr_array_steal_index (open, 0) : NULL;
}

SwPlan *
sw_course_draft_plan (const SwCase *c)
{
  const SwWeight *weight = sw_facts_last (&c->dossier->facts, SW_FACT_WEIGHT);
  g_autoptr (GPtrArray) follow = NULL;
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);

  plan->course = c->course;
  plan->weight = weight != NULL ? weight->fact.id : 0;
  plan->treat_day = sw_move_first_day (c, NULL);
  follow = sw_course_follow_findings (c, plan->treat_day);
  for (guint i = 0; i < follow->len; i++)
    {
      const SwArg *limit = sw_finding_arg (follow->pdata[i], "limit");

      if (limit != NULL && limit->type == SW_ARG_DAY)
        plan->treat_day = MAX (plan->treat_day, (SwDay) limit->num);
    }
  return plan;
}

static SwFinding *
block_of_work_up (const SwCase *c)
{
  SwPlan *plan = sw_course_draft_plan (c);
  SwFinding *block = first_open (c, sw_gate_a (c, plan));

  sw_fact_free (plan);
  return block;
}

/* Doses of the lead-in that can't be counted, and the consent. What is still to come blocks nothing. */
static SwFinding *
block_of_lead_in (const SwCase *c)
{
  SwGateAsk ask = { c, sw_case_protocol (c), sw_case_plan (c), sw_findings_new () };
  GPtrArray *blocking = sw_findings_new ();

  if (ask.protocol != NULL)
    {
      sw_gate_consent (&ask);
      sw_gate_doses (&ask);
    }
  for (guint i = 0; i < ask.findings->len; i++)
    {
      const SwFinding *finding = ask.findings->pdata[i];

      if (finding->code != SW_FINDING_DOSE_NOT_YET && finding->code != SW_FINDING_DAY_DOSE_MISSING)
        g_ptr_array_add (blocking, sw_finding_copy (finding));
    }
  g_ptr_array_unref (ask.findings);
  return first_open (c, blocking);
}

/* A dose past a limit is refused at the release too. */
static void
add_refusals (GPtrArray *findings, const SwCase *c)
{
  g_autoptr (SwDoseResult) dose = sw_dose_of_case (c, NULL);

  for (guint i = 0; dose != NULL && i < dose->refusals->len; i++)
    g_ptr_array_add (findings, sw_finding_copy (dose->refusals->pdata[i]));
}

static SwFinding *
block_of_treatment_day (const SwCase *c)
{
  gboolean released = sw_case_release (c) != NULL;
  GPtrArray *findings = sw_gate_b (c, released ? SW_GATE_AT_INJECTION : SW_GATE_AT_RELEASE);

  if (!released)
    add_refusals (findings, c);
  return first_open (c, findings);
}

static SwFinding *
block_of_observation (const SwCase *c)
{
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  SwMoment until = { injection->day, (int) injection->minute };
  SwFinding *finding = sw_finding_new (SW_FINDING_OBSERVE);

  until = sw_moment_add_minutes (until, sw_definition_whole (SW_DEF_OBSERVATION));
  sw_finding_minute (finding, "time", until.minute);
  return finding;
}

/* The first visit that waits, or the first dose not told since. */
static SwFinding *
block_of_aftercare (const SwCase *c)
{
  g_autoptr (GArray) slots = sw_course_visits (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  SwMoment due = sw_course_next_due (c);
  SwFinding *finding;

  for (guint i = 0; i < doses->len; i++)
    if (sw_moment_compare (sw_dose_due (doses->pdata[i]), due) == 0 && sw_moment_compare (due, c->now) <= 0
        && sw_dossier_dose_event (c->dossier, ((const SwDosePlan *) doses->pdata[i])->dose) == NULL)
      {
        finding = sw_finding_new (SW_FINDING_DOSE_TO_TELL);
        sw_finding_of_dose (finding, c, doses->pdata[i]);
        return finding;
      }
  for (guint i = 0; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);

      if (slot->standing != SW_VISIT_DUE && slot->standing != SW_VISIT_OVERDUE)
        continue;
      finding = sw_finding_new (SW_FINDING_VISIT_WAITS);
      sw_finding_count (finding, "value", slot->number);
      sw_finding_day (finding, "date", slot->day);
      return finding;
    }
  return NULL;
}

static SwFinding *
block_of_score (const SwCase *c)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);
  SwDay zero = sw_course_day_zero (c->dossier, c->course);

  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      const SwScore *score = sw_course_last_score (c->dossier, c->course, tumour);
      g_autofree char *letter = sw_case_letter (c, tumour);
      SwFinding *finding;

      if (score != NULL && score->category != SW_CATEGORY_NOT_EVALUABLE)
        continue;
      finding = sw_finding_new (SW_FINDING_SCORE_WAITS);
      finding->tumour = tumour;
      sw_finding_text (finding, "tumour", letter);
      sw_finding_day (finding, "date", zero + sw_case_protocol (c)->score_last_day);
      return finding;
    }
  return NULL;
}

static SwFinding *
block_of_closed (const SwCase *c)
{
  SwFinding *finding = sw_finding_new (SW_FINDING_COURSE_OVER);

  sw_finding_day (finding, "date", sw_case_end (c)->day);
  return finding;
}

SwFinding *
sw_course_first_block (const SwCase *c)
{
  if (sw_case_protocol (c) == NULL)
    return sw_finding_new (SW_FINDING_NO_COURSE);
  switch (sw_course_stage (c))
    {
    case SW_STAGE_WORK_UP:
      return block_of_work_up (c);
    case SW_STAGE_LEAD_IN:
      return block_of_lead_in (c);
    case SW_STAGE_TREATMENT_DAY:
      return block_of_treatment_day (c);
    case SW_STAGE_OBSERVATION:
      return block_of_observation (c);
    case SW_STAGE_AFTER:
    case SW_STAGE_WATCH:
      return block_of_aftercare (c);
    case SW_STAGE_SCORE_DUE:
      return block_of_score (c);
    case SW_STAGE_CLOSED:
      return block_of_closed (c);
    case SW_N_STAGES:
      break;
    }
  g_return_val_if_reached (NULL);
}

/* The sentence of a finding with what is open to do. */
static char *
finding_line (const SwFinding *finding)
{
  g_autofree char *sentence = sw_finding_sentence (finding);
  g_autofree char *next = sw_finding_next (finding);

  return next != NULL ? g_strdup_printf ("%s %s", sentence, next) : g_steal_pointer (&sentence);
}

static char *
line_of_lead_in (const SwCase *c)
{
  g_autofree char *day = sw_day_format (sw_case_plan (c)->treat_day);

  return g_strdup_printf (_("Nothing blocks the next step: the lead-in runs, and day 0 is %s."), day);
}

static char *
line_of_aftercare (const SwCase *c)
{
  SwMoment due = sw_course_next_due (c);
  g_autofree char *day = sw_day_format (due.day);

  if (!sw_moment_is_set (due))
    return g_strdup (_("Nothing blocks the next step: nothing more is due."));
  return g_strdup_printf (_("Nothing blocks the next step: what comes next is due on %s."), day);
}

static char *
clear_line (const SwCase *c)
{
  switch (sw_course_stage (c))
    {
    case SW_STAGE_WORK_UP:
      return g_strdup (_("Nothing blocks the next step: a vet can sign the medicine plan."));
    case SW_STAGE_LEAD_IN:
      return line_of_lead_in (c);
    case SW_STAGE_TREATMENT_DAY:
      return g_strdup (sw_case_release (c) != NULL
                         ? _("Nothing blocks the next step: draw, read aloud and record the injection.")
                         : _("Nothing blocks the next step: a vet can release the dose."));
    case SW_STAGE_OBSERVATION:
    case SW_STAGE_AFTER:
    case SW_STAGE_SCORE_DUE:
    case SW_STAGE_WATCH:
    case SW_STAGE_CLOSED:
    case SW_N_STAGES:
      break;
    }
  return line_of_aftercare (c);
}

char *
sw_course_foot_line (const SwCase *c)
{
  g_autoptr (SwFinding) block = sw_course_first_block (c);

  return block != NULL ? finding_line (block) : clear_line (c);
}
