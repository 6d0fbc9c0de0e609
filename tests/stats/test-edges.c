/* test-edges.c: none, one, all, ties, a million, and everything that must be refused
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-agreement.h"
#include "sw-competing.h"
#include "sw-cusum.h"
#include "sw-error.h"
#include "sw-interval.h"
#include "sw-proportion.h"
#include "sw-survival.h"

#include "near.h"

#include <stdlib.h>
#include <string.h>

#define MILLION 1000000

#define assert_refused(call, part) \
  do \
    { \
      g_autoptr (GError) refused_ = NULL; \
      GError **error = &refused_; \
      ck_assert_msg (!(call), "%s was taken", #call); \
      ck_assert (g_error_matches (refused_, SW_ERROR, SW_ERROR_INPUT)); \
      ck_assert_msg (strstr (refused_->message, part) != NULL, "%s", refused_->message); \
    } \
  while (0)

START_TEST (test_proportion_edges)
{
  SwProportion found;
  double p;

  ck_assert (sw_proportion_compute (0, 0, 0.95, &found, NULL));
  ck_assert (isnan (found.estimate) && isnan (found.wilson_lo) && isnan (found.exact_hi));
  ck_assert (sw_proportion_compute (1, 1, 0.95, &found, NULL));
  assert_near (found.exact_lo, 0.025, 1e-12);
  assert_near (found.exact_hi, 1, 0);
  assert_near (found.wilson_hi, 1, 0);
  ck_assert (sw_proportion_compute (0, 1, 0.95, &found, NULL));
  assert_near (found.exact_hi, 0.975, 1e-12);
  assert_near (found.wilson_lo, 0, 0);
  /* Half of a million: both intervals are the normal one, 1.95996 / 2000 to either side. */
  ck_assert (sw_proportion_compute (MILLION / 2, MILLION, 0.95, &found, NULL));
  assert_near (found.wilson_lo, 0.5 - 0.000979982, 1e-8);
  assert_near (found.exact_lo, 0.5 - 0.000979982, 1e-6);
  /* Of a million none: the rule of three, exactly 1 - 0.025^(1/n). */
  ck_assert (sw_proportion_compute (0, MILLION, 0.95, &found, NULL));
  assert_near (found.exact_hi, -expm1 (log (0.025) / MILLION), 1e-14);

  ck_assert (sw_binomial_test (0, 0, 0.3, &p, NULL));
  assert_near (p, 1, 0);
  ck_assert (sw_binomial_test (5, 5, 1, &p, NULL));
  assert_near (p, 1, 0);
  ck_assert (sw_binomial_test (4, 5, 1, &p, NULL));
  assert_near (p, 0, 0);
  ck_assert (sw_binomial_test (0, 5, 0, &p, NULL));
  assert_near (p, 1, 0);
  ck_assert (sw_binomial_test (MILLION / 2, MILLION, 0.5, &p, NULL));
  assert_near (p, 1, 1e-12);
  ck_assert (sw_binomial_test (MILLION / 2 + 1000, MILLION, 0.5, &p, NULL));
  /* Normal with continuity: 2 Q(999.5 / 500). */
  assert_near (p, erfc (999.5 / 500 / sqrt (2)), 1e-6);
  ck_assert (sw_binomial_test (0, MILLION, 0.5, &p, NULL));
  assert_near (p, 0, 0);
  ck_assert (sw_fisher_exact_test (0, 0, 0, 0, &p, NULL));
  assert_near (p, 1, 0);
  ck_assert (sw_fisher_exact_test (0, 7, 0, 9, &p, NULL));
  assert_near (p, 1, 0);
}
END_TEST

