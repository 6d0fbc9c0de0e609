/* desk-fixture.c: a practice of three dogs, and the requests that tests make at its desk
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-check-record.h"
#include "sw-demo.h"
#include "sw-error.h"
#include "sw-quantity.h"

#include <glib/gstdio.h>
#include <stdlib.h>

static char *
in_source (const char *name)
{
  return g_build_filename (g_getenv ("SW_SOURCE_DIR"), name, NULL);
}

char *
fixture_folder (void)
{
  g_autofree char *script = in_source ("tests/service/ready.txt"), *data = in_source ("data");
  SwDemoOptions options = { .seed = 7, .today = FIXTURE_TODAY, .script = script };
  g_autoptr (GError) error = NULL;
  g_autofree char *parent = g_dir_make_tmp ("siteward-desk-XXXXXX", &error);
  char *folder = g_build_filename (parent, "record", NULL);

  ck_assert_ptr_nonnull (parent);
  g_setenv ("SW_DATA_DIR", data, TRUE);
  sw_demo_make (folder, &options, &error);
  ck_assert_msg (error == NULL, "%s", error ? error->message : "");
  return folder;
}

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      remove_tree (child);
    }
  g_remove (path);
}

void
fixture_remove (char *folder)
{
  g_autofree char *parent = g_path_get_dirname (folder);

  remove_tree (parent);
  g_free (folder);
}

Fixture *
fixture_new (void)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDossier) marlo = NULL;
  g_autoptr (SwDossier) tansy = NULL;

  fixture->folder = fixture_folder ();
  fixture->clock = sw_clock_new_at ((SwMoment){ FIXTURE_TODAY, 9 * 60 + 40 });
  fixture->desk = sw_desk_open (fixture->folder, fixture->clock, &error);
  ck_assert_msg (error == NULL, "%s", error ? error->message : "");
  /* Registered in the order of days: Tansy, Marlo, Dusk. */
  fixture->tansy = 1;
  fixture->patient = 2;
  fixture->dusk = 3;
  marlo = fixture_dossier (fixture, fixture->patient);
  tansy = fixture_dossier (fixture, fixture->tansy);
  fixture->course = sw_dossier_last_course (marlo)->fact.id;
  fixture->tansy_course = sw_dossier_last_course (tansy)->fact.id;
  return fixture;
}

void
fixture_free (Fixture *fixture)
{
  sw_desk_free (fixture->desk);
  sw_clock_unref (fixture->clock);
  fixture_remove (fixture->folder);
  g_free (fixture);
}

void
fixture_at (Fixture *fixture, SwDay day, int hours, int minutes)
{
  sw_clock_set (fixture->clock, (SwMoment){ day, hours * 60 + minutes });
}

SwDossier *
fixture_dossier (Fixture *fixture, gint64 patient)
{
  g_autoptr (GError) error = NULL;
  SwDossier *dossier = sw_desk_load_dossier (fixture->desk, patient, &error);

  ck_assert_msg (dossier != NULL, "%s", error ? error->message : "");
  return dossier;
}

char *
fixture_head (Fixture *fixture)
{
  g_autoptr (SwStore) store = sw_store_open (fixture->folder, SW_STORE_READ, NULL);
  char *digest = sw_store_head_digest (store, NULL);

  ck_assert_ptr_nonnull (digest);
  return digest;
}

void
fixture_assert_sound (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = sw_store_open (folder, SW_STORE_READ, &error);
  g_autoptr (SwCheckReport) report = store ? sw_check_record (store, NULL, NULL, &error) : NULL;

  ck_assert_msg (report != NULL, "%s", error ? error->message : "");
  ck_assert_msg (report->troubles->len == 0, "%s", report->troubles->len > 0 ? (char *)report->troubles->pdata[0] : "");
}

int
fixture_run (Suite *suite)
{
  SRunner *runner = srunner_create (suite);
  int failed;

  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

static char *
say (const GPtrArray *findings)
{
  return sw_findings_codes (findings, SW_MEETS);
}

SwReply *
fixture_done (Fixture *fixture, SwRequest *request)
{
  g_autoptr (SwRequest) taken = request;
  g_autoptr (GError) error = NULL;
  SwReply *reply = sw_desk_perform (fixture->desk, taken, &error);
  g_autofree char *findings = reply ? say (reply->findings) : NULL;

  ck_assert_msg (reply != NULL, "%s", error ? error->message : "");
  ck_assert_msg (reply->done, "refused: %s", findings);
  return reply;
}

void
fixture_refused (Fixture *fixture, SwRequest *request, const char *code)
{
  g_autofree char *before = fixture_head (fixture), *after = NULL, *findings = NULL;
  g_autoptr (SwRequest) taken = request;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwReply) reply = sw_desk_perform (fixture->desk, taken, &error);
  gboolean found = FALSE;

  ck_assert_msg (reply != NULL, "%s", error ? error->message : "");
  findings = say (reply->findings);
  ck_assert_msg (!reply->done, "%s was to be refused for %s", sw_act_name (taken->act), code);
  for (guint i = 0; i < reply->findings->len; i++)
    found = found || g_str_equal (sw_finding_code (((const SwFinding *) reply->findings->pdata[i])->code), code);
  ck_assert_msg (found, "no %s among %s", code, findings);
  after = fixture_head (fixture);
  ck_assert_str_eq (before, after);
}

