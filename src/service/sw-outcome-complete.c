/* sw-outcome-complete.c: how often it worked: complete response at day 28
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-proportion.h"
#include "sw-values.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* --- how one tumour counts --- */

static SwAnswerAt28
answer_of_end (const SwOutcomeRun *run, const SwTreated *row)
{
  switch ((SwEnd) row->end)
    {
    case SW_END_DIED:
    case SW_END_EUTHANISED:
      return row->end_cause == SW_DEATH_TREATMENT ? SW_ANSWER_DIED_OF_IT : SW_ANSWER_DIED;
    case SW_END_LOST:
    case SW_END_WITHDRAWN:
    case SW_END_TRANSFERRED:
      return SW_ANSWER_LOST;
    case SW_END_COMPLETED:
    case SW_END_STOPPED:
    case SW_N_ENDS:
      break;
    }
  return SW_ANSWER_NOT_SCORED;
}

/* An end counts here when it came before the days of the score were over. */
SwAnswerAt28
sw_answer_at_28 (const SwOutcomeRun *run, const SwTreated *row)
{
  gboolean ended = row->end != SW_UNKNOWN && row->end_day <= row->window_last;

  if (row->category == SW_CATEGORY_COMPLETE)
    return SW_ANSWER_COMPLETE;
  if (row->category != SW_UNKNOWN && row->category != SW_CATEGORY_NOT_EVALUABLE)
    return SW_ANSWER_LESS;
  if (ended && answer_of_end (run, row) == SW_ANSWER_DIED_OF_IT)
    return SW_ANSWER_DIED_OF_IT;
  if (run->today <= row->window_last && !ended)
    return SW_ANSWER_NOT_DUE;
  if (row->category == SW_CATEGORY_NOT_EVALUABLE)
    return SW_ANSWER_NOT_EVALUABLE;
  return ended ? answer_of_end (run, row) : SW_ANSWER_NOT_SCORED;
}

static gboolean
is_scored (SwAnswerAt28 answer)
{
  return answer == SW_ANSWER_COMPLETE || answer == SW_ANSWER_LESS || answer == SW_ANSWER_DIED_OF_IT;
}

/* --- a sum of answers, of tumours or of dogs --- */

typedef struct
{
  gint64 n[SW_N_ANSWERS];
  GArray *rows[SW_N_ANSWERS];
  GArray *scored, *all;
} Tally;

static void
tally_init (Tally *tally)
{
  *tally = (Tally){ .scored = sw_places_new (), .all = sw_places_new () };
  for (guint i = 0; i < SW_N_ANSWERS; i++)
    tally->rows[i] = sw_places_new ();
}

static void
tally_clear (Tally *tally)
{
  for (guint i = 0; i < SW_N_ANSWERS; i++)
    g_array_unref (tally->rows[i]);
  g_array_unref (tally->scored);
  g_array_unref (tally->all);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Tally, tally_clear)

static void
tally_place (Tally *tally, SwAnswerAt28 answer, guint place)
{
  sw_places_add (tally->rows[answer], place);
  if (answer != SW_ANSWER_NOT_DUE)
    sw_places_add (tally->all, place);
  if (is_scored (answer))
    sw_places_add (tally->scored, place);
}

static gint64
n_scored (const Tally *tally)
{
  return tally->n[SW_ANSWER_COMPLETE] + tally->n[SW_ANSWER_LESS] + tally->n[SW_ANSWER_DIED_OF_IT];
}

static gint64
n_all (const Tally *tally)
{
  gint64 all = 0;

  for (guint i = 0; i < SW_N_ANSWERS; i++)
    all += i != SW_ANSWER_NOT_DUE ? tally->n[i] : 0;
  return all;
}