START_TEST (test_proportion_refusals)
{
  SwProportion found;
  double p;

  assert_refused (sw_proportion_compute (-1, 5, 0.95, &found, error), "-1");
  assert_refused (sw_proportion_compute (6, 5, 0.95, &found, error), "6");
  assert_refused (sw_proportion_compute (0, -2, 0.95, &found, error), "-2");
  assert_refused (sw_proportion_compute (0, MILLION + 1, 0.95, &found, error), "1000001");
  assert_refused (sw_proportion_compute (0, 5, 1, &found, error), "confidence");
  assert_refused (sw_proportion_compute (0, 5, NAN, &found, error), "confidence");
  assert_refused (sw_binomial_test (1, 5, 1.1, &p, error), "1.1");
  assert_refused (sw_binomial_test (1, 5, NAN, &p, error), "nan");
  assert_refused (sw_fisher_exact_test (1, 600000, 1, 600000, &p, error), "1200000");
  assert_refused (sw_fisher_exact_test (1, 2, 3, 2, &p, error), "3 of 2");
}
END_TEST

START_TEST (test_survival_edges)
{
  const double times[] = { 4, 4, 4, 4 };
  const guint8 all[] = { 1, 1, 1, 1 };
  const guint8 none[] = { 0, 0, 0, 0 };
  const guint32 groups[] = { 0, 2, 2, 0 };
  g_autoptr (SwSurvival) empty = sw_survival_fit (NULL, NULL, NULL, 0, 1, 0.95, NULL);
  g_autoptr (SwSurvival) one = sw_survival_fit (times, all, NULL, 1, 1, 0.95, NULL);
  g_autoptr (SwSurvival) events = sw_survival_fit (times, all, NULL, 4, 1, 0.95, NULL);
  g_autoptr (SwSurvival) censored = sw_survival_fit (times, none, NULL, 4, 1, 0.95, NULL);
  g_autoptr (SwSurvival) grouped = sw_survival_fit (times, all, groups, 4, 3, 0.95, NULL);

  ck_assert_int_eq (empty->curves[0].n, 0);
  ck_assert_uint_eq (empty->curves[0].n_steps, 0);
  ck_assert (isnan (empty->curves[0].median) && isnan (empty->logrank.chi2) && empty->logrank.df == 0);
  assert_near (sw_survival_curve_at (&empty->curves[0], 10), 1, 0);
  ck_assert_int_eq (sw_survival_curve_at_risk (&empty->curves[0], 0), 0);

  assert_near (one->curves[0].median, 4, 0);
  assert_near (one->curves[0].steps[0].s, 0, 0);
  ck_assert (isnan (one->curves[0].steps[0].se) && isnan (one->curves[0].steps[0].loglog_lo));

  ck_assert_uint_eq (events->curves[0].n_steps, 1);
  ck_assert_int_eq (events->curves[0].events, 4);
  assert_near (sw_survival_curve_at (&events->curves[0], 3.9), 1, 0);
  assert_near (sw_survival_curve_at (&events->curves[0], 4), 0, 0);

  ck_assert_uint_eq (censored->curves[0].n_steps, 0);
  ck_assert_uint_eq (censored->curves[0].n_marks, 1);
  ck_assert_int_eq (censored->curves[0].marks[0].count, 4);
  assert_near (censored->curves[0].marks[0].s, 1, 0);
  ck_assert (isnan (censored->curves[0].median));

  /* All fail at once and nobody is left to compare with; the middle group is empty. */
  ck_assert_int_eq (grouped->curves[1].n, 0);
  ck_assert (isnan (grouped->logrank.p) && grouped->logrank.df == 0);
}
END_TEST

START_TEST (test_groups_never_at_risk_together)
{
  const double times[] = { 1, 2, 9, 10, 11 };
  const guint8 events[] = { 0, 0, 1, 1, 0 };
  const guint32 groups[] = { 0, 0, 1, 1, 1 };
  g_autoptr (SwSurvival) found = sw_survival_fit (times, events, groups, 5, 2, 0.95, NULL);

  ck_assert_int_eq (found->logrank.df, 0);
  ck_assert (isnan (found->logrank.chi2));
}
END_TEST

