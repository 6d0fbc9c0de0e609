/* sw-survival.c: Kaplan-Meier curves and the fit as a whole.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-survival.h"

#include "sw-error.h"
#include "sw-logrank-private.h"
#include "sw-stats-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* How near to one half a curve must be to count as level there; the product of many shares is not exact. */
#define LEVEL_AT_HALF 1e-9

static gboolean
check_rows (const double *times, const guint8 *events, const guint32 *groups, gsize n, gsize n_groups, GError **error)
{
  for (gsize i = 0; i < n; i++)
    {
      if (!sw_stats_check_time (times[i], i, error))
        return FALSE;
      if (events[i] > 1)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                       _("The status in row %zu is %u: give 1 for the event, 0 for none so far."), i + 1, events[i]);
          return FALSE;
        }
      if (groups && groups[i] >= n_groups)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                       _("The group in row %zu is %u: there are only %zu, counted from 0."), i + 1, groups[i],
                       n_groups);
          return FALSE;
        }
    }
  return TRUE;
}

static SwRow *
make_rows (const double *times, const guint8 *events, const guint32 *groups, gsize n)
{
  SwRow *rows = g_new (SwRow, n);

  for (gsize i = 0; i < n; i++)
    rows[i] = (SwRow) { sw_row_key (times[i]), groups ? groups[i] : 0, events[i] };
  sw_rows_sort (rows, n);
  return rows;
}

static void
allocate_steps (SwSurvivalCurve *curve, const SwRow *rows)
{
  SwTie tie;

  for (gsize i = 0; i < (gsize) curve->n; i = tie.end)
    {
      tie = sw_rows_tie (rows, curve->n, i);
      curve->n_steps += tie.events > 0;
      curve->n_marks += tie.leaving > tie.events;
    }
  curve->steps = g_new (SwSurvivalStep, curve->n_steps);
  curve->marks = g_new (SwSurvivalMark, curve->n_marks);
}

static SwSurvivalStep
make_step (const SwTie *tie, gint64 at_risk, double s, double greenwood, double z)
{
  SwSurvivalStep step = { tie->t, at_risk, tie->events, s, NAN, NAN, NAN, NAN, NAN };

  if (s > 0)
    {
      step.se = s * sqrt (greenwood);
      step.plain_lo = MAX (s - z * step.se, 0);
      step.plain_hi = MIN (s + z * step.se, 1);
      sw_stats_loglog (s, step.se, z, &step.loglog_lo, &step.loglog_hi);
    }
  return step;
}

static void
fill_steps (SwSurvivalCurve *curve, const SwRow *rows, double z)
{
  SwSurvivalStep *step = curve->steps;
  SwSurvivalMark *mark = curve->marks;
  double s = 1;
  double greenwood = 0;
  SwTie tie;

  for (gsize i = 0; i < (gsize) curve->n; i = tie.end)
    {
      double at_risk = curve->n - i;
      tie = sw_rows_tie (rows, curve->n, i);
      if (tie.events > 0)
        {
          double left = at_risk - tie.events;
          s *= left / at_risk;
          greenwood += tie.events / (at_risk * left);
          *step++ = make_step (&tie, curve->n - i, s, greenwood, z);
          curve->events += tie.events;
        }
      if (tie.leaving > tie.events)
        *mark++ = (SwSurvivalMark) { tie.t, tie.leaving - tie.events, s };
    }
}

/* Where the double at @offset of each step, falling with time, reaches one half. */
static double
time_at_half (const SwSurvivalCurve *curve, gsize offset)
{
  for (gsize i = 0; i < curve->n_steps; i++)
    {
      const SwSurvivalStep *step = &curve->steps[i];
      double share;
      memcpy (&share, (const char *) step + offset, sizeof share);
      if (!(share <= 0.5 + LEVEL_AT_HALF))
        continue;
      if (share < 0.5 - LEVEL_AT_HALF)
        return step->t;
      double end = i + 1 < curve->n_steps ? step[1].t : curve->times[curve->n - 1];
      return (step->t + end) / 2;
    }
  return NAN;
}

static void
fit_curve (SwSurvivalCurve *curve, const SwRow *rows, gsize n, double z)
{
  curve->n = n;
  curve->times = sw_rows_times (rows, n);
  allocate_steps (curve, rows);
  fill_steps (curve, rows, z);
  curve->median = time_at_half (curve, G_STRUCT_OFFSET (SwSurvivalStep, s));
  curve->median_lo = time_at_half (curve, G_STRUCT_OFFSET (SwSurvivalStep, loglog_lo));
  curve->median_hi = time_at_half (curve, G_STRUCT_OFFSET (SwSurvivalStep, loglog_hi));
}

/* Puts the rows of each group together, still in time order. ends[g] is where group g begins, then where it ends. */
static void
fit_groups (SwSurvival *survival, const SwRow *rows, gsize n, double z)
{
  g_autofree SwRow *parted = g_new (SwRow, n);
  g_autofree gsize *ends = g_new0 (gsize, survival->n_groups + 1);

  for (gsize i = 0; i < n; i++)
    ends[rows[i].group + 1]++;
  for (gsize g = 0; g < survival->n_groups; g++)
    ends[g + 1] += ends[g];
  for (gsize i = 0; i < n; i++)
    parted[ends[rows[i].group]++] = rows[i];
  for (gsize g = 0, start = 0; g < survival->n_groups; start = ends[g++])
    fit_curve (&survival->curves[g], parted + start, ends[g] - start, z);
}

SwSurvival *
sw_survival_fit (const double *times,
                 const guint8 *events,
                 const guint32 *groups,
                 gsize n,
                 gsize n_groups,
                 double level,
                 GError **error)
{
  if (!sw_stats_check_level (level, error) || !check_rows (times, events, groups, n, n_groups, error))
    return NULL;

  g_autoptr (SwSurvival) survival = g_new0 (SwSurvival, 1);
  g_autofree SwRow *rows = make_rows (times, events, groups, n);
  survival->n_groups = n_groups;
  survival->curves = g_new0 (SwSurvivalCurve, n_groups);
  fit_groups (survival, rows, n, sw_stats_z (level));
  sw_logrank_fit (&survival->logrank, rows, n, n_groups);
  return g_steal_pointer (&survival);
}

void
sw_survival_free (SwSurvival *survival)
{
  if (!survival)
    return;
  for (gsize g = 0; g < survival->n_groups; g++)
    {
      g_free (survival->curves[g].steps);
      g_free (survival->curves[g].marks);
      g_free (survival->curves[g].times);
    }
  g_free (survival->curves);
  sw_logrank_clear (&survival->logrank);
  g_free (survival);
}

gint64
sw_survival_curve_at_risk (const SwSurvivalCurve *curve, double t)
{
  return sw_times_at_risk (curve->times, curve->n, t);
}

double
sw_survival_curve_at (const SwSurvivalCurve *curve, double t)
{
  gsize low = 0;
  gsize high = curve->n_steps;

  while (low < high)
    {
      gsize middle = low + (high - low) / 2;
      if (curve->steps[middle].t <= t)
        low = middle + 1;
      else
        high = middle;
    }
  return low > 0 ? curve->steps[low - 1].s : 1;
}
