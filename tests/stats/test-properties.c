/* test-properties.c: what must hold on any data, on random data; SW_TEST_LONG=1 runs more of them, SW_TEST_SEED=N
 * others
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-competing.h"
#include "sw-interval.h"
#include "sw-proportion.h"
#include "sw-survival.h"

#include "near.h"

#include <stdlib.h>
#include <string.h>

#define MOST 400
#define CAUSES 3

static double times[2 * MOST], ends[2 * MOST];
static guint8 status[2 * MOST], causes[2 * MOST];
static guint32 groups[2 * MOST];

static guint32
seed_of_run (void)
{
  const char *text = g_getenv ("SW_TEST_SEED");
  guint32 seed = text ? strtoul (text, NULL, 10) : 20260704;

  g_print ("# seed %u\n", seed);
  return seed;
}

static guint
count_of_run (void)
{
  return g_strcmp0 (g_getenv ("SW_TEST_LONG"), "1") == 0 ? 2000 : 60;
}

/* Courses with ties, censoring anywhere from none to nearly all, three groups, three causes, and intervals around the
 * times. */
static gsize
draw (GRand *rand)
{
  gsize n = g_rand_int_range (rand, 1, MOST + 1);
  guint span = 1 << g_rand_int_range (rand, 2, 11);
  double censored = g_rand_double (rand);

  for (gsize i = 0; i < n; i++)
    {
      times[i] = g_rand_int_range (rand, 1, span + 1);
      status[i] = g_rand_double (rand) >= censored;
      causes[i] = status[i] ? g_rand_int_range (rand, 1, CAUSES + 1) : 0;
      groups[i] = g_rand_int_range (rand, 0, 3);
      ends[i] = status[i] ? times[i] + g_rand_int_range (rand, 0, 1 + span / 4) : INFINITY;
    }
  return n;
}

/* Limits contain the estimate, and with three times as many they are narrower and inside the former ones. */
START_TEST (test_limits_shrink)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < 20 * count_of_run (); run++)
    {
      gint64 n = g_rand_int_range (rand, 1, 3000);
      gint64 x = g_rand_int_range (rand, 0, n + 1);
      SwProportion one, three;
      ck_assert (sw_proportion_compute (x, n, 0.95, &one, NULL));
      ck_assert (sw_proportion_compute (3 * x, 3 * n, 0.95, &three, NULL));
      ck_assert (0 <= one.wilson_lo && one.wilson_lo <= one.estimate);
      ck_assert (one.estimate <= one.wilson_hi && one.wilson_hi <= 1);
      ck_assert (0 <= one.exact_lo && one.exact_lo <= one.estimate);
      ck_assert (one.estimate <= one.exact_hi && one.exact_hi <= 1);
      ck_assert (three.wilson_hi - three.wilson_lo < one.wilson_hi - one.wilson_lo);
      ck_assert (three.exact_hi - three.exact_lo < one.exact_hi - one.exact_lo);
      ck_assert (one.exact_lo <= three.exact_lo && three.exact_hi <= one.exact_hi);
    }
}
END_TEST

/* The exact limits are the shares at which the observed count just becomes too unlikely: each tail has 2.5 %. */
START_TEST (test_exact_limits_have_their_tails)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gint64 n = g_rand_int_range (rand, 1, 200);
      gint64 x = g_rand_int_range (rand, 0, n);
      SwProportion found;
      double tail = 0;
      ck_assert (sw_proportion_compute (x, n, 0.95, &found, NULL));
      for (gint64 k = 0; k <= x; k++)
        tail += exp (lgamma (n + 1) - lgamma (k + 1) - lgamma (n - k + 1) + k * log (found.exact_hi)
                     + (n - k) * log1p (-found.exact_hi));
      assert_near (tail, 0.025, 1e-10);
    }
}
END_TEST

