/* main.c: sitewardctl, the command line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <stdio.h>

typedef struct
{
  const char *name;
  const char *summary;
  SwToolExit (*run) (int argc, char **argv);
} Command;

static const Command commands[] = {
  { "dose", "volumes, doses and limits of a treatment", sw_tool_dose },
  { "plan", "the medicines around a treatment day", sw_tool_plan },
  { "score", "the response of a tumour", sw_tool_score },
  { "protocols", "list the protocols, or check a file: protocols check FILE", sw_tool_protocols },
  { "record", "a practice's record: record new, demo, check, backup, restore", sw_tool_record },
  { "outcomes", "what the practice achieved: all figures of the outcomes view", sw_tool_outcomes },
  { "figures", "statistics on numbers or a table from elsewhere", sw_tool_figures },
};

static void
print_usage (FILE *out)
{
  fprintf (out, "Usage: sitewardctl [--lang LANGUAGE] COMMAND [OPTION...]\n\n");
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    fprintf (out, "  %-10s %s\n", commands[i].name, commands[i].summary);
  fprintf (out, "\nsitewardctl COMMAND --help shows a command's options. Exit status: 0 done, 2 bad input or usage,\n"
                "3 refused by a clinical limit, 4 record, role or disk trouble.\n"
                "Siteward supports a licensed veterinarian and replaces none.\n");
}

/* English unless asked: only the words change, never the decimal point. */
static void
choose_language (const char *language)
{
  g_setenv ("LANGUAGE", language, TRUE);
  setlocale (LC_MESSAGES, "");
  bindtextdomain (GETTEXT_PACKAGE, SW_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
}

static const Command *
find_command (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].name, name))
      return &commands[i];
  return NULL;
}

static gboolean
asks (const char *argument, const char *first, const char *second)
{
  return g_str_equal (argument, first) || g_str_equal (argument, second);
}

static SwToolExit
run (int argc, char **argv)
{
  const Command *command;
  g_autoptr (GError) error = NULL;
  SwTool tool = { .field = "command" };

  if (argc < 2 || asks (argv[1], "--help", "-h"))
    {
      print_usage (argc < 2 ? stderr : stdout);
      return argc < 2 ? SW_TOOL_BAD_INPUT : SW_TOOL_DONE;
    }
  if (g_str_equal (argv[1], "--version"))
    {
      puts ("sitewardctl " SW_VERSION);
      return SW_TOOL_DONE;
    }
  command = find_command (argv[1]);
  if (command != NULL)
    return command->run (argc - 1, argv + 1);
  for (int i = 2; i < argc; i++)
    tool.json = tool.json || g_str_equal (argv[i], "--json");
  g_set_error (&error, SW_ERROR, SW_ERROR_INPUT, "There is no command “%s”; sitewardctl --help lists them.",
               argv[1]);
  return sw_tool_fail (&tool, error);
}

int
main (int argc, char **argv)
{
  setlocale (LC_CTYPE, "C.UTF-8");
  if (argc > 2 && g_str_equal (argv[1], "--lang"))
    {
      choose_language (argv[2]);
      argv[2] = argv[0];
      return run (argc - 2, argv + 2);
    }
  return run (argc, argv);
}
