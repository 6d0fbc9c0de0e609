/* sw-journal.c: spelling, digesting and writing lines of the journal
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-journal-private.h"

#include "sw-schema-private.h"
#include "sw-stmt-private.h"

#include "sw-text.h"

#include <string.h>

GString *
sw_journal_payload (const GPtrArray *facts)
{
  GString *payload = g_string_new (NULL);
  g_autoptr (GString) row = g_string_new (NULL);

  sw_text_append_int (payload, SW_SCHEMA_NOW);
  for (guint i = 0; facts != NULL && i < facts->len; i++)
    {
      g_string_truncate (row, 0);
      sw_fact_append_payload (facts->pdata[i], row);
      sw_text_append_bytes (payload, row->str, row->len);
    }
  return payload;
}

static void
finish (GChecksum *checksum, guint8 *digest)
{
  gsize size = SW_DIGEST_SIZE;

  g_checksum_get_digest (checksum, digest, &size);
}

void
sw_journal_genesis (const char *record, gboolean practice_only, guint8 *digest)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autoptr (GString) text = g_string_new (NULL);

  sw_text_append_field (text, record);
  sw_text_append_int (text, practice_only);
  g_checksum_update (checksum, (const guchar *) text->str, (gssize) text->len);
  finish (checksum, digest);
}

static void
append_head (GString *text, const SwJournalHead *head)
{
  sw_text_append_int (text, head->id);
  sw_text_append_field (text, head->kind);
  sw_text_append_int (text, head->person);
  sw_text_append_int (text, head->roles);
  sw_text_append_int (text, head->patient);
  sw_text_append_int (text, head->at_us);
  sw_text_append_int (text, head->offset_minutes);
  sw_text_append_int (text, head->batch);
}

void
sw_journal_digest (const guint8 *before, const SwJournalHead *head, const char *payload, guint8 *digest)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autoptr (GString) text = g_string_new (NULL);

  append_head (text, head);
  g_checksum_update (checksum, before, SW_DIGEST_SIZE);
  g_checksum_update (checksum, (const guchar *) text->str, (gssize) text->len);
  g_checksum_update (checksum, (const guchar *) payload, -1);
  finish (checksum, digest);
}

void
sw_journal_hex (const guint8 *digest, char *text)
{
  for (int i = 0; i < SW_DIGEST_SIZE; i++)
    g_snprintf (text + 2 * i, 3, "%02x", digest[i]);
}

gboolean
sw_journal_read_head (SwStore *store, GError **error)
{
  g_autoptr (SwStmt) stmt = NULL;
  gconstpointer digest;
  gsize length;
  gboolean row;

  if (store->next_act != 0)
    return TRUE;
  stmt = sw_stmt_get (store->db, "SELECT id, digest FROM act ORDER BY id DESC LIMIT 1", error);
  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return FALSE;
  store->next_act = row ? sw_stmt_column_int (stmt, 0) + 1 : 1;
  if (!row)
    {
      sw_journal_genesis (store->id, store->practice_only, store->head);
      return TRUE;
    }
  digest = sw_stmt_column_blob (stmt, 1, &length);
  if (length != SW_DIGEST_SIZE)
    return sw_db_fail_code (SQLITE_CORRUPT, NULL, error);
  memcpy (store->head, digest, SW_DIGEST_SIZE);
  return TRUE;
}

gboolean
sw_journal_write (SwStore *store, const SwJournalHead *head, const char *payload, GError **error)
{
  static const char sql[]
      = "INSERT INTO act (id, kind, person, roles, patient, at_us, offset_minutes, batch, digest, payload)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)";
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, sql, error);
  guint8 digest[SW_DIGEST_SIZE];

  if (stmt == NULL)
    return FALSE;
  sw_journal_digest (store->head, head, payload, digest);
  sw_stmt_bind_int (stmt, 1, head->id);
  sw_stmt_bind_text (stmt, 2, head->kind);
  sw_stmt_bind_int (stmt, 3, head->person);
  sw_stmt_bind_int (stmt, 4, head->roles);
  sw_stmt_bind_int_or_null (stmt, 5, head->patient, 0);
  sw_stmt_bind_int (stmt, 6, head->at_us);
  sw_stmt_bind_int (stmt, 7, head->offset_minutes);
  sw_stmt_bind_int_or_null (stmt, 8, head->batch, 0);
  sw_stmt_bind_blob (stmt, 9, digest, sizeof digest);
  sw_stmt_bind_text (stmt, 10, payload);
  if (!sw_stmt_run (stmt, error))
    return FALSE;
  memcpy (store->head, digest, sizeof digest);
  store->next_act = head->id + 1;
  return TRUE;
}

gboolean
sw_journal_next_field (const char **cursor, const char **value, gsize *length)
{
  const char *at = *cursor;
  char *after;
  guint64 size;

  if (*at == '\0')
    return FALSE;
  if (g_str_has_prefix (at, "-,"))
    {
      *value = NULL;
      *length = 0;
      *cursor = at + 2;
      return TRUE;
    }
  *cursor = NULL;
  if (!g_ascii_isdigit (*at))
    return FALSE;
  size = g_ascii_strtoull (at, &after, 10);
  if (*after != ':' || memchr (after + 1, '\0', size) != NULL || after[1 + size] != ',')
    return FALSE;
  *value = after + 1;
  *length = size;
  *cursor = after + 2 + size;
  return TRUE;
}

static gboolean
next_int (const char **cursor, gint64 *number)
{
  const char *value;
  gsize length;

  if (!sw_journal_next_field (cursor, &value, &length) || value == NULL)
    return FALSE;
  *number = g_ascii_strtoll (value, NULL, 10); /* stops at the comma */
  return TRUE;
}

static gboolean
parse_row (const char *text, SwJournalRow *row)
{
  g_autofree char *table = NULL;
  const char *value;
  gint64 patient, withdrawn;
  gsize length;
  int kind;

  if (!sw_journal_next_field (&text, &value, &length) || value == NULL)
    return FALSE;
  table = g_strndup (value, length);
  kind = sw_fact_kind_from_table (table);
  if (kind < 0 || !next_int (&text, &row->id) || !next_int (&text, &patient) || !next_int (&text, &row->replaces)
      || !next_int (&text, &withdrawn))
    return FALSE;
  row->kind = (SwFactKind) kind;
  row->withdrawn = withdrawn != 0;
  return TRUE;
}

GArray *
sw_journal_parse (const char *payload, gint64 *version)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (SwPayloadRow));
  const char *cursor = payload;
  gint64 schema;
  SwPayloadRow row;

  if (!next_int (&cursor, &schema))
    return NULL;
  while (cursor != NULL && sw_journal_next_field (&cursor, &row.text, &row.length))
    {
      if (row.text == NULL || !parse_row (row.text, &row.row))
        return NULL;
      g_array_append_val (rows, row);
    }
  if (cursor == NULL)
    return NULL;
  if (version != NULL)
    *version = schema;
  return g_steal_pointer (&rows);
}
