/* sw-chart-layout.c: where everything of a chart lies
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-chart-layout.h"

#include <math.h>

/* In lines of text: a bar's row, the plot of a curve, the gap under the axis. */
#define ROW_LINES 1.7
#define PLOT_LINES 13
#define GAP_LINES 0.6

/* Labels beside the plot take at most this part of the whole width. */
#define LABEL_PART 0.28

#define MOST_Y_TICKS 6
#define MOST_X_TICKS 8

/* --- ticks --- */

double
sw_chart_nice_step (double span, guint most)
{
  double rough = span / most;
  double power = pow (10, floor (log10 (rough)));

  for (guint i = 0; i < 3; i++)
    {
      static const double factors[] = { 1, 2, 5 };

      if (factors[i] * power >= rough * (1 - 1e-9))
        return factors[i] * power;
    }
  return 10 * power;
}

static void
clear_tick (gpointer data)
{
  SwChartTick *tick = data;

  g_free (tick->text);
}

static char *
tick_text (double value, double step, gboolean percent)
{
  double shown = percent ? 100 * value : value, by = percent ? 100 * step : step;
  int digits = by >= 1 - 1e-9 ? 0 : (int) ceil (-log10 (by) - 1e-9);

  return g_strdup_printf ("%.*f", digits, fabs (shown) < by / 2 ? 0.0 : shown);
}

/* Widens lo and hi to whole steps and ticks them all. */
static void
tick_axis (GArray *ticks, double *lo, double *hi, guint most, gboolean percent)
{
  double step = sw_chart_nice_step (*hi > *lo ? *hi - *lo : 1, most);
  gint64 first = (gint64) floor (*lo / step + 1e-9), last = (gint64) ceil (*hi / step - 1e-9);

  last = MAX (last, first + 1);
  for (gint64 i = first; i <= last; i++)
    {
      SwChartTick tick = { (double) i * step, 0, tick_text ((double) i * step, step, percent) };

      g_array_append_val (ticks, tick);
    }
  *lo = (double) first * step;
  *hi = (double) last * step;
}

static void
take_ticks (SwChartLayout *layout, const SwChart *chart)
{
  for (guint i = 0; i < chart->ticks->len; i++)
    {
      double value = g_array_index (chart->ticks, double, i);
      SwChartTick tick = { value, 0, tick_text (value, 1, FALSE) };

      g_array_append_val (layout->x_ticks, tick);
      layout->x_hi = MAX (layout->x_hi, value);
    }
}

/* --- edges --- */

static void
widen_to_lines (SwChartLayout *layout, const SwChart *chart)
{
  for (guint i = 0; i < chart->lines->len; i++)
    {
      const SwChartLine *line = chart->lines->pdata[i];

      layout->y_lo = fmin (layout->y_lo, fmin (line->y, line->lo));
      layout->y_hi = fmax (layout->y_hi, fmax (line->y, line->hi));
    }
}

static void
make_ticks (SwChartLayout *layout, const SwChart *chart)
{
  layout->x_lo = chart->x_lo;
  layout->x_hi = chart->x_hi;
  layout->y_lo = chart->y_lo;
  layout->y_hi = chart->y_hi;
  if (layout->rows)
    {
      layout->x_lo = chart->y_lo;
      layout->x_hi = chart->y_hi;
      tick_axis (layout->x_ticks, &layout->x_lo, &layout->x_hi, MOST_X_TICKS, chart->percent);
      return;
    }
  widen_to_lines (layout, chart);
  tick_axis (layout->y_ticks, &layout->y_lo, &layout->y_hi, MOST_Y_TICKS, chart->percent);
  if (chart->ticks->len > 0)
    take_ticks (layout, chart);
  else if (chart->kind != SW_CHART_COLUMNS)
    tick_axis (layout->x_ticks, &layout->x_lo, &layout->x_hi, MOST_X_TICKS, FALSE);
}

