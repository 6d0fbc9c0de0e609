/* test-move-random.c: random lead-ins moved at random moments, against what domain 5 says in one line
 *
 * "The first day on which gate B's count can hold: the day of the last unreplaced miss + 3"; after the move every day
 * has its two corticosteroid doses without a gap, none twice, and once all are told as given the count before the
 * needle is whole. Prints its seed; SW_TEST_SEED repeats it, SW_TEST_LONG=1 makes it ten times longer.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-move.h"

#include "course-fixture.h"
#include "sw-gate.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>

static guint
setting (const char *name, guint otherwise)
{
  const char *text = g_getenv (name);

  return text != NULL ? (guint) g_ascii_strtoull (text, NULL, 10) : otherwise;
}

/* Tells every corticosteroid dose due by now: most as given, some as lost. Returns the day of the last loss,
 * SW_NO_DAY: none. */
static SwDay
tell_at_random (Fixture *fixture, GRand *random)
{
  static const SwDoseState lost[] = { SW_DOSE_MISSED, SW_DOSE_VOMITED, SW_DOSE_STOPPED };
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);
  SwDay last = SW_NO_DAY;

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      SwMoment due = { dose->due_day, (int) dose->due_minute };

      if (!g_str_equal (dose->group, "corticosteroid") || sw_moment_compare (due, fixture->c.now) > 0)
        continue;
      if (g_rand_int_range (random, 0, 5) == 0)
        {
          course_tell (fixture, dose, lost[g_rand_int_range (random, 0, 3)], SW_UNKNOWN, SW_UNKNOWN);
          last = dose->due_day;
        }
      else
        course_tell (fixture, dose, SW_DOSE_GIVEN, dose->due_day,
                     dose->due_minute + g_rand_int_range (random, -60, 61));
    }
  return last;
}

static guint
at_time (const GPtrArray *doses, const char *group, SwDay day, gint64 minute)
{
  guint n = 0;

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      n += g_str_equal (dose->group, group) && dose->due_day == day && dose->due_minute == minute;
    }
  return n;
}

/* Twice a day from the first day of the lead-in to day +4, once to day +7, and never twice at a time. */
static void
check_no_gap (Fixture *fixture, SwDay treat_day)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);

  for (SwDay day = TODAY; day <= treat_day + 7; day++)
    {
      ck_assert_uint_eq (at_time (doses, "corticosteroid", day, 480), 1);
      ck_assert_uint_eq (at_time (doses, "corticosteroid", day, 1200), day <= treat_day + 4);
      ck_assert_uint_le (at_time (doses, "h1", day, 480), 1);
      ck_assert_uint_le (at_time (doses, "h1", day, 1200), 1);
    }
  for (SwDay day = treat_day; day <= treat_day + 7; day++)
    ck_assert_uint_eq (at_time (doses, "h1", day, 480) + at_time (doses, "h2", day, 1200), 2);
}

static void
check_days (Fixture *fixture, SwDay first)
{
  for (SwDay day = fixture->c.now.day; day < first + 5; day++)
    {
      g_autoptr (SwFinding) refused = sw_move_day_refused (&fixture->c, day);

      ck_assert_int_eq (refused == NULL, day >= first);
    }
}

static void
one_case (GRand *random)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwMoveOrder order = { .way = SW_MOVE_GO_ON, .vet_orders = "taper" };
  g_autoptr (SwReplan) replan = NULL;
  g_autoptr (SwGateCount) count = NULL;
  SwDay lost, first;

  course_lead_in (fixture);
  course_at (fixture, TODAY + g_rand_int_range (random, 0, 3), g_rand_int_range (random, 8 * 60, 24 * 60));
  /* The evening dose of day 0 itself is none of its count, but would be of tomorrow's: left out here. */
  if (fixture->c.now.day == TREAT)
    fixture->c.now.minute = MIN (fixture->c.now.minute, 20 * 60 - 1);
  lost = tell_at_random (fixture, random);
  first = MAX (TREAT, lost != SW_NO_DAY ? lost + 3 : TREAT);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, NULL), first);
  check_days (fixture, first);

  order.treat_day = first + g_rand_int_range (random, 0, 8);
  if (order.treat_day == TREAT)
    return;
  replan = sw_move_preview (&fixture->c, &order);
  ck_assert_uint_gt (replan->facts->len, 0);
  course_write (fixture, replan->facts);
  check_no_gap (fixture, order.treat_day);
  course_at (fixture, order.treat_day, 9 * 60 + 30);
  course_tell_all (fixture);
  count = sw_gate_count (&fixture->c);
  ck_assert_uint_eq (count->needed, 7);
  ck_assert_uint_eq (count->confirmed, 7);
}

START_TEST (test_random)
{
  guint seed = setting ("SW_TEST_SEED", g_random_int ()), cases = g_getenv ("SW_TEST_LONG") != NULL ? 2000 : 200;
  GRand *random = g_rand_new_with_seed (seed);

  printf ("# seed %u, %u cases\n", seed, cases);
  fflush (stdout);
  for (guint i = 0; i < cases; i++)
    one_case (random);
  g_rand_free (random);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("random moves");
  TCase *tests = tcase_create ("random moves");
  SRunner *runner;

  tcase_set_timeout (tests, 600);
  tcase_add_test (tests, test_random);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
