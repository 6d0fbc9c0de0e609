/* sw-clients.c: finding a client by name
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store-private.h"

#include "sw-stmt-private.h"

void
sw_client_row_free (SwClientRow *row)
{
  g_free (row->name);
  g_free (row->phone);
  g_free (row);
}

/* Whether each term begins a word of the name. */
static gboolean
name_has_all (const char *name, char **terms)
{
  g_autoptr (GPtrArray) words = sw_search_words (name, NULL, 0);

  for (guint i = 0; terms[i] != NULL; i++)
    {
      gboolean found = FALSE;

      for (guint j = 0; j < words->len && !found; j++)
        found = g_str_has_prefix (words->pdata[j], terms[i]);
      if (!found)
        return FALSE;
    }
  return TRUE;
}

static SwClientRow *
read_client_row (SwStmt *stmt)
{
  SwClientRow *row = g_new0 (SwClientRow, 1);

  row->client = sw_stmt_column_int (stmt, 0);
  row->name = g_strdup (sw_stmt_column_text (stmt, 1));
  row->phone = g_strdup (sw_stmt_column_text (stmt, 2));
  return row;
}

static gboolean
read_matching (SwStmt *stmt, char **terms, guint most, GPtrArray *clients, GError **error)
{
  gboolean row;

  while (clients->len < most)
    {
      if (!sw_stmt_step (stmt, &row, error))
        return FALSE;
      if (!row)
        break;
      if (name_has_all (sw_stmt_column_text (stmt, 1), terms))
        g_ptr_array_add (clients, read_client_row (stmt));
    }
  return TRUE;
}

GPtrArray *
sw_store_find_clients (SwStore *store, const char *search, guint most, GError **error)
{
  g_auto (GStrv) terms = sw_search_terms (search);
  const char *first = terms[0] ? terms[0] : "";
  g_autofree char *above = sw_search_above (first);
  g_autoptr (GPtrArray) clients = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_client_row_free);
  /* The first term goes through the index of words, the others look at what it found. */
  g_autoptr (SwStmt) stmt = sw_stmt_get (
      store->db,
      terms[0] ? "SELECT client, name, phone FROM client_list WHERE client IN"
                 " (SELECT client FROM client_word WHERE word >= ?1 AND word < ?2) ORDER BY sort_key, client"
               : "SELECT client, name, phone FROM client_list ORDER BY sort_key, client",
      error);

  if (stmt == NULL)
    return NULL;
  if (terms[0] != NULL)
    {
      sw_stmt_bind_text (stmt, 1, first);
      sw_stmt_bind_text (stmt, 2, above);
    }
  return read_matching (stmt, terms, most, clients, error) ? g_steal_pointer (&clients) : NULL;
}
