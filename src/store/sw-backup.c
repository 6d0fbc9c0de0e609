/* sw-backup.c: copies of a record, there and back
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-check.h"

#include "sw-copy-private.h"
#include "sw-files-private.h"
#include "sw-store-private.h"

static gboolean
copy_parts (SwStore *store, const char *copy, SwProgressFunc progress, gpointer data, GCancellable *cancellable,
            GError **error)
{
  g_autofree char *database = sw_files_database (copy);
  g_autofree char *from = sw_files_photos (store->dir);
  g_autofree char *to = sw_files_photos (copy);

  /* Photographs come before the acts that name them, so the database is copied first: its photographs are all there. */
  return sw_copy_database (store->db, database, progress, data, cancellable, error)
         && sw_files_copy_all (from, to, cancellable, error) && sw_files_sync_folder (copy, error);
}

gboolean
sw_store_backup (SwStore *store, const char *copy, SwProgressFunc progress, gpointer data, GCancellable *cancellable,
                 GError **error)
{
  g_autofree char *folder = g_canonicalize_filename (copy, NULL);

  g_autofree char *database = sw_files_database (folder);

  if (!sw_files_make_folder (folder, error))
    return FALSE;
  if (copy_parts (store, folder, progress, data, cancellable, error))
    return TRUE;
  /* Half a copy must not pass for one. */
  sw_files_remove_database (database);
  return FALSE;
}

gboolean
sw_store_restore (const char *copy, const char *dir, SwProgressFunc progress, gpointer data, GCancellable *cancellable,
                  GError **error)
{
  g_autoptr (SwStore) store = sw_store_open (copy, SW_STORE_READ, error);

  return store != NULL && sw_store_backup (store, dir, progress, data, cancellable, error);
}
