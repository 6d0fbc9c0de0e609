/* sw-tool-clinical.c: protocol and weight, as the clinical commands read them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-clinical-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

static char *
known_ids (const SwBooks *books)
{
  g_autoptr (GPtrArray) heads = sw_books_heads (books);
  GString *ids = g_string_new (NULL);

  for (guint i = 0; i < heads->len; i++)
    {
      const SwDocumentHead *head = heads->pdata[i];

      if (head->kind == SW_DOCUMENT_PROTOCOL)
        g_string_append_printf (ids, "%s%s", ids->len > 0 ? ", " : "", head->id);
    }
  return g_string_free (ids, FALSE);
}

const SwProtocol *
sw_tool_find_protocol (SwTool *tool, const char *id, SwBooks **books, GError **error)
{
  const SwProtocol *protocol;
  g_autofree char *known = NULL;

  if (!sw_tool_need (tool, "protocol", id, error) || (*books = sw_books_new_shipped (NULL, error)) == NULL)
    return NULL;
  protocol = sw_books_protocol_named (*books, id);
  if (protocol != NULL)
    return protocol;
  known = known_ids (*books);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("There is no protocol “%s”; choose one of: %s."), id, known);
  return NULL;
}

gboolean
sw_tool_parse_weight (SwTool *tool, const char *text, gint64 *grams, GError **error)
{
  return sw_tool_need (tool, "weight", text, error) && sw_mass_parse (text, grams, error);
}
