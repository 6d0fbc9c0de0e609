/* test-record.c: a record on its threads: order, cancelling, signals, two processes
 *
 * And never a tick taken back beside a standing release.
 *
 * Called with arguments it is the second process: FOLDER weigh PATIENT GRAMS.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-error.h"
#include "sw-record.h"

#include <stdlib.h>
#include <unistd.h>

#define PATIENCE (20 * G_USEC_PER_SEC)

/* --- waiting --- */

/* Runs the main loop until the condition holds; fails the test when it never does. */
#define WAIT_UNTIL(condition) \
  do \
    { \
      gint64 until = g_get_monotonic_time () + PATIENCE; \
      while (!(condition) && g_get_monotonic_time () < until) \
        if (!g_main_context_iteration (NULL, FALSE)) \
          g_usleep (500); \
      ck_assert_msg ((condition), "waited in vain for %s", #condition); \
    } \
  while (FALSE)

static void
keep_result (GObject *source, GAsyncResult *result, gpointer data)
{
  *(GAsyncResult **) data = g_object_ref (result);
}

static SwRecord *
open_record (const char *folder, SwClock *clock)
{
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  SwRecord *record;

  sw_record_open_async (folder, NULL, clock, NULL, keep_result, &result);
  WAIT_UNTIL (result != NULL);
  record = sw_record_open_finish (result, &error);
  ck_assert_msg (record != NULL, "%s", error ? error->message : "");
  return record;
}

static void
close_record (SwRecord *record)
{
  g_autoptr (GAsyncResult) result = NULL;
  gpointer left = record;

  sw_record_close_async (record, keep_result, &result);
  WAIT_UNTIL (result != NULL);
  ck_assert (sw_record_close_finish (record, result, NULL));
  g_clear_object (&result);
  g_object_add_weak_pointer (G_OBJECT (record), &left);
  g_object_unref (record);
  WAIT_UNTIL (left == NULL); /* nothing keeps it: no task, no news */
}

static SwClock *
fixture_clock (void)
{
  return sw_clock_new_at ((SwMoment){ FIXTURE_TODAY, 9 * 60 + 40 });
}

static SwRequest *
weigh (gint64 patient, gint64 grams)
{
  SwRequest *request = sw_request_new (SW_ACT_WEIGH, TOMAS, patient);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->grams = grams;
  weight->day = FIXTURE_TODAY;
  weight->minute = 580;
  weight->typed = g_strdup_printf ("%" G_GINT64_FORMAT " g", grams);
  sw_request_add (request, weight);
  return request;
}

static SwDossier *
load (SwRecord *record, gint64 patient)
{
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  SwDossier *dossier;

  sw_record_load_dossier_async (record, patient, NULL, keep_result, &result);
  WAIT_UNTIL (result != NULL);
  dossier = sw_record_load_dossier_finish (record, result, &error);
  ck_assert_msg (dossier != NULL, "%s", error ? error->message : "");
  return dossier;
}

/* --- order, cancelling, signals --- */

typedef struct
{
  guint replies;
  guint changes;          /* of patient 3 */
  guint changes_at_reply; /* seen when the last reply came */
  gint64 last_act;
  gboolean in_order;
} Heard;

static void
count_change (SwRecord *record, gint64 patient, Heard *heard)
{
  if (patient == 3)
    heard->changes++;
}

static void
count_reply (GObject *source, GAsyncResult *result, gpointer data)
{
  Heard *heard = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwReply) reply = sw_record_perform_finish (SW_RECORD (source), result, &error);

  ck_assert_msg (reply != NULL && reply->done, "%s", error ? error->message : "");
  heard->in_order = heard->in_order && reply->act > heard->last_act;
  heard->last_act = reply->act;
  heard->changes_at_reply = heard->changes;
  heard->replies++;
}

START_TEST (test_acts_in_order)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  g_autoptr (SwDossier) dossier = NULL;
  Heard heard = { .in_order = TRUE };
  const SwWeight *last;

  g_signal_connect (record, "changed", G_CALLBACK (count_change), &heard);
  for (guint i = 0; i < 50; i++)
    sw_record_perform_async (record, weigh (3, 20000 + i), NULL, count_reply, &heard);
  dossier = load (record, 3); /* queued behind them, so it sees them all */
  last = sw_facts_last (&dossier->facts, SW_FACT_WEIGHT);
  ck_assert_int_eq (last->grams, 20049);
  WAIT_UNTIL (heard.replies == 50 && heard.changes == 50);
  ck_assert (heard.in_order);
  ck_assert_uint_lt (heard.changes_at_reply, 50); /* the signal comes after its reply */
  close_record (record);
  fixture_remove (folder);
}
END_TEST