/* Both exact tests against plain sums of factorials. */
START_TEST (test_exact_tests_by_enumeration)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < 5 * count_of_run (); run++)
    {
      int n1 = g_rand_int_range (rand, 1, 60), n2 = g_rand_int_range (rand, 1, 60);
      int x1 = g_rand_int_range (rand, 0, n1 + 1), x2 = g_rand_int_range (rand, 0, n2 + 1);
      double p0 = g_rand_double_range (rand, 0.01, 0.99);
      double binomial[60], table[60];
      double p, sum = 0;

      for (int k = 0; k <= n1; k++)
        binomial[k] = exp (lgamma (n1 + 1) - lgamma (k + 1) - lgamma (n1 - k + 1)
                           + k * log (p0) + (n1 - k) * log1p (-p0));
      for (int k = 0; k <= n1; k++)
        sum += binomial[k] <= binomial[x1] * (1 + 1e-7) ? binomial[k] : 0;
      ck_assert (sw_binomial_test (x1, n1, p0, &p, NULL));
      assert_near (p, sum, 1e-10);

      double all = sum = 0;
      for (int k = 0; k <= n1; k++)
        {
          int other = x1 + x2 - k;
          table[k] = other < 0 || other > n2 ? 0
                     : exp (-lgamma (k + 1) - lgamma (n1 - k + 1) - lgamma (other + 1) - lgamma (n2 - other + 1) + 150);
          all += table[k];
        }
      for (int k = 0; k <= n1; k++)
        sum += table[k] <= table[x1] * (1 + 1e-7) ? table[k] : 0;
      ck_assert (sw_fisher_exact_test (x1, n1, x2, n2, &p, NULL));
      assert_near (p, sum / all, 1e-10);
    }
}
END_TEST

START_TEST (test_curve_limits)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      g_autoptr (SwSurvival) found = sw_survival_fit (times, status, NULL, n, 1, 0.95, NULL);
      for (gsize i = 0; i < found->curves[0].n_steps; i++)
        {
          const SwSurvivalStep *step = &found->curves[0].steps[i];
          ck_assert (!(step->loglog_lo >= step->s) && !(step->loglog_hi <= step->s));
          ck_assert (!(step->plain_lo > step->s) && !(step->plain_hi < step->s));
          ck_assert (!(step->loglog_lo < 0) && !(step->loglog_hi > 1));
          ck_assert_int_eq (step->n, sw_survival_curve_at_risk (&found->curves[0], step->t));
          assert_near (sw_survival_curve_at (&found->curves[0], step->t), step->s, 0);
        }
    }
}
END_TEST

/* Groups under other names, rows in another order: the same statistic, each curve under its new name. */
START_TEST (test_relabelling)
{
  static const guint32 renamed[] = { 2, 0, 1 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      double t[MOST];
      guint8 s[MOST];
      guint32 g[MOST];
      for (gsize i = 0; i < n; i++)
        {
          t[n - 1 - i] = times[i];
          s[n - 1 - i] = status[i];
          g[n - 1 - i] = renamed[groups[i]];
        }
      g_autoptr (SwSurvival) one = sw_survival_fit (times, status, groups, n, 3, 0.95, NULL);
      g_autoptr (SwSurvival) two = sw_survival_fit (t, s, g, n, 3, 0.95, NULL);
      ck_assert_int_eq (one->logrank.df, two->logrank.df);
      assert_near (one->logrank.chi2, two->logrank.chi2, 1e-9 * (1 + fabs (one->logrank.chi2)));
      for (guint k = 0; k < 3; k++)
        {
          const SwSurvivalCurve *a = &one->curves[k], *b = &two->curves[renamed[k]];
          ck_assert_uint_eq (a->n_steps, b->n_steps);
          ck_assert (a->n_steps == 0 || memcmp (a->steps, b->steps, a->n_steps * sizeof *a->steps) == 0);
        }
    }
}
END_TEST

START_TEST (test_without_censoring_the_curve_is_the_empirical_one)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      memset (status, 1, n);
      g_autoptr (SwSurvival) found = sw_survival_fit (times, status, NULL, n, 1, 0.95, NULL);
      ck_assert_uint_eq (found->curves[0].n_marks, 0);
      for (gsize i = 0; i < found->curves[0].n_steps; i++)
        {
          gsize later = 0;
          for (gsize j = 0; j < n; j++)
            later += times[j] > found->curves[0].steps[i].t;
          double share = (double) later / n;
          assert_near (found->curves[0].steps[i].s, share, 1e-12);
          assert_near (found->curves[0].steps[i].se, later > 0 ? sqrt (share * (1 - share) / n) : NAN, 1e-10);
        }
    }
}
END_TEST

START_TEST (test_incidences_and_free_sum_to_one)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      g_autoptr (SwIncidence) found = sw_incidence_fit (times, causes, n, CAUSES, 0.95, NULL);
      for (gsize i = 0; i < found->n_steps; i++)
        {
          double sum = found->steps[i].free;
          for (guint cause = 1; cause <= CAUSES; cause++)
            sum += sw_incidence_at (found, cause, found->steps[i].t);
          assert_near (sum, 1, 1e-12);
        }
    }
}
END_TEST

