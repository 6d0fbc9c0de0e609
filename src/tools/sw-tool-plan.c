/* sw-tool-plan.c: sitewardctl plan
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include "sw-quantity.h"
#include "sw-schedule.h"
#include "sw-tool-clinical-private.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>

#define UG_PER_MG 1000

typedef struct
{
  char *record;
  char *protocol;
  char *weight;
  char *treat;
  char **medicines;
} Options;

static void
options_clear (Options *options)
{
  g_free (options->record);
  g_free (options->protocol);
  g_free (options->weight);
  g_free (options->treat);
  g_strfreev (options->medicines);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static const SwMedicineGroup *
group_of (const SwProtocol *protocol, const char *substance)
{
  for (guint i = 0; i < protocol->groups->len; i++)
    if (sw_group_alternative (protocol->groups->pdata[i], substance) != NULL)
      return protocol->groups->pdata[i];
  return NULL;
}

static char *
listed (const SwProtocol *protocol)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = protocol->groups->pdata[i];

      for (guint k = 0; k < group->alternatives->len; k++)
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "",
                                ((const SwAlternative *) group->alternatives->pdata[k])->substance);
    }
  return g_string_free (names, FALSE);
}

static gboolean
choose (const SwProtocol *protocol, const char *substance, char **choices, GError **error)
{
  const SwMedicineGroup *group = group_of (protocol, substance);
  g_autofree char *names = NULL, *before = NULL, *changed = NULL;

  if (group == NULL)
    {
      names = listed (protocol);
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("The protocol lists no %s; choose among: %s."), substance, names);
      return FALSE;
    }
  before = sw_choices_get (*choices, group->id);
  if (before != NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("Two medicines serve the same purpose, %s and %s; choose one of them."), before, substance);
      return FALSE;
    }
  changed = sw_choices_set (*choices, group->id, substance);
  g_free (*choices);
  *choices = g_steal_pointer (&changed);
  return TRUE;
}

static gboolean
choose_all (SwTool *tool, const SwProtocol *protocol, char **medicines, char **choices, GError **error)
{
  for (guint i = 0; medicines != NULL && medicines[i] != NULL; i++)
    if (!sw_tool_need (tool, "medicine", medicines[i], error) || !choose (protocol, medicines[i], choices, error))
      return FALSE;
  return TRUE;
}

static void
json_amount (SwJson *json, const SwDosePlan *dose)
{
  sw_json_begin_array (json, "tablets");
  if (dose->strength_ug != SW_UNKNOWN)
    {
      sw_json_begin_object (json, NULL);
      sw_tool_json_scaled (json, "strength_mg", dose->strength_ug, UG_PER_MG);
      sw_tool_json_scaled (json, "count", dose->halves, 2);
      sw_json_end (json);
    }
  sw_json_end (json);
  sw_tool_json_scaled (json, "volume_ml", dose->volume_nl, SW_NL_PER_ML);
}

static void
json_dose (SwJson *json, const SwDosePlan *dose)
{
  g_autofree char *date = sw_day_format (dose->due_day), *time = sw_time_format ((int) dose->due_minute);

  sw_json_begin_object (json, NULL);
  sw_json_int (json, "day", dose->day_number);
  sw_json_string (json, "date", date);
  sw_json_string (json, "time", time);
  sw_json_string (json, "group", dose->group);
  sw_json_string (json, "medicine", dose->substance);
  sw_tool_json_scaled (json, "mg", dose->dose_ug, UG_PER_MG);
  json_amount (json, dose);
  sw_json_end (json);
}

static void
json_dispense (SwJson *json, const SwSchedule *schedule)
{
  g_autoptr (GPtrArray) rows = sw_schedule_dispense (schedule->doses);

  sw_json_begin_array (json, "dispense");
  for (guint i = 0; i < rows->len; i++)
    {
      const SwDispense *row = rows->pdata[i];

      sw_json_begin_object (json, NULL);
      sw_json_string (json, "medicine", row->substance);
      sw_json_int (json, "doses", row->doses);
      sw_tool_json_scaled (json, "strength_mg", row->strength_ug, UG_PER_MG);
      if (row->strength_ug != SW_UNKNOWN)
        sw_json_int (json, "tablets", row->tablets);
      else
        sw_json_null (json, "tablets");
      sw_tool_json_scaled (json, "volume_ml", row->strength_ug != SW_UNKNOWN ? SW_UNKNOWN : row->volume_nl,
                           SW_NL_PER_ML);
      sw_json_end (json);
    }
  sw_json_end (json);
}

/* Findings that stop, or all others. (transfer container) */
static GPtrArray *
findings_that (const SwSchedule *schedule, gboolean stop)
{
  GPtrArray *chosen = g_ptr_array_new ();

  for (guint i = 0; i < schedule->findings->len; i++)
    if ((((const SwFinding *) schedule->findings->pdata[i])->severity == SW_STOP) == stop)
      g_ptr_array_add (chosen, schedule->findings->pdata[i]);
  return chosen;
}