START_TEST (test_survival_refusals)
{
  const double good[] = { 1, 2 }, negative[] = { 1, -2 }, absent[] = { 1, NAN }, endless[] = { 1, INFINITY };
  const guint8 events[] = { 1, 0 }, odd[] = { 1, 2 };
  const guint32 groups[] = { 0, 1 };

  assert_refused (sw_survival_fit (negative, events, NULL, 2, 1, 0.95, error), "row 2");
  assert_refused (sw_survival_fit (absent, events, NULL, 2, 1, 0.95, error), "row 2");
  assert_refused (sw_survival_fit (endless, events, NULL, 2, 1, 0.95, error), "row 2");
  assert_refused (sw_survival_fit (good, odd, NULL, 2, 1, 0.95, error), "row 2");
  assert_refused (sw_survival_fit (good, events, groups, 2, 1, 0.95, error), "row 2");
  assert_refused (sw_survival_fit (good, events, NULL, 2, 1, 0, error), "confidence");
}
END_TEST

START_TEST (test_minus_zero_is_zero)
{
  const double times[] = { 0.0, -0.0, 1 };
  const guint8 events[] = { 1, 1, 1 };
  g_autoptr (SwSurvival) found = sw_survival_fit (times, events, NULL, 3, 1, 0.95, NULL);

  ck_assert_uint_eq (found->curves[0].n_steps, 2);
  ck_assert_int_eq (found->curves[0].steps[0].d, 2);
}
END_TEST

/* A million courses, all times different: the curve without censoring falls by one in a million each time. */
START_TEST (test_million_courses)
{
  g_autofree double *times = g_new (double, MILLION);
  g_autofree guint8 *events = g_new (guint8, MILLION);
  g_autofree guint32 *groups = g_new (guint32, MILLION);

  for (guint i = 0; i < MILLION; i++)
    {
      times[i] = (i * (guint64) 611953) % MILLION + 0.5;
      events[i] = 1;
      groups[i] = i & 1;
    }
  g_autoptr (SwSurvival) whole = sw_survival_fit (times, events, NULL, MILLION, 1, 0.95, NULL);
  g_autoptr (SwSurvival) halves = sw_survival_fit (times, events, groups, MILLION, 2, 0.95, NULL);
  g_autoptr (SwIncidence) incidence = sw_incidence_fit (times, events, MILLION, 1, 0.95, NULL);
  ck_assert_uint_eq (whole->curves[0].n_steps, MILLION);
  for (guint i = 0; i < MILLION; i += 9973)
    {
      assert_near (whole->curves[0].steps[i].s, 1 - (i + 1.0) / MILLION, 1e-9);
      assert_near (incidence->incidence[i], (i + 1.0) / MILLION, 1e-9);
    }
  assert_near (whole->curves[0].median, (499999.5 + 500000.5) / 2, 0);
  ck_assert_int_eq (halves->curves[0].events + halves->curves[1].events, MILLION);
  ck_assert (halves->logrank.p >= 0 && halves->logrank.p <= 1);
}
END_TEST

/* Forty groups, compared in one form. */
START_TEST (test_many_groups)
{
  double times[4000];
  guint8 events[4000];
  guint32 groups[4000];

  for (guint i = 0; i < 4000; i++)
    {
      times[i] = i * 7919 % 4001;
      events[i] = i % 3 > 0;
      groups[i] = i % 40;
    }
  g_autoptr (SwSurvival) found = sw_survival_fit (times, events, groups, 4000, 40, 0.95, NULL);
  ck_assert_int_eq (found->logrank.df, 39);
  ck_assert (found->logrank.p > 0 && found->logrank.p < 1);
}
END_TEST

