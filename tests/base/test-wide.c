/* test-wide.c: exact rationals against an independent computation, and every overflow answered
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-wide.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

__extension__ typedef unsigned __int128 Unsigned;

static const SwWide most = (SwWide) (((Unsigned) 1 << 127) - 1);

START_TEST (test_overflow_is_an_answer)
{
  SwWide wide = 77;
  SwRatio ratio = { 7, 7 };
  gint64 whole = 77;
  int order = 77;

  ck_assert (!sw_wide_add (most, 1, &wide));
  ck_assert (!sw_wide_add (-most - 1, -1, &wide));
  ck_assert (!sw_wide_mul (most, 2, &wide));
  ck_assert (!sw_wide_mul (-most - 1, -1, &wide));
  ck_assert (wide == 77);
  ck_assert (!sw_ratio_add ((SwRatio){ most, 1 }, (SwRatio){ 1, 1 }, &ratio));
  ck_assert (!sw_ratio_add ((SwRatio){ 1, most }, (SwRatio){ 1, 2 }, &ratio));
  ck_assert (!sw_ratio_sub ((SwRatio){ 1, 1 }, (SwRatio){ -most - 1, 1 }, &ratio));
  ck_assert (!sw_ratio_mul ((SwRatio){ most, 1 }, (SwRatio){ 2, 1 }, &ratio));
  ck_assert (!sw_ratio_div ((SwRatio){ most, 1 }, (SwRatio){ 1, 2 }, &ratio));
  ck_assert (!sw_ratio_div ((SwRatio){ 1, 1 }, (SwRatio){ 0, 1 }, &ratio));
  ck_assert (ratio.num == 7 && ratio.den == 7);
  ck_assert (!sw_ratio_compare ((SwRatio){ most, 3 }, (SwRatio){ most, 2 }, &order));
  ck_assert_int_eq (order, 77);
  ck_assert (!sw_ratio_floor ((SwRatio){ (SwWide) G_MAXINT64 + 1, 1 }, &whole));
  ck_assert (!sw_ratio_round ((SwRatio){ (SwWide) G_MAXINT64 * 2 + 1, 2 }, &whole));
  ck_assert_int_eq (whole, 77);
}
END_TEST

/* Products that cancel don't overflow: the largest tumour of domain 2, twelve readings of 300 mm, stays exact. */
START_TEST (test_largest_sums_fit)
{
  SwRatio sum = sw_ratio (0, 1), volume, limit = sw_ratio (8, 1);
  int order = 0;

  for (int i = 0; i < 12; i++)
    {
      SwRatio axis = sw_ratio (12 * 30000 - i, 12);

      ck_assert (sw_ratio_mul (axis, axis, &volume) && sw_ratio_mul (volume, axis, &volume));
      ck_assert (sw_ratio_mul (volume, sw_ratio (1, G_GINT64_CONSTANT (2000000000)), &volume));
      ck_assert (sw_ratio_mul (volume, SW_PI, &volume) && sw_ratio_div (volume, sw_ratio (3, 1), &volume));
      ck_assert (sw_ratio_add (sum, volume, &sum));
    }
  ck_assert (sw_ratio_compare (sum, limit, &order) && order > 0);
}
END_TEST

static void
assert_beside (SwRatio value, SwRatio limit, const char *value_text, const char *limit_text)
{
  g_autofree char *left = NULL, *right = NULL;

  sw_ratio_format_beside (value, limit, 2, &left, &right);
  ck_assert_str_eq (left, value_text);
  ck_assert_str_eq (right, limit_text);
}

START_TEST (test_format_beside)
{
  assert_beside (sw_ratio (8004, 1000), sw_ratio (8, 1), "8.004", "8");
  assert_beside (sw_ratio (390625, 100000), sw_ratio (3, 1), "3.91", "3");
  assert_beside (sw_ratio (4, 1), sw_ratio (39999, 10000), "4", "3.9999");
  assert_beside (sw_ratio (8, 1), sw_ratio (8, 1), "8", "8");
  assert_beside (sw_ratio (1, 3), sw_ratio (333, 1000), "0.3333", "0.333");
  assert_beside (sw_ratio (10, 1), sw_ratio (100, 1), "10", "100");
}
END_TEST

static void
assert_format (SwRatio r, guint digits, const char *expected)
{
  g_autofree char *text = sw_ratio_format (r, digits);

  ck_assert_str_eq (text, expected);
}

static void
assert_significant (SwRatio r, const char *expected)
{
  g_autofree char *text = sw_ratio_format_significant (r, 3);

  ck_assert_str_eq (text, expected);
}

