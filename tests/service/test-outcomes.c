/* test-outcomes.c: each figure of the outcomes, on treated tumours made for it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-csv.h"
#include "sw-demo.h"
#include "sw-outcomes.h"
#include "sw-record.h"
#include "sw-store.h"

#include <math.h>
#include <string.h>

#define TODAY 20783
#define DAY_0 20600 /* its day 28 is long over */

static GArray *rows;
static SwPractice *practice;
static SwOutcomeQuery *query;

static void
set_up (void)
{
  rows = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  practice = sw_practice_new ();
  query = sw_outcome_query_new ();
}

static void
tear_down (void)
{
  g_array_unref (rows);
  sw_practice_free (practice);
  sw_outcome_query_free (query);
}

/* A first injection into the only tumour of a new dog; later changes go through the pointer, before the next call. */
static SwTreated *
add_row (gint64 category)
{
  SwTreated row = { 0 };
  const SwTreatedField *fields;
  guint n;

  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].nullable && !fields[i].text)
      sw_treated_set_int (&row, &fields[i], SW_UNKNOWN);
  row.course = row.tumour = row.patient = rows->len + 1;
  row.course_number = row.tumours = row.place = row.injection = row.injector = 1;
  row.agent = g_intern_static_string ("tigilanol tiglate");
  row.day = DAY_0 + rows->len;
  row.window_last = row.day + 35;
  row.category = category;
  g_array_append_val (rows, row);
  return &g_array_index (rows, SwTreated, rows->len - 1);
}

static void
add_rows (guint n, gint64 category)
{
  for (guint i = 0; i < n; i++)
    add_row (category);
}

static SwOutcomes *
compute (void)
{
  g_autoptr (GError) error = NULL;
  SwOutcomes *outcomes = sw_outcomes_compute (rows, practice, query, TODAY, NULL, NULL, NULL, &error);

  ck_assert_msg (outcomes != NULL, "%s", error ? error->message : "");
  return outcomes;
}

static const SwOutcomeSection *
section_of (const SwOutcomes *outcomes, const char *code)
{
  for (guint i = 0; i < outcomes->sections->len; i++)
    {
      const SwOutcomeSection *section = outcomes->sections->pdata[i];

      if (g_str_equal (section->code, code))
        return section;
    }
  ck_abort_msg ("no section %s", code);
}

static const SwOutcomeGroup *
group_of (const SwOutcomes *outcomes, const char *section_code, const char *code)
{
  const SwOutcomeSection *section = section_of (outcomes, section_code);

  for (guint i = 0; i < section->groups->len; i++)
    {
      const SwOutcomeGroup *group = section->groups->pdata[i];

      if (g_str_equal (group->code, code))
        return group;
    }
  ck_abort_msg ("no group %s in %s", code, section_code);
}

static const SwOutcomeFigure *
find (const GPtrArray *figures, const char *code)
{
  for (guint i = 0; i < figures->len; i++)
    {
      const SwOutcomeFigure *figure = figures->pdata[i];

      if (g_str_equal (figure->code, code))
        return figure;
    }
  return NULL;
}

static const SwOutcomeFigure *
figure_of (const SwOutcomes *outcomes, const char *section, const char *group, const char *code)
{
  const SwOutcomeFigure *figure = find (group_of (outcomes, section, group)->figures, code);

  ck_assert_msg (figure != NULL, "no figure %s in %s", code, section);
  return figure;
}

static void
assert_share (const SwOutcomes *outcomes, const char *section, const char *group, const char *code, gint64 x, gint64 n)
{
  const SwOutcomeFigure *figure = figure_of (outcomes, section, group, code);

  ck_assert_msg (figure->x == x && figure->n == n, "%s %s %s: %d of %d, not %d of %d", section, group, code,
                 (int) figure->x, (int) figure->n, (int) x, (int) n);
}

static guint
n_left_out (const SwOutcomes *outcomes, const char *section, const char *code)
{
  const SwOutcomeGroup *group = group_of (outcomes, section, "all");

  for (guint i = 0; i < group->left_out->len; i++)
    {
      const SwLeftOut *left_out = group->left_out->pdata[i];

      if (g_str_equal (left_out->code, code))
        return left_out->rows->len;
    }
  return 0;
}

