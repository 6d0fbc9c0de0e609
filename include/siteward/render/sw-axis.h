/* sw-axis.h: days along a line: chosen days wide, the rest compressed, on one axis
 *
 * Every moment has one x, and a later moment never lies left of an earlier one. All wide days are equally wide, all
 * compressed days too: the axis is linear in pieces, and the pieces are there to be shown as such. Pure numbers, no
 * drawing.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <glib.h>

G_BEGIN_DECLS

/* The days from first to last, both included, from x0 to x1. */
typedef struct
{
  SwDay first;
  SwDay last;
  gboolean wide;
  double x0;
  double x1;
} SwAxisSpan;

typedef struct
{
  SwDay first;
  SwDay last;
  double left;
  double right;
  GArray *spans; /* SwAxisSpan, without a gap */
} SwAxis;

/* An axis of compressed days from `first` to `last` (at least one day), from `left` to `right`. */
SwAxis *sw_axis_new (SwDay first, SwDay last, double left, double right);
void sw_axis_free (SwAxis *axis);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwAxis, sw_axis_free)

/* Make these days wide; what lies outside the axis is left out, what overlaps counts once. */
void sw_axis_widen (SwAxis *axis, SwDay first, SwDay last);

/* Moments before the axis lie at its left end, later ones at its right end. */
double sw_axis_x (const SwAxis *axis, SwDay day, int minute);

/* The day at x; the first or last for what lies beside the axis. */
SwDay sw_axis_day_at (const SwAxis *axis, double x);

double sw_axis_day_width (const SwAxis *axis, SwDay day);
gboolean sw_axis_is_wide (const SwAxis *axis, SwDay day);

G_END_DECLS
