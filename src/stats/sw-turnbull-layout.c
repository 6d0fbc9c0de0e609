/* sw-turnbull-layout.c: the maximal intervals, and which of them each course spans.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-turnbull-layout-private.h"

#include "sw-error.h"
#include "sw-stats-private.h"

#include <glib/gi18n-lib.h>

/* Kinds of an end, in their order at the same time: an exact time begins just before it, (left, right] just after. */
enum
{
  END_EXACT_LEFT,
  END_RIGHT,
  END_LEFT,
};

gboolean
sw_turnbull_check (const double *left, const double *right, gsize n, GError **error)
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

SwTurnbullLayout
sw_turnbull_lay_out (const double *left, const double *right, gsize n)
{
  SwTurnbullLayout layout = {
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

/* Which cells some span begins with, and which some span ends with. */
static void
mark_ends (const GArray *spans, guint8 *begins, guint8 *finishes)
{
  for (guint i = 0; i < spans->len; i++)
    {
      begins[g_array_index (spans, SwSpan, i).first] = TRUE;
      finishes[g_array_index (spans, SwSpan, i).last] = TRUE;
    }
}

/* The maximal intervals of fewer courses: unions of the cells that these can't tell apart. @before gets, by old cell,
 * how many new ones begin before it, @upto how many end at it or before. */
static void
join_cells (GArray *joined, const GArray *cells, const GArray *spans, guint32 *before, guint32 *upto)
{
  g_autofree guint8 *begins = g_new0 (guint8, cells->len);
  g_autofree guint8 *finishes = g_new0 (guint8, cells->len);
  int open = -1;

  mark_ends (spans, begins, finishes);
  for (guint j = 0; j < cells->len; j++)
    {
      before[j] = joined->len;
      if (begins[j])
        open = j;
      if (finishes[j] && open >= 0)
        {
          SwTurnbullMass cell = {
            g_array_index (cells, SwTurnbullMass, open).left, g_array_index (cells, SwTurnbullMass, j).right, 0,
          };
          g_array_append_val (joined, cell);
          open = -1;
        }
      upto[j] = joined->len;
    }
}

SwTurnbullLayout
sw_turnbull_layout_draw (const SwTurnbullLayout *layout, const unsigned int *counts)
{
  SwTurnbullLayout drawn = {
    .cells = g_array_new (FALSE, FALSE, sizeof (SwTurnbullMass)),
    .spans = g_array_new (FALSE, FALSE, sizeof (SwSpan)),
  };
  g_autofree guint32 *before = g_new (guint32, layout->cells->len);
  g_autofree guint32 *upto = g_new (guint32, layout->cells->len);

  for (guint i = 0; i < layout->spans->len; i++)
    if (counts[i] > 0)
      {
        SwSpan span = g_array_index (layout->spans, SwSpan, i);
        span.weight = counts[i];
        g_array_append_val (drawn.spans, span);
      }
  join_cells (drawn.cells, layout->cells, drawn.spans, before, upto);
  for (guint i = 0; i < drawn.spans->len; i++)
    {
      SwSpan *span = &g_array_index (drawn.spans, SwSpan, i);
      span->first = before[span->first];
      span->last = upto[span->last] - 1;
    }
  return drawn;
}

void
sw_turnbull_layout_clear (SwTurnbullLayout *layout)
{
  g_array_unref (layout->cells);
  g_array_unref (layout->spans);
}
