/* bench-start.c: starting the program, beside a blank window in the same run
 *
 * bench-start BLANK PROGRAM: each round starts the blank window, the program on the demo practice, and on a practice of
 * SW_BENCH_PATIENTS (200,000) dogs, each in a fresh process; the first round only warms the caches. Medians of ten, from before exec
 * to the frame drawn (CLOCK_MONOTONIC in both processes). Targets: first frame 1.6, filled list 3.5 times the blank window.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-common.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDS 10
#define DEMO_PATIENTS 24
#define FIRST_TARGET 1.6
#define FILLED_TARGET 3.5

/* Milliseconds to what the child prints as "what TIME"; both clocks are the system's monotonic one. */
static double
told_ms (const char *output, const char *what, gint64 start)
{
  const char *line = strstr (output, what);

  if (line == NULL)
    g_error ("no \"%s\" in: %s", what, output);
  return (double) (g_ascii_strtoll (line + strlen (what) + 1, NULL, 10) - start) / 1000;
}

static void
start (const char *const *argv, double *first, double *filled)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *output = NULL;
  gint64 start = g_get_monotonic_time ();

  if (!g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_LEAVE_DESCRIPTORS_OPEN, NULL, NULL, &output, NULL, NULL, &error))
    g_error ("%s", error->message);
  *first = told_ms (output, "first", start);
  if (filled != NULL)
    *filled = told_ms (output, "filled", start);
}

static void
report (const char *what, double *times, double blank, double target)
{
  double ms = bench_median (times, ROUNDS);

  g_print ("# %-46s %8.1f ms\n", what, ms);
  bench_report ("  beside the blank window", ms / blank, "x", target);
}

int
main (int argc, char **argv)
{
  const char *wanted = g_getenv ("SW_BENCH_PATIENTS");
  g_autofree char *demo = bench_record (DEMO_PATIENTS);
  g_autofree char *crowd = bench_record (wanted != NULL ? (guint) atoi (wanted) : 200000);
  const char *const blank_argv[] = { argv[1], NULL };
  const char *const demo_argv[] = { argv[2], "--record", demo, "--at", BENCH_AT, NULL };
  const char *const crowd_argv[] = { argv[2], "--record", crowd, "--at", BENCH_AT, NULL };
  double blank[ROUNDS], first[2][ROUNDS], filled[2][ROUNDS], ms;

  for (int i = -1; i < ROUNDS; i++)
    {
      int at = MAX (i, 0);

      start (blank_argv, &blank[at], NULL);
      start (demo_argv, &first[0][at], &filled[0][at]);
      start (crowd_argv, &first[1][at], &filled[1][at]);
    }
  ms = bench_median (blank, ROUNDS);
  g_print ("# %-46s %8.1f ms\n", "blank window, first frame", ms);
  report ("demo, first frame", first[0], ms, FIRST_TARGET);
  report ("demo, filled list", filled[0], ms, FILLED_TARGET);
  report ("large practice, first frame", first[1], ms, FIRST_TARGET);
  report ("large practice, filled list", filled[1], ms, FILLED_TARGET);
  return bench_status ();
}
