/* test-release.c: release and injection refused and allowed, corrections, what happened outside the gate
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-error.h"

#include <string.h>

static SwRequest *
release (Fixture *f, gint64 person)
{
  return sw_request_release (person, f->patient, f->course);
}

static SwRequest *
untick_morning (Fixture *f, gint64 person)
{
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);
  const SwDosePlan *dose = fixture_dose (dossier, FIXTURE_TODAY, 8, "prednisolone");

  return sw_request_untick (person, f->patient, sw_dossier_dose_event (dossier, dose->dose));
}

static SwRequest *
read_aloud_again (Fixture *f)
{
  SwRequest *request = sw_request_new (SW_ACT_SECOND_CHECK, ODA, f->patient);
  SwReadAloud *row = sw_new (SW_FACT_READ_ALOUD, SwReadAloud);

  row->course = f->course;
  row->stage = SW_READ_ALOUD_BEFORE_RELEASE;
  row->second = TOMAS;
  row->day = FIXTURE_TODAY;
  row->minute = sw_desk_now (f->desk).local.minute;
  sw_request_add (request, row);
  return request;
}

/* --- release --- */

START_TEST (test_release_and_injection)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  g_autoptr (SwReply) injected = NULL;
  g_autoptr (SwDossier) dossier = NULL;
  const SwInjection *injection;
  const SwReleaseTumour *row;

  ck_assert_int_ne (sw_reply_id (released, SW_FACT_RELEASE), 0);
  fixture_at (f, FIXTURE_TODAY, 10, 45);
  injected = fixture_done (f, fixture_injection (f, ODA, 10, 41));
  dossier = fixture_dossier (f, f->patient);
  injection = sw_dossier_injection (dossier, f->course);
  row = sw_facts_last (&dossier->facts, SW_FACT_RELEASE_TUMOUR);
  /* 21.2 x 17.8 x 9.0 / 2 = 1.698 cm3; 0.5 mL/cm3 = 0.849 mL; 0.85 in a 1 mL syringe (computed by hand) */
  ck_assert_int_eq (row->drawn_nl, 850000);
  ck_assert_int_eq (row->syringe_nl, 1000000);
  ck_assert_int_eq (injection->release, sw_reply_id (released, SW_FACT_RELEASE));
  ck_assert_int_eq (injection->outside, 0);
  ck_assert_int_eq (injection->past_limit, 0);
  fixture_assert_sound (f->folder);
}
END_TEST

START_TEST (test_release_needs_a_vet)
{
  g_autoptr (Fixture) f = fixture_new ();

  fixture_fails (f, release (f, TOMAS), SW_ERROR_ROLE);
  fixture_fails (f, release (f, RUTH), SW_ERROR_ROLE);
}
END_TEST

START_TEST (test_release_refused_without_a_dose)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) unticked = fixture_done (f, untick_morning (f, TOMAS));

  fixture_refused (f, release (f, ODA), "dose-not-known");
}
END_TEST

START_TEST (test_release_refused_past_a_limit)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);
  const SwReading *last = sw_facts_last (&dossier->facts, SW_FACT_READING);
  SwReading *large = sw_fact_correction (last);
  SwRequest *request = sw_request_new (SW_ACT_RECORD_READING, TOMAS, f->patient);
  g_autoptr (SwReply) corrected = NULL;

  large->axis1 = 6000;
  large->axis2 = 5000;
  large->axis3 = 4000;
  sw_request_add (request, large);
  corrected = fixture_done (f, request);
  fixture_refused (f, release (f, ODA), "volume");
}
END_TEST

START_TEST (test_two_releases_conflict)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) first = fixture_done (f, release (f, ODA));

  fixture_fails (f, release (f, INES), SW_ERROR_CONFLICT);
}
END_TEST

/* --- corrections before and after the injection --- */