/* With one cause the incidence is one minus Kaplan-Meier, and its error is Greenwood's. */
START_TEST (test_one_cause_is_kaplan_meier)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      g_autoptr (SwIncidence) incidence = sw_incidence_fit (times, status, n, 1, 0.95, NULL);
      g_autoptr (SwSurvival) survival = sw_survival_fit (times, status, NULL, n, 1, 0.95, NULL);
      ck_assert_uint_eq (incidence->n_steps, survival->curves[0].n_steps);
      for (gsize i = 0; i < incidence->n_steps; i++)
        {
          const SwSurvivalStep *step = &survival->curves[0].steps[i];
          assert_near (incidence->incidence[i], 1 - step->s, 1e-12);
          if (step->s > 0)
            assert_near (incidence->se[i], step->se, 1e-8);
        }
    }
}
END_TEST

START_TEST (test_turnbull_of_exact_times_is_kaplan_meier)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      for (gsize i = 0; i < n; i++)
        ends[i] = status[i] ? times[i] : INFINITY;
      g_autoptr (SwSurvival) survival = sw_survival_fit (times, status, NULL, n, 1, 0.95, NULL);
      g_autoptr (SwTurnbull) turnbull = sw_turnbull_fit (times, ends, n, NULL, NULL);
      ck_assert_ptr_nonnull (turnbull);
      for (gsize i = 0; i < n; i++)
        {
          double least, most;
          sw_turnbull_at (turnbull, times[i], &least, &most);
          assert_near (least, 1 - sw_survival_curve_at (&survival->curves[0], times[i]), 1e-7);
        }
    }
}
END_TEST

static double
mass_of (const SwTurnbull *turnbull, gsize i)
{
  double sum = 0;

  for (gsize j = 0; j < turnbull->n_masses; j++)
    {
      const SwTurnbullMass *mass = &turnbull->masses[j];
      gboolean inside = mass->left >= times[i] && mass->right <= ends[i];
      gboolean before = mass->left == mass->right && mass->left == times[i] && ends[i] > times[i];
      sum += inside && !before ? mass->mass : 0;
    }
  return sum;
}

/* The optimality condition by brute force at every time where mass could lie: just after each end, and at each exact
 * time. */
static double
greatest_pull (const SwTurnbull *turnbull, gsize n)
{
  g_autofree double *chances = g_new (double, n);
  double greatest = 0;

  for (gsize i = 0; i < n; i++)
    chances[i] = mass_of (turnbull, i);
  for (gsize k = 0; k < 3 * n; k++)
    {
      double t = k < n ? times[k] : k < 2 * n ? ends[k - n] : times[k - 2 * n] + 0.25;
      double pull = 0;
      for (gsize i = 0; i < n; i++)
        if ((times[i] < t && t <= ends[i]) || (times[i] == t && ends[i] == t))
          pull += 1 / chances[i];
      greatest = MAX (greatest, pull);
    }
  return greatest;
}

START_TEST (test_turnbull_is_optimal)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      g_autoptr (GError) error = NULL;
      g_autoptr (SwTurnbull) found = sw_turnbull_fit (times, ends, n, NULL, &error);
      double sum = 0, loglik = 0;
      ck_assert_msg (found != NULL, "%s", error ? error->message : "");
      for (gsize j = 0; j < found->n_masses; j++)
        sum += found->masses[j].mass;
      for (gsize i = 0; i < n; i++)
        loglik += log (mass_of (found, i));
      assert_near (sum, 1, 1e-12);
      assert_near (loglik, found->loglik, 1e-8 * n);
      ck_assert_msg (greatest_pull (found, n) <= n * (1 + 2e-9), "pull %.12g of %zu", greatest_pull (found, n), n);
    }
}
END_TEST

START_TEST (test_twice_the_sample_is_the_same_curve)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      gsize n = draw (rand);
      memcpy (times + n, times, n * sizeof *times);
      memcpy (ends + n, ends, n * sizeof *ends);
      memcpy (status + n, status, n);
      memcpy (causes + n, causes, n);
      for (gsize i = 0; i < 2 * n; i++)
        groups[i] = i >= n;
      g_autoptr (SwSurvival) one = sw_survival_fit (times, status, NULL, n, 1, 0.95, NULL);
      g_autoptr (SwSurvival) two = sw_survival_fit (times, status, NULL, 2 * n, 1, 0.95, NULL);
      g_autoptr (SwSurvival) apart = sw_survival_fit (times, status, groups, 2 * n, 2, 0.95, NULL);
      g_autoptr (SwIncidence) few = sw_incidence_fit (times, causes, n, CAUSES, 0.95, NULL);
      g_autoptr (SwIncidence) many = sw_incidence_fit (times, causes, 2 * n, CAUSES, 0.95, NULL);
      g_autoptr (SwTurnbull) single = sw_turnbull_fit (times, ends, n, NULL, NULL);
      g_autoptr (SwTurnbull) twice = sw_turnbull_fit (times, ends, 2 * n, NULL, NULL);

      ck_assert_uint_eq (one->curves[0].n_steps, two->curves[0].n_steps);
      for (gsize i = 0; i < one->curves[0].n_steps; i++)
        assert_near (two->curves[0].steps[i].s, one->curves[0].steps[i].s, 1e-12);
      ck_assert (isnan (apart->logrank.chi2) || apart->logrank.chi2 < 1e-12);
      for (gsize i = 0; i < few->n_steps * CAUSES; i++)
        assert_near (many->incidence[i], few->incidence[i], 1e-12);
      assert_near (twice->loglik, 2 * single->loglik, 1e-8 * n);
    }
}
END_TEST

