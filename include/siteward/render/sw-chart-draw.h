/* sw-chart-draw.h: a chart on any cairo context, and as a PNG
 *
 * Series differ by the dash of their line and by a label beside it, not by colour: a grey print tells as much.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-chart-layout.h"

#include <cairo.h>

G_BEGIN_DECLS

/* Draws the chart into the layout's width and height from the origin. @layout must be of this chart and style. */
void sw_chart_draw (cairo_t *cr, const SwChart *chart, const SwChartLayout *layout, const SwCourseStyle *style);

/* The chart with its title and its words under it, on white, twice as fine as a screen. Errors: what writing a file
 * errs with. */
gboolean sw_chart_write_png (const SwChart *chart, const char *path, GError **error);

G_END_DECLS
