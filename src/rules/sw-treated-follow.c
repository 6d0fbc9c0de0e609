/* sw-treated-follow.c: what became of a treated tumour: lead-in, wound, response, recurrence, end
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-treated-private.h"

#include "sw-lead-in.h"
#include "sw-wide.h"

/* --- lead-in --- */

static void
count_slot (const SwLeadInSlot *slot, SwTreated *row)
{
  row->doses++;
  if (slot->dose == NULL || slot->standing == SW_STANDING_PLANNED || slot->standing == SW_STANDING_DUE
      || slot->standing == SW_STANDING_NOT_KNOWN)
    row->doses_untold++;
  else if (sw_dose_is_lost (slot->standing))
    row->doses_lost++;
  else if (slot->counted != slot->dose)
    row->doses_replaced++;
  else if (slot->standing == SW_STANDING_GIVEN)
    row->doses_on_time++;
  else
    row->doses_late++;
}

void
sw_treated_lead_in (const SwCase *c, SwTreated *row)
{
  g_autoptr (GArray) slots = sw_lead_in_slots (c, row->day);

  for (guint i = 0; i < slots->len; i++)
    count_slot (&g_array_index (slots, SwLeadInSlot, i), row);
}

/* --- wound --- */

/* The last look that found it open, and the first one after it that found it closed. A wound that opened again counts
 * from its last closing. */
void
sw_treated_wound (const SwCase *c, SwTreated *row)
{
  const SwWound *wound;

  for (guint i = 0; (wound = sw_facts_next (&c->dossier->facts, SW_FACT_WOUND, &i)) != NULL;)
    if (wound->course == row->course && wound->tumour == row->tumour && wound->day >= row->day)
      {
        row->wound_looks++;
        if (wound->state != SW_WOUND_CLOSED
            && (row->wound_open_day == SW_UNKNOWN || wound->day > row->wound_open_day))
          row->wound_open_day = wound->day;
      }
  for (guint i = 0; (wound = sw_facts_next (&c->dossier->facts, SW_FACT_WOUND, &i)) != NULL;)
    if (wound->course == row->course && wound->tumour == row->tumour && wound->state == SW_WOUND_CLOSED
        && wound->day >= (row->wound_open_day == SW_UNKNOWN ? row->day : row->wound_open_day)
        && (row->wound_closed_day == SW_UNKNOWN || wound->day < row->wound_closed_day))
      row->wound_closed_day = wound->day;
}

/* --- response --- */

/* Of the scores that count as day 28 the last one that could judge stands, else the last. */
static gboolean
stands_instead (const SwScore *score, const SwScore *before)
{
  gboolean judges = score->category != SW_CATEGORY_NOT_EVALUABLE;

  if (before == NULL || judges != (before->category != SW_CATEGORY_NOT_EVALUABLE))
    return before == NULL || judges;
  return score->day >= before->day;
}

/* Change against baseline as one fraction, kept when it is the smallest so far. */
static void
keep_best (SwTreated *row, const SwScore *score)
{
  gint64 den, num;

  if (score->now_sum == SW_UNKNOWN || score->now_count == SW_UNKNOWN || score->category == SW_CATEGORY_RECURRENCE)
    return;
  den = score->baseline_sum * score->now_count;
  num = score->now_sum * score->baseline_count - den;
  if (den <= 0)
    return;
  if (row->best_den == SW_UNKNOWN || (SwWide) num * row->best_den < (SwWide) row->best_num * den)
    {
      row->best_num = num;
      row->best_den = den;
    }
}

static void
fill_scores (const SwDossier *dossier, SwTreated *row)
{
  const SwScore *score, *counting = NULL;

  for (guint i = 0; (score = sw_facts_next (&dossier->facts, SW_FACT_SCORE, &i)) != NULL;)
    if (score->course == row->course && score->tumour == row->tumour)
      {
        row->scores++;
        keep_best (row, score);
        if (score->counts_as_day_28 && stands_instead (score, counting))
          counting = score;
        if (score->category == SW_CATEGORY_COMPLETE && (row->clear_day == SW_UNKNOWN || score->day < row->clear_day))
          row->clear_day = score->day;
      }
  if (counting != NULL)
    row->category = counting->category;
}

/* --- after a complete response --- */

static void
keep_recurrence (SwTreated *row, SwDay day, gint64 sampled)
{
  if (day <= row->clear_day || (row->recurrence_day != SW_UNKNOWN && row->recurrence_day < day))
    return;
  row->sampled = row->recurrence_day == day ? MAX (row->sampled, sampled) : sampled;
  row->recurrence_day = day;
}

static void
fill_recurrence (const SwDossier *dossier, SwTreated *row)
{
  const SwRecurrence *recurrence;
  const SwScore *score;

  for (guint i = 0; (recurrence = sw_facts_next (&dossier->facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    if (recurrence->tumour == row->tumour)
      keep_recurrence (row, recurrence->day, recurrence->sampled);
  for (guint i = 0; (score = sw_facts_next (&dossier->facts, SW_FACT_SCORE, &i)) != NULL;)
    if (score->tumour == row->tumour && score->category == SW_CATEGORY_RECURRENCE && row->recurrence_day == SW_UNKNOWN)
      keep_recurrence (row, score->day, FALSE);
}

static void
keep_clear (SwTreated *row, SwDay day)
{
  if (day >= row->last_clear_day && (row->recurrence_day == SW_UNKNOWN || day < row->recurrence_day))
    row->last_clear_day = day;
}

static void
fill_clear_looks (const SwDossier *dossier, SwTreated *row)
{
  const SwLook *look;
  const SwScore *score;

  row->last_clear_day = row->clear_day;
  for (guint i = 0; (look = sw_facts_next (&dossier->facts, SW_FACT_LOOK, &i)) != NULL;)
    if (look->tumour == row->tumour && look->state == SW_LOOK_GONE)
      keep_clear (row, look->day);
  for (guint i = 0; (score = sw_facts_next (&dossier->facts, SW_FACT_SCORE, &i)) != NULL;)
    if (score->tumour == row->tumour && score->category == SW_CATEGORY_COMPLETE)
      keep_clear (row, score->day);
}

/* --- the end --- */

static void
fill_end (const SwDossier *dossier, SwTreated *row)
{
  const SwCourseEnd *end;

  for (guint i = 0; (end = sw_facts_next (&dossier->facts, SW_FACT_COURSE_END, &i)) != NULL;)
    {
      gboolean dead = end->end == SW_END_DIED || end->end == SW_END_EUTHANISED;

      if (end->course == row->course)
        {
          row->end = end->end;
          row->end_cause = end->cause;
          row->end_day = end->day;
        }
      if (dead && (row->died_day == SW_UNKNOWN || end->day < row->died_day))
        row->died_day = end->day;
    }
}

void
sw_treated_follow (const SwCase *c, SwTreated *row)
{
  fill_scores (c->dossier, row);
  fill_end (c->dossier, row);
  if (row->clear_day == SW_UNKNOWN)
    return;
  fill_recurrence (c->dossier, row);
  fill_clear_looks (c->dossier, row);
}
