/* sw-row-private.h: facts in and out of their tables, driven by the descriptors
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dossier.h"

#include "sw-db-private.h"

G_BEGIN_DECLS

typedef enum
{
  SW_ROWS_ALL,        /* no parameter */
  SW_ROWS_BY_ID,
  SW_ROWS_OF_PATIENT, /* SW_SCOPE_PATIENT */
  SW_ROWS_OF_CLIENT,  /* SW_SCOPE_CLIENT */
  SW_N_ROWS
} SwRows;

/* Writes the fact as it is: numbered and resolved. */
gboolean sw_row_insert (SwDb *db, gconstpointer fact, GError **error);

/* Called with each row in the order of ids; the fact is the callee's. */
typedef void (*SwRowFunc) (gpointer fact, gpointer data);
gboolean sw_row_each (SwDb *db, SwFactKind kind, SwRows rows, gint64 key, SwRowFunc func, gpointer data,
                      GError **error);

/* Adds the rows to a collection. */
gboolean sw_row_load (SwDb *db, SwFactKind kind, SwRows rows, gint64 key, SwFacts *facts, GError **error);

G_END_DECLS
