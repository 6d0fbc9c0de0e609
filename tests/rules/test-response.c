/* test-response.c: categories of series and of dogs, against worked answers and at the exact limits
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-response.h"

#include "check-values.h"
#include "sw-error.h"
#include "sw-quantity.h"

#include <stdlib.h>
#include <string.h>

/* "17.0;5;0": mm; 0 is gone, - not evaluable, s too small to measure. */
static guint
read_series (const char *text, SwSize *sizes)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);
  guint n = 0;

  for (; parts[n] != NULL; n++)
    {
      gint64 length;

      if (g_str_equal (parts[n], "0"))
        sizes[n] = sw_size_of_state (SW_NO_DAY, SW_SITE_GONE);
      else if (g_str_equal (parts[n], "-"))
        sizes[n] = sw_size_of_state (SW_NO_DAY, SW_SITE_NOT_EVALUABLE);
      else if (g_str_equal (parts[n], "s"))
        sizes[n] = sw_size_of_state (SW_NO_DAY, SW_SITE_TOO_SMALL);
      else
        {
          ck_assert_msg (sw_length_parse (parts[n], &length, NULL), "%s", parts[n]);
          sizes[n] = sw_size_longest (SW_NO_DAY, sw_ratio (length, 1));
        }
    }
  return n;
}

static SwResponse *
score_with (const char *series, const SwScoring *scoring)
{
  SwSize sizes[16];
  guint n = read_series (series, sizes);
  g_autoptr (GError) error = NULL;
  SwResponse *response = sw_response_score (sizes, n, scoring, &error);

  ck_assert_msg (response != NULL, "%s: %s", series, error ? error->message : "");
  return response;
}

static SwResponse *
score (const char *series)
{
  SwScoring nothing = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };

  return score_with (series, &nothing);
}

static void
assert_scored (const char *series, const char *category)
{
  g_autoptr (SwResponse) response = score (series);

  ck_assert_msg (g_str_equal (sw_category_code (response->category), category), "%s: %s, not %s", series,
                 sw_category_code (response->category), category);
  ck_assert_int_eq (response->family[SW_FAMILY_LONGEST].category, response->category);
}

/* Source: tests/rules/values/response.csv. Rows 1-2: worked answers of the EORTC RECIST question pages (published); the
 * others computed at the exact limits. */
START_TEST (test_check_rows)
{
  g_autoptr (GPtrArray) rows = check_values_read ("response.csv");

  ck_assert_uint_eq (rows->len, 12);
  for (guint i = 1; i < rows->len; i++)
    {
      char **row = rows->pdata[i];

      assert_scored (row[0], row[1]);
    }
}
END_TEST

/* Domain 8: what binds later visits, and 0.01 mm on either side of each limit. */
START_TEST (test_edges)
{
  assert_scored ("25;29.99", "SD");
  assert_scored ("25.01;30.01", "SD"); /* +5 mm, but 19.99 % */
  assert_scored ("24.99;29.99", "PD");
  assert_scored ("100;69.99", "PR");
  assert_scored ("10;7", "PR");
  assert_scored ("10;7.01", "SD");
  assert_scored ("100;70;90;95", "PD"); /* partial until progress: 95 is +35 % over 70 */
  assert_scored ("100;70;83.99", "PR");
  assert_scored ("25;30;20;10", "PD"); /* progress lasts */
  assert_scored ("25;30;0", "CR");     /* unless a complete response follows */
  assert_scored ("25;30;0;1", "RECURRENCE");
  assert_scored ("17;0;4;0", "RECURRENCE"); /* final for its course */
  assert_scored ("17;0;-", "NE");
  assert_scored ("17;-", "NE");
  assert_scored ("100;60;-;80", "PD"); /* the smallest so far is kept over a visit that could not be judged */
  assert_scored ("100;70;-;90", "PD");
  assert_scored ("100;70;-;75", "PR");
  assert_scored ("25;30;-", "PD");
  assert_scored ("17;0;4;-", "RECURRENCE");
}
END_TEST

