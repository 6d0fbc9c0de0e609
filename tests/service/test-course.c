/* test-course.c: doses, plan, course, score and documents: each guarded operation refused and allowed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-error.h"
#include "sw-move.h"

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

/* --- doses --- */

static SwRequest *
tick (Fixture *f, gint64 dose, gint64 seen, SwDoseState pressed, int hours, int minutes)
{
  SwMoment given = hours < 0 ? SW_NO_MOMENT : (SwMoment){ FIXTURE_TODAY, hours * 60 + minutes };

  return sw_request_tick (TOMAS, f->tansy, dose, seen, pressed, given, "the client, by phone");
}

static const SwDoseEvent *
event_of (const SwDossier *dossier, gint64 dose)
{
  const SwDoseEvent *event = sw_dossier_dose_event (dossier, dose);

  ck_assert_ptr_nonnull (event);
  return event;
}

START_TEST (test_tick)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->tansy);
  gint64 morning = fixture_dose (dossier, FIXTURE_TODAY, 8, "prednisolone")->dose;
  gint64 evening = fixture_dose (dossier, FIXTURE_TODAY, 20, "prednisolone")->dose;
  g_autoptr (SwReply) given = NULL;
  g_autoptr (SwReply) corrected = NULL;
  g_autoptr (SwDossier) after = NULL;

  fixture_fails (f, tick (f, evening, 0, SW_DOSE_GIVEN, -1, 0), SW_ERROR_INPUT);  /* due in the evening */
  fixture_fails (f, tick (f, evening, 0, SW_DOSE_MISSED, -1, 0), SW_ERROR_INPUT);
  fixture_fails (f, tick (f, morning, 0, SW_DOSE_LATE, -1, 0), SW_ERROR_INPUT);   /* when? */
  fixture_fails (f, tick (f, morning, 0, SW_DOSE_LATE, 11, 0), SW_ERROR_INPUT);   /* it is 09:40 */
  given = fixture_done (f, tick (f, morning, 0, SW_DOSE_GIVEN, -1, 0));
  fixture_fails (f, tick (f, morning, 0, SW_DOSE_MISSED, -1, 0), SW_ERROR_CONFLICT); /* somebody told it first */
  after = fixture_dossier (f, f->tansy);
  ck_assert_int_eq (event_of (after, morning)->state, SW_DOSE_GIVEN);
  ck_assert_int_eq (event_of (after, morning)->minute, 8 * 60); /* given takes the due time */
  corrected = fixture_done (f, tick (f, morning, event_of (after, morning)->fact.id, SW_DOSE_LATE, 9, 30));
  g_clear_pointer (&after, sw_dossier_free);
  after = fixture_dossier (f, f->tansy);
  ck_assert_int_eq (event_of (after, morning)->state, SW_DOSE_LATE);
}
END_TEST

START_TEST (test_actual_time_decides_the_state)
{
  /* due 08:00 every 12 hours; given up to 60 minutes either side, late up to half the interval (domain 5) */
  static const struct { int hours, minutes; SwDoseState state;
  } rows[] = {
    { 8, 59, SW_DOSE_GIVEN },  { 9, 0, SW_DOSE_GIVEN }, { 9, 1, SW_DOSE_LATE },  { 14, 0, SW_DOSE_LATE },
    { 14, 1, SW_DOSE_MISSED }, { 7, 0, SW_DOSE_GIVEN }, { 6, 59, SW_DOSE_LATE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Fixture) f = fixture_new ();
      g_autoptr (SwDossier) dossier = fixture_dossier (f, f->tansy);
      gint64 morning = fixture_dose (dossier, FIXTURE_TODAY, 8, "prednisolone")->dose;
      g_autoptr (SwReply) reply = NULL;
      g_autoptr (SwDossier) after = NULL;

      fixture_at (f, FIXTURE_TODAY, 16, 0);
      reply = fixture_done (f, tick (f, morning, 0, SW_DOSE_LATE, rows[i].hours, rows[i].minutes));
      after = fixture_dossier (f, f->tansy);
      ck_assert_msg (event_of (after, morning)->state == (gint64) rows[i].state, "%02d:%02d", rows[i].hours,
                     rows[i].minutes);
    }
}
END_TEST

