/* test-list.c: the patient list under a validator that mirrors every items-changed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-demo.h"
#include "sw-patient-list.h"

#include <string.h>

#define CROWD 1500
#define PATIENCE (20 * G_USEC_PER_SEC)

#define WAIT_UNTIL(condition) \
  do \
    { \
      gint64 until = g_get_monotonic_time () + PATIENCE; \
      while (!(condition) && g_get_monotonic_time () < until) \
        if (!g_main_context_iteration (NULL, FALSE)) \
          g_usleep (200); \
      ck_assert_msg ((condition), "waited in vain for %s", #condition); \
    } \
  while (FALSE)

typedef struct
{
  char *folder;
  SwClock *clock;
  SwRecord *record;
  SwPatientList *list;
  GArray *mirror;      /* patients, as items-changed told */
  guint signals;
  guint most_added;    /* in a signal that also removed */
} Watch;

static gint64
patient_at (GListModel *model, guint position)
{
  g_autoptr (SwPatientRow) row = g_list_model_get_item (model, position);

  ck_assert_ptr_nonnull (row);
  return sw_patient_row_get_patient (row);
}

static void
on_items_changed (GListModel *model, guint position, guint removed, guint added, Watch *watch)
{
  ck_assert_uint_le (position + removed, watch->mirror->len);
  ck_assert_uint_eq (g_list_model_get_n_items (model), watch->mirror->len - removed + added);
  if (removed > 0)
    {
      g_array_remove_range (watch->mirror, position, removed);
      watch->most_added = MAX (watch->most_added, added);
    }
  for (guint i = 0; i < added; i++)
    {
      gint64 patient = patient_at (model, position + i);

      g_array_insert_val (watch->mirror, position + i, patient);
    }
  watch->signals++;
}

static void
assert_mirrored (Watch *watch)
{
  GListModel *model = G_LIST_MODEL (watch->list);

  ck_assert_uint_eq (g_list_model_get_n_items (model), watch->mirror->len);
  for (guint i = 0; i < watch->mirror->len; i++)
    ck_assert_int_eq (patient_at (model, i), g_array_index (watch->mirror, gint64, i));
  ck_assert_ptr_null (g_list_model_get_item (model, watch->mirror->len));
}

static void
keep_result (GObject *source, GAsyncResult *result, gpointer data)
{
  *(GAsyncResult **) data = g_object_ref (result);
}

static void
settle (Watch *watch)
{
  WAIT_UNTIL (!sw_patient_list_get_loading (watch->list));
  assert_mirrored (watch);
}

static char *
crowd_folder (void)
{
  g_autofree char *data = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", NULL);
  g_autofree char *parent = g_dir_make_tmp ("siteward-list-XXXXXX", NULL);
  char *folder = g_build_filename (parent, "record", NULL);
  SwDemoOptions options = { .patients = CROWD, .seed = 3, .today = FIXTURE_TODAY };
  g_autoptr (GError) error = NULL;

  g_setenv ("SW_DATA_DIR", data, TRUE);
  ck_assert_msg (sw_demo_make (folder, &options, &error), "%s", error ? error->message : "");
  return folder;
}

static Watch *
watch_new (void)
{
  Watch *watch = g_new0 (Watch, 1);
  g_autoptr (GAsyncResult) result = NULL;

  watch->folder = crowd_folder ();
  watch->clock = sw_clock_new_at ((SwMoment){ FIXTURE_TODAY, 580 });
  watch->mirror = g_array_new (FALSE, FALSE, sizeof (gint64));
  sw_record_open_async (watch->folder, NULL, watch->clock, NULL, keep_result, &result);
  WAIT_UNTIL (result != NULL);
  watch->record = sw_record_open_finish (result, NULL);
  watch->list = sw_patient_list_new (watch->record);
  g_signal_connect (watch->list, "items-changed", G_CALLBACK (on_items_changed), watch);
  settle (watch);
  return watch;
}

static void
watch_free (Watch *watch)
{
  g_autoptr (GAsyncResult) closed = NULL;
  gpointer left = watch->list;

  g_object_add_weak_pointer (G_OBJECT (watch->list), &left);
  g_object_unref (watch->list);
  WAIT_UNTIL (left == NULL);
  sw_record_close_async (watch->record, keep_result, &closed);
  WAIT_UNTIL (closed != NULL);
  g_object_unref (watch->record);
  sw_clock_unref (watch->clock);
  g_array_unref (watch->mirror);
  fixture_remove (watch->folder);
  g_free (watch);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Watch, watch_free)

