/* sw-chart.h: a chart as values, before any layout
 *
 * Service makes it of the outcomes; render lays it out and draws it on screen, paper and PNG; tables and exports read
 * the same values. Words are ready to show (translated). NaN: there is no value.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_CHART_BARS,    /* one point a series: a share with its limits; x is not used */
  SW_CHART_STEPS,   /* y holds from x on; limits as a band */
  SW_CHART_POINTS,  /* single readings */
  SW_CHART_LINE,    /* a running sum */
  SW_CHART_COLUMNS, /* thin columns side by side, one a tumour */
} SwChartKind;

/* In a chart of steps, a step that happened somewhere from x to x_to; elsewhere x_to = x. */
typedef struct
{
  double x, x_to;
  double y;
  double lo, hi;
} SwChartPoint;

/* How many are still followed at x: the numbers under the axis. */
typedef struct
{
  double x;
  gint64 n;
} SwChartCount;

typedef struct
{
  char *label;
  gint64 n;       /* behind the series */
  GArray *points; /* SwChartPoint, by x */
  GArray *marks;  /* SwChartPoint: censored, at their height on the curve; or, with y NaN, the band's limits at x */
  GArray *counts; /* SwChartCount, at the chart's ticks */
} SwChartSeries;

/* A level line across the chart, with the band of its own limits if it has any. */
typedef struct
{
  double y;
  double lo, hi;
  char *label;
} SwChartLine;

typedef struct
{
  SwChartKind kind;
  char *code;       /* names files: "healing" */
  char *title;
  char *x_title;    /* NULL: no axis title */
  char *y_title;
  gboolean percent; /* y is a share: shown in percent */
  double x_lo, x_hi, y_lo, y_hi; /* what the axes must show at least */
  GArray *ticks;    /* double: wanted on the x axis; empty: the layout chooses */
  GPtrArray *series; /* SwChartSeries */
  GPtrArray *lines;  /* SwChartLine */
  char *words;      /* the chart in words */
} SwChart;

SwChart *sw_chart_new (SwChartKind kind, const char *code, const char *title);
void sw_chart_free (SwChart *chart);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwChart, sw_chart_free)

/* Each adds at the end; what it hands back is the chart's. Texts are copied. */
SwChartSeries *sw_chart_add_series (SwChart *chart, const char *label, gint64 n);
void sw_chart_series_point (SwChartSeries *series, double x, double y, double lo, double hi);
void sw_chart_series_step (SwChartSeries *series, double x, double x_to, double y, double lo, double hi);
void sw_chart_series_mark (SwChartSeries *series, double x, double y);
void sw_chart_series_count (SwChartSeries *series, double x, gint64 n);
void sw_chart_add_line (SwChart *chart, const char *label, double y, double lo, double hi);
void sw_chart_add_tick (SwChart *chart, double x);

G_END_DECLS
