/* sw-tool-score.c: sitewardctl score
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include "sw-quantity.h"
#include "sw-response.h"

#include <stdio.h>

/* "17.0", "6 + 5" for a tumour that has split, "0" for gone, "-" for not evaluable. */
static gboolean
parse_size (const char *text, SwSize *size, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, "+", -1);

  if (g_str_equal (text, "0") || g_str_equal (text, "-"))
    {
      *size = sw_size_of_state (SW_NO_DAY, *text == '0' ? SW_SITE_GONE : SW_SITE_NOT_EVALUABLE);
      return TRUE;
    }
  for (guint i = 0; i == 0 || parts[i] != NULL; i++)
    {
      gint64 length;
      SwSize part;

      if (!sw_length_parse (parts[i] ? g_strstrip (parts[i]) : "", &length, error))
        return FALSE;
      part = sw_size_longest (SW_NO_DAY, sw_ratio (length, 1));
      if (i == 0)
        *size = part;
      else
        sw_size_add_part (size, &part);
    }
  return TRUE;
}

static gboolean
parse_sizes (const char *text, GArray *sizes, GError **error)
{
  g_auto (GStrv) visits = g_strsplit (text, ";", -1);

  for (guint i = 0; visits[i] != NULL; i++)
    {
      SwSize size;

      if (!parse_size (g_strstrip (visits[i]), &size, error))
        return FALSE;
      g_array_append_val (sizes, size);
    }
  return TRUE;
}

static char *
next_sentence (const SwResponse *response)
{
  g_autofree char *sentence = sw_finding_sentence (response->next), *next = sw_finding_next (response->next);

  return g_strdup_printf ("%s %s", sentence, next ? next : "");
}

static void
print_json (const SwResponse *response)
{
  g_autoptr (SwJson) json = sw_json_new ();
  g_autofree char *next = next_sentence (response);

  sw_json_begin_object (json, NULL);
  sw_json_bool (json, "adopted", FALSE);
  sw_json_string (json, "note", SW_TOOL_NOT_ADOPTED);
  sw_json_string (json, "category", sw_category_code (response->category));
  sw_json_string (json, "next", next);
  sw_json_string (json, "next_code", sw_finding_code (response->next->code));
  sw_tool_json_notes (json, "notes", response->findings);
  sw_tool_json_why (json, response->why);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
print_text (const SwResponse *response)
{
  g_autofree char *next = next_sentence (response);

  printf ("%s, %s (%s)\n%s\n", sw_category_code (response->category), sw_category_name (response->category),
          SW_TOOL_NOT_ADOPTED, next);
  sw_tool_print_findings (response->findings);
  sw_tool_print_why (response->why);
}

static SwToolExit
score (SwTool *tool, const char *longest, GError **error)
{
  const SwScoring scoring = { .course_day = SW_UNKNOWN, .score_day = SW_NO_DAY };
  g_autoptr (GArray) sizes = g_array_new (FALSE, FALSE, sizeof (SwSize));
  g_autoptr (SwResponse) response = NULL;

  if (!sw_tool_need (tool, "longest", longest, error) || !parse_sizes (longest, sizes, error))
    return SW_TOOL_BAD_INPUT;
  response = sw_response_score ((const SwSize *) (gpointer) sizes->data, sizes->len, &scoring, error);
  if (response == NULL)
    return SW_TOOL_BAD_INPUT;
  if (tool->json)
    print_json (response);
  else
    print_text (response);
  return SW_TOOL_DONE;
}

SwToolExit
sw_tool_score (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  g_autofree char *longest = NULL;
  const GOptionEntry entries[] = {
    { "longest", 0, 0, G_OPTION_ARG_FILENAME, &longest,
      "Longest diameters, baseline first, e.g. \"17.0; 5; 0\": 0 is gone, - not evaluable, 6+5 the parts of a split "
      "one",
      "SIZES" },
    { NULL },
  };
  g_autoptr (GError) error = NULL;
  SwToolExit status = SW_TOOL_BAD_INPUT;

  if (sw_tool_parse (&tool, NULL, "The response of a tumour, after the canine RECIST consensus.", entries, argc, argv,
                     &error))
    status = score (&tool, longest, &error);
  return error != NULL ? sw_tool_fail (&tool, error) : status;
}
