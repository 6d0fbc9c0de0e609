/* sw-chart-marks.c: bars, curves, points, a running sum, columns
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-chart-private.h"
#include "sw-paint-private.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <math.h>

/* More bands than this over each other can't be told apart: curves of more groups go without. */
#define MOST_BANDS 2

static const SwChartPoint *
point_at (const GArray *points, guint i)
{
  return &g_array_index (points, SwChartPoint, i);
}

static void
set_faint (cairo_t *cr, const SwColour *colour, double alpha)
{
  cairo_set_source_rgba (cr, colour->red, colour->green, colour->blue, colour->alpha * alpha);
}

/* --- bars --- */

/* A quiet bar up to the estimate, a dot on it, and a whisker over its limits. */
static void
draw_bar (const SwChartPen *pen, guint row)
{
  const SwChartSeries *series = pen->chart->series->pdata[row];
  const SwChartPoint *point = point_at (series->points, 0);
  double y = sw_chart_row_y (pen->layout, row), half = pen->layout->row_height * 0.28;
  double x = sw_chart_x (pen->layout, point->y), end = half * 0.6;

  if (!isfinite (point->y))
    return;
  set_faint (pen->cr, &pen->style->accent, 0.25);
  cairo_rectangle (pen->cr, pen->layout->left, y - half, x - pen->layout->left, 2 * half);
  cairo_fill (pen->cr);
  sw_paint_colour (pen->cr, &pen->style->text);
  cairo_set_line_width (pen->cr, 1.2);
  cairo_move_to (pen->cr, sw_chart_x (pen->layout, point->lo), y);
  cairo_line_to (pen->cr, sw_chart_x (pen->layout, point->hi), y);
  for (guint i = 0; i < 2; i++)
    {
      double limit = sw_chart_x (pen->layout, i == 0 ? point->lo : point->hi);

      cairo_move_to (pen->cr, limit, y - end);
      cairo_line_to (pen->cr, limit, y + end);
    }
  cairo_stroke (pen->cr);
  cairo_arc (pen->cr, x, y, 3, 0, 2 * G_PI);
  cairo_fill (pen->cr);
}

static void
label_bar (const SwChartPen *pen, guint row)
{
  const SwChartSeries *series = pen->chart->series->pdata[row];
  const SwChartPoint *point = point_at (series->points, 0);
  double y = sw_chart_row_y (pen->layout, row), gap = pen->style->digit_width;
  g_autofree char *text = isfinite (point->y) ? g_strdup_printf (_("%.0f %% of %" PRId64), 100 * point->y, series->n)
                                              : g_strdup (_("none yet"));

  sw_paint_text (pen->cr, pen->style, &pen->style->text, series->label, pen->layout->left - gap, y, 1,
                 pen->layout->left - gap);
  sw_paint_text (pen->cr, pen->style, &pen->style->quiet, text, pen->layout->right + gap, y, 0,
                 pen->layout->width - pen->layout->right - gap);
}

void
sw_chart_draw_bars (const SwChartPen *pen)
{
  for (guint i = 0; i < pen->chart->series->len; i++)
    {
      draw_bar (pen, i);
      label_bar (pen, i);
    }
}

/* --- curves --- */

static void
set_dash (cairo_t *cr, guint series)
{
  static const double dashes[][4]
      = { { 1, 0, 1, 0 }, { 6, 3, 6, 3 }, { 2, 3, 2, 3 }, { 8, 3, 2, 3 }, { 12, 4, 12, 4 }, { 4, 2, 1, 2 } };

  if (series % G_N_ELEMENTS (dashes) == 0)
    cairo_set_dash (cr, NULL, 0, 0);
  else
    cairo_set_dash (cr, dashes[series % G_N_ELEMENTS (dashes)], 4, 0);
}

