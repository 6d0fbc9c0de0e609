/* bench-outcomes-page.c: the outcomes page over 100,000 courses: when the first section and the last figure are there, and
 * how long the main loop was away from its poll at a stretch meanwhile
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-common.h"
#include "many-courses.h"

#include "sw-outcome-section-view.h"
#include "sw-outcomes-view.h"
#include "ui-fixture.h"

#define FIRST_TARGET 200
#define WHOLE_TARGET 1000
#define BLOCKED_TARGET 16

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

static void
measure (SwWindow *window)
{
  SwOutcomesView *view = SW_OUTCOMES_VIEW (ui_find_type (GTK_WIDGET (window), SW_TYPE_OUTCOMES_VIEW));
  gint64 start = g_get_monotonic_time ();
  double first = 0;

  longest_us = 0;
  back_from_poll = start;
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "outcomes");
  while (sw_outcomes_view_get_outcomes (view) == NULL)
    {
      g_main_context_iteration (NULL, TRUE);
      if (first <= 0 && ui_find_type (GTK_WIDGET (view), SW_TYPE_OUTCOME_SECTION_VIEW) != NULL)
        first = bench_ms (start);
    }
  bench_report ("outcomes page, first section", first, "ms", FIRST_TARGET);
  bench_report ("outcomes page, whole", bench_ms (start), "ms", WHOLE_TARGET);
  ui_settle ();
  bench_report ("outcomes page, main loop away at most", (double) longest_us / 1000, "ms", BLOCKED_TARGET);
}

int
main (void)
{
  g_autofree char *record = NULL, *parent = NULL;
  g_autoptr (SwClock) clock = sw_clock_new_at ((SwMoment){ MANY_COURSES_TODAY, 580 });
  SwWindow *window;

  ui_init ();
  parent = ui_folder ();
  record = g_build_filename (parent, "record", NULL);
  many_courses_make (record);
  window = ui_open (record, clock);
  ui_settle ();
  g_main_context_set_poll_func (NULL, watching_poll);
  measure (window);
  g_main_context_set_poll_func (NULL, g_poll);
  ui_close (window);
  ui_forget (parent);
  return bench_status ();
}