START_TEST (test_correction_voids_the_release)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  g_autoptr (SwReply) corrected = fixture_done (f, fixture_correct_reading (f, TOMAS));
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);
  g_autoptr (SwReply) read_aloud = NULL;
  g_autoptr (SwReply) again = NULL;

  ck_assert (corrected->voided);
  ck_assert (!corrected->amended);
  ck_assert_ptr_null (sw_dossier_release (dossier, f->course));
  ck_assert_int_eq (corrected->rows->len, 2); /* in the same act */
  fixture_at (f, FIXTURE_TODAY, 10, 45);
  fixture_fails (f, fixture_injection (f, ODA, 10, 41), SW_ERROR_REFUSED);
  fixture_refused (f, release (f, ODA), "read-aloud-stale"); /* other readings than were read aloud */
  read_aloud = fixture_done (f, read_aloud_again (f));
  again = fixture_done (f, release (f, ODA)); /* released anew, on what stands now */
  fixture_assert_sound (f->folder);
}
END_TEST

START_TEST (test_untick_voids_the_release)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  g_autoptr (SwReply) unticked = fixture_done (f, untick_morning (f, TOMAS));
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);

  ck_assert (unticked->voided);
  ck_assert_ptr_null (sw_dossier_release (dossier, f->course));
}
END_TEST

START_TEST (test_unrelated_correction_leaves_the_release)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);
  const SwWeight *first = sw_facts_by_id (&dossier->facts, SW_FACT_WEIGHT,
                                          ((const SwFact *) dossier->facts.rows[SW_FACT_WEIGHT]->pdata[0])->id);
  SwWeight *weight = sw_fact_correction (first);
  SwRequest *request = sw_request_new (SW_ACT_WEIGH, TOMAS, f->patient);
  g_autoptr (SwReply) reply = NULL;

  ck_assert_int_lt (first->day, FIXTURE_TODAY);
  weight->grams += 100;
  sw_request_add (request, weight);
  reply = fixture_done (f, request);
  ck_assert (!reply->voided);
}
END_TEST

START_TEST (test_after_the_injection_only_a_vet_amends)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  g_autoptr (SwReply) injected = NULL;
  g_autoptr (SwReply) amended = NULL;
  g_autoptr (SwDossier) dossier = NULL;

  fixture_at (f, FIXTURE_TODAY, 10, 45);
  injected = fixture_done (f, fixture_injection (f, ODA, 10, 41));
  fixture_fails (f, fixture_correct_reading (f, TOMAS), SW_ERROR_ROLE);
  amended = fixture_done (f, fixture_correct_reading (f, ODA));
  ck_assert (amended->amended);
  ck_assert (!amended->voided);
  dossier = fixture_dossier (f, f->patient);
  ck_assert_ptr_nonnull (sw_dossier_release (dossier, f->course));
  ck_assert_ptr_nonnull (sw_dossier_injection (dossier, f->course));
}
END_TEST

/* --- injection --- */

START_TEST (test_release_ends_with_its_day)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  SwRequest *request;

  fixture_at (f, FIXTURE_TODAY + 1, 9, 0);
  request = fixture_injection (f, ODA, 10, 41);
  for (guint i = 0; i < request->facts->len; i++)
    if (((SwFact *) request->facts->pdata[i])->kind == SW_FACT_INJECTION)
      {
        ((SwInjection *) request->facts->pdata[i])->day = FIXTURE_TODAY + 1;
        ((SwInjection *) request->facts->pdata[i])->minute = 8 * 60;
      }
  fixture_refused (f, request, "release-over");
}
END_TEST

START_TEST (test_injection_refused_for_its_vial)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  SwRequest *request;

  fixture_at (f, FIXTURE_TODAY, 10, 45);
  request = fixture_injection (f, ODA, 10, 41);
  for (guint i = 0; i < request->facts->len; i++)
    if (((SwFact *) request->facts->pdata[i])->kind == SW_FACT_VIAL)
      ((SwVial *) request->facts->pdata[i])->expiry = FIXTURE_TODAY - 1;
  fixture_refused (f, request, "vial-expired");
}
END_TEST

START_TEST (test_injection_ahead_of_its_time)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));

  fixture_fails (f, fixture_injection (f, ODA, 10, 41), SW_ERROR_INPUT); /* it is 09:40 */
}
END_TEST

/* --- outside the gate --- */

