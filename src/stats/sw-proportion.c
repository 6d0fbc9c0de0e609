/* sw-proportion.c: a share with its limits, and the exact tests.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-proportion.h"

#include "sw-error.h"
#include "sw-stats-private.h"

#include <glib/gi18n-lib.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

/* Probabilities that differ relatively by less than this count as equal: a tie must not be lost to rounding. */
#define TIE 1e-7

static gboolean
check_counts (gint64 x, gint64 n, GError **error)
{
  if (n < 0 || n > SW_PROPORTION_MOST)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("A number of %lld can't be used: give one from 0 to %d."), (long long) n, SW_PROPORTION_MOST);
      return FALSE;
    }
  if (x < 0 || x > n)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("%lld of %lld is no share: give a count from 0 to %lld."),
                   (long long) x, (long long) n, (long long) n);
      return FALSE;
    }
  return TRUE;
}

static void
set_wilson (SwProportion *result, double z)
{
  double n = result->n;
  double middle = result->estimate + z * z / (2 * n);
  double half = z * sqrt (result->estimate * (1 - result->estimate) / n + z * z / (4 * n * n));
  double scale = 1 + z * z / n;

  result->wilson_lo = result->x == 0 ? 0 : (middle - half) / scale;
  result->wilson_hi = result->x == result->n ? 1 : (middle + half) / scale;
}

/* The share at which the chance of @x or more of @n is @tail, by bisection: the beta distribution grows with the share.
 * (The library's own quantile does not always return for large counts.) */
static double
beta_quantile (double tail, double x, double n)
{
  double low = 0;
  double high = 1;

  for (;;)
    {
      double middle = low + (high - low) / 2;
      if (middle <= low || middle >= high)
        return middle;
      if (gsl_cdf_beta_P (middle, x, n - x + 1) < tail)
        low = middle;
      else
        high = middle;
    }
}

static void
set_exact (SwProportion *result, double tail)
{
  double x = result->x;
  double n = result->n;

  result->exact_lo = x > 0 ? beta_quantile (tail, x, n) : 0;
  result->exact_hi = x < n ? 1 - beta_quantile (tail, n - x, n) : 1;
}

gboolean
sw_proportion_compute (gint64 x, gint64 n, double level, SwProportion *result, GError **error)
{
  if (!check_counts (x, n, error) || !sw_stats_check_level (level, error))
    return FALSE;

  *result = (SwProportion) { x, n, NAN, NAN, NAN, NAN, NAN };
  if (n == 0)
    return TRUE;
  result->estimate = (double) x / (double) n;
  set_wilson (result, sw_stats_z (level));
  set_exact (result, (1 - level) / 2);
  return TRUE;
}

/* A distribution on @first..@last given by the ratio of each probability to the one before. */
typedef struct _Counts Counts;
struct _Counts
{
  gint64 first, last, mode;
  double (*ratio) (const Counts *counts, gint64 k);
  double n, odds;         /* binomial: P(k) / P(k - 1) = (n - k + 1) odds / k */
  double n1, n2, x_total; /* hypergeometric */
};

static double
binomial_ratio (const Counts *counts, gint64 k)
{
  return (counts->n - k + 1) * counts->odds / k;
}

static double
hypergeometric_ratio (const Counts *counts, gint64 k)
{
  return (counts->n1 - k + 1) * (counts->x_total - k + 1) / (k * (counts->n2 - counts->x_total + k));
}

/* The probability of @x over that of the mode, so that neither ever needs a factorial. */
static double
weight_of (const Counts *counts, gint64 x)
{
  double weight = 1;

  for (gint64 k = counts->mode + 1; k <= x && weight > 0; k++)
    weight *= counts->ratio (counts, k);
  for (gint64 k = counts->mode; k > x && weight > 0; k--)
    weight /= counts->ratio (counts, k);
  return weight;
}

/* The share of outcomes no likelier than @x, weights summed from the mode outwards until they vanish. */
static double
no_likelier (const Counts *counts, gint64 x)
{
  double most = weight_of (counts, x) * (1 + TIE);
  double all = 0;
  double tail = 0;
  double weight = 1;

  for (gint64 k = counts->mode; k <= counts->last && weight > 0; k++)
    {
      all += weight;
      tail += weight <= most ? weight : 0;
      weight *= k < counts->last ? counts->ratio (counts, k + 1) : 0;
    }
  weight = 1;
  for (gint64 k = counts->mode; k > counts->first && weight > 0; k--)
    {
      weight /= counts->ratio (counts, k);
      all += weight;
      tail += weight <= most ? weight : 0;
    }
  return MIN (tail / all, 1);
}

gboolean
sw_binomial_test (gint64 x, gint64 n, double p0, double *p, GError **error)
{
  if (!check_counts (x, n, error))
    return FALSE;
  if (!(p0 >= 0 && p0 <= 1))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("A share of %g can't be compared with: give one from 0 to 1."),
                   p0);
      return FALSE;
    }

  if (p0 == 0 || p0 == 1)
    {
      *p = x == (p0 == 0 ? 0 : n) ? 1 : 0;
      return TRUE;
    }
  Counts counts = {
    .first = 0,
    .last = n,
    .mode = MIN ((gint64) ((n + 1) * p0), n),
    .ratio = binomial_ratio,
    .n = n,
    .odds = p0 / (1 - p0),
  };
  *p = no_likelier (&counts, x);
  return TRUE;
}

gboolean
sw_fisher_exact_test (gint64 x1, gint64 n1, gint64 x2, gint64 n2, double *p, GError **error)
{
  if (!check_counts (x1, n1, error) || !check_counts (x2, n2, error) || !check_counts (0, n1 + n2, error))
    return FALSE;

  gint64 x = x1 + x2;
  Counts counts = {
    .first = MAX (0, x - n2),
    .last = MIN (x, n1),
    .ratio = hypergeometric_ratio,
    .n1 = n1,
    .n2 = n2,
    .x_total = x,
  };
  counts.mode = CLAMP ((x + 1) * (n1 + 1) / (n1 + n2 + 2), counts.first, counts.last);
  *p = no_likelier (&counts, x1);
  return TRUE;
}
