/* sw-course-end-section-private.h: how a course ends, with what the rules find about it while it is filled in
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_COURSE_END_SECTION (sw_course_end_section_get_type ())
G_DECLARE_FINAL_TYPE (SwCourseEndSection, sw_course_end_section, SW, COURSE_END_SECTION, GtkBox)

void sw_course_end_section_update (SwCourseEndSection *self, SwStepPage *page, SwPageChanges changes);
gboolean sw_course_end_section_has_unsaved (SwCourseEndSection *self);
void sw_course_end_section_focus (SwCourseEndSection *self);

G_END_DECLS
