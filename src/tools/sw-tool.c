/* sw-tool.c: options, errors and exit statuses of sitewardctl
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>

static const char *const error_codes[] = {
  [SW_ERROR_INPUT] = "input",       [SW_ERROR_DOCUMENT] = "document", [SW_ERROR_REFUSED] = "refused",
  [SW_ERROR_ROLE] = "role",         [SW_ERROR_CONFLICT] = "conflict", [SW_ERROR_BUSY] = "busy",
  [SW_ERROR_DISK] = "disk",         [SW_ERROR_RECORD] = "record",
};

/* Whether --json stands among the arguments: an error in reading them is told as JSON too. */
static gboolean
wants_json (int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    if (g_str_equal (argv[i], "--json"))
      return TRUE;
  return FALSE;
}

gboolean
sw_tool_parse (SwTool *tool, const char *usage, const char *summary, const GOptionEntry *entries, int argc, char **argv,
               GError **error)
{
  const GOptionEntry json[] = {
    { "json", 0, 0, G_OPTION_ARG_NONE, &tool->json, "Print figures for programs", NULL },
    { NULL },
  };
  g_autoptr (GOptionContext) context = g_option_context_new (usage);
  g_auto (GStrv) arguments = g_new0 (char *, argc + 1);
  g_autoptr (GError) local = NULL;

  arguments[0] = g_strconcat ("sitewardctl ", argv[0], NULL); /* the name that --help shows */
  for (int i = 1; i < argc; i++)
    arguments[i] = g_strdup (argv[i]);
  g_option_context_set_summary (context, summary);
  g_option_context_add_main_entries (context, entries, NULL);
  g_option_context_add_main_entries (context, json, NULL);
  tool->json = wants_json (argc, argv);
  if (!g_option_context_parse_strv (context, &arguments, &local))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, "%s; sitewardctl %s --help lists the options.", local->message,
                   argv[0]);
      return FALSE;
    }
  tool->rest = g_strdupv (arguments + 1);
  return TRUE;
}

void
sw_tool_clear (SwTool *tool)
{
  g_clear_pointer (&tool->rest, g_strfreev);
}

gboolean
sw_tool_need (SwTool *tool, const char *field, const char *value, GError **error)
{
  tool->field = field;
  if (value == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("--%s is missing; it can't be left out."), field);
  else if (!g_utf8_validate (value, -1, NULL))
    g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("What was given for --%s is no UTF-8 text; type it again."), field);
  else
    return TRUE;
  return FALSE;
}

static void
print_error_json (const SwTool *tool, const char *code, const char *sentence)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_begin_object (json, "error");
  sw_json_string (json, "code", code);
  sw_json_string (json, "sentence", sentence);
  sw_json_string (json, "field", tool->field);
  sw_json_end (json);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static SwToolExit
exit_of (SwError code)
{
  switch (code)
    {
    case SW_ERROR_INPUT:
    case SW_ERROR_DOCUMENT:
      return SW_TOOL_BAD_INPUT;
    case SW_ERROR_REFUSED:
      return SW_TOOL_REFUSED;
    case SW_ERROR_ROLE:
    case SW_ERROR_CONFLICT:
    case SW_ERROR_BUSY:
    case SW_ERROR_DISK:
    case SW_ERROR_RECORD:
      break;
    }
  return SW_TOOL_TROUBLE;
}

/* Errors of other domains come from files: a wrong name was typed, or there is trouble with the disk. */
static SwError
code_of (const GError *error)
{
  if (error->domain == SW_ERROR)
    return (SwError) error->code;
  if (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT)
      || g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_ISDIR)
      || g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOTDIR))
    return SW_ERROR_INPUT;
  return SW_ERROR_DISK;
}

SwToolExit
sw_tool_fail (const SwTool *tool, const GError *error)
{
  SwError code = code_of (error);

  if (tool->json)
    print_error_json (tool, error_codes[code], error->message);
  else
    fprintf (stderr, "sitewardctl: %s\n", error->message);
  return exit_of (code);
}

void
sw_tool_print_json (SwJson *json)
{
  g_autofree char *text = sw_json_steal (json);

  puts (text);
}
