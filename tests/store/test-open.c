/* test-open.c: what can't be opened or saved is refused with a sentence, and nothing is half done
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cut-vfs.h"
#include "store-fixture.h"

#include "sw-files-private.h"

#include "sw-error.h"

#include <check.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

static char *folder;

static void
set_up (void)
{
  folder = fixture_folder ();
}

static void
tear_down (void)
{
  fixture_remove (folder);
}

static void
assert_refused (int code, const char *words)
{
  g_autoptr (GError) error = NULL;

  ck_assert_ptr_null (sw_store_open (folder, SW_STORE_WRITE, &error));
  ck_assert_msg (g_error_matches (error, SW_ERROR, code), "%s", error->message);
  ck_assert_msg (strstr (error->message, words) != NULL, "%s", error->message);
}

static void
run_sql (const char *sql)
{
  g_autofree char *path = sw_files_database (folder);
  sqlite3 *db;

  ck_assert_int_eq (sqlite3_open (path, &db), SQLITE_OK);
  ck_assert_msg (sqlite3_exec (db, sql, NULL, NULL, NULL) == SQLITE_OK, "%s: %s", sql, sqlite3_errmsg (db));
  sqlite3_close (db);
}

START_TEST (no_record_is_refused)
{
  assert_refused (SW_ERROR_RECORD, "There is no record");
}
END_TEST

START_TEST (a_foreign_database_is_refused_and_left_alone)
{
  g_autofree char *path = sw_files_database (folder);
  g_autofree char *before = NULL, *after = NULL;
  gsize size_before, size_after;

  ck_assert_int_eq (g_mkdir_with_parents (folder, 0700), 0);
  run_sql ("CREATE TABLE bookmarks (a); PRAGMA application_id = 1; PRAGMA user_version = 1");
  ck_assert (g_file_get_contents (path, &before, &size_before, NULL));
  assert_refused (SW_ERROR_RECORD, "belongs to another program");
  ck_assert (g_file_get_contents (path, &after, &size_after, NULL));
  ck_assert (size_before == size_after && memcmp (before, after, size_before) == 0);
}
END_TEST

START_TEST (a_newer_record_is_refused)
{
  sw_store_close (fixture_create (folder));
  run_sql ("PRAGMA user_version = 1000");
  assert_refused (SW_ERROR_RECORD, "newer version of this program (its layout is 1000");
}
END_TEST

START_TEST (a_record_cut_short_while_made_is_refused)
{
  sw_store_close (fixture_create (folder));
  run_sql ("DROP TRIGGER founding_kept_delete; DELETE FROM founding");
  assert_refused (SW_ERROR_RECORD, "was cut short");
}
END_TEST

START_TEST (no_database_is_refused)
{
  g_autofree char *path = sw_files_database (folder);

  ck_assert_int_eq (g_mkdir_with_parents (folder, 0700), 0);
  ck_assert (g_file_set_contents (path,
                                  "this is a letter, and long enough to have a header of one hundred bytes, which it"
                                  " does not have, because it is a letter",
                                  -1, NULL));
  assert_refused (SW_ERROR_RECORD, "is not a record");
}
END_TEST

/* From the second page on nothing is left of the file. */
START_TEST (a_damaged_record_is_refused)
{
  g_autofree char *path = sw_files_database (folder);
  g_autofree char *contents = NULL;
  gsize size;

  sw_store_close (fixture_create (folder));
  ck_assert (g_file_get_contents (path, &contents, &size, NULL));
  memset (contents + 4096, 0xa5, size - 4096);
  ck_assert (g_file_set_contents (path, contents, (gssize) size, NULL));
  assert_refused (SW_ERROR_RECORD, "The record is damaged");
}
END_TEST