/* The band of a curve with limits at its own steps; where a limit is absent the last one goes on. */
static void
fill_step_band (const SwChartPen *pen, const SwChartSeries *series, double end)
{
  double lo = NAN, hi = NAN;

  for (guint i = 0; i < series->points->len; i++)
    {
      const SwChartPoint *point = point_at (series->points, i);
      double next = i + 1 < series->points->len ? point_at (series->points, i + 1)->x : end;

      lo = isfinite (point->lo) ? point->lo : lo;
      hi = isfinite (point->hi) ? point->hi : hi;
      if (isfinite (lo) && isfinite (hi))
        cairo_rectangle (pen->cr, sw_chart_x (pen->layout, point->x), sw_chart_y (pen->layout, hi),
                         sw_chart_x (pen->layout, next) - sw_chart_x (pen->layout, point->x),
                         sw_chart_y (pen->layout, lo) - sw_chart_y (pen->layout, hi));
    }
  cairo_fill (pen->cr);
}

/* The band whose limits are known at points of their own. */
static void
fill_marked_band (const SwChartPen *pen, const SwChartSeries *series)
{
  for (guint i = 0; i < series->marks->len; i++)
    cairo_line_to (pen->cr, sw_chart_x (pen->layout, point_at (series->marks, i)->x),
                   sw_chart_y (pen->layout, point_at (series->marks, i)->lo));
  for (guint i = series->marks->len; i-- > 0;)
    cairo_line_to (pen->cr, sw_chart_x (pen->layout, point_at (series->marks, i)->x),
                   sw_chart_y (pen->layout, point_at (series->marks, i)->hi));
  cairo_close_path (pen->cr);
  cairo_fill (pen->cr);
}

static gboolean
has_marked_band (const SwChartSeries *series)
{
  return series->marks->len > 0 && isnan (point_at (series->marks, 0)->y);
}

/* Where between two visits a step lies is not known: that stretch is a box from the lower to the upper height. */
static void
fill_unknown (const SwChartPen *pen, const SwChartSeries *series)
{
  for (guint i = 1; i < series->points->len; i++)
    {
      const SwChartPoint *before = point_at (series->points, i - 1), *point = point_at (series->points, i);

      if (point->x_to > point->x)
        cairo_rectangle (pen->cr, sw_chart_x (pen->layout, point->x), sw_chart_y (pen->layout, point->y),
                         sw_chart_x (pen->layout, point->x_to) - sw_chart_x (pen->layout, point->x),
                         sw_chart_y (pen->layout, before->y) - sw_chart_y (pen->layout, point->y));
    }
  cairo_fill (pen->cr);
}

/* Across an unknown stretch the line runs aslant, only to lead the eye. */
static void
stroke_steps (const SwChartPen *pen, const SwChartSeries *series, double end)
{
  double y = 0;

  for (guint i = 0; i < series->points->len; i++)
    {
      const SwChartPoint *point = point_at (series->points, i);
      double x = sw_chart_x (pen->layout, point->x);

      if (i > 0)
        cairo_line_to (pen->cr, x, y);
      y = sw_chart_y (pen->layout, point->y);
      cairo_line_to (pen->cr, sw_chart_x (pen->layout, point->x_to), y);
    }
  cairo_line_to (pen->cr, sw_chart_x (pen->layout, end), y);
  cairo_stroke (pen->cr);
}

static void
stroke_censored (const SwChartPen *pen, const SwChartSeries *series)
{
  double half = pen->style->line_height * 0.22;

  for (guint i = 0; i < series->marks->len; i++)
    {
      const SwChartPoint *mark = point_at (series->marks, i);
      double x = sw_chart_x (pen->layout, mark->x), y = sw_chart_y (pen->layout, mark->y);

      cairo_move_to (pen->cr, x, y - half);
      cairo_line_to (pen->cr, x, y + half);
    }
  cairo_stroke (pen->cr);
}

static double
end_of (const SwChartSeries *series)
{
  double end = point_at (series->points, series->points->len - 1)->x_to;

  for (guint i = 0; i < series->marks->len; i++)
    end = MAX (end, point_at (series->marks, i)->x);
  return end;
}

