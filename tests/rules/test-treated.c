/* test-treated.c: what the outcomes count of a dog
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "course-fixture.h"

#include "sw-definitions.h"
#include "sw-treated-rows.h"

#include <check.h>
#include <stdlib.h>

static Fixture *
treated_dog (void)
{
  Fixture *fixture = fixture_new ("tigilanol-eu");

  course_lead_in (fixture);
  course_treatment_day (fixture);
  course_release (fixture);
  course_inject (fixture);
  return fixture;
}

static SwTreated
row_of (const Fixture *fixture, guint index)
{
  g_autoptr (GArray) rows = sw_treated_rows (&fixture->c);

  ck_assert_uint_lt (index, rows->len);
  return g_array_index (rows, SwTreated, index);
}

static SwScore *
day_28_score (Fixture *fixture, SwDay day, SwCategory category)
{
  SwScore *score = course_score (fixture, day, category);

  score->counts_as_day_28 = 1;
  return score;
}

static void
put_wound (Fixture *fixture, SwDay day, SwWoundState state)
{
  SwWound *wound = sw_new (SW_FACT_WOUND, SwWound);

  wound->course = fixture->c.course;
  wound->tumour = fixture->tumour;
  wound->visit = course_visit (fixture, day)->fact.id;
  wound->day = day;
  wound->state = state;
  fixture_put (fixture, wound);
}

static void
put_look (Fixture *fixture, SwDay day, SwLookState state)
{
  SwLook *look = sw_new (SW_FACT_LOOK, SwLook);

  look->course = fixture->c.course;
  look->tumour = fixture->tumour;
  look->day = day;
  look->state = state;
  fixture_put (fixture, look);
}

static void
put_recurrence (Fixture *fixture, SwDay day, gint64 sampled)
{
  SwRecurrence *row = sw_new (SW_FACT_RECURRENCE, SwRecurrence);

  row->course = fixture->c.course;
  row->tumour = fixture->tumour;
  row->day = day;
  row->sampled = sampled;
  fixture_put (fixture, row);
}

static void
put_end (Fixture *fixture, SwDay day, SwEnd end, gint64 cause)
{
  SwCourseEnd *row = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  row->course = fixture->c.course;
  row->end = end;
  row->cause = cause;
  row->day = day;
  fixture_put (fixture, row);
}

START_TEST (nothing_injected_counts_nothing)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GArray) rows = sw_treated_rows (&fixture->c);

  ck_assert_uint_eq (rows->len, 0);
}
END_TEST

START_TEST (injection_is_counted)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwTreated row = row_of (fixture, 0);

  ck_assert_int_eq (row.tumour, fixture->tumour);
  ck_assert_int_eq (row.patient, fixture->dossier->patient);
  ck_assert_int_eq (row.day, TREAT);
  ck_assert_int_eq (row.injection, 1);
  ck_assert_int_eq (row.tumours, 1);
  ck_assert_int_eq (row.place, 1);
  ck_assert_str_eq (row.agent, "tigilanol tiglate");
  ck_assert_int_eq (row.region, SW_REGION_HOCK);
  ck_assert_int_eq (row.injector, VET);
  ck_assert_int_eq (row.window_last, TREAT + 35);
  ck_assert_int_eq (row.given_nl, 850000);
  ck_assert_int_eq (row.category, SW_UNKNOWN);
  ck_assert_int_eq (row.wound_closed_day, SW_UNKNOWN);
  ck_assert_ptr_nonnull (row.grade);
}
END_TEST

START_TEST (an_injection_taken_back_or_of_nothing_is_not)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwInjectionTumour *part = sw_facts_last (&fixture->dossier->facts, SW_FACT_INJECTION_TUMOUR);
  g_autoptr (GArray) rows = NULL, none = NULL;

  part->given_nl = 0;
  none = sw_treated_rows (&fixture->c);
  ck_assert_uint_eq (none->len, 0);
  part->given_nl = 850000;
  fixture_put (fixture, sw_fact_withdrawal (sw_facts_last (&fixture->dossier->facts, SW_FACT_INJECTION)));
  rows = sw_treated_rows (&fixture->c);
  ck_assert_uint_eq (rows->len, 0);
}
END_TEST

START_TEST (an_amended_injection_counts_once)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwInjection *amended = sw_fact_correction (sw_facts_last (&fixture->dossier->facts, SW_FACT_INJECTION));
  g_autoptr (GArray) rows = NULL;

  amended->injector = TECHNICIAN;
  fixture_put (fixture, amended);
  rows = sw_treated_rows (&fixture->c);
  ck_assert_uint_eq (rows->len, 1);
  ck_assert_int_eq (g_array_index (rows, SwTreated, 0).injector, TECHNICIAN);
}
END_TEST

START_TEST (lead_in_doses_by_state)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwTreated row;

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT - 2, 0), SW_DOSE_GIVEN, TREAT - 2, 8 * 60);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT - 2, 1), SW_DOSE_LATE, TREAT - 2, 22 * 60);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT - 1, 0), SW_DOSE_MISSED, SW_UNKNOWN, SW_UNKNOWN);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT - 1, 1), SW_DOSE_GIVEN, TREAT - 1, 20 * 60 + 60);
  course_release (fixture);
  course_inject (fixture);
  course_at (fixture, TREAT, 12 * 60);
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.doses, 5); /* domain 5: days -2 and -1, and the first of day 0 */
  ck_assert_int_eq (row.doses_on_time, 2);
  ck_assert_int_eq (row.doses_late, 1);
  ck_assert_int_eq (row.doses_lost, 1);
  ck_assert_int_eq (row.doses_untold, 1);
  ck_assert_int_eq (row.doses_replaced, 0);
}
END_TEST

