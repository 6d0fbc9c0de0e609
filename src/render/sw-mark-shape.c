/* sw-mark-shape.c: the shape of each state of a mark
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-mark-shape.h"

#include "sw-paint-private.h"

#include <math.h>

/* Parts of the radius. */
#define BODY 0.78  /* most shapes, so that a ring fits around them */
#define SMALL 0.55 /* planned */
#define RING 0.94  /* outside the gate */
#define THIN 0.20
#define BOLD 0.36

const SwColour *
sw_mark_shape_colour (SwMarkState state, const SwCourseStyle *style)
{
  switch (state)
    {
    case SW_MARK_PLANNED:
    case SW_MARK_STOPPED:
    case SW_MARK_VISIT_PLANNED:
    case SW_MARK_INJECTION_PLANNED:
    case SW_MARK_ENDED:
      return &style->quiet;
    case SW_MARK_DUE:
    case SW_MARK_GIVEN:
    case SW_MARK_VISIT_DUE:
    case SW_MARK_VISIT_DONE:
    case SW_MARK_INJECTED:
    case SW_MARK_SCORED:
      return &style->accent;
    case SW_MARK_LATE:
    case SW_MARK_NOT_KNOWN:
    case SW_MARK_VISIT_OVERDUE:
      return &style->caution;
    case SW_MARK_MISSED:
    case SW_MARK_VOMITED:
    case SW_MARK_RECURRENCE:
      return &style->stop;
    case SW_N_MARK_STATES:
      break;
    }
  g_return_val_if_reached (&style->text);
}

/* A path through corners given as x, y in parts of the radius. */
static void
path (cairo_t *cr, const double *corners, guint n, double x, double y, double r)
{
  cairo_new_path (cr);
  for (guint i = 0; i < n; i++)
    cairo_line_to (cr, x + corners[2 * i] * r, y + corners[2 * i + 1] * r);
  cairo_close_path (cr);
}

static void
disc (cairo_t *cr, double x, double y, double r)
{
  cairo_new_path (cr);
  cairo_arc (cr, x, y, r, 0, 2 * G_PI);
}