START_TEST (test_formats)
{
  assert_format (sw_ratio (5, 1000), 2, "0.01");
  assert_format (sw_ratio (-5, 1000), 2, "-0.01");
  assert_format (sw_ratio (4, 1000), 2, "0.00");
  assert_format (sw_ratio (-4, 1000), 2, "0.00");
  assert_format (sw_ratio (9995, 1000), 2, "10.00");
  assert_format (sw_ratio (19, 2), 0, "10");
  assert_format (sw_ratio (2, 3), 18, "0.666666666666666667");
  assert_format ((SwRatio){ most - 1, most }, 2, "1.00");
  assert_format ((SwRatio){ most / 2, most }, 3, "0.500");
  assert_format ((SwRatio){ most, 1 }, 0, "170141183460469231731687303715884105727");
  assert_significant (sw_ratio (9996, 1000), "10.0");
  assert_significant (sw_ratio (99951, 1000), "100");
  assert_significant (sw_ratio (996, 10000), "0.0996");
  assert_significant (sw_ratio (9996, 100000), "0.100");
  assert_significant (sw_ratio (12345, 10), "1235");
  assert_significant (sw_ratio (0, 5), "0");
}
END_TEST

START_TEST (test_whole_numbers)
{
  gint64 whole = 0;

  ck_assert (sw_ratio_floor (sw_ratio (7, 2), &whole) && whole == 3);
  ck_assert (sw_ratio_floor (sw_ratio (-7, 2), &whole) && whole == -4);
  ck_assert (sw_ratio_floor (sw_ratio (-8, 2), &whole) && whole == -4);
  ck_assert (sw_ratio_round (sw_ratio (7, 2), &whole) && whole == 4);
  ck_assert (sw_ratio_round (sw_ratio (-7, 2), &whole) && whole == -4);
  ck_assert (sw_ratio_round (sw_ratio (10, 3), &whole) && whole == 3);
}
END_TEST

static guint32
seed_of_run (void)
{
  const char *given = g_getenv ("SW_TEST_SEED");

  return given != NULL ? (guint32) g_ascii_strtoull (given, NULL, 10) : 20261125u;
}

/* Of small numbers. By way of 64 bits: valgrind rounds long double to 64 bits, which 128-bit numbers below zero don't survive. */
static long double
real (SwRatio r)
{
  return (long double) (gint64) r.num / (gint64) r.den;
}

/* Small ratios against long double, which holds their sums and products to far better than 1e-9. */
START_TEST (test_against_long_double)
{
  const int runs = g_getenv ("SW_TEST_LONG") != NULL ? 1000000 : 20000;
  guint32 seed = seed_of_run ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);

  for (int i = 0; i < runs; i++)
    {
      gint64 n1 = g_rand_int_range (rand, -9999, 9999), d1 = g_rand_int_range (rand, 1, 9999);
      gint64 n2 = g_rand_int_range (rand, -9999, 9999), d2 = g_rand_int_range (rand, 1, 9999);
      SwRatio a = sw_ratio (n1, d1), b = sw_ratio (n2, d2), r;
      long double x = (long double) n1 / d1, y = (long double) n2 / d2;
      int order;

      ck_assert_msg (sw_ratio_add (a, b, &r) && fabsl (real (r) - (x + y)) < 1e-9L, "seed %u", seed);
      ck_assert_msg (sw_ratio_sub (a, b, &r) && fabsl (real (r) - (x - y)) < 1e-9L, "seed %u", seed);
      ck_assert_msg (sw_ratio_mul (a, b, &r) && fabsl (real (r) - x * y) < 1e-6L, "seed %u", seed);
      ck_assert_msg (sw_ratio_compare (a, b, &order) && order == (n1 * d2 > n2 * d1) - (n1 * d2 < n2 * d1), "seed %u",
                     seed);
      ck_assert_msg (n2 == 0 ||
                         (sw_ratio_div (a, b, &r) && sw_ratio_mul (r, b, &r) && r.num == a.num && r.den == a.den),
                     "seed %u", seed);
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("wide");
  TCase *exact = tcase_create ("exact");
  SRunner *runner;

  tcase_set_timeout (exact, 60);
  tcase_add_test (exact, test_overflow_is_an_answer);
  tcase_add_test (exact, test_largest_sums_fit);
  tcase_add_test (exact, test_format_beside);
  tcase_add_test (exact, test_formats);
  tcase_add_test (exact, test_whole_numbers);
  tcase_add_test (exact, test_against_long_double);
  suite_add_tcase (suite, exact);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