START_TEST (test_turnbull_edges)
{
  const double left[] = { 3, 3, 5, 9 };
  const double right[] = { 3, 8, INFINITY, INFINITY };
  double from, to;
  g_autoptr (SwTurnbull) empty = sw_turnbull_fit (NULL, NULL, 0, NULL, NULL);
  g_autoptr (SwTurnbull) one = sw_turnbull_fit (left + 1, right + 1, 1, NULL, NULL);
  g_autoptr (SwTurnbull) censored = sw_turnbull_fit (left + 2, right + 2, 2, NULL, NULL);
  g_autoptr (SwTurnbull) mixed = sw_turnbull_fit (left, right, 2, NULL, NULL);

  ck_assert_uint_eq (empty->n_masses, 0);
  ck_assert (!sw_turnbull_median (empty, &from, &to));
  ck_assert_uint_eq (one->n_masses, 1);
  assert_near (one->masses[0].left, 3, 0);
  assert_near (one->masses[0].right, 8, 0);
  assert_near (one->masses[0].mass, 1, 0);
  /* Nothing has happened yet: all mass lies past the last visit. */
  ck_assert_uint_eq (censored->n_masses, 1);
  assert_near (censored->masses[0].left, 9, 0);
  assert_near (censored->masses[0].right, INFINITY, 0);
  /* (3, 8] doesn't hold the exact time 3. */
  ck_assert_uint_eq (mixed->n_masses, 2);
  assert_near (mixed->masses[0].right, 3, 0);
  assert_near (mixed->masses[0].mass, 0.5, 1e-9);
  sw_turnbull_at (mixed, 5, &from, &to);
  assert_near (from, 0.5, 1e-9);
  assert_near (to, 1, 1e-9);
}
END_TEST

