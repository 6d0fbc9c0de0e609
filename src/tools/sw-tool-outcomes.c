/* sw-tool-outcomes.c: sitewardctl outcomes: all figures of the outcomes view
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include "sw-clock.h"
#include "sw-outcome-paper.h"
#include "sw-outcomes.h"
#include "sw-store.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

typedef struct
{
  char *by, *from, *to, *rates, *published, *csv, *pdf, *at;
  char **only;
} Options;

static void
options_clear (Options *options)
{
  g_free (options->by);
  g_free (options->from);
  g_free (options->to);
  g_free (options->rates);
  g_free (options->published);
  g_free (options->csv);
  g_free (options->pdf);
  g_free (options->at);
  g_strfreev (options->only);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

/* --- the query --- */

static gboolean
parse_split (SwTool *tool, const char *text, SwSplit *split, GError **error)
{
  int found = text ? sw_split_from_code (text) : SW_SPLIT_NONE;

  tool->field = "by";
  if (found >= 0)
    {
      *split = (SwSplit) found;
      return TRUE;
    }
  g_set_error (
      error, SW_ERROR, SW_ERROR_INPUT,
      _("“%s” is nothing that outcomes are told apart by; take grade, site, depth, size, weight, agent, operator or "
         "repeat."),
      text);
  return FALSE;
}

static gboolean
parse_day (SwTool *tool, const char *field, const char *text, SwDay *day, GError **error)
{
  tool->field = field;
  return text == NULL || sw_day_parse (text, day, error);
}

static gboolean
parse_only (SwTool *tool, const char *text, SwOutcomeQuery *query, GError **error)
{
  const char *equals = strchr (text, '=');
  g_autofree char *key = equals ? g_strndup (text, (gsize) (equals - text)) : g_strdup (text);
  int split = sw_split_from_code (key);

  tool->field = "only";
  if (equals == NULL || split <= SW_SPLIT_NONE)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("“%s” is no filter; write e.g. grade=kiupel-low."), text);
      return FALSE;
    }
  g_free (query->only[split]);
  query->only[split] = g_strdup (equals + 1);
  return TRUE;
}

static gboolean
parse_rates (SwTool *tool, const char *text, SwRates *rates, GError **error)
{
  static const char *const names[SW_N_RATES] = { "strict", "usual", "wide" };

  tool->field = "rates";
  for (int i = 0; i < SW_N_RATES; i++)
    if (text == NULL || g_str_equal (names[i], text))
      {
        *rates = text ? (SwRates) i : SW_RATES_USUAL;
        return TRUE;
      }
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("“%s” is no pair of rates; take strict, usual or wide."), text);
  return FALSE;
}

/* By the beginning of its source: "Brown 2022". */
static gboolean
parse_published (SwTool *tool, const char *text, SwDefinitionId *published, GError **error)
{
  tool->field = "published";
  if (text == NULL)
    return TRUE;
  *published = SW_N_DEFINITIONS;
  if (g_str_equal (text, "none"))
    return TRUE;
  for (int id = SW_DEF_PUBLISHED_FIRST; id <= SW_DEF_PUBLISHED_SECOND; id++)
    if (g_str_has_prefix (sw_definition ((SwDefinitionId) id)->source, text))
      {
        *published = (SwDefinitionId) id;
        return TRUE;
      }
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("“%s” is no published share that is known; take “%s”, “%s” or none."), text,
               sw_definition (SW_DEF_PUBLISHED_FIRST)->source, sw_definition (SW_DEF_PUBLISHED_SECOND)->source);
  return FALSE;
}

static gboolean
parse_query (SwTool *tool, const Options *options, SwOutcomeQuery *query, GError **error)
{
  for (guint i = 0; options->only != NULL && options->only[i] != NULL; i++)
    if (!parse_only (tool, options->only[i], query, error))
      return FALSE;
  return parse_split (tool, options->by, &query->split, error)
         && parse_day (tool, "from", options->from, &query->from, error)
         && parse_day (tool, "to", options->to, &query->to, error)
         && parse_rates (tool, options->rates, &query->rates, error)
         && parse_published (tool, options->published, &query->published, error);
}

/* --- JSON --- */