START_TEST (test_rows_load)
{
  g_autoptr (Watch) watch = watch_new ();
  g_autoptr (SwPatientRow) row = g_list_model_get_item (G_LIST_MODEL (watch->list), 0);
  g_autoptr (SwPatientRow) same = g_list_model_get_item (G_LIST_MODEL (watch->list), 0);
  g_autofree char *number = NULL;

  ck_assert_uint_eq (watch->mirror->len, CROWD);
  ck_assert_uint_eq (watch->signals, 1);
  ck_assert_ptr_eq (row, same); /* one object for a patient */
  WAIT_UNTIL (sw_patient_row_get_loaded (row));
  ck_assert_ptr_nonnull (sw_patient_row_get_name (row));
  ck_assert_ptr_nonnull (sw_patient_row_get_client (row));
  number = sw_patient_number (sw_patient_row_get_patient (row));
  ck_assert_str_eq (sw_patient_row_get_number (row), number);
}
END_TEST

START_TEST (test_search)
{
  g_autoptr (Watch) watch = watch_new ();
  g_autoptr (SwPatientRow) row = NULL;
  guint position;

  sw_patient_list_set_search (watch->list, "marlo alda");
  settle (watch);
  ck_assert_uint_eq (watch->mirror->len, 1);
  row = g_list_model_get_item (G_LIST_MODEL (watch->list), 0);
  WAIT_UNTIL (sw_patient_row_get_loaded (row));
  ck_assert_str_eq (sw_patient_row_get_name (row), "Marlo");
  ck_assert_str_eq (sw_patient_row_get_stage (row), "treatment-day");
  ck_assert_int_eq (sw_patient_row_get_due (row).day, FIXTURE_TODAY);
  sw_patient_list_set_search (watch->list, "no such dog at all");
  settle (watch);
  ck_assert_uint_eq (watch->mirror->len, 0);
  sw_patient_list_set_search (watch->list, "");
  settle (watch);
  ck_assert_uint_eq (watch->mirror->len, CROWD);
  ck_assert (sw_patient_list_find (watch->list, sw_patient_row_get_patient (row), &position));
  ck_assert_int_eq (patient_at (G_LIST_MODEL (watch->list), position), sw_patient_row_get_patient (row));
}
END_TEST

/* Typed faster than answered: only the last search is taken over. */
START_TEST (test_stale_answers_are_dropped)
{
  g_autoptr (Watch) watch = watch_new ();
  static const char *const letters[] = { "m", "ma", "mar", "marl", "marlo", "marlo a" };
  guint before = watch->signals;

  for (guint i = 0; i < G_N_ELEMENTS (letters); i++)
    sw_patient_list_set_search (watch->list, letters[i]);
  settle (watch);
  ck_assert_uint_eq (watch->signals - before, 1);
  for (guint i = 0; i < 200; i++) /* the older ones come back now, and change nothing */
    g_main_context_iteration (NULL, FALSE);
  ck_assert_uint_eq (watch->signals - before, 1);
  ck_assert_uint_ge (watch->mirror->len, 1);
}
END_TEST

START_TEST (test_shows)
{
  g_autoptr (Watch) watch = watch_new ();
  guint open;

  sw_patient_list_set_show (watch->list, SW_SHOW_OPEN);
  settle (watch);
  open = watch->mirror->len;
  ck_assert (open > 0 && open < CROWD);
  sw_patient_list_set_show (watch->list, SW_SHOW_DUE);
  settle (watch);
  ck_assert (watch->mirror->len > 0 && watch->mirror->len < open);
}
END_TEST

/* A large range that replaces another comes in two steps, so that nobody walks it looking for what was there. */
START_TEST (test_large_ranges_in_two_steps)
{
  g_autoptr (Watch) watch = watch_new ();

  sw_patient_list_set_search (watch->list, "b");
  settle (watch);
  sw_patient_list_set_search (watch->list, "");
  settle (watch);
  ck_assert_uint_le (watch->most_added, 512);
}
END_TEST