START_TEST (test_turnbull_refusals)
{
  const double left[] = { 3, 4, -1, INFINITY };
  const double right[] = { 5, 3, NAN, INFINITY };
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) cancelled = NULL;

  assert_refused (sw_turnbull_fit (left, right, 2, NULL, error), "row 2");
  assert_refused (sw_turnbull_fit (left + 2, right + 2, 1, NULL, error), "row 1");
  assert_refused (sw_turnbull_fit (left, right + 2, 1, NULL, error), "row 1");
  assert_refused (sw_turnbull_fit (left + 3, right + 3, 1, NULL, error), "row 1");
  g_cancellable_cancel (cancellable);
  ck_assert_ptr_null (sw_turnbull_fit (left, right, 1, cancellable, &cancelled));
  ck_assert (g_error_matches (cancelled, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}
END_TEST

START_TEST (test_band_edges)
{
  const double left[] = { 3, 4 }, right[] = { 5, INFINITY }, times[] = { 2, 5 }, bad[] = { NAN };
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) cancelled = NULL;
  double lo[2], hi[2];

  ck_assert (sw_turnbull_band (NULL, NULL, 0, 0.95, 40, 1, times, 2, lo, hi, NULL, NULL));
  ck_assert (isnan (lo[0]) && isnan (hi[1]));
  ck_assert (sw_turnbull_band (left, right, 1, 0.95, 40, 1, times, 2, lo, hi, NULL, NULL));
  ck_assert (lo[0] == 0 && hi[0] == 0 && lo[1] == 1 && hi[1] == 1);
  assert_refused (sw_turnbull_band (left, right, 2, 0.95, 39, 1, times, 2, lo, hi, NULL, error), "39");
  assert_refused (sw_turnbull_band (left, right, 2, 1.5, 40, 1, times, 2, lo, hi, NULL, error), "confidence");
  assert_refused (sw_turnbull_band (left, right, 2, 0.95, 40, 1, bad, 1, lo, hi, NULL, error), "row 1");
  assert_refused (sw_turnbull_band (right, left, 2, 0.95, 40, 1, times, 2, lo, hi, NULL, error), "row 1");
  g_cancellable_cancel (cancellable);
  ck_assert (!sw_turnbull_band (left, right, 2, 0.95, 40, 1, times, 2, lo, hi, cancellable, &cancelled));
  ck_assert (g_error_matches (cancelled, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}
END_TEST

/* The hardest to tell apart: a staircase of overlapping intervals, nearly all of one shape; and a comb of nested
 * ones. */
START_TEST (test_turnbull_staircase)
{
  double left[600], right[600];

  for (guint i = 0; i < 600; i++)
    {
      left[i] = _i == 0 ? i : i % 2 ? 300 - i / 2.0 : 0;
      right[i] = _i == 0 ? i + 7.5 : i % 2 ? 300 + i / 2.0 : 600 - i;
    }
  g_autoptr (GError) error = NULL;
  g_autoptr (SwTurnbull) found = sw_turnbull_fit (left, right, 600, NULL, &error);
  ck_assert_msg (found != NULL, "%s", error ? error->message : "");
  ck_assert (found->gap <= 1e-9 * 600);
}
END_TEST

/* A million wounds seen at visits of whole days; and a hundred thousand exact times, which make as many masses. */
START_TEST (test_turnbull_large)
{
  g_autofree double *left = g_new (double, MILLION);
  g_autofree double *right = g_new (double, MILLION);

  for (guint i = 0; i < MILLION; i++)
    {
      left[i] = (i * (guint64) 611953) % 97 + (i * (guint64) 7919) % 31;
      right[i] = i % 11 == 0 ? INFINITY : left[i] + 1 + (i * (guint64) 104729) % 20;
    }
  g_autoptr (SwTurnbull) days = sw_turnbull_fit (left, right, MILLION, NULL, NULL);
  ck_assert_ptr_nonnull (days);
  ck_assert (days->gap <= 1e-9 * MILLION);
  for (guint i = 0; i < 100000; i++)
    {
      left[i] = (i * (guint64) 61195) % 100003;
      right[i] = i % 3 == 0 ? INFINITY : left[i];
    }
  g_autoptr (SwTurnbull) exact = sw_turnbull_fit (left, right, 100000, NULL, NULL);
  ck_assert_ptr_nonnull (exact);
  ck_assert (exact->gap <= 1e-9 * 100000);
}
END_TEST

START_TEST (test_incidence_edges)
{
  const double times[] = { 5, 5, -1 };
  const guint8 causes[] = { 2, 2, 3 };
  g_autoptr (SwIncidence) empty = sw_incidence_fit (NULL, NULL, 0, 2, 0.95, NULL);
  g_autoptr (SwIncidence) all = sw_incidence_fit (times, causes, 2, 2, 0.95, NULL);

  ck_assert_uint_eq (empty->n_steps, 0);
  assert_near (sw_incidence_at (empty, 1, 9), 0, 0);
  assert_near (sw_incidence_at (all, 1, 5), 0, 0);
  assert_near (sw_incidence_at (all, 2, 5), 1, 0);
  assert_near (sw_incidence_at (all, 2, 4.9), 0, 0);
  ck_assert (isnan (all->lo[1]) && isnan (all->hi[1]));
  assert_refused (sw_incidence_fit (times, causes + 1, 2, 2, 0.95, error), "row 2");
  assert_refused (sw_incidence_fit (times + 1, causes, 2, 2, 0.95, error), "row 2");
  assert_refused (sw_incidence_fit (times, causes, 2, 2, 2, error), "confidence");
}
END_TEST

START_TEST (test_agreement_edges)
{
  const double a[] = { 3, 5, INFINITY }, b[] = { 3, 5, 1 }, opposite[] = { -3, -5, 0 };
  SwAgreement found;
  SwJudges judges;

  ck_assert (sw_agreement_compute (NULL, NULL, 0, 0.95, &found, NULL));
  ck_assert (isnan (found.mean_difference) && isnan (found.tem));
  ck_assert (sw_agreement_compute (a, b + 1, 1, 0.95, &found, NULL));
  assert_near (found.mean_difference, -2, 0);
  assert_near (found.tem, sqrt (2), 1e-15);
  ck_assert (isnan (found.sd) && isnan (found.lo_lo));
  ck_assert (sw_agreement_compute (a, b, 2, 0.95, &found, NULL));
  assert_near (found.sd, 0, 0);
  assert_near (found.hi_hi, 0, 0);
  ck_assert (sw_agreement_compute (a, opposite, 2, 0.95, &found, NULL));
  ck_assert (isnan (found.tem_percent));
  assert_refused (sw_agreement_compute (a, b, 3, 0.95, &found, error), "row 3");
  assert_refused (sw_agreement_compute (a, b, 2, -1, &found, error), "confidence");

  const double alike[] = { 2, 2, 2, 2 };
  ck_assert (sw_judges_compute (alike, 2, 2, &judges, NULL));
  ck_assert (isnan (judges.icc[SW_ICC_1_1]) && isnan (judges.icc[SW_ICC_3_K]));
  assert_refused (sw_judges_compute (alike, 1, 4, &judges, error), "1 targets");
  assert_refused (sw_judges_compute (alike, 4, 1, &judges, error), "1 judges");
  const double broken[] = { 2, 2, 2, NAN };
  assert_refused (sw_judges_compute (broken, 2, 2, &judges, error), "row 2");
}
END_TEST

/* Two pairs: t has one degree of freedom, 12.7062, and both variances are known by hand. */
START_TEST (test_agreement_of_two)
{
  const double a[] = { 1, 3 }, b[] = { 0, 0 };
  SwAgreement found;

  ck_assert (sw_agreement_compute (a, b, 2, 0.95, &found, NULL));
  assert_near (found.sd, sqrt (2), 1e-15);
  assert_near (found.mean_hi, 2 + 12.706204736, 1e-6);
  assert_near (found.hi_hi - found.hi, 12.706204736 * sqrt (2) * sqrt (0.5 + 1.96 * 1.96 / 2), 1e-6);
  assert_near (found.lo - found.lo_lo, found.hi_hi - found.hi, 1e-12);
}
END_TEST

START_TEST (test_cusum_edges)
{
  const guint8 failures[] = { 1, 1, 1, 1, 0, 2 };
  SwCusumPlan plan;

  ck_assert (sw_cusum_plan (.1, .2, .1, .1, &plan, NULL));
  g_autoptr (SwCusum) empty = sw_cusum_run (&plan, NULL, 0, NULL);
  ck_assert_uint_eq (empty->n, 0);
  /* Four failures reach 4 (1 - s) = 3.42, over h1 = 2.71; the success after them does not undo that. */
  g_autoptr (SwCusum) worse = sw_cusum_run (&plan, failures, 5, NULL);
  ck_assert_int_eq (worse->first_worse, 3);
  ck_assert_int_eq (worse->first_as_planned, -1);
  assert_refused (sw_cusum_run (&plan, failures, 6, error), "row 6");
  g_autofree guint8 *fine = g_new0 (guint8, 40);
  g_autoptr (SwCusum) better = sw_cusum_run (&plan, fine, 40, NULL);
  ck_assert_int_eq (better->first_as_planned, (int) ceil (plan.h0 / plan.s) - 1);
  assert_refused (sw_cusum_plan (.2, .1, .1, .1, &plan, error), "0.2");
  assert_refused (sw_cusum_plan (.1, .1, .1, .1, &plan, error), "0.1");
  assert_refused (sw_cusum_plan (0, .1, .1, .1, &plan, error), "0");
  assert_refused (sw_cusum_plan (.1, 1, .1, .1, &plan, error), "1");
  assert_refused (sw_cusum_plan (.1, .2, 0, .1, &plan, error), "0");
  assert_refused (sw_cusum_plan (.1, .2, .1, .6, &plan, error), "0.6");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("edges");
  TCase *edges = tcase_create ("edges");

  tcase_set_timeout (edges, 60);
  tcase_add_test (edges, test_proportion_edges);
  tcase_add_test (edges, test_proportion_refusals);
  tcase_add_test (edges, test_survival_edges);
  tcase_add_test (edges, test_groups_never_at_risk_together);
  tcase_add_test (edges, test_survival_refusals);
  tcase_add_test (edges, test_minus_zero_is_zero);
  tcase_add_test (edges, test_million_courses);
  tcase_add_test (edges, test_many_groups);
  tcase_add_test (edges, test_turnbull_edges);
  tcase_add_test (edges, test_turnbull_refusals);
  tcase_add_test (edges, test_band_edges);
  tcase_add_loop_test (edges, test_turnbull_staircase, 0, 2);
  tcase_add_test (edges, test_turnbull_large);
  tcase_add_test (edges, test_incidence_edges);
  tcase_add_test (edges, test_agreement_edges);
  tcase_add_test (edges, test_agreement_of_two);
  tcase_add_test (edges, test_cusum_edges);
  suite_add_tcase (suite, edges);
  SRunner *runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  int failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
