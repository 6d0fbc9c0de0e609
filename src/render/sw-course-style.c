/* sw-course-style.c: colours and measures of the course line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course-style.h"

#define WHITE { 1.0, 1.0, 1.0, 1.0 }
#define BLACK { 0.0, 0.0, 0.0, 1.0 }

/* Print is often grey: the tones below keep their order without colour. */
static const SwCourseStyle paper = {
  .line_height = 12,
  .digit_width = 6,
  .ground = WHITE,
  .band = { 0.95, 0.95, 0.95, 1.0 },
  .rule = { 0.75, 0.75, 0.75, 1.0 },
  .text = BLACK,
  .quiet = { 0.4, 0.4, 0.4, 1.0 },
  .accent = { 0.05, 0.32, 0.42, 1.0 },
  .caution = { 0.55, 0.33, 0.0, 1.0 },
  .stop = { 0.65, 0.08, 0.08, 1.0 },
};

SwCourseStyle *
sw_course_style_new_paper (const char *font)
{
  SwCourseStyle *style = g_memdup2 (&paper, sizeof paper);

  style->font = pango_font_description_from_string (font);
  return style;
}

void
sw_course_style_free (SwCourseStyle *style)
{
  if (style == NULL)
    return;
  g_clear_pointer (&style->font, pango_font_description_free);
  g_free (style);
}

void
sw_course_style_measure (SwCourseStyle *style, PangoContext *context)
{
  PangoFontMetrics *metrics = pango_context_get_metrics (context, style->font, NULL);

  style->line_height = pango_units_to_double (pango_font_metrics_get_height (metrics));
  style->digit_width = pango_units_to_double (pango_font_metrics_get_approximate_digit_width (metrics));
  pango_font_metrics_unref (metrics);
}
