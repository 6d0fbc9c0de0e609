/* sw-db.c: the open sequence, and errors as sentences
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-db-private.h"

#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

/* How long a connection waits for another program's act. */
#define PATIENCE_MS 5000
/* SQLite asks this often (in steps of its virtual machine) whether to go on. */
#define STEPS_BETWEEN_CANCEL_CHECKS 10000

static SwError
error_for (int code)
{
  switch (code & 0xff)
    {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return SW_ERROR_BUSY;
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_READONLY:
      return SW_ERROR_DISK;
    case SQLITE_CONSTRAINT:
      return SW_ERROR_INPUT;
    default:
      return SW_ERROR_RECORD;
    }
}

static char *
sentence_for (int code, const char *detail)
{
  switch (code & 0xff)
    {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return g_strdup (
          _("Another program is writing to the record and has not finished. Nothing was saved: try again."));
    case SQLITE_FULL:
      return g_strdup (_("The disk is full. Nothing was saved: make room on it, then save again."));
    case SQLITE_READONLY:
      return g_strdup (
          _("The record can only be read: its disk or folder is protected from writing. Nothing was saved."));
    case SQLITE_IOERR:
      return g_strdup_printf (_("The disk failed (%s). Nothing was saved: look at the disk, then save again."), detail);
    case SQLITE_CANTOPEN:
      return g_strdup (_("The record's file can't be opened: see whether it is there and whether you may read it."));
    case SQLITE_NOTADB:
      return g_strdup (_("The file record.sqlite is not a record, or its beginning is damaged: restore a backup."));
    case SQLITE_CORRUPT:
      return g_strdup (_("The record is damaged: check it with “sitewardctl record check”, and restore a backup."));
    case SQLITE_CONSTRAINT:
      return g_strdup_printf (_("The record can't hold this row (%s)."), detail);
    default:
      return g_strdup_printf (_("The record could not be used (%s)."), detail);
    }
}

gboolean
sw_db_fail_code (int code, const char *detail, GError **error)
{
  g_autofree char *sentence = NULL;

  if ((code & 0xff) == SQLITE_INTERRUPT)
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, _("It was cancelled."));
  else
    {
      sentence = sentence_for (code, detail);
      g_set_error_literal (error, SW_ERROR, error_for (code), sentence);
    }
  return FALSE;
}

gboolean
sw_db_fail (SwDb *db, GError **error)
{
  return sw_db_fail_code (sqlite3_extended_errcode (db->handle), sqlite3_errmsg (db->handle), error);
}

gboolean
sw_db_exec (SwDb *db, const char *sql, GError **error)
{
  if (sqlite3_exec (db->handle, sql, NULL, NULL, NULL) != SQLITE_OK)
    return sw_db_fail (db, error);
  return TRUE;
}

gboolean
sw_db_read_int (SwDb *db, const char *sql, gint64 *value, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, sql, error);
  gboolean row;

  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return FALSE;
  if (!row)
    return sw_db_fail_code (SQLITE_CORRUPT, NULL, error);
  *value = sw_stmt_column_int (stmt, 0);
  return TRUE;
}

static int
ask_cancelled (gpointer cancellable)
{
  return g_cancellable_is_cancelled (cancellable);
}

void
sw_db_set_cancellable (SwDb *db, GCancellable *cancellable)
{
  g_set_object (&db->cancellable, cancellable);
  sqlite3_progress_handler (db->handle, STEPS_BETWEEN_CANCEL_CHECKS, cancellable ? ask_cancelled : NULL, cancellable);
}

/* Nothing that a hostile or broken schema could make the connection do by itself. */
static gboolean
configure_handle (sqlite3 *handle)
{
  static const struct { int option, value; } settings[] = {
    { SQLITE_DBCONFIG_ENABLE_FKEY, 1 },    { SQLITE_DBCONFIG_ENABLE_TRIGGER, 1 }, { SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0 },
    { SQLITE_DBCONFIG_DQS_DDL, 0 },        { SQLITE_DBCONFIG_DQS_DML, 0 },        { SQLITE_DBCONFIG_DEFENSIVE, 1 },
    { SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    if (sqlite3_db_config (handle, settings[i].option, settings[i].value, NULL) != SQLITE_OK)
      return FALSE;
  return TRUE;
}

static gboolean
require_wal (SwDb *db, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, "PRAGMA journal_mode = WAL", error);
  gboolean row;

  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return FALSE;
  if (!row || g_strcmp0 (sw_stmt_column_text (stmt, 0), "wal") != 0)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_RECORD,
                           _("The record can't be kept safely here: the disk does not support a write-ahead log. "
                             "Move the folder to a disk of this computer."));
      return FALSE;
    }
  return TRUE;
}

static gboolean
set_up (SwDb *db, const SwDbOptions *options, GError **error)
{
  sqlite3_extended_result_codes (db->handle, 1);
  if (!configure_handle (db->handle))
    return sw_db_fail (db, error);
  sqlite3_busy_timeout (db->handle, options->busy_ms > 0 ? options->busy_ms : PATIENCE_MS);
  /* The cache is a ceiling, reached only by a batch of many thousand acts. */
  return sw_db_exec (db, "PRAGMA recursive_triggers = ON; PRAGMA cache_size = -65536", error)
         && (!options->read_only || sw_db_exec (db, "PRAGMA query_only = ON", error));
}

gboolean
sw_db_make_durable (SwDb *db, const SwDbOptions *options, GError **error)
{
  return require_wal (db, error)
         && sw_db_exec (db, options->synchronous_off ? "PRAGMA synchronous = OFF" : "PRAGMA synchronous = FULL", error);
}

SwDb *
sw_db_open (const char *path, const SwDbOptions *options, GError **error)
{
  int flags = SQLITE_OPEN_NOMUTEX | (options->read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE)
              | (options->create ? SQLITE_OPEN_CREATE : 0);
  g_autoptr (SwDb) db = g_new0 (SwDb, 1);
  int code = sqlite3_open_v2 (path, &db->handle, flags, options->vfs);

  db->statements = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, sw_stmt_free);
  if (code != SQLITE_OK)
    {
      sw_db_fail_code (code, sqlite3_errstr (code), error);
      return NULL;
    }
  if (!set_up (db, options, error))
    return NULL;
  return g_steal_pointer (&db);
}

void
sw_db_close (SwDb *db)
{
  if (db == NULL)
    return;
  sw_db_set_cancellable (db, NULL);
  g_hash_table_unref (db->statements);
  /* The last connection to close brings the write-ahead log home. */
  if (sqlite3_close (db->handle) != SQLITE_OK)
    g_critical ("a statement outlives its connection: %s", sqlite3_sql (sqlite3_next_stmt (db->handle, NULL)));
  g_free (db);
}
