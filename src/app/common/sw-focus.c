/* sw-focus.c: Tab where GTK 4.8 loses it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-focus.h"

#define PREPARED "sw-focus-prepared"

void
sw_focus_strip_changed (GtkWidget *inside)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (inside, GTK_TYPE_SCROLLED_WINDOW);

  if (scrolled != NULL)
    gtk_widget_set_can_focus (scrolled, gtk_widget_get_first_child (inside) != NULL);
}

static void
prepare_expander (GtkExpander *expander)
{
  GtkWidget *child = gtk_expander_get_child (expander);

  if (child == NULL || g_object_get_data (G_OBJECT (child), PREPARED) != NULL)
    return;
  g_object_bind_property (expander, "expanded", child, "can-focus", G_BINDING_SYNC_CREATE);
  g_object_set_data (G_OBJECT (child), PREPARED, child);
}

static void
prepare_below (GtkWidget *widget, GtkWidget *focus)
{
  GtkWidget *child = gtk_widget_get_focus_child (widget);

  if (GTK_IS_EXPANDER (widget))
    prepare_expander (GTK_EXPANDER (widget));
  if (child != NULL && child != focus && (focus == NULL || !gtk_widget_is_ancestor (focus, child)))
    gtk_widget_set_focus_child (widget, NULL);
  for (child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_get_mapped (child))
      prepare_below (child, focus);
}

void
sw_focus_prepare (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);

  prepare_below (GTK_WIDGET (window), focus != NULL && gtk_widget_get_mapped (focus) ? focus : NULL);
}
