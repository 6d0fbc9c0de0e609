/* sw-interval.c: interval-censored times: the masses of the maximal intervals, and what to read off them.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-interval.h"

#include "sw-turnbull-layout-private.h"
#include "sw-turnbull-private.h"

static void
take_masses (SwTurnbull *turnbull, const SwTurnbullMass *cells, const SwTurnbullSearch *search)
{
  double sum = 0;

  turnbull->masses = g_new (SwTurnbullMass, search->n_cells);
  for (gsize j = 0; j < search->n_cells; j++)
    sum += search->mass[j];
  for (gsize j = 0; j < search->n_cells; j++)
    if (search->mass[j] > 0)
      {
        turnbull->masses[turnbull->n_masses] = cells[j];
        turnbull->masses[turnbull->n_masses++].mass = search->mass[j] / sum;
      }
  turnbull->n_maximal = search->n_cells;
  turnbull->loglik = search->loglik;
  turnbull->gap = MAX (search->gap, 0);
}

static gboolean
search_masses (SwTurnbull *turnbull, const SwTurnbullLayout *layout, GCancellable *cancellable, GError **error)
{
  g_auto (SwTurnbullSearch) search = { 0 };

  sw_turnbull_search_init (&search, (const SwSpan *) layout->spans->data, layout->spans->len, layout->cells->len);
  if (!sw_turnbull_search_run (&search, &turnbull->iterations, cancellable, error))
    return FALSE;
  take_masses (turnbull, (const SwTurnbullMass *) layout->cells->data, &search);
  return TRUE;
}

SwTurnbull *
sw_turnbull_fit (const double *left, const double *right, gsize n, GCancellable *cancellable, GError **error)
{
  if (!sw_turnbull_check (left, right, n, error))
    return NULL;

  g_autoptr (SwTurnbull) turnbull = g_new0 (SwTurnbull, 1);
  turnbull->n = n;
  if (n == 0)
    return g_steal_pointer (&turnbull);

  g_auto (SwTurnbullLayout) layout = sw_turnbull_lay_out (left, right, n);
  if (!search_masses (turnbull, &layout, cancellable, error))
    return NULL;
  return g_steal_pointer (&turnbull);
}

void
sw_turnbull_free (SwTurnbull *turnbull)
{
  if (!turnbull)
    return;
  g_free (turnbull->masses);
  g_free (turnbull);
}

void
sw_turnbull_at (const SwTurnbull *turnbull, double t, double *least, double *most)
{
  *least = *most = 0;
  for (gsize j = 0; j < turnbull->n_masses; j++)
    {
      const SwTurnbullMass *mass = &turnbull->masses[j];
      if (mass->right <= t)
        *least += mass->mass;
      if (mass->left < t || mass->right <= t)
        *most += mass->mass;
    }
}

gboolean
sw_turnbull_median (const SwTurnbull *turnbull, double *left, double *right)
{
  double sum = 0;

  for (gsize j = 0; j < turnbull->n_masses; j++)
    {
      sum += turnbull->masses[j].mass;
      if (sum >= 0.5)
        {
          *left = turnbull->masses[j].left;
          *right = turnbull->masses[j].right;
          return TRUE;
        }
    }
  return FALSE;
}