static double
text_width (const SwCourseStyle *style, const char *text)
{
  return text ? (double) (g_utf8_strlen (text, -1) + 1) * style->digit_width : 0;
}

static double
widest_series (const SwChart *chart, const SwCourseStyle *style)
{
  double widest = 0;

  for (guint i = 0; i < chart->series->len; i++)
    widest = MAX (widest, text_width (style, ((const SwChartSeries *) chart->series->pdata[i])->label));
  return widest;
}

static double
widest_line (const SwChart *chart, const SwCourseStyle *style)
{
  double widest = 0;

  for (guint i = 0; i < chart->lines->len; i++)
    widest = MAX (widest, text_width (style, ((const SwChartLine *) chart->lines->pdata[i])->label));
  return widest;
}

static double
widest_tick (const GArray *ticks, const SwCourseStyle *style)
{
  double widest = 0;

  for (guint i = 0; i < ticks->len; i++)
    widest = MAX (widest, text_width (style, g_array_index (ticks, SwChartTick, i).text));
  return widest;
}

static guint
count_rows (const SwChart *chart)
{
  guint rows = 0;

  for (guint i = 0; i < chart->series->len; i++)
    rows += ((const SwChartSeries *) chart->series->pdata[i])->counts->len > 0;
  return rows;
}

/* Ticks' numbers and the axis title under the plot, then the counts. */
static double
height_below (const SwChart *chart, const SwCourseStyle *style)
{
  gboolean titled = chart->x_title != NULL || chart->kind == SW_CHART_BARS;
  double lines = GAP_LINES + (chart->kind == SW_CHART_COLUMNS ? 0 : 1) + (titled ? 1.2 : 0) + 1.1 * count_rows (chart);

  return lines * style->line_height;
}

/* The title of the y axis stands over the plot, where it is read without turning the head. */
static double
height_above (const SwChart *chart, const SwCourseStyle *style)
{
  return (chart->kind == SW_CHART_BARS || chart->y_title == NULL ? 0.5 : 1.6) * style->line_height;
}

double
sw_chart_height (const SwChart *chart, const SwCourseStyle *style)
{
  double plot = chart->kind == SW_CHART_BARS ? ROW_LINES * chart->series->len : PLOT_LINES;

  return plot * style->line_height + height_above (chart, style) + height_below (chart, style);
}

static void
place_plot (SwChartLayout *layout, const SwChart *chart, const SwCourseStyle *style)
{
  double most = LABEL_PART * layout->width, gap = style->digit_width;
  double beside = layout->rows || layout->n_count_rows > 0 ? MIN (most, widest_series (chart, style)) : 0;
  double right = chart->series->len > 1 && !layout->rows ? widest_series (chart, style) : 0;

  layout->left = MAX (beside, widest_tick (layout->y_ticks, style)) + gap;
  layout->right = layout->width - gap - MIN (most, MAX (right, widest_line (chart, style)));
  if (layout->rows)
    layout->right = layout->width - MIN (most, 22 * style->digit_width);
  layout->right = MAX (layout->right, layout->left + 1);
  layout->top = height_above (chart, style);
  layout->bottom = MAX (layout->height - height_below (chart, style), layout->top + 1);
  layout->row_height = layout->rows ? (layout->bottom - layout->top) / MAX (chart->series->len, 1) : 0;
  layout->count_top = layout->height - (1.1 * layout->n_count_rows - 0.55) * style->line_height;
}

static void
place_ticks (SwChartLayout *layout)
{
  for (guint i = 0; i < layout->x_ticks->len; i++)
    {
      SwChartTick *tick = &g_array_index (layout->x_ticks, SwChartTick, i);

      tick->at = sw_chart_x (layout, tick->value);
    }
  for (guint i = 0; i < layout->y_ticks->len; i++)
    {
      SwChartTick *tick = &g_array_index (layout->y_ticks, SwChartTick, i);

      tick->at = sw_chart_y (layout, tick->value);
    }
}

/* --- labels --- */

