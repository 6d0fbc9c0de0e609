/* sw-store.c: making, opening and closing a record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-store-private.h"

#include "sw-files-private.h"
#include "sw-guard-private.h"
#include "sw-migrate-private.h"
#include "sw-schema-private.h"
#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

static SwStore *
store_new (const char *dir)
{
  SwStore *store = g_new0 (SwStore, 1);

  store->dir = g_canonicalize_filename (dir, NULL);
  return store;
}

void
sw_store_close (SwStore *store)
{
  if (store == NULL)
    return;
  sw_store_rollback (store);
  sw_db_close (store->db);
  g_clear_pointer (&store->spine, g_array_unref);
  g_free (store->dir);
  g_free (store);
}

const char *
sw_store_dir (const SwStore *store)
{
  return store->dir;
}

const char *
sw_store_id (const SwStore *store)
{
  return store->id;
}

gboolean
sw_store_is_practice_only (const SwStore *store)
{
  return store->practice_only;
}

void
sw_store_set_cancellable (SwStore *store, GCancellable *cancellable)
{
  sw_db_set_cancellable (store->db, cancellable);
}

/* --- making --- */

/* 128 bits: from the seed, or from the system's source of randomness. */
static void
make_id (const char *seed, char *id)
{
  g_autofree char *random = seed ? NULL : g_uuid_string_random ();
  g_autofree char *digest = g_compute_checksum_for_string (G_CHECKSUM_SHA256, seed ? seed : random, -1);

  g_strlcpy (id, digest, 33);
}

static gboolean
write_founding (SwStore *store, GError **error)
{
  g_autoptr (SwStmt) stmt
    = sw_stmt_get (store->db, "INSERT INTO founding (id, record, practice_only) VALUES (1, ?1, ?2)", error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_text (stmt, 1, store->id);
  sw_stmt_bind_int (stmt, 2, store->practice_only);
  return sw_stmt_run (stmt, error);
}

static GPtrArray *
founding_facts (const SwStoreSetup *setup)
{
  GPtrArray *facts = g_ptr_array_new_with_free_func (sw_fact_free);
  SwPersonDetails *details = sw_new (SW_FACT_PERSON_DETAILS, SwPersonDetails);
  SwSetting *zone = sw_new (SW_FACT_SETTING, SwSetting);

  details->person = -1;
  details->name = g_strdup (setup->person);
  details->roles = SW_ALL_ROLES;
  details->active = 1;
  zone->key = g_strdup ("zone");
  zone->value = g_strdup (setup->zone);
  g_ptr_array_add (facts, sw_fact_new (SW_FACT_PERSON));
  g_ptr_array_add (facts, details);
  g_ptr_array_add (facts, zone);
  return facts;
}

static gboolean
write_first_act (SwStore *store, const SwStoreSetup *setup, GError **error)
{
  g_autoptr (GPtrArray) facts = founding_facts (setup);
  SwActHead head = {
    .kind = SW_ACT_FOUND_RECORD, .person = -1, .at_us = setup->at_us, .offset_minutes = setup->offset_minutes,
  };

  return sw_store_append (store, &head, facts, NULL, error);
}

static gboolean
found (SwStore *store, const SwStoreSetup *setup, GError **error)
{
  return sw_store_begin (store, error) && write_founding (store, error) && write_first_act (store, setup, error)
         && sw_store_commit (store, error);
}

static gboolean
make_database (SwStore *store, const SwDbOptions *options, GError **error)
{
  g_autofree char *path = sw_files_database (store->dir);
  SwDbOptions creating = *options;
  const SwSchemaStep *steps;
  guint n;

  creating.create = TRUE;
  creating.read_only = FALSE;
  steps = sw_schema_steps (&n);
  store->db = sw_db_open (path, &creating, error);
  return store->db != NULL && sw_db_make_durable (store->db, &creating, error)
         && sw_schema_upgrade (store->db, steps, n, 0, error);
}

static gboolean
fill_folder (SwStore *store, const SwStoreSetup *setup, const SwDbOptions *options, GError **error)
{
  g_autofree char *photos = sw_files_photos (store->dir);

  make_id (setup->seed, store->id);
  store->practice_only = setup->practice_only;
  return sw_files_require_local (store->dir, error) && sw_files_make_folder (photos, error)
         && make_database (store, options, error) && found (store, setup, error)
         && sw_files_sync_folder (store->dir, error);
}

/* A record that could not be made leaves the folder empty, so that making it can be tried again. */
static void
empty_folder (SwStore *store)
{
  g_autofree char *database = sw_files_database (store->dir);
  g_autofree char *photos = sw_files_photos (store->dir);

  sw_store_rollback (store);
  g_clear_pointer (&store->db, sw_db_close);
  sw_files_remove_database (database);
  g_rmdir (photos);
}

SwStore *
sw_store_create_with (const char *dir, const SwStoreSetup *setup, const SwDbOptions *options, GError **error)
{
  g_autoptr (SwStore) store = store_new (dir);

  if (!sw_files_make_folder (store->dir, error))
    return NULL;
  if (!fill_folder (store, setup, options, error))
    {
      empty_folder (store);
      return NULL;
    }
  sw_guard_authorize (store->db);
  return g_steal_pointer (&store);
}

SwStore *
sw_store_create (const char *dir, const SwStoreSetup *setup, GError **error)
{
  return sw_store_create_with (dir, setup, &(SwDbOptions) { 0 }, error);
}

/* --- opening --- */

static gboolean
require_record (const char *dir, const char *path, GError **error)
{
  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD,
                   _("There is no record in “%s”: choose its folder, or make a new record."), dir);
      return FALSE;
    }
  return sw_files_require_local (dir, error);
}

static gboolean
read_founding (SwStore *store, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, "SELECT record, practice_only FROM founding", error);
  gboolean row;

  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return FALSE;
  if (!row)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD,
                   _("The making of the record in “%s” was cut short: make a new record in another folder."),
                   store->dir);
      return FALSE;
    }
  g_strlcpy (store->id, sw_stmt_column_text (stmt, 0), sizeof store->id);
  store->practice_only = (gboolean) sw_stmt_column_int (stmt, 1);
  return TRUE;
}

SwStore *
sw_store_open_with (const char *dir, SwStoreMode mode, const SwDbOptions *options, GError **error)
{
  g_autoptr (SwStore) store = store_new (dir);
  g_autofree char *path = sw_files_database (store->dir);
  SwDbOptions opening = *options;
  const SwSchemaStep *steps;
  guint n;

  opening.create = FALSE;
  opening.read_only = mode == SW_STORE_READ;
  steps = sw_schema_steps (&n);
  if (!require_record (store->dir, path, error) || (store->db = sw_db_open (path, &opening, error)) == NULL
      || !sw_migrate (store->db, store->dir, opening.read_only, steps, n, error)
      || (!opening.read_only && !sw_db_make_durable (store->db, &opening, error)) || !read_founding (store, error))
    return NULL;
  sw_guard_authorize (store->db);
  return g_steal_pointer (&store);
}

SwStore *
sw_store_open (const char *dir, SwStoreMode mode, GError **error)
{
  return sw_store_open_with (dir, mode, &(SwDbOptions) { 0 }, error);
}
