/* sw-agreement.c: limits of agreement, technical error, intraclass correlations.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-agreement.h"

#include "sw-error.h"
#include "sw-stats-private.h"

#include <glib/gi18n-lib.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

/* Limits of agreement lie at this multiple of the deviation, not at the exact normal quantile (Bland, Altman 1986). */
#define LIMIT 1.96

static gboolean
check_readings (const double *readings, gsize n, gsize per_row, GError **error)
{
  for (gsize i = 0; i < n; i++)
    if (!isfinite (readings[i]))
      {
        g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                     _("The reading in row %zu is %g: give a number, or leave the row out."),
                     i / per_row + 1, readings[i]);
        return FALSE;
      }
  return TRUE;
}

static double
sum_of_squares (const double *a, const double *b, gsize n, double middle)
{
  double sum = 0;

  for (gsize i = 0; i < n; i++)
    sum += (a[i] - b[i] - middle) * (a[i] - b[i] - middle);
  return sum;
}

static void
set_means (SwAgreement *result, const double *a, const double *b)
{
  double differences = 0;
  double readings = 0;
  double n = result->n;

  for (gsize i = 0; i < result->n; i++)
    {
      differences += a[i] - b[i];
      readings += a[i] + b[i];
    }
  result->mean_difference = differences / n;
  result->tem = sqrt (sum_of_squares (a, b, result->n, 0) / (2 * n));
  result->tem_percent = readings != 0 ? 100 * result->tem / (readings / (2 * n)) : NAN;
}

static void
set_limits (SwAgreement *result, double level)
{
  double n = result->n;
  double t = gsl_cdf_tdist_Qinv ((1 - level) / 2, n - 1);
  double of_mean = t * result->sd / sqrt (n);
  double of_limit = t * result->sd * sqrt (1 / n + LIMIT * LIMIT / (2 * (n - 1)));

  result->mean_lo = result->mean_difference - of_mean;
  result->mean_hi = result->mean_difference + of_mean;
  result->lo = result->mean_difference - LIMIT * result->sd;
  result->lo_lo = result->lo - of_limit;
  result->lo_hi = result->lo + of_limit;
  result->hi = result->mean_difference + LIMIT * result->sd;
  result->hi_lo = result->hi - of_limit;
  result->hi_hi = result->hi + of_limit;
}

gboolean
sw_agreement_compute (const double *a, const double *b, gsize n, double level, SwAgreement *result, GError **error)
{
  if (!check_readings (a, n, 1, error) || !check_readings (b, n, 1, error) || !sw_stats_check_level (level, error))
    return FALSE;

  *result = (SwAgreement) { n, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN };
  if (n == 0)
    return TRUE;
  set_means (result, a, b);
  if (n == 1)
    return TRUE;
  result->sd = sqrt (sum_of_squares (a, b, n, result->mean_difference) / (n - 1));
  set_limits (result, level);
  return TRUE;
}

/* Squares are summed around means, not sums of squares less squares of sums: readings far from 0 stay exact. */
static void
set_mean_squares (SwJudges *result, const double *ratings)
{
  gsize n = result->n_targets;
  gsize k = result->n_judges;
  g_autofree double *of_target = g_new0 (double, n);
  g_autofree double *of_judge = g_new0 (double, k);
  double mean = 0;

  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < k; j++)
      {
        of_target[i] += ratings[i * k + j] / k;
        of_judge[j] += ratings[i * k + j] / n;
        mean += ratings[i * k + j] / (n * k);
      }

  double between = 0, judges = 0, within = 0, residual = 0;
  for (gsize i = 0; i < n; i++)
    between += k * (of_target[i] - mean) * (of_target[i] - mean);
  for (gsize j = 0; j < k; j++)
    judges += n * (of_judge[j] - mean) * (of_judge[j] - mean);
  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < k; j++)
      {
        double inside = ratings[i * k + j] - of_target[i];
        double left_over = inside - of_judge[j] + mean;
        within += inside * inside;
        residual += left_over * left_over;
      }
  result->between = between / (n - 1);
  result->within = within / (n * (k - 1));
  result->judges = judges / (k - 1);
  result->residual = residual / ((n - 1) * (k - 1));
}

static double
quotient (double part, double whole)
{
  return whole != 0 ? part / whole : NAN;
}

static void
set_icc (SwJudges *result)
{
  double n = result->n_targets;
  double k = result->n_judges;
  double between = result->between;
  double judges = result->judges - result->residual;

  result->icc[SW_ICC_1_1] = quotient (between - result->within, between + (k - 1) * result->within);
  result->icc[SW_ICC_2_1] = quotient (between - result->residual,
                                      between + (k - 1) * result->residual + k * judges / n);
  result->icc[SW_ICC_3_1] = quotient (between - result->residual, between + (k - 1) * result->residual);
  result->icc[SW_ICC_1_K] = quotient (between - result->within, between);
  result->icc[SW_ICC_2_K] = quotient (between - result->residual, between + judges / n);
  result->icc[SW_ICC_3_K] = quotient (between - result->residual, between);
}

gboolean
sw_judges_compute (const double *ratings, gsize n_targets, gsize n_judges, SwJudges *result, GError **error)
{
  if (n_targets < 2 || n_judges < 2)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("%zu targets and %zu judges can't be compared: give at least 2 of each."),
                   n_targets, n_judges);
      return FALSE;
    }
  if (!check_readings (ratings, n_targets * n_judges, n_judges, error))
    return FALSE;

  *result = (SwJudges) { .n_targets = n_targets, .n_judges = n_judges };
  set_mean_squares (result, ratings);
  set_icc (result);
  return TRUE;
}