START_TEST (readers_are_the_first_two_people)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwReading *reading = fixture_read (fixture, TREAT, 1900, 2200, 900);
  SwTreated row;

  reading->fact.person = VET + TECHNICIAN; /* somebody else */
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.longest_a, 2140);
  ck_assert_int_eq (row.longest_again, 2100);
  ck_assert_int_eq (row.reader_b, VET + TECHNICIAN);
  ck_assert_int_eq (row.longest_b, 2200);
}
END_TEST

START_TEST (the_last_score_that_could_judge_is_day_28)
{
  g_autoptr (Fixture) fixture = treated_dog ();

  course_score (fixture, TREAT + 20, SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (row_of (fixture, 0).category, SW_UNKNOWN);
  day_28_score (fixture, TREAT + 26, SW_CATEGORY_NOT_EVALUABLE);
  ck_assert_int_eq (row_of (fixture, 0).category, SW_CATEGORY_NOT_EVALUABLE);
  day_28_score (fixture, TREAT + 28, SW_CATEGORY_STABLE);
  day_28_score (fixture, TREAT + 30, SW_CATEGORY_PARTIAL);
  day_28_score (fixture, TREAT + 34, SW_CATEGORY_NOT_EVALUABLE);
  ck_assert_int_eq (row_of (fixture, 0).category, SW_CATEGORY_PARTIAL);
  ck_assert_int_eq (row_of (fixture, 0).scores, 5);
}
END_TEST

START_TEST (best_change_is_the_smallest)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  static const gint64 now[] = { 3000, 2120, 3180 }; /* of two readings each; baseline 4240 of two */
  SwTreated row;

  for (guint i = 0; i < G_N_ELEMENTS (now); i++)
    {
      SwScore *score = course_score (fixture, TREAT + 28 + i, SW_CATEGORY_PARTIAL);

      score->baseline_sum = 4240;
      score->baseline_count = score->now_count = 2;
      score->now_sum = now[i];
    }
  row = row_of (fixture, 0);
  ck_assert_int_eq (2 * row.best_num, -row.best_den);
}
END_TEST

START_TEST (clear_until_mast_cells_come_back)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwTreated row;

  put_look (fixture, TREAT + 14, SW_LOOK_GONE); /* before the score: no look of the watch */
  day_28_score (fixture, TREAT + 28, SW_CATEGORY_COMPLETE);
  put_look (fixture, TREAT + 56, SW_LOOK_GONE);
  put_look (fixture, TREAT + 84, SW_LOOK_HIDDEN);
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.clear_day, TREAT + 28);
  ck_assert_int_eq (row.last_clear_day, TREAT + 56);
  ck_assert_int_eq (row.recurrence_day, SW_UNKNOWN);
  put_recurrence (fixture, TREAT + 120, 1);
  put_look (fixture, TREAT + 150, SW_LOOK_GONE);
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.recurrence_day, TREAT + 120);
  ck_assert_int_eq (row.sampled, 1);
  ck_assert_int_eq (row.last_clear_day, TREAT + 56);
}
END_TEST