/* On exact times without censoring the band is that of a share: about 1.96 binomial errors to either side. */
START_TEST (test_band_of_exact_times)
{
  static const double at[] = { 100, 200, 300 };
  double lo[3], hi[3], again_lo[3], again_hi[3];

  for (guint i = 0; i < MOST; i++)
    times[i] = ends[i] = i + 1;
  ck_assert (sw_turnbull_band (times, ends, MOST, 0.95, 400, 7, at, 3, lo, hi, NULL, NULL));
  ck_assert (sw_turnbull_band (times, ends, MOST, 0.95, 400, 7, at, 3, again_lo, again_hi, NULL, NULL));
  for (guint k = 0; k < 3; k++)
    {
      double share = at[k] / MOST;
      double half = 1.96 * sqrt (share * (1 - share) / MOST);
      assert_near (lo[k], share - half, 0.25 * half);
      assert_near (hi[k], share + half, 0.25 * half);
      ck_assert (lo[k] == again_lo[k] && hi[k] == again_hi[k]);
    }
}
END_TEST

/* The band holds the estimate, and four times as many courses make it narrower. */
START_TEST (test_band_holds_the_estimate)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());
  double narrow = 0, wide = 0;

  for (guint run = 0; run < 20; run++)
    {
      double at[2], lo[2], hi[2], least, most;
      gsize n = MOST / 4 * (1 + 3 * (run & 1));
      for (gsize i = 0; i < n; i++)
        {
          times[i] = g_rand_int_range (rand, 0, 40);
          ends[i] = g_rand_int_range (rand, 0, 8) == 0 ? INFINITY : times[i] + g_rand_int_range (rand, 1, 15);
        }
      g_autoptr (SwTurnbull) found = sw_turnbull_fit (times, ends, n, NULL, NULL);
      at[0] = found->masses[found->n_masses / 3].right;
      at[1] = found->masses[found->n_masses / 2].right;
      g_autoptr (GError) error = NULL;
      ck_assert_msg (sw_turnbull_band (times, ends, n, 0.95, 100, run, at, 2, lo, hi, NULL, &error), "%s", error->message);
      for (guint k = 0; k < 2; k++)
        {
          sw_turnbull_at (found, at[k], &least, &most);
          ck_assert_msg (lo[k] <= least && most <= hi[k], "%g to %g, estimate %g to %g", lo[k], hi[k], least, most);
          *(run & 1 ? &narrow : &wide) += hi[k] - lo[k];
        }
    }
  ck_assert_msg (narrow < 0.8 * wide, "%g %g", narrow, wide);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("properties");
  TCase *random = tcase_create ("random");

  tcase_set_timeout (random, 110);
  tcase_add_test (random, test_limits_shrink);
  tcase_add_test (random, test_exact_limits_have_their_tails);
  tcase_add_test (random, test_exact_tests_by_enumeration);
  tcase_add_test (random, test_curve_limits);
  tcase_add_test (random, test_relabelling);
  tcase_add_test (random, test_without_censoring_the_curve_is_the_empirical_one);
  tcase_add_test (random, test_incidences_and_free_sum_to_one);
  tcase_add_test (random, test_one_cause_is_kaplan_meier);
  tcase_add_test (random, test_turnbull_of_exact_times_is_kaplan_meier);
  tcase_add_test (random, test_turnbull_is_optimal);
  tcase_add_test (random, test_twice_the_sample_is_the_same_curve);
  tcase_add_test (random, test_band_of_exact_times);
  tcase_add_test (random, test_band_holds_the_estimate);
  suite_add_tcase (suite, random);
  SRunner *runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  int failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
