/* sw-chart-draw.c: axes, lines and labels of a chart, and its PNG
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-chart-private.h"
#include "sw-paint-private.h"

#include <gio/gio.h>
#include <math.h>
#include <pango/pangocairo.h>

/* A PNG is so many pixels wide, at so many pixels a unit. */
#define PNG_WIDTH 760
#define PNG_SCALE 2
#define PNG_MARGIN 18
#define PNG_FONT "DejaVu Sans, Sans 9"

/* --- axes --- */

static void
draw_rules (const SwChartPen *pen)
{
  const SwChartLayout *layout = pen->layout;

  cairo_set_line_width (pen->cr, 1);
  sw_paint_colour (pen->cr, &pen->style->rule);
  for (guint i = 0; i < layout->y_ticks->len; i++)
    {
      double y = rint (g_array_index (layout->y_ticks, SwChartTick, i).at) + 0.5;

      cairo_move_to (pen->cr, layout->left, y);
      cairo_line_to (pen->cr, layout->right, y);
    }
  for (guint i = 0; i < layout->x_ticks->len; i++)
    {
      double x = rint (g_array_index (layout->x_ticks, SwChartTick, i).at) + 0.5;

      cairo_move_to (pen->cr, x, layout->rows ? layout->top : layout->bottom);
      cairo_line_to (pen->cr, x, layout->bottom + pen->style->line_height * 0.25);
    }
  cairo_stroke (pen->cr);
}

static void
draw_tick_texts (const SwChartPen *pen)
{
  const SwChartLayout *layout = pen->layout;
  double under = layout->bottom + pen->style->line_height * 0.85;

  for (guint i = 0; i < layout->y_ticks->len; i++)
    {
      const SwChartTick *tick = &g_array_index (layout->y_ticks, SwChartTick, i);

      sw_paint_text (pen->cr, pen->style, &pen->style->quiet, tick->text, layout->left - pen->style->digit_width / 2,
                     tick->at, 1, layout->left);
    }
  for (guint i = 0; i < layout->x_ticks->len; i++)
    {
      const SwChartTick *tick = &g_array_index (layout->x_ticks, SwChartTick, i);

      sw_paint_text (pen->cr, pen->style, &pen->style->quiet, tick->text, tick->at, under, 0.5, 80);
    }
}

static void
draw_titles (const SwChartPen *pen)
{
  const SwChartLayout *layout = pen->layout;
  const char *below = layout->rows ? pen->chart->y_title : pen->chart->x_title;
  double under = layout->bottom + pen->style->line_height * 2.0, width = layout->right - layout->left;

  if (below != NULL)
    sw_paint_text (pen->cr, pen->style, &pen->style->quiet, below, layout->left, under, 0, MAX (width, 1));
  if (!layout->rows && pen->chart->y_title != NULL)
    sw_paint_text (pen->cr, pen->style, &pen->style->quiet, pen->chart->y_title, 0, pen->style->line_height * 0.6, 0,
                   layout->width);
}

/* --- level lines and labels --- */

static void
draw_levels (const SwChartPen *pen)
{
  const double dash[] = { 5, 3 };
  const SwChartLayout *layout = pen->layout;

  for (guint i = 0; i < pen->chart->lines->len; i++)
    {
      const SwChartLine *line = pen->chart->lines->pdata[i];
      double y = rint (sw_chart_y (layout, line->y)) + 0.5;

      if (isfinite (line->lo) && isfinite (line->hi))
        {
          double top = sw_chart_y (layout, line->hi);

          cairo_set_source_rgba (pen->cr, pen->style->accent.red, pen->style->accent.green, pen->style->accent.blue,
                                 0.12);
          cairo_rectangle (pen->cr, layout->left, top, layout->right - layout->left,
                           sw_chart_y (layout, line->lo) - top);
          cairo_fill (pen->cr);
        }
      sw_paint_colour (pen->cr, &pen->style->accent);
      cairo_set_dash (pen->cr, dash, G_N_ELEMENTS (dash), 0);
      cairo_move_to (pen->cr, layout->left, y);
      cairo_line_to (pen->cr, layout->right, y);
      cairo_stroke (pen->cr);
      cairo_set_dash (pen->cr, NULL, 0, 0);
    }
}

