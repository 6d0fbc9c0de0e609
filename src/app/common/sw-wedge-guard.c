/* sw-wedge-guard.c: keeps the burst of a caliper from pressing anything
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-wedge-guard.h"

#include "sw-quantity-entry.h"

typedef struct
{
  SwWedge wedge;
  SwWedgeTarget target;
  gpointer data;
} Guard;

static gboolean
is_digit (guint keyval)
{
  return (keyval >= GDK_KEY_0 && keyval <= GDK_KEY_9) || (keyval >= GDK_KEY_KP_0 && keyval <= GDK_KEY_KP_9);
}

static gboolean
is_enter (guint keyval)
{
  return keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter;
}

static gboolean
takes_text (GtkWidget *focus)
{
  return focus != NULL && (GTK_IS_EDITABLE (focus) || GTK_IS_TEXT_VIEW (focus));
}

SwWedgeAnswer
sw_wedge_key (SwWedge *wedge, guint keyval, GdkModifierType modifiers, guint32 time, GtkWidget *focus)
{
  gboolean plain = (modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) == 0;
  gboolean burst = wedge->seen_digit && time - wedge->digit_at <= SW_WEDGE_MILLISECONDS;

  if (is_enter (keyval))
    return burst && sw_quantity_entry_around (focus) == NULL && !GTK_IS_TEXT_VIEW (focus) ? SW_WEDGE_SWALLOW
                                                                                          : SW_WEDGE_PASS;
  if (!is_digit (keyval) || !plain)
    return SW_WEDGE_PASS;
  wedge->seen_digit = TRUE;
  wedge->digit_at = time;

  return takes_text (focus) ? SW_WEDGE_PASS : SW_WEDGE_POINT;
}

/* The digit itself is handed on with the focus, so that the number arrives whole. */
static gboolean
point_to_cell (Guard *guard, GtkEventController *controller)
{
  GtkWidget *window = gtk_event_controller_get_widget (controller);
  GtkWidget *cell = guard->target != NULL ? guard->target (window, guard->data) : NULL;
  GtkWidget *focus;

  if (cell == NULL || !gtk_widget_grab_focus (cell))
    return TRUE;
  focus = gtk_root_get_focus (GTK_ROOT (window));
  return focus != NULL && gtk_event_controller_key_forward (GTK_EVENT_CONTROLLER_KEY (controller), focus);
}

static gboolean
key_pressed_cb (GtkEventController *controller, guint keyval, guint keycode, GdkModifierType modifiers, Guard *guard)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (gtk_event_controller_get_widget (controller)));
  guint32 time = gtk_event_controller_get_current_event_time (controller);

  switch (sw_wedge_key (&guard->wedge, keyval, modifiers, time, focus))
    {
    case SW_WEDGE_PASS:
      return GDK_EVENT_PROPAGATE;
    case SW_WEDGE_SWALLOW:
      return GDK_EVENT_STOP;
    case SW_WEDGE_POINT:
      return point_to_cell (guard, controller);
    }
  return GDK_EVENT_PROPAGATE;
}

void
sw_wedge_guard_attach (GtkWidget *window, SwWedgeTarget target, gpointer data)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  Guard *guard = g_new0 (Guard, 1);

  guard->target = target;
  guard->data = data;
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_data (keys, "key-pressed", G_CALLBACK (key_pressed_cb), guard,
                         (GClosureNotify) (void (*) (void)) g_free, 0);
  gtk_widget_add_controller (window, keys);
}