static void
json_figure (SwJson *json, const SwOutcomeFigure *figure)
{
  gboolean counted = figure->kind == SW_FIGURE_SHARE || figure->kind == SW_FIGURE_COUNT;

  sw_json_begin_object (json, NULL);
  sw_json_string (json, "figure", figure->code);
  sw_json_string (json, "label", figure->label);
  if (counted)
    sw_json_int (json, "x", figure->x);
  else
    sw_json_null (json, "x");
  sw_json_int (json, "n", figure->n);
  sw_json_double (json, "value", figure->value);
  sw_json_double (json, "value_to", figure->value_to);
  sw_json_double (json, "lo", figure->lo);
  sw_json_double (json, "hi", figure->hi);
  sw_json_double (json, "exact_lo", figure->exact_lo);
  sw_json_double (json, "exact_hi", figure->exact_hi);
  sw_json_string (json, "unit", figure->unit);
  sw_json_end (json);
}

static void
json_figures (SwJson *json, const char *key, const GPtrArray *figures)
{
  sw_json_begin_array (json, key);
  for (guint i = 0; i < figures->len; i++)
    json_figure (json, figures->pdata[i]);
  sw_json_end (json);
}

static void
json_group (SwJson *json, const SwOutcomeGroup *group)
{
  sw_json_begin_object (json, NULL);
  sw_json_string (json, "group", group->code);
  sw_json_string (json, "label", group->label);
  sw_json_int (json, "n", group->n);
  sw_json_bool (json, "few", group->few);
  json_figures (json, "figures", group->figures);
  sw_json_begin_array (json, "left_out");
  for (guint i = 0; i < group->left_out->len; i++)
    {
      const SwLeftOut *left_out = group->left_out->pdata[i];

      sw_json_begin_object (json, NULL);
      sw_json_string (json, "code", left_out->code);
      sw_json_string (json, "reason", left_out->reason);
      sw_json_int (json, "n", left_out->rows->len);
      sw_json_end (json);
    }
  sw_json_end (json);
  sw_json_end (json);
}

static void
json_section (SwJson *json, const SwOutcomeSection *section)
{
  sw_json_begin_object (json, NULL);
  sw_json_string (json, "section", section->code);
  sw_json_string (json, "title", section->title);
  sw_json_string (json, "definition", section->definition);
  sw_json_string (json, "empty", section->empty);
  sw_json_begin_array (json, "groups");
  for (guint i = 0; i < section->groups->len; i++)
    json_group (json, section->groups->pdata[i]);
  sw_json_end (json);
  json_figures (json, "tests", section->tests);
  sw_json_end (json);
}

static void
json_lines (SwJson *json, const char *key, const GPtrArray *lines)
{
  sw_json_begin_array (json, key);
  for (guint i = 0; i < lines->len; i++)
    sw_json_string (json, NULL, lines->pdata[i]);
  sw_json_end (json);
}

static void
print_json (const SwOutcomes *outcomes)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  json_lines (json, "about", outcomes->heads);
  json_lines (json, "cautions", outcomes->cautions);
  sw_json_begin_array (json, "sections");
  for (guint i = 0; i < outcomes->sections->len; i++)
    json_section (json, outcomes->sections->pdata[i]);
  sw_json_end (json);
  sw_json_end (json);
  sw_tool_print_json (json);
}

/* --- for people --- */

static void
print_figures (const GPtrArray *figures)
{
  for (guint i = 0; i < figures->len; i++)
    {
      const SwOutcomeFigure *figure = figures->pdata[i];
      g_autofree char *text = sw_outcome_figure_text (figure);

      printf ("    %s: %s\n", figure->label, text);
    }
}

static void
print_section (const SwOutcomeSection *section)
{
  printf ("\n%s\n", section->title);
  if (section->empty != NULL)
    printf ("  %s\n", section->empty);
  for (guint i = 0; section->empty == NULL && i < section->groups->len; i++)
    {
      const SwOutcomeGroup *group = section->groups->pdata[i];
      g_autofree char *left_out = sw_outcome_group_left_out_text (group);

      printf ("  %s%s\n", group->label, group->few ? _(" (fewer than ten: read with caution)") : "");
      print_figures (group->figures);
      if (left_out != NULL)
        printf ("    %s\n", left_out);
    }
  print_figures (section->tests);
}

static void
print_text (const SwOutcomes *outcomes)
{
  for (guint i = 0; i < outcomes->heads->len; i++)
    puts (outcomes->heads->pdata[i]);
  for (guint i = 0; i < outcomes->sections->len; i++)
    print_section (outcomes->sections->pdata[i]);
  putchar ('\n');
  for (guint i = 0; i < outcomes->cautions->len; i++)
    puts (outcomes->cautions->pdata[i]);
}