START_TEST (test_untick_and_tick_again)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) unticked = fixture_done (f, untick_morning (f, TOMAS));
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->patient);
  gint64 morning = fixture_dose (dossier, FIXTURE_TODAY, 8, "prednisolone")->dose;
  g_autoptr (SwReply) told = NULL;

  ck_assert_ptr_null (sw_dossier_dose_event (dossier, morning));
  told = fixture_done (f, sw_request_tick (TOMAS, f->patient, morning, 0, SW_DOSE_GIVEN, SW_NO_MOMENT, "the client"));
}
END_TEST

START_TEST (test_replacement)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->tansy);
  gint64 missed = fixture_dose (dossier, FIXTURE_TODAY - 1, 20, "prednisolone")->dose;
  gint64 untold = fixture_dose (dossier, FIXTURE_TODAY, 20, "prednisolone")->dose;
  SwMoment soon = { FIXTURE_TODAY, 10 * 60 };
  g_autoptr (SwReply) ordered = NULL;

  fixture_fails (f, sw_request_order_replacement (TOMAS, f->tansy, missed, soon), SW_ERROR_ROLE);
  fixture_refused (f, sw_request_order_replacement (ODA, f->tansy, untold, soon), "dose-not-lost");
  ordered = fixture_done (f, sw_request_order_replacement (ODA, f->tansy, missed, soon));
  fixture_refused (f, sw_request_order_replacement (ODA, f->tansy, missed, soon), "already-replaced");
}
END_TEST

START_TEST (test_stop_dose)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->tansy);
  gint64 evening = fixture_dose (dossier, FIXTURE_TODAY, 20, "prednisolone")->dose;
  g_autoptr (SwReply) stopped = NULL;
  g_autoptr (SwDossier) after = NULL;

  fixture_fails (f, sw_request_stop_dose (ODA, f->tansy, evening, NULL), SW_ERROR_INPUT);
  fixture_fails (f, sw_request_stop_dose (TOMAS, f->tansy, evening, "black stool"), SW_ERROR_ROLE);
  stopped = fixture_done (f, sw_request_stop_dose (ODA, f->tansy, evening, "black stool"));
  after = fixture_dossier (f, f->tansy);
  ck_assert_int_eq (event_of (after, evening)->state, SW_DOSE_STOPPED);
}
END_TEST

START_TEST (test_move_day)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (SwReply) moved = NULL;
  g_autoptr (SwDossier) dossier = NULL;

  fixture_refused (f, sw_request_move_day (TOMAS, f->tansy, f->tansy_course, FIXTURE_TODAY + 1, SW_MOVE_UNDECIDED),
                   "same-day");
  fixture_refused (f, sw_request_move_day (TOMAS, f->tansy, f->tansy_course, FIXTURE_TODAY + 9, SW_MOVE_UNDECIDED),
                   "long-delay");
  fixture_fails (f, sw_request_move_day (TOMAS, f->tansy, f->tansy_course, FIXTURE_TODAY + 9, SW_MOVE_ANEW),
                 SW_ERROR_ROLE);
  moved
      = fixture_done (f, sw_request_move_day (TOMAS, f->tansy, f->tansy_course, FIXTURE_TODAY + 2, SW_MOVE_UNDECIDED));
  dossier = fixture_dossier (f, f->tansy);
  ck_assert_int_eq (sw_dossier_plan (dossier, f->tansy_course)->treat_day, FIXTURE_TODAY + 2);
}
END_TEST

START_TEST (test_reweigh_plan)
{
  g_autoptr (Fixture) f = fixture_new ();
  SwRequest *request = sw_request_new (SW_ACT_WEIGH, TOMAS, f->tansy);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);
  g_autoptr (SwReply) weighed = NULL;
  g_autoptr (SwReply) replanned = NULL;
  g_autoptr (SwDossier) dossier = NULL;

  weight->grams = 20000; /* far below the 31.4 kg of the plan: every dose leaves its range */
  weight->day = FIXTURE_TODAY;
  weight->minute = 570;
  weight->typed = g_strdup ("20.0");
  sw_request_add (request, weight);
  weighed = fixture_done (f, request);
  fixture_fails (f, sw_request_reweigh_plan (ODA, f->tansy, f->tansy_course, 999), SW_ERROR_INPUT);
  replanned = fixture_done (
      f, sw_request_reweigh_plan (ODA, f->tansy, f->tansy_course, sw_reply_id (weighed, SW_FACT_WEIGHT)));
  dossier = fixture_dossier (f, f->tansy);
  ck_assert_int_eq (fixture_dose (dossier, FIXTURE_TODAY, 20, "prednisolone")->dose_ug, 10000);
  ck_assert_int_eq (sw_dossier_plan (dossier, f->tansy_course)->cause, SW_PLAN_REWEIGHED);
}
END_TEST