static gboolean
near (double a, double b, double most)
{
  return fabs (a - b) <= most;
}

/* --- complete response --- */

START_TEST (nothing_treated_has_reasons_and_no_figure_that_lies)
{
  g_autoptr (SwOutcomes) outcomes = compute ();

  for (guint i = 0; i < outcomes->sections->len; i++)
    ck_assert_ptr_nonnull (((const SwOutcomeSection *) outcomes->sections->pdata[i])->empty);
  assert_share (outcomes, "complete", "all", "of-scored", 0, 0);
}
END_TEST

/* 26 of 32 scored: Wilson .6469 to .9111, Clopper-Pearson .6356 to .9279. Source: Brown 2022, doi
 * 10.3389/fvets.2022.1003165 for the counts; limits computed independently. */
START_TEST (a_share_has_both_pairs_of_limits)
{
  g_autoptr (SwOutcomes) outcomes = NULL;
  const SwOutcomeFigure *figure;

  add_rows (26, SW_CATEGORY_COMPLETE);
  add_rows (6, SW_CATEGORY_PARTIAL);
  outcomes = compute ();
  figure = figure_of (outcomes, "complete", "all", "of-scored");
  ck_assert_int_eq (figure->x, 26);
  ck_assert_int_eq (figure->n, 32);
  ck_assert (near (figure->lo, .6469, 5e-5) && near (figure->hi, .9111, 5e-5));
  ck_assert (near (figure->exact_lo, .6356, 5e-5) && near (figure->exact_hi, .9279, 5e-5));
  ck_assert_uint_eq (figure->rows->len, 32);
  ck_assert (!group_of (outcomes, "complete", "all")->few);
  /* against itself nothing speaks: every outcome is as likely or less */
  figure = find (section_of (outcomes, "complete")->tests, "published-fisher");
  ck_assert (near (figure->value, 1, 1e-9));
}
END_TEST

START_TEST (who_was_not_scored_is_counted_and_told)
{
  g_autoptr (SwOutcomes) outcomes = NULL;
  SwTreated *row;

  add_rows (3, SW_CATEGORY_COMPLETE);
  add_row (SW_CATEGORY_STABLE);
  add_row (SW_CATEGORY_NOT_EVALUABLE);
  add_row (SW_UNKNOWN); /* never scored */
  row = add_row (SW_UNKNOWN);
  row->window_last = TODAY; /* not due: the last day is not over */
  row = add_row (SW_UNKNOWN);
  row->end = SW_END_DIED;
  row->end_cause = SW_DEATH_TREATMENT;
  row->end_day = row->day + 3; /* a failure */
  row = add_row (SW_UNKNOWN);
  row->end = SW_END_DIED;
  row->end_cause = SW_DEATH_OTHER;
  row->end_day = row->day + 9;
  row = add_row (SW_UNKNOWN);
  row->end = SW_END_LOST;
  row->end_day = row->day + 20;
  row = add_row (SW_UNKNOWN);
  row->end = SW_END_DIED;
  row->end_cause = SW_DEATH_TREATMENT;
  row->end_day = row->window_last + 1; /* after those days: simply never scored */
  outcomes = compute ();
  assert_share (outcomes, "complete", "all", "of-scored", 3, 5);
  assert_share (outcomes, "complete", "all", "of-all", 3, 10);
  assert_share (outcomes, "complete", "all", "at-most", 8, 10);
  ck_assert_uint_eq (n_left_out (outcomes, "complete", "not-due"), 1);
  ck_assert_uint_eq (n_left_out (outcomes, "complete", "not-evaluable"), 1);
  ck_assert_uint_eq (n_left_out (outcomes, "complete", "died"), 1);
  ck_assert_uint_eq (n_left_out (outcomes, "complete", "lost"), 1);
  ck_assert_uint_eq (n_left_out (outcomes, "complete", "not-scored"), 2);
  ck_assert (group_of (outcomes, "complete", "all")->few);
}
END_TEST

static void
add_second (gint64 tumour, gint64 category)
{
  SwTreated *row = add_row (category);

  row->tumour = tumour;
  row->injection = 2;
}

