/* sw-outcome-tables.c: the outcomes as comma-separated text
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-outcomes.h"

#include "sw-csv.h"

#include <math.h>
#include <string.h>

static void
write_names (SwCsvWriter *writer, const char *const *names)
{
  for (; *names != NULL; names++)
    sw_csv_writer_text (writer, *names);
  sw_csv_writer_end (writer);
}

/* A count that a figure does not have stays empty. */
static void
write_count (SwCsvWriter *writer, gint64 value, gboolean has)
{
  if (has)
    sw_csv_writer_int (writer, value);
  else
    sw_csv_writer_text (writer, NULL);
}

static void
write_figure (SwCsvWriter *writer, const SwOutcomeSection *section, const SwOutcomeGroup *group,
              const SwOutcomeFigure *figure)
{
  g_autofree char *left_out = group ? sw_outcome_group_left_out_text (group) : NULL;

  sw_csv_writer_text (writer, section->code);
  sw_csv_writer_text (writer, group ? group->code : NULL);
  sw_csv_writer_text (writer, group ? group->label : NULL);
  sw_csv_writer_text (writer, figure->code);
  sw_csv_writer_text (writer, figure->label);
  write_count (writer, figure->x, figure->kind == SW_FIGURE_SHARE || figure->kind == SW_FIGURE_COUNT);
  sw_csv_writer_int (writer, figure->n);
  sw_csv_writer_double (writer, figure->value);
  sw_csv_writer_double (writer, figure->value_to);
  sw_csv_writer_double (writer, figure->lo);
  sw_csv_writer_double (writer, figure->hi);
  sw_csv_writer_double (writer, figure->exact_lo);
  sw_csv_writer_double (writer, figure->exact_hi);
  sw_csv_writer_text (writer, figure->unit);
  sw_csv_writer_text (writer, left_out);
  sw_csv_writer_end (writer);
}

char *
sw_outcomes_figures_csv (const SwOutcomes *outcomes)
{
  static const char *const names[]
      = { "section",  "group", "group_label", "figure",   "figure_label", "x",    "n",        "value",
          "value_to", "lo",    "hi",          "exact_lo", "exact_hi",     "unit", "left_out", NULL };
  g_autoptr (SwCsvWriter) writer = sw_csv_writer_new ();

  write_names (writer, names);
  for (guint s = 0; s < outcomes->sections->len; s++)
    {
      const SwOutcomeSection *section = outcomes->sections->pdata[s];

      for (guint g = 0; g < section->groups->len; g++)
        {
          const SwOutcomeGroup *group = section->groups->pdata[g];

          for (guint f = 0; f < group->figures->len; f++)
            write_figure (writer, section, group, group->figures->pdata[f]);
        }
      for (guint t = 0; t < section->tests->len; t++)
        write_figure (writer, section, NULL, section->tests->pdata[t]);
    }
  return sw_csv_writer_steal (writer, NULL);
}

/* --- charts --- */

static void
write_point (SwCsvWriter *writer, const SwChart *chart, const SwChartSeries *series, const char *what,
             const SwChartPoint *point)
{
  sw_csv_writer_text (writer, chart->code);
  sw_csv_writer_text (writer, series->label);
  sw_csv_writer_text (writer, what);
  sw_csv_writer_double (writer, point->x);
  sw_csv_writer_double (writer, point->x_to);
  sw_csv_writer_double (writer, point->y);
  sw_csv_writer_double (writer, point->lo);
  sw_csv_writer_double (writer, point->hi);
  sw_csv_writer_end (writer);
}

static void
write_series (SwCsvWriter *writer, const SwChart *chart, const SwChartSeries *series)
{
  for (guint i = 0; i < series->points->len; i++)
    write_point (writer, chart, series, "point", &g_array_index (series->points, SwChartPoint, i));
  for (guint i = 0; i < series->marks->len; i++)
    {
      const SwChartPoint *mark = &g_array_index (series->marks, SwChartPoint, i);

      write_point (writer, chart, series, isnan (mark->y) ? "band" : "censored", mark);
    }
  for (guint i = 0; i < series->counts->len; i++)
    {
      const SwChartCount *count = &g_array_index (series->counts, SwChartCount, i);
      SwChartPoint point = { count->x, count->x, (double) count->n, NAN, NAN };

      write_point (writer, chart, series, "at-risk", &point);
    }
}

