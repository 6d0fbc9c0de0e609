/* sw-tool-clinical.c: protocol, practice and weight, as the clinical commands read them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-clinical-private.h"

#include "sw-quantity.h"
#include "sw-store.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>

static char *
known_ids (const SwBooks *books)
{
  g_autoptr (GPtrArray) heads = sw_books_heads (books);
  g_autoptr (GString) ids = g_string_new (NULL);

  for (guint i = 0; i < heads->len; i++)
    {
      const SwDocumentHead *head = heads->pdata[i];

      if (head->kind == SW_DOCUMENT_PROTOCOL)
        g_string_append_printf (ids, "%s%s", ids->len > 0 ? ", " : "", head->id);
    }
  return g_strdup (ids->len > 0 ? ids->str : _("none, since no vet adopted one yet"));
}

static gboolean
open_record (SwShelf *shelf, const char *record, GError **error)
{
  g_autoptr (SwStore) store = sw_store_open (record, SW_STORE_READ, error);

  shelf->practice = store ? sw_store_load_practice (store, error) : NULL;
  shelf->books = shelf->practice ? sw_books_new (shelf->practice, error) : NULL;
  return shelf->books != NULL;
}

static gboolean
open_shipped (SwShelf *shelf, GError **error)
{
  shelf->practice = sw_practice_new ();
  shelf->books = sw_books_new_shipped (NULL, error);
  return shelf->books != NULL;
}

gboolean
sw_shelf_open (SwShelf *shelf, SwTool *tool, const char *record, const char *protocol, GError **error)
{
  g_autofree char *known = NULL;

  if (!sw_tool_need (tool, "protocol", protocol, error))
    return FALSE;
  tool->field = record ? "record" : NULL;
  if (record ? !open_record (shelf, record, error) : !open_shipped (shelf, error))
    return FALSE;
  tool->field = "protocol";
  shelf->protocol = sw_books_protocol_named (shelf->books, protocol);
  shelf->adopted = sw_practice_adopted (shelf->practice, SW_DOCUMENT_PROTOCOL, protocol) != NULL;
  if (shelf->protocol != NULL)
    return TRUE;
  known = known_ids (shelf->books);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("There is no protocol “%s”; choose one of: %s."), protocol, known);
  return FALSE;
}

void
sw_shelf_clear (SwShelf *shelf)
{
  g_clear_pointer (&shelf->books, sw_books_unref);
  g_clear_pointer (&shelf->practice, sw_practice_free);
}

void
sw_shelf_json (const SwShelf *shelf, SwJson *json)
{
  sw_json_bool (json, "adopted", shelf->adopted);
  sw_json_string (json, "note", shelf->adopted ? NULL : SW_TOOL_NOT_ADOPTED);
  sw_json_string (json, "protocol", shelf->protocol->head.id);
  sw_json_string (json, "revision", shelf->protocol->head.revision);
}

void
sw_shelf_print (const SwShelf *shelf)
{
  printf ("%s, revision %s (%s)\n", shelf->protocol->head.title, shelf->protocol->head.revision,
          shelf->adopted ? "adopted" : SW_TOOL_NOT_ADOPTED);
}

gboolean
sw_tool_parse_weight (SwTool *tool, const char *text, gint64 *grams, GError **error)
{
  return sw_tool_need (tool, "weight", text, error) && sw_mass_parse (text, grams, error);
}
