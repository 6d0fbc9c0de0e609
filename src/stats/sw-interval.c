/* sw-interval.c: interval-censored times: maximal intervals, their masses, and what to read off them.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-interval.h"

#include "sw-error.h"
#include "sw-stats-private.h"
#include "sw-turnbull-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Kinds of an end, in their order at the same time: an exact time begins just before it, (left, right] just after. */
enum
{
  END_EXACT_LEFT,
  END_RIGHT,
  END_LEFT,
};

/* Between the ends of the courses: the maximal intervals (@cells) and what each course spans. */
typedef struct
{
  GArray *cells; /* of SwTurnbullMass, masses not set */
  GArray *spans; /* of SwSpan, all different */
} Layout;

static gboolean
check_intervals (const double *left, const double *right, gsize n, GError **error)
{
  for (gsize i = 0; i < n; i++)
    {
      if (!sw_stats_check_time (left[i], i, error))
        return FALSE;
      if (!(right[i] >= left[i]))
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                       _("The interval in row %zu runs from %g to %g: its end must not come before its beginning."),
                       i + 1, left[i], right[i]);
          return FALSE;
        }
    }
  return TRUE;
}

/* All ends in order. Kinds are filled in one after the other: the sort keeps that order among equal times. */
static SwRow *
sorted_ends (const double *left, const double *right, gsize n)
{
  SwRow *ends = g_new (SwRow, 2 * n);
  gsize at = 0;

  for (gsize i = 0; i < n; i++)
    if (left[i] == right[i])
      ends[at++] = (SwRow) { sw_row_key (left[i]), i, END_EXACT_LEFT };
  for (gsize i = 0; i < n; i++)
    ends[at++] = (SwRow) { sw_row_key (right[i]), i, END_RIGHT };
  for (gsize i = 0; i < n; i++)
    if (left[i] != right[i])
      ends[at++] = (SwRow) { sw_row_key (left[i]), i, END_LEFT };
  sw_rows_sort (ends, at);
  return ends;
}

/* A right end straight after a left one closes a cell. @pairs gets, per course, the first cell in the high half of
 * the key and the last in the low one. */
static void
sweep (GArray *cells, const SwRow *ends, gsize n, SwRow *pairs)
{
  const SwRow *left = NULL;

  for (gsize i = 0; i < 2 * n; i++)
    {
      if (ends[i].cause != END_RIGHT)
        {
          left = &ends[i];
          pairs[ends[i].group].key |= (guint64) cells->len << 32;
          continue;
        }
      if (left)
        {
          SwTurnbullMass cell = { sw_row_time (left), sw_row_time (&ends[i]), 0 };
          g_array_append_val (cells, cell);
          left = NULL;
        }
      pairs[ends[i].group].key |= cells->len - 1;
    }
}

static void
collect_spans (GArray *spans, const SwRow *pairs, gsize n)
{
  SwTie tie;

  for (gsize i = 0; i < n; i = tie.end)
    {
      tie = sw_rows_tie (pairs, n, i);
      SwSpan span = { pairs[i].key >> 32, pairs[i].key & G_MAXUINT32, tie.leaving };
      g_array_append_val (spans, span);
    }
}

static Layout
lay_out (const double *left, const double *right, gsize n)
{
  Layout layout = {
    .cells = g_array_new (FALSE, FALSE, sizeof (SwTurnbullMass)),
    .spans = g_array_new (FALSE, FALSE, sizeof (SwSpan)),
  };
  g_autofree SwRow *ends = sorted_ends (left, right, n);
  g_autofree SwRow *pairs = g_new0 (SwRow, n);

  sweep (layout.cells, ends, n, pairs);
  sw_rows_sort (pairs, n);
  collect_spans (layout.spans, pairs, n);
  return layout;
}

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
search_masses (SwTurnbull *turnbull, const Layout *layout, GCancellable *cancellable, GError **error)
{
  gsize n_cells = layout->cells->len;
  g_autofree double *mass = g_new0 (double, n_cells);
  g_autofree double *below = g_new0 (double, n_cells + 1);
  g_autofree double *chance = g_new0 (double, layout->spans->len);
  g_autofree double *slope = g_new0 (double, n_cells + 1);
  g_autofree double *pull = g_new0 (double, n_cells);
  SwTurnbullSearch search = {
    .spans = (const SwSpan *) layout->spans->data,
    .n_spans = layout->spans->len,
    .n_cells = n_cells,
    .total = turnbull->n,
    .mass = mass,
    .below = below,
    .chance = chance,
    .slope = slope,
    .pull = pull,
  };

  if (!sw_turnbull_search_run (&search, &turnbull->iterations, cancellable, error))
    return FALSE;
  take_masses (turnbull, (const SwTurnbullMass *) layout->cells->data, &search);
  return TRUE;
}

SwTurnbull *
sw_turnbull_fit (const double *left, const double *right, gsize n, GCancellable *cancellable, GError **error)
{
  if (!check_intervals (left, right, n, error))
    return NULL;

  g_autoptr (SwTurnbull) turnbull = g_new0 (SwTurnbull, 1);
  turnbull->n = n;
  if (n == 0)
    return g_steal_pointer (&turnbull);

  Layout layout = lay_out (left, right, n);
  gboolean found = search_masses (turnbull, &layout, cancellable, error);
  g_array_unref (layout.cells);
  g_array_unref (layout.spans);
  return found ? g_steal_pointer (&turnbull) : NULL;
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
