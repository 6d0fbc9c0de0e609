/* sw-journal-read.c: the journal as people and other programs read it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-journal-private.h"

#include "sw-stmt-private.h"

#include <string.h>

void
sw_journal_line_free (SwJournalLine *line)
{
  g_free (line->person_name);
  g_clear_pointer (&line->rows, g_array_unref);
  g_free (line);
}

static GArray *
rows_of_payload (const char *payload)
{
  g_autoptr (GArray) parsed = sw_journal_parse (payload, NULL);
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (SwJournalRow));

  /* A payload that can't be read is record check's to report. */
  for (guint i = 0; parsed != NULL && i < parsed->len; i++)
    g_array_append_val (rows, g_array_index (parsed, SwPayloadRow, i).row);
  return rows;
}

static SwJournalLine *
read_line (SwStmt *stmt)
{
  SwJournalLine *line = g_new0 (SwJournalLine, 1);
  gsize length;
  gconstpointer digest = sw_stmt_column_blob (stmt, 8, &length);
  int kind = sw_act_from_code (sw_stmt_column_text (stmt, 1));

  line->id = sw_stmt_column_int (stmt, 0);
  line->kind = kind < 0 ? SW_N_ACTS : (SwActKind) kind;
  line->person = sw_stmt_column_int (stmt, 2);
  line->roles = sw_stmt_column_int (stmt, 3);
  line->patient = sw_stmt_column_int (stmt, 4);
  line->at_us = sw_stmt_column_int (stmt, 5);
  line->offset_minutes = (int) sw_stmt_column_int (stmt, 6);
  line->batch = sw_stmt_column_int (stmt, 7);
  if (length == SW_DIGEST_SIZE)
    sw_journal_hex (digest, line->digest);
  line->rows = rows_of_payload (sw_stmt_column_text (stmt, 9));
  line->person_name = g_strdup (sw_stmt_column_text (stmt, 10));
  return line;
}

#define LINES \
  "SELECT a.id, a.kind, a.person, a.roles, a.patient, a.at_us, a.offset_minutes, a.batch, a.digest, a.payload," \
  " ifnull ((SELECT name FROM person_details_now WHERE person = a.person), '?') FROM act AS a WHERE a.id < ?1"

GPtrArray *
sw_store_journal (SwStore *store, gint64 patient, gint64 before, guint limit, GError **error)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_journal_line_free);
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db,
                                         patient != 0 ? LINES " AND a.patient = ?3 ORDER BY a.id DESC LIMIT ?2"
                                                      : LINES " ORDER BY a.id DESC LIMIT ?2",
                                         error);
  gboolean row;

  if (stmt == NULL)
    return NULL;
  sw_stmt_bind_int (stmt, 1, before > 0 ? before : G_MAXINT64);
  sw_stmt_bind_int (stmt, 2, limit);
  if (patient != 0)
    sw_stmt_bind_int (stmt, 3, patient);
  while (sw_stmt_step (stmt, &row, error))
    if (!row)
      return g_steal_pointer (&lines);
    else
      g_ptr_array_add (lines, read_line (stmt));
  return NULL;
}

gint64
sw_store_last_act (SwStore *store, GError **error)
{
  gint64 act;

  return sw_db_read_int (store->db, "SELECT ifnull (max (id), 0) FROM act", &act, error) ? act : -1;
}

char *
sw_store_head_digest (SwStore *store, GError **error)
{
  g_autoptr (SwStmt) stmt
      = sw_stmt_get (store->db, "SELECT lower (hex (digest)) FROM act ORDER BY id DESC LIMIT 1", error);
  gboolean row;

  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return NULL;
  return g_strdup (row ? sw_stmt_column_text (stmt, 0) : "");
}

gint64
sw_store_data_version (SwStore *store, GError **error)
{
  gint64 version;

  return sw_db_read_int (store->db, "PRAGMA data_version", &version, error) ? version : -1;
}

/* --- changes --- */

void
sw_changes_free (SwChanges *changes)
{
  if (changes == NULL)
    return;
  g_array_unref (changes->patients);
  g_free (changes);
}

typedef struct
{
  SwStore *store;
  SwChanges *changes;
  GHashTable *seen; /* patients already in changes */
} Walk;

static void
touch (Walk *walk, gint64 patient)
{
  if (g_hash_table_add (walk->seen, g_memdup2 (&patient, sizeof patient)))
    g_array_append_val (walk->changes->patients, patient);
}

/* The dogs of the client that a row of client_details is about. */
static gboolean
touch_patients_of (Walk *walk, gint64 row_id, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (walk->store->db,
                                         "SELECT patient FROM patient_list"
                                         " WHERE client = (SELECT client FROM client_details WHERE id = ?1)",
                                         error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, row_id);
  while (sw_stmt_step (stmt, &row, error))
    if (!row)
      return TRUE;
    else
      touch (walk, sw_stmt_column_int (stmt, 0));
  return FALSE;
}

static gboolean
walk_rows (Walk *walk, const char *payload, GError **error)
{
  g_autoptr (GArray) rows = rows_of_payload (payload);

  for (guint i = 0; i < rows->len; i++)
    {
      const SwJournalRow *row = &g_array_index (rows, SwJournalRow, i);

      if (sw_fact_type (row->kind)->scope == SW_SCOPE_PRACTICE)
        walk->changes->practice = TRUE;
      if (row->kind == SW_FACT_CLIENT_DETAILS && !touch_patients_of (walk, row->id, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
walk_acts (Walk *walk, gint64 after, GError **error)
{
  g_autoptr (SwStmt) stmt
    = sw_stmt_get (walk->store->db, "SELECT id, patient, payload FROM act WHERE id > ?1 ORDER BY id", error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, after);
  while (sw_stmt_step (stmt, &row, error))
    {
      if (!row)
        return TRUE;
      walk->changes->last = sw_stmt_column_int (stmt, 0);
      if (!sw_stmt_column_is_null (stmt, 1))
        touch (walk, sw_stmt_column_int (stmt, 1));
      if (!walk_rows (walk, sw_stmt_column_text (stmt, 2), error))
        return FALSE;
    }
  return FALSE;
}

SwChanges *
sw_store_changes_after (SwStore *store, gint64 act, GError **error)
{
  g_autoptr (SwChanges) changes = g_new0 (SwChanges, 1);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  Walk walk = { store, changes, seen };
  gboolean began, done;

  changes->last = act;
  changes->patients = g_array_new (FALSE, FALSE, sizeof (gint64));
  if (!sw_txn_enter_read (store, &began, error))
    return NULL;
  done = walk_acts (&walk, act, error);
  sw_txn_leave_read (store, began);
  return done ? g_steal_pointer (&changes) : NULL;
}
