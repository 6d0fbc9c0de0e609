/* test-act.c: acts: who may, what is refused, references, batches, the journal, what changed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-error.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static char *folder;
static SwStore *store;

static void
set_up (void)
{
  folder = fixture_folder ();
  store = fixture_create (folder);
}

static void
tear_down (void)
{
  sw_store_close (store);
  fixture_remove (folder);
}

/* --- roles --- */

START_TEST (every_act_asks_the_table_for_every_set_of_roles)
{
  for (gint64 roles = 1; roles <= SW_ALL_ROLES; roles++)
    {
      gint64 person = fixture_person (store, "Tomas", roles);

      for (int kind = SW_ACT_FOUND_RECORD + 1; kind < SW_N_ACTS; kind++)
        {
          g_autoptr (GError) error = NULL;
          gboolean done = fixture_act (store, (SwActKind) kind, person, NULL, &error) != 0;

          ck_assert_msg (done == sw_act_allowed ((SwActKind) kind, roles), "%s with roles %d",
                         sw_act_code ((SwActKind) kind), (int) roles);
          ck_assert (done || g_error_matches (error, SW_ERROR, SW_ERROR_ROLE));
          ck_assert (done || strstr (error->message, "Tomas") != NULL);
        }
    }
  fixture_assert_sound (store);
}
END_TEST

/* What only a vet may write a technician can't bring in under another act. */
START_TEST (no_row_comes_under_a_lesser_act)
{
  static const SwFactKind vets[] = {
    SW_FACT_REASON,         SW_FACT_COURSE,    SW_FACT_COURSE_DETAILS,   SW_FACT_COURSE_TUMOUR, SW_FACT_RELEASE,
    SW_FACT_RELEASE_TUMOUR, SW_FACT_INJECTION, SW_FACT_INJECTION_TUMOUR, SW_FACT_VIAL,          SW_FACT_DISCHARGE,
    SW_FACT_SCORE,          SW_FACT_OVERALL,   SW_FACT_RECURRENCE,       SW_FACT_COURSE_END,    SW_FACT_DOCUMENT,
    SW_FACT_ADOPTION,       SW_FACT_PERSON,    SW_FACT_PERSON_DETAILS,
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  gint64 technician;

  fixture_fill (store, rand);
  technician = fixture_person (store, "Tomas", SW_ROLE_TECHNICIAN);
  for (gsize i = 0; i < G_N_ELEMENTS (vets); i++)
    {
      g_autoptr (GError) error = NULL;

      ck_assert_int_eq (fixture_act (store, SW_ACT_WEIGH, technician,
                                     fixture_facts (fixture_random_fact (vets[i], rand), NULL), &error),
                        0);
      ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_ROLE), "%s", error->message);
    }
}
END_TEST

/* A technician's correction of a weight voids the release that rests on it. */
START_TEST (a_technician_may_void_a_release)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  g_autoptr (SwDossier) dossier = NULL;
  g_autoptr (GError) error = NULL;
  gint64 technician;

  fixture_fill (store, rand);
  technician = fixture_person (store, "Tomas", SW_ROLE_TECHNICIAN);
  dossier = sw_store_load_dossier (store, 1, NULL);
  ck_assert_msg (
      fixture_act (store, SW_ACT_WEIGH, technician,
                   fixture_facts (sw_fact_correction (sw_facts_last (&dossier->facts, SW_FACT_WEIGHT)),
                                  sw_fact_withdrawal (sw_facts_last (&dossier->facts, SW_FACT_RELEASE)), NULL),
                   &error)
          != 0,
      "%s", error ? error->message : "");
}
END_TEST

START_TEST (who_has_left_may_nothing)
{
  gint64 person = fixture_person (store, "Tomas", SW_ALL_ROLES);
  g_autoptr (SwPractice) practice = sw_store_load_practice (store, NULL);
  SwPersonDetails *gone = sw_fact_correction (sw_practice_person (practice, person));
  g_autoptr (GError) error = NULL;

  gone->active = 0;
  ck_assert (fixture_act (store, SW_ACT_MANAGE_PEOPLE, 1, fixture_facts (gone, NULL), NULL) != 0);
  ck_assert (fixture_act (store, SW_ACT_KEEP_RECORD, person, NULL, &error) == 0);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_ROLE));
  g_clear_error (&error);
  ck_assert (fixture_act (store, SW_ACT_KEEP_RECORD, 99, NULL, &error) == 0);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_ROLE));
}
END_TEST

/* --- rows of one act --- */

static SwWeight *
weight_of (gint64 patient, gint64 grams)
{
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->fact.patient = patient;
  weight->grams = grams;
  weight->day = 20587;
  weight->typed = g_strdup ("24.6");
  return weight;
}

