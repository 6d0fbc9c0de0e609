/* sw-turnbull.c: the search for the masses: expectation, convex minorant and Newton steps until the optimum is proved.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-turnbull-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define TOLERANCE 1e-9        /* of the total: how far the greatest pull may be over it */
#define STEPS_PER_ROUND 5     /* cheap steps before the next Newton phase */
#define HALVINGS 20           /* of a step that does not improve, before it is given up */
#define ROUNDS_WITHOUT_GAIN 2000 /* before the search admits that doubles can't do better */

void
sw_turnbull_search_init (SwTurnbullSearch *search, const SwSpan *spans, gsize n_spans, gsize n_cells)
{
  *search = (SwTurnbullSearch) {
    .spans = spans,
    .n_spans = n_spans,
    .n_cells = n_cells,
    .mass = g_new (double, n_cells),
    .below = g_new (double, n_cells + 1),
    .chance = g_new (double, n_spans),
    .slope = g_new (double, n_cells + 1),
    .pull = g_new (double, n_cells),
  };
  for (gsize i = 0; i < n_spans; i++)
    search->total += spans[i].weight;
  for (gsize j = 0; j < n_cells; j++)
    search->mass[j] = 1.0 / n_cells;
}

void
sw_turnbull_search_clear (SwTurnbullSearch *search)
{
  g_free (search->mass);
  g_free (search->below);
  g_free (search->chance);
  g_free (search->slope);
  g_free (search->pull);
}

gboolean
sw_turnbull_search_weigh (SwTurnbullSearch *search)
{
  double sum = 0;

  for (gsize j = 0; j < search->n_cells; j++)
    {
      search->below[j] = sum;
      sum += search->mass[j];
    }
  search->below[search->n_cells] = sum;

  search->loglik = 0;
  for (gsize i = 0; i < search->n_spans; i++)
    {
      const SwSpan *span = &search->spans[i];
      search->chance[i] = search->below[span->last + 1] - search->below[span->first];
      if (!(search->chance[i] > 0))
        {
          search->loglik = -INFINITY;
          return FALSE;
        }
      search->loglik += span->weight * log (search->chance[i]);
    }
  return TRUE;
}

static void
find_pulls (SwTurnbullSearch *search)
{
  double pull = 0;
  double most = 0;

  memset (search->slope, 0, (search->n_cells + 1) * sizeof (double));
  for (gsize i = 0; i < search->n_spans; i++)
    {
      const SwSpan *span = &search->spans[i];
      double part = span->weight / search->chance[i];
      search->slope[span->first] += part;
      search->slope[span->last + 1] -= part;
    }
  for (gsize j = 0; j < search->n_cells; j++)
    {
      pull += search->slope[j];
      search->pull[j] = pull;
      most = MAX (most, pull);
    }
  search->gap = most - search->total;
}

/* Each course is shared out over its cells in proportion to their mass: never lowers the likelihood. */
static void
expectation_step (SwTurnbullSearch *search)
{
  for (gsize j = 0; j < search->n_cells; j++)
    search->mass[j] *= search->pull[j] / search->total;
  sw_turnbull_search_weigh (search);
}

/* Least-squares fit that never falls, to @aims with @weights, both of length @n; written over @aims. */
static void
pool_adjacent_violators (double *aims, double *weights, gsize n)
{
  g_autofree gsize *ends = g_new (gsize, n + 1);
  gsize blocks = 0;

  for (gsize j = 0; j < n; j++)
    {
      double aim = aims[j];
      double weight = weights[j];
      while (blocks > 0 && aims[blocks - 1] >= aim)
        {
          blocks--;
          aim = (aim * weight + aims[blocks] * weights[blocks]) / (weight + weights[blocks]);
          weight += weights[blocks];
        }
      aims[blocks] = aim;
      weights[blocks] = weight;
      ends[blocks++] = j + 1;
    }
  for (gsize block = blocks; block-- > 0;)
    for (gsize j = ends[block]; j-- > (block > 0 ? ends[block - 1] : 0);)
      aims[j] = aims[block];
}

/* Where a Newton step on each cumulative mass alone, held in order by pooling, would go: masses by cell. */
static double *
minorant_masses (const SwTurnbullSearch *search)
{
  gsize n = search->n_cells;
  g_autofree double *aims = g_new0 (double, n + 1);
  g_autofree double *curvatures = g_new0 (double, n + 1);
  double *masses = g_new (double, n);

  for (gsize i = 0; i < search->n_spans; i++)
    {
      double part = search->spans[i].weight / (search->chance[i] * search->chance[i]);
      curvatures[search->spans[i].first] += part;
      curvatures[search->spans[i].last + 1] += part;
    }
  for (gsize j = 1; j < n; j++)
    aims[j] = search->below[j] - search->slope[j] / curvatures[j];
  pool_adjacent_violators (aims + 1, curvatures + 1, n - 1);
  aims[n] = 1;
  for (gsize j = 1; j < n; j++)
    aims[j] = CLAMP (aims[j], 0, 1);
  for (gsize j = 0; j < n; j++)
    masses[j] = aims[j + 1] - aims[j];
  return masses;
}

/* Unlike the expectation step this one can set masses to 0 and bring them back. Halved until it improves. */
static void
minorant_step (SwTurnbullSearch *search)
{
  gsize n = search->n_cells;
  if (n < 2)
    return;

  g_autofree double *from = g_memdup2 (search->mass, n * sizeof (double));
  g_autofree double *to = minorant_masses (search);
  double loglik = search->loglik;
  double step = 1;

  for (guint halving = 0; halving < HALVINGS; halving++, step /= 2)
    {
      for (gsize j = 0; j < n; j++)
        search->mass[j] = from[j] + step * (to[j] - from[j]);
      if (sw_turnbull_search_weigh (search) && search->loglik > loglik)
        return;
    }
  memcpy (search->mass, from, n * sizeof (double));
  sw_turnbull_search_weigh (search);
}

/* Some cheap steps, then Newton on what they left. TRUE when the optimum is proved. */
static gboolean
run_round (SwTurnbullSearch *search)
{
  for (guint step = 0; step < STEPS_PER_ROUND; step++)
    {
      expectation_step (search);
      find_pulls (search);
      if (search->gap <= TOLERANCE * search->total)
        return TRUE;
      minorant_step (search);
      find_pulls (search);
    }
  sw_turnbull_search_newton (search);
  find_pulls (search);
  return search->gap <= TOLERANCE * search->total;
}

gboolean
sw_turnbull_search_run (SwTurnbullSearch *search, guint *iterations, GCancellable *cancellable, GError **error)
{
  double least_gap = INFINITY;
  guint without_gain = 0;

  sw_turnbull_search_weigh (search);
  find_pulls (search);
  for (;;)
    {
      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      ++*iterations;
      if (run_round (search))
        return TRUE;
      without_gain = search->gap < least_gap ? 0 : without_gain + 1;
      least_gap = MIN (least_gap, search->gap);
      if (without_gain > ROUNDS_WITHOUT_GAIN)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                       _("The masses of these intervals can't be told apart: the proof of the optimum stops at %g, "
                         "over the limit of %g. Leave out intervals that differ from others by next to nothing."),
                       least_gap / search->total, TOLERANCE);
          return FALSE;
        }
    }
}