START_TEST (test_cancelled_before_begun)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDossier) before = load (record, 3);
  g_autoptr (SwDossier) after = NULL;
  Heard heard = { .in_order = TRUE };

  for (guint i = 0; i < 20; i++)
    sw_record_perform_async (record, weigh (3, 20000), NULL, count_reply, &heard);
  sw_record_perform_async (record, weigh (3, 99000), cancellable, keep_result, &result);
  g_cancellable_cancel (cancellable);
  WAIT_UNTIL (result != NULL);
  ck_assert_ptr_null (sw_record_perform_finish (record, result, &error));
  ck_assert (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
  after = load (record, 3);
  ck_assert_uint_eq (after->facts.rows[SW_FACT_WEIGHT]->len, before->facts.rows[SW_FACT_WEIGHT]->len + 20);
  WAIT_UNTIL (heard.replies == 20);
  g_clear_object (&result);
  close_record (record);
  fixture_remove (folder);
}
END_TEST

START_TEST (test_closed)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  g_autoptr (GAsyncResult) closed = NULL;
  g_autoptr (GAsyncResult) late = NULL;
  g_autoptr (GError) error = NULL;
  Heard heard = { .in_order = TRUE };

  sw_record_perform_async (record, weigh (3, 20000), NULL, count_reply, &heard);
  sw_record_close_async (record, keep_result, &closed);
  sw_record_perform_async (record, weigh (3, 21000), NULL, keep_result, &late);
  WAIT_UNTIL (closed != NULL && late != NULL);
  ck_assert_uint_eq (heard.replies, 1); /* what was queued before is done */
  ck_assert_ptr_null (sw_record_perform_finish (record, late, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  g_object_unref (record);
  fixture_remove (folder);
}
END_TEST

static void
count (SwRecord *record, guint *n)
{
  (*n)++;
}

START_TEST (test_day_changes)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  guint days = 0;

  g_signal_connect (record, "day-changed", G_CALLBACK (count), &days);
  sw_clock_set (clock, (SwMoment){ FIXTURE_TODAY, 23 * 60 + 59 });
  sw_clock_set (clock, (SwMoment){ FIXTURE_TODAY + 1, 0 });
  WAIT_UNTIL (days == 1);
  close_record (record);
  fixture_remove (folder);
}
END_TEST

START_TEST (test_practice_changes)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  SwRequest *request = sw_request_new (SW_ACT_CHANGE_SETTING, ODA, 0);
  SwSetting *setting = sw_new (SW_FACT_SETTING, SwSetting);
  guint changes = 0;
  Heard heard = { .in_order = TRUE };

  g_signal_connect (record, "practice-changed", G_CALLBACK (count), &changes);
  setting->key = g_strdup ("hour-morning");
  setting->value = g_strdup ("450");
  sw_request_add (request, setting);
  ck_assert_int_eq (sw_practice_morning (sw_record_get_practice (record)), 480);
  sw_record_perform_async (record, request, NULL, count_reply, &heard);
  WAIT_UNTIL (changes == 1);
  ck_assert_int_eq (sw_practice_morning (sw_record_get_practice (record)), 450);
  close_record (record);
  fixture_assert_sound (folder); /* what the list shows of courses does not hang on the practice's hours */
  fixture_remove (folder);
}
END_TEST

START_TEST (test_open_what_is_no_record)
{
  g_autofree char *folder = g_dir_make_tmp ("siteward-none-XXXXXX", NULL);
  g_autoptr (SwClock) clock = sw_clock_new ();
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;

  sw_record_open_async (folder, NULL, clock, NULL, keep_result, &result);
  WAIT_UNTIL (result != NULL);
  ck_assert_ptr_null (sw_record_open_finish (result, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  fixture_remove (g_build_filename (folder, "record", NULL));
}
END_TEST

START_TEST (test_check_and_backup)
{
  char *folder = fixture_folder ();
  g_autofree char *copy = g_strconcat (folder, "-copy", NULL);
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  g_autoptr (GAsyncResult) checked = NULL;
  g_autoptr (GAsyncResult) copied = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwCheckReport) report = NULL;

  sw_record_check_async (record, NULL, NULL, keep_result, &checked);
  sw_record_backup_async (record, copy, NULL, keep_result, &copied);
  WAIT_UNTIL (checked != NULL && copied != NULL);
  report = sw_record_check_finish (record, checked, &error);
  ck_assert_msg (report != NULL, "%s", error ? error->message : "");
  ck_assert_uint_eq (report->troubles->len, 0);
  ck_assert_msg (sw_record_backup_finish (record, copied, &error), "%s", error ? error->message : "");
  fixture_assert_sound (copy);
  g_clear_object (&checked);
  g_clear_object (&copied);
  close_record (record);
  fixture_remove (folder);
}
END_TEST

/* --- several at one record --- */

static void
spawn_weigh (const char *folder, const char *patient, const char *grams, GPid *pid)
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  char *argv[] = { self, (char *) folder, (char *) "weigh", (char *) patient, (char *) grams, NULL };
  g_autoptr (GError) error = NULL;

  ck_assert_msg (g_spawn_async (NULL, argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, pid, &error), "%s",
                 error ? error->message : "");
}