START_TEST (one_and_two_injections)
{
  g_autoptr (SwOutcomes) outcomes = NULL, apart = NULL;

  add_row (SW_CATEGORY_PARTIAL);
  add_row (SW_CATEGORY_PARTIAL);
  add_row (SW_CATEGORY_COMPLETE);
  add_second (1, SW_CATEGORY_COMPLETE);
  outcomes = compute ();
  assert_share (outcomes, "complete", "all", "of-scored", 1, 3);
  assert_share (outcomes, "complete-two", "all", "of-scored", 2, 3);
  query->split = SW_SPLIT_REPEAT;
  apart = compute ();
  assert_share (apart, "complete", "all", "of-scored", 2, 4);
  assert_share (apart, "complete", "first", "of-scored", 1, 3);
  assert_share (apart, "complete", "second", "of-scored", 1, 1);
  ck_assert_ptr_nonnull (find (section_of (outcomes, "complete")->tests, "published-binomial"));
  ck_assert_ptr_null (find (section_of (apart, "complete")->tests, "published-binomial"));
  ck_assert_ptr_null (find (section_of (apart, "complete-two")->tests, "between"));
}
END_TEST

START_TEST (a_dog_is_complete_when_all_its_tumours_are)
{
  g_autoptr (SwOutcomes) outcomes = NULL;

  add_row (SW_CATEGORY_COMPLETE);
  add_row (SW_CATEGORY_COMPLETE)->course = 1;
  add_row (SW_CATEGORY_COMPLETE);
  add_row (SW_CATEGORY_STABLE)->course = 3;
  add_row (SW_CATEGORY_COMPLETE);
  add_row (SW_UNKNOWN)->course = 5;
  outcomes = compute ();
  assert_share (outcomes, "complete", "all", "of-scored", 4, 5);
  assert_share (outcomes, "complete-dog", "all", "of-scored", 1, 2);
  assert_share (outcomes, "complete-dog", "all", "of-all", 1, 3);
}
END_TEST

START_TEST (period_filter_and_split)
{
  g_autoptr (SwOutcomes) outcomes = NULL, filtered = NULL, late = NULL;
  const SwOutcomeFigure *test;

  for (guint i = 0; i < 8; i++)
    add_row (i < 2 ? SW_CATEGORY_STABLE : SW_CATEGORY_COMPLETE)->grade
        = g_intern_string (i % 2 == 0 ? "kiupel-low" : "kiupel-high");
  query->split = SW_SPLIT_GRADE;
  outcomes = compute ();
  assert_share (outcomes, "complete", "all", "of-scored", 6, 8);
  assert_share (outcomes, "complete", "kiupel-low", "of-scored", 3, 4);
  assert_share (outcomes, "complete", "kiupel-high", "of-scored", 3, 4);
  test = find (section_of (outcomes, "complete")->tests, "between");
  ck_assert (near (test->value, 1, 1e-9));
  query->split = SW_SPLIT_NONE;
  query->only[SW_SPLIT_GRADE] = g_strdup ("kiupel-low");
  filtered = compute ();
  assert_share (filtered, "complete", "all", "of-scored", 3, 4);
  query->from = DAY_0 + 2;
  query->to = DAY_0 + 4;
  late = compute ();
  assert_share (late, "complete", "all", "of-scored", 2, 2);
}
END_TEST

/* --- times --- */

