/* test-dose-state.c: where a dose stands, at every edge of domain 5
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose-state.h"

#include "course-fixture.h"

#include <check.h>
#include <stdlib.h>

/* Day -1, 20:00, every 12 hours; relative to due in minutes. */
static const struct
{
  gint64 off;
  SwDoseState state;
} offs[] = {
  { 0, SW_DOSE_GIVEN }, { 60, SW_DOSE_GIVEN }, { -60, SW_DOSE_GIVEN }, { 61, SW_DOSE_LATE }, { -61, SW_DOSE_LATE },
  { 360, SW_DOSE_LATE }, { -360, SW_DOSE_LATE }, { 361, SW_DOSE_MISSED }, { -361, SW_DOSE_MISSED },
};

START_TEST (test_classify)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwDosePlan *dose;

  course_lead_in (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT - 1, 1);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, dose, sw_moment_add_minutes (sw_dose_due (dose), offs[_i].off)),
                    offs[_i].state);
}
END_TEST

/* Once a day: half of 24 hours. */
START_TEST (test_classify_once_a_day)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwDosePlan *dose;

  course_lead_in (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT + 5, 0);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, dose, (SwMoment){ TREAT + 5, 1200 }), SW_DOSE_LATE);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, dose, (SwMoment){ TREAT + 5, 1201 }), SW_DOSE_MISSED);
}
END_TEST

/* On day -2 until 14:00 even past half the interval: with a morning at 06:00 that ends at noon. */
START_TEST (test_first_day_until_two)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwDosePlan *first, *second_day;

  fixture_setting (fixture, "hour-morning", "360");
  fixture_setting (fixture, "hour-evening", "1080");
  course_lead_in (fixture);
  first = course_dose (fixture, "corticosteroid", TREAT - 2, 0);
  second_day = course_dose (fixture, "corticosteroid", TREAT - 1, 0);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, first, (SwMoment){ TREAT - 2, 840 }), SW_DOSE_LATE);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, first, (SwMoment){ TREAT - 2, 841 }), SW_DOSE_MISSED);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, second_day, (SwMoment){ TREAT - 1, 840 }), SW_DOSE_MISSED);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, second_day, (SwMoment){ TREAT - 1, 720 }), SW_DOSE_LATE);
}
END_TEST