static void
draw_labels (const SwChartPen *pen)
{
  for (guint i = 0; i < pen->layout->labels->len; i++)
    {
      const SwChartLabel *label = &g_array_index (pen->layout->labels, SwChartLabel, i);

      sw_paint_text (pen->cr, pen->style, label->series < 0 ? &pen->style->accent : &pen->style->text, label->text,
                     label->x, label->y, 0, label->most);
    }
}

static void
draw_marks (const SwChartPen *pen)
{
  switch (pen->chart->kind)
    {
    case SW_CHART_BARS:
      sw_chart_draw_bars (pen);
      break;
    case SW_CHART_STEPS:
      sw_chart_draw_steps (pen);
      break;
    case SW_CHART_POINTS:
      sw_chart_draw_points (pen);
      break;
    case SW_CHART_LINE:
      sw_chart_draw_line (pen);
      break;
    case SW_CHART_COLUMNS:
      sw_chart_draw_columns (pen);
      break;
    }
}

void
sw_chart_draw (cairo_t *cr, const SwChart *chart, const SwChartLayout *layout, const SwCourseStyle *style)
{
  SwChartPen pen = { cr, chart, layout, style };

  cairo_save (cr);
  draw_rules (&pen);
  draw_tick_texts (&pen);
  draw_titles (&pen);
  draw_levels (&pen);
  if (chart->series->len > 0)
    draw_marks (&pen);
  draw_labels (&pen);
  cairo_restore (cr);
}

/* --- PNG --- */

static PangoLayout *
words_layout (cairo_t *cr, const SwCourseStyle *style, const char *words, double width)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);

  pango_layout_set_font_description (layout, style->font);
  pango_layout_set_width (layout, pango_units_from_double (width));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text (layout, words ? words : "", -1);
  return layout;
}

static void
draw_page (cairo_t *cr, const SwChart *chart, const SwChartLayout *layout, const SwCourseStyle *style,
           PangoLayout *words)
{
  double line = style->line_height;

  sw_paint_colour (cr, &style->ground);
  cairo_paint (cr);
  cairo_translate (cr, PNG_MARGIN, PNG_MARGIN);
  sw_paint_text (cr, style, &style->text, chart->title, 0, line / 2, 0, layout->width);
  cairo_translate (cr, 0, 2 * line);
  sw_chart_draw (cr, chart, layout, style);
  cairo_translate (cr, 0, layout->height + line / 2);
  sw_paint_colour (cr, &style->quiet);
  cairo_move_to (cr, 0, 0);
  pango_cairo_show_layout (cr, words);
}

static gboolean
write_surface (cairo_surface_t *surface, const char *path, GError **error)
{
  cairo_status_t status = cairo_surface_write_to_png (surface, path);

  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", path, cairo_status_to_string (status));
  return FALSE;
}

static cairo_t *
canvas (double width, double height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (width * PNG_SCALE),
                                                         (int) ceil (height * PNG_SCALE));
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  cairo_scale (cr, PNG_SCALE, PNG_SCALE);
  return cr;
}

static void
measure (SwCourseStyle *style, cairo_t *cr)
{
  PangoContext *context = pango_cairo_create_context (cr);

  sw_course_style_measure (style, context);
  g_object_unref (context);
}

gboolean
sw_chart_write_png (const SwChart *chart, const char *path, GError **error)
{
  g_autoptr (SwCourseStyle) style = sw_course_style_new_paper (PNG_FONT);
  cairo_t *cr = canvas (1, 1);
  double inner = PNG_WIDTH - 2 * PNG_MARGIN;
  g_autoptr (SwChartLayout) layout = NULL;
  g_autoptr (PangoLayout) words = NULL;
  gboolean done;
  int words_height;

  measure (style, cr);
  words = words_layout (cr, style, chart->words, inner);
  pango_layout_get_pixel_size (words, NULL, &words_height);
  cairo_destroy (cr);
  layout = sw_chart_layout_new (chart, style, inner, sw_chart_height (chart, style));
  cr = canvas (PNG_WIDTH, layout->height + 2.5 * style->line_height + words_height + 2 * PNG_MARGIN);
  pango_cairo_update_layout (cr, words);
  draw_page (cr, chart, layout, style, words);
  done = write_surface (cairo_get_target (cr), path, error);
  cairo_destroy (cr);
  return done;
}
