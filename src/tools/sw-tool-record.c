/* sw-tool-record.c: sitewardctl record new, demo, check, backup, restore
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include "sw-check-record.h"
#include "sw-demo.h"
#include "sw-desk.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>

/* The folders that a command takes, no more and no fewer. */
static gboolean
take_folders (SwTool *tool, guint n, GError **error)
{
  tool->field = n == 1 ? "DIR" : "DIR COPY";
  if (g_strv_length (tool->rest) == n)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               n == 1 ? _("Name one folder: the record's.") : _("Name two folders: where from, and where to."));
  return FALSE;
}

/* The clock of --at, or the machine's. */
static SwClock *
clock_at (SwTool *tool, const char *at, GError **error)
{
  SwMoment moment;

  tool->field = "at";
  if (at == NULL)
    return sw_clock_new ();
  return sw_moment_parse (at, &moment, error) ? sw_clock_new_at (moment) : NULL;
}

/* --- new --- */

static void
print_new (const SwTool *tool, const char *folder, SwDesk *desk)
{
  const SwPractice *practice = sw_desk_practice (desk, NULL);
  g_autoptr (SwJson) json = sw_json_new ();

  if (!tool->json)
    {
      printf ("%s: a record in %s%s\n", folder, sw_practice_zone (practice),
              practice->practice_only ? ", only for practice" : "");
      return;
    }
  sw_json_begin_object (json, NULL);
  sw_json_string (json, "directory", folder);
  sw_json_string (json, "zone", sw_practice_zone (practice));
  sw_json_bool (json, "practice_only", practice->practice_only);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static SwToolExit
record_new (SwTool *tool, const SwFounding *founding, const char *at, GError **error)
{
  g_autoptr (SwClock) clock = NULL;
  g_autoptr (SwDesk) desk = NULL;

  if (!take_folders (tool, 1, error) || !sw_tool_need (tool, "first", founding->first_name, error))
    return SW_TOOL_BAD_INPUT;
  clock = clock_at (tool, at, error);
  if (clock == NULL)
    return SW_TOOL_BAD_INPUT;
  if (at != NULL && !founding->practice_only)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD,
                   _("A set time (--at) is only for records made for practice; this would be a live record."));
      return SW_TOOL_TROUBLE;
    }
  tool->field = NULL;
  desk = sw_desk_found (tool->rest[0], founding, clock, error);
  if (desk == NULL)
    return SW_TOOL_TROUBLE;
  print_new (tool, tool->rest[0], desk);
  return SW_TOOL_DONE;
}

static SwToolExit
run_new (SwTool *tool, int argc, char **argv, GError **error)
{
  g_autofree char *first = NULL, *zone = NULL, *name = NULL, *at = NULL;
  gboolean practice = FALSE;
  const GOptionEntry entries[] = {
    { "first", 0, 0, G_OPTION_ARG_FILENAME, &first, "The first person, who gets all three roles", "NAME" },
    { "zone", 0, 0, G_OPTION_ARG_FILENAME, &zone, "Time zone; without it the machine's", "ZONE" },
    { "name", 0, 0, G_OPTION_ARG_FILENAME, &name, "The practice's name", "NAME" },
    { "practice", 0, 0, G_OPTION_ARG_NONE, &practice, "Only for trying out; this can't be changed later", NULL },
    { "at", 0, 0, G_OPTION_ARG_FILENAME, &at, "The time it is made at; only with --practice", "YYYY-MM-DDTHH:MM" },
    { NULL },
  };
  SwFounding founding = { 0 };

  if (!sw_tool_parse (tool, "new DIR --first NAME", "Makes an empty record in an absent or empty folder.", entries,
                      argc, argv, error))
    return SW_TOOL_BAD_INPUT;
  founding = (SwFounding){ .first_name = first, .zone = zone, .practice = name, .practice_only = practice };
  return record_new (tool, &founding, at, error);
}

/* --- demo --- */