static const struct
{
  const char *code;
  const char *reason;
} unscored[SW_N_ANSWERS] = {
  [SW_ANSWER_NOT_DUE] = { "not-due", N_("not due yet") },
  [SW_ANSWER_NOT_EVALUABLE] = { "not-evaluable", N_("scored, not evaluable") },
  [SW_ANSWER_DIED] = { "died", N_("died before the score, not of the treatment") },
  [SW_ANSWER_LOST] = { "lost", N_("lost, withdrawn or moved away before the score") },
  [SW_ANSWER_NOT_SCORED] = { "not-scored", N_("never scored on days that count") },
};

static void
leave_out (SwOutcomeGroup *group, const Tally *tally)
{
  for (guint i = 0; i < SW_N_ANSWERS; i++)
    if (unscored[i].code != NULL)
      sw_outcome_group_leave_out (group, unscored[i].code, _(unscored[i].reason), g_array_ref (tally->rows[i]));
}

/* x/scored, x/all and (x + not scored)/all side by side: the truth about those never scored lies between the last
 * two. */
static gboolean
add_shares (const SwOutcomeRun *run, SwOutcomeGroup *group, const Tally *tally, GError **error)
{
  gint64 x = tally->n[SW_ANSWER_COMPLETE], scored = n_scored (tally), all = n_all (tally);
  SwOutcomeFigure *of_scored
      = sw_outcome_share_of (run, "of-scored", _("of those scored"), x, scored, tally->scored, error);
  SwOutcomeFigure *of_all
      = of_scored ? sw_outcome_share_of (run, "of-all", _("of all, as if none of the unscored were complete"), x, all,
                                         tally->all, error)
                  : NULL;
  SwOutcomeFigure *at_most
      = of_all ? sw_outcome_share_of (run, "at-most", _("of all, as if all of the unscored were complete"),
                                      x + all - scored, all, tally->all, error)
               : NULL;

  if (of_scored != NULL)
    sw_outcome_group_take (group, of_scored);
  if (of_all != NULL)
    sw_outcome_group_take (group, of_all);
  if (at_most != NULL)
    sw_outcome_group_take (group, at_most);
  leave_out (group, tally);
  return at_most != NULL;
}

/* --- comparisons --- */

/* What was published is of first injections: with later ones among them the own share is another thing. */
static gboolean
add_published (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomeFigure *own, GError **error)
{
  const SwDefinition *published;
  g_autofree char *exact_label = NULL, *fisher_label = NULL;
  SwOutcomeFigure *exact, *fisher;

  if (run->query->published == SW_N_DEFINITIONS || run->query->split == SW_SPLIT_REPEAT || own->n == 0)
    return TRUE;
  published = sw_definition (run->query->published);
  exact_label = g_strdup_printf (_("against %d of %d (%s; %s), that share taken as known: exact binomial test"),
                                 (int) published->num, (int) published->den, published->source, published->mark);
  fisher_label = g_strdup_printf (_("the same, both counts taken as samples: Fisher's exact test"));
  exact = sw_outcome_figure_new (SW_FIGURE_P, "published-binomial", exact_label);
  fisher = sw_outcome_figure_new (SW_FIGURE_P, "published-fisher", fisher_label);
  g_ptr_array_add (section->tests, exact);
  g_ptr_array_add (section->tests, fisher);
  exact->x = fisher->x = own->x;
  exact->n = fisher->n = own->n;
  exact->rows = g_array_ref (own->rows);
  fisher->rows = g_array_ref (own->rows);
  return sw_binomial_test (own->x, own->n, (double) published->num / (double) published->den, &exact->value, error)
         && sw_fisher_exact_test (own->x, own->n, published->num, published->den, &fisher->value, error);
}

/* Two parts of a split against each other. */
static gboolean
add_between (SwOutcomeSection *section, GError **error)
{
  const SwOutcomeGroup *first, *second;
  const SwOutcomeFigure *a, *b;
  g_autofree char *label = NULL;
  SwOutcomeFigure *test;

  if (section->groups->len != 1 + 2)
    return TRUE;
  first = section->groups->pdata[1];
  second = section->groups->pdata[2];
  a = first->figures->pdata[0];
  b = second->figures->pdata[0];
  if (a->n == 0 || b->n == 0)
    return TRUE;
  label = g_strdup_printf (_("%s against %s: Fisher's exact test"), first->label, second->label);
  test = sw_outcome_figure_new (SW_FIGURE_P, "between", label);
  test->n = a->n + b->n;
  g_ptr_array_add (section->tests, test);
  return sw_fisher_exact_test (a->x, a->n, b->x, b->n, &test->value, error);
}

