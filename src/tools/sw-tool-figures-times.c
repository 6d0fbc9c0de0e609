/* sw-tool-figures-times.c: times to events: figures survival, interval and competing
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-figures-private.h"

#include "sw-competing.h"
#include "sw-interval.h"
#include "sw-survival.h"

#include <math.h>
#include <stdio.h>

/* The most causes that a table may tell apart. */
#define MOST_CAUSES 32

/* A table with a time, what happened then, and the group of each row. */
typedef struct
{
  gsize n;
  double *times;
  guint8 *outcomes;
  guint32 *groups;   /* 0 and up, in the order in which the labels come */
  GPtrArray *labels; /* of the groups; one NULL without a column of groups */
  guint most;        /* largest outcome, at least 1 */
} Times;

static void
times_clear (Times *times)
{
  g_free (times->times);
  g_free (times->outcomes);
  g_free (times->groups);
  g_clear_pointer (&times->labels, g_ptr_array_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Times, times_clear)

static void
read_groups (Times *times, const SwCsv *csv, int column)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  times->labels = g_ptr_array_new ();
  times->groups = g_new0 (guint32, times->n + 1);
  for (gsize row = 0; column >= 0 && row < times->n; row++)
    {
      const char *label = sw_csv_text (csv, row, (gsize) column);
      gpointer number;

      if (!g_hash_table_lookup_extended (seen, label, NULL, &number))
        {
          number = GUINT_TO_POINTER (times->labels->len);
          g_hash_table_insert (seen, (gpointer) label, number);
          g_ptr_array_add (times->labels, (gpointer) label);
        }
      times->groups[row] = GPOINTER_TO_UINT (number);
    }
  if (times->labels->len == 0)
    g_ptr_array_add (times->labels, NULL);
}

static gboolean
read_times (Times *times, const SwCsv *csv, const char *outcome, gint64 most, GError **error)
{
  gsize time_column, outcome_column;

  if (!sw_csv_need_column (csv, "time", &time_column, error)
      || !sw_csv_need_column (csv, outcome, &outcome_column, error))
    return FALSE;
  times->n = sw_csv_n_rows (csv);
  times->times = g_new (double, times->n + 1);
  times->outcomes = g_new (guint8, times->n + 1);
  times->most = 1;
  for (gsize row = 0; row < times->n; row++)
    {
      gint64 value;

      if (!sw_csv_double (csv, row, time_column, &times->times[row], error)
          || !sw_csv_int (csv, row, outcome_column, 0, most, &value, error))
        return FALSE;
      times->outcomes[row] = (guint8) value;
      times->most = MAX (times->most, (guint) value);
    }
  read_groups (times, csv, sw_csv_find_column (csv, "group"));
  return TRUE;
}

/* --- survival --- */

static void
json_curve (SwJson *json, const char *label, const SwSurvivalCurve *curve)
{
  sw_json_begin_object (json, NULL);
  sw_json_string (json, "group", label);
  sw_json_int (json, "n", curve->n);
  sw_json_int (json, "events", curve->events);
  sw_json_double (json, "median", curve->median);
  sw_json_double (json, "median_lo", curve->median_lo);
  sw_json_double (json, "median_hi", curve->median_hi);
  sw_json_begin_array (json, "steps");
  for (gsize i = 0; i < curve->n_steps; i++)
    {
      const SwSurvivalStep *step = &curve->steps[i];

      sw_json_begin_object (json, NULL);
      sw_json_double (json, "t", step->t);
      sw_json_int (json, "n", step->n);
      sw_json_int (json, "d", step->d);
      sw_json_double (json, "s", step->s);
      sw_json_double (json, "se", step->se);
      sw_json_double (json, "loglog_lo", step->loglog_lo);
      sw_json_double (json, "loglog_hi", step->loglog_hi);
      sw_json_end (json);
    }
  sw_json_end (json);
  sw_json_end (json);
}

