/* test-plausible.c: entries that are asked about, at their edges (domain 2: 8 times either way; 10 % in 14 days [ours])
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-plausible.h"

#include <check.h>
#include <stdlib.h>

START_TEST (slips_of_the_unit)
{
  ck_assert_int_eq (sw_plausible_value (2140, SW_UNKNOWN), SW_PLAUSIBLE);
  ck_assert_int_eq (sw_plausible_value (800, 100), SW_PLAUSIBLE_UNIT_SLIP);
  ck_assert_int_eq (sw_plausible_value (799, 100), SW_PLAUSIBLE);
  ck_assert_int_eq (sw_plausible_value (100, 800), SW_PLAUSIBLE_UNIT_SLIP);
  ck_assert_int_eq (sw_plausible_value (100, 799), SW_PLAUSIBLE);
}
END_TEST

START_TEST (weights_that_moved)
{
  ck_assert_int_eq (sw_plausible_weight (20000, 100, SW_UNKNOWN, 90), SW_PLAUSIBLE);
  ck_assert_int_eq (sw_plausible_weight (22000, 104, 20000, 90), SW_PLAUSIBLE);       /* exactly 10 % */
  ck_assert_int_eq (sw_plausible_weight (22001, 104, 20000, 90), SW_PLAUSIBLE_MOVED); /* over it, on day 14 */
  ck_assert_int_eq (sw_plausible_weight (17999, 104, 20000, 90), SW_PLAUSIBLE_MOVED);
  ck_assert_int_eq (sw_plausible_weight (22001, 105, 20000, 90), SW_PLAUSIBLE);       /* day 15 */
  ck_assert_int_eq (sw_plausible_weight (2460, 200, 24600, 90), SW_PLAUSIBLE_UNIT_SLIP);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("plausible");
  TCase *tcase = tcase_create ("plausible");
  SRunner *runner;
  int failed;

  tcase_add_test (tcase, slips_of_the_unit);
  tcase_add_test (tcase, weights_that_moved);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);

  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