/* --- bars --- */

static void
add_bar (SwChart *chart, GString *words, const SwOutcomeGroup *group)
{
  const SwOutcomeFigure *figure = group->figures->pdata[0];
  g_autofree char *text = sw_outcome_figure_text (figure);

  sw_chart_series_point (sw_chart_add_series (chart, group->label, figure->n), 0, figure->value, figure->lo,
                         figure->hi);
  g_string_append_printf (words, "%s%s: %s", words->len > 0 ? "; " : "", group->label, text);
}

static void
add_bars (SwOutcomeSection *section)
{
  g_autoptr (GString) words = g_string_new (NULL);
  SwChart *chart = sw_chart_new (SW_CHART_BARS, section->code, section->title);

  chart->percent = TRUE;
  chart->y_hi = 1;
  chart->y_title = g_strdup (_("complete response of those scored, %"));
  for (guint i = 0; i < section->groups->len; i++)
    add_bar (chart, words, section->groups->pdata[i]);
  chart->words = g_string_free (g_steal_pointer (&words), FALSE);
  g_ptr_array_add (section->charts, chart);
}

static void
finish (SwOutcomeSection *section)
{
  const SwOutcomeGroup *all = section->groups->pdata[0];

  if (((const SwOutcomeFigure *) all->figures->pdata[0])->n > 0)
    add_bars (section);
  else
    section->empty = g_strdup (_("No treated tumour has been scored on days that count yet."));
}

typedef void (*CountFunc) (const SwOutcomeRun *run, const SwOutcomePart *part, Tally *tally);

static gboolean
fill (const SwOutcomeRun *run, SwOutcomeSection *section, CountFunc count, GError **error)
{
  for (guint i = 0; i < run->parts->len; i++)
    {
      const SwOutcomePart *part = run->parts->pdata[i];
      g_auto (Tally) tally = { .scored = NULL };

      tally_init (&tally);
      count (run, part, &tally);
      if (!add_shares (run, sw_outcome_add_group (section, part, n_scored (&tally)), &tally, error))
        return FALSE;
    }
  finish (section);
  return add_between (section, error);
}

/* --- each injected tumour --- */

/* Told apart by repeat, or filtered by it, each injection counts; else only first ones. */
static gboolean
counts_here (const SwOutcomeRun *run, const SwTreated *row)
{
  return row->injection == 1 || run->query->split == SW_SPLIT_REPEAT || run->query->only[SW_SPLIT_REPEAT] != NULL;
}

static void
count_tumours (const SwOutcomeRun *run, const SwOutcomePart *part, Tally *tally)
{
  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      SwAnswerAt28 answer = sw_answer_at_28 (run, row);

      if (!counts_here (run, row))
        continue;
      tally->n[answer]++;
      tally_place (tally, answer, g_array_index (part->rows, guint, i));
    }
}

SwOutcomeSection *
sw_outcome_complete (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "complete", _("Complete response at day 28, per tumour"),
      _("Each tumour after its first injection (told apart by repeat: after each). The score that counts is the last "
         "one on the protocol's days for day 28 (25 to 35 in the shipped documents) that could judge the site. Dead of "
         "the treatment before the score is a failure. Not due yet: those days are not over."));
  const SwOutcomeGroup *all;

  if (!fill (run, section, count_tumours, error))
    return NULL;
  all = section->groups->pdata[0];
  return add_published (run, section, all->figures->pdata[0], error) ? g_steal_pointer (&section) : NULL;
}

/* --- after one or two injections --- */