START_TEST (test_outside_is_recorded_and_marked)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) unticked = fixture_done (f, untick_morning (f, TOMAS));
  g_autoptr (SwReply) released = NULL;
  g_autoptr (SwReply) injected = NULL;
  g_autoptr (SwDossier) dossier = NULL;
  SwRequest *request = release (f, ODA);
  const SwInjection *injection;

  sw_request_set_outside (request, "");
  fixture_fails (f, request, SW_ERROR_INPUT);
  request = release (f, TOMAS);
  sw_request_set_outside (request, "it was given");
  fixture_fails (f, request, SW_ERROR_ROLE);
  request = release (f, ODA);
  sw_request_set_outside (request, "it was given before the client was asked");
  released = fixture_done (f, request);
  fixture_at (f, FIXTURE_TODAY, 10, 45);
  fixture_refused (f, fixture_injection (f, ODA, 10, 41), "dose-not-known");
  request = fixture_injection (f, ODA, 10, 41);
  sw_request_set_outside (request, "it was given before the client was asked");
  injected = fixture_done (f, request);
  dossier = fixture_dossier (f, f->patient);
  injection = sw_dossier_injection (dossier, f->course);
  ck_assert_int_eq (sw_dossier_release (dossier, f->course)->outside, 1);
  ck_assert_int_eq (injection->outside, 1);
  ck_assert_int_eq (injection->past_limit, 0);
  ck_assert_ptr_nonnull (strstr (injection->gate, "dose-not-known"));
  ck_assert_ptr_nonnull (strstr (sw_dossier_release (dossier, f->course)->gate, "dose-not-known"));
  fixture_assert_sound (f->folder);
}
END_TEST

START_TEST (test_past_a_limit_is_recorded_and_marked)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);
  SwReading *large = sw_fact_correction (sw_facts_last (&dossier->facts, SW_FACT_READING));
  SwRequest *request = sw_request_new (SW_ACT_RECORD_READING, TOMAS, f->patient);
  g_autoptr (SwReply) corrected = NULL;
  g_autoptr (SwReply) released = NULL;
  g_autoptr (SwReply) injected = NULL;
  g_autoptr (SwDossier) after = NULL;
  SwReleaseTumour *said = sw_new (SW_FACT_RELEASE_TUMOUR, SwReleaseTumour);

  large->axis1 = 6000;
  large->axis2 = 5000;
  large->axis3 = 4000;
  said->tumour = large->tumour;
  said->drawn_nl = 4200000;
  sw_request_add (request, large);
  corrected = fixture_done (f, request);
  request = release (f, ODA);
  sw_request_set_outside (request, "given by mistake on a wrong reading");
  fixture_fails (f, request, SW_ERROR_INPUT); /* no dose can be computed, so what was drawn must be said */
  request = release (f, ODA);
  sw_request_set_outside (request, "given by mistake on a wrong reading");
  sw_request_add (request, said);
  released = fixture_done (f, request);
  fixture_at (f, FIXTURE_TODAY, 10, 45);
  request = fixture_injection (f, ODA, 10, 41);
  sw_request_set_outside (request, "given by mistake on a wrong reading");
  injected = fixture_done (f, request);
  after = fixture_dossier (f, f->patient);
  ck_assert_int_eq (sw_dossier_injection (after, f->course)->past_limit, 1);
  ck_assert_int_eq (sw_dossier_release (after, f->course)->total_nl, 4200000);
}
END_TEST

static Suite *
release_suite (void)
{
  Suite *suite = suite_create ("release");
  TCase *tests = tcase_create ("release");

  tcase_set_timeout (tests, 60);
  tcase_add_test (tests, test_release_and_injection);
  tcase_add_test (tests, test_release_needs_a_vet);
  tcase_add_test (tests, test_release_refused_without_a_dose);
  tcase_add_test (tests, test_release_refused_past_a_limit);
  tcase_add_test (tests, test_two_releases_conflict);
  tcase_add_test (tests, test_correction_voids_the_release);
  tcase_add_test (tests, test_untick_voids_the_release);
  tcase_add_test (tests, test_unrelated_correction_leaves_the_release);
  tcase_add_test (tests, test_after_the_injection_only_a_vet_amends);
  tcase_add_test (tests, test_release_ends_with_its_day);
  tcase_add_test (tests, test_injection_refused_for_its_vial);
  tcase_add_test (tests, test_injection_ahead_of_its_time);
  tcase_add_test (tests, test_outside_is_recorded_and_marked);
  tcase_add_test (tests, test_past_a_limit_is_recorded_and_marked);
  suite_add_tcase (suite, tests);
  return suite;
}

int
main (void)
{
  return fixture_run (release_suite ());
}
