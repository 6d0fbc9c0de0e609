/* sw-course-draw.c: draw a course line that has been laid out
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course-draw.h"

#include "sw-mark-shape.h"
#include "sw-paint-private.h"

#define HAIR 1.0
#define CURVE 1.6
#define DOT 2.4 /* px; wounds are squares, sizes discs */

static double
bottom (const SwCourseLayout *layout)
{
  const SwPlacedLane *last;

  if (layout->lanes->len == 0)
    return layout->top;
  last = &g_array_index (layout->lanes, SwPlacedLane, layout->lanes->len - 1);
  return last->top + last->height;
}

/* Compressed days lie on another tone than wide ones: the axis says that its scale changes there. */
static void
draw_spans (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  for (guint i = 0; i < layout->axis->spans->len; i++)
    {
      const SwAxisSpan *span = &g_array_index (layout->axis->spans, SwAxisSpan, i);

      if (span->wide)
        continue;
      cairo_rectangle (cr, span->x0, layout->top, span->x1 - span->x0, bottom (layout) - layout->top);
      sw_paint_colour (cr, &style->band);
      cairo_fill (cr);
    }
}

/* A thin line at each midnight of a wide day. */
static void
draw_days (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  for (guint i = 0; i < layout->axis->spans->len; i++)
    {
      const SwAxisSpan *span = &g_array_index (layout->axis->spans, SwAxisSpan, i);

      for (SwDay day = span->first; span->wide && day <= span->last + 1; day++)
        {
          double x = day <= span->last ? sw_axis_x (layout->axis, day, 0) : span->x1;

          cairo_move_to (cr, (int) x + HAIR / 2, layout->top);
          cairo_line_to (cr, (int) x + HAIR / 2, bottom (layout));
        }
    }
  sw_paint_colour (cr, &style->rule);
  cairo_set_line_width (cr, HAIR);
  cairo_stroke (cr);
}

static void
draw_lanes (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  for (guint i = 0; i < layout->lanes->len; i++)
    {
      const SwPlacedLane *lane = &g_array_index (layout->lanes, SwPlacedLane, i);

      cairo_move_to (cr, 0, (int) lane->top + HAIR / 2);
      cairo_line_to (cr, layout->axis->right, (int) lane->top + HAIR / 2);
    }
  cairo_move_to (cr, 0, (int) bottom (layout) + HAIR / 2);
  cairo_line_to (cr, layout->axis->right, (int) bottom (layout) + HAIR / 2);
  sw_paint_colour (cr, &style->rule);
  cairo_set_line_width (cr, HAIR);
  cairo_stroke (cr);
}

static void
draw_labels (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  for (guint i = 0; i < layout->labels->len; i++)
    {
      const SwPlacedLabel *label = &g_array_index (layout->labels, SwPlacedLabel, i);
      gboolean loud = label->strong || label->kind == SW_LABEL_DAY || label->kind == SW_LABEL_LANE;

      sw_paint_text (cr, style, label->strong ? &style->accent : loud ? &style->text : &style->quiet, label->text,
                     label->x,
                     label->y, label->align, label->width * (label->kind == SW_LABEL_DATE ? 2 : 1));
    }
}

static void
draw_now (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  if (layout->now_x < 0)
    return;
  cairo_move_to (cr, layout->now_x, layout->top);
  cairo_line_to (cr, layout->now_x, bottom (layout));
  sw_paint_colour (cr, &style->accent);
  cairo_set_line_width (cr, CURVE);
  cairo_stroke (cr);
}

static void
draw_point (cairo_t *cr, const SwPlacedPoint *point, gboolean wound)
{
  if (wound)
    cairo_rectangle (cr, point->x - DOT, point->y - DOT, 2 * DOT, 2 * DOT);
  else
    cairo_arc (cr, point->x, point->y, DOT, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_curve (cairo_t *cr, const SwPlacedCurve *curve, const SwCourseStyle *style)
{
  static const double dashes[] = { 4, 3 };

  sw_paint_colour (cr, curve->wound ? &style->caution : &style->text);
  cairo_new_path (cr);
  for (guint i = 0; i < curve->points->len; i++)
    {
      const SwPlacedPoint *point = &g_array_index (curve->points, SwPlacedPoint, i);

      cairo_line_to (cr, point->x, point->y);
    }
  cairo_set_line_width (cr, CURVE);
  cairo_set_dash (cr, dashes, curve->wound ? G_N_ELEMENTS (dashes) : 0, 0);
  cairo_stroke (cr);
  for (guint i = 0; i < curve->points->len; i++)
    draw_point (cr, &g_array_index (curve->points, SwPlacedPoint, i), curve->wound);
}

void
sw_course_draw_ground (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  cairo_save (cr);
  draw_spans (cr, layout, style);
  draw_days (cr, layout, style);
  draw_lanes (cr, layout, style);
  draw_now (cr, layout, style);
  for (guint i = 0; i < layout->curves->len; i++)
    draw_curve (cr, &g_array_index (layout->curves, SwPlacedCurve, i), style);
  draw_labels (cr, layout, style);
  cairo_restore (cr);
}

void
sw_course_draw (cairo_t *cr, const SwCourseLayout *layout, const SwCourseStyle *style)
{
  sw_course_draw_ground (cr, layout, style);
  for (guint i = 0; i < layout->marks->len; i++)
    {
      const SwPlacedMark *mark = &g_array_index (layout->marks, SwPlacedMark, i);

      sw_mark_shape_draw (cr, mark->mark->state, mark->mark->outside, mark->x, mark->y, mark->radius, style);
    }
}
