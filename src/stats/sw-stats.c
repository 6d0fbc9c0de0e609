/* sw-stats.c: checks of input, the normal quantile, rows sorted by time.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-stats-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <math.h>
#include <string.h>

#define DIGITS 256
#define PASSES 8

gboolean
sw_stats_check_level (double level, GError **error)
{
  if (level > 0 && level < 1)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("A level of confidence of %g can't be used: give one between 0 and 1, such as 0.95."), level);
  return FALSE;
}

gboolean
sw_stats_check_time (double t, gsize row, GError **error)
{
  if (isfinite (t) && t >= 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("The time in row %zu is %g: give a number that is 0 or more."), row + 1, t);
  return FALSE;
}

double
sw_stats_z (double level)
{
  gsl_set_error_handler_off ();
  return gsl_cdf_ugaussian_Qinv ((1 - level) / 2);
}

void
sw_stats_loglog (double share, double se, double z, double *lo, double *hi)
{
  double log_share = log (share);
  double factor = exp (-z * se / (share * log_share));

  *lo = exp (log_share * factor);
  *hi = exp (log_share / factor);
}

guint64
sw_row_key (double t)
{
  guint64 key;

  t += 0.0; /* -0 becomes 0 */
  memcpy (&key, &t, sizeof key);
  return key;
}

double
sw_row_time (const SwRow *row)
{
  double t;

  memcpy (&t, &row->key, sizeof t);
  return t;
}

static void
count_digits (const SwRow *rows, gsize n, gsize counts[PASSES][DIGITS])
{
  memset (counts, 0, sizeof (gsize) * PASSES * DIGITS);
  for (gsize i = 0; i < n; i++)
    for (guint pass = 0; pass < PASSES; pass++)
      counts[pass][(rows[i].key >> (8 * pass)) & 0xff]++;
}

static void
scatter (const SwRow *from, SwRow *to, gsize n, guint pass, gsize *counts)
{
  gsize start = 0;

  for (guint digit = 0; digit < DIGITS; digit++)
    {
      gsize count = counts[digit];
      counts[digit] = start;
      start += count;
    }
  for (gsize i = 0; i < n; i++)
    to[counts[(from[i].key >> (8 * pass)) & 0xff]++] = from[i];
}

/* Radix sort, least digit first. Whole days leave most digits alike for all rows; such passes are skipped. */
void
sw_rows_sort (SwRow *rows, gsize n)
{
  g_autofree SwRow *spare = g_new (SwRow, n);
  gsize counts[PASSES][DIGITS];
  SwRow *from = rows;
  SwRow *to = spare;

  count_digits (rows, n, counts);
  for (guint pass = 0; pass < PASSES && n > 0; pass++)
    {
      if (counts[pass][(from[0].key >> (8 * pass)) & 0xff] == n)
        continue;
      scatter (from, to, n, pass, counts[pass]);
      SwRow *swap = from;
      from = to;
      to = swap;
    }
  if (from != rows)
    memcpy (rows, from, n * sizeof *rows);
}

double *
sw_rows_times (const SwRow *rows, gsize n)
{
  double *times = g_new (double, n);

  for (gsize i = 0; i < n; i++)
    times[i] = sw_row_time (&rows[i]);
  return times;
}

gsize
sw_times_at_risk (const double *times, gsize n, double t)
{
  gsize low = 0;
  gsize high = n;

  while (low < high)
    {
      gsize middle = low + (high - low) / 2;
      if (times[middle] < t)
        low = middle + 1;
      else
        high = middle;
    }
  return n - low;
}
