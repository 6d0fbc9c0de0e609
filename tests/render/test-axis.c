/* test-axis.c: every day has one x, later days lie farther right
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-axis.h"

#include <check.h>
#include <stdlib.h>

#define LEFT 100.0
#define RIGHT 900.0
#define NEAR 1e-6

static void
check_monotonic (const SwAxis *axis)
{
  double last = axis->left - 1;

  for (SwDay day = axis->first; day <= axis->last; day++)
    for (int minute = 0; minute < SW_MINUTES_PER_DAY; minute += 180)
      {
        double x = sw_axis_x (axis, day, minute);

        ck_assert_double_gt (x, last);
        ck_assert_double_ge (x, axis->left);
        ck_assert_double_le (x, axis->right);
        ck_assert_int_eq (sw_axis_day_at (axis, x + NEAR), day);
        last = x;
      }
}

START_TEST (one_day)
{
  g_autoptr (SwAxis) axis = sw_axis_new (10, 10, LEFT, RIGHT);

  sw_axis_widen (axis, 8, 17);
  ck_assert_uint_eq (axis->spans->len, 1);
  ck_assert_double_eq_tol (sw_axis_x (axis, 10, 0), LEFT, NEAR);
  ck_assert_double_eq_tol (sw_axis_x (axis, 10, 720), (LEFT + RIGHT) / 2, NEAR);
  check_monotonic (axis);
}
END_TEST

START_TEST (ten_days)
{
  g_autoptr (SwAxis) axis = sw_axis_new (-2, 7, LEFT, RIGHT);

  sw_axis_widen (axis, -2, 7);
  ck_assert_uint_eq (axis->spans->len, 1);
  for (SwDay day = -2; day <= 7; day++)
    ck_assert_double_eq_tol (sw_axis_day_width (axis, day), 80, NEAR);
  check_monotonic (axis);
}
END_TEST

START_TEST (the_rest_is_compressed)
{
  g_autoptr (SwAxis) axis = sw_axis_new (-2, 84, LEFT, RIGHT);

  sw_axis_widen (axis, -2, 7);
  ck_assert_uint_eq (axis->spans->len, 2);
  ck_assert (sw_axis_is_wide (axis, 7));
  ck_assert (!sw_axis_is_wide (axis, 8));
  /* 10 wide days beside 77 compressed ones that share 0.6 of their width: 800 / 1.6 */
  ck_assert_double_eq_tol (sw_axis_x (axis, 8, 0), LEFT + 500, NEAR);
  ck_assert_double_eq_tol (sw_axis_day_width (axis, 40), 300.0 / 77, NEAR);
  check_monotonic (axis);
}
END_TEST

START_TEST (two_courses)
{
  g_autoptr (SwAxis) axis = sw_axis_new (-2, 130, LEFT, RIGHT);

  sw_axis_widen (axis, -2, 7);
  sw_axis_widen (axis, 40, 49);
  ck_assert_uint_eq (axis->spans->len, 4);
  ck_assert_double_eq_tol (sw_axis_day_width (axis, 0), sw_axis_day_width (axis, 45), NEAR);
  ck_assert_double_lt (sw_axis_day_width (axis, 20), sw_axis_day_width (axis, 45));
  check_monotonic (axis);
}
END_TEST

START_TEST (overlaps_count_once)
{
  g_autoptr (SwAxis) axis = sw_axis_new (0, 400, LEFT, RIGHT);

  sw_axis_widen (axis, -5, 6);
  sw_axis_widen (axis, 4, 12);
  sw_axis_widen (axis, 500, 510);
  ck_assert_uint_eq (axis->spans->len, 2);
  ck_assert_int_eq (g_array_index (axis->spans, SwAxisSpan, 0).last, 12);
  check_monotonic (axis);
}
END_TEST

START_TEST (beside_the_axis)
{
  g_autoptr (SwAxis) axis = sw_axis_new (0, 9, LEFT, RIGHT);

  ck_assert_double_eq_tol (sw_axis_x (axis, -3, 0), LEFT, NEAR);
  ck_assert_double_eq_tol (sw_axis_x (axis, 30, 0), RIGHT, NEAR);
  ck_assert_int_eq (sw_axis_day_at (axis, 0), 0);
  ck_assert_int_eq (sw_axis_day_at (axis, 5000), 9);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("axis");
  TCase *tcase = tcase_create ("axis");
  SRunner *runner;
  int failed;

  tcase_add_test (tcase, one_day);
  tcase_add_test (tcase, ten_days);
  tcase_add_test (tcase, the_rest_is_compressed);
  tcase_add_test (tcase, two_courses);
  tcase_add_test (tcase, overlaps_count_once);
  tcase_add_test (tcase, beside_the_axis);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);

  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