/* --- the command --- */

/* --at is for records made for practice only, as everywhere. */
static gboolean
local_day (SwTool *tool, SwStore *store, const SwPractice *practice, const char *at, SwDay *today, GError **error)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (sw_practice_zone (practice));
  g_autoptr (SwClock) clock = NULL;
  SwMoment moment = SW_NO_MOMENT;

  tool->field = "at";
  if (at != NULL && !sw_moment_parse (at, &moment, error))
    return FALSE;
  if (at != NULL && !sw_store_is_practice_only (store))
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_RECORD,
                           _("A set time (--at) is only for records made for practice; this is a live record."));
      return FALSE;
    }
  clock = at != NULL ? sw_clock_new_at (moment) : sw_clock_new ();
  *today = sw_clock_now (clock, zone).local.day;
  return TRUE;
}

static SwOutcomes *
load_and_compute (SwTool *tool, const char *folder, const Options *options, const SwOutcomeQuery *query, GError **error)
{
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwPractice) practice = NULL;
  g_autoptr (GArray) rows = NULL;
  SwDay today;

  tool->field = "DIR";
  store = sw_store_open (folder, SW_STORE_READ, error);
  practice = store ? sw_store_load_practice (store, error) : NULL;
  rows = practice ? sw_store_load_treated (store, 0, error) : NULL;
  if (rows == NULL || !local_day (tool, store, practice, options->at, &today, error))
    return NULL;
  tool->field = NULL;
  return sw_outcomes_compute (rows, practice, query, today, NULL, NULL, NULL, error);
}

static gboolean
outcomes (SwTool *tool, const Options *options, GError **error)
{
  g_autoptr (SwOutcomeQuery) query = sw_outcome_query_new ();
  g_autoptr (SwOutcomes) found = NULL;

  if (!parse_query (tool, options, query, error))
    return FALSE;
  tool->field = "DIR";
  if (g_strv_length (tool->rest) != 1)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT, _("Name one folder: the record's."));
      return FALSE;
    }
  found = load_and_compute (tool, tool->rest[0], options, query, error);
  if (found == NULL)
    return FALSE;
  tool->field = "csv";
  if (options->csv != NULL && !sw_outcomes_write_tables (found, options->csv, error))
    return FALSE;
  tool->field = "pdf";
  if (options->pdf != NULL && !sw_outcome_paper_write (found, options->pdf, error))
    return FALSE;
  if (tool->json)
    print_json (found);
  else
    print_text (found);
  return TRUE;
}

SwToolExit
sw_tool_outcomes (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  g_auto (Options) options = { NULL };
  const GOptionEntry entries[] = {
    { "by", 0, 0, G_OPTION_ARG_FILENAME, &options.by,
      "Tell apart by grade, site, depth, size, weight, agent, operator or repeat", "WHAT" },
    { "only", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options.only, "Only tumours of this kind, e.g. grade=kiupel-low",
      "WHAT=CODE" },
    { "from", 0, 0, G_OPTION_ARG_FILENAME, &options.from, "First treatment day", "YYYY-MM-DD" },
    { "to", 0, 0, G_OPTION_ARG_FILENAME, &options.to, "Last treatment day", "YYYY-MM-DD" },
    { "rates", 0, 0, G_OPTION_ARG_FILENAME, &options.rates, "Failure rates of the running sum: strict, usual or wide",
      "PAIR" },
    { "published", 0, 0, G_OPTION_ARG_FILENAME, &options.published, "Compare with this published share, or none",
      "SOURCE" },
    { "csv", 0, 0, G_OPTION_ARG_FILENAME, &options.csv, "Write tables: OUT, and beside it its curves and tumours",
      "OUT" },
    { "pdf", 0, 0, G_OPTION_ARG_FILENAME, &options.pdf, "Write the report", "OUT" },
    { "at", 0, 0, G_OPTION_ARG_FILENAME, &options.at, "The time it is; only for records made for practice",
      "YYYY-MM-DDTHH:MM" },
    { NULL },
  };
  g_autoptr (GError) error = NULL;

  if (sw_tool_parse (&tool, "DIR", "All figures of the outcomes view.", entries, argc, argv, &error)
      && outcomes (&tool, &options, &error))
    return SW_TOOL_DONE;
  return sw_tool_fail (&tool, error);
}