/* Six clear tumours with the times 2 3+ 4 5 7+ 9 days: by hand 5/6, then 5/6 x 3/4, x 2/3, x 0. */
START_TEST (free_of_recurrence_is_kaplan_meier)
{
  static const int days[] = { 2, 3, 4, 5, 7, 9 };
  g_autoptr (SwOutcomes) outcomes = NULL;
  const SwChartSeries *series;
  static const double wanted[] = { 1, 5 / 6., 5 / 8., 5 / 12., 0 };

  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      SwTreated *row = add_row (SW_CATEGORY_COMPLETE);
      gboolean censored = days[i] == 3 || days[i] == 7;

      row->clear_day = row->day + 28;
      row->last_clear_day = row->clear_day + (censored ? days[i] : 0);
      row->recurrence_day = censored ? SW_UNKNOWN : row->clear_day + days[i];
      row->sampled = censored ? SW_UNKNOWN : days[i] != 4;
    }
  add_row (SW_CATEGORY_STABLE);
  outcomes = compute ();
  assert_share (outcomes, "recurrence", "all", "came-back", 4, 6);
  ck_assert_int_eq (figure_of (outcomes, "recurrence", "all", "presumed")->x, 1);
  ck_assert (near (figure_of (outcomes, "recurrence", "all", "median")->value, 5, 1e-12));
  ck_assert_uint_eq (n_left_out (outcomes, "recurrence", "never-complete"), 1);
  series = ((const SwChart *) section_of (outcomes, "recurrence")->charts->pdata[0])->series->pdata[0];
  ck_assert_uint_eq (series->points->len, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    ck_assert (near (g_array_index (series->points, SwChartPoint, i).y, wanted[i], 1e-12));
  ck_assert_uint_eq (series->marks->len, 2);
}
END_TEST

START_TEST (nobody_followed_so_long_gives_no_figure)
{
  g_autoptr (SwOutcomes) outcomes = NULL;
  SwTreated *row = add_row (SW_CATEGORY_COMPLETE);

  row->clear_day = row->day + 28;
  row->last_clear_day = row->clear_day + 100;
  outcomes = compute ();
  ck_assert (isnan (figure_of (outcomes, "recurrence", "all", "free-182")->value));
  ck_assert (isnan (figure_of (outcomes, "recurrence", "all", "median")->value));
}
END_TEST

START_TEST (a_death_competes)
{
  g_autoptr (SwOutcomes) outcomes = NULL;

  for (guint i = 0; i < 4; i++)
    {
      SwTreated *row = add_row (SW_CATEGORY_COMPLETE);

      row->clear_day = row->day + 28;
      row->last_clear_day = row->clear_day + 400;
      if (i == 0)
        row->died_day = row->clear_day + 100;
      if (i == 1)
        row->recurrence_day = row->clear_day + 200;
    }
  outcomes = compute ();
  ck_assert (near (figure_of (outcomes, "recurrence", "all", "came-back-within")->value, .25, 1e-12));
  ck_assert (near (figure_of (outcomes, "recurrence", "all", "died-within")->value, .25, 1e-12));
}
END_TEST

START_TEST (wounds_close_between_visits)
{
  g_autoptr (SwOutcomes) outcomes = NULL;
  const SwOutcomeFigure *figure;

  for (guint i = 0; i < 4; i++)
    {
      SwTreated *row = add_row (SW_UNKNOWN);

      row->wound_looks = 3;
      row->wound_open_day = row->day + 14;
      row->wound_closed_day = i < 3 ? row->day + 32 : SW_UNKNOWN;
    }
  g_array_index (rows, SwTreated, 3).wound_open_day = DAY_0 + 3 + 90;
  add_row (SW_UNKNOWN);
  outcomes = compute ();
  figure = figure_of (outcomes, "healing", "all", "closed-28");
  ck_assert (near (figure->value, 0, 1e-9) && near (figure->value_to, .75, 1e-9));
  figure = figure_of (outcomes, "healing", "all", "closed-42");
  ck_assert (near (figure->value, .75, 1e-9) && near (figure->value_to, .75, 1e-9));
  figure = figure_of (outcomes, "healing", "all", "median");
  ck_assert (near (figure->value, 14, 0) && near (figure->value_to, 32, 0));
  ck_assert_uint_eq (n_left_out (outcomes, "healing", "not-seen"), 1);
}
END_TEST

/* All of 10 closed: the bootstrap would say 100 to 100 %; exact limits of 10 of 10 are 69.15 to 100 %. */
START_TEST (all_closed_is_no_certainty)
{
  g_autoptr (SwOutcomes) outcomes = NULL;
  const SwOutcomeFigure *figure;

  for (guint i = 0; i < 10; i++)
    {
      SwTreated *row = add_row (SW_UNKNOWN);

      row->wound_looks = 2;
      row->wound_open_day = row->day + 14;
      row->wound_closed_day = row->day + 28;
    }
  outcomes = compute ();
  figure = figure_of (outcomes, "healing", "all", "closed-42");
  ck_assert (near (figure->lo, .691503, 1e-6) && near (figure->hi, 1, 0));
}
END_TEST