static void
draw_curve (const SwChartPen *pen, guint index)
{
  const SwChartSeries *series = pen->chart->series->pdata[index];
  double end = end_of (series);

  if (pen->chart->series->len <= MOST_BANDS)
    {
      set_faint (pen->cr, &pen->style->accent, 0.13);
      if (has_marked_band (series))
        fill_marked_band (pen, series);
      else
        fill_step_band (pen, series, end);
    }
  set_faint (pen->cr, &pen->style->text, 0.16);
  fill_unknown (pen, series);
  sw_paint_colour (pen->cr, &pen->style->text);
  cairo_set_line_width (pen->cr, 1.4);
  set_dash (pen->cr, index);
  stroke_steps (pen, series, end);
  cairo_set_dash (pen->cr, NULL, 0, 0);
  cairo_set_line_width (pen->cr, 1);
  if (!has_marked_band (series))
    stroke_censored (pen, series);
}

static void
draw_counts (const SwChartPen *pen)
{
  guint row = 0;

  for (guint i = 0; i < pen->chart->series->len; i++)
    {
      const SwChartSeries *series = pen->chart->series->pdata[i];
      double y = pen->layout->count_top + 1.1 * row * pen->style->line_height, gap = pen->style->digit_width;

      if (series->counts->len == 0)
        continue;
      row++;
      sw_paint_text (pen->cr, pen->style, &pen->style->quiet, series->label, pen->layout->left - 2 * gap, y, 1,
                     pen->layout->left - 2 * gap);
      for (guint k = 0; k < series->counts->len; k++)
        {
          const SwChartCount *count = &g_array_index (series->counts, SwChartCount, k);
          g_autofree char *text = g_strdup_printf ("%" PRId64, count->n);

          sw_paint_text (pen->cr, pen->style, &pen->style->text, text, sw_chart_x (pen->layout, count->x), y, 0.5, 60);
        }
    }
}

void
sw_chart_draw_steps (const SwChartPen *pen)
{
  for (guint i = 0; i < pen->chart->series->len; i++)
    draw_curve (pen, i);
  draw_counts (pen);
}

/* --- points, a running sum, columns --- */

void
sw_chart_draw_points (const SwChartPen *pen)
{
  const SwChartSeries *series = pen->chart->series->pdata[0];

  set_faint (pen->cr, &pen->style->text, 0.6);
  for (guint i = 0; i < series->points->len; i++)
    {
      const SwChartPoint *point = point_at (series->points, i);

      cairo_arc (pen->cr, sw_chart_x (pen->layout, point->x), sw_chart_y (pen->layout, point->y), 2, 0, 2 * G_PI);
      cairo_fill (pen->cr);
    }
}

void
sw_chart_draw_line (const SwChartPen *pen)
{
  const SwChartSeries *series = pen->chart->series->pdata[0];

  sw_paint_colour (pen->cr, &pen->style->text);
  cairo_set_line_width (pen->cr, 1.4);
  for (guint i = 0; i < series->points->len; i++)
    cairo_line_to (pen->cr, sw_chart_x (pen->layout, point_at (series->points, i)->x),
                   sw_chart_y (pen->layout, point_at (series->points, i)->y));
  cairo_stroke (pen->cr);
}

void
sw_chart_draw_columns (const SwChartPen *pen)
{
  const SwChartSeries *series = pen->chart->series->pdata[0];
  double zero = sw_chart_y (pen->layout, 0),
         room = (pen->layout->right - pen->layout->left) / MAX (series->points->len, 1);
  double width = MIN (room > 3 ? room * 0.8 : room, 3 * pen->style->line_height);

  set_faint (pen->cr, &pen->style->accent, 0.75);
  for (guint i = 0; i < series->points->len; i++)
    {
      double y = sw_chart_y (pen->layout, point_at (series->points, i)->y);

      cairo_rectangle (pen->cr, pen->layout->left + i * room + (room - width) / 2, MIN (y, zero), width,
                       MAX (fabs (y - zero), 1));
    }
  cairo_fill (pen->cr);
}
