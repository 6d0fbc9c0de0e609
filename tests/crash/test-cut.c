/* test-cut.c: the power goes at random moments of a scripted recording
 *
 * The recording runs on a VFS that knows what a cut would leave (cut-vfs.h). At each random operation a picture of the
 * disk is taken together with how many acts had been acknowledged; then every picture is opened as a record. The same
 * recording with commits that don't wait for the disk must lose acts, or the test proves nothing.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cut-vfs.h"
#include "store-fixture.h"

#include <check.h>
#include <glib/gstdio.h>
#include <stdlib.h>

/* Enough pages for several checkpoints (one each 1000 pages). */
#define ACTS 400

typedef struct
{
  GRand *rand;
  const char *folder; /* of the pictures */
  GHashTable *moments; /* operations at which a picture is taken */
  gint64 acknowledged; /* newest act whose commit has returned */
  gint64 operations;
  GArray *cuts; /* gint64: acknowledged at each picture */
} Recording;

static char *
picture_folder (const Recording *recording, guint n)
{
  g_autofree char *name = g_strdup_printf ("cut-%u", n);

  return g_build_filename (recording->folder, name, NULL);
}

static void
take_picture (gint64 operation, gpointer data)
{
  Recording *recording = data;
  g_autofree char *folder = NULL;

  recording->operations = operation;
  if (recording->moments == NULL || !g_hash_table_contains (recording->moments, &operation))
    return;
  folder = picture_folder (recording, recording->cuts->len);
  ck_assert_int_eq (g_mkdir_with_parents (folder, 0700), 0);
  cut_vfs_picture (folder, recording->rand);
  g_array_append_val (recording->cuts, recording->acknowledged);
}

static void
record (Recording *recording, const char *folder, gboolean synchronous_off)
{
  SwStoreSetup setup = fixture_setup ();
  SwDbOptions options = { .vfs = CUT_VFS, .synchronous_off = synchronous_off };
  SwStore *store;
  gint64 patient;

  cut_vfs_start ();
  store = sw_store_create_with (folder, &setup, &options, NULL);
  ck_assert_ptr_nonnull (store);
  patient = fixture_patient (store, "Marlo", "Aldane");
  recording->acknowledged = sw_store_last_act (store, NULL);
  cut_vfs_watch (take_picture, recording);
  for (int i = 0; i < ACTS; i++)
    recording->acknowledged = fixture_weigh (store, patient, 20000 + i);
  cut_vfs_watch (NULL, NULL);
  sw_store_close (store);
}

/* Whether every acknowledged act is in the picture, and nothing in it is broken. */
static gboolean
survived (const char *folder, gint64 acknowledged)
{
  g_autoptr (SwStore) store = sw_store_open (folder, SW_STORE_WRITE, NULL);
  g_autoptr (SwCheckReport) report = store ? sw_store_check (store, &(SwCheckOptions) { NULL }, NULL, NULL) : NULL;

  return report != NULL && report->troubles->len == 0 && sw_store_last_act (store, NULL) >= acknowledged;
}

static void
choose_moments (Recording *recording, int n)
{
  recording->moments = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  while ((int) g_hash_table_size (recording->moments) < n)
    {
      gint64 moment = g_rand_int_range (recording->rand, 1, (gint32) recording->operations + 1);

      g_hash_table_add (recording->moments, g_memdup2 (&moment, sizeof moment));
    }
}

/* How many of n random cuts leave a record without an acknowledged act, or a broken one. */
static int
count_losses (int n, gboolean synchronous_off)
{
  g_autofree char *first = fixture_folder ();
  char *second = fixture_folder ();
  g_autofree char *parent = g_path_get_dirname (second);
  guint32 seed = g_random_int ();
  Recording recording = { .rand = g_rand_new_with_seed (seed), .folder = parent };
  int losses = 0;

  g_print ("# seed %u\n", seed);
  record (&recording, first, synchronous_off);
  fixture_remove (g_steal_pointer (&first));
  choose_moments (&recording, n);
  recording.cuts = g_array_new (FALSE, FALSE, sizeof (gint64));
  record (&recording, second, synchronous_off);
  ck_assert_uint_eq (recording.cuts->len, (guint) n);
  for (guint i = 0; i < recording.cuts->len; i++)
    {
      g_autofree char *folder = picture_folder (&recording, i);

      losses += !survived (folder, g_array_index (recording.cuts, gint64, i));
    }
  g_array_unref (recording.cuts);
  g_hash_table_unref (recording.moments);
  g_rand_free (recording.rand);
  fixture_remove (second);
  return losses;
}

START_TEST (a_cut_loses_no_acknowledged_act)
{
  cut_vfs_register ();
  ck_assert_int_eq (count_losses (g_getenv ("SW_TEST_LONG") ? 200 : 20, FALSE), 0);
}
END_TEST

START_TEST (without_waiting_for_the_disk_acts_are_lost)
{
  cut_vfs_register ();
  ck_assert_int_gt (count_losses (20, TRUE), 0);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("cut");
  TCase *tcase = tcase_create ("cut");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_set_timeout (tcase, 600);
  tcase_add_test (tcase, a_cut_loses_no_acknowledged_act);
  tcase_add_test (tcase, without_waiting_for_the_disk_acts_are_lost);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
