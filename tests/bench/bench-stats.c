/* bench-stats.c: times of the statistics room on made-up courses; with --write FOLDER also the vectors, for R
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-interval.h"
#include "sw-survival.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COURSES 100000
#define INTERVALS 2000
#define RUNS 7

static double times[COURSES];
static guint8 events[COURSES];
static guint32 groups[COURSES];
static double left[INTERVALS], right[INTERVALS];

static double
exponential (GRand *rand, double mean)
{
  return -mean * log1p (-g_rand_double (rand));
}

/* Times to a thousandth of a day, so that few tie: more steps, more work. */
static void
make_courses (GRand *rand)
{
  for (guint i = 0; i < COURSES; i++)
    {
      double event = exponential (rand, 300);
      double end = exponential (rand, 500);
      times[i] = ceil (1000 * MIN (event, end)) / 1000;
      events[i] = event <= end;
      groups[i] = g_rand_int_range (rand, 0, 2);
    }
}

/* Visits at odd times; one course in five is not closed yet. */
static void
make_intervals (GRand *rand)
{
  for (guint i = 0; i < INTERVALS; i++)
    {
      left[i] = floor (1000 * exponential (rand, 30)) / 1000;
      right[i] = g_rand_int_range (rand, 0, 5) == 0 ? INFINITY : left[i] + ceil (1000 * exponential (rand, 14)) / 1000;
    }
}

static gboolean
write_vectors (const char *folder, GError **error)
{
  g_autoptr (GString) survival = g_string_new ("time,status,group\n");
  g_autoptr (GString) interval = g_string_new ("left,right\n");
  g_autofree char *survival_path = g_build_filename (folder, "survival.csv", NULL);
  g_autofree char *interval_path = g_build_filename (folder, "interval.csv", NULL);

  for (guint i = 0; i < COURSES; i++)
    g_string_append_printf (survival, "%.17g,%u,%u\n", times[i], events[i], groups[i]);
  for (guint i = 0; i < INTERVALS; i++)
    g_string_append_printf (interval, isinf (right[i]) ? "%.17g,\n" : "%.17g,%.17g\n", left[i], right[i]);
  return g_file_set_contents (survival_path, survival->str, survival->len, error)
         && g_file_set_contents (interval_path, interval->str, interval->len, error);
}

static double
time_survival (double *chi2)
{
  gint64 start = g_get_monotonic_time ();
  g_autoptr (SwSurvival) found = sw_survival_fit (times, events, groups, COURSES, 2, 0.95, NULL);
  double seconds = (g_get_monotonic_time () - start) / 1e6;

  *chi2 = found->logrank.chi2;
  return seconds;
}

static double
time_interval (double *loglik)
{
  g_autoptr (GError) error = NULL;
  gint64 start = g_get_monotonic_time ();
  g_autoptr (SwTurnbull) found = sw_turnbull_fit (left, right, INTERVALS, NULL, &error);
  double seconds = (g_get_monotonic_time () - start) / 1e6;

  if (!found)
    g_error ("%s", error->message);
  *loglik = found->loglik;
  return seconds;
}

static double
median_of (double (*run) (double *figure), double *figure)
{
  double seconds[RUNS];

  for (guint i = 0; i < RUNS; i++)
    {
      double took = run (figure);
      guint at = i;
      for (; at > 0 && seconds[at - 1] > took; at--)
        seconds[at] = seconds[at - 1];
      seconds[at] = took;
    }
  return seconds[RUNS / 2];
}

int
main (int argc, char **argv)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260401);
  g_autoptr (GError) error = NULL;
  double chi2, loglik;

  make_courses (rand);
  make_intervals (rand);
  if (argc == 3 && strcmp (argv[1], "--write") == 0 && !write_vectors (argv[2], &error))
    {
      g_printerr ("%s\n", error->message);
      return EXIT_FAILURE;
    }
  double survival = median_of (time_survival, &chi2);
  double interval = median_of (time_interval, &loglik);
  g_print ("ours survival %.6f %.10g\n", survival, chi2);
  g_print ("ours interval %.6f %.10g\n", interval, loglik);
  return EXIT_SUCCESS;
}