void
fixture_fails (Fixture *fixture, SwRequest *request, int code)
{
  g_autofree char *before = fixture_head (fixture), *after = NULL;
  g_autoptr (SwRequest) taken = request;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwReply) reply = sw_desk_perform (fixture->desk, taken, &error);

  ck_assert_ptr_null (reply);
  ck_assert_msg (g_error_matches (error, SW_ERROR, code), "%s", error->message);
  after = fixture_head (fixture);
  ck_assert_str_eq (before, after);
}

const SwDosePlan *
fixture_dose (const SwDossier *dossier, SwDay day, int hours, const char *substance)
{
  const SwDosePlan *dose;

  for (guint i = 0; (dose = sw_facts_next (&dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (dose->due_day == day && dose->due_minute == hours * 60 && g_str_equal (dose->substance, substance))
      return dose;
  ck_abort_msg ("no dose of %s at %d:00", substance, hours);
  return NULL;
}

static SwVial *
vial (gint64 left_nl)
{
  SwVial *row = sw_new (SW_FACT_VIAL, SwVial);

  row->lot = g_strdup ("7K214");
  row->expiry = FIXTURE_TODAY + 300;
  row->agent = g_strdup ("tigilanol tiglate");
  row->strength_ug_ml = 1000;
  row->left_nl = left_nl;
  row->disposal = g_strdup ("cytotoxic waste");
  row->witness = TOMAS;
  return row;
}

static SwReadAloud *
read_after_drawing (int minute)
{
  SwReadAloud *row = sw_new (SW_FACT_READ_ALOUD, SwReadAloud);

  row->stage = SW_READ_ALOUD_AFTER_DRAWING;
  row->second = TOMAS;
  row->day = FIXTURE_TODAY;
  row->minute = minute;
  return row;
}

SwRequest *
fixture_injection (Fixture *fixture, gint64 person, int hours, int minutes)
{
  g_autoptr (SwDossier) dossier = fixture_dossier (fixture, fixture->patient);
  SwRequest *request = sw_request_injection (person, fixture->patient, fixture->course);
  SwInjection *injection = sw_new (SW_FACT_INJECTION, SwInjection);
  const SwReleaseTumour *released = sw_facts_last (&dossier->facts, SW_FACT_RELEASE_TUMOUR);
  SwInjectionTumour *given = sw_new (SW_FACT_INJECTION_TUMOUR, SwInjectionTumour);
  const SwTumourDetails *tumour = sw_facts_last (&dossier->facts, SW_FACT_TUMOUR_DETAILS);

  injection->day = FIXTURE_TODAY;
  injection->minute = hours * 60 + minutes;
  injection->injector = ODA;
  injection->assistant = TOMAS;
  injection->needle = g_strdup ("25 G");
  injection->gate = g_strdup ("");
  sw_request_add (request, injection);
  given->tumour = tumour->tumour;
  given->drawn_nl = given->given_nl = released ? released->drawn_nl : 850000;
  sw_request_add (request, given);
  sw_request_add (request, vial (MAX (0, 2000000 - given->drawn_nl)));
  sw_request_add (request, read_after_drawing ((int) injection->minute));
  return request;
}

SwRequest *
fixture_correct_reading (Fixture *fixture, gint64 person)
{
  g_autoptr (SwDossier) dossier = fixture_dossier (fixture, fixture->patient);
  const SwReading *last = sw_facts_last (&dossier->facts, SW_FACT_READING);
  SwReading *correction = sw_fact_correction (last);
  SwRequest *request = sw_request_new (SW_ACT_RECORD_READING, person, fixture->patient);

  correction->axis1 += 10;
  g_free (correction->typed);
  correction->typed = sw_reading_format ((const gint64[3]){ correction->axis1, correction->axis2, correction->axis3 });
  sw_request_add (request, correction);
  return request;
}