static SwTumourDetails *
details_of (gint64 patient, gint64 tumour)
{
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);

  details->fact.patient = patient;
  details->tumour = tumour;
  details->found = 20587;
  return details;
}

static gpointer
tumour_of (gint64 patient)
{
  SwFact *tumour = sw_fact_new (SW_FACT_TUMOUR);

  tumour->patient = patient;
  return tumour;
}

START_TEST (references_within_an_act_are_resolved)
{
  SwTumourDetails *second = details_of (1, -2);
  g_autoptr (GPtrArray) facts
    = g_ptr_array_ref (fixture_facts (tumour_of (1), tumour_of (1), details_of (1, -1), second, NULL));
  gint64 act;

  fixture_patient (store, "Marlo", "Aldane");
  act = fixture_act (store, SW_ACT_REGISTER_TUMOUR, 1, facts, NULL);
  ck_assert_int_gt (act, 0);
  ck_assert_int_eq (second->tumour, 2);
  ck_assert (second->fact.id == 2 && second->fact.act == act && second->fact.person == 1
             && second->fact.recorded_us > 0);
}
END_TEST

static void
assert_input_error (GPtrArray *facts)
{
  g_autoptr (GError) error = NULL;

  ck_assert_int_eq (fixture_act (store, SW_ACT_KEEP_RECORD, 1, facts, &error), 0);
  ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT), "%s", error->message);
}

START_TEST (impossible_rows_are_refused)
{
  fixture_patient (store, "Marlo", "Aldane");
  fixture_patient (store, "Quill", "Bisset");
  /* a later row, a row of another kind, no such row, a patient that is not there, an impossible value, two dogs */
  assert_input_error (fixture_facts (details_of (1, -2), tumour_of (1), NULL));
  assert_input_error (fixture_facts (weight_of (1, 24600), details_of (1, -1), NULL));
  assert_input_error (fixture_facts (tumour_of (1), details_of (1, -9), NULL));
  assert_input_error (fixture_facts (weight_of (99, 24600), NULL));
  assert_input_error (fixture_facts (details_of (1, 99), NULL));
  assert_input_error (fixture_facts (weight_of (1, 0), NULL));
  assert_input_error (fixture_facts (weight_of (1, 24600), weight_of (2, 24600), NULL));
  fixture_assert_sound (store);
}
END_TEST

START_TEST (a_refused_act_leaves_its_batch_alone_a_failed_one_ends_it)
{
  SwActHead head = { .kind = SW_ACT_WEIGH, .person = 1 };
  g_autoptr (GPtrArray) good = fixture_facts (weight_of (1, 24600), NULL);
  g_autoptr (GPtrArray) refused = fixture_facts (weight_of (1, 0), NULL);
  g_autoptr (GPtrArray) again = fixture_facts (weight_of (1, 24700), NULL);
  g_autoptr (GPtrArray) failing = fixture_facts (details_of (1, 99), NULL);
  gint64 before;

  fixture_patient (store, "Marlo", "Aldane");
  before = sw_store_last_act (store, NULL);
  ck_assert (sw_store_begin (store, NULL));
  head.batch = sw_store_new_batch (store, NULL);
  ck_assert_int_eq (head.batch, before + 1);
  ck_assert (sw_store_append (store, &head, good, NULL, NULL));
  ck_assert (!sw_store_append (store, &head, refused, NULL, NULL));
  ck_assert (sw_store_append (store, &head, again, NULL, NULL));
  ck_assert (sw_store_commit (store, NULL));
  ck_assert_int_eq (sw_store_last_act (store, NULL), before + 2);

  ck_assert (sw_store_begin (store, NULL));
  ck_assert (!sw_store_append (store, &head, failing, NULL, NULL));
  ck_assert (!sw_store_commit (store, NULL));
  ck_assert_int_eq (sw_store_last_act (store, NULL), before + 2);
  fixture_assert_sound (store);
}
END_TEST

/* --- journal and changes --- */

