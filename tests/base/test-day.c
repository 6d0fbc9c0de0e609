/* test-day.c: calendar days against GDate, and minutes across changes of the clock
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-day.h"
#include "sw-error.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

/* Summer time from the last Sunday of March, 02:00, to the last of October, 03:00 (EU Directive 2000/84/EC), as a rule
 * of POSIX, so that the test needs no zone files. */
#define MIDDLE_EUROPE "CET-1CEST,M3.5.0/2,M10.5.0/3"

static SwMoment
moment (const char *text)
{
  SwMoment result = SW_NO_MOMENT;

  ck_assert_msg (sw_moment_parse (text, &result, NULL), "%s", text);
  return result;
}

START_TEST (test_every_day_of_400_years)
{
  GDate date;

  g_date_clear (&date, 1);
  g_date_set_dmy (&date, 1, 1, 1800);
  for (SwDay day = sw_day_from_ymd (1800, 1, 1); day <= sw_day_from_ymd (2200, 12, 31); day++)
    {
      int year, month, day_of_month;

      sw_day_to_ymd (day, &year, &month, &day_of_month);
      ck_assert_int_eq (year, g_date_get_year (&date));
      ck_assert_int_eq (month, (int) g_date_get_month (&date));
      ck_assert_int_eq (day_of_month, g_date_get_day (&date));
      ck_assert_int_eq (sw_day_from_ymd (year, month, day_of_month), day);
      ck_assert_int_eq (sw_day_weekday (day), (int) g_date_get_weekday (&date));
      g_date_add_days (&date, 1);
    }
}
END_TEST

START_TEST (test_known_days)
{
  SwDay day = SW_NO_DAY;

  ck_assert_int_eq (sw_day_from_ymd (1970, 1, 1), 0);
  ck_assert_int_eq (sw_day_weekday (0), 4);
  ck_assert (sw_day_parse ("2028-02-29", &day, NULL));
  ck_assert_int_eq (sw_day_parse ("2028-03-01", &(SwDay){ 0 }, NULL), TRUE);
  ck_assert_int_eq (sw_day_from_ymd (2028, 3, 1) - day, 1);
  ck_assert_int_eq (sw_day_from_ymd (2026, 3, 1) - sw_day_from_ymd (2026, 2, 28), 1);
  ck_assert_int_eq (sw_day_from_ymd (9999, 12, 31), 2932896);
}
END_TEST

START_TEST (test_add)
{
  ck_assert_int_eq (sw_day_add_months (sw_day_from_ymd (2026, 1, 31), 1), sw_day_from_ymd (2026, 2, 28));
  ck_assert_int_eq (sw_day_add_months (sw_day_from_ymd (2028, 2, 29), 12), sw_day_from_ymd (2029, 2, 28));
  ck_assert_int_eq (sw_day_add_months (sw_day_from_ymd (2026, 1, 15), -1), sw_day_from_ymd (2025, 12, 15));
  ck_assert_int_eq (sw_day_add_months (SW_NO_DAY, 1), SW_NO_DAY);
  ck_assert_int_eq (sw_day_add_days (SW_NO_DAY, 1), SW_NO_DAY);
  ck_assert_int_eq (sw_day_months_between (sw_day_from_ymd (2025, 11, 25), sw_day_from_ymd (2026, 11, 25)), 12);
  ck_assert_int_eq (sw_day_months_between (sw_day_from_ymd (2025, 11, 26), sw_day_from_ymd (2026, 11, 25)), 11);
  ck_assert_int_eq (sw_day_months_between (sw_day_from_ymd (2025, 8, 31), sw_day_from_ymd (2026, 2, 28)), 6);
  ck_assert_int_eq (sw_day_months_between (sw_day_from_ymd (2026, 2, 28), sw_day_from_ymd (2026, 1, 1)), 0);
}
END_TEST

START_TEST (test_bad_days)
{
  static const char *const texts[] = { "",           "2026",        "2026-2-28",   "28-02-2026", "2026/02/28",
                                       "2026-02-29", "2026-13-01",  "2026-00-10",  "2026-04-31", "2026-01-00",
                                       "0000-01-01", "2026-02-28 ", " 2026-02-28", "2026-02-2x", "２０２６-02-28",
                                       "tomorrow",   "-2026-02-28" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      SwDay day = 77;

      ck_assert_msg (!sw_day_parse (texts[i], &day, &error), "%s", texts[i]);
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT) && g_str_has_suffix (error->message, "."));
      ck_assert_int_eq (day, 77);
    }
}
END_TEST

START_TEST (test_bad_times)
{
  static const char *const times[] =
      { "", "8:05", "24:00", "08:60", "08:05:00", "8.05", "0805", "08:5", "-1:00", "noon" };
  static const char *const moments[] = { "", "2026-02-28", "2026-02-28 08:05", "2026-02-28T24:00", "2026-02-30T08:05",
                                         "2026-02-28T08:05Z", "2026-02-28T08:05+01:00", "T08:05" };

  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    {
      g_autoptr (GError) error = NULL;
      int minute = 77;

      ck_assert_msg (!sw_time_parse (times[i], &minute, &error), "%s", times[i]);
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT) && g_str_has_suffix (error->message, "."));
      ck_assert_int_eq (minute, 77);
    }
  for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
    {
      g_autoptr (GError) error = NULL;
      SwMoment value = { 77, 7 };

      ck_assert_msg (!sw_moment_parse (moments[i], &value, &error), "%s", moments[i]);
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT) && g_str_has_suffix (error->message, "."));
      ck_assert_int_eq (value.day, 77);
    }
}
END_TEST

