/* sw-tool-protocols.c: sitewardctl protocols, and protocols check FILE
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include "sw-books.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>

static void
json_head (SwJson *json, const SwDocumentHead *head)
{
  sw_json_begin_object (json, NULL);
  sw_json_string (json, "id", head->id);
  sw_json_string (json, "revision", head->revision);
  sw_json_string (json, "title", head->title);
  sw_json_bool (json, "adoptable", sw_document_adoptable (head));
  sw_json_string (json, "digest", head->digest);
  sw_json_end (json);
}

static void
print_head (const SwDocumentHead *head)
{
  printf ("%s, revision %s: %s%s\n", head->id, head->revision, head->title,
          sw_document_adoptable (head) ? "" : " (figures are missing: not adoptable)");
}

static SwToolExit
list (const SwTool *tool, GError **error)
{
  g_autoptr (SwBooks) books = sw_books_new_shipped (NULL, error);
  g_autoptr (GPtrArray) heads = books ? sw_books_heads (books) : NULL;
  g_autoptr (SwJson) json = sw_json_new ();

  if (heads == NULL)
    return SW_TOOL_TROUBLE;
  sw_json_begin_array (json, NULL);
  for (guint i = 0; i < heads->len; i++)
    {
      const SwDocumentHead *head = heads->pdata[i];

      if (head->kind != SW_DOCUMENT_PROTOCOL)
        continue;
      if (tool->json)
        json_head (json, head);
      else
        print_head (head);
    }
  sw_json_end (json);
  if (tool->json)
    sw_tool_print_json (json);
  return SW_TOOL_DONE;
}

/* Checked as at adoption: the medicines it names are looked up among the shipped ones. */
static SwToolExit
check (const SwTool *tool, const char *file, GError **error)
{
  g_autoptr (SwBooks) books = sw_books_new_shipped (NULL, error);
  g_autoptr (SwProtocol) protocol = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (SwJson) json = sw_json_new ();
  char *text = NULL;
  gsize size = 0;

  if (books == NULL || !g_file_get_contents (file, &text, &size, error))
    return SW_TOOL_TROUBLE;
  bytes = g_bytes_new_take (text, size);
  protocol = sw_protocol_parse (file, bytes, sw_books_medicines (books), error);
  if (protocol == NULL)
    return SW_TOOL_BAD_INPUT;
  json_head (json, &protocol->head);
  if (tool->json)
    sw_tool_print_json (json);
  else
    print_head (&protocol->head);
  return SW_TOOL_DONE;
}

static SwToolExit
run (SwTool *tool, GError **error)
{
  char **rest = tool->rest;

  if (rest[0] == NULL)
    return list (tool, error);
  if (g_str_equal (rest[0], "check") && rest[1] != NULL && rest[2] == NULL)
    {
      tool->field = "file";
      return check (tool, rest[1], error);
    }
  g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT, _("Write protocols alone, or protocols check and one file."));
  return SW_TOOL_BAD_INPUT;
}

SwToolExit
sw_tool_protocols (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  const GOptionEntry entries[] = { { NULL } };
  g_autoptr (GError) error = NULL;
  SwToolExit status = SW_TOOL_BAD_INPUT;

  if (sw_tool_parse (&tool, "[check FILE]", "The shipped protocols; or whether a file holds a sound one.", entries,
                     argc, argv, &error))
    status = run (&tool, &error);
  return error != NULL ? sw_tool_fail (&tool, error) : status;
}
