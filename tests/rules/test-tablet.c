/* test-tablet.c: tablets and liquids against rows computed elsewhere, and each step of the order of preference
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-tablet.h"

#include "check-values.h"
#include "sw-quantity.h"
#include "sw-unknown.h"

#include <math.h>
#include <stdlib.h>

static SwRatio
decimal (const char *text)
{
  gint64 millionths;

  ck_assert (sw_decimal_parse (text, 6, &millionths, NULL));
  return sw_ratio (millionths, 1000000);
}

static SwTabletInput
read_row (char **row, gint64 *strengths)
{
  g_auto (GStrv) parts = g_strsplit (row[4], ";", -1);
  SwTabletInput input = {
    .weight_g = 26200, .target = decimal (row[1]), .low = decimal (row[2]), .high = decimal (row[3])
  };

  for (guint i = 0; parts[i] != NULL; i++)
    {
      ck_assert (sw_decimal_parse (parts[i], 3, &strengths[i], NULL));
      input.n_strengths++;
    }
  input.strengths_ug = strengths;
  input.halves = g_str_equal (row[5], "halves");
  /* domain 3.2: maropitant, at least 2 mg/kg, up to 4. */
  input.at_least = g_str_equal (row[0], "maropitant");
  return input;
}

/* Source: tests/rules/values/medicines.csv (computed with the rule of domain 3.2). */
START_TEST (test_check_rows)
{
  g_autoptr (GPtrArray) rows = check_values_read ("medicines.csv");

  ck_assert_uint_eq (rows->len, 5);
  for (guint i = 1; i < rows->len; i++)
    {
      char **row = rows->pdata[i];
      gint64 strengths[8];
      SwTabletInput input = read_row (row, strengths);
      SwTabletChoice choice;
      g_autofree char *described = NULL, *wanted = g_strdup_printf ("%s mg", row[8]);

      ck_assert_msg (sw_tablet_choose (&input, &choice), "%s", row[0]);
      described = sw_tablet_describe (&choice);
      ck_assert_str_eq (described, wanted);
      ck_assert (fabs (sw_ratio_to_double (choice.target) - 1000 * g_ascii_strtod (row[6], NULL)) < 1e-6);
      ck_assert (fabs (sw_ratio_to_double (choice.dose) - 1000 * g_ascii_strtod (row[7], NULL)) < 1e-6);
      ck_assert (!choice.deviates);
    }
}
END_TEST

static gboolean
choose (gint64 weight_g, const char *figures, gint64 ug1, gint64 ug2, gboolean halves, SwTabletChoice *choice)
{
  g_auto (GStrv) parts = g_strsplit (figures, " ", -1);
  gint64 strengths[] = { ug1, ug2 };
  SwTabletInput input = { .weight_g = weight_g, .target = decimal (parts[0]), .low = decimal (parts[1]),
                          .high = decimal (parts[2]), .halves = halves, .strengths_ug = strengths,
                          .n_strengths = ug2 > 0 ? 2 : 1 };

  return sw_tablet_choose (&input, choice);
}

/* 3.5 kg, prednisolone 0.5 (0.45-0.60): 1.75 mg; 1 1/2 x 1 mg is under the range, 2 x 1 mg inside it but 14 % off. */
START_TEST (test_deviation_is_said)
{
  SwTabletChoice choice;

  ck_assert (choose (3500, "0.5 0.45 0.60", 1000, 2500, TRUE, &choice));
  ck_assert_int_eq (choice.strength_ug, 1000);
  ck_assert_int_eq (choice.halves, 4);
  ck_assert (choice.deviates);
}
END_TEST

/* 3.5 kg, diphenhydramine 2-4 mg/kg: 7-14 mg, and capsules of 25 mg are never divided. */
START_TEST (test_nothing_fits)
{
  SwTabletChoice choice;

  ck_assert (!choose (3500, "2 2 4", 25000, 50000, FALSE, &choice));
  /* Five tablets of 25 mg would do for 125 mg; four pieces are the most. */
  ck_assert (!choose (62500, "2 2 2.2", 25000, 0, FALSE, &choice));
  ck_assert (choose (50000, "2 2 2.2", 25000, 0, FALSE, &choice));
  ck_assert_int_eq (choice.halves, 8);
  ck_assert (!choose (0, "2 2 4", 25000, 50000, FALSE, &choice));
}
END_TEST

