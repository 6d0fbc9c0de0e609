/* sw-txn.c: transactions: one at a time, and which kind it is
 *
 * A read transaction never becomes a write transaction: SQLite refuses that at once if somebody wrote in between,
 * however patient one is. Whoever will write begins with sw_store_begin().
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-store-private.h"

#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
run (SwStore *store, const char *sql, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, sql, error);

  return stmt != NULL && sw_stmt_run (stmt, error);
}

static gboolean
require_none (SwStore *store, GError **error)
{
  if (store->txn == SW_TXN_NONE)
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_RECORD, _("A transaction of this program is open already."));
  return FALSE;
}

static void
forget (SwStore *store)
{
  store->txn = SW_TXN_NONE;
  store->broken = FALSE;
  store->next_act = 0;
  memset (store->next_row, 0, sizeof store->next_row);
}

gboolean
sw_store_begin (SwStore *store, GError **error)
{
  if (!require_none (store, error) || !run (store, "BEGIN IMMEDIATE", error))
    return FALSE;
  forget (store);
  store->txn = SW_TXN_WRITE;
  return TRUE;
}

gboolean
sw_store_commit (SwStore *store, GError **error)
{
  gboolean done;

  if (!sw_txn_require_write (store, error))
    return FALSE;
  done = !store->broken && run (store, "COMMIT", error);
  if (store->broken)
    g_set_error_literal (error, SW_ERROR, SW_ERROR_RECORD, _("An act of this transaction failed: nothing was saved."));
  if (done)
    forget (store);
  else
    sw_store_rollback (store);
  return done;
}

void
sw_store_rollback (SwStore *store)
{
  /* A full disk ends the transaction by itself. */
  if (store->db != NULL && sqlite3_get_autocommit (store->db->handle) == 0)
    run (store, "ROLLBACK", NULL);
  forget (store);
}

gboolean
sw_txn_require_write (SwStore *store, GError **error)
{
  if (store->txn == SW_TXN_WRITE)
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_RECORD, _("Nothing can be written: no write transaction is open."));
  return FALSE;
}

gboolean
sw_store_read_begin (SwStore *store, GError **error)
{
  if (store->txn == SW_TXN_WRITE)
    return TRUE;
  if (!require_none (store, error) || !run (store, "BEGIN", error))
    return FALSE;
  store->txn = SW_TXN_READ;
  return TRUE;
}

void
sw_store_read_end (SwStore *store)
{
  if (store->txn == SW_TXN_READ)
    sw_store_rollback (store);
}

gboolean
sw_txn_enter_read (SwStore *store, gboolean *began, GError **error)
{
  *began = store->txn == SW_TXN_NONE;
  return !*began || sw_store_read_begin (store, error);
}

void
sw_txn_leave_read (SwStore *store, gboolean began)
{
  if (began)
    sw_store_read_end (store);
}
