/* sw-paint-private.h: the few strokes that every picture of this room is made of
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-style.h"

#include <cairo.h>

G_BEGIN_DECLS

void sw_paint_colour (cairo_t *cr, const SwColour *colour);

/* Text with its middle (align 0.5), left end (0) or right end (1) at x, vertically centred on y; an ellipsis past `most`. */
void sw_paint_text (cairo_t *cr, const SwCourseStyle *style, const SwColour *colour, const char *text, double x, double y,
                    double align, double most);

G_END_DECLS
