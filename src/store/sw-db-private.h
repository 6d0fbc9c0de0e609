/* sw-db-private.h: one connection to SQLite: how it is opened, its statements, and its errors as sentences
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/* In the header of the file: "Site". */
#define SW_DB_APPLICATION_ID 0x53697465

typedef struct
{
  sqlite3 *handle;
  GHashTable *statements; /* SQL text -> SwStmt, those not borrowed can be handed out */
  GCancellable *cancellable;
} SwDb;

/* The last three are for tests: a VFS that cuts the power, commits that are not waited for, a short patience. */
typedef struct
{
  gboolean read_only;
  gboolean create;
  const char *vfs;
  gboolean synchronous_off;
  int busy_ms;
} SwDbOptions;

/* Opens the file and sets the connection up; what is in the file is the caller's question. */
SwDb *sw_db_open (const char *path, const SwDbOptions *options, GError **error);
/* Write-ahead log, and every commit waits for the disk. Changes the file, so the caller first makes sure that it is a
 * record. */
gboolean sw_db_make_durable (SwDb *db, const SwDbOptions *options, GError **error);
void sw_db_close (SwDb *db);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDb, sw_db_close)

/* Runs a script without results. */
gboolean sw_db_exec (SwDb *db, const char *sql, GError **error);
/* The first column of the first row. SW_ERROR_RECORD if there is no row. */
gboolean sw_db_read_int (SwDb *db, const char *sql, gint64 *value, GError **error);

/* Makes the GError of the connection's last failure. Always FALSE, so that callers can return it. */
gboolean sw_db_fail (SwDb *db, GError **error);
/* The same for a code without a connection. */
gboolean sw_db_fail_code (int code, const char *detail, GError **error);

void sw_db_set_cancellable (SwDb *db, GCancellable *cancellable);

G_END_DECLS
