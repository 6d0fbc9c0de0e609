/* test-copy.c: backup and restore, and bringing an older record up to date
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-files-private.h"
#include "sw-migrate-private.h"

#include "sw-error.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static char *folder;
static char *copy;
static SwStore *store;

static void
set_up (void)
{
  folder = fixture_folder ();
  copy = g_strconcat (folder, "-copy", NULL);
  store = fixture_create (folder);
  fixture_patient (store, "Marlo", "Aldane");
}

static void
tear_down (void)
{
  sw_store_close (store);
  fixture_remove (folder);
  g_free (copy);
}

static void
add_photo (const char *name)
{
  g_autofree char *photos = sw_files_photos (folder);
  g_autofree char *path = g_build_filename (photos, name, NULL);

  ck_assert (g_file_set_contents (path, "picture", -1, NULL));
}

static void
assert_same_head (const char *other)
{
  g_autoptr (SwStore) opened = sw_store_open (other, SW_STORE_WRITE, NULL);
  g_autofree char *here = sw_store_head_digest (store, NULL);
  g_autofree char *there = NULL;

  ck_assert_ptr_nonnull (opened);
  there = sw_store_head_digest (opened, NULL);
  ck_assert_str_eq (here, there);
  fixture_assert_sound (opened);
}

START_TEST (a_backup_is_the_record_and_restores_to_it)
{
  g_autofree char *restored = g_strconcat (folder, "-restored", NULL);
  g_autofree char *photo = g_build_filename (restored, "photos", "abc", NULL);
  g_autofree char *contents = NULL;
  g_autoptr (GError) error = NULL;

  add_photo ("abc");
  ck_assert_msg (sw_store_backup (store, copy, NULL, NULL, NULL, &error), "%s", error ? error->message : "");
  assert_same_head (copy);
  ck_assert_msg (sw_store_restore (copy, restored, NULL, NULL, NULL, &error), "%s", error ? error->message : "");
  assert_same_head (restored);
  ck_assert (g_file_get_contents (photo, &contents, NULL, NULL));
  ck_assert_str_eq (contents, "picture");
}
END_TEST

static void
write_meanwhile (gint64 done, gint64 total, gpointer data)
{
  SwStore *other = data;

  fixture_weigh (other, 1, 24600);
}

START_TEST (a_backup_is_of_one_moment)
{
  g_autoptr (SwStore) writer = sw_store_open (folder, SW_STORE_WRITE, NULL);
  g_autoptr (SwStore) opened = NULL;
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  gint64 before;

  /* More pages than one slice. */
  for (int i = 0; i < 60; i++)
    {
      SwDocument *document = fixture_random_fact (SW_FACT_DOCUMENT, rand);

      g_bytes_unref (document->bytes);
      document->bytes = g_bytes_new_take (g_malloc0 (100000), 100000);
      ck_assert (fixture_act (store, SW_ACT_ADOPT_DOCUMENT, 1, fixture_facts (document, NULL), NULL) != 0);
    }
  before = sw_store_last_act (store, NULL);
  ck_assert (sw_store_backup (store, copy, write_meanwhile, writer, NULL, NULL));
  ck_assert_int_gt (sw_store_last_act (store, NULL), before);
  opened = sw_store_open (copy, SW_STORE_READ, NULL);
  ck_assert_int_eq (sw_store_last_act (opened, NULL), before);
  fixture_assert_sound (opened);
}
END_TEST

