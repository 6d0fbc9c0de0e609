/* bench-blank.c: a window with nothing in it, the measure for ours; prints when its first frame was drawn
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <gtk/gtk.h>

static void
drawn_cb (GdkFrameClock *clock, GtkWindow *window)
{
  g_print ("first %" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  gtk_window_destroy (window);
}

static void
activate_cb (GtkApplication *application, gpointer data)
{
  GtkWidget *window = gtk_application_window_new (application);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 720);
  gtk_widget_realize (window);
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (drawn_cb), window);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = gtk_application_new ("org.siteward.Blank", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
