/* test-treatment.c: shares of the limits, the spread of readings, the looks after the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "case-fixture.h"

#include "sw-dose.h"
#include "sw-observation.h"
#include "sw-quantity.h"

#include <check.h>
#include <stdlib.h>

/* "1.70 cm3 of 8 cm3" in tenths of a per cent. */
static void
assert_share (const SwDoseResult *dose, guint i, SwFindingCode limit, const char *percent, gboolean over)
{
  const SwDoseShare *share = &g_array_index (dose->shares, SwDoseShare, i);
  g_autofree char *text = sw_ratio_format (share->percent, 1);

  ck_assert_int_eq (share->limit, limit);
  ck_assert_str_eq (text, percent);
  ck_assert_int_eq (share->over, over);
}

static SwDoseResult *
dose_of (const char *readings, gint64 grams)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwAxes axes[1];
  SwDoseTumour tumour = { 1, 0, axes, 1 };
  SwDoseInput input = { .weight_g = grams, .tumours = &tumour, .n_tumours = 1, .free_day = SW_NO_DAY, .today = SW_NO_DAY };
  SwDoseResult *dose;

  input.protocol = sw_case_protocol (&fixture->c);
  ck_assert (sw_reading_parse (readings, axes[0].axis, NULL));
  dose = sw_dose_compute (&input, NULL);
  ck_assert_ptr_nonnull (dose);
  ck_assert_uint_eq (dose->shares->len, 3);
  return dose;
}

/* By hand: 20 x 20 x 10 mm is 2 cm3, 1 mL; limits 8 cm3, 0.15 mL/kg x 20 kg = 3 mL, 4 mL. */
START_TEST (test_shares)
{
  g_autoptr (SwDoseResult) dose = dose_of ("20x20x10", 20000);

  assert_share (dose, 0, SW_FINDING_VOLUME_LIMIT, "25.0", FALSE);
  assert_share (dose, 1, SW_FINDING_WEIGHT_LIMIT, "33.3", FALSE);
  assert_share (dose, 2, SW_FINDING_TREATMENT_LIMIT, "25.0", FALSE);
}
END_TEST

/* A hundredth of a millimetre past a limit is over it, though it still reads 100.0 %. */
START_TEST (test_share_over)
{
  g_autoptr (SwDoseResult) at = dose_of ("20x20x40", 26667);
  g_autoptr (SwDoseResult) over = dose_of ("20x20x40.01", 26667);

  assert_share (at, 0, SW_FINDING_VOLUME_LIMIT, "100.0", FALSE);
  assert_share (at, 2, SW_FINDING_TREATMENT_LIMIT, "100.0", FALSE);
  assert_share (over, 0, SW_FINDING_VOLUME_LIMIT, "100.0", TRUE);
  assert_share (over, 2, SW_FINDING_TREATMENT_LIMIT, "100.0", TRUE);
}
END_TEST

START_TEST (test_spread)
{
  SwAxes axes[2] = { { { 2000, 1000, 500 } }, { { 2000, 1100, 500 } } };
  SwMeasured one, both;
  SwRatio percent;
  g_autofree char *text = NULL;

  ck_assert (sw_volume_measure (axes, 1, &one) && sw_volume_measure (axes, 2, &both));
  ck_assert (!sw_volume_widest_spread (&one, &percent));
  ck_assert (sw_volume_widest_spread (&both, &percent));
  text = sw_ratio_format (percent, 2); /* 100 / 1050 */
  ck_assert_str_eq (text, "9.52");
}
END_TEST

static void
look_at (Fixture *fixture, int minute)
{
  SwObservation *look = sw_new (SW_FACT_OBSERVATION, SwObservation);

  look->course = fixture->c.course;
  look->day = TODAY;
  look->minute = minute;
  fixture_put (fixture, look);
}

/* Every 30 minutes for two hours (domain 6, [ours]). */
START_TEST (test_looks)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwInjection *injection = sw_new (SW_FACT_INJECTION, SwInjection);

  ck_assert (!sw_moment_is_set (sw_observation_next (&fixture->c)));
  injection->course = fixture->c.course;
  injection->day = TODAY;
  injection->minute = 600;
  fixture_put (fixture, injection);
  ck_assert_int_eq (sw_observation_until (&fixture->c).minute, 720);
  ck_assert_int_eq (sw_observation_next (&fixture->c).minute, 630);
  look_at (fixture, 640);
  ck_assert_int_eq (sw_observation_next (&fixture->c).minute, 670);
  look_at (fixture, 719);
  ck_assert_int_eq (sw_observation_next (&fixture->c).minute, 749);
  look_at (fixture, 720);
  ck_assert (!sw_moment_is_set (sw_observation_next (&fixture->c)));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("treatment");
  TCase *cases = tcase_create ("treatment");
  SRunner *runner;
  int failed;

  tcase_add_test (cases, test_shares);
  tcase_add_test (cases, test_share_over);
  tcase_add_test (cases, test_spread);
  tcase_add_test (cases, test_looks);
  suite_add_tcase (suite, cases);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);

  return failed > 0 ? EXIT_FAILURE : EXIT_SUCCESS;
}