START_TEST (a_second_injection_and_a_treated_recurrence)
{
  g_autoptr (Fixture) fixture = treated_dog ();

  day_28_score (fixture, TREAT + 28, SW_CATEGORY_PARTIAL);
  course_follow (fixture);
  course_at (fixture, TREAT + 40, 600);
  course_release (fixture);
  course_inject (fixture);
  ck_assert_int_eq (row_of (fixture, 0).injection, 1);
  ck_assert_int_eq (row_of (fixture, 1).injection, 2);
  day_28_score (fixture, TREAT + 68, SW_CATEGORY_COMPLETE);
  put_recurrence (fixture, TREAT + 200, 1);
  course_follow (fixture);
  course_at (fixture, TREAT + 210, 600);
  course_release (fixture);
  course_inject (fixture);
  ck_assert_int_eq (row_of (fixture, 2).injection, 1); /* domain 8: a treated recurrence starts anew */
  ck_assert_int_eq (row_of (fixture, 0).recurrence_day, SW_UNKNOWN); /* it was never clear in that course */
  ck_assert_int_eq (row_of (fixture, 1).recurrence_day, TREAT + 200);
}
END_TEST

START_TEST (wound_closes_between_two_visits)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwTreated row;

  put_wound (fixture, TREAT + 1, SW_WOUND_NONE_YET);
  put_wound (fixture, TREAT + 14, SW_WOUND_OPEN);
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.wound_open_day, TREAT + 14);
  ck_assert_int_eq (row.wound_closed_day, SW_UNKNOWN);
  put_wound (fixture, TREAT + 28, SW_WOUND_CLOSED);
  put_wound (fixture, TREAT + 56, SW_WOUND_CLOSED);
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.wound_closed_day, TREAT + 28);
  ck_assert_int_eq (row.wound_looks, 4);
  put_wound (fixture, TREAT + 60, SW_WOUND_OPEN); /* opened again */
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.wound_open_day, TREAT + 60);
  ck_assert_int_eq (row.wound_closed_day, SW_UNKNOWN);
}
END_TEST

START_TEST (death_counts_for_every_course_of_the_dog)
{
  g_autoptr (Fixture) fixture = treated_dog ();
  SwTreated row;

  put_end (fixture, TREAT + 30, SW_END_COMPLETED, SW_UNKNOWN);
  course_follow (fixture);
  put_end (fixture, TREAT + 300, SW_END_DIED, SW_DEATH_OTHER);
  row = row_of (fixture, 0);
  ck_assert_int_eq (row.end, SW_END_COMPLETED);
  ck_assert_int_eq (row.end_day, TREAT + 30);
  ck_assert_int_eq (row.died_day, TREAT + 300);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("treated");
  TCase *tcase = tcase_create ("treated");
  SRunner *runner = srunner_create (suite);
  int failed;

  suite_add_tcase (suite, tcase);
  tcase_add_test (tcase, nothing_injected_counts_nothing);
  tcase_add_test (tcase, injection_is_counted);
  tcase_add_test (tcase, an_injection_taken_back_or_of_nothing_is_not);
  tcase_add_test (tcase, an_amended_injection_counts_once);
  tcase_add_test (tcase, lead_in_doses_by_state);
  tcase_add_test (tcase, readers_are_the_first_two_people);
  tcase_add_test (tcase, the_last_score_that_could_judge_is_day_28);
  tcase_add_test (tcase, best_change_is_the_smallest);
  tcase_add_test (tcase, clear_until_mast_cells_come_back);
  tcase_add_test (tcase, a_second_injection_and_a_treated_recurrence);
  tcase_add_test (tcase, wound_closes_between_two_visits);
  tcase_add_test (tcase, death_counts_for_every_course_of_the_dog);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
