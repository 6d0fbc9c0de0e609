/* sw-workup-course.h: the course this work-up is for: opening it, its protocol, its tumours
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_COURSE (sw_workup_course_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpCourse, sw_workup_course, SW, WORKUP_COURSE, SwWorkUpSection)

/* For tests. */
GtkWidget *sw_workup_course_get_protocol (SwWorkUpCourse *self);
GtkWidget *sw_workup_course_get_follows (SwWorkUpCourse *self);
GtkWidget *sw_workup_course_get_purpose (SwWorkUpCourse *self);
GtkWidget *sw_workup_course_get_tumour (SwWorkUpCourse *self, gint64 tumour); /* a check button; NULL: none */
GtkWidget *sw_workup_course_get_open (SwWorkUpCourse *self);
GtkWidget *sw_workup_course_get_change (SwWorkUpCourse *self);

G_END_DECLS
