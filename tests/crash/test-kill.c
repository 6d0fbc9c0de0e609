/* test-kill.c: the program is killed at random moments of a scripted recording
 *
 * A child records acts and writes the number of each to a pipe after its commit. It is killed without warning; whatever
 * number came through the pipe must be in the record, and the record must be sound. The next child goes on with the
 * same record.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define _GNU_SOURCE /* kill, usleep in strict C11 */

#include "store-fixture.h"

#include <check.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

/* A child records many acts in this time. */
#define LONGEST_LIFE_US 60000

static void
tell (int pipe_end, gint64 act)
{
  if (write (pipe_end, &act, sizeof act) != sizeof act)
    _exit (2);
}

/* Never returns: until it is killed. */
static void
record (const char *folder, int pipe_end)
{
  SwStore *store = sw_store_open (folder, SW_STORE_WRITE, NULL);

  for (int i = 0; store != NULL; i++)
    {
      g_autofree char *name = g_strdup_printf ("Dog %d", i);
      gint64 patient = fixture_patient (store, name, "Bisset");

      tell (pipe_end, sw_store_last_act (store, NULL));
      tell (pipe_end, fixture_weigh (store, patient, 20000 + i % 1000));
    }
  _exit (3);
}

static gint64
read_act (int pipe_end)
{
  gint64 act;

  return read (pipe_end, &act, sizeof act) == sizeof act ? act : 0;
}

/* The last act that a child acknowledged before it was killed. */
static gint64
record_and_kill (const char *folder, GRand *rand)
{
  int ends[2], status;
  gint64 last, act;
  pid_t child;

  ck_assert_int_eq (pipe (ends), 0);
  child = fork ();
  ck_assert_int_ge (child, 0);
  if (child == 0)
    {
      close (ends[0]);
      record (folder, ends[1]);
    }
  close (ends[1]);
  last = read_act (ends[0]);
  ck_assert_int_gt (last, 0);
  usleep ((useconds_t) g_rand_int_range (rand, 0, LONGEST_LIFE_US));
  ck_assert_int_eq (kill (child, SIGKILL), 0);
  ck_assert_int_eq (waitpid (child, &status, 0), child);
  ck_assert (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
  while ((act = read_act (ends[0])) != 0)
    last = act;
  close (ends[0]);
  return last;
}

START_TEST (killing_loses_no_acknowledged_act)
{
  char *folder = fixture_folder ();
  guint32 seed = g_random_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int rounds = g_getenv ("SW_TEST_LONG") ? 200 : 20;

  g_print ("# seed %u\n", seed);
  sw_store_close (fixture_create (folder));
  for (int round = 0; round < rounds; round++)
    {
      gint64 acknowledged = record_and_kill (folder, rand);
      g_autoptr (SwStore) store = sw_store_open (folder, SW_STORE_WRITE, NULL);

      ck_assert_ptr_nonnull (store);
      ck_assert_int_ge (sw_store_last_act (store, NULL), acknowledged);
      fixture_assert_sound (store);
    }
  fixture_remove (folder);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("kill");
  TCase *tcase = tcase_create ("kill");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_set_timeout (tcase, 900);
  tcase_add_test (tcase, killing_loses_no_acknowledged_act);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