START_TEST (the_journal_says_who_when_and_what)
{
  g_autoptr (GPtrArray) lines = NULL;
  g_autofree char *head = NULL;
  const SwJournalLine *line;

  fixture_patient (store, "Marlo", "Aldane");
  fixture_patient (store, "Quill", "Bisset");
  fixture_weigh (store, 1, 24600);
  lines = sw_store_journal (store, 0, 0, 10, NULL);
  ck_assert_uint_eq (lines->len, 4);
  line = lines->pdata[0];
  ck_assert (line->id == 4 && line->kind == SW_ACT_WEIGH && line->patient == 1 && line->person == 1
             && line->batch == 0);
  ck_assert (line->roles == SW_ALL_ROLES && line->offset_minutes == 120);
  ck_assert_str_eq (line->person_name, "Ines");
  ck_assert_uint_eq (line->rows->len, 1);
  ck_assert (g_array_index (line->rows, SwJournalRow, 0).kind == SW_FACT_WEIGHT);
  head = sw_store_head_digest (store, NULL);
  ck_assert_str_eq (line->digest, head);
  g_ptr_array_unref (lines);
  lines = sw_store_journal (store, 1, 4, 10, NULL);
  ck_assert_uint_eq (lines->len, 1);
  ck_assert_int_eq (((SwJournalLine *) lines->pdata[0])->id, 2);
}
END_TEST

START_TEST (changes_name_patients_also_through_their_client)
{
  g_autoptr (SwStore) reader = sw_store_open (folder, SW_STORE_READ, NULL);
  gint64 version = sw_store_data_version (reader, NULL), last;
  g_autoptr (SwDossier) dossier = NULL;
  g_autoptr (SwChanges) first = NULL, second = NULL, nothing = NULL;

  fixture_patient (store, "Marlo", "Aldane");
  fixture_patient (store, "Quill", "Bisset");
  ck_assert_int_ne (sw_store_data_version (reader, NULL), version);
  first = sw_store_changes_after (reader, 1, NULL);
  ck_assert (first->patients->len == 2 && first->last == 3 && !first->practice);
  last = first->last;
  dossier = sw_store_load_dossier (store, 2, NULL);
  ck_assert (fixture_act (store, SW_ACT_REGISTER_CLIENT, 1,
                          fixture_facts (sw_fact_correction (sw_dossier_client (dossier)), NULL), NULL) != 0);
  fixture_person (store, "Tomas", SW_ROLE_VET);
  second = sw_store_changes_after (reader, last, NULL);
  ck_assert (second->patients->len == 1 && g_array_index (second->patients, gint64, 0) == 2 && second->practice);
  nothing = sw_store_changes_after (reader, second->last, NULL);
  ck_assert (nothing->patients->len == 0 && nothing->last == second->last && !nothing->practice);
}
END_TEST

START_TEST (a_dossier_holds_one_dog_and_its_client)
{
  g_autoptr (SwDossier) dossier = NULL;
  g_autoptr (GError) error = NULL;

  fixture_patient (store, "Marlo", "Aldane");
  fixture_patient (store, "Quill", "Bisset");
  fixture_weigh (store, 1, 24600);
  fixture_weigh (store, 2, 9600);
  dossier = sw_store_load_dossier (store, 2, NULL);
  ck_assert_str_eq (sw_dossier_patient (dossier)->name, "Quill");
  ck_assert_str_eq (sw_dossier_client (dossier)->name, "Bisset");
  ck_assert_uint_eq (dossier->facts.rows[SW_FACT_WEIGHT]->len, 1);
  ck_assert_ptr_null (sw_store_load_dossier (store, 3, &error));
  ck_assert_ptr_nonnull (strstr (error->message, "P-000003"));
}
END_TEST

/* What is read inside one read transaction is one state. */
START_TEST (a_read_transaction_sees_one_state)
{
  g_autoptr (SwStore) reader = sw_store_open (folder, SW_STORE_READ, NULL);
  gint64 before;

  ck_assert (sw_store_read_begin (reader, NULL));
  before = sw_store_last_act (reader, NULL);
  fixture_patient (store, "Marlo", "Aldane");
  ck_assert_int_eq (sw_store_last_act (reader, NULL), before);
  ck_assert_ptr_null (sw_store_load_dossier (reader, 1, NULL));
  sw_store_read_end (reader);
  ck_assert_int_eq (sw_store_last_act (reader, NULL), before + 1);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("act");
  TCase *tcase = tcase_create ("act");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, every_act_asks_the_table_for_every_set_of_roles);
  tcase_add_test (tcase, no_row_comes_under_a_lesser_act);
  tcase_add_test (tcase, a_technician_may_void_a_release);
  tcase_add_test (tcase, who_has_left_may_nothing);
  tcase_add_test (tcase, references_within_an_act_are_resolved);
  tcase_add_test (tcase, impossible_rows_are_refused);
  tcase_add_test (tcase, a_refused_act_leaves_its_batch_alone_a_failed_one_ends_it);
  tcase_add_test (tcase, the_journal_says_who_when_and_what);
  tcase_add_test (tcase, changes_name_patients_also_through_their_client);
  tcase_add_test (tcase, a_dossier_holds_one_dog_and_its_client);
  tcase_add_test (tcase, a_read_transaction_sees_one_state);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
