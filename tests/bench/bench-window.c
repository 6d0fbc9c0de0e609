/* bench-window.c: work in the open window of a large practice: a search letter by letter, and opening patients
 *
 * A search is measured at the entry, from its "changed" to the list's items-changed. Opening a patient is measured from the call to
 * the end of the frame that shows it, and with it how long the main loop was away from its poll at a stretch: what a person feels as
 * a hitch.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-common.h"

#include "sw-patient-list-view.h"
#include "sw-patient-page.h"
#include "ui-fixture.h"

#include <stdlib.h>
#include <string.h>

#define TIMES 5      /* each letter is typed so often; the median counts */
#define PATIENTS 40  /* opened, half with a course */
#define SEARCH_TARGET 16
#define OPEN_TARGET 50
#define BLOCKED_TARGET 16

/* How long the main loop has been away from its poll. */
static gint64 back_from_poll, longest_us;

static gint
watching_poll (GPollFD *fds, guint n, gint timeout)
{
  gint ready;

  longest_us = MAX (longest_us, g_get_monotonic_time () - back_from_poll);
  ready = g_poll (fds, n, timeout);
  back_from_poll = g_get_monotonic_time ();
  return ready;
}

static double
blocked_ms (void)
{
  return (double) longest_us / 1000;
}

static void
watch (void)
{
  longest_us = 0;
  back_from_poll = g_get_monotonic_time ();
}

static void
set_true (gboolean *flag)
{
  *flag = TRUE;
}

static void
wait_for (gboolean *flag)
{
  while (!*flag)
    g_main_context_iteration (NULL, TRUE);
}

typedef struct
{
  GListModel *list;
  gint64 start;
  double ms;
  gboolean changed;
} Typed;

/* Called as the signal starts, before any widget works on what it says. */
static gboolean
emitted_cb (GSignalInvocationHint *hint, guint n_values, const GValue *values, gpointer data)
{
  Typed *typed = data;

  if (g_value_get_object (&values[0]) == typed->list && !typed->changed)
    {
      typed->ms = bench_ms (typed->start);
      typed->changed = TRUE;
    }
  return TRUE;
}

/* The list settles on what matches before the next letter comes. */
static double
type (GtkEditable *entry, GListModel *list, const char *text)
{
  guint signal = g_signal_lookup ("items-changed", G_TYPE_LIST_MODEL);
  Typed typed = { .list = list };
  gulong hook = g_signal_add_emission_hook (signal, 0, emitted_cb, &typed, NULL);

  typed.start = g_get_monotonic_time ();
  gtk_editable_set_text (entry, text);
  while (!typed.changed && sw_patient_list_get_loading (SW_PATIENT_LIST (list)))
    g_main_context_iteration (NULL, TRUE);
  if (!typed.changed) /* the same patients match as before */
    typed.ms = bench_ms (typed.start);
  g_signal_remove_emission_hook (signal, hook);
  ui_settle ();
  return typed.ms;
}

static double
letter_ms (GtkEditable *entry, GListModel *list, const char *before, const char *text)
{
  double ms[TIMES];

  for (guint i = 0; i < TIMES; i++)
    {
      if (i > 0)
        type (entry, list, before);
      ms[i] = type (entry, list, text);
    }
  return bench_median (ms, TIMES);
}

static void
search (SwWindow *window)
{
  static const char name[] = "marlo";
  GtkWidget *view = ui_find_type (GTK_WIDGET (window), SW_TYPE_PATIENT_LIST_VIEW);
  GtkEditable *entry = GTK_EDITABLE (ui_find_type (view, GTK_TYPE_SEARCH_ENTRY));
  GtkSelectionModel *selection = gtk_list_view_get_model (GTK_LIST_VIEW (ui_find_type (view, GTK_TYPE_LIST_VIEW)));
  GListModel *list = gtk_single_selection_get_model (GTK_SINGLE_SELECTION (selection));

  for (guint n = 1; n <= strlen (name); n++)
    {
      g_autofree char *before = g_strndup (name, n - 1), *text = g_strndup (name, n);
      double ms = letter_ms (entry, list, before, text);
      g_autofree char *what = g_strdup_printf ("search \"%s\", %u match", text, g_list_model_get_n_items (list));

      bench_report (what, ms, "ms", SEARCH_TARGET);
    }
  type (entry, list, "");
}

/* The foot line is the last thing a page sets when its dog has arrived. */
static double
open_ms (SwWindow *window, gint64 patient, double *blocked)
{
  SwPatientPage *page = SW_PATIENT_PAGE (sw_window_get_patient_page (window));
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (window));
  gboolean arrived = FALSE, drawn = FALSE;
  gulong foot, frame;
  gint64 start;
  double ms;

  sw_window_show_patient (window, 0);
  ui_settle ();
  watch ();
  start = g_get_monotonic_time ();
  foot = g_signal_connect_swapped (page, "notify::foot", G_CALLBACK (set_true), &arrived);
  sw_window_show_patient (window, patient);
  wait_for (&arrived);
  frame = g_signal_connect_swapped (clock, "after-paint", G_CALLBACK (set_true), &drawn);
  wait_for (&drawn);
  ms = bench_ms (start);
  g_signal_handler_disconnect (page, foot);
  g_signal_handler_disconnect (clock, frame);
  ui_settle ();
  *blocked = blocked_ms ();
  return ms;
}

/* The first dogs are those of the demo's script, with courses in every stage. The first one opened warms up. */
static void
open_patients (SwWindow *window)
{
  double times[PATIENTS], blocked[PATIENTS], worst = 0;

  open_ms (window, 1, &worst);
  for (gint64 i = 0; i < PATIENTS; i++)
    times[i] = open_ms (window, i + 2, &blocked[i]);
  for (guint i = 0; i < PATIENTS; i++)
    worst = MAX (worst, blocked[i]);
  bench_report ("open a patient to the drawn frame, median", bench_median (times, PATIENTS), "ms", OPEN_TARGET);
  bench_report ("  main loop away at a stretch, median", bench_median (blocked, PATIENTS), "ms", BLOCKED_TARGET);
  g_print ("# %-46s %8.2f ms\n", "  slowest patient", times[PATIENTS - 1]);
  g_print ("# %-46s %8.2f ms\n", "  longest stretch of any, the first included", worst);
}

int
main (void)
{
  const char *wanted = g_getenv ("SW_BENCH_PATIENTS");
  g_autofree char *record = bench_record (wanted != NULL ? (guint) atoi (wanted) : 200000);
  g_autoptr (SwClock) clock = sw_clock_new_at (BENCH_NOW);
  SwWindow *window;

  ui_init ();
  g_main_context_set_poll_func (NULL, watching_poll);
  window = ui_open (record, clock);
  ui_settle ();
  search (window);
  open_patients (window);
  ui_close (window);
  return bench_status ();
}
