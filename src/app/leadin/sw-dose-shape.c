/* sw-dose-shape.c: the shape of a dose's state
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose-shape-private.h"

#include "sw-mark-shape.h"
#include "sw-style.h"

#define SIDE 18
#define RADIUS 6.5
#define STATE "sw-mark-state"

static void
draw_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  g_autoptr (SwCourseStyle) style = sw_style_course (GTK_WIDGET (area));
  SwMarkState state = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (area), STATE));

  sw_mark_shape_draw (cr, state, FALSE, width / 2.0, height / 2.0, RADIUS, style);
}

GtkWidget *
sw_dose_shape_new (void)
{
  GtkWidget *shape = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (shape), SIDE);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (shape), SIDE);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (shape), draw_cb, NULL, NULL);
  gtk_widget_set_valign (shape, GTK_ALIGN_CENTER);

  return shape;
}

void
sw_dose_shape_set (GtkWidget *shape, SwMarkState state)
{
  g_object_set_data (G_OBJECT (shape), STATE, GINT_TO_POINTER (state));
  gtk_widget_queue_draw (shape);
}