/* Not told: planned, due within 60 minutes either side, then not known. */
START_TEST (test_clock)
{
  static const struct { int minute; SwStanding standing; } clock[] = {
    { 419, SW_STANDING_PLANNED }, { 420, SW_STANDING_DUE }, { 480, SW_STANDING_DUE },
    { 540, SW_STANDING_DUE }, { 541, SW_STANDING_NOT_KNOWN },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");

  course_lead_in (fixture);
  course_at (fixture, TREAT - 1, clock[_i].minute);
  ck_assert_int_eq (sw_dose_state (&fixture->c, course_dose (fixture, "corticosteroid", TREAT - 1, 0)),
                    clock[_i].standing);
}
END_TEST

START_TEST (test_told)
{
  static const struct { SwDoseState told; SwStanding standing; const char *name; } states[] = {
    { SW_DOSE_GIVEN, SW_STANDING_GIVEN, "given" },       { SW_DOSE_MISSED, SW_STANDING_MISSED, "missed" },
    { SW_DOSE_VOMITED, SW_STANDING_VOMITED, "vomited" }, { SW_DOSE_STOPPED, SW_STANDING_STOPPED, "stopped" },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwDosePlan *dose;
  SwStanding standing;

  course_lead_in (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT - 1, 0);
  course_tell (fixture, dose, states[_i].told, SW_UNKNOWN, SW_UNKNOWN);
  standing = sw_dose_state (&fixture->c, dose);
  ck_assert_int_eq (standing, states[_i].standing);
  ck_assert_str_eq (sw_standing_name (standing), states[_i].name);
  ck_assert_int_eq (sw_dose_is_confirmed (standing), states[_i].told == SW_DOSE_GIVEN);
  ck_assert_int_eq (sw_dose_is_lost (standing), states[_i].told != SW_DOSE_GIVEN);
}
END_TEST

/* What was told as given stands as its actual time says. */
START_TEST (test_told_with_a_time)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwDosePlan *dose;

  course_lead_in (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT - 1, 0);
  course_tell (fixture, dose, SW_DOSE_GIVEN, TREAT - 1, 600);
  ck_assert_int_eq (sw_dose_state (&fixture->c, dose), SW_STANDING_LATE);
  course_tell (fixture, dose, SW_DOSE_LATE, TREAT - 1, 841);
  ck_assert_int_eq (sw_dose_state (&fixture->c, dose), SW_STANDING_MISSED);
  ck_assert (!sw_moment_is_set (sw_dose_actual (&fixture->c, dose)));
}
END_TEST

/* Berlin: at 02:00 on 2026-03-29 the clock skips an hour, at 03:00 on 2026-10-25 it shows one again. Half of twelve
 * true hours after 20:00 is 03:00 in March and 01:00 standard time, shown as 02:00 the first time, in October. */
START_TEST (test_daylight_saving)
{
  static const struct { int month, day, minute; SwDoseState state; } nights[] = {
    { 3, 29, 180, SW_DOSE_LATE }, { 3, 29, 181, SW_DOSE_MISSED },
    { 10, 25, 120, SW_DOSE_LATE }, { 10, 25, 121, SW_DOSE_MISSED }, { 10, 25, 180, SW_DOSE_MISSED },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwDay morning = sw_day_from_ymd (2026, nights[_i].month, nights[_i].day);

  g_time_zone_unref (fixture->zone);
  fixture->c.zone = fixture->zone = g_time_zone_new_identifier ("Europe/Berlin");
  ck_assert_ptr_nonnull (fixture->zone);
  course_sign (fixture, morning + 1, NULL);
  ck_assert_int_eq (sw_dose_classify (&fixture->c, course_dose (fixture, "corticosteroid", morning - 1, 1),
                                      (SwMoment){ morning, nights[_i].minute }),
                    nights[_i].state);
  /* the same hour next morning is on time, whatever the night did */
  ck_assert_int_eq (sw_dose_classify (&fixture->c, course_dose (fixture, "corticosteroid", morning, 0),
                                      (SwMoment){ morning, 480 }),
                    SW_DOSE_GIVEN);
}
END_TEST

/* A clock time means the day nearest to due that has come. */
START_TEST (test_moment_told)
{
  SwDosePlan evening = { .due_day = TREAT, .due_minute = 20 * 60 };
  SwDosePlan morning = { .due_day = TREAT, .due_minute = 8 * 60 };
  SwMoment noon_after = { TREAT + 1, 12 * 60 };

  ck_assert_int_eq (sw_dose_moment_told (&evening, 21 * 60, noon_after).day, TREAT);
  ck_assert_int_eq (sw_dose_moment_told (&evening, 30, noon_after).day, TREAT + 1); /* after midnight */
  ck_assert_int_eq (sw_dose_moment_told (&morning, 23 * 60 + 30, noon_after).day, TREAT - 1); /* the night before */
  ck_assert_int_eq (sw_dose_moment_told (&evening, 30, (SwMoment){ TREAT, 23 * 60 }).day, TREAT); /* not come yet */
  ck_assert_int_eq (sw_dose_moment_told (&evening, 30, noon_after).minute, 30);
}
END_TEST

/* Vomiting up to 60 minutes after a dose brings it up. */
START_TEST (test_vomited)
{
  static const struct { int minute; guint n; } times[] = { { 479, 0 }, { 480, 3 }, { 540, 3 }, { 541, 0 } };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) doses = NULL;

  course_lead_in (fixture);
  course_treatment_day (fixture);
  doses = sw_doses_vomited_at (&fixture->c, (SwMoment){ TREAT, times[_i].minute });
  ck_assert_uint_eq (doses->len, times[_i].n);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("dose state");
  TCase *tests = tcase_create ("dose state");
  SRunner *runner;

  tcase_add_loop_test (tests, test_classify, 0, G_N_ELEMENTS (offs));
  tcase_add_test (tests, test_classify_once_a_day);
  tcase_add_test (tests, test_moment_told);
  tcase_add_test (tests, test_first_day_until_two);
  tcase_add_loop_test (tests, test_clock, 0, 5);
  tcase_add_loop_test (tests, test_told, 0, 4);
  tcase_add_test (tests, test_told_with_a_time);
  tcase_add_loop_test (tests, test_daylight_saving, 0, 5);
  tcase_add_loop_test (tests, test_vomited, 0, 4);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