static void
performed (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwReply) reply = sw_record_perform_finish (SW_RECORD (source), result, NULL);

  ck_assert (reply != NULL && reply->done);
  *(gint64 *) data = reply->patient;
}

static gint64
register_dog (SwRecord *record, const char *name)
{
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_PATIENT, TOMAS, 0);
  SwClientDetails *client = sw_new (SW_FACT_CLIENT_DETAILS, SwClientDetails);
  SwPatientDetails *details = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);
  gint64 patient = 0;

  client->client = sw_request_add (request, sw_new (SW_FACT_CLIENT, SwClient));
  client->name = g_strdup ("Zander, Ulla");
  sw_request_add (request, client);
  details->client = client->client;
  details->fact.patient = sw_request_add (request, sw_new (SW_FACT_PATIENT, SwPatient));
  details->name = g_strdup (name);
  details->species = g_strdup ("dog");
  sw_request_add (request, details);
  sw_record_perform_async (record, request, NULL, performed, &patient);
  WAIT_UNTIL (patient != 0);
  return patient;
}

static SwRequest *
rename_dog (const SwDossier *dossier, const char *name)
{
  SwPatientDetails *details = sw_fact_correction (sw_dossier_patient (dossier));
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_PATIENT, TOMAS, dossier->patient);

  g_free (details->name);
  details->name = g_strdup (name);
  sw_request_add (request, details);
  return request;
}

START_TEST (test_follows_changes)
{
  g_autoptr (Watch) watch = watch_new ();
  g_autoptr (GAsyncResult) loaded = NULL;
  g_autoptr (SwPatientRow) row = NULL;
  g_autoptr (SwDossier) dossier = NULL;
  guint before = watch->signals, position = 0;
  gint64 patient = register_dog (watch->record, "Aardig"), renamed = 0;

  WAIT_UNTIL (watch->mirror->len == CROWD + 1);
  settle (watch);
  ck_assert_uint_eq (watch->signals, before + 1); /* one row in, nothing else touched */
  ck_assert (sw_patient_list_find (watch->list, patient, &position));
  row = g_list_model_get_item (G_LIST_MODEL (watch->list), position);
  WAIT_UNTIL (sw_patient_row_get_loaded (row));
  sw_record_load_dossier_async (watch->record, patient, NULL, keep_result, &loaded);
  WAIT_UNTIL (loaded != NULL);
  dossier = sw_record_load_dossier_finish (watch->record, loaded, NULL);
  sw_record_perform_async (watch->record, rename_dog (dossier, "Zzaardig"), NULL, performed, &renamed);
  WAIT_UNTIL (g_strcmp0 (sw_patient_row_get_name (row), "Zzaardig") == 0);
  settle (watch);
  ck_assert (sw_patient_list_find (watch->list, patient, &position));
  ck_assert_uint_eq (position, CROWD); /* now the last one; the row is the same object */
  g_clear_object (&loaded);
}
END_TEST

START_TEST (test_rows_are_let_go)
{
  g_autoptr (Watch) watch = watch_new ();
  guint n = g_list_model_get_n_items (G_LIST_MODEL (watch->list));
  gpointer first = g_list_model_get_item (G_LIST_MODEL (watch->list), 0);

  g_object_add_weak_pointer (first, &first);
  g_object_unref (first);
  for (guint i = 0; i < n; i++)
    patient_at (G_LIST_MODEL (watch->list), i);
  ck_assert_ptr_null (first); /* 1024 newer rows are kept instead */
}
END_TEST

static Suite *
list_suite (void)
{
  Suite *suite = suite_create ("list");
  TCase *tests = tcase_create ("list");

  tcase_set_timeout (tests, 60);
  tcase_add_test (tests, test_rows_load);
  tcase_add_test (tests, test_search);
  tcase_add_test (tests, test_stale_answers_are_dropped);
  tcase_add_test (tests, test_shows);
  tcase_add_test (tests, test_large_ranges_in_two_steps);
  tcase_add_test (tests, test_follows_changes);
  tcase_add_test (tests, test_rows_are_let_go);
  suite_add_tcase (suite, tests);
  return suite;
}

int
main (void)
{
  return fixture_run (list_suite ());
}
