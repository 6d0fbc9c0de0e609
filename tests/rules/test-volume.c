/* test-volume.c: volumes, intervals and chances against values computed elsewhere
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-volume.h"

#include "check-values.h"
#include "sw-quantity.h"

#include <math.h>
#include <stdlib.h>

static SwMeasured
measure (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);
  guint n = g_strv_length (parts);
  g_autofree SwAxes *readings = g_new0 (SwAxes, n);
  SwMeasured measured;

  for (guint i = 0; i < n; i++)
    ck_assert_msg (sw_reading_parse (g_strstrip (parts[i]), readings[i].axis, NULL), "%s", parts[i]);
  ck_assert (sw_volume_measure (readings, n, &measured));
  return measured;
}

static void
assert_near (double value, const char *expected, const char *what)
{
  double wanted = g_ascii_strtod (expected, NULL);

  /* reading-interval.csv: relative tolerance 1e-5 */
  ck_assert_msg (fabs (value - wanted) <= 1e-5 * fabs (wanted), "%s: %.9g, not %s", what, value, expected);
}

/* Source: tests/rules/values/reading-interval.csv (computed from the rule of domain 2, independent of this program). */
START_TEST (test_intervals)
{
  g_autoptr (GPtrArray) rows = check_values_read ("reading-interval.csv");

  ck_assert_uint_eq (rows->len, 6);
  for (guint i = 1; i < rows->len; i++)
    {
      char **row = rows->pdata[i];
      SwMeasured measured = measure (row[0]);
      SwInterval interval;
      SwRatio exact;
      double cm3;

      ck_assert (sw_volume_cm3 (&measured, SW_VOLUME_HALF_PRODUCT, &exact));
      cm3 = sw_ratio_to_double (exact);
      interval = sw_volume_interval (&measured, SW_VOLUME_HALF_PRODUCT, 0, cm3);
      assert_near (cm3, row[1], "volume");
      assert_near (interval.r, row[2], "r");
      assert_near (interval.lo, row[3], "lower end");
      assert_near (interval.hi, row[4], "upper end");
      assert_near (sw_volume_chance_over (&interval, cm3, 8), row[5], "chance over 8 cm3");
    }
}
END_TEST

static void
assert_volume (const char *readings, SwVolumeRule rule, SwWide num, SwWide den)
{
  SwMeasured measured = measure (readings);
  SwRatio cm3;
  int order = 1;

  ck_assert (sw_volume_cm3 (&measured, rule, &cm3));
  ck_assert (sw_ratio_compare (cm3, (SwRatio){ num, den }, &order));
  ck_assert_msg (order == 0, "%s: %g", readings, sw_ratio_to_double (cm3));
}

/* 20 x 20 x 20 mm: 4 cm3 by the half product; pi/6 8 = 4.18879020, 4.72 % more (domain 2, computed). */
START_TEST (test_rules)
{
  assert_volume ("20x20x20", SW_VOLUME_HALF_PRODUCT, 4, 1);
  assert_volume ("20x20x20", SW_VOLUME_SIXTH_PI_PRODUCT, 8 * (SwWide) 314159265, 600000000);
  /* a the longest, b the next: 30 x 20 x 20, whatever the third is and in whatever order. */
  assert_volume ("5x30x20", SW_VOLUME_SIXTH_PI_A_B2, 12 * (SwWide) 314159265, 600000000);
  assert_volume ("20x5x30", SW_VOLUME_SIXTH_PI_A_B2, 12 * (SwWide) 314159265, 600000000);
}
END_TEST

START_TEST (test_each_reading_is_sorted)
{
  SwMeasured measured = measure ("12x14x6; 15x11x6.5");
  SwRatio longest = sw_volume_longest (&measured), product;

  ck_assert_int_eq (measured.sum[SW_AXIS_LONGEST], 2900);
  ck_assert_int_eq (measured.sum[SW_AXIS_MIDDLE], 2300);
  ck_assert_int_eq (measured.sum[SW_AXIS_SHORTEST], 1250);
  ck_assert (longest.num == 1450 && longest.den == 1);
  ck_assert (sw_volume_product (&measured, &product));
  ck_assert (product.num == 1450 * 1150 && product.den == 1);
}
END_TEST

/* For a b^2 the middle axis counts twice and the shortest not at all: r^2 = e^2 + 4 e^2. */
START_TEST (test_interval_follows_the_rule)
{
  SwMeasured measured = measure ("20x20x20");
  SwInterval interval = sw_volume_interval (&measured, SW_VOLUME_SIXTH_PI_A_B2, 0, 4);

  ck_assert (fabs (interval.r - sqrt (5) / 10) < 1e-12);
  interval = sw_volume_interval (&measured, SW_VOLUME_HALF_PRODUCT, 50, 4);
  ck_assert (fabs (interval.r - sqrt (3) / 20) < 1e-12);
}
END_TEST

START_TEST (test_chance_at_the_limit_is_half)
{
  SwInterval interval = { 0.1, 0, 0 };

  ck_assert (fabs (sw_volume_chance_over (&interval, 8, 8) - 0.5) < 1e-15);
  /* One standard error under the limit: 1 - Phi(1) = 0.158655253931457 (tables of the normal distribution). */
  ck_assert (fabs (sw_volume_chance_over (&interval, 8 * exp (-0.1), 8) - 0.158655253931457) < 1e-12);
}
END_TEST

/* More than 10 % [ours] of the mean: 21 and 19 differ by exactly 10 %, 21.01 and 19 by more. */
START_TEST (test_spread_note)
{
  g_autoptr (GPtrArray) findings = sw_findings_new ();
  SwMeasured exactly = measure ("21x10x5; 19x10x5"), more = measure ("21.01x10x5; 19x10x5");

  sw_volume_note_spread (&exactly, 0, "A", findings);
  ck_assert_uint_eq (findings->len, 0);
  sw_volume_note_spread (&more, 0, "A", findings);
  ck_assert_uint_eq (findings->len, 1);
}
END_TEST

START_TEST (test_no_measure)
{
  SwAxes many[13];
  SwMeasured measured;

  for (guint i = 0; i < G_N_ELEMENTS (many); i++)
    many[i] = (SwAxes){ { 30000, 30000, 30000 } };
  ck_assert (!sw_volume_measure (many, 0, &measured));
  ck_assert (!sw_volume_measure (many, 13, &measured));
  ck_assert (sw_volume_measure (many, 12, &measured));
  many[3].axis[1] = 0;
  ck_assert (!sw_volume_measure (many, 12, &measured));
  many[3].axis[1] = 30001;
  ck_assert (!sw_volume_measure (many, 12, &measured));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("volume");
  TCase *tests = tcase_create ("volume");
  SRunner *runner;

  tcase_add_test (tests, test_intervals);
  tcase_add_test (tests, test_rules);
  tcase_add_test (tests, test_each_reading_is_sorted);
  tcase_add_test (tests, test_interval_follows_the_rule);
  tcase_add_test (tests, test_chance_at_the_limit_is_half);
  tcase_add_test (tests, test_spread_note);
  tcase_add_test (tests, test_no_measure);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
