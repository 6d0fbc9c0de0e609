/* sw-axis-labels-private.h: the numbers and dates over the axis of a course line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-layout.h"

G_BEGIN_DECLS

/* Appends the labels of the axis to layout->labels; the axis must be made. None overlaps another of its row. */
void sw_axis_labels_place (SwCourseLayout *layout, const SwCourseLine *line, const SwCourseStyle *style);

G_END_DECLS
