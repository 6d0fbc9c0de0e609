/* test-published.c: figures printed in the literature, reproduced to the digits given
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-agreement.h"
#include "sw-competing.h"
#include "sw-cusum.h"
#include "sw-interval.h"
#include "sw-proportion.h"
#include "sw-survival.h"

#include "near.h"

#include <stdlib.h>

/* Half a unit of the last digit given, and a little for a tie in rounding. */
#define FOUR 5.01e-5
#define FIVE 5.01e-6
#define SIX 5.01e-7

START_TEST (test_proportions)
{
  static const struct
  {
    int x, n;
    double wilson_lo, wilson_hi, exact_lo, exact_hi, within;
  } rows[] = {
    /* Newcombe RG 1998 Stat Med 17:857-872 table I (published) */
    { 81, 263, .2553, .3662, .2527, .3676, FOUR },
    { 15, 148, .0624, .1605, .0578, .1617, FOUR },
    { 0, 20, .0000, .1611, .0000, .1684, FOUR },
    { 1, 29, .0061, .1718, .0009, .1776, FOUR },
    /* computed independently of this program */
    { 0, 10, .0000, .277533, .0000, .308497, SIX },
    { 5, 10, .236593, .763407, .187086, .812914, SIX },
    /* share published, limits computed independently: Brown 2022 doi 10.3389/fvets.2022.1003165, complete response at
       day 28 */
    { 26, 32, .6469, .9111, .6356, .9279, FOUR },
    /* Jones 2021 J Vet Intern Med, complete response at day 28 and free of tumour at 12 months */
    { 85, 116, .6457, .8049, .6426, .8107, FOUR },
    { 57, 64, .7910, .9460, .7875, .9549, FOUR },
    /* Brown 2021 doi 10.3389/fvets.2021.675804, high grade */
    { 10, 18, .3372, .7544, .3076, .7847, FOUR },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      SwProportion found;
      ck_assert (sw_proportion_compute (rows[i].x, rows[i].n, 0.95, &found, NULL));
      assert_near (found.estimate, (double) rows[i].x / rows[i].n, 0);
      assert_near (found.wilson_lo, rows[i].wilson_lo, rows[i].within);
      assert_near (found.wilson_hi, rows[i].wilson_hi, rows[i].within);
      assert_near (found.exact_lo, rows[i].exact_lo, rows[i].within);
      assert_near (found.exact_hi, rows[i].exact_hi, rows[i].within);
    }
}
END_TEST

/* Exact arithmetic on small numbers, by hand. */
START_TEST (test_exact_tests)
{
  double p;

  ck_assert (sw_binomial_test (0, 3, 0.5, &p, NULL));
  assert_near (p, 0.25, 1e-15);
  ck_assert (sw_binomial_test (9, 10, 0.5, &p, NULL));
  assert_near (p, 22.0 / 1024, 1e-15);
  ck_assert (sw_binomial_test (1, 2, 0.25, &p, NULL));
  assert_near (p, 7.0 / 16, 1e-15);
  /* The tea taster (Fisher 1935): 3 of 4 cups right, 17 and 1 of 70 tables on either side. */
  ck_assert (sw_fisher_exact_test (3, 4, 1, 4, &p, NULL));
  assert_near (p, 34.0 / 70, 1e-15);
  ck_assert (sw_fisher_exact_test (4, 4, 0, 4, &p, NULL));
  assert_near (p, 2.0 / 70, 1e-15);
}
END_TEST

typedef struct
{
  double t;
  int n, d;
  double s, se, loglog_lo, loglog_hi;
} Step;

static void
check_steps (const SwSurvivalCurve *curve, const Step *steps, gsize n_steps)
{
  ck_assert_uint_eq (curve->n_steps, n_steps);
  for (gsize i = 0; i < n_steps; i++)
    {
      assert_near (curve->steps[i].t, steps[i].t, 0);
      ck_assert_int_eq (curve->steps[i].n, steps[i].n);
      ck_assert_int_eq (curve->steps[i].d, steps[i].d);
      assert_near (curve->steps[i].s, steps[i].s, SIX);
      assert_near (curve->steps[i].se, steps[i].se, SIX);
      assert_near (curve->steps[i].loglog_lo, steps[i].loglog_lo, FOUR);
      assert_near (curve->steps[i].loglog_hi, steps[i].loglog_hi, FOUR);
    }
}

