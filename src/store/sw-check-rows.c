/* sw-check-rows.c: the digest chain, and rows against what their acts wrote
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-check-private.h"

#include "sw-journal-private.h"
#include "sw-row-private.h"
#include "sw-stmt-private.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h> /* unlike GLib's, xgettext knows its formats */
#include <string.h>

/* Between two reports of progress. */
#define ACTS_PER_REPORT 1000

typedef struct
{
  SwCheck *check;
  GHashTable *named[SW_N_FACTS]; /* ids that payloads name */
  guint8 before[SW_DIGEST_SIZE];
  gint64 last;  /* line before */
  gint64 total; /* lines */
} Walk;

/* --- one row --- */

typedef struct
{
  const SwPayloadRow *wanted;
  gint64 act;
  gboolean found, same;
} Comparison;

static void
compare_row (gpointer fact, gpointer data)
{
  Comparison *comparison = data;
  g_autoptr (GString) text = g_string_new (NULL);

  sw_fact_append_payload (fact, text);
  comparison->found = TRUE;
  comparison->same = ((SwFact *) fact)->act == comparison->act && text->len == comparison->wanted->length
                     && memcmp (text->str, comparison->wanted->text, text->len) == 0;
  sw_fact_free (fact);
}

static gboolean
check_row (Walk *walk, gint64 act, const SwPayloadRow *row, GError **error)
{
  Comparison comparison = { row, act, FALSE, FALSE };
  const char *table = sw_fact_type (row->row.kind)->table;

  walk->check->report->rows++;
  if (!g_hash_table_add (walk->named[row->row.kind], g_memdup2 (&row->row.id, sizeof row->row.id)))
    sw_check_trouble (walk->check, _("Row %" PRId64 " of “%s” is named by two acts."), row->row.id, table);
  if (walk->check->missing[row->row.kind])
    return TRUE;
  if (!sw_row_each (walk->check->store->db, row->row.kind, SW_ROWS_BY_ID, row->row.id, compare_row, &comparison, error))
    return FALSE;
  if (!comparison.found)
    sw_check_trouble (walk->check,
                      _("Row %" PRId64 " of “%s”, written by act %" PRId64 ", is gone."),
                      row->row.id, table, act);
  else if (!comparison.same)
    sw_check_trouble (walk->check, _("Row %" PRId64 " of “%s” is not what act %" PRId64 " wrote."),
                      row->row.id, table, act);
  return TRUE;
}

static gboolean
check_payload (Walk *walk, gint64 act, const char *payload, GError **error)
{
  g_autoptr (GArray) rows = sw_journal_parse (payload, NULL);

  if (rows == NULL)
    sw_check_trouble (walk->check, _("What act %" PRId64 " wrote can't be read in the journal."), act);
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (!check_row (walk, act, &g_array_index (rows, SwPayloadRow, i), error))
      return FALSE;
  return TRUE;
}

/* --- one line --- */

static void
check_line (Walk *walk, SwStmt *stmt)
{
  SwJournalHead head = {
    .id = sw_stmt_column_int (stmt, 0),
    .kind = sw_stmt_column_text (stmt, 1),
    .person = sw_stmt_column_int (stmt, 2),
    .roles = sw_stmt_column_int (stmt, 3),
    .patient = sw_stmt_column_int (stmt, 4),
    .at_us = sw_stmt_column_int (stmt, 5),
    .offset_minutes = sw_stmt_column_int (stmt, 6),
    .batch = sw_stmt_column_int (stmt, 7),
  };
  guint8 digest[SW_DIGEST_SIZE];
  gsize length;
  gconstpointer kept = sw_stmt_column_blob (stmt, 8, &length);

  if (head.id != walk->last + 1)
    sw_check_trouble (walk->check, _("The journal has no line between %" PRId64 " and %" PRId64 "."),
                      walk->last, head.id);
  sw_journal_digest (walk->before, &head, sw_stmt_column_text (stmt, 9), digest);
  if (length != SW_DIGEST_SIZE || memcmp (digest, kept, SW_DIGEST_SIZE) != 0)
    sw_check_trouble (walk->check, _("Line %" PRId64 " of the journal was changed: its digest does not fit."),
                      head.id);
  /* The digest as it is kept, so that one changed line is one trouble. */
  if (length == SW_DIGEST_SIZE)
    memcpy (walk->before, kept, SW_DIGEST_SIZE);
  walk->last = head.id;
}

static gboolean
check_lines (Walk *walk, GError **error)
{
  g_autoptr (SwStmt) stmt
      = sw_stmt_get (walk->check->store->db,
                     "SELECT id, kind, person, roles, patient, at_us, offset_minutes, batch, digest,"
                     " payload FROM act ORDER BY id",
                     error);
  const SwCheckOptions *options = walk->check->options;
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  while (sw_stmt_step (stmt, &row, error))
    {
      if (!row)
        return TRUE;
      check_line (walk, stmt);
      if (!check_payload (walk, walk->last, sw_stmt_column_text (stmt, 9), error))
        return FALSE;
      if (walk->check->report->acts++ % ACTS_PER_REPORT == 0 && options->progress != NULL)
        options->progress (walk->check->report->acts, walk->total, options->data);
    }
  return FALSE;
}

/* --- rows that no line names --- */

static gboolean
check_strays (Walk *walk, SwFactKind kind, GError **error)
{
  const char *table = sw_fact_type (kind)->table;
  g_autofree char *sql = g_strdup_printf ("SELECT id FROM \"%s\" ORDER BY id", table);
  g_autoptr (SwStmt) stmt = sw_stmt_get (walk->check->store->db, sql, error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  while (sw_stmt_step (stmt, &row, error))
    {
      gint64 id = row ? sw_stmt_column_int (stmt, 0) : 0;

      if (!row)
        return TRUE;
      if (!g_hash_table_contains (walk->named[kind], &id))
        sw_check_trouble (walk->check, _("Row %" PRId64 " of “%s” was written by no act."), id, table);
    }
  return FALSE;
}

static gboolean
check_all_strays (Walk *walk, GError **error)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    if (!walk->check->missing[kind] && !check_strays (walk, (SwFactKind) kind, error))
      return FALSE;
  return TRUE;
}

gboolean
sw_check_journal (SwCheck *check, GError **error)
{
  Walk walk = { .check = check };
  gboolean done;

  for (int kind = 0; kind < SW_N_FACTS; kind++)
    walk.named[kind] = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  sw_journal_genesis (check->store->id, check->store->practice_only, walk.before);
  done = sw_db_read_int (check->store->db, "SELECT count (*) FROM act", &walk.total, error)
         && check_lines (&walk, error) && check_all_strays (&walk, error);
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    g_hash_table_unref (walk.named[kind]);
  return done;
}
