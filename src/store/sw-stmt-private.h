/* sw-stmt-private.h: a prepared statement, kept for the next use
 *
 *   g_autoptr (SwStmt) stmt = sw_stmt_get (db, "SELECT name FROM client_list WHERE client = ?1", error);
 *
 * Going out of scope resets it and forgets its parameters; it stays prepared. Parameters are written ?1, ?2 ...,
 * columns count from 0.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-db-private.h"

G_BEGIN_DECLS

typedef struct
{
  SwDb *db;
  sqlite3_stmt *handle;
  gboolean borrowed;
  gboolean kept; /* in db->statements; else it is freed when given back */
} SwStmt;

/* One statement of SQL, borrowed until it is given back. NULL: error. */
SwStmt *sw_stmt_get (SwDb *db, const char *sql, GError **error);
void sw_stmt_give_back (SwStmt *stmt);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwStmt, sw_stmt_give_back)
void sw_stmt_free (gpointer stmt);

void sw_stmt_bind_int (SwStmt *stmt, int parameter, gint64 value);
/* `none` becomes NULL. */
void sw_stmt_bind_int_or_null (SwStmt *stmt, int parameter, gint64 value, gint64 none);
/* NULL text becomes NULL. The text must outlive the use of the statement. */
void sw_stmt_bind_text (SwStmt *stmt, int parameter, const char *text);
void sw_stmt_bind_blob (SwStmt *stmt, int parameter, gconstpointer data, gsize length);

/* TRUE: `row` says whether there is one. */
gboolean sw_stmt_step (SwStmt *stmt, gboolean *row, GError **error);
/* For statements without results. */
gboolean sw_stmt_run (SwStmt *stmt, GError **error);

gboolean sw_stmt_column_is_null (SwStmt *stmt, int column);
gint64 sw_stmt_column_int (SwStmt *stmt, int column);
gint64 sw_stmt_column_int_or (SwStmt *stmt, int column, gint64 none);
/* Until the next step; NULL for NULL. */
const char *sw_stmt_column_text (SwStmt *stmt, int column);
gconstpointer sw_stmt_column_blob (SwStmt *stmt, int column, gsize *length);

G_END_DECLS
