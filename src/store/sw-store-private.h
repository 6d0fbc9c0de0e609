/* sw-store-private.h: what the files of this room share about an open record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-store.h"

#include "sw-db-private.h"

G_BEGIN_DECLS

#define SW_DIGEST_SIZE 32

typedef enum { SW_TXN_NONE, SW_TXN_READ, SW_TXN_WRITE } SwTxn;

struct _SwStore
{
  char *dir;
  SwDb *db;
  char id[33];
  gboolean practice_only;

  SwTxn txn;
  gboolean broken; /* an act failed half-way: this transaction can't be committed */

  /* Inside a write transaction: nobody else numbers rows, so what was read once stays true. 0: not read yet. */
  gint64 next_row[SW_N_FACTS];
  gint64 next_act;
  guint8 head[SW_DIGEST_SIZE]; /* digest of the act before next_act; valid if next_act is not 0 */

  /* The whole list in its order, as of an act (sw-list.c). */
  GArray *spine;
  gint64 spine_act;
};

/* Opens with the options of tests. `options` may leave create and read_only alone. */
SwStore *sw_store_create_with (const char *dir, const SwStoreSetup *setup, const SwDbOptions *options, GError **error);
SwStore *sw_store_open_with (const char *dir, SwStoreMode mode, const SwDbOptions *options, GError **error);

/* Reads several things as one state, unless a transaction is open already. Ends it again if it began it. */
gboolean sw_txn_enter_read (SwStore *store, gboolean *began, GError **error);
void sw_txn_leave_read (SwStore *store, gboolean began);
/* SW_ERROR_RECORD if no write transaction is open. */
gboolean sw_txn_require_write (SwStore *store, GError **error);

/* Keeps lists and search words true after a fact was inserted. */
gboolean sw_search_keep (SwStore *store, gconstpointer fact, GError **error);
/* The words that find a dog or, with `number` 0, a client: each once. (transfer full) char * */
GPtrArray *sw_search_words (const char *name, const char *client, gint64 number);
/* What is typed, as beginnings of words. (transfer full) */
char **sw_search_terms (const char *search);
/* Just above every text that begins with this one. (transfer full) */
char *sw_search_above (const char *beginning);

G_END_DECLS