/* --- the rest --- */

START_TEST (best_change_falls_from_left_to_right)
{
  static const gint64 changes[] = { -100, 20, -30 };
  g_autoptr (SwOutcomes) outcomes = NULL;
  const SwChartSeries *series;

  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      SwTreated *row = add_row (SW_CATEGORY_STABLE);

      row->best_num = changes[i];
      row->best_den = 100;
    }
  outcomes = compute ();
  ck_assert (near (figure_of (outcomes, "change", "all", "median-change")->value, -30, 1e-12));
  series = ((const SwChart *) section_of (outcomes, "change")->charts->pdata[0])->series->pdata[0];
  ck_assert (near (g_array_index (series->points, SwChartPoint, 0).y, .2, 1e-12));
  ck_assert (near (g_array_index (series->points, SwChartPoint, 2).y, -1, 1e-12));
}
END_TEST

START_TEST (two_readers)
{
  g_autoptr (SwOutcomes) outcomes = NULL;

  for (guint i = 0; i < 3; i++)
    {
      SwTreated *row = add_row (SW_UNKNOWN);

      row->reader_a = i == 0 ? 2 : 1; /* who reads first does not matter to the ICC */
      row->reader_b = i == 0 ? 1 : 2;
      row->longest_a = 2000 + 100 * i;
      row->longest_b = 1900 + 100 * i;
      row->longest_again = row->longest_a;
    }
  outcomes = compute ();
  ck_assert (near (figure_of (outcomes, "readings", "all", "mean-difference")->value, 1, 1e-9));
  ck_assert (near (figure_of (outcomes, "readings", "all", "error-between")->value, sqrt (.5), 1e-9));
  ck_assert (near (figure_of (outcomes, "readings", "all", "error-within")->value, 0, 1e-12));
  ck_assert_int_eq (figure_of (outcomes, "readings", "all", "icc-2-1")->n, 3);
}
END_TEST

/* Rates .20 and .40, alpha = beta = .1: a failure adds 1 - .29330. Source: tests/stats (after Kestin 1995, memory). */
START_TEST (drift_runs_in_order_of_treatment)
{
  g_autoptr (SwOutcomes) outcomes = NULL;

  add_rows (3, SW_CATEGORY_STABLE);
  add_rows (1, SW_CATEGORY_COMPLETE);
  g_array_index (rows, SwTreated, 3).day = DAY_0 - 1; /* the success came first */
  outcomes = compute ();
  ck_assert (near (figure_of (outcomes, "drift", "all", "sum")->value, 3 - 4 * .29330, 5e-5));
  ck_assert (isnan (figure_of (outcomes, "drift", "all", "worse-at")->value));
}
END_TEST

START_TEST (what_a_course_took_counts_once)
{
  g_autoptr (SwOutcomes) outcomes = NULL;

  for (guint i = 0; i < 2; i++)
    {
      SwTreated *row = add_row (SW_UNKNOWN);

      row->course = 1;
      row->doses = 5;
      row->doses_on_time = 4;
      row->doses_late = 1;
      row->drawn_nl = 500000;
      row->given_nl = 400000;
      row->vials = 1;
      row->left_nl = 1000000;
      row->outside = 1;
    }
  outcomes = compute ();
  assert_share (outcomes, "lead-in", "all", "doses-on-time", 4, 5);
  assert_share (outcomes, "lead-in", "all", "courses-on-time", 0, 1);
  ck_assert (near (figure_of (outcomes, "drug", "all", "given")->value, .8, 1e-12));
  ck_assert (near (figure_of (outcomes, "drug", "all", "not-given")->value, .2, 1e-12));
  ck_assert (near (figure_of (outcomes, "drug", "all", "left")->value, 1, 1e-12));
  ck_assert_int_eq (figure_of (outcomes, "drug", "all", "vials")->x, 1);
  assert_share (outcomes, "drug", "all", "outside-gate", 1, 1);
}
END_TEST

/* --- tables say the same --- */

