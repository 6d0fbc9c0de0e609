/* sw-logrank.c: the log-rank test for any number of groups.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-logrank-private.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_linalg.h>
#include <math.h>

/* Add to @logrank what one time with @events events, @at_risk at risk and of these at_risk_in[g] in each group says. */
static void
add_expected (SwLogRank *logrank, double events, double at_risk, const gint64 *at_risk_in)
{
  gsize k = logrank->n_groups;
  double share = events / at_risk;
  double factor = at_risk > 1 ? share * (at_risk - events) / (at_risk - 1) : 0;

  for (gsize g = 0; g < k; g++)
    {
      double part = at_risk_in[g] / at_risk;
      logrank->expected[g] += share * at_risk_in[g];
      logrank->variance[g * k + g] += factor * at_risk_in[g];
      for (gsize h = 0; h <= g; h++)
        logrank->variance[g * k + h] -= factor * part * at_risk_in[h];
    }
}

static void
sweep (SwLogRank *logrank, const SwRow *rows, gsize n, gint64 *at_risk_in)
{
  SwTie tie;

  for (gsize i = 0; i < n; i++)
    at_risk_in[rows[i].group]++;
  for (gsize i = 0; i < n; i = tie.end)
    {
      tie = sw_rows_tie (rows, n, i);
      if (tie.events > 0)
        add_expected (logrank, tie.events, n - i, at_risk_in);
      for (gsize j = i; j < tie.end; j++)
        {
          logrank->observed[rows[j].group] += rows[j].cause;
          at_risk_in[rows[j].group]--;
        }
    }
}

/* Groups that had anybody at risk at an event, but for the last: the others' differences determine that one's. */
static gsize
compared_groups (const SwLogRank *logrank, gsize *groups)
{
  gsize n = 0;

  for (gsize g = 0; g < logrank->n_groups; g++)
    if (logrank->expected[g] > 0)
      groups[n++] = g;
  return n > 0 ? n - 1 : 0;
}

/* The quadratic form d' V^-1 d over @groups, NaN when V has no inverse: such groups were never at risk together. */
static double
quadratic_form (const SwLogRank *logrank, const gsize *groups, gsize df)
{
  gsl_matrix *variance = gsl_matrix_alloc (df, df);
  gsl_vector *difference = gsl_vector_alloc (df);
  gsl_vector *solved = gsl_vector_alloc (df);
  double form = NAN;

  for (gsize i = 0; i < df; i++)
    {
      gsl_vector_set (difference, i, logrank->observed[groups[i]] - logrank->expected[groups[i]]);
      for (gsize j = 0; j < df; j++)
        gsl_matrix_set (variance, i, j, logrank->variance[groups[i] * logrank->n_groups + groups[j]]);
    }
  if (gsl_linalg_cholesky_decomp1 (variance) == GSL_SUCCESS
      && gsl_linalg_cholesky_solve (variance, difference, solved) == GSL_SUCCESS)
    gsl_blas_ddot (difference, solved, &form);
  gsl_vector_free (solved);
  gsl_vector_free (difference);
  gsl_matrix_free (variance);
  return form;
}

static void
judge (SwLogRank *logrank)
{
  g_autofree gsize *groups = g_new (gsize, logrank->n_groups);
  gsize df = compared_groups (logrank, groups);

  logrank->chi2 = df > 0 ? quadratic_form (logrank, groups, df) : NAN;
  logrank->df = isnan (logrank->chi2) ? 0 : (int) df;
  logrank->p = isnan (logrank->chi2) ? NAN : gsl_cdf_chisq_Q (logrank->chi2, df);
}

void
sw_logrank_fit (SwLogRank *logrank, const SwRow *rows, gsize n, gsize n_groups)
{
  g_autofree gint64 *at_risk_in = g_new0 (gint64, n_groups);

  logrank->n_groups = n_groups;
  logrank->observed = g_new0 (double, n_groups);
  logrank->expected = g_new0 (double, n_groups);
  logrank->variance = g_new0 (double, n_groups * n_groups);
  sweep (logrank, rows, n, at_risk_in);
  for (gsize g = 0; g < n_groups; g++)
    for (gsize h = 0; h < g; h++)
      logrank->variance[h * n_groups + g] = logrank->variance[g * n_groups + h];
  judge (logrank);
}

void
sw_logrank_clear (SwLogRank *logrank)
{
  g_free (logrank->observed);
  g_free (logrank->expected);
  g_free (logrank->variance);
}
