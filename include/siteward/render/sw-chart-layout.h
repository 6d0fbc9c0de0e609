/* sw-chart-layout.h: where everything of a chart lies: pure numbers, no drawing
 *
 * Widths of words are estimated from the width of a digit, so that a layout needs no font and can be tested by numbers;
 * what is too wide when drawn ends in an ellipsis.
 *
 *            top +----------------------+
 *   y ticks      |  curves, bars ...    | labels of the series
 *         bottom +----------------------+
 *              left   x ticks        right
 *   label of a series   still followed, at the ticks
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-chart.h"
#include "sw-course-style.h"

G_BEGIN_DECLS

/* A tick: its value, where it lies along its axis, and its text. */
typedef struct
{
  double value;
  double at;
  char *text;
} SwChartTick;

/* The label of a series or a line: vertically centred on y, not wider than most. */
typedef struct
{
  double x, y;
  double most;
  const char *text; /* the chart's */
  int series;       /* -1: a line's */
} SwChartLabel;

typedef struct
{
  double width, height;
  double left, top, right, bottom; /* of the plot */
  double x_lo, x_hi, y_lo, y_hi;   /* values at its edges */
  gboolean rows;                   /* bars lie on their side, one row each; the share runs along x */
  double row_height;
  GArray *x_ticks;                 /* SwChartTick */
  GArray *y_ticks;
  GArray *labels;                  /* SwChartLabel */
  double count_top;                /* middle of the first row of counts under the axis */
  guint n_count_rows;
} SwChartLayout;

/* How high the chart wants to be. */
double sw_chart_height (const SwChart *chart, const SwCourseStyle *style);

/* The layout of @chart, which must outlive it. */
SwChartLayout *sw_chart_layout_new (const SwChart *chart, const SwCourseStyle *style, double width, double height);
void sw_chart_layout_free (SwChartLayout *layout);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwChartLayout, sw_chart_layout_free)

/* Where a value lies. Beside the axes it lies at their ends. */
double sw_chart_x (const SwChartLayout *layout, double value);
double sw_chart_y (const SwChartLayout *layout, double value);
/* The middle of a bar's row. */
double sw_chart_row_y (const SwChartLayout *layout, guint row);

/* The step of 1, 2 or 5 times a power of ten that cuts @span into at most @most parts. */
double sw_chart_nice_step (double span, guint most);

G_END_DECLS