static void
add_label (SwChartLayout *layout, double x, double y, const char *text, int series)
{
  SwChartLabel label = { x, y, layout->width - x, text, series };

  if (text != NULL && *text != '\0')
    g_array_append_val (layout->labels, label);
}

static int
by_height (gconstpointer a, gconstpointer b)
{
  double x = ((const SwChartLabel *) a)->y, y = ((const SwChartLabel *) b)->y;

  return (x > y) - (x < y);
}

/* Labels that would cover each other are pushed apart, downwards, then all back up into the plot. */
static void
spread_labels (SwChartLayout *layout, double step)
{
  double below = layout->bottom;

  g_array_sort (layout->labels, by_height);
  for (guint i = 1; i < layout->labels->len; i++)
    {
      SwChartLabel *label = &g_array_index (layout->labels, SwChartLabel, i);

      label->y = MAX (label->y, g_array_index (layout->labels, SwChartLabel, i - 1).y + step);
    }
  for (guint i = layout->labels->len; i-- > 0;)
    {
      SwChartLabel *label = &g_array_index (layout->labels, SwChartLabel, i);

      label->y = MIN (label->y, below);
      below = label->y - step;
    }
}

static void
place_labels (SwChartLayout *layout, const SwChart *chart, const SwCourseStyle *style)
{
  double x = layout->right + style->digit_width / 2;

  for (guint i = 0; chart->series->len > 1 && i < chart->series->len; i++)
    {
      const SwChartSeries *series = chart->series->pdata[i];
      double last = series->points->len > 0
                        ? g_array_index (series->points, SwChartPoint, series->points->len - 1).y : layout->y_lo;

      add_label (layout, x, sw_chart_y (layout, last), series->label, (int) i);
    }
  for (guint i = 0; i < chart->lines->len; i++)
    {
      const SwChartLine *line = chart->lines->pdata[i];

      add_label (layout, x, sw_chart_y (layout, line->y), line->label, -1);
    }
  spread_labels (layout, style->line_height);
}

/* --- the layout --- */

double
sw_chart_x (const SwChartLayout *layout, double value)
{
  double part = (value - layout->x_lo) / (layout->x_hi - layout->x_lo);

  return layout->left + CLAMP (part, 0, 1) * (layout->right - layout->left);
}

double
sw_chart_y (const SwChartLayout *layout, double value)
{
  double part = (value - layout->y_lo) / (layout->y_hi - layout->y_lo);

  return layout->bottom - CLAMP (part, 0, 1) * (layout->bottom - layout->top);
}

double
sw_chart_row_y (const SwChartLayout *layout, guint row)
{
  return layout->top + (row + 0.5) * layout->row_height;
}

static GArray *
ticks_new (void)
{
  GArray *ticks = g_array_new (FALSE, FALSE, sizeof (SwChartTick));

  g_array_set_clear_func (ticks, clear_tick);
  return ticks;
}

SwChartLayout *
sw_chart_layout_new (const SwChart *chart, const SwCourseStyle *style, double width, double height)
{
  SwChartLayout *layout = g_new0 (SwChartLayout, 1);

  layout->width = width;
  layout->height = height;
  layout->rows = chart->kind == SW_CHART_BARS;
  layout->n_count_rows = count_rows (chart);
  layout->x_ticks = ticks_new ();
  layout->y_ticks = ticks_new ();
  layout->labels = g_array_new (FALSE, FALSE, sizeof (SwChartLabel));
  make_ticks (layout, chart);
  if (layout->x_hi <= layout->x_lo)
    layout->x_hi = layout->x_lo + 1;
  place_plot (layout, chart, style);
  place_ticks (layout);
  if (!layout->rows)
    place_labels (layout, chart, style);
  return layout;
}

void
sw_chart_layout_free (SwChartLayout *layout)
{
  if (layout == NULL)
    return;
  g_array_unref (layout->x_ticks);
  g_array_unref (layout->y_ticks);
  g_array_unref (layout->labels);
  g_free (layout);
}