static void
survival_json (const Times *times, const SwSurvival *survival)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_begin_array (json, "groups");
  for (gsize i = 0; i < survival->n_groups; i++)
    json_curve (json, times->labels->pdata[i], &survival->curves[i]);
  sw_json_end (json);
  sw_json_begin_object (json, "logrank");
  sw_json_double (json, "chi2", survival->logrank.chi2);
  sw_json_int (json, "df", survival->logrank.df);
  sw_json_double (json, "p", survival->logrank.p);
  sw_json_end (json);
  sw_json_end (json);
  sw_tool_print_json (json);
}

/* An absent limit is a dash. */
static void
print_cell (double value)
{
  if (isfinite (value))
    printf (" %9.6f", value);
  else
    printf (" %9s", "-");
}

static void
print_curve (const char *label, const SwSurvivalCurve *curve)
{
  printf ("%s%s%" G_GINT64_FORMAT " courses, %" G_GINT64_FORMAT " events\n", label ? label : "", label ? ": " : "",
          curve->n, curve->events);
  sw_figures_print ("median", curve->median);
  sw_figures_print ("from", curve->median_lo);
  sw_figures_print ("to", curve->median_hi);
  printf ("%10s %8s %8s %9s %9s %9s %9s\n", "t", "n", "d", "s", "se", "from", "to");
  for (gsize i = 0; i < curve->n_steps; i++)
    {
      const SwSurvivalStep *step = &curve->steps[i];

      printf ("%10.6g %8" G_GINT64_FORMAT " %8" G_GINT64_FORMAT, step->t, step->n, step->d);
      print_cell (step->s);
      print_cell (step->se);
      print_cell (step->loglog_lo);
      print_cell (step->loglog_hi);
      putchar ('\n');
    }
}

static void
survival_text (const Times *times, const SwSurvival *survival)
{
  for (gsize i = 0; i < survival->n_groups; i++)
    print_curve (times->labels->pdata[i], &survival->curves[i]);
  if (survival->logrank.df == 0)
    return;
  printf ("log-rank, %d degrees of freedom\n", survival->logrank.df);
  sw_figures_print ("chi-squared", survival->logrank.chi2);
  sw_figures_print ("p", survival->logrank.p);
}

gboolean
sw_figures_survival (const SwTool *tool, const SwCsv *csv, GError **error)
{
  g_auto (Times) times = { 0 };
  g_autoptr (SwSurvival) survival = NULL;

  if (!read_times (&times, csv, "status", 1, error))
    return FALSE;
  survival = sw_survival_fit (times.times, times.outcomes, times.groups, times.n, times.labels->len,
                              SW_FIGURES_LEVEL, error);
  if (survival == NULL)
    return FALSE;
  if (tool->json)
    survival_json (&times, survival);
  else
    survival_text (&times, survival);
  return TRUE;
}

/* --- competing --- */

static SwIncidence *
fit_group (const Times *times, guint group, GError **error)
{
  g_autofree double *own = g_new (double, times->n + 1);
  g_autofree guint8 *causes = g_new (guint8, times->n + 1);
  gsize n = 0;

  for (gsize row = 0; row < times->n; row++)
    if (times->groups[row] == group)
      {
        own[n] = times->times[row];
        causes[n++] = times->outcomes[row];
      }
  return sw_incidence_fit (own, causes, n, times->most, SW_FIGURES_LEVEL, error);
}

static void
json_cause (SwJson *json, const SwIncidence *found, guint cause)
{
  sw_json_begin_object (json, NULL);
  sw_json_int (json, "cause", cause);
  sw_json_begin_array (json, "steps");
  for (gsize i = 0; i < found->n_steps; i++)
    {
      sw_json_begin_object (json, NULL);
      sw_json_double (json, "t", found->steps[i].t);
      sw_json_double (json, "incidence", found->incidence[(cause - 1) * found->n_steps + i]);
      sw_json_end (json);
    }
  sw_json_end (json);
  sw_json_end (json);
}

