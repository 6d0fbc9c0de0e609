/* sw-course-mark.h: one mark of the course line: a small button with a shape and a sentence
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-line.h"
#include "sw-course-style.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_COURSE_MARK (sw_course_mark_get_type ())
G_DECLARE_FINAL_TYPE (SwCourseMark, sw_course_mark, SW, COURSE_MARK, GtkWidget)

/* Signal: activate (). */
GtkWidget *sw_course_mark_new (void);

/* Borrowed: the view sets it anew before the line goes. */
void sw_course_mark_set_value (SwCourseMark *self, const SwLineMark *value);
const SwLineMark *sw_course_mark_get_value (SwCourseMark *self);
/* Borrowed from the view. */
void sw_course_mark_set_style (SwCourseMark *self, const SwCourseStyle *style, double radius);

G_END_DECLS