START_TEST (test_another_process_writes)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *record = open_record (folder, clock);
  g_autoptr (SwDossier) dossier = NULL;
  Heard heard = { .in_order = TRUE };
  GPid pid = 0;

  g_signal_connect (record, "changed", G_CALLBACK (count_change), &heard);
  spawn_weigh (folder, "3", "23456", &pid);
  ck_assert_int_ne (pid, getpid ());
  WAIT_UNTIL (heard.changes == 1);
  dossier = load (record, 3);
  ck_assert_int_eq (((const SwWeight *) sw_facts_last (&dossier->facts, SW_FACT_WEIGHT))->grams, 23456);
  close_record (record);
  fixture_remove (folder);
}
END_TEST

/* Two windows on one record: one vet releases while a technician takes a tick back. */
static gboolean
race (SwRecord *vet, SwRecord *technician, gint64 dose, gboolean vet_first)
{
  g_autoptr (SwDossier) dossier = load (technician, 2);
  gint64 course = sw_dossier_last_course (dossier)->fact.id;
  SwRequest *release = sw_request_release (ODA, 2, course);
  SwRequest *untick = sw_request_untick (TOMAS, 2, sw_dossier_dose_event (dossier, dose));
  g_autoptr (GAsyncResult) released = NULL;
  g_autoptr (GAsyncResult) unticked = NULL;
  g_autoptr (SwReply) of_release = NULL;
  g_autoptr (SwReply) of_untick = NULL;
  g_autoptr (SwDossier) after = NULL;

  if (vet_first)
    sw_record_perform_async (vet, release, NULL, keep_result, &released);
  sw_record_perform_async (technician, untick, NULL, keep_result, &unticked);
  if (!vet_first)
    sw_record_perform_async (vet, release, NULL, keep_result, &released);
  WAIT_UNTIL (released != NULL && unticked != NULL);
  of_release = sw_record_perform_finish (vet, released, NULL);
  of_untick = sw_record_perform_finish (technician, unticked, NULL);
  ck_assert (of_release != NULL && of_untick != NULL && of_untick->done);
  after = load (vet, 2);
  ck_assert_ptr_null (sw_dossier_dose_event (after, dose));
  ck_assert_ptr_null (sw_dossier_release (after, course)); /* never beside a tick that was taken back */
  return of_release->done;
}

static void
tick_again (SwRecord *record, gint64 dose)
{
  Heard heard = { .in_order = TRUE };

  sw_record_perform_async (record, sw_request_tick (TOMAS, 2, dose, 0, SW_DOSE_GIVEN, SW_NO_MOMENT, "the client"), NULL,
                           count_reply, &heard);
  WAIT_UNTIL (heard.replies == 1);
}

START_TEST (test_never_both)
{
  char *folder = fixture_folder ();
  g_autoptr (SwClock) clock = fixture_clock ();
  SwRecord *vet = open_record (folder, clock), *technician = open_record (folder, clock);
  g_autoptr (SwDossier) dossier = load (vet, 2);
  gint64 dose = fixture_dose (dossier, FIXTURE_TODAY, 8, "prednisolone")->dose;
  guint rounds = g_getenv ("SW_TEST_LONG") ? 200 : 20, released = 0;

  for (guint i = 0; i < rounds; i++)
    {
      released += race (vet, technician, dose, i % 2 == 0);
      tick_again (technician, dose);
    }
  g_test_message ("the release came first in %u of %u rounds", released, rounds);
  close_record (vet);
  close_record (technician);
  fixture_assert_sound (folder);
  fixture_remove (folder);
}
END_TEST

static Suite *
record_suite (void)
{
  Suite *suite = suite_create ("record");
  TCase *tests = tcase_create ("record");

  tcase_set_timeout (tests, 120);
  tcase_add_test (tests, test_acts_in_order);
  tcase_add_test (tests, test_cancelled_before_begun);
  tcase_add_test (tests, test_closed);
  tcase_add_test (tests, test_day_changes);
  tcase_add_test (tests, test_practice_changes);
  tcase_add_test (tests, test_open_what_is_no_record);
  tcase_add_test (tests, test_check_and_backup);
  tcase_add_test (tests, test_another_process_writes);
  tcase_add_test (tests, test_never_both);
  suite_add_tcase (suite, tests);
  return suite;
}

/* The second process. */
static int
weigh_once (char **argv)
{
  g_autoptr (SwClock) clock = fixture_clock ();
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (argv[1], clock, &error);
  g_autoptr (SwRequest) request = weigh (g_ascii_strtoll (argv[3], NULL, 10), g_ascii_strtoll (argv[4], NULL, 10));
  g_autoptr (SwReply) reply = desk ? sw_desk_perform (desk, request, &error) : NULL;

  return reply != NULL && reply->done ? EXIT_SUCCESS : EXIT_FAILURE;
}

int
main (int argc, char **argv)
{
  return argc == 5 ? weigh_once (argv) : fixture_run (record_suite ());
}