/* --- the course --- */

static gint64
adopted (Fixture *f)
{
  return sw_practice_adopted (sw_desk_practice (f->desk, NULL), SW_DOCUMENT_PROTOCOL, "tigilanol-eu")->fact.id;
}

static gint64
tumour_of (Fixture *f, gint64 patient)
{
  g_autoptr (SwDossier) dossier = fixture_dossier (f, patient);

  return ((const SwTumourDetails *) sw_facts_last (&dossier->facts, SW_FACT_TUMOUR_DETAILS))->tumour;
}

static SwRequest *
open_course (Fixture *f, gint64 person, gint64 patient, gint64 document, gint64 tumour)
{
  return sw_request_open_course (person, patient, document, &tumour, 1, 0, NULL);
}

static gint64
opened_course (Fixture *f)
{
  g_autoptr (SwReply) reply = fixture_done (f, open_course (f, ODA, f->dusk, adopted (f), tumour_of (f, f->dusk)));

  return sw_reply_id (reply, SW_FACT_COURSE);
}

START_TEST (test_open_course)
{
  g_autoptr (Fixture) f = fixture_new ();
  gint64 tumour = tumour_of (f, f->dusk), elsewhere = tumour_of (f, f->tansy);

  fixture_fails (f, open_course (f, TOMAS, f->dusk, adopted (f), tumour), SW_ERROR_ROLE);
  fixture_fails (f, open_course (f, ODA, f->dusk, 999, tumour), SW_ERROR_INPUT);
  fixture_fails (f, open_course (f, ODA, f->dusk, adopted (f), elsewhere), SW_ERROR_INPUT);
  fixture_fails (f, sw_request_open_course (ODA, f->dusk, adopted (f), NULL, 0, 0, NULL), SW_ERROR_INPUT);
  ck_assert_int_ne (opened_course (f), 0);
  fixture_fails (f, open_course (f, ODA, f->dusk, adopted (f), tumour), SW_ERROR_CONFLICT); /* one at a time */
}
END_TEST

static SwRequest *
consent (Fixture *f, gint64 course, gint64 points)
{
  SwRequest *request = sw_request_new (SW_ACT_RECORD_CONSENT, TOMAS, f->dusk);
  SwConsent *row = sw_new (SW_FACT_CONSENT, SwConsent);

  row->course = course;
  row->signer = g_strdup ("Lorne, Greta");
  row->day = FIXTURE_TODAY;
  row->minute = 570;
  row->sheet_version = g_strdup ("1");
  row->off_label = 1;
  row->points = points;
  sw_request_add (request, row);
  return request;
}

START_TEST (test_sign_plan)
{
  g_autoptr (Fixture) f = fixture_new ();
  gint64 course = opened_course (f);
  g_autoptr (SwDossier) dossier = fixture_dossier (f, f->dusk);
  gint64 weight = ((const SwFact *) sw_facts_last (&dossier->facts, SW_FACT_WEIGHT))->id;
  SwDay day = FIXTURE_TODAY + 3;
  g_autoptr (SwReply) consented = NULL;
  g_autoptr (SwReply) signed_plan = NULL;
  g_autoptr (SwReply) changed = NULL;
  g_autoptr (SwDossier) after = NULL;

  fixture_refused (f, sw_request_sign_plan (ODA, f->dusk, course, day, weight, NULL), "no-consent");
  consented = fixture_done (f, consent (f, course, SW_CONSENT_ALL_POINTS));
  fixture_fails (f, sw_request_sign_plan (TOMAS, f->dusk, course, day, weight, NULL), SW_ERROR_ROLE);
  fixture_fails (f, sw_request_sign_plan (ODA, f->dusk, course, day, 999, NULL), SW_ERROR_INPUT);
  fixture_refused (f, sw_request_sign_plan (ODA, f->dusk, course, FIXTURE_TODAY + 1, weight, NULL), "lead-in-too-late");
  fixture_refused (f, sw_request_sign_plan (ODA, f->dusk, course, day, weight, "h1=loratadine"), "not-listed");
  signed_plan = fixture_done (f, sw_request_sign_plan (ODA, f->dusk, course, day, weight, NULL));
  fixture_fails (f, sw_request_sign_plan (ODA, f->dusk, course, day + 1, weight, NULL), SW_ERROR_INPUT);
  changed = fixture_done (f, sw_request_sign_plan (ODA, f->dusk, course, day, weight, "h1=chlorphenamine"));
  after = fixture_dossier (f, f->dusk);
  ck_assert_ptr_nonnull (fixture_dose (after, day, 8, "chlorphenamine"));
  fixture_assert_sound (f->folder);
}
END_TEST

