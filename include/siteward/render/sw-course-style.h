/* sw-course-style.h: colours and measures that the course line is drawn with
 *
 * The window fills it from its theme, paper from constants. All sizes follow from the height of a line of text, so a
 * larger text makes a larger picture. Colour never speaks alone: each state has its own shape too.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <pango/pango.h>

G_BEGIN_DECLS

typedef struct
{
  double red;
  double green;
  double blue;
  double alpha;
} SwColour;

typedef struct
{
  PangoFontDescription *font; /* owned */
  double line_height;         /* of the font, pixels or points */
  double digit_width;         /* of the widest digit */
  SwColour ground;
  SwColour band;    /* every second day, and what sets compressed days apart */
  SwColour rule;    /* thin lines */
  SwColour text;
  SwColour quiet;   /* units, dates, what is planned */
  SwColour accent;  /* what was done; what is due */
  SwColour caution; /* late, not known, overdue */
  SwColour stop;    /* missed, vomited */
} SwCourseStyle;

/* Black on white for paper, the named font at this size; call sw_course_style_measure() before use. */
SwCourseStyle *sw_course_style_new_paper (const char *font);
void sw_course_style_free (SwCourseStyle *style);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCourseStyle, sw_course_style_free)

/* Fill line_height and digit_width from the font. */
void sw_course_style_measure (SwCourseStyle *style, PangoContext *context);

G_END_DECLS
