/* sw-course-stage.c: where a course stands
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course.h"

#include "sw-text.h"

#include <glib/gi18n-lib.h>

static const char *const stage_codes[] = {
  "work-up", "lead-in", "treatment-day", "observation", "after", "score-due", "watch", "closed", NULL,
};

static const char *const stage_names[SW_N_STAGES] = {
  [SW_STAGE_WORK_UP] = N_("work-up"),
  [SW_STAGE_LEAD_IN] = N_("lead-in"),
  [SW_STAGE_TREATMENT_DAY] = N_("treatment day"),
  [SW_STAGE_OBSERVATION] = N_("observation"),
  [SW_STAGE_AFTER] = N_("aftercare"),
  [SW_STAGE_SCORE_DUE] = N_("score due"),
  [SW_STAGE_WATCH] = N_("watch"),
  [SW_STAGE_CLOSED] = N_("closed"),
};

const char *
sw_stage_code (SwStage stage)
{
  g_return_val_if_fail ((guint) stage < SW_N_STAGES, NULL);
  return stage_codes[stage];
}

int
sw_stage_from_code (const char *code)
{
  return sw_code_index (stage_codes, code);
}

const char *
sw_stage_name (SwStage stage)
{
  g_return_val_if_fail ((guint) stage < SW_N_STAGES, NULL);
  return _(stage_names[stage]);
}

SwDay
sw_course_day_zero (const SwDossier *dossier, gint64 course)
{
  const SwInjection *injection = sw_dossier_injection (dossier, course);
  const SwRelease *release = sw_dossier_release (dossier, course);
  const SwPlan *plan = sw_dossier_plan (dossier, course);

  if (injection != NULL)
    return injection->day;
  if (plan != NULL)
    return plan->treat_day;
  return release != NULL ? release->day : SW_NO_DAY;
}

const SwScore *
sw_course_last_score (const SwDossier *dossier, gint64 course, gint64 tumour)
{
  const SwScore *score, *last = NULL;

  for (guint i = 0; (score = sw_facts_next (&dossier->facts, SW_FACT_SCORE, &i)) != NULL;)
    if (score->course == course && score->tumour == tumour && (last == NULL || score->day >= last->day))
      last = score;
  return last;
}

/* Every tumour treated has a category that says something. */
static gboolean
is_scored (const SwCase *c)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);

  for (guint i = 0; i < tumours->len; i++)
    {
      const SwScore *score = sw_course_last_score (c->dossier, c->course, g_array_index (tumours, gint64, i));

      if (score == NULL || score->category == SW_CATEGORY_NOT_EVALUABLE)
        return FALSE;
    }
  return tumours->len > 0;
}

static SwStage
stage_before_injection (const SwCase *c)
{
  const SwPlan *plan = sw_case_plan (c);

  if (sw_case_release (c) != NULL)
    return SW_STAGE_TREATMENT_DAY;
  if (plan == NULL)
    return SW_STAGE_WORK_UP;
  return c->now.day >= plan->treat_day ? SW_STAGE_TREATMENT_DAY : SW_STAGE_LEAD_IN;
}

static SwStage
stage_after_injection (const SwCase *c, const SwInjection *injection)
{
  const SwProtocol *protocol = sw_case_protocol (c);

  if (c->now.day <= injection->day && sw_facts_of_course (&c->dossier->facts, SW_FACT_DISCHARGE, c->course) == NULL)
    return SW_STAGE_OBSERVATION;
  if (is_scored (c))
    return SW_STAGE_WATCH;
  if (protocol != NULL && c->now.day >= injection->day + protocol->score_first_day)
    return SW_STAGE_SCORE_DUE;
  return SW_STAGE_AFTER;
}

SwStage
sw_course_stage (const SwCase *c)
{
  const SwInjection *injection;

  if (c->course == 0)
    return SW_STAGE_WORK_UP;
  if (sw_case_end (c) != NULL)
    return SW_STAGE_CLOSED;
  injection = sw_dossier_injection (c->dossier, c->course);
  return injection != NULL ? stage_after_injection (c, injection) : stage_before_injection (c);
}
