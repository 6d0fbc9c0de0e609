/* bench-outcomes.c: all figures of the outcomes over a record of 100,000 courses (targets: whole under 1 s, first
 * section under 200 ms)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "many-courses.h"

#include "sw-outcomes.h"
#include "sw-store.h"

#include <stdlib.h>

static gint64 started;

static double
since_ms (void)
{
  return (double) (g_get_monotonic_time () - started) / 1000;
}

static void
tell (SwOutcomeSection *section, guint done, guint total, gpointer data)
{
  g_print ("  %-14s after %7.1f ms\n", section->code, since_ms ());
}

static void
measure (const char *record, SwSplit split)
{
  g_autoptr (SwOutcomeQuery) query = sw_outcome_query_new ();
  SwStore *store = sw_store_open (record, SW_STORE_READ, NULL);
  SwPractice *practice = sw_store_load_practice (store, NULL);
  g_autoptr (GArray) rows = NULL;
  g_autoptr (SwOutcomes) outcomes = NULL;
  g_autoptr (GError) error = NULL;

  query->split = split;
  started = g_get_monotonic_time ();
  rows = sw_store_load_treated (store, 0, NULL);
  g_print ("%u treated tumours, by %s: read in %.1f ms\n", rows->len, sw_split_code (split), since_ms ());
  outcomes = sw_outcomes_compute (rows, practice, query, MANY_COURSES_TODAY, tell, NULL, NULL, &error);
  if (outcomes == NULL)
    g_error ("%s", error->message);
  g_print ("whole: %.1f ms (targets: first section 200, whole 1000)\n", since_ms ());
  sw_practice_free (practice);
  sw_store_close (store);
}

int
main (void)
{
  g_autofree char *template = g_build_filename (g_getenv ("SW_BUILD_DIR") ? g_getenv ("SW_BUILD_DIR") : ".",
                                                "bench-outcomes-XXXXXX", NULL);
  const char *folder = g_mkdtemp (template);
  g_autofree char *record = g_build_filename (folder, "record", NULL);
  const char *const remove[] = { "rm", "-r", folder, NULL };

  many_courses_make (record);
  measure (record, SW_SPLIT_NONE);
  measure (record, SW_SPLIT_GRADE);
  return g_spawn_sync (NULL, (char **) remove, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL) ? 0 : 1;
}
