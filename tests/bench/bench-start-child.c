/* bench-start-child.c: the program, as main.c starts it, that prints when its first frame and its filled list were drawn, and ends
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-application.h"
#include "sw-patient-list-view.h"
#include "ui-fixture.h"

#include <locale.h>

static gboolean first_told;

/* Each row has its name: the rows that are there are those in view and a margin. */
static gboolean
is_filled (GtkWidget *window)
{
  GtkWidget *list = ui_find_type (ui_find_type (window, SW_TYPE_PATIENT_LIST_VIEW), GTK_TYPE_LIST_VIEW);
  GtkWidget *row = gtk_widget_get_first_child (list);

  if (row == NULL)
    return FALSE;
  for (; row != NULL; row = gtk_widget_get_next_sibling (row))
    if (gtk_inscription_get_text (GTK_INSCRIPTION (ui_find_type (row, GTK_TYPE_INSCRIPTION))) == NULL)
      return FALSE;
  return TRUE;
}

static void
drawn_cb (GdkFrameClock *clock, GtkWindow *window)
{
  gint64 now = g_get_monotonic_time ();

  if (!first_told)
    g_print ("first %" G_GINT64_FORMAT "\n", now);
  first_told = TRUE;
  if (!is_filled (GTK_WIDGET (window)))
    return;
  g_print ("filled %" G_GINT64_FORMAT "\n", now);
  g_signal_handlers_disconnect_by_func (clock, drawn_cb, window);
  gtk_window_close (window);
}

static void
realized_cb (GtkWidget *window)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (drawn_cb), window);
}

static void
added_cb (GtkApplication *application, GtkWindow *window)
{
  g_signal_connect (window, "realize", G_CALLBACK (realized_cb), NULL);
}

int
main (int argc, char **argv)
{
  g_autoptr (SwApplication) application = NULL;

  setlocale (LC_ALL, "");
  application = sw_application_new ();
  g_signal_connect (application, "window-added", G_CALLBACK (added_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
