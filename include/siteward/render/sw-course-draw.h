/* sw-course-draw.h: draw a course line that has been laid out, on any cairo context
 *
 * Screen, printer, PDF and PNG use the same strokes. The window draws the ground only and lets each mark be a widget
 * that draws itself (sw_mark_shape_draw); paper draws both.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-layout.h"

#include <cairo.h>

G_BEGIN_DECLS

/* Bands, axis, labels, curves and today's line. */
void sw_course_draw_ground (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style);
/* The whole picture. */
void sw_course_draw (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style);

G_END_DECLS
