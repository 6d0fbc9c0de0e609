/* sw-stats-private.h: what the files of this room share: checks of input, the normal quantile, rows sorted by time.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* One course as the sweeps see it. @key orders like the time: the bits of a double that is not negative. */
typedef struct
{
  guint64 key;
  guint32 group;
  guint32 cause;
} SwRow;

/* All rows of one time: @leaving leave the risk set, @events of them with an event of any cause. */
typedef struct
{
  double t;
  gsize end;
  gsize leaving;
  gsize events;
} SwTie;

/* TRUE, or SW_ERROR_INPUT with a sentence. */
gboolean sw_stats_check_level (double level, GError **error);
gboolean sw_stats_check_time (double t, gsize row, GError **error);

/* Half width of a two-sided normal interval: 1.95996 for 0.95. Also keeps GSL from aborting on a domain error. */
double sw_stats_z (double level);

/* Limits on the log(-log) scale of a share strictly between 0 and 1 with standard error @se. */
void sw_stats_loglog (double share, double se, double z, double *lo, double *hi);

guint64 sw_row_key (double t);
double sw_row_time (const SwRow *row);

/* Sorts by time; rows of one time stay in their order. */
void sw_rows_sort (SwRow *rows, gsize n);

/* The times of sorted rows as one array, and how many of such an array are at or over @t. */
double *sw_rows_times (const SwRow *rows, gsize n);
gsize sw_times_at_risk (const double *times, gsize n, double t);

/* The tie that begins at @start. */
static inline SwTie
sw_rows_tie (const SwRow *rows, gsize n, gsize start)
{
  SwTie tie = { .t = sw_row_time (&rows[start]), .end = start };

  while (tie.end < n && rows[tie.end].key == rows[start].key)
    {
      tie.events += rows[tie.end].cause > 0;
      tie.end++;
    }
  tie.leaving = tie.end - start;
  return tie;
}