static gboolean
parse_today (SwTool *tool, const char *text, SwDay *today, GError **error)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_local ();
  g_autoptr (SwClock) clock = sw_clock_new ();

  tool->field = "today";
  if (text != NULL)
    return sw_day_parse (text, today, error);
  *today = sw_clock_now (clock, zone).local.day;
  return TRUE;
}

static void
show_progress (guint done, guint total, gpointer data)
{
  guint *shown = data;
  guint percent = total > 0 ? (guint) ((guint64) done * 100 / total) : 100;

  if (percent / 10 != *shown / 10)
    fprintf (stderr, "%u %%\n", percent);
  *shown = percent;
}

static gboolean
print_demo (const SwTool *tool, const char *folder, const SwDemoOptions *options, GError **error)
{
  g_autoptr (SwStore) store = sw_store_open (folder, SW_STORE_READ, error);
  g_autofree char *digest = store ? sw_store_head_digest (store, error) : NULL;
  g_autofree char *at = sw_moment_format (sw_demo_now (options));
  g_autoptr (SwJson) json = sw_json_new ();

  if (digest == NULL)
    return FALSE;
  if (!tool->json)
    {
      printf ("%s: an invented practice, as it is at %s\n%s\n", folder, at, digest);
      return TRUE;
    }
  sw_json_begin_object (json, NULL);
  sw_json_string (json, "directory", folder);
  sw_json_string (json, "at", at);
  sw_json_string (json, "digest", digest);
  sw_json_end (json);
  sw_tool_print_json (json);
  return TRUE;
}

static SwToolExit
run_demo (SwTool *tool, int argc, char **argv, GError **error)
{
  g_autofree char *day = NULL;
  int patients = 0, seed = 1;
  guint shown = 0;
  SwDemoOptions options = { 0 };
  const GOptionEntry entries[] = {
    { "patients", 0, 0, G_OPTION_ARG_INT, &patients, "At least so many dogs", "N" },
    { "seed", 0, 0, G_OPTION_ARG_INT, &seed, "The same seed and day give the same record", "S" },
    { "today", 0, 0, G_OPTION_ARG_FILENAME, &day, "The day it is made for; without it today", "YYYY-MM-DD" },
    { NULL },
  };

  if (!sw_tool_parse (tool, "demo DIR", "Makes an invented practice in an absent or empty folder.", entries, argc, argv,
                      error)
      || !take_folders (tool, 1, error) || !parse_today (tool, day, &options.today, error))
    return SW_TOOL_BAD_INPUT;
  tool->field = "patients";
  if (patients < 0 || patients > 1000000)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("A demo practice has 0 to 1000000 patients, not %d."), patients);
      return SW_TOOL_BAD_INPUT;
    }
  tool->field = NULL;
  options.patients = (guint) patients;
  options.seed = (guint) seed;
  options.progress = patients > 1000 ? show_progress : NULL;
  options.data = &shown;
  return sw_demo_make (tool->rest[0], &options, error) && print_demo (tool, tool->rest[0], &options, error)
             ? SW_TOOL_DONE
             : SW_TOOL_TROUBLE;
}

/* --- check --- */

static void
print_report (const SwTool *tool, const SwCheckReport *report)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_bool (json, "sound", report->troubles->len == 0);
  sw_json_int (json, "acts", report->acts);
  sw_json_int (json, "rows", report->rows);
  sw_json_string (json, "digest", report->digest);
  sw_json_begin_array (json, "troubles");
  for (guint i = 0; i < report->troubles->len; i++)
    sw_json_string (json, NULL, report->troubles->pdata[i]);
  sw_json_end (json);
  sw_json_end (json);
  if (tool->json)
    {
      sw_tool_print_json (json);
      return;
    }
  for (guint i = 0; i < report->troubles->len; i++)
    printf ("%s\n", (const char *) report->troubles->pdata[i]);
  printf ("%" G_GINT64_FORMAT " acts, %" G_GINT64_FORMAT " rows: %s\n%s\n", report->acts, report->rows,
          report->troubles->len == 0 ? "sound" : "not sound", report->digest);
}

