/* sw-mark-shape.h: the shape of each state of a mark
 *
 *   planned    small open circle          missed     open square with a stroke through
 *   due now    open circle, bold ring     vomited    triangle
 *   given      filled disc                stopped    short bar
 *   late       filled disc with a notch   not known  diamond with ?
 *
 * Visits point downwards like a flag's tip: open planned, bold due, filled done, with a stroke overdue. The injection
 * is an upright needle mark: open planned, filled done. What happened outside the gate has a second ring around it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-line.h"
#include "sw-course-style.h"

#include <cairo.h>

G_BEGIN_DECLS

/* Drawn around (x, y) and never farther from it than `radius`. */
void sw_mark_shape_draw (cairo_t *cr, SwMarkState state, gboolean outside, double x, double y, double radius,
                         const SwCourseStyle *style);

/* The colour that goes with the shape. */
const SwColour *sw_mark_shape_colour (SwMarkState state, const SwCourseStyle *style);

G_END_DECLS