/* Freireich EJ 1963 Blood 21:699-716, remission weeks (published data): 6-MP (group 0) and placebo. */
static const double freireich[] = {
  6, 6, 6, 6, 7, 9, 10, 10, 11, 13, 16, 17, 19, 20, 22, 23, 25, 32, 32, 34, 35,
  1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23,
};
static const guint8 freireich_events[] = {
  1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0,
  1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
};
static const guint32 freireich_groups[42] = { [21] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 };

START_TEST (test_freireich)
{
  static const Step steps[] = {
    { 6, 21, 3, .857143, .076360, .6197, .9516 },  { 7, 17, 1, .806723, .086935, .5631, .9228 },
    { 10, 15, 1, .752941, .096350, .5032, .8894 }, { 13, 12, 1, .690196, .106815, .4316, .8491 },
    { 16, 11, 1, .627451, .114054, .3675, .8049 }, { 22, 7, 1, .537815, .128234, .2678, .7468 },
    { 23, 6, 1, .448179, .134591, .1881, .6801 },
  };
  static const double plain[][2] = {
    { .7075, 1 }, { .6363, .9771 }, { .5641, .9418 }, { .4808, .8995 }, { .4039, .8510 }, { .2865, .7891 },
    { .1844, .7120 },
  };
  g_autoptr (SwSurvival) found = sw_survival_fit (freireich, freireich_events, freireich_groups, 42, 2, 0.95, NULL);

  check_steps (&found->curves[0], steps, G_N_ELEMENTS (steps));
  for (guint i = 0; i < G_N_ELEMENTS (plain); i++)
    {
      assert_near (found->curves[0].steps[i].plain_lo, plain[i][0], FOUR);
      assert_near (found->curves[0].steps[i].plain_hi, plain[i][1], FOUR);
    }
  assert_near (found->curves[0].median, 23, 0);
  assert_near (found->curves[1].median, 8, 0);
  assert_near (found->logrank.chi2, 16.792941, SIX);
  ck_assert_int_eq (found->logrank.df, 1);
  assert_near (found->logrank.p, 4.1688e-05, 5.01e-10);
  assert_near (found->logrank.observed[0], 9, 0);
  assert_near (found->logrank.observed[1], 21, 0);
  assert_near (found->logrank.expected[0], 19.25050, FIVE);
  assert_near (found->logrank.expected[1], 10.74950, FIVE);
  assert_near (found->logrank.variance[0], 6.256961, SIX);
  assert_near (found->logrank.variance[1], -6.256961, SIX);
}
END_TEST

/* AML maintenance trial (Embury 1977; Miller, Survival Analysis), published data: maintained (group 0), not
 * maintained. The lower limit at 13 weeks is .465642 by the formula and by R 4.2.2; the table that the others come
 * from has .4657. */
static const double aml[] = {
  9, 13, 13, 18, 23, 28, 31, 34, 45, 48, 161, 5, 5, 8, 8, 12, 16, 23, 27, 30, 33, 43, 45,
};
static const guint8 aml_events[] = { 1, 1, 0, 1, 1, 0, 1, 1, 0, 1, 0, 1, 1, 1, 1, 1, 0, 1, 1, 1, 1, 1, 1 };
static const guint32 aml_groups[23] = { [11] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 };

