/* sw-axis.c: days along a line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-axis.h"

/* A compressed day is at most this part of a wide one, and all of them together take at most this part of all wide
 * days. */
#define DAY_PART 0.35
#define WHOLE_PART 0.6

static gint64
span_days (const SwAxisSpan *span)
{
  return span->last - span->first + 1;
}

static SwAxisSpan *
span_at (const SwAxis *axis, guint i)
{
  return &g_array_index (axis->spans, SwAxisSpan, i);
}

static gint64
count_days (const SwAxis *axis, gboolean wide)
{
  gint64 days = 0;

  for (guint i = 0; i < axis->spans->len; i++)
    if (span_at (axis, i)->wide == wide)
      days += span_days (span_at (axis, i));
  return days;
}

/* How wide a compressed day is when a wide one is 1. */
static double
compressed_weight (const SwAxis *axis)
{
  gint64 wide = count_days (axis, TRUE);
  gint64 compressed = count_days (axis, FALSE);

  if (wide == 0 || compressed == 0)
    return 1;
  return MIN (DAY_PART, WHOLE_PART * wide / compressed);
}

static void
place_spans (SwAxis *axis)
{
  double weight = compressed_weight (axis);
  double whole = count_days (axis, TRUE) + weight * count_days (axis, FALSE);
  double x = axis->left;

  for (guint i = 0; i < axis->spans->len; i++)
    {
      SwAxisSpan *span = span_at (axis, i);

      span->x0 = x;
      x += (axis->right - axis->left) * span_days (span) * (span->wide ? 1 : weight) / whole;
      span->x1 = x;
    }
}

SwAxis *
sw_axis_new (SwDay first, SwDay last, double left, double right)
{
  SwAxis *axis = g_new0 (SwAxis, 1);
  SwAxisSpan all = { first, MAX (first, last), FALSE, left, right };

  axis->first = all.first;
  axis->last = all.last;
  axis->left = left;
  axis->right = MAX (left, right);
  axis->spans = g_array_new (FALSE, FALSE, sizeof (SwAxisSpan));
  g_array_append_val (axis->spans, all);

  return axis;
}

void
sw_axis_free (SwAxis *axis)
{
  if (axis == NULL)
    return;
  g_array_unref (axis->spans);
  g_free (axis);
}

/* Adds a piece, or lengthens the last one of the same kind, so that neighbours always differ. */
static void
append_span (GArray *spans, SwDay first, SwDay last, gboolean wide)
{
  SwAxisSpan span = { first, last, wide, 0, 0 };
  SwAxisSpan *tail = spans->len > 0 ? &g_array_index (spans, SwAxisSpan, spans->len - 1) : NULL;

  if (first > last)
    return;
  if (tail != NULL && tail->wide == wide)
    tail->last = last;
  else
    g_array_append_val (spans, span);
}

void
sw_axis_widen (SwAxis *axis, SwDay first, SwDay last)
{
  g_autoptr (GArray) old = g_steal_pointer (&axis->spans);

  axis->spans = g_array_new (FALSE, FALSE, sizeof (SwAxisSpan));
  for (guint i = 0; i < old->len; i++)
    {
      const SwAxisSpan *span = &g_array_index (old, SwAxisSpan, i);
      SwDay from = CLAMP (first, span->first, span->last + 1);
      SwDay to = CLAMP (last, span->first - 1, span->last);

      if (from > to)
        {
          append_span (axis->spans, span->first, span->last, span->wide);
          continue;
        }
      append_span (axis->spans, span->first, from - 1, span->wide);
      append_span (axis->spans, from, to, TRUE);
      append_span (axis->spans, to + 1, span->last, span->wide);
    }
  place_spans (axis);
}

static const SwAxisSpan *
span_of (const SwAxis *axis, SwDay day)
{
  for (guint i = 0; i + 1 < axis->spans->len; i++)
    if (day <= span_at (axis, i)->last)
      return span_at (axis, i);
  return span_at (axis, axis->spans->len - 1);
}

double
sw_axis_x (const SwAxis *axis, SwDay day, int minute)
{
  const SwAxisSpan *span = span_of (axis, day);
  double days = day - span->first + (double) minute / SW_MINUTES_PER_DAY;

  return CLAMP (span->x0 + days * (span->x1 - span->x0) / span_days (span), axis->left, axis->right);
}

SwDay
sw_axis_day_at (const SwAxis *axis, double x)
{
  guint i = 0;

  while (i + 1 < axis->spans->len && x >= span_at (axis, i)->x1)
    i++;

  const SwAxisSpan *span = span_at (axis, i);
  double width = (span->x1 - span->x0) / span_days (span);
  gint64 steps = width > 0 ? (gint64) ((x - span->x0) / width) : 0;

  return span->first + CLAMP (steps, 0, span_days (span) - 1);
}

double
sw_axis_day_width (const SwAxis *axis, SwDay day)
{
  const SwAxisSpan *span = span_of (axis, day);

  return (span->x1 - span->x0) / span_days (span);
}

gboolean
sw_axis_is_wide (const SwAxis *axis, SwDay day)
{
  return span_of (axis, day)->wide;
}