START_TEST (a_record_overwrites_nothing)
{
  SwStoreSetup setup = fixture_setup ();
  g_autoptr (GError) error = NULL;

  sw_store_close (fixture_create (folder));
  ck_assert_ptr_null (sw_store_create (folder, &setup, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  ck_assert_ptr_nonnull (strstr (error->message, "holds something already"));
}
END_TEST

/* Without a name for the first person nothing is made, and with one it is, in the same folder. */
START_TEST (a_record_that_can_t_be_made_leaves_nothing)
{
  SwStoreSetup setup = fixture_setup ();
  g_autoptr (GError) error = NULL;

  setup.person = "";
  ck_assert_ptr_null (sw_store_create (folder, &setup, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
  sw_store_close (fixture_create (folder));
}
END_TEST

/* However early the disk is full. */
START_TEST (making_a_record_on_a_full_disk_leaves_nothing)
{
  SwStoreSetup setup = fixture_setup ();
  SwDbOptions options = { .vfs = CUT_VFS };

  cut_vfs_register ();
  for (gint64 room = 0; room < 400000; room += 20000)
    {
      g_autoptr (GError) error = NULL;

      cut_vfs_start ();
      cut_vfs_fill_after (room);
      ck_assert_ptr_null (sw_store_create_with (folder, &setup, &options, &error));
      ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_DISK), "%s", error->message);
    }
  sw_store_close (fixture_create (folder));
}
END_TEST

START_TEST (network_file_systems_are_known)
{
  /* statfs(2): NFS_SUPER_MAGIC, SMB2_MAGIC_NUMBER, CIFS_MAGIC_NUMBER, V9FS_MAGIC, CEPH_SUPER_MAGIC */
  static const guint32 network[] = { 0x6969, 0xfe534d42, 0xff534d42, 0x01021997, 0x00c36400 };
  /* EXT4_SUPER_MAGIC, XFS_SUPER_MAGIC, BTRFS_SUPER_MAGIC, TMPFS_MAGIC, OVERLAYFS_SUPER_MAGIC */
  static const guint32 local[] = { 0xef53, 0x58465342, 0x9123683e, 0x01021994, 0x794c7630 };
  g_autofree char *parent = g_path_get_dirname (folder);

  for (gsize i = 0; i < G_N_ELEMENTS (network); i++)
    ck_assert (sw_files_is_network (network[i]) && !sw_files_is_network (local[i]));
  ck_assert (sw_files_require_local (parent, NULL));
  ck_assert (!sw_files_require_local (folder, NULL));
}
END_TEST

START_TEST (the_same_seed_makes_the_same_record)
{
  g_autofree char *second = g_strconcat (folder, "-2", NULL);
  g_autofree char *third = g_strconcat (folder, "-3", NULL);
  g_autofree char *digests[3] = { NULL };
  const char *folders[] = { folder, second, third };

  for (int i = 0; i < 3; i++)
    {
      SwStoreSetup setup = fixture_setup ();
      SwStore *store;

      setup.seed = i < 2 ? "7" : NULL;
      store = sw_store_create (folders[i], &setup, NULL);
      fixture_patient (store, "Marlo", "Aldane");
      digests[i] = sw_store_head_digest (store, NULL);
      sw_store_close (store);
    }
  ck_assert_uint_eq (strlen (digests[0]), 64);
  ck_assert_str_eq (digests[0], digests[1]);
  ck_assert_str_ne (digests[0], digests[2]);
  g_free (digests[1]);
  g_free (digests[2]);
}
END_TEST

/* --- while writing --- */

START_TEST (a_full_disk_saves_nothing_and_says_so)
{
  SwStoreSetup setup = fixture_setup ();
  SwDbOptions options = { .vfs = CUT_VFS };
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  g_autoptr (GError) error = NULL;
  SwDocument *document = fixture_random_fact (SW_FACT_DOCUMENT, rand);
  SwStore *store;
  gint64 before;

  cut_vfs_register ();
  cut_vfs_start ();
  store = sw_store_create_with (folder, &setup, &options, NULL);
  before = sw_store_last_act (store, NULL);
  g_bytes_unref (document->bytes);
  document->bytes = g_bytes_new_take (g_malloc0 (50000), 50000);
  cut_vfs_fill_after (20000);
  ck_assert_int_eq (fixture_act (store, SW_ACT_ADOPT_DOCUMENT, 1, fixture_facts (document, NULL), &error), 0);
  ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_DISK), "%s", error->message);
  ck_assert_ptr_nonnull (strstr (error->message, "The disk is full. Nothing was saved"));
  ck_assert_int_eq (sw_store_last_act (store, NULL), before);
  /* With room again the same store goes on. */
  cut_vfs_fill_after (-1);
  fixture_patient (store, "Marlo", "Aldane");
  fixture_assert_sound (store);
  sw_store_close (store);
}
END_TEST

START_TEST (a_writer_elsewhere_is_waited_for_and_then_named)
{
  g_autoptr (SwStore) first = fixture_create (folder);
  SwDbOptions hasty = { .busy_ms = 50 };
  g_autoptr (SwStore) second = sw_store_open_with (folder, SW_STORE_WRITE, &hasty, NULL);
  g_autoptr (GError) error = NULL;

  ck_assert (sw_store_begin (first, NULL));
  ck_assert (!sw_store_begin (second, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_BUSY));
  ck_assert (sw_store_commit (first, NULL));
  ck_assert (sw_store_begin (second, NULL));
}
END_TEST

START_TEST (a_reader_writes_nothing)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) reader = NULL;

  sw_store_close (fixture_create (folder));
  reader = sw_store_open (folder, SW_STORE_READ, NULL);
  ck_assert_int_eq (fixture_act (reader, SW_ACT_KEEP_RECORD, 1, NULL, &error), 0);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_DISK));
}
END_TEST

START_TEST (without_a_transaction_nothing_is_written)
{
  g_autoptr (SwStore) store = fixture_create (folder);
  SwActHead head = { .kind = SW_ACT_KEEP_RECORD, .person = 1 };
  g_autoptr (GError) error = NULL;

  ck_assert (!sw_store_append (store, &head, NULL, NULL, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  ck_assert (sw_store_begin (store, NULL));
  ck_assert (!sw_store_begin (store, NULL));
  sw_store_rollback (store);
  sw_store_rollback (store);
  ck_assert (!sw_store_commit (store, NULL));
  ck_assert (sw_store_read_begin (store, NULL));
  ck_assert (!sw_store_append (store, &head, NULL, NULL, NULL));
  sw_store_read_end (store);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("open");
  TCase *tcase = tcase_create ("open");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, no_record_is_refused);
  tcase_add_test (tcase, a_foreign_database_is_refused_and_left_alone);
  tcase_add_test (tcase, a_newer_record_is_refused);
  tcase_add_test (tcase, a_record_cut_short_while_made_is_refused);
  tcase_add_test (tcase, no_database_is_refused);
  tcase_add_test (tcase, a_damaged_record_is_refused);
  tcase_add_test (tcase, a_record_overwrites_nothing);
  tcase_add_test (tcase, a_record_that_can_t_be_made_leaves_nothing);
  tcase_add_test (tcase, making_a_record_on_a_full_disk_leaves_nothing);
  tcase_add_test (tcase, network_file_systems_are_known);
  tcase_add_test (tcase, the_same_seed_makes_the_same_record);
  tcase_add_test (tcase, a_full_disk_saves_nothing_and_says_so);
  tcase_add_test (tcase, a_writer_elsewhere_is_waited_for_and_then_named);
  tcase_add_test (tcase, a_reader_writes_nothing);
  tcase_add_test (tcase, without_a_transaction_nothing_is_written);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