/* Present but too small: the smaller of 5 mm and baseline counts. */
START_TEST (test_too_small)
{
  g_autoptr (SwResponse) large = score ("17;s"), small = score ("4;s");
  SwRatio five = large->family[SW_FAMILY_LONGEST].now, four = small->family[SW_FAMILY_LONGEST].now;

  ck_assert_int_eq (large->category, SW_CATEGORY_PARTIAL);
  ck_assert (five.num == 500 && five.den == 1);
  ck_assert_int_eq (small->category, SW_CATEGORY_STABLE);
  ck_assert (four.num == 400 && four.den == 1);
  assert_scored ("5;s", "SD");
  assert_scored ("17;0;s", "RECURRENCE");
  assert_scored ("17;s;10", "PD"); /* +100 % and exactly +5 mm over the 5 mm that counted */
  assert_scored ("17;s;9.99", "PR");
}
END_TEST

static SwSize
measured (const char *reading)
{
  SwAxes axes;
  SwMeasured sums;

  ck_assert (sw_reading_parse (reading, axes.axis, NULL) && sw_volume_measure (&axes, 1, &sums));
  return sw_size_measured (SW_NO_DAY, &sums, SW_VOLUME_HALF_PRODUCT);
}

static void
assert_families (const char *before, const char *now, const char *longest, const char *product, const char *volume)
{
  SwScoring nothing = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };
  SwSize sizes[] = { measured (before), measured (now) };
  g_autoptr (SwResponse) response = sw_response_score (sizes, 2, &nothing, NULL);

  ck_assert_str_eq (sw_category_code (response->family[SW_FAMILY_LONGEST].category), longest);
  ck_assert_str_eq (sw_category_code (response->family[SW_FAMILY_PRODUCT].category), product);
  ck_assert_str_eq (sw_category_code (response->family[SW_FAMILY_VOLUME].category), volume);
}

/* Domain 8: 50 % / 25 % of the product, -65.7 % / +72.8 % of the volume, whose limits are the cubes 0.343 and 1.728. */
START_TEST (test_families)
{
  assert_families ("20x20x20", "14x14x14", "PR", "PR", "PR");
  assert_families ("20x20x20", "14.01x14x14", "SD", "PR", "SD");
  assert_families ("20x20x20", "20x10x20", "SD", "SD",
                   "SD"); /* sorted, 20 x 20: the product is unchanged, the volume halved */
  assert_families ("20x20x20", "20x10x9", "SD", "PR", "PR");
  assert_families ("20x20x20", "20x10.01x9", "SD", "SD", "PR");
  assert_families ("20x20x20", "25x20x20", "PD", "PD", "SD"); /* +25 % and 5 mm; product exactly +25 %; volume +25 % */
  assert_families ("20x20x20", "24.99x20x20", "SD", "SD", "SD");
  assert_families ("20x20x20", "24x24x24", "SD", "PD", "PD"); /* +20 % but 4 mm: the 5 mm are for diameters only */
  assert_families ("20x20x20", "24x24x23.99", "SD", "PD", "SD");
}
END_TEST

START_TEST (test_families_without_axes)
{
  g_autoptr (SwResponse) only_longest = score ("17;5");
  SwScoring nothing = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };
  SwSize sizes[] = { measured ("20x20x20"), sw_size_of_state (SW_NO_DAY, SW_SITE_GONE) };
  g_autoptr (SwResponse) gone = sw_response_score (sizes, 2, &nothing, NULL);

  ck_assert (!only_longest->family[SW_FAMILY_PRODUCT].known && !only_longest->family[SW_FAMILY_VOLUME].known);
  ck_assert_int_eq (gone->family[SW_FAMILY_PRODUCT].category, SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (gone->family[SW_FAMILY_VOLUME].category, SW_CATEGORY_COMPLETE);
}
END_TEST

/* A tumour that has split: its parts are added. */
START_TEST (test_split)
{
  SwScoring nothing = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };
  SwSize sizes[] = { measured ("20x20x20"), measured ("8x5x5") }, part = measured ("6x5x5"),
         more = measured ("6.01x5x5");
  SwSize hidden = sw_size_of_state (SW_NO_DAY, SW_SITE_NOT_EVALUABLE);
  g_autoptr (SwResponse) exactly = NULL, over = NULL, unjudged = NULL;

  sw_size_add_part (&sizes[1], &part);
  exactly = sw_response_score (sizes, 2, &nothing, NULL);
  ck_assert_int_eq (exactly->category, SW_CATEGORY_PARTIAL); /* 14 of 20 mm */
  sizes[1] = measured ("8x5x5");
  sw_size_add_part (&sizes[1], &more);
  over = sw_response_score (sizes, 2, &nothing, NULL);
  ck_assert_int_eq (over->category, SW_CATEGORY_STABLE);
  sw_size_add_part (&sizes[1], &hidden);
  unjudged = sw_response_score (sizes, 2, &nothing, NULL);
  ck_assert_int_eq (unjudged->category, SW_CATEGORY_NOT_EVALUABLE);
}
END_TEST