/* Open shapes are filled with the ground, so that lines behind them don't shine through. */
static void
finish (cairo_t *cr, const SwCourseStyle *style, const SwColour *colour, double width, gboolean filled)
{
  sw_paint_colour (cr, filled ? colour : &style->ground);
  cairo_fill_preserve (cr);
  sw_paint_colour (cr, colour);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

static void
stroke_through (cairo_t *cr, double x, double y, double reach, double width)
{
  cairo_move_to (cr, x - reach, y + reach);
  cairo_line_to (cr, x + reach, y - reach);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* A wedge is cut out of the disc from its middle to the upper right. */
static void
draw_notched (cairo_t *cr, double x, double y, double r, const SwColour *colour)
{
  cairo_new_path (cr);
  cairo_move_to (cr, x, y);
  cairo_arc (cr, x, y, r, 0, 1.5 * G_PI);
  cairo_close_path (cr);
  sw_paint_colour (cr, colour);
  cairo_fill (cr);
}

/* The mark of a question is drawn, not set, so that it is legible at any size and in any font. */
static void
draw_unknown (cairo_t *cr, double x, double y, double r, const SwCourseStyle *style, const SwColour *colour)
{
  static const double corners[] = { 0, -1, 1, 0, 0, 1, -1, 0 };

  path (cr, corners, 4, x, y, r * RING);
  finish (cr, style, colour, r * THIN, FALSE);
  cairo_arc (cr, x, y - 0.22 * r, 0.22 * r, G_PI, 2.35 * G_PI);
  cairo_line_to (cr, x, y + 0.18 * r);
  cairo_stroke (cr);
  disc (cr, x, y + 0.46 * r, 0.12 * r);
  cairo_fill (cr);
}

static void
draw_dose (cairo_t *cr, SwMarkState state, double x, double y, double r, const SwCourseStyle *style,
           const SwColour *colour)
{
  static const double square[] = { -1, -1, 1, -1, 1, 1, -1, 1 };
  static const double triangle[] = { 0, -1, 1, 0.8, -1, 0.8 };

  if (state == SW_MARK_LATE)
    draw_notched (cr, x, y, BODY * r, colour);
  else if (state == SW_MARK_NOT_KNOWN)
    draw_unknown (cr, x, y, r, style, colour);
  else if (state == SW_MARK_MISSED)
    {
      path (cr, square, 4, x, y, 0.62 * r);
      finish (cr, style, colour, r * THIN, FALSE);
      stroke_through (cr, x, y, 0.85 * r, r * THIN);
    }
  else if (state == SW_MARK_VOMITED)
    {
      path (cr, triangle, 3, x, y, BODY * r);
      finish (cr, style, colour, r * THIN, TRUE);
    }
  else if (state == SW_MARK_STOPPED)
    {
      cairo_rectangle (cr, x - 0.62 * r, y - 0.2 * r, 1.24 * r, 0.4 * r);
      sw_paint_colour (cr, colour);
      cairo_fill (cr);
    }
  else
    {
      disc (cr, x, y, r * (state == SW_MARK_PLANNED ? SMALL : BODY - THIN / 2));
      finish (cr, style, colour, r * (state == SW_MARK_DUE ? BOLD : THIN), state == SW_MARK_GIVEN);
    }
}

static void
draw_visit (cairo_t *cr, SwMarkState state, double x, double y, double r, const SwCourseStyle *style,
            const SwColour *colour)
{
  static const double tip[] = { -1, -0.8, 1, -0.8, 0, 1 };

  path (cr, tip, 3, x, y, 0.72 * r);
  finish (cr, style, colour, r * (state == SW_MARK_VISIT_DUE ? BOLD : THIN), state == SW_MARK_VISIT_DONE);
  if (state == SW_MARK_VISIT_OVERDUE)
    stroke_through (cr, x, y, 0.85 * r, r * THIN);
}

/* An upright lozenge: long, so that day 0 stands out of its lane. */
static void
draw_injection (cairo_t *cr, SwMarkState state, double x, double y, double r, const SwCourseStyle *style,
                const SwColour *colour)
{
  static const double lozenge[] = { 0, -1, 0.5, 0, 0, 1, -0.5, 0 };

  path (cr, lozenge, 4, x, y, 0.9 * r);
  finish (cr, style, colour, r * THIN, state == SW_MARK_INJECTED);
}

/* Score: a plus in a square; recurrence: two strokes crossed; the end of a course: an upright bar. */
static void
draw_outcome (cairo_t *cr, SwMarkState state, double x, double y, double r, const SwColour *colour)
{
  sw_paint_colour (cr, colour);
  cairo_set_line_width (cr, r * BOLD);
  if (state == SW_MARK_RECURRENCE)
    {
      stroke_through (cr, x, y, 0.6 * r, r * BOLD);
      cairo_move_to (cr, x - 0.6 * r, y - 0.6 * r);
      cairo_line_to (cr, x + 0.6 * r, y + 0.6 * r);
    }
  else if (state == SW_MARK_ENDED)
    {
      cairo_move_to (cr, x, y - 0.8 * r);
      cairo_line_to (cr, x, y + 0.8 * r);
    }
  else
    {
      cairo_move_to (cr, x - 0.7 * r, y);
      cairo_line_to (cr, x + 0.7 * r, y);
      cairo_move_to (cr, x, y - 0.7 * r);
      cairo_line_to (cr, x, y + 0.7 * r);
    }
  cairo_stroke (cr);
}

static void
draw_ring (cairo_t *cr, double x, double y, double r, const SwColour *colour)
{
  disc (cr, x, y, r * RING);
  sw_paint_colour (cr, colour);
  cairo_set_line_width (cr, r * THIN / 2);
  cairo_stroke (cr);
}

void
sw_mark_shape_draw (cairo_t *cr, SwMarkState state, gboolean outside, double x, double y, double radius,
                    const SwCourseStyle *style)
{
  const SwColour *colour = sw_mark_shape_colour (state, style);
  double r = outside ? radius * BODY : radius;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  if (state <= SW_MARK_STOPPED)
    draw_dose (cr, state, x, y, r, style, colour);
  else if (state <= SW_MARK_VISIT_OVERDUE)
    draw_visit (cr, state, x, y, r, style, colour);
  else if (state <= SW_MARK_INJECTED)
    draw_injection (cr, state, x, y, r, style, colour);
  else
    draw_outcome (cr, state, x, y, r, colour);
  if (outside)
    draw_ring (cr, x, y, radius, &style->stop);
  cairo_restore (cr);
}
