/* sw-operate-score.c: the response of every tumour injected in a course, and of the dog
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-error.h"
#include "sw-response.h"

#include <glib/gi18n-lib.h>

static const SwScore *
score_of_day (const SwOperation *op, gint64 tumour)
{
  const SwScore *score;

  for (guint i = 0; (score = sw_facts_next (&op->dossier->facts, SW_FACT_SCORE, &i)) != NULL;)
    if (score->course == op->c.course && score->tumour == tumour && score->day == op->request->when.day)
      return score;
  return NULL;
}

/* A sum of diameters over its count, as the exact quotient it is. */
static void
keep_size (SwRatio size, gint64 *sum, gint64 *count)
{
  *sum = (gint64) size.num;
  *count = (gint64) size.den;
}

static SwScore *
score_row (const SwOperation *op, gint64 tumour, const SwResponse *response)
{
  const SwScore *before = score_of_day (op, tumour);
  const SwFamilyScore *longest = &response->family[SW_FAMILY_LONGEST];
  SwScore *score = before ? sw_fact_correction (before) : sw_new (SW_FACT_SCORE, SwScore);

  score->course = op->c.course;
  score->tumour = tumour;
  score->day = op->request->when.day;
  score->category = response->category;
  keep_size (longest->baseline, &score->baseline_sum, &score->baseline_count);
  keep_size (longest->smallest, &score->smallest_sum, &score->smallest_count);
  score->now_sum = score->now_count = SW_UNKNOWN;
  if (longest->has_now)
    keep_size (longest->now, &score->now_sum, &score->now_count);
  score->wound_open = response->wound_open;
  score->counts_as_day_28 = response->counts_as_day_28;
  g_free (score->next_step);
  score->next_step = g_strdup (sw_finding_code (response->next->code));
  g_free (score->note);
  score->note = g_strdup (op->request->reason);
  return score;
}

static gboolean
score_tumour (SwOperation *op, gint64 tumour, GError **error)
{
  g_autoptr (SwResponse) response = sw_response_of_tumour (&op->c, tumour, op->request->when.day, error);

  if (response == NULL)
    return FALSE;
  sw_operation_add (op, score_row (op, tumour, response));
  sw_operation_take_findings (op, g_ptr_array_ref (response->findings));
  return TRUE;
}

/* A new tumour that only the page knows of makes progress of any answer. */
static void
add_overall (SwOperation *op)
{
  SwOverall *overall = sw_fact_copy (op->request->facts->pdata[0]);
  SwDay day = op->request->when.day;
  SwCategory dog = sw_response_of_dog (&op->c, day, (SwNonTargets) overall->non_targets);
  const SwOverall *before;

  overall->new_tumour = overall->new_tumour || sw_response_new_tumour (&op->c, day);
  overall->category = sw_response_overall (TRUE, dog, SW_NON_TARGETS_NONE, overall->new_tumour != 0);
  overall->fact.patient = op->request->patient;
  before = sw_facts_current_like (&op->dossier->facts, overall);
  if (before != NULL)
    overall->fact.replaces = before->fact.id;
  sw_operation_add (op, overall);
}

gboolean
sw_operate_score (SwOperation *op, GError **error)
{
  g_autoptr (GArray) tumours = NULL;

  if (!sw_operation_has_course (op, error)
      || !sw_operation_not_ahead (op, (SwMoment){ op->request->when.day, 0 }, error))
    return FALSE;
  if (sw_dossier_injection (op->dossier, op->c.course) == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_REFUSED,
                   _("Nothing was injected in this course, so there is no response to score."));
      return FALSE;
    }
  tumours = sw_dossier_course_tumours (op->dossier, op->c.course);
  for (guint i = 0; i < tumours->len; i++)
    if (!score_tumour (op, g_array_index (tumours, gint64, i), error))
      return FALSE;
  add_overall (op);
  return TRUE;
}