static void
assert_refused (const char *series)
{
  SwScoring nothing = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };
  SwSize sizes[4];
  guint n = read_series (series, sizes);
  g_autoptr (GError) error = NULL;

  ck_assert_ptr_null (sw_response_score (sizes, n, &nothing, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
}

START_TEST (test_no_baseline)
{
  assert_refused ("17");
  assert_refused ("0;5");
  assert_refused ("-;5");
  assert_refused ("s;5");
}
END_TEST

static void
assert_next (const char *series, const SwScoring *scoring, SwFindingCode code, const char *part)
{
  g_autoptr (SwResponse) response = score_with (series, scoring);
  g_autofree char *next = sw_finding_next (response->next), *sentence = sw_finding_sentence (response->next);

  ck_assert_msg (response->next->code == code, "%s: %s", series, sw_finding_code (response->next->code));
  ck_assert_msg (strstr (next, part) != NULL, "%s: %s", series, next);
  ck_assert_msg (strpbrk (next, "{}") == NULL && strpbrk (sentence, "{}") == NULL, "%s %s", sentence, next);
}

/* Domain 8, "Next step". */
START_TEST (test_next_steps)
{
  SwProtocol protocol = { .score_day = 28, .score_first_day = 25, .score_last_day = 35, .retreat_day = 30,
                          .retreat_after_score_days = 2 };
  SwDay day_0 = sw_day_from_ymd (2026, 3, 2);
  SwScoring scoring = { .protocol = &protocol, .course_day = 28, .score_day = day_0 + 28, .injections = 1 };

  assert_next ("17;0", &scoring, SW_FINDING_NEXT_NOTHING, "days 56 and 84, then every 3 months for 12 months");
  assert_next ("17;8", &scoring, SW_FINDING_NEXT_SECOND, "no earlier than 2026-04-01"); /* day 30 */
  scoring.course_day = 33;
  scoring.score_day = day_0 + 33;
  assert_next ("17;8", &scoring, SW_FINDING_NEXT_SECOND, "no earlier than 2026-04-06"); /* the score and two days */
  scoring.injections = 2;
  assert_next ("17;8", &scoring, SW_FINDING_NEXT_THIRD, "give a reason");
  scoring.wound_open = TRUE;
  assert_next ("17;8", &scoring, SW_FINDING_NEXT_WHEN_CLOSED, "when the wound has closed");
  assert_next ("17;8;10", &scoring, SW_FINDING_NEXT_REFER, "Refer now");
  assert_next ("17;-", &scoring, SW_FINDING_NEXT_LOOK_AGAIN, "7 to 14 days");
  scoring.course_day = 56;
  assert_next ("17;-", &scoring, SW_FINDING_NEXT_SAMPLE, "cytology or a biopsy");
  assert_next ("17;25", &scoring, SW_FINDING_NEXT_STAGE, "Stage the dog again");
  assert_next ("17;0;4", &scoring, SW_FINDING_NEXT_RECURRENCE, "new baseline");
  scoring = (SwScoring){ .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };
  assert_next ("17;8", &scoring, SW_FINDING_NEXT_SECOND, "the day that its protocol names");
}
END_TEST

/* Day 28 is scored on days 25 to 35 [ours, a figure of the protocol]; a score outside is allowed and does not count. */
START_TEST (test_window)
{
  SwProtocol protocol = { .score_day = 28, .score_first_day = 25, .score_last_day = 35 };
  const struct { gint64 day; gboolean counts; } rows[] = { { 24, FALSE }, { 25, TRUE }, { 35, TRUE }, { 36, FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      SwScoring scoring = { .protocol = &protocol, .course_day = rows[i].day, .score_day = SW_NO_DAY };
      g_autoptr (SwResponse) response = score_with ("17;0", &scoring);

      ck_assert_int_eq (response->counts_as_day_28, rows[i].counts);
      ck_assert_uint_eq (response->findings->len, rows[i].counts ? 0 : 1);
    }
}
END_TEST

/* 2.77 technical errors: of 10 % of 20 mm, 5.54 mm. */
START_TEST (test_detectable)
{
  SwScoring scoring = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY, .reader_error = 100 };
  g_autoptr (SwResponse) under = score_with ("20;14.47", &scoring), at = score_with ("20;14.46", &scoring);
  g_autofree char *sentence = NULL;

  ck_assert (!under->detectable && at->detectable);
  ck_assert_uint_eq (under->findings->len, 1);
  sentence = sw_finding_sentence (under->findings->pdata[0]);
  ck_assert_msg (strstr (sentence, "5.53 mm is smaller than 5.54 mm") != NULL, "%s", sentence);
  ck_assert_uint_eq (at->findings->len, 0);
}
END_TEST

START_TEST (test_flags)
{
  SwScoring open = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY, .wound_open = TRUE };
  SwScoring sampled = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY, .recurrence = TRUE, .sampled = TRUE };
  g_autoptr (SwResponse) complete = score_with ("17;0", &open), stable = score_with ("17;16", &open);
  g_autoptr (SwResponse) presumed = score ("17;0;4"), confirmed = score_with ("17;0;0", &sampled);

  ck_assert (complete->wound_open && !stable->wound_open);
  ck_assert (presumed->presumed);
  ck_assert_int_eq (confirmed->category, SW_CATEGORY_RECURRENCE);
  ck_assert (!confirmed->presumed);
}
END_TEST