START_TEST (test_end_course)
{
  g_autoptr (Fixture) f = fixture_new ();
  SwRequest *request
      = sw_request_end_course (ODA, f->patient, f->course, SW_END_WITHDRAWN, SW_UNKNOWN, FIXTURE_TODAY, TRUE);
  g_autoptr (SwReply) ended = NULL;
  g_autoptr (SwDossier) dossier = NULL;
  g_autoptr (GPtrArray) doses = NULL;

  fixture_refused (f, request, "orders-needed"); /* the lead-in has begun */
  request = sw_request_end_course (ODA, f->patient, f->course, SW_END_WITHDRAWN, SW_UNKNOWN, FIXTURE_TODAY, TRUE);
  sw_request_set_vet_orders (request, "stop");
  ended = fixture_done (f, request);
  dossier = fixture_dossier (f, f->patient);
  doses = sw_dossier_doses (dossier, f->course);
  for (guint i = 0; i < doses->len; i++)
    ck_assert_int_le (((const SwDosePlan *) doses->pdata[i])->due_day, FIXTURE_TODAY);
}
END_TEST

START_TEST (test_score)
{
  g_autoptr (Fixture) f = fixture_new ();
  SwDay day = FIXTURE_TODAY + 28;
  g_autoptr (SwReply) released = NULL;
  g_autoptr (SwReply) injected = NULL;
  g_autoptr (SwReply) seen = NULL;
  g_autoptr (SwReply) scored = NULL;
  g_autoptr (SwReply) again = NULL;
  g_autoptr (SwDossier) dossier = NULL;
  SwRequest *request;
  SwLook *look = sw_new (SW_FACT_LOOK, SwLook);
  const SwScore *score;

  fixture_fails (f, sw_request_score (ODA, f->patient, f->course, FIXTURE_TODAY, SW_NON_TARGETS_NONE, FALSE),
                 SW_ERROR_REFUSED);
  released = fixture_done (f, release (f, ODA));
  fixture_at (f, FIXTURE_TODAY, 10, 45);
  injected = fixture_done (f, fixture_injection (f, ODA, 10, 41));
  fixture_at (f, day, 11, 0);
  fixture_fails (f, sw_request_score (ODA, f->patient, f->course, day, SW_NON_TARGETS_NONE, FALSE), SW_ERROR_INPUT);
  request = sw_request_new (SW_ACT_RECORD_RECHECK, TOMAS, f->patient);
  look->course = f->course;
  look->tumour = tumour_of (f, f->patient);
  look->day = day;
  look->state = SW_LOOK_GONE;
  sw_request_add (request, look);
  seen = fixture_done (f, request);
  fixture_fails (f, sw_request_score (TOMAS, f->patient, f->course, day, SW_NON_TARGETS_NONE, FALSE), SW_ERROR_ROLE);
  scored = fixture_done (f, sw_request_score (ODA, f->patient, f->course, day, SW_NON_TARGETS_NONE, FALSE));
  ck_assert (!scored->amended);
  dossier = fixture_dossier (f, f->patient);
  score = sw_facts_last (&dossier->facts, SW_FACT_SCORE);
  ck_assert_int_eq (score->category, SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (score->counts_as_day_28, 1);
  ck_assert_int_eq (score->now_sum, 0);
  ck_assert_int_eq (score->baseline_sum / score->baseline_count, 2120);
  again = fixture_done (f, sw_request_score (ODA, f->patient, f->course, day, SW_NON_TARGETS_NONE, TRUE));
  ck_assert (again->amended); /* the same day again: the score is amended */
  g_clear_pointer (&dossier, sw_dossier_free);
  dossier = fixture_dossier (f, f->patient);
  ck_assert_int_eq (((const SwOverall *)sw_facts_last (&dossier->facts, SW_FACT_OVERALL))->category,
                    SW_CATEGORY_PROGRESSIVE);
  fixture_assert_sound (f->folder);
}
END_TEST

START_TEST (test_score_seals_its_sizes)
{
  g_autoptr (Fixture) f = fixture_new ();
  SwDay day = FIXTURE_TODAY + 28;
  g_autoptr (SwReply) released = fixture_done (f, release (f, ODA));
  g_autoptr (SwReply) injected = NULL;
  g_autoptr (SwReply) measured = NULL;
  g_autoptr (SwReply) scored = NULL;
  g_autoptr (SwReply) amended = NULL;
  SwReading *reading = sw_new (SW_FACT_READING, SwReading);
  SwRequest *request = sw_request_new (SW_ACT_RECORD_READING, TOMAS, f->patient);

  fixture_at (f, FIXTURE_TODAY, 10, 45);
  injected = fixture_done (f, fixture_injection (f, ODA, 10, 41));
  fixture_at (f, day, 11, 0);
  reading->tumour = tumour_of (f, f->patient);
  reading->day = day;
  reading->axis1 = 1000;
  reading->axis2 = 800;
  reading->axis3 = 400;
  reading->typed = g_strdup ("10x8x4");
  sw_request_add (request, reading);
  measured = fixture_done (f, request);
  scored = fixture_done (f, sw_request_score (ODA, f->patient, f->course, day, SW_NON_TARGETS_NONE, FALSE));
  fixture_fails (f, fixture_correct_reading (f, TOMAS), SW_ERROR_ROLE);
  amended = fixture_done (f, fixture_correct_reading (f, ODA));
  ck_assert (amended->amended);
}
END_TEST

/* --- past the rules --- */

/* Rows of guarded operations, handed over as a plain act of somebody who may do the guarded one. */
START_TEST (test_guarded_rows_are_not_handed_over)
{
  static const struct { SwFactKind kind; SwActKind act; } rows[] = {
    { SW_FACT_PLAN, SW_ACT_SIGN_PLAN },         { SW_FACT_DOSE_PLAN, SW_ACT_SIGN_PLAN },
    { SW_FACT_DOSE_EVENT, SW_ACT_RECORD_DOSE }, { SW_FACT_RELEASE, SW_ACT_RELEASE_DOSE },
    { SW_FACT_COURSE, SW_ACT_OPEN_COURSE },     { SW_FACT_INJECTION, SW_ACT_RECORD_INJECTION },
    { SW_FACT_SCORE, SW_ACT_SCORE },            { SW_FACT_COURSE_END, SW_ACT_END_COURSE },
    { SW_FACT_ADOPTION, SW_ACT_ADOPT_DOCUMENT },
  };
  g_autoptr (Fixture) f = fixture_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      SwRequest *request = sw_request_new (rows[i].act, ODA, f->patient);

      sw_request_add (request, sw_fact_new (rows[i].kind));
      fixture_fails (f, request, SW_ERROR_REFUSED);
    }
}
END_TEST