static void
write_chart (SwCsvWriter *writer, const SwChart *chart)
{
  for (guint i = 0; i < chart->series->len; i++)
    write_series (writer, chart, chart->series->pdata[i]);
  for (guint i = 0; i < chart->lines->len; i++)
    {
      const SwChartLine *line = chart->lines->pdata[i];
      SwChartSeries series = { .label = line->label };
      SwChartPoint point = { NAN, NAN, line->y, line->lo, line->hi };

      write_point (writer, chart, &series, "line", &point);
    }
}

static const char *const chart_names[] = { "chart", "series", "what", "x", "x_to", "y", "lo", "hi", NULL };

char *
sw_chart_csv (const SwChart *chart)
{
  g_autoptr (SwCsvWriter) writer = sw_csv_writer_new ();

  write_names (writer, chart_names);
  write_chart (writer, chart);
  return sw_csv_writer_steal (writer, NULL);
}

char *
sw_outcomes_curves_csv (const SwOutcomes *outcomes)
{
  g_autoptr (SwCsvWriter) writer = sw_csv_writer_new ();

  write_names (writer, chart_names);
  for (guint s = 0; s < outcomes->sections->len; s++)
    {
      const SwOutcomeSection *section = outcomes->sections->pdata[s];

      for (guint c = 0; c < section->charts->len; c++)
        write_chart (writer, section->charts->pdata[c]);
    }
  return sw_csv_writer_steal (writer, NULL);
}

/* --- treated tumours --- */

static void
write_row (SwCsvWriter *writer, const SwTreated *row)
{
  g_autofree char *name = sw_treated_name (row), *day = sw_day_format (row->day);
  const SwTreatedField *fields;
  guint n;

  sw_csv_writer_text (writer, name);
  sw_csv_writer_text (writer, day);
  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].text)
      sw_csv_writer_text (writer, sw_treated_text (row, &fields[i]));
    else
      write_count (writer, sw_treated_int (row, &fields[i]), sw_treated_int (row, &fields[i]) != SW_UNKNOWN);
  sw_csv_writer_end (writer);
}

char *
sw_outcomes_rows_csv (const SwOutcomes *outcomes)
{
  g_autoptr (SwCsvWriter) writer = sw_csv_writer_new ();
  const SwTreatedField *fields;
  guint n;

  sw_csv_writer_text (writer, "name");
  sw_csv_writer_text (writer, "treated_on");
  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    sw_csv_writer_text (writer, fields[i].column);
  sw_csv_writer_end (writer);
  for (guint i = 0; i < outcomes->rows->len; i++)
    write_row (writer, &g_array_index (outcomes->rows, SwTreated, i));
  return sw_csv_writer_steal (writer, NULL);
}

/* --- files --- */

/* PATH with a word before its ending: figures.csv, figures-curves.csv. */
static char *
beside (const char *path, const char *word)
{
  gsize length = strlen (path) - (g_str_has_suffix (path, ".csv") ? strlen (".csv") : 0);

  return g_strdup_printf ("%.*s-%s.csv", (int) length, path, word);
}

gboolean
sw_outcomes_write_tables (const SwOutcomes *outcomes, const char *path, GError **error)
{
  g_autofree char *figures = sw_outcomes_figures_csv (outcomes), *curves = sw_outcomes_curves_csv (outcomes);
  g_autofree char *rows = sw_outcomes_rows_csv (outcomes);
  g_autofree char *curves_path = beside (path, "curves"), *rows_path = beside (path, "tumours");

  return g_file_set_contents (path, figures, -1, error) && g_file_set_contents (curves_path, curves, -1, error)
         && g_file_set_contents (rows_path, rows, -1, error);
}