START_TEST (a_backup_overwrites_nothing)
{
  g_autoptr (GError) error = NULL;

  ck_assert (!sw_store_backup (store, folder, NULL, NULL, NULL, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  g_clear_error (&error);
  ck_assert (!sw_store_restore (copy, folder, NULL, NULL, NULL, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  fixture_assert_sound (store);
}
END_TEST

START_TEST (a_cancelled_backup_leaves_no_file)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autofree char *path = sw_files_database (copy);
  g_autoptr (GError) error = NULL;
  SwDbOptions options = { 0 };
  g_autoptr (SwDb) db = NULL;

  g_cancellable_cancel (cancellable);
  ck_assert (!sw_store_backup (store, copy, NULL, NULL, cancellable, &error));
  ck_assert (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
  ck_assert (!g_file_test (path, G_FILE_TEST_EXISTS));
  db = sw_db_open (path, &options, NULL);
  ck_assert_ptr_null (db);
}
END_TEST

/* --- steps --- */

static gboolean
add_table (SwDb *db, GError **error)
{
  return sw_db_exec (db, "CREATE TABLE later (id INTEGER PRIMARY KEY) STRICT", error);
}

static gboolean
break_reference (SwDb *db, GError **error)
{
  return sw_db_exec (db, "DROP TRIGGER patient_kept_delete; DELETE FROM patient", error);
}

static gboolean
fail_after_writing (SwDb *db, GError **error)
{
  return add_table (db, error) && sw_db_exec (db, "this is no SQL", error);
}

static const char *const no_scripts[] = { NULL };

/* Brings the record from layout 1 to 2 by a step of the test. */
static gboolean
upgrade (gboolean (*code) (SwDb *db, GError **error), GError **error)
{
  g_autofree char *path = sw_files_database (folder);
  g_autoptr (SwDb) db = sw_db_open (path, &(SwDbOptions) { 0 }, NULL);
  SwSchemaStep steps[2];
  guint n;

  steps[0] = sw_schema_steps (&n)[0];
  steps[1] = (SwSchemaStep) { 2, no_scripts, code };
  return sw_migrate (db, folder, FALSE, steps, 2, error);
}

static gint64
read_foreign (const char *sql)
{
  g_autofree char *path = sw_files_database (folder);
  g_autoptr (SwDb) db = sw_db_open (path, &(SwDbOptions) { 0 }, NULL);
  gint64 value = -1;

  sw_db_read_int (db, sql, &value, NULL);
  return value;
}

static gboolean
copy_was_kept (void)
{
  g_autofree char *path = g_build_filename (folder, "before-schema-2.sqlite", NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}

START_TEST (a_step_runs_after_a_copy)
{
  g_autoptr (GError) error = NULL;

  ck_assert_msg (upgrade (add_table, &error), "%s", error ? error->message : "");
  ck_assert (copy_was_kept ());
  ck_assert_int_eq (read_foreign ("PRAGMA user_version"), 2);
  ck_assert_int_eq (read_foreign ("SELECT count (*) FROM later"), 0);
  ck_assert_int_eq (read_foreign ("SELECT count (*) FROM patient"), 1);
  /* This program knows only layout 1. */
  ck_assert_ptr_null (sw_store_open (folder, SW_STORE_WRITE, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  ck_assert_ptr_nonnull (strstr (error->message, "newer version"));
}
END_TEST

START_TEST (a_failed_step_leaves_the_record_as_it_was)
{
  static gboolean (*const codes[]) (SwDb *db, GError **error) = { fail_after_writing, break_reference };
  g_autoptr (GError) error = NULL;

  ck_assert (!upgrade (codes[_i], &error));
  ck_assert_ptr_nonnull (error);
  ck_assert (copy_was_kept ());
  ck_assert_int_eq (read_foreign ("PRAGMA user_version"), 1);
  ck_assert_int_eq (read_foreign ("SELECT count (*) FROM sqlite_schema WHERE name = 'later'"), 0);
  ck_assert_int_eq (read_foreign ("SELECT count (*) FROM patient"), 1);
  fixture_assert_sound (store);
}
END_TEST

START_TEST (an_older_record_is_not_read_without_the_step)
{
  g_autofree char *path = sw_files_database (folder);
  g_autoptr (SwDb) db = sw_db_open (path, &(SwDbOptions) { .read_only = TRUE }, NULL);
  g_autoptr (GError) error = NULL;
  SwSchemaStep steps[2];
  guint n;

  steps[0] = sw_schema_steps (&n)[0];
  steps[1] = (SwSchemaStep) { 2, no_scripts, add_table };
  ck_assert (!sw_migrate (db, folder, TRUE, steps, 2, &error));
  ck_assert_ptr_nonnull (strstr (error->message, "older version"));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("copy");
  TCase *tcase = tcase_create ("copy");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, a_backup_is_the_record_and_restores_to_it);
  tcase_add_test (tcase, a_backup_is_of_one_moment);
  tcase_add_test (tcase, a_backup_overwrites_nothing);
  tcase_add_test (tcase, a_cancelled_backup_leaves_no_file);
  tcase_add_test (tcase, a_step_runs_after_a_copy);
  tcase_add_loop_test (tcase, a_failed_step_leaves_the_record_as_it_was, 0, 2);
  tcase_add_test (tcase, an_older_record_is_not_read_without_the_step);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
