/* sw-chart-view.c: one chart of the outcomes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-chart-view.h"

#include "sw-chart-draw.h"
#include "sw-style.h"

#define LEAST_WIDTH 360
#define USUAL_WIDTH 620

struct _SwChartView
{
  GtkWidget parent_instance;

  /* owned */
  SwOutcomeSection *section;
  SwCourseStyle *style;

  guint index;
};

G_DEFINE_FINAL_TYPE (SwChartView, sw_chart_view, GTK_TYPE_WIDGET)

static const SwChart *
chart_of (SwChartView *self)
{
  return self->section->charts->pdata[self->index];
}

static const SwCourseStyle *
style_of (SwChartView *self)
{
  if (self->style == NULL)
    self->style = sw_style_course (GTK_WIDGET (self));
  return self->style;
}

static void
sw_chart_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                       int *minimum_baseline, int *natural_baseline)
{
  SwChartView *self = SW_CHART_VIEW (widget);

  *minimum = LEAST_WIDTH;
  *natural = USUAL_WIDTH;
  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = (int) sw_chart_height (chart_of (self), style_of (self)) + 1;
}

static void
sw_chart_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwChartView *self = SW_CHART_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  g_autoptr (SwChartLayout) layout = sw_chart_layout_new (chart_of (self), style_of (self), width, height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));

  sw_chart_draw (cr, chart_of (self), layout, style_of (self));
  cairo_destroy (cr);
}

static void
sw_chart_view_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  SwChartView *self = SW_CHART_VIEW (widget);

  GTK_WIDGET_CLASS (sw_chart_view_parent_class)->css_changed (widget, change);
  g_clear_pointer (&self->style, sw_course_style_free);
  gtk_widget_queue_resize (widget);
}

static void
sw_chart_view_finalize (GObject *object)
{
  SwChartView *self = SW_CHART_VIEW (object);

  sw_outcome_section_unref (self->section);
  g_clear_pointer (&self->style, sw_course_style_free);
  G_OBJECT_CLASS (sw_chart_view_parent_class)->finalize (object);
}

static void
sw_chart_view_class_init (SwChartViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_chart_view_finalize;
  widget_class->measure = sw_chart_view_measure;
  widget_class->snapshot = sw_chart_view_snapshot;
  widget_class->css_changed = sw_chart_view_css_changed;
  gtk_widget_class_set_css_name (widget_class, "chart");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
sw_chart_view_init (SwChartView *self)
{
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
}

GtkWidget *
sw_chart_view_new (SwOutcomeSection *section, guint index)
{
  SwChartView *self = g_object_new (SW_TYPE_CHART_VIEW, NULL);
  const SwChart *chart;

  self->section = sw_outcome_section_ref (section);
  self->index = index;
  chart = chart_of (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, chart->title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, chart->words, -1);
  return GTK_WIDGET (self);
}