static void
competing_json (const Times *times, const GPtrArray *groups)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_begin_array (json, "groups");
  for (guint i = 0; i < groups->len; i++)
    {
      sw_json_begin_object (json, NULL);
      sw_json_string (json, "group", times->labels->pdata[i]);
      sw_json_begin_array (json, "causes");
      for (guint cause = 1; cause <= times->most; cause++)
        json_cause (json, groups->pdata[i], cause);
      sw_json_end (json);
      sw_json_end (json);
    }
  sw_json_end (json);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
competing_text (const Times *times, const GPtrArray *groups)
{
  for (guint i = 0; i < groups->len; i++)
    {
      const SwIncidence *found = groups->pdata[i];
      const char *label = times->labels->pdata[i];

      printf ("%s%s%" G_GINT64_FORMAT " courses\n%10s %8s", label ? label : "", label ? ": " : "", found->n, "t", "n");
      for (guint cause = 1; cause <= times->most; cause++)
        printf ("  cause %-2u", cause);
      putchar ('\n');
      for (gsize step = 0; step < found->n_steps; step++)
        {
          printf ("%10.6g %8" G_GINT64_FORMAT, found->steps[step].t, found->steps[step].n);
          for (guint cause = 1; cause <= times->most; cause++)
            printf (" %9.6f", found->incidence[(cause - 1) * found->n_steps + step]);
          putchar ('\n');
        }
    }
}

gboolean
sw_figures_competing (const SwTool *tool, const SwCsv *csv, GError **error)
{
  g_auto (Times) times = { 0 };
  g_autoptr (GPtrArray) groups = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_incidence_free);

  if (!read_times (&times, csv, "cause", MOST_CAUSES, error))
    return FALSE;
  for (guint i = 0; i < times.labels->len; i++)
    {
      SwIncidence *found = fit_group (&times, i, error);

      if (found == NULL)
        return FALSE;
      g_ptr_array_add (groups, found);
    }
  if (tool->json)
    competing_json (&times, groups);
  else
    competing_text (&times, groups);
  return TRUE;
}

/* --- interval --- */

static gboolean
read_interval (const SwCsv *csv, gsize row, const gsize columns[2], double *left, double *right, GError **error)
{
  if (!sw_csv_double (csv, row, columns[0], left, error))
    return FALSE;
  *right = INFINITY;
  return *sw_csv_text (csv, row, columns[1]) == '\0' || sw_csv_double (csv, row, columns[1], right, error);
}

static void
interval_json (const SwTurnbull *found)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_int (json, "n", found->n);
  sw_json_begin_array (json, "masses");
  for (gsize i = 0; i < found->n_masses; i++)
    {
      sw_json_begin_object (json, NULL);
      sw_json_double (json, "left", found->masses[i].left);
      sw_json_double (json, "right", found->masses[i].right);
      sw_json_double (json, "mass", found->masses[i].mass);
      sw_json_end (json);
    }
  sw_json_end (json);
  sw_json_double (json, "loglik", found->loglik);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
interval_text (const SwTurnbull *found)
{
  printf ("%" G_GINT64_FORMAT " courses\n%10s %10s %9s\n", found->n, "after", "up to", "share");
  for (gsize i = 0; i < found->n_masses; i++)
    printf ("%10.6g %10.6g %9.6f\n", found->masses[i].left, found->masses[i].right, found->masses[i].mass);
  sw_figures_print ("log likelihood", found->loglik);
}

gboolean
sw_figures_interval (const SwTool *tool, const SwCsv *csv, GError **error)
{
  gsize n = sw_csv_n_rows (csv), columns[2];
  g_autofree double *left = g_new (double, n + 1), *right = g_new (double, n + 1);
  g_autoptr (SwTurnbull) found = NULL;

  if (!sw_csv_need_column (csv, "left", &columns[0], error) || !sw_csv_need_column (csv, "right", &columns[1], error))
    return FALSE;
  for (gsize row = 0; row < n; row++)
    if (!read_interval (csv, row, columns, &left[row], &right[row], error))
      return FALSE;
  found = sw_turnbull_fit (left, right, n, NULL, error);
  if (found == NULL)
    return FALSE;
  if (tool->json)
    interval_json (found);
  else
    interval_text (found);
  return TRUE;
}