static SwCategory
category_named (const char *code)
{
  if (g_str_equal (code, "not all assessed"))
    return SW_CATEGORY_NOT_EVALUABLE;
  for (int category = 0; category < SW_N_CATEGORIES; category++)
    if (g_str_equal (sw_category_code (category), code))
      return category;
  ck_abort_msg ("no category %s", code);
  return SW_N_CATEGORIES;
}

/* The states that a cell of the table stands for, as bits. */
static guint
non_targets_named (const char *cell)
{
  const struct { const char *name; guint bits; } cells[] = {
    { "CR", 1 << SW_NON_TARGETS_GONE },
    { "none", 1 << SW_NON_TARGETS_NONE },
    { "persisting", 1 << SW_NON_TARGETS_PERSISTING },
    { "not assessed", 1 << SW_NON_TARGETS_NOT_ASSESSED },
    { "not PD", (1 << SW_N_NON_TARGETS) - 1 - (1 << SW_NON_TARGETS_PROGRESSIVE) },
    { "PD", 1 << SW_NON_TARGETS_PROGRESSIVE },
    { "any", (1 << SW_N_NON_TARGETS) - 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cells); i++)
    if (g_str_equal (cells[i].name, cell))
      return cells[i].bits;
  ck_abort_msg ("no non-targets %s", cell);
  return 0;
}

static gboolean
matches (const char *cell, gboolean value)
{
  return g_str_equal (cell, "any") || g_str_equal (cell, value ? "yes" : "no");
}

static const char *
expected_overall (const GPtrArray *rows, SwCategory targets, SwNonTargets non_targets, gboolean new_tumour)
{
  /* "a recurrence counts as PD" (last line of the file) */
  SwCategory counted = targets == SW_CATEGORY_RECURRENCE ? SW_CATEGORY_PROGRESSIVE : targets;
  const char *found = NULL;

  for (guint i = 1; i < rows->len; i++)
    {
      char **row = rows->pdata[i];

      if ((g_str_equal (row[0], "any") || category_named (row[0]) == counted)
          && (non_targets_named (row[1]) & (1u << non_targets)) && matches (row[2], new_tumour))
        {
          ck_assert_msg (found == NULL || g_str_equal (found, row[3]), "rows contradict each other");
          found = row[3];
        }
    }
  return found;
}

