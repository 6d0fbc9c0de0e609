/* ui-wait.c: waiting for what happens in the main loop and on the record's threads
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-wait.h"

#include "sw-window.h"

#define SECONDS 30
#define LOOK_EVERY_MS 5
#define ROUNDS 3 /* an act, the load that follows it, and what the page asks for then */

static gint64
bound (void)
{
  const char *patience = g_getenv ("SW_TEST_PATIENCE");
  gint64 times = patience != NULL ? g_ascii_strtoll (patience, NULL, 10) : 1;

  return SECONDS * MAX (times, 1) * G_USEC_PER_SEC;
}

static gboolean
wake_cb (gpointer data)
{
  return G_SOURCE_CONTINUE;
}

/* Conditions may look at what changes without an event, so the loop is woken now and then; in between it leaves the
 * processor to the others. */
gboolean
ui_wait_or_give_up (UiCondition condition, gpointer data)
{
  gint64 end = g_get_monotonic_time () + bound ();
  guint wake = g_timeout_add (LOOK_EVERY_MS, wake_cb, NULL);
  gboolean holds;

  while (!(holds = condition (data)) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (wake);
  return holds;
}

void
ui_wait (UiCondition condition, gpointer data, const char *what)
{
  if (!ui_wait_or_give_up (condition, data))
    g_error ("waited in vain for %s", what);
}

static gboolean
is_nought (gpointer count)
{
  return *(int *) count == 0;
}

static void
answered_cb (GObject *record, GAsyncResult *result, gpointer waiting)
{
  g_autoptr (GPtrArray) clients = sw_record_find_clients_finish (SW_RECORD (record), result, NULL);

  --*(int *) waiting;
}

/* The record works off what it is asked for in its order: when this is answered, all before it is done. */
static void
ask (GtkWidget *window, int *waiting)
{
  SwRecord *record = SW_IS_WINDOW (window) ? sw_window_get_record (SW_WINDOW (window)) : NULL;

  if (record == NULL)
    return;
  ++*waiting;
  sw_record_find_clients_async (record, "", 1, NULL, answered_cb, waiting);
}

static gboolean
frame_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  return G_SOURCE_REMOVE;
}

/* Called too when the window goes away before its frame. */
static void
frame_done (gpointer waiting)
{
  --*(int *) waiting;
}

static void
draw (GtkWidget *window, int *waiting)
{
  if (!gtk_widget_get_mapped (window))
    return;
  ++*waiting;
  gtk_widget_add_tick_callback (window, frame_cb, waiting, frame_done);
}

static void
for_each_window (void (*func) (GtkWidget *, int *), const char *what)
{
  GListModel *windows = gtk_window_get_toplevels ();
  int waiting = 0;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      func (window, &waiting);
    }
  ui_wait (is_nought, &waiting, what);
}

void
ui_settle (void)
{
  for (int i = 0; i < ROUNDS; i++)
    {
      for_each_window (ask, "the record");
      for_each_window (draw, "a frame");
    }
}