static void
random_row (GRand *rand)
{
  static const char *const grades[] = { "kiupel-low", "kiupel-high", NULL };
  SwTreated *row = add_row (g_rand_int_range (rand, 0, 8) == 7 ? SW_UNKNOWN : g_rand_int_range (rand, 0, 5));

  row->grade = g_intern_string (grades[g_rand_int_range (rand, 0, 3)]);
  row->injection = g_rand_int_range (rand, 1, 4);
  row->day = TODAY - g_rand_int_range (rand, 0, 400);
  row->window_last = row->day + 35;
  row->region = g_rand_int_range (rand, 0, SW_N_REGIONS);
  row->volume_mm3 = g_rand_int_range (rand, 50, 8000);
  row->wound_looks = g_rand_int_range (rand, 0, 3);
  if (row->wound_looks > 0)
    {
      row->wound_open_day = row->day + g_rand_int_range (rand, 1, 30);
      row->wound_closed_day = g_rand_boolean (rand) ? row->wound_open_day + g_rand_int_range (rand, 0, 20) : SW_UNKNOWN;
    }
  if (row->category == SW_CATEGORY_COMPLETE)
    {
      row->clear_day = row->day + 28;
      row->last_clear_day = row->clear_day + g_rand_int_range (rand, 0, 200);
      row->recurrence_day = g_rand_int_range (rand, 0, 3) == 0 ? row->last_clear_day + 5 : SW_UNKNOWN;
    }
  row->doses = 5;
  row->doses_on_time = g_rand_int_range (rand, 0, 6);
  row->drawn_nl = row->given_nl = 10000 * g_rand_int_range (rand, 10, 300);
}

/* Both read back as the same double, or neither has a value. */
static gboolean
same_cell (const SwCsv *csv, gsize row, const char *column, double wanted)
{
  gsize place;
  double value = NAN;

  ck_assert (sw_csv_need_column (csv, column, &place, NULL));
  if (*sw_csv_text (csv, row, place) != '\0')
    ck_assert (sw_csv_double (csv, row, place, &value, NULL));
  return isfinite (wanted) ? value == wanted : isnan (value);
}

static gsize
compare_figures (const SwCsv *csv, gsize line, const GPtrArray *figures)
{
  for (guint i = 0; i < figures->len; i++, line++)
    {
      const SwOutcomeFigure *figure = figures->pdata[i];

      ck_assert (same_cell (csv, line, "value", figure->value) && same_cell (csv, line, "lo", figure->lo)
                 && same_cell (csv, line, "hi", figure->hi) && same_cell (csv, line, "exact_lo", figure->exact_lo)
                 && same_cell (csv, line, "exact_hi", figure->exact_hi)
                 && same_cell (csv, line, "n", (double) figure->n));
      if (figure->kind == SW_FIGURE_SHARE)
        ck_assert (same_cell (csv, line, "x", (double) figure->x));
    }
  return line;
}

START_TEST (table_reads_back_as_the_figures)
{
  guint seed = g_random_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (SwOutcomes) outcomes = NULL;
  g_autofree char *text = NULL;
  g_autoptr (SwCsv) csv = NULL;
  gsize line = 0;

  g_print ("# seed %u\n", seed);
  for (guint i = 0; i < 200; i++)
    random_row (rand);
  query->split = (SwSplit) _i;
  outcomes = compute ();
  text = sw_outcomes_figures_csv (outcomes);
  csv = sw_csv_parse (text, strlen (text), ',', NULL);
  ck_assert_ptr_nonnull (csv);
  for (guint s = 0; s < outcomes->sections->len; s++)
    {
      const SwOutcomeSection *section = outcomes->sections->pdata[s];

      for (guint g = 0; g < section->groups->len; g++)
        line = compare_figures (csv, line, ((const SwOutcomeGroup *) section->groups->pdata[g])->figures);
      line = compare_figures (csv, line, section->tests);
    }
  ck_assert_uint_eq (line, sw_csv_n_rows (csv));
}
END_TEST