/* Source: tests/rules/values/response-overall.csv (RECIST 1.1 table 1, second-hand). Every combination has a row. */
START_TEST (test_overall)
{
  g_autoptr (GPtrArray) rows = check_values_read ("response-overall.csv");

  ck_assert_uint_eq (rows->len, 11);
  for (int targets = 0; targets <= SW_CATEGORY_RECURRENCE; targets++)
    for (int non_targets = 0; non_targets < SW_N_NON_TARGETS; non_targets++)
      for (int new_tumour = 0; new_tumour < 2; new_tumour++)
        {
          const char *expected = expected_overall (rows, targets, non_targets, new_tumour);
          SwCategory overall = sw_response_overall (TRUE, targets, non_targets, new_tumour);

          ck_assert_msg (expected != NULL, "no row for %s", sw_category_code (targets));
          ck_assert_msg (g_str_equal (sw_category_code (overall), expected), "%s %d %d: %s, not %s",
                         sw_category_code (targets), non_targets, new_tumour, sw_category_code (overall), expected);
        }
}
END_TEST

/* Last line of the file: "no targets: CR, non-CR/non-PD or PD". */
START_TEST (test_overall_without_targets)
{
  const SwCategory any = SW_CATEGORY_STABLE;

  ck_assert_int_eq (sw_response_overall (FALSE, any, SW_NON_TARGETS_GONE, FALSE), SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (sw_response_overall (FALSE, any, SW_NON_TARGETS_PERSISTING, FALSE), SW_CATEGORY_NON_CR_NON_PD);
  ck_assert_int_eq (sw_response_overall (FALSE, any, SW_NON_TARGETS_PROGRESSIVE, FALSE), SW_CATEGORY_PROGRESSIVE);
  ck_assert_int_eq (sw_response_overall (FALSE, any, SW_NON_TARGETS_GONE, TRUE), SW_CATEGORY_PROGRESSIVE);
  ck_assert_int_eq (sw_response_overall (FALSE, any, SW_NON_TARGETS_NOT_ASSESSED, FALSE), SW_CATEGORY_NOT_EVALUABLE);
}
END_TEST

/* Sizes of two targets on days 0, 28, 56. */
static SwCategory
targets (const char *first, const char *second)
{
  g_autoptr (GPtrArray) series = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  const char *texts[] = { first, second };
  guint n = 0;

  for (int t = 0; t < 2; t++)
    {
      GArray *sizes = g_array_new (FALSE, FALSE, sizeof (SwSize));
      SwSize read[8];

      n = read_series (texts[t], read);
      for (guint i = 0; i < n; i++)
        read[i].day = 1000 + 28 * i;
      g_array_append_vals (sizes, read, n);
      g_ptr_array_add (series, sizes);
    }
  return sw_response_of_targets (series, 1000 + 28 * (n - 1));
}

/* Targets together: sums of longest diameters (RECIST 1.1), any progress or recurrence is progress. */
START_TEST (test_targets)
{
  ck_assert_int_eq (targets ("17;0", "20;0"), SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (targets ("17;0", "20;20"), SW_CATEGORY_PARTIAL);   /* 20 of 37 mm */
  ck_assert_int_eq (targets ("10;0", "30;29"), SW_CATEGORY_STABLE);    /* 29 of 40 mm */
  ck_assert_int_eq (targets ("12;15", "12;15"),
                    SW_CATEGORY_PROGRESSIVE); /* 24 to 30 mm, though each grew by 3 mm only */
  ck_assert_int_eq (targets ("17;0", "20;26"), SW_CATEGORY_PROGRESSIVE);
  ck_assert_int_eq (targets ("17;0;4", "20;0;0"), SW_CATEGORY_PROGRESSIVE);
  ck_assert_int_eq (targets ("17;0", "20;-"), SW_CATEGORY_NOT_EVALUABLE);
  ck_assert_int_eq (targets ("17;s", "20;8"), SW_CATEGORY_PARTIAL);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("response");
  TCase *tests = tcase_create ("response");
  SRunner *runner;

  tcase_add_test (tests, test_check_rows);
  tcase_add_test (tests, test_edges);
  tcase_add_test (tests, test_too_small);
  tcase_add_test (tests, test_families);
  tcase_add_test (tests, test_families_without_axes);
  tcase_add_test (tests, test_split);
  tcase_add_test (tests, test_no_baseline);
  tcase_add_test (tests, test_next_steps);
  tcase_add_test (tests, test_window);
  tcase_add_test (tests, test_detectable);
  tcase_add_test (tests, test_flags);
  tcase_add_test (tests, test_overall);
  tcase_add_test (tests, test_overall_without_targets);
  tcase_add_test (tests, test_targets);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