/* The row of the same tumour whose injection is the next one; NULL: it had none. */
static const SwTreated *
second_of (GHashTable *seconds, const SwTreated *row)
{
  return g_hash_table_lookup (seconds, &row->tumour);
}

/* Second injections of any period, by tumour: what followed the chosen first ones. A tumour that came back and was
 * treated anew keeps its first pair. */
static GHashTable *
index_seconds (const GArray *rows)
{
  GHashTable *seconds = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < rows->len; i++)
    {
      SwTreated *row = &g_array_index (rows, SwTreated, i);

      if (row->injection == 2 && !g_hash_table_contains (seconds, &row->tumour))
        g_hash_table_insert (seconds, &row->tumour, row);
    }
  return seconds;
}

static SwAnswerAt28
answer_after_two (const SwOutcomeRun *run, GHashTable *seconds, const SwTreated *first)
{
  SwAnswerAt28 answer = sw_answer_at_28 (run, first);
  const SwTreated *second = answer == SW_ANSWER_COMPLETE ? NULL : second_of (seconds, first);

  return second != NULL && second->day >= first->day ? sw_answer_at_28 (run, second) : answer;
}

static void
count_two (const SwOutcomeRun *run, const SwOutcomePart *part, Tally *tally)
{
  g_autoptr (GHashTable) seconds = index_seconds (run->rows);

  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      SwAnswerAt28 answer;

      if (row->injection != 1)
        continue;
      answer = answer_after_two (run, seconds, row);
      tally->n[answer]++;
      tally_place (tally, answer, g_array_index (part->rows, guint, i));
    }
}

SwOutcomeSection *
sw_outcome_complete_two (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "complete-two", _("Complete response after one or two injections, per tumour"),
      _("Each tumour counts once, from its first injection in the period. Complete at day 28 of the first injection, "
         "or, if it was injected a second time, as it was at day 28 of the second, whenever that was. A tumour that is "
         "less than complete and was not injected again counts as less."));

  return fill (run, section, count_two, error) ? g_steal_pointer (&section) : NULL;
}

/* --- per dog --- */

/* The tumours of one course together: complete when all are; less when any is; else what stands in the way. */
static SwAnswerAt28
join (SwAnswerAt28 one, SwAnswerAt28 other)
{
  static const SwAnswerAt28 first[]
      = { SW_ANSWER_DIED_OF_IT, SW_ANSWER_LESS,       SW_ANSWER_NOT_DUE,      SW_ANSWER_DIED,
          SW_ANSWER_LOST,       SW_ANSWER_NOT_SCORED, SW_ANSWER_NOT_EVALUABLE };

  for (guint i = 0; i < G_N_ELEMENTS (first); i++)
    if (one == first[i] || other == first[i])
      return first[i];
  return SW_ANSWER_COMPLETE;
}

static void
count_dogs (const SwOutcomeRun *run, const SwOutcomePart *part, Tally *tally)
{
  const SwTreated *before = NULL;
  SwAnswerAt28 answer = SW_ANSWER_COMPLETE;
  guint place = 0;

  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);

      if (!counts_here (run, row))
        continue;
      if (before != NULL && before->course != row->course)
        {
          tally->n[answer]++;
          tally_place (tally, answer, place);
        }
      answer = before != NULL && before->course == row->course ? join (answer, sw_answer_at_28 (run, row))
                                                               : sw_answer_at_28 (run, row);
      place = g_array_index (part->rows, guint, i);
      before = row;
    }
  if (before == NULL)
    return;
  tally->n[answer]++;
  tally_place (tally, answer, place);
}

SwOutcomeSection *
sw_outcome_complete_dog (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "complete-dog", _("Complete response at day 28, per dog"),
      _("Each course of a dog counts once, with its tumours that the filters choose: complete when all of them are, "
         "less when any is. Otherwise counted as per tumour."));

  return fill (run, section, count_dogs, error) ? g_steal_pointer (&section) : NULL;
}
