/* sw-style.h: the look of the window: one style sheet over the theme, in light, dark and high contrast
 *
 * The sheet uses named colours only; which ones they are follows the theme, also while the program runs.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-style.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Once per display; harmless when repeated. */
void sw_style_install (GdkDisplay *display);

/* Colours and measures of the course line, as the widget's theme and font have them now. (transfer full) */
SwCourseStyle *sw_style_course (GtkWidget *widget);

G_END_DECLS
