/* sw-copy.c: copying an open database into a file
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-copy-private.h"

#include "sw-files-private.h"
#include "sw-stmt-private.h"

/* One slice: 4 MB at the usual page size, some milliseconds. */
#define PAGES_PER_SLICE 1024

static gboolean
run_slices (sqlite3_backup *backup, SwProgressFunc progress, gpointer data, GCancellable *cancellable, GError **error)
{
  int code = SQLITE_OK;

  while (code == SQLITE_OK)
    {
      int total;

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      code = sqlite3_backup_step (backup, PAGES_PER_SLICE);
      total = sqlite3_backup_pagecount (backup);
      if (progress != NULL)
        progress (total - sqlite3_backup_remaining (backup), total, data);
    }
  return code == SQLITE_DONE || sw_db_fail_code (code, sqlite3_errstr (code), error);
}

static gboolean
pages_are_sound (SwDb *db, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, "PRAGMA quick_check (1)", error);
  gboolean row;

  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return FALSE;
  return (row && g_strcmp0 (sw_stmt_column_text (stmt, 0), "ok") == 0) || sw_db_fail_code (SQLITE_CORRUPT, NULL, error);
}

static gboolean
copy_into (SwDb *db, SwDb *target, SwProgressFunc progress, gpointer data, GCancellable *cancellable, GError **error)
{
  sqlite3_backup *backup = sqlite3_backup_init (target->handle, "main", db->handle, "main");
  gboolean done;

  if (backup == NULL)
    return sw_db_fail (target, error);
  done = run_slices (backup, progress, data, cancellable, error);
  sqlite3_backup_finish (backup);
  return done && pages_are_sound (target, error);
}

/* A read transaction keeps the source at one state while other connections write. */
static gboolean
hold_state (SwDb *db, gboolean *began, GError **error)
{
  gint64 pages;

  *began = sqlite3_get_autocommit (db->handle) != 0;
  return (!*began || sw_db_exec (db, "BEGIN", error))
         && sw_db_read_int (db, "SELECT count (*) FROM sqlite_schema", &pages, error);
}

static gboolean
copy_held (SwDb *db, const char *path, SwProgressFunc progress, gpointer data, GCancellable *cancellable,
           GError **error)
{
  g_autoptr (SwDb) target = sw_db_open (path, &(SwDbOptions) { .create = TRUE }, error);

  return target != NULL && copy_into (db, target, progress, data, cancellable, error);
}

gboolean
sw_copy_database (SwDb *db, const char *path, SwProgressFunc progress, gpointer data, GCancellable *cancellable,
                  GError **error)
{
  gboolean began, done;

  sw_files_remove_database (path);
  done = hold_state (db, &began, error) && copy_held (db, path, progress, data, cancellable, error)
         && sw_files_sync_file (path, error);
  if (began)
    sw_db_exec (db, "COMMIT", NULL);
  if (!done)
    sw_files_remove_database (path);
  return done;
}