/* --- documents --- */

static GBytes *
document (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", name, NULL);
  char *text = NULL;
  gsize length = 0;

  ck_assert (g_file_get_contents (path, &text, &length, NULL));
  return g_bytes_new_take (text, length);
}

static SwRequest *
adopt (gint64 person, SwDocumentKind kind, const char *name, const char *ticks)
{
  SwRequest *request = sw_request_adopt (person);
  g_autoptr (GBytes) bytes = document (name);

  sw_request_adopt_document (request, kind, bytes, ticks);
  return request;
}

START_TEST (test_adopt)
{
  g_autoptr (Fixture) f = fixture_new ();
  g_autoptr (GBytes) bytes = document ("medicines/famotidine.xml");
  g_autoptr (SwMedicine) medicine = sw_medicine_parse ("famotidine.xml", bytes, NULL);
  g_autoptr (GPtrArray) figures = sw_document_figures_to_tick (&medicine->head);
  g_autoptr (GString) ticks = g_string_new (NULL);
  g_autoptr (SwReply) reply = NULL;
  g_autoptr (GBytes) nonsense = g_bytes_new_static ("<protocol>", 10);
  SwRequest *request;

  for (guint i = 0; i < figures->len; i++)
    g_string_append_printf (ticks, "%s;", ((const SwFigure *) figures->pdata[i])->name);
  fixture_fails (f, adopt (ODA, SW_DOCUMENT_MEDICINE, "medicines/famotidine.xml", ""), SW_ERROR_INPUT);
  fixture_fails (f, adopt (TOMAS, SW_DOCUMENT_MEDICINE, "medicines/famotidine.xml", ticks->str), SW_ERROR_ROLE);
  fixture_fails (f, adopt (ODA, SW_DOCUMENT_PROTOCOL, "protocols/ect-bleomycin-dog.xml", ""), SW_ERROR_REFUSED);
  request = sw_request_adopt (ODA);
  sw_request_adopt_document (request, SW_DOCUMENT_PROTOCOL, nonsense, "");
  fixture_fails (f, request, SW_ERROR_DOCUMENT);
  reply = fixture_done (f, adopt (ODA, SW_DOCUMENT_MEDICINE, "medicines/famotidine.xml", ticks->str));
  ck_assert_int_eq (sw_reply_id (reply, SW_FACT_DOCUMENT), 0); /* the same bytes are kept once */
  ck_assert_int_ne (sw_reply_id (reply, SW_FACT_ADOPTION), 0);
}
END_TEST

