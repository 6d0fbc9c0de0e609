/* sw-cusum.c: running sum of failures.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-cusum.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <math.h>

gboolean
sw_cusum_plan (double p0, double p1, double alpha, double beta, SwCusumPlan *plan, GError **error)
{
  if (!(p0 > 0 && p0 < p1 && p1 < 1))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("Rates of %g and %g can't be told apart: give two between 0 and 1, the accepted one lower."),
                   p0, p1);
      return FALSE;
    }
  if (!(alpha > 0 && alpha <= 0.5 && beta > 0 && beta <= 0.5))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("Chances of error of %g and %g can't be used: give two above 0 and at most 0.5."), alpha, beta);
      return FALSE;
    }

  double of_failure = log (p1 / p0);
  double of_success = log1p (-p0) - log1p (-p1);
  *plan = (SwCusumPlan) {
    .p0 = p0,
    .p1 = p1,
    .alpha = alpha,
    .beta = beta,
    .s = of_success / (of_failure + of_success),
    .h0 = log ((1 - alpha) / beta) / (of_failure + of_success),
    .h1 = log ((1 - beta) / alpha) / (of_failure + of_success),
  };
  return TRUE;
}

SwCusum *
sw_cusum_run (const SwCusumPlan *plan, const guint8 *failures, gsize n, GError **error)
{
  g_autoptr (SwCusum) cusum = g_new0 (SwCusum, 1);
  gsize failed = 0;

  cusum->n = n;
  cusum->sums = g_new (double, n);
  cusum->first_worse = -1;
  cusum->first_as_planned = -1;
  for (gsize i = 0; i < n; i++)
    {
      if (failures[i] > 1)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                       _("The outcome in row %zu is %u: give 1 for a failure, 0 for a success."),
                       i + 1, failures[i]);
          return NULL;
        }
      /* From the counts, so that a long run gathers no rounding. */
      failed += failures[i];
      cusum->sums[i] = failed - (double) (i + 1) * plan->s;
      if (cusum->first_worse < 0 && cusum->sums[i] >= plan->h1)
        cusum->first_worse = i;
      if (cusum->first_as_planned < 0 && cusum->sums[i] <= -plan->h0)
        cusum->first_as_planned = i;
    }
  return g_steal_pointer (&cusum);
}

void
sw_cusum_free (SwCusum *cusum)
{
  if (!cusum)
    return;
  g_free (cusum->sums);
  g_free (cusum);
}