START_TEST (test_aml)
{
  static const Step steps[] = {
    { 5, 23, 2, .913043, .058753, .6949, .9775 },  { 8, 21, 2, .826087, .079034, .6006, .9309 },
    { 9, 19, 1, .782609, .086006, .5542, .9032 },  { 12, 18, 1, .739130, .091561, .5092, .8734 },
    { 13, 17, 1, .695652, .095944, .4656, .8417 }, { 18, 14, 1, .645963, .101143, .4140, .8053 },
    { 23, 13, 2, .546584, .107251, .3193, .7264 }, { 27, 11, 1, .496894, .108402, .2756, .6842 },
    { 30, 9, 1, .441684, .109518, .2274, .6371 },  { 31, 8, 1, .386473, .108859, .1828, .5875 },
    { 33, 7, 1, .331263, .106391, .1418, .5353 },  { 34, 6, 1, .276052, .101983, .1044, .4803 },
    { 43, 5, 1, .220842, .095367, .0710, .4222 },  { 45, 4, 1, .165631, .086035, .0421, .3604 },
    { 48, 2, 1, .082816, .072662, .0070, .2868 },
  };
  g_autoptr (SwSurvival) together = sw_survival_fit (aml, aml_events, NULL, 23, 1, 0.95, NULL);
  g_autoptr (SwSurvival) apart = sw_survival_fit (aml, aml_events, aml_groups, 23, 2, 0.95, NULL);

  check_steps (&together->curves[0], steps, G_N_ELEMENTS (steps));
  assert_near (apart->logrank.chi2, 3.396389, SIX);
  assert_near (apart->logrank.p, .065339, SIX);
  assert_near (apart->logrank.observed[0], 7, 0);
  assert_near (apart->logrank.observed[1], 11, 0);
  assert_near (apart->logrank.expected[0], 10.689336, SIX);
  assert_near (apart->logrank.expected[1], 7.310664, SIX);
  assert_near (apart->logrank.variance[3], 4.007551, SIX);
  assert_near (apart->curves[0].median, 31, 0);
  assert_near (apart->curves[1].median, 23, 0);
  ck_assert_int_eq (sw_survival_curve_at_risk (&apart->curves[0], 13), 10);
  ck_assert_int_eq (sw_survival_curve_at_risk (&apart->curves[0], 14), 8);
}
END_TEST

/* Breast cosmesis trial, radiotherapy arm (Finkelstein DM, Wolfe RA 1985 Biometrics 41:933): data and masses from
 * memory, the masses agree to four decimals with an independent computation on these data. 0 as the right end: not
 * yet. */
START_TEST (test_cosmesis)
{
  static const double rows[][2] = {
    { 45, 0 }, { 6, 10 }, { 0, 7 }, { 46, 0 }, { 46, 0 }, { 7, 16 }, { 17, 0 }, { 7, 14 }, { 37, 44 },
    { 0, 8 }, { 4, 11 }, { 15, 0 }, { 11, 15 }, { 22, 0 }, { 46, 0 }, { 46, 0 }, { 25, 37 }, { 46, 0 },
    { 26, 40 }, { 46, 0 }, { 27, 34 }, { 36, 44 }, { 46, 0 }, { 36, 48 }, { 37, 0 }, { 40, 0 }, { 17, 25 },
    { 46, 0 }, { 11, 18 }, { 38, 0 }, { 5, 12 }, { 37, 0 }, { 0, 5 }, { 18, 0 }, { 24, 0 }, { 36, 0 },
    { 5, 11 }, { 19, 35 }, { 17, 25 }, { 24, 0 }, { 32, 0 }, { 33, 0 }, { 19, 26 }, { 37, 0 }, { 34, 0 },
    { 36, 0 },
  };
  static const SwTurnbullMass masses[] = {
    { 4, 5, .0463 },   { 6, 7, .0334 },   { 7, 8, .0887 },   { 11, 12, .0708 },
    { 24, 25, .0926 }, { 33, 34, .0818 }, { 38, 40, .1209 }, { 46, 48, .4656 },
  };
  double left[G_N_ELEMENTS (rows)];
  double right[G_N_ELEMENTS (rows)];
  double from, to;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      left[i] = rows[i][0];
      right[i] = rows[i][1] > 0 ? rows[i][1] : INFINITY;
    }
  g_autoptr (SwTurnbull) found = sw_turnbull_fit (left, right, G_N_ELEMENTS (rows), NULL, NULL);
  ck_assert_uint_eq (found->n_masses, G_N_ELEMENTS (masses));
  for (guint j = 0; j < G_N_ELEMENTS (masses); j++)
    {
      assert_near (found->masses[j].left, masses[j].left, 0);
      assert_near (found->masses[j].right, masses[j].right, 0);
      assert_near (found->masses[j].mass, masses[j].mass, FOUR);
    }
  ck_assert (found->gap <= 1e-9 * G_N_ELEMENTS (rows));
  ck_assert (sw_turnbull_median (found, &from, &to));
  assert_near (from, 38, 0);
  assert_near (to, 40, 0);
}
END_TEST

