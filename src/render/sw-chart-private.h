/* sw-chart-private.h: the parts of drawing a chart
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-chart-draw.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_t *cr;
  const SwChart *chart;
  const SwChartLayout *layout;
  const SwCourseStyle *style;
} SwChartPen;

/* The marks of each kind of chart. */
void sw_chart_draw_bars (const SwChartPen *pen);
void sw_chart_draw_steps (const SwChartPen *pen);
void sw_chart_draw_points (const SwChartPen *pen);
void sw_chart_draw_line (const SwChartPen *pen);
void sw_chart_draw_columns (const SwChartPen *pen);

G_END_DECLS
