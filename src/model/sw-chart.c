/* sw-chart.c: a chart as values
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-chart.h"

static void
series_free (gpointer data)
{
  SwChartSeries *series = data;

  g_free (series->label);
  g_array_unref (series->points);
  g_array_unref (series->marks);
  g_array_unref (series->counts);
  g_free (series);
}

static void
line_free (gpointer data)
{
  SwChartLine *line = data;

  g_free (line->label);
  g_free (line);
}

SwChart *
sw_chart_new (SwChartKind kind, const char *code, const char *title)
{
  SwChart *chart = g_new0 (SwChart, 1);

  chart->kind = kind;
  chart->code = g_strdup (code);
  chart->title = g_strdup (title);
  chart->ticks = g_array_new (FALSE, FALSE, sizeof (double));
  chart->series = g_ptr_array_new_with_free_func (series_free);
  chart->lines = g_ptr_array_new_with_free_func (line_free);
  return chart;
}

void
sw_chart_free (SwChart *chart)
{
  if (chart == NULL)
    return;
  g_free (chart->code);
  g_free (chart->title);
  g_free (chart->x_title);
  g_free (chart->y_title);
  g_free (chart->words);
  g_array_unref (chart->ticks);
  g_ptr_array_unref (chart->series);
  g_ptr_array_unref (chart->lines);
  g_free (chart);
}

SwChartSeries *
sw_chart_add_series (SwChart *chart, const char *label, gint64 n)
{
  SwChartSeries *series = g_new0 (SwChartSeries, 1);

  series->label = g_strdup (label);
  series->n = n;
  series->points = g_array_new (FALSE, FALSE, sizeof (SwChartPoint));
  series->marks = g_array_new (FALSE, FALSE, sizeof (SwChartPoint));
  series->counts = g_array_new (FALSE, FALSE, sizeof (SwChartCount));
  g_ptr_array_add (chart->series, series);
  return series;
}

void
sw_chart_series_step (SwChartSeries *series, double x, double x_to, double y, double lo, double hi)
{
  SwChartPoint point = { x, x_to, y, lo, hi };

  g_array_append_val (series->points, point);
}

void
sw_chart_series_point (SwChartSeries *series, double x, double y, double lo, double hi)
{
  sw_chart_series_step (series, x, x, y, lo, hi);
}

void
sw_chart_series_mark (SwChartSeries *series, double x, double y)
{
  SwChartPoint mark = { x, x, y, y, y };

  g_array_append_val (series->marks, mark);
}

void
sw_chart_series_count (SwChartSeries *series, double x, gint64 n)
{
  SwChartCount count = { x, n };

  g_array_append_val (series->counts, count);
}

void
sw_chart_add_line (SwChart *chart, const char *label, double y, double lo, double hi)
{
  SwChartLine *line = g_new0 (SwChartLine, 1);

  line->y = y;
  line->lo = lo;
  line->hi = hi;
  line->label = g_strdup (label);
  g_ptr_array_add (chart->lines, line);
}

void
sw_chart_add_tick (SwChart *chart, double x)
{
  g_array_append_val (chart->ticks, x);
}