/* The parts of a split add up to all, and no tumour is in two of them. */
START_TEST (parts_add_up)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (SwOutcomes) outcomes = NULL;
  const SwOutcomeSection *section;
  gint64 x = 0, n = 0;

  for (guint i = 0; i < 300; i++)
    random_row (rand);
  query->split = (SwSplit) _i;
  outcomes = compute ();
  section = section_of (outcomes, "complete");
  for (guint g = 1; g < section->groups->len; g++)
    {
      const SwOutcomeFigure *figure = ((const SwOutcomeGroup *) section->groups->pdata[g])->figures->pdata[0];

      x += figure->x;
      n += figure->n;
    }
  assert_share (outcomes, "complete", "all", "of-scored", x, n);
}
END_TEST

START_TEST (cancelled_before_it_began)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  ck_assert_ptr_null (sw_outcomes_compute (rows, practice, query, TODAY, NULL, NULL, cancellable, &error));
  ck_assert (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}
END_TEST

/* --- through an open record --- */

typedef struct
{
  GMainLoop *loop;
  SwRecord *record;
  SwOutcomes *outcomes;
  guint sections;
} Waiting;

static void
opened (GObject *source, GAsyncResult *result, gpointer data)
{
  Waiting *waiting = data;

  waiting->record = sw_record_open_finish (result, NULL);
  g_main_loop_quit (waiting->loop);
}

static void
section_came (SwOutcomeSection *section, guint done, guint total, gpointer data)
{
  Waiting *waiting = data;

  ck_assert_ptr_null (waiting->outcomes);
  ck_assert_uint_eq (done, ++waiting->sections);
}

static void
outcomes_came (GObject *source, GAsyncResult *result, gpointer data)
{
  Waiting *waiting = data;

  waiting->outcomes = sw_record_outcomes_finish (SW_RECORD (source), result, NULL);
  g_main_loop_quit (waiting->loop);
}

START_TEST (an_open_record_answers_section_by_section)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = sw_clock_new_at ((SwMoment){ FIXTURE_TODAY, 600 });
  Waiting waiting = { .loop = g_main_loop_new (NULL, FALSE) };

  sw_record_open_async (folder, NULL, clock, NULL, opened, &waiting);
  g_main_loop_run (waiting.loop);
  ck_assert_ptr_nonnull (waiting.record);
  sw_record_outcomes_async (waiting.record, query, section_came, NULL, outcomes_came, &waiting);
  g_main_loop_run (waiting.loop);
  ck_assert_ptr_nonnull (waiting.outcomes);
  ck_assert_uint_eq (waiting.sections, waiting.outcomes->sections->len);
  sw_outcomes_unref (waiting.outcomes);
  g_object_unref (waiting.record);
  g_main_loop_unref (waiting.loop);
  fixture_remove (folder);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("outcomes");
  TCase *tcase = tcase_create ("outcomes");

  suite_add_tcase (suite, tcase);
  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, nothing_treated_has_reasons_and_no_figure_that_lies);
  tcase_add_test (tcase, a_share_has_both_pairs_of_limits);
  tcase_add_test (tcase, who_was_not_scored_is_counted_and_told);
  tcase_add_test (tcase, one_and_two_injections);
  tcase_add_test (tcase, a_dog_is_complete_when_all_its_tumours_are);
  tcase_add_test (tcase, period_filter_and_split);
  tcase_add_test (tcase, free_of_recurrence_is_kaplan_meier);
  tcase_add_test (tcase, nobody_followed_so_long_gives_no_figure);
  tcase_add_test (tcase, a_death_competes);
  tcase_add_test (tcase, wounds_close_between_visits);
  tcase_add_test (tcase, all_closed_is_no_certainty);
  tcase_add_test (tcase, best_change_falls_from_left_to_right);
  tcase_add_test (tcase, two_readers);
  tcase_add_test (tcase, drift_runs_in_order_of_treatment);
  tcase_add_test (tcase, what_a_course_took_counts_once);
  tcase_add_loop_test (tcase, table_reads_back_as_the_figures, SW_SPLIT_NONE, SW_N_SPLITS);
  tcase_add_loop_test (tcase, parts_add_up, SW_SPLIT_GRADE, SW_N_SPLITS);
  tcase_add_test (tcase, cancelled_before_it_began);
  tcase_add_test (tcase, an_open_record_answers_section_by_section);
  return fixture_run (suite);
}
