/* sw-stmt.c: prepared statements
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-stmt-private.h"

static SwStmt *
prepare (SwDb *db, const char *sql, unsigned flags, GError **error)
{
  sqlite3_stmt *handle = NULL;
  const char *tail = NULL;
  SwStmt *stmt;

  if (sqlite3_prepare_v3 (db->handle, sql, -1, flags, &handle, &tail) != SQLITE_OK)
    {
      sw_db_fail (db, error);
      return NULL;
    }
  g_assert (handle != NULL && *tail == '\0'); /* one statement, and nothing after it */
  stmt = g_new0 (SwStmt, 1);
  stmt->db = db;
  stmt->handle = handle;
  return stmt;
}

SwStmt *
sw_stmt_get (SwDb *db, const char *sql, GError **error)
{
  SwStmt *stmt = g_hash_table_lookup (db->statements, sql);

  if (stmt != NULL && stmt->borrowed)
    stmt = prepare (db, sql, 0, error);
  else if (stmt == NULL && (stmt = prepare (db, sql, SQLITE_PREPARE_PERSISTENT, error)) != NULL)
    {
      stmt->kept = TRUE;
      g_hash_table_insert (db->statements, (gpointer) sqlite3_sql (stmt->handle), stmt);
    }
  if (stmt != NULL)
    stmt->borrowed = TRUE;
  return stmt;
}

void
sw_stmt_free (gpointer data)
{
  SwStmt *stmt = data;

  sqlite3_finalize (stmt->handle);
  g_free (stmt);
}

void
sw_stmt_give_back (SwStmt *stmt)
{
  if (stmt == NULL)
    return;
  if (!stmt->kept)
    {
      sw_stmt_free (stmt);
      return;
    }
  /* Resetting repeats the error of the last step, which has been reported. */
  sqlite3_reset (stmt->handle);
  sqlite3_clear_bindings (stmt->handle);
  stmt->borrowed = FALSE;
}

/* Binding fails only for a parameter that the SQL doesn't have, or without memory. */
static void
must_bind (SwStmt *stmt, int code)
{
  if (code != SQLITE_OK)
    g_error ("%s: %s", sqlite3_sql (stmt->handle), sqlite3_errstr (code));
}

void
sw_stmt_bind_int (SwStmt *stmt, int parameter, gint64 value)
{
  must_bind (stmt, sqlite3_bind_int64 (stmt->handle, parameter, value));
}

void
sw_stmt_bind_int_or_null (SwStmt *stmt, int parameter, gint64 value, gint64 none)
{
  if (value == none)
    must_bind (stmt, sqlite3_bind_null (stmt->handle, parameter));
  else
    sw_stmt_bind_int (stmt, parameter, value);
}

void
sw_stmt_bind_text (SwStmt *stmt, int parameter, const char *text)
{
  must_bind (stmt, sqlite3_bind_text (stmt->handle, parameter, text, -1, SQLITE_STATIC));
}

void
sw_stmt_bind_blob (SwStmt *stmt, int parameter, gconstpointer data, gsize length)
{
  /* An empty blob needs an address, or it would be NULL. */
  must_bind (stmt, sqlite3_bind_blob64 (stmt->handle, parameter, data ? data : "", length, SQLITE_STATIC));
}

gboolean
sw_stmt_step (SwStmt *stmt, gboolean *row, GError **error)
{
  int code = sqlite3_step (stmt->handle);

  *row = code == SQLITE_ROW;
  return code == SQLITE_ROW || code == SQLITE_DONE || sw_db_fail (stmt->db, error);
}

gboolean
sw_stmt_run (SwStmt *stmt, GError **error)
{
  gboolean row;

  return sw_stmt_step (stmt, &row, error);
}

gboolean
sw_stmt_column_is_null (SwStmt *stmt, int column)
{
  return sqlite3_column_type (stmt->handle, column) == SQLITE_NULL;
}

gint64
sw_stmt_column_int (SwStmt *stmt, int column)
{
  return sqlite3_column_int64 (stmt->handle, column);
}

gint64
sw_stmt_column_int_or (SwStmt *stmt, int column, gint64 none)
{
  return sw_stmt_column_is_null (stmt, column) ? none : sw_stmt_column_int (stmt, column);
}

const char *
sw_stmt_column_text (SwStmt *stmt, int column)
{
  return (const char *) sqlite3_column_text (stmt->handle, column);
}

gconstpointer
sw_stmt_column_blob (SwStmt *stmt, int column, gsize *length)
{
  gconstpointer data = sqlite3_column_blob (stmt->handle, column);

  *length = (gsize) sqlite3_column_bytes (stmt->handle, column);
  return data;
}