START_TEST (test_round_trips)
{
  g_autofree char *text = sw_moment_format (moment ("2026-02-28T08:05")), *none = sw_moment_format (SW_NO_MOMENT);
  g_autofree char *no_day = sw_day_format (SW_NO_DAY);

  ck_assert_str_eq (text, "2026-02-28T08:05");
  ck_assert_str_eq (none, "");
  ck_assert_str_eq (no_day, "");
  for (int minute = 0; minute < SW_MINUTES_PER_DAY; minute++)
    {
      g_autofree char *time = sw_time_format (minute);
      int back = -1;

      ck_assert (sw_time_parse (time, &back, NULL) && back == minute);
    }
}
END_TEST

START_TEST (test_moments)
{
  SwMoment evening = moment ("2026-02-28T20:00"), later;

  later = sw_moment_add_minutes (evening, 12 * 60);
  ck_assert_int_eq (sw_moment_compare (later, moment ("2026-03-01T08:00")), 0);
  ck_assert_int_lt (sw_moment_compare (evening, later), 0);
  ck_assert_int_gt (sw_moment_compare (moment ("2026-02-28T20:01"), evening), 0);
  later = sw_moment_add_minutes (evening, -24 * 60 * 2 - 1);
  ck_assert_int_eq (sw_moment_compare (later, moment ("2026-02-26T19:59")), 0);
  ck_assert (!sw_moment_is_set (sw_moment_add_minutes (SW_NO_MOMENT, 5)));
}
END_TEST

/* The EU's clocks: forward at 2026-03-29 02:00, back at 2026-10-25 03:00. */
START_TEST (test_changes_of_the_clock)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (MIDDLE_EUROPE);

  ck_assert_ptr_nonnull (zone);
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-03-28T20:00"), moment ("2026-03-29T08:00")),
                    11 * 60);
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-10-24T20:00"), moment ("2026-10-25T08:00")),
                    13 * 60);
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-06-01T20:00"), moment ("2026-06-02T08:00")),
                    12 * 60);
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-06-02T08:00"), moment ("2026-06-01T20:00")),
                    -12 * 60);
  /* 02:30 is skipped in March: as far after the change, 03:30 summer time. */
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-03-29T01:30"), moment ("2026-03-29T02:30")), 60);
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-03-29T02:30"), moment ("2026-03-29T03:30")), 0);
  /* 02:30 comes twice in October: the first. */
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-10-25T01:30"), moment ("2026-10-25T02:30")), 60);
  ck_assert_int_eq (sw_moment_minutes_between (zone, moment ("2026-10-25T02:30"), moment ("2026-10-25T03:30")), 120);
}
END_TEST

/* Each minute around both changes comes back from UTC, but for the hour that is shown twice. */
START_TEST (test_utc_round_trip)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (MIDDLE_EUROPE);
  gint64 start = sw_moment_to_utc (zone, moment ("2026-03-27T00:00"));
  SwMoment instant;

  for (gint64 minute = 0; minute < 5 * SW_MINUTES_PER_DAY; minute++)
    {
      gint64 utc = start + minute * G_TIME_SPAN_MINUTE;

      ck_assert_int_eq (sw_moment_to_utc (zone, sw_moment_from_utc (zone, utc + 59 * G_USEC_PER_SEC)), utc);
    }
  instant = sw_moment_from_utc (zone, sw_moment_to_utc (zone, moment ("2026-10-25T02:30")) + G_TIME_SPAN_HOUR);
  ck_assert_int_eq (sw_moment_compare (instant, moment ("2026-10-25T02:30")), 0);
  instant = sw_moment_from_utc (zone, -1);
  ck_assert_int_eq (sw_moment_compare (instant, moment ("1970-01-01T00:59")), 0);
}
END_TEST

/* Zones far from Greenwich, and half hours, keep the local day. */
START_TEST (test_far_zones)
{
  static const char *const zones[] =
      { "UTC0", "<+14>-14", "<-11>11", "NST3:30NDT,M3.2.0,M11.1.0", "NZST-12NZDT,M9.5.0,M4.1.0/3" };

  for (guint i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (zones[i]);
      SwMoment local = moment ("2026-12-31T23:59");

      ck_assert_msg (zone != NULL, "%s", zones[i]);
      ck_assert_int_eq (sw_moment_compare (sw_moment_from_utc (zone, sw_moment_to_utc (zone, local)), local), 0);
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("day");
  TCase *days = tcase_create ("days"), *minutes = tcase_create ("minutes");
  SRunner *runner;

  tcase_set_timeout (days, 60);
  tcase_add_test (days, test_every_day_of_400_years);
  tcase_add_test (days, test_known_days);
  tcase_add_test (days, test_add);
  tcase_add_test (days, test_bad_days);
  tcase_add_test (minutes, test_bad_times);
  tcase_add_test (minutes, test_round_trips);
  tcase_add_test (minutes, test_moments);
  tcase_add_test (minutes, test_changes_of_the_clock);
  tcase_add_test (minutes, test_utc_round_trip);
  tcase_add_test (minutes, test_far_zones);
  suite_add_tcase (suite, days);
  suite_add_tcase (suite, minutes);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
