/* sw-course-view.h: the course line as a widget: one picture of the whole course, always visible
 *
 * Bands, axis and curves are drawn by render; each mark is a child widget of its own, because GTK 4.8 can show only
 * widgets to a screen reader. The view is one stop of the Tab key, at the mark visited last; arrows walk along a lane
 * and between lanes, Enter or a click activates a mark. A mark keeps its widget, and so the focus, when the line is
 * replaced by a newer one.
 *
 * Signal mark-activated (GtkWidget *mark, SwLineMark *value): value is borrowed and lives as long as the line.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-line.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_COURSE_VIEW (sw_course_view_get_type ())
G_DECLARE_FINAL_TYPE (SwCourseView, sw_course_view, SW, COURSE_VIEW, GtkWidget)

GtkWidget *sw_course_view_new (void);
/* Takes the line; NULL shows nothing. */
void sw_course_view_set_line (SwCourseView *self, SwCourseLine *line);
const SwCourseLine *sw_course_view_get_line (SwCourseView *self);

/* The widget of the mark that stands for this row; NULL: none is shown. */
GtkWidget *sw_course_view_find_mark (SwCourseView *self, SwFactKind kind, gint64 id);

G_END_DECLS