/* Satagopan JM 2004 Br J Cancer 91:1229-1235 doi 10.1038/sj.bjc.6602102 table 2, first nine of 305 patients
 * (published). */
START_TEST (test_satagopan)
{
  static const double first[] = { 7, 10, 14, 16, 18, 23, 24, 26, 27 };
  static const guint8 causes[305] = { 0, 1, 0, 1, 2, 1, 0, 2, 1 };
  static const struct
  {
    double t;
    int n, event, competing;
    double free, incidence;
  } rows[] = {
    { 10, 304, 1, 0, .996711, .003289 }, { 16, 302, 1, 0, .993410, .006590 }, { 18, 301, 0, 1, .990110, .006590 },
    { 23, 300, 1, 0, .986809, .009890 }, { 26, 298, 0, 1, .983498, .009890 }, { 27, 297, 1, 0, .980187, .013202 },
  };
  double times[305];

  for (guint i = 0; i < 305; i++)
    times[i] = i < G_N_ELEMENTS (first) ? first[i] : 100;
  g_autoptr (SwIncidence) found = sw_incidence_fit (times, causes, 305, 2, 0.95, NULL);
  ck_assert_uint_eq (found->n_steps, G_N_ELEMENTS (rows));
  for (guint i = 0; i < found->n_steps; i++)
    {
      assert_near (found->steps[i].t, rows[i].t, 0);
      ck_assert_int_eq (found->steps[i].n, rows[i].n);
      ck_assert_int_eq (found->events[i], rows[i].event);
      ck_assert_int_eq (found->events[found->n_steps + i], rows[i].competing);
      assert_near (found->steps[i].free, rows[i].free, SIX);
      assert_near (found->incidence[i], rows[i].incidence, SIX);
    }
}
END_TEST