static void
print_json (const SwShelf *shelf, const SwScheduleOrder *order, const SwSchedule *schedule)
{
  g_autoptr (SwJson) json = sw_json_new ();
  g_autoptr (GPtrArray) refusals = findings_that (schedule, TRUE), notes = findings_that (schedule, FALSE);
  g_autofree char *treat = sw_day_format (order->treat_day);

  sw_json_begin_object (json, NULL);
  sw_shelf_json (shelf, json);
  sw_tool_json_scaled (json, "weight_kg", order->grams, SW_GRAMS_PER_KG);
  sw_json_string (json, "treat", treat);
  sw_json_begin_array (json, "doses");
  for (guint i = 0; i < schedule->doses->len; i++)
    json_dose (json, schedule->doses->pdata[i]);
  sw_json_end (json);
  json_dispense (json, schedule);
  sw_tool_json_notes (json, "refusals", refusals);
  sw_tool_json_notes (json, "notes", notes);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static char *
amount_text (const SwDosePlan *dose)
{
  g_autofree char *strength = NULL;

  if (dose->strength_ug == SW_UNKNOWN)
    {
      g_autofree char *ml = sw_drug_volume_format (dose->volume_nl);

      return g_strdup_printf ("%s mL", ml);
    }
  strength = sw_ratio_format_significant (sw_ratio (dose->strength_ug, UG_PER_MG), 1);
  if (dose->halves == 1)
    return g_strdup_printf ("1/2 x %s mg", strength);
  return g_strdup_printf ("%d%s x %s mg", (int) dose->halves / 2, dose->halves % 2 ? " 1/2" : "", strength);
}

static void
print_text (const SwShelf *shelf, const SwSchedule *schedule)
{
  sw_shelf_print (shelf);
  for (guint i = 0; i < schedule->doses->len; i++)
    {
      const SwDosePlan *dose = schedule->doses->pdata[i];
      g_autofree char *date = sw_day_format (dose->due_day), *time = sw_time_format ((int) dose->due_minute);
      g_autofree char *amount = amount_text (dose);

      printf ("day %s%d  %s %s  %-18s %s\n", dose->day_number > 0 ? "+" : dose->day_number == 0 ? " " : "",
              (int) dose->day_number, date, time, dose->substance, amount);
    }
  sw_tool_print_findings (schedule->findings);
}

static gboolean
parse_treat (SwTool *tool, const char *text, SwDay *day, GError **error)
{
  return sw_tool_need (tool, "treat", text, error) && sw_day_parse (text, day, error);
}

static SwToolExit
plan (SwTool *tool, const Options *options, GError **error)
{
  g_auto (SwShelf) shelf = { 0 };
  g_autoptr (SwSchedule) schedule = NULL;
  g_autofree char *choices = g_strdup ("");
  SwScheduleOrder order = { 0 };

  if (!sw_shelf_open (&shelf, tool, options->record, options->protocol, error)
      || !sw_tool_parse_weight (tool, options->weight, &order.grams, error)
      || !parse_treat (tool, options->treat, &order.treat_day, error)
      || !choose_all (tool, shelf.protocol, options->medicines, &choices, error))
    return SW_TOOL_BAD_INPUT;
  order.protocol = shelf.protocol;
  order.practice = shelf.practice;
  order.books = shelf.books;
  order.choices = choices;
  schedule = sw_schedule_new (&order);
  if (tool->json)
    print_json (&shelf, &order, schedule);
  else
    print_text (&shelf, schedule);
  return sw_findings_worst (schedule->findings) == SW_STOP ? SW_TOOL_REFUSED : SW_TOOL_DONE;
}

SwToolExit
sw_tool_plan (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  g_auto (Options) options = { 0 };
  const GOptionEntry entries[] = {
    { "protocol", 0, 0, G_OPTION_ARG_FILENAME, &options.protocol, "Protocol, e.g. tigilanol-eu", "ID" },
    { "weight", 0, 0, G_OPTION_ARG_FILENAME, &options.weight, "Weight of the dog, e.g. \"24.6 kg\"", "WEIGHT" },
    { "treat", 0, 0, G_OPTION_ARG_FILENAME, &options.treat, "Day of the injection", "YYYY-MM-DD" },
    { "medicine", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options.medicines,
      "A listed substance in place of the first of its group; may be given several times", "ID" },
    { "record", 0, 0, G_OPTION_ARG_FILENAME, &options.record,
      "Take protocol, medicines, hours and stock as this record holds them", "DIR" },
    { NULL },
  };
  g_autoptr (GError) error = NULL;
  SwToolExit status = SW_TOOL_BAD_INPUT;

  if (sw_tool_parse (&tool, NULL, "The medicines around a treatment day, with tablets.", entries, argc, argv, &error))
    status = plan (&tool, &options, &error);
  return error != NULL ? sw_tool_fail (&tool, error) : status;
}
