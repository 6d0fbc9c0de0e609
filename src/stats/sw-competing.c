/* sw-competing.c: cumulative incidence of events that exclude each other.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-competing.h"

#include "sw-error.h"
#include "sw-stats-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Running sums of the variance of one cause's incidence F. With h = d / n (n - d) of all causes, c events of this cause
 * and S the share free of all just before the time, the variance at a time is
 *   sum (F - F_i)^2 h_i + sum S_i^2 c_i (n_i - c_i) / n_i^3 - 2 sum (F - F_i) S_i c_i / n_i^2
 * over the times so far, F_i after time i; expanding the brackets leaves sums that don't depend on F. */
typedef struct
{
  double h, h_f, h_ff;
  double own;
  double cross, cross_f;
} Sums;

static gboolean
check_rows (const double *times, const guint8 *causes, gsize n, guint n_causes, GError **error)
{
  for (gsize i = 0; i < n; i++)
    {
      if (!sw_stats_check_time (times[i], i, error))
        return FALSE;
      if (causes[i] > n_causes)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                       _("The cause in row %zu is %u: give 1 to %u, or 0 for none so far."), i + 1, causes[i],
                       n_causes);
          return FALSE;
        }
    }
  return TRUE;
}

static void
add_to_sums (Sums *sums, double f, double free_before, double n, double all, double own)
{
  double h = n > all ? all / (n * (n - all)) : 0;
  double cross = free_before * own / (n * n);

  sums->h += h;
  sums->h_f += h * f;
  sums->h_ff += h * f * f;
  sums->own += free_before * free_before * own * (n - own) / (n * n * n);
  sums->cross += cross;
  sums->cross_f += cross * f;
}

static double
variance_at (const Sums *sums, double f)
{
  double later = f * f * sums->h - 2 * f * sums->h_f + sums->h_ff;
  double cross = f * sums->cross - sums->cross_f;

  return MAX (later + sums->own - 2 * cross, 0);
}

static void
fill_cause (SwIncidence *incidence, guint cause, double z)
{
  gsize offset = (cause - 1) * incidence->n_steps;
  Sums sums = { 0 };
  double f = 0;
  double free_before = 1;

  for (gsize i = 0; i < incidence->n_steps; i++)
    {
      const SwIncidenceStep *step = &incidence->steps[i];
      double own = incidence->events[offset + i];
      double all = 0;
      for (guint c = 0; c < incidence->n_causes; c++)
        all += incidence->events[c * incidence->n_steps + i];

      f += free_before * own / step->n;
      add_to_sums (&sums, f, free_before, step->n, all, own);
      incidence->incidence[offset + i] = f;
      incidence->se[offset + i] = sqrt (variance_at (&sums, f));
      incidence->lo[offset + i] = incidence->hi[offset + i] = NAN;
      if (f > 0 && f < 1)
        sw_stats_loglog (f, incidence->se[offset + i], z, &incidence->lo[offset + i], &incidence->hi[offset + i]);
      free_before = step->free;
    }
}

static void
fill_steps (SwIncidence *incidence, const SwRow *rows)
{
  gsize step = 0;
  double free = 1;
  SwTie tie;

  for (gsize i = 0; i < (gsize) incidence->n; i = tie.end)
    {
      tie = sw_rows_tie (rows, incidence->n, i);
      if (tie.events == 0)
        continue;
      double at_risk = incidence->n - i;
      free *= (at_risk - tie.events) / at_risk;
      incidence->steps[step] = (SwIncidenceStep) { tie.t, incidence->n - i, free };
      for (gsize j = i; j < tie.end; j++)
        if (rows[j].cause > 0)
          incidence->events[(rows[j].cause - 1) * incidence->n_steps + step]++;
      step++;
    }
}

static void
allocate (SwIncidence *incidence, const SwRow *rows)
{
  SwTie tie;

  for (gsize i = 0; i < (gsize) incidence->n; i = tie.end)
    {
      tie = sw_rows_tie (rows, incidence->n, i);
      incidence->n_steps += tie.events > 0;
    }
  gsize cells = incidence->n_steps * incidence->n_causes;
  incidence->steps = g_new (SwIncidenceStep, incidence->n_steps);
  incidence->events = g_new0 (gint64, cells);
  incidence->incidence = g_new (double, cells);
  incidence->se = g_new (double, cells);
  incidence->lo = g_new (double, cells);
  incidence->hi = g_new (double, cells);
}

SwIncidence *
sw_incidence_fit (const double *times,
                  const guint8 *causes,
                  gsize n,
                  guint n_causes,
                  double level,
                  GError **error)
{
  if (!sw_stats_check_level (level, error) || !check_rows (times, causes, n, n_causes, error))
    return NULL;

  g_autoptr (SwIncidence) incidence = g_new0 (SwIncidence, 1);
  g_autofree SwRow *rows = g_new (SwRow, n);
  for (gsize i = 0; i < n; i++)
    rows[i] = (SwRow) { .key = sw_row_key (times[i]), .cause = causes[i] };
  sw_rows_sort (rows, n);

  incidence->n = n;
  incidence->n_causes = n_causes;
  incidence->times = sw_rows_times (rows, n);
  allocate (incidence, rows);
  fill_steps (incidence, rows);
  for (guint cause = 1; cause <= n_causes; cause++)
    fill_cause (incidence, cause, sw_stats_z (level));
  return g_steal_pointer (&incidence);
}

void
sw_incidence_free (SwIncidence *incidence)
{
  if (!incidence)
    return;
  g_free (incidence->steps);
  g_free (incidence->events);
  g_free (incidence->incidence);
  g_free (incidence->se);
  g_free (incidence->lo);
  g_free (incidence->hi);
  g_free (incidence->times);
  g_free (incidence);
}

double
sw_incidence_at (const SwIncidence *incidence, guint cause, double t)
{
  gsize low = 0;
  gsize high = incidence->n_steps;

  while (low < high)
    {
      gsize middle = low + (high - low) / 2;
      if (incidence->steps[middle].t <= t)
        low = middle + 1;
      else
        high = middle;
    }
  return low > 0 ? incidence->incidence[(cause - 1) * incidence->n_steps + low - 1] : 0;
}

gint64
sw_incidence_at_risk (const SwIncidence *incidence, double t)
{
  return sw_times_at_risk (incidence->times, incidence->n, t);
}