/* One minus Kaplan-Meier on the same rows overstates: the last column of the same table. */
START_TEST (test_satagopan_one_minus_km)
{
  static const double first[] = { 7, 10, 14, 16, 18, 23, 24, 26, 27 };
  static const guint8 events[305] = { 0, 1, 0, 1, 0, 1, 0, 0, 1 };
  static const double expected[] = { .003289, .006590, .009901, .013235 };
  double times[305];

  for (guint i = 0; i < 305; i++)
    times[i] = i < G_N_ELEMENTS (first) ? first[i] : 100;
  g_autoptr (SwSurvival) found = sw_survival_fit (times, events, NULL, 305, 1, 0.95, NULL);
  ck_assert_uint_eq (found->curves[0].n_steps, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    assert_near (1 - found->curves[0].steps[i].s, expected[i], SIX);
}
END_TEST

/* Whole small case, computed independently in exact arithmetic. */
START_TEST (test_incidence_by_hand)
{
  static const double times[] = { 2, 3, 4, 5, 5, 7, 8, 9, 10, 11 };
  static const guint8 causes[] = { 1, 0, 2, 1, 2, 0, 1, 2, 0, 1 };
  g_autoptr (SwIncidence) found = sw_incidence_fit (times, causes, 10, 2, 0.95, NULL);

  assert_near (sw_incidence_at (found, 1, 1.9), 0, 0);
  assert_near (sw_incidence_at (found, 1, 5), .2125, 1e-12);
  assert_near (sw_incidence_at (found, 2, 5), .2250, 1e-12);
  assert_near (sw_incidence_at (found, 1, 8), .353125, 1e-12);
  assert_near (sw_incidence_at (found, 1, 99), .634375, 1e-12);
  assert_near (sw_incidence_at (found, 2, 99), .365625, 1e-12);
  ck_assert_int_eq (sw_incidence_at_risk (found, 5), 7);
}
END_TEST

/* Bland JM, Altman DG 1986 Lancet i:307-310, peak flow, l/min (published data); large meter twice, mini meter twice. */
START_TEST (test_peak_flow)
{
  static const double large_1[] = {
    494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427,
  };
  static const double large_2[] = {
    490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421,
  };
  static const double mini_1[] = {
    512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451,
  };
  static const double mini_2[] = {
    525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443,
  };
  SwAgreement found;

  ck_assert (sw_agreement_compute (large_1, mini_1, 17, 0.95, &found, NULL));
  assert_near (found.mean_difference, -2.117647, SIX);
  assert_near (found.sd, 38.765130, SIX);
  assert_near (found.lo, -78.097302, SIX);
  assert_near (found.hi, 73.862007, SIX);
  ck_assert (sw_agreement_compute (large_1, large_2, 17, 0.95, &found, NULL));
  assert_near (found.tem, 15.306669, SIX);
  assert_near (found.tem_percent, 3.4176, FOUR);
  ck_assert (sw_agreement_compute (mini_1, mini_2, 17, 0.95, &found, NULL));
  assert_near (found.tem, 19.910831, SIX);
  assert_near (found.tem_percent, 4.3865, FOUR);
}
END_TEST

/* Shrout PE, Fleiss JL 1979 Psychol Bull 86:420-428 (published): 6 targets, 4 judges; printed .17 .29 .71 .44 .62
 * .91. */
START_TEST (test_judges)
{
  static const double ratings[] = { 9, 2, 5, 8, 6, 1, 3, 2, 8, 4, 6, 8, 7, 1, 2, 6, 10, 5, 6, 9, 6, 2, 4, 7 };
  static const double icc[SW_N_ICC_FORMS] = { .165742, .289764, .714841, .442797, .620051, .909316 };
  SwJudges found;

  ck_assert (sw_judges_compute (ratings, 6, 4, &found, NULL));
  for (guint i = 0; i < SW_N_ICC_FORMS; i++)
    assert_near (found.icc[i], icc[i], SIX);
  assert_near (found.between, 11.241667, SIX);
  assert_near (found.within, 6.263889, SIX);
  assert_near (found.judges, 32.486111, SIX);
  assert_near (found.residual, 1.019444, SIX);
}
END_TEST

/* Formulas after Kestin IG 1995 Br J Anaesth 75:805-809 (memory). */
START_TEST (test_cusum)
{
  static const double rows[][7] = {
    { .10, .20, .1, .1, .14524, 2.70951, 2.70951 }, { .05, .10, .1, .1, .07236, 2.94055, 2.94055 },
    { .20, .40, .1, .1, .29330, 2.24017, 2.24017 }, { .04, .08, .1, .1, .05785, 2.98655, 2.98655 },
    { .10, .20, .05, .2, .14524, 1.92143, 3.41902 },
  };
  static const guint8 failures[] = { 0, 0, 0, 1, 0, 0, 1, 1, 0, 1 };
  static const double sums[] = { -.1452, -.2905, -.4357, .4190, .2738, .1285, .9833, 1.8380, 1.6928, 2.5476 };
  SwCusumPlan plan;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      ck_assert (sw_cusum_plan (rows[i][0], rows[i][1], rows[i][2], rows[i][3], &plan, NULL));
      assert_near (plan.s, rows[i][4], FIVE);
      assert_near (plan.h0, rows[i][5], FIVE);
      assert_near (plan.h1, rows[i][6], FIVE);
    }
  ck_assert (sw_cusum_plan (.10, .20, .1, .1, &plan, NULL));
  g_autoptr (SwCusum) found = sw_cusum_run (&plan, failures, G_N_ELEMENTS (failures), NULL);
  for (guint i = 0; i < G_N_ELEMENTS (sums); i++)
    assert_near (found->sums[i], sums[i], FOUR);
  ck_assert_int_eq (found->first_worse, -1);
  ck_assert_int_eq (found->first_as_planned, -1);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("published");
  TCase *figures = tcase_create ("figures");

  tcase_add_test (figures, test_proportions);
  tcase_add_test (figures, test_exact_tests);
  tcase_add_test (figures, test_freireich);
  tcase_add_test (figures, test_aml);
  tcase_add_test (figures, test_cosmesis);
  tcase_add_test (figures, test_satagopan);
  tcase_add_test (figures, test_satagopan_one_minus_km);
  tcase_add_test (figures, test_incidence_by_hand);
  tcase_add_test (figures, test_peak_flow);
  tcase_add_test (figures, test_judges);
  tcase_add_test (figures, test_cusum);
  suite_add_tcase (suite, figures);
  SRunner *runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  int failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
