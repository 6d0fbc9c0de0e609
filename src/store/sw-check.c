/* sw-check.c: is the record still what was written?
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-check-private.h"

#include "sw-schema-private.h"
#include "sw-stmt-private.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h> /* unlike GLib's, xgettext knows its formats */
#include <stdarg.h>

#define MOST_TROUBLES 1000

void
sw_check_report_free (SwCheckReport *report)
{
  if (report == NULL)
    return;
  g_free (report->digest);
  g_ptr_array_unref (report->troubles);
  g_free (report);
}

void
sw_check_trouble (SwCheck *check, const char *format, ...)
{
  va_list arguments;

  if (check->report->troubles->len == MOST_TROUBLES)
    return;
  va_start (arguments, format);
  g_ptr_array_add (check->report->troubles, g_strdup_vprintf (format, arguments));
  va_end (arguments);
}

/* --- the schema, against one made now in memory by the same steps --- */

static GHashTable *
read_schema (SwDb *db, GError **error)
{
  g_autoptr (GHashTable) objects = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (SwStmt) stmt
    = sw_stmt_get (db, "SELECT name, ifnull (sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%'", error);
  gboolean row;

  if (stmt == NULL)
    return NULL;
  while (sw_stmt_step (stmt, &row, error))
    if (!row)
      return g_steal_pointer (&objects);
    else
      g_hash_table_insert (objects, g_strdup (sw_stmt_column_text (stmt, 0)), g_strdup (sw_stmt_column_text (stmt, 1)));
  return NULL;
}

static GHashTable *
make_schema (GError **error)
{
  g_autoptr (SwDb) db = sw_db_open (":memory:", &(SwDbOptions) { .create = TRUE }, error);
  const SwSchemaStep *steps;
  guint n;

  steps = sw_schema_steps (&n);
  return db != NULL && sw_schema_upgrade (db, steps, n, 0, error) ? read_schema (db, error) : NULL;
}

static void
compare_object (SwCheck *check, const char *name, const char *wanted, const char *found)
{
  int kind = sw_fact_kind_from_table (name);

  if (g_strcmp0 (wanted, found) == 0)
    return;
  if (found == NULL)
    sw_check_trouble (check, _("“%s” is missing from the record's layout: another program removed it."), name);
  else
    sw_check_trouble (check, _("“%s” in the record's layout was altered by another program."), name);
  if (kind >= 0)
    check->missing[kind] = TRUE;
  if (g_str_equal (name, "act"))
    check->no_journal = TRUE;
  /* Whatever it is: lists are made of all of it. */
  check->no_derived = TRUE;
}

static gboolean
check_schema (SwCheck *check, GError **error)
{
  g_autoptr (GHashTable) wanted = make_schema (error);
  g_autoptr (GHashTable) found = wanted ? read_schema (check->store->db, error) : NULL;
  GHashTableIter iter;
  gpointer name, sql;

  if (found == NULL)
    return FALSE;
  g_hash_table_iter_init (&iter, wanted);
  while (g_hash_table_iter_next (&iter, &name, &sql))
    compare_object (check, name, sql, g_hash_table_lookup (found, name));
  g_hash_table_iter_init (&iter, found);
  while (g_hash_table_iter_next (&iter, &name, &sql))
    if (!g_hash_table_contains (wanted, name))
      sw_check_trouble (check, _("“%s” in the record's layout was added by another program."), (char *) name);
  return TRUE;
}

/* --- pages and references --- */

static gboolean
check_pages (SwCheck *check, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (check->store->db, "PRAGMA integrity_check", error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  while (sw_stmt_step (stmt, &row, error))
    {
      if (!row)
        return TRUE;
      if (g_strcmp0 (sw_stmt_column_text (stmt, 0), "ok") != 0)
        sw_check_trouble (check, _("The file is damaged: %s. Restore a backup."), sw_stmt_column_text (stmt, 0));
    }
  return FALSE;
}

static gboolean
check_references (SwCheck *check, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (check->store->db, "PRAGMA foreign_key_check", error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  while (sw_stmt_step (stmt, &row, error))
    {
      if (!row)
        return TRUE;
      sw_check_trouble (check, _("Row %" PRId64 " of “%s” refers to a row of “%s” that is not there."),
                        sw_stmt_column_int (stmt, 1), sw_stmt_column_text (stmt, 0), sw_stmt_column_text (stmt, 2));
    }
  return FALSE;
}

static gboolean
check_digest (SwCheck *check, GError **error)
{
  check->report->digest = sw_store_head_digest (check->store, error);
  if (check->report->digest == NULL)
    return FALSE;
  if (check->options->digest != NULL && g_ascii_strcasecmp (check->options->digest, check->report->digest) != 0)
    sw_check_trouble (
        check,
        _("The newest line of the journal has the digest %s, but %s was expected: the journal was cut, written "
           "anew, or has grown since."),
        check->report->digest, check->options->digest);
  return TRUE;
}

static gboolean
check_all (SwCheck *check, GError **error)
{
  return check_schema (check, error) && check_pages (check, error) && check_references (check, error)
         && (check->no_journal || (check_digest (check, error) && sw_check_journal (check, error)))
         && (check->no_derived || sw_check_derived (check, error));
}

SwCheckReport *
sw_store_check (SwStore *store, const SwCheckOptions *options, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwCheckReport) report = g_new0 (SwCheckReport, 1);
  SwCheck check = { .store = store, .options = options, .report = report };
  gboolean began, done;

  report->troubles = g_ptr_array_new_with_free_func (g_free);
  if (!sw_txn_enter_read (store, &began, error))
    return NULL;
  sw_store_set_cancellable (store, cancellable);
  done = check_all (&check, error);
  sw_store_set_cancellable (store, NULL);
  sw_txn_leave_read (store, began);
  return done ? g_steal_pointer (&report) : NULL;
}
