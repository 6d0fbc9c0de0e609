/* sw-interval-band.c: how uncertain the share with an interval-censored event is, by drawing the courses again.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-interval.h"

#include "sw-error.h"
#include "sw-stats-private.h"
#include "sw-turnbull-layout-private.h"
#include "sw-turnbull-private.h"

#include <glib/gi18n-lib.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics.h>
#include <math.h>

/* What is drawn from and what has been drawn: at time k in draw i, least[k * n_draws + i] and most likewise. */
typedef struct
{
  const SwTurnbullLayout *layout;
  gsize n;
  gsize n_draws;
  const double *times;
  gsize n_times;
  double *least;
  double *most;
} Draws;

static gboolean
check_arguments (double level, guint n_draws, const double *times, gsize n_times, GError **error)
{
  if (!sw_stats_check_level (level, error))
    return FALSE;
  if (n_draws < SW_TURNBULL_LEAST_DRAWS)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("%u draws are too few for limits: give at least %d."), n_draws, SW_TURNBULL_LEAST_DRAWS);
      return FALSE;
    }
  for (gsize i = 0; i < n_times; i++)
    if (!sw_stats_check_time (times[i], i, error))
      return FALSE;
  return TRUE;
}

/* As many courses as there were, drawn from them with replacement. */
static SwTurnbullLayout
draw_layout (const Draws *draws, gsl_rng *rng)
{
  const GArray *spans = draws->layout->spans;
  g_autofree double *weights = g_new (double, spans->len);
  g_autofree unsigned int *counts = g_new (unsigned int, spans->len);

  for (guint i = 0; i < spans->len; i++)
    weights[i] = g_array_index (spans, SwSpan, i).weight;
  gsl_ran_multinomial (rng, spans->len, draws->n, weights, counts);
  return sw_turnbull_layout_draw (draws->layout, counts);
}

static void
read_off (const Draws *draws, const SwTurnbullMass *cells, const SwTurnbullSearch *search, gsize draw)
{
  for (gsize k = 0; k < draws->n_times; k++)
    {
      double t = draws->times[k];
      double least = 0, most = 0;
      for (gsize j = 0; j < search->n_cells && (cells[j].left < t || cells[j].right <= t); j++)
        {
          least += cells[j].right <= t ? search->mass[j] : 0;
          most += search->mass[j];
        }
      draws->least[k * draws->n_draws + draw] = least;
      draws->most[k * draws->n_draws + draw] = most;
    }
}

static gboolean
run_draw (const Draws *draws, gsize draw, gsl_rng *rng, GCancellable *cancellable, GError **error)
{
  g_auto (SwTurnbullLayout) layout = draw_layout (draws, rng);
  g_auto (SwTurnbullSearch) search = { 0 };
  guint iterations = 0;

  sw_turnbull_search_init (&search, (const SwSpan *) layout.spans->data, layout.spans->len, layout.cells->len);
  if (!sw_turnbull_search_run (&search, &iterations, cancellable, error))
    return FALSE;
  read_off (draws, (const SwTurnbullMass *) layout.cells->data, &search, draw);
  return TRUE;
}

static double
quantile (double *values, gsize n, double share)
{
  gsl_sort (values, 1, n);
  return gsl_stats_quantile_from_sorted_data (values, 1, n, share);
}

static gboolean
run_draws (Draws *draws, guint seed, GCancellable *cancellable, GError **error)
{
  gsl_rng *rng = gsl_rng_alloc (gsl_rng_mt19937);
  gboolean done = TRUE;

  gsl_rng_set (rng, seed);
  for (gsize draw = 0; draw < draws->n_draws && done; draw++)
    done = run_draw (draws, draw, rng, cancellable, error);
  gsl_rng_free (rng);
  return done;
}

gboolean
sw_turnbull_band (const double *left,
                  const double *right,
                  gsize n,
                  double level,
                  guint n_draws,
                  guint seed,
                  const double *times,
                  gsize n_times,
                  double *lo,
                  double *hi,
                  GCancellable *cancellable,
                  GError **error)
{
  if (!sw_turnbull_check (left, right, n, error) || !check_arguments (level, n_draws, times, n_times, error))
    return FALSE;
  for (gsize k = 0; k < n_times; k++)
    lo[k] = hi[k] = NAN;
  if (n == 0)
    return TRUE;

  g_auto (SwTurnbullLayout) layout = sw_turnbull_lay_out (left, right, n);
  g_autofree double *least = g_new (double, n_times * n_draws);
  g_autofree double *most = g_new (double, n_times * n_draws);
  Draws draws = { &layout, n, n_draws, times, n_times, least, most };
  if (!run_draws (&draws, seed, cancellable, error))
    return FALSE;
  for (gsize k = 0; k < n_times; k++)
    {
      lo[k] = quantile (least + k * n_draws, n_draws, (1 - level) / 2);
      hi[k] = quantile (most + k * n_draws, n_draws, (1 + level) / 2);
    }
  return TRUE;
}