static SwToolExit
run_check (SwTool *tool, int argc, char **argv, GError **error)
{
  g_autofree char *digest = NULL;
  const GOptionEntry entries[] = {
    { "digest", 0, 0, G_OPTION_ARG_FILENAME, &digest, "What was kept elsewhere as the newest line's", "HEX" },
    { NULL },
  };
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwCheckReport) report = NULL;

  if (!sw_tool_parse (tool, "check DIR", "Whether the record still is what was written.", entries, argc, argv, error)
      || !take_folders (tool, 1, error))
    return SW_TOOL_BAD_INPUT;
  tool->field = NULL;
  store = sw_store_open (tool->rest[0], SW_STORE_READ, error);
  report = store ? sw_check_record (store, digest, NULL, error) : NULL;
  if (report == NULL)
    return SW_TOOL_TROUBLE;
  print_report (tool, report);
  return report->troubles->len == 0 ? SW_TOOL_DONE : SW_TOOL_TROUBLE;
}

/* --- backup and restore --- */

static SwToolExit
said_copied (const SwTool *tool)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_string (json, "from", tool->rest[0]);
  sw_json_string (json, "to", tool->rest[1]);
  sw_json_end (json);
  if (tool->json)
    sw_tool_print_json (json);
  else
    printf ("%s: copied to %s, and the copy is sound\n", tool->rest[0], tool->rest[1]);
  return SW_TOOL_DONE;
}

static SwToolExit
run_backup (SwTool *tool, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[] = { { NULL } };
  g_autoptr (SwStore) store = NULL;

  if (!sw_tool_parse (tool, "backup DIR COPY",
                      "Copies a record, while it may be in use, into an absent or empty folder.", entries, argc, argv,
                      error)
      || !take_folders (tool, 2, error))
    return SW_TOOL_BAD_INPUT;
  tool->field = NULL;
  store = sw_store_open (tool->rest[0], SW_STORE_READ, error);
  if (store == NULL || !sw_store_backup (store, tool->rest[1], NULL, NULL, NULL, error))
    return SW_TOOL_TROUBLE;
  return said_copied (tool);
}

static SwToolExit
run_restore (SwTool *tool, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[] = { { NULL } };

  if (!sw_tool_parse (tool, "restore COPY DIR", "Puts a backup into an absent or empty folder.", entries, argc, argv,
                      error)
      || !take_folders (tool, 2, error))
    return SW_TOOL_BAD_INPUT;
  tool->field = NULL;
  if (!sw_store_restore (tool->rest[0], tool->rest[1], NULL, NULL, NULL, error))
    return SW_TOOL_TROUBLE;
  return said_copied (tool);
}

/* --- the family --- */

static const struct
{
  const char *name;
  SwToolExit (*run) (SwTool *tool, int argc, char **argv, GError **error);
} verbs[] = {
  { "new", run_new },       { "demo", run_demo },       { "check", run_check },
  { "backup", run_backup }, { "restore", run_restore },
};

static SwToolExit
run_verb (SwTool *tool, int argc, char **argv, GError **error)
{
  for (guint i = 0; argc > 1 && i < G_N_ELEMENTS (verbs); i++)
    if (g_str_equal (verbs[i].name, argv[1]))
      return verbs[i].run (tool, argc - 1, argv + 1, error);
  tool->field = "command";
  for (int i = 1; i < argc; i++)
    tool->json = tool->json || g_str_equal (argv[i], "--json");
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("Write record new DIR, record demo DIR, record check DIR, record backup DIR COPY or record restore "
                  "COPY DIR."));
  return SW_TOOL_BAD_INPUT;
}

SwToolExit
sw_tool_record (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  g_autoptr (GError) error = NULL;
  SwToolExit status = run_verb (&tool, argc, argv, &error);

  return error ? sw_tool_fail (&tool, error) : status;
}