/* Each step of the order decides where the ones before it are even. */
START_TEST (test_order_of_preference)
{
  SwTabletChoice choice;

  /* fewest pieces: one of 9.1 though two of 5 are nearer to 10 */
  ck_assert (choose (10000, "1 0.5 2", 5000, 9100, FALSE, &choice));
  ck_assert_int_eq (choice.strength_ug, 9100);
  /* then nearest: 10.4 before 9.5 */
  ck_assert (choose (10000, "1 0.5 2", 9500, 10400, FALSE, &choice));
  ck_assert_int_eq (choice.strength_ug, 10400);
  /* then lower: 9.5 before 10.5 */
  ck_assert (choose (10000, "1 0.5 2", 10500, 9500, FALSE, &choice));
  ck_assert_int_eq (choice.strength_ug, 9500);
  /* then fewer halves: one of 10 before half of 20 */
  ck_assert (choose (10000, "1 0.5 2", 20000, 10000, TRUE, &choice));
  ck_assert_int_eq (choice.strength_ug, 10000);
  /* exactly 10 % off is still near: one of 11 before two of 5; a microgram more is not */
  ck_assert (choose (10000, "1 0.5 2", 5000, 11000, FALSE, &choice));
  ck_assert_int_eq (choice.strength_ug, 11000);
  ck_assert (choose (10000, "1 0.5 2", 5000, 11001, FALSE, &choice));
  ck_assert_int_eq (choice.strength_ug, 5000);
}
END_TEST

/* Halves and strength decide last: 1 1/2 x 10 before 2 x 7.5 never, since both are two pieces of the same dose. */
START_TEST (test_last_steps)
{
  SwTabletChoice choice;

  ck_assert (choose (15000, "1 0.5 2", 10000, 7500, TRUE, &choice));
  ck_assert_int_eq (choice.strength_ug, 7500);
  /* Outside 10 %: the nearest wins over fewer pieces. 20 mg asked, 13 or 3 x 7.5 = 22.5 within 0.6-1.4. */
  ck_assert (choose (20000, "1 0.6 1.4", 13000, 7500, FALSE, &choice));
  ck_assert_int_eq (choice.strength_ug, 7500);
  ck_assert_int_eq (choice.halves, 6);
  ck_assert (choice.deviates);
}
END_TEST

/* "At least" 2, up to and including 4 mg/kg: fewest pieces at or above. */
START_TEST (test_at_least)
{
  gint64 strengths[] = { 16000, 60000 };
  SwTabletInput input = { .weight_g = 15000, .target = sw_ratio (2, 1), .high = sw_ratio (4, 1), .at_least = TRUE,
                          .halves = FALSE, .strengths_ug = strengths, .n_strengths = 2 };
  SwTabletChoice choice;

  ck_assert (sw_tablet_choose (&input, &choice));
  ck_assert_int_eq (choice.strength_ug, 60000);
  ck_assert (!choice.deviates);
  input.weight_g = 14999; /* 60 mg is over 4 mg/kg now */
  ck_assert (sw_tablet_choose (&input, &choice));
  ck_assert_int_eq (choice.strength_ug, 16000);
  ck_assert_int_eq (choice.halves, 4);
}
END_TEST

/* Liquids by 0.1 mL, nearest inside the range; taken only when no tablet fits. */
START_TEST (test_liquids)
{
  gint64 tablets[] = { 25000 }, liquids[] = { 1500, 333 };
  SwTabletInput input = { .weight_g = 5000,
                          .target = sw_ratio (1, 10),
                          .low = sw_ratio (85, 1000),
                          .high = sw_ratio (12, 100),
                          .strengths_ug = tablets,
                          .n_strengths = 1,
                          .liquids_ug_ml = liquids,
                          .n_liquids = 1 };
  SwTabletChoice choice;
  g_autofree char *described = NULL;

  /* 0.5 mg asked, 0.425-0.6: 0.3 mL of 1.5 mg/mL is 0.45 mg, 0.4 mL is 0.6 mg. */
  ck_assert (sw_tablet_choose (&input, &choice));
  described = sw_tablet_describe (&choice);
  ck_assert_str_eq (described, "0.3 mL of 1.5 mg/mL");
  ck_assert_int_eq (choice.strength_ug, SW_UNKNOWN);
  /* 0.3 mL leaves the range, and the step above the target is still inside it. */
  input.low = sw_ratio (91, 1000);
  ck_assert (sw_tablet_choose (&input, &choice));
  ck_assert_int_eq (choice.volume_nl, 400000);
  /* 1.5 mL of 0.333 mg/mL is 0.4995 mg: a step of 33.3 ug is kept exact. */
  input.n_liquids = 2;
  ck_assert (sw_tablet_choose (&input, &choice));
  ck_assert_int_eq (choice.liquid_ug_ml, 333);
  ck_assert_int_eq (choice.volume_nl, 1500000);
  ck_assert (choice.dose.num == 999 && choice.dose.den == 2);
  tablets[0] = 500;
  ck_assert (sw_tablet_choose (&input, &choice));
  ck_assert_int_eq (choice.strength_ug, 500);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("tablet");
  TCase *tests = tcase_create ("tablet");
  SRunner *runner;

  tcase_add_test (tests, test_check_rows);
  tcase_add_test (tests, test_deviation_is_said);
  tcase_add_test (tests, test_nothing_fits);
  tcase_add_test (tests, test_order_of_preference);
  tcase_add_test (tests, test_last_steps);
  tcase_add_test (tests, test_at_least);
  tcase_add_test (tests, test_liquids);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