/* --- clock --- */

START_TEST (test_live_record_refuses_a_set_time)
{
  g_autofree char *parent = g_dir_make_tmp ("siteward-live-XXXXXX", NULL);
  char *folder = g_build_filename (parent, "record", NULL);
  SwFounding founding = { .first_name = "Ines", .zone = "Europe/Lisbon" };
  g_autoptr (SwClock) real = sw_clock_new ();
  g_autoptr (SwClock) set = sw_clock_new_at ((SwMoment){ FIXTURE_TODAY, 600 });
  g_autoptr (GError) error = NULL;
  SwDesk *desk = sw_desk_found (folder, &founding, real, &error);

  ck_assert_msg (desk != NULL, "%s", error ? error->message : "");
  sw_desk_free (desk);
  ck_assert_ptr_null (sw_desk_open (folder, set, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
  fixture_remove (folder);
}
END_TEST

START_TEST (test_clock)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("Europe/Lisbon");
  g_autoptr (SwClock) clock = sw_clock_new_at ((SwMoment){ FIXTURE_TODAY, 600 });
  g_autoptr (SwClock) real = sw_clock_new ();
  gint64 before = g_get_real_time ();
  SwNow now = sw_clock_now (clock, zone), live = sw_clock_now (real, zone);

  ck_assert_int_eq (now.offset_minutes, 60); /* summer time */
  ck_assert_int_eq (now.utc_us, ((gint64) FIXTURE_TODAY * 86400 + 540 * 60) * G_USEC_PER_SEC);
  ck_assert (live.utc_us >= before && live.utc_us - before < 10 * G_USEC_PER_SEC);
  sw_clock_set (clock, (SwMoment){ FIXTURE_TODAY, 601 });
  ck_assert_int_eq (sw_clock_now (clock, zone).utc_us - now.utc_us, 60 * G_USEC_PER_SEC);
}
END_TEST

static Suite *
course_suite (void)
{
  Suite *suite = suite_create ("course");
  TCase *tests = tcase_create ("course");

  tcase_set_timeout (tests, 60);
  tcase_add_test (tests, test_tick);
  tcase_add_test (tests, test_actual_time_decides_the_state);
  tcase_add_test (tests, test_untick_and_tick_again);
  tcase_add_test (tests, test_replacement);
  tcase_add_test (tests, test_stop_dose);
  tcase_add_test (tests, test_move_day);
  tcase_add_test (tests, test_reweigh_plan);
  tcase_add_test (tests, test_open_course);
  tcase_add_test (tests, test_sign_plan);
  tcase_add_test (tests, test_end_course);
  tcase_add_test (tests, test_score);
  tcase_add_test (tests, test_score_seals_its_sizes);
  tcase_add_test (tests, test_guarded_rows_are_not_handed_over);
  tcase_add_test (tests, test_adopt);
  tcase_add_test (tests, test_live_record_refuses_a_set_time);
  tcase_add_test (tests, test_clock);
  suite_add_tcase (suite, tests);
  return suite;
}

int
main (void)
{
  return fixture_run (course_suite ());
}
