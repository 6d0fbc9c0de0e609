/* test-gate-b.c: each condition of gate B broken alone, and the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-gate.h"

#include "course-fixture.h"
#include "sw-dose-state.h"
#include "sw-question.h"
#include "sw-suitability.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static Fixture *
ready (void)
{
  Fixture *fixture = fixture_new ("tigilanol-eu");

  course_lead_in (fixture);
  course_treatment_day (fixture);
  return fixture;
}

static char *
count_words (Fixture *fixture)
{
  g_autoptr (SwGateCount) count = sw_gate_count (&fixture->c);

  return sw_gate_count_words (count);
}

START_TEST (test_b_passes)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  g_autofree char *words = count_words (fixture);

  course_check_passes (fixture, findings);
  ck_assert_str_eq (words, "7 of 7 confirmed (5 corticosteroid, 1 H1 blocker, 1 H2 blocker)");
}
END_TEST

START_TEST (test_b_injection_passes)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) before = sw_gate_b (&fixture->c, SW_GATE_AT_INJECTION);
  g_autoptr (GPtrArray) findings = NULL, next_day = NULL;

  course_check_only (fixture, before, SW_FINDING_NOT_RELEASED, NULL);
  course_release (fixture);
  course_at (fixture, TREAT, 10 * 60 + 41);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_INJECTION);
  course_check_passes (fixture, findings);
  course_at (fixture, TREAT + 1, 9 * 60);
  next_day = sw_gate_b (&fixture->c, SW_GATE_AT_INJECTION);
  ck_assert_ptr_nonnull (find_finding (next_day, SW_FINDING_RELEASE_OVER, NULL));
}
END_TEST

/* An empty plan cannot pass: the document asks for its doses, whatever rows there are. */
START_TEST (test_b_empty_plan)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);
  g_autoptr (GPtrArray) findings = NULL, open = NULL;
  g_autofree char *words = NULL;

  for (guint i = 0; i < doses->len; i++)
    fixture_put (fixture, sw_fact_withdrawal (doses->pdata[i]));
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  open = sw_findings_open (&fixture->c, findings);
  ck_assert_ptr_nonnull (find_finding (open, SW_FINDING_DOSE_NOT_PLANNED, "corticosteroid/-2"));
  ck_assert_ptr_nonnull (find_finding (open, SW_FINDING_DOSE_NOT_PLANNED, "corticosteroid/-1"));
  ck_assert_ptr_nonnull (find_finding (open, SW_FINDING_DOSE_NOT_PLANNED, "corticosteroid/0"));
  ck_assert_ptr_nonnull (find_finding (open, SW_FINDING_DAY_DOSE_MISSING, "h1"));
  ck_assert_ptr_nonnull (find_finding (open, SW_FINDING_DAY_DOSE_MISSING, "h2"));
  ck_assert_uint_eq (open->len, 5);
  check_sentences (findings);
  words = count_words (fixture);
  ck_assert_str_eq (words, "0 of 7 confirmed (0 corticosteroid, 0 H1 blocker, 0 H2 blocker)");
}
END_TEST

/* A dose of something the document does not list answers nothing. */
START_TEST (test_b_unlisted_substance)
{
  g_autoptr (Fixture) fixture = ready ();
  SwDosePlan *dose = (SwDosePlan *) course_dose (fixture, "corticosteroid", TREAT, 0);
  g_autoptr (GPtrArray) findings = NULL;

  g_free (dose->substance);
  dose->substance = g_strdup ("hydrocortisone");
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_DOSE_NOT_YET, NULL));
  ck_assert (!sw_gate_passes (&fixture->c, findings));
}
END_TEST

/* One lost dose each of H1 and H2 on day 0, both replaced, are two. */
START_TEST (test_b_two_lost_of_day_groups)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;

  course_tell (fixture, course_dose (fixture, "h1", TREAT, 0), SW_DOSE_MISSED, SW_UNKNOWN, SW_UNKNOWN);
  course_tell (fixture, course_dose (fixture, "h2", TREAT, 0), SW_DOSE_VOMITED, SW_UNKNOWN, SW_UNKNOWN);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_TWO_DOSES_LOST, NULL));
  check_sentences (findings);
}
END_TEST

/* No plan at all. */
START_TEST (test_b_no_plan)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);

  ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_NO_PLAN, NULL));
  ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_DOSE_NOT_PLANNED, "corticosteroid/-2"));
  ck_assert (!sw_gate_passes (&fixture->c, findings));
}
END_TEST

/* Each of the seven doses, in each state that isn't given: told so, or not told. */
static const struct
{
  const char *group;
  gint64 day;
  guint nth;
} seven[] = {
  { "corticosteroid", -2, 0 }, { "corticosteroid", -2, 1 }, { "corticosteroid", -1, 0 }, { "corticosteroid", -1, 1 },
  { "corticosteroid", 0, 0 },  { "h1", 0, 0 },              { "h2", 0, 0 },
};

static const struct
{
  SwDoseState told;
  SwFindingCode code;
} losses[] = {
  { SW_DOSE_MISSED, SW_FINDING_DOSE_LOST },
  { SW_DOSE_VOMITED, SW_FINDING_DOSE_LOST },
  { SW_DOSE_STOPPED, SW_FINDING_DOSE_LOST },
  { SW_N_DOSE_STATES, SW_FINDING_DOSE_NOT_KNOWN },
};

START_TEST (test_b_each_dose)
{
  guint which = (guint) _i % G_N_ELEMENTS (seven), loss = (guint) _i / G_N_ELEMENTS (seven);
  gboolean lead_in = which < 5;
  g_autoptr (Fixture) fixture = ready ();
  const SwDosePlan *dose = course_dose (fixture, seven[which].group, TREAT + seven[which].day, seven[which].nth);
  g_autoptr (GPtrArray) findings = NULL;

  course_at (fixture, TREAT, 9 * 60 + 30);
  if (losses[loss].told < SW_N_DOSE_STATES)
    course_tell (fixture, dose, losses[loss].told, SW_UNKNOWN, SW_UNKNOWN);
  else
    fixture_put (fixture, sw_fact_withdrawal (sw_dossier_dose_event (fixture->dossier, dose->dose)));
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_only (fixture, findings, lead_in ? losses[loss].code : SW_FINDING_DAY_DOSE_MISSING, NULL);
}
END_TEST

/* A dose told for a time that has not come does not count. */
START_TEST (test_b_dose_ahead_of_time)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;

  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT, 0), SW_DOSE_LATE, TREAT, 9 * 60 + 31);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_only (fixture, findings, SW_FINDING_DOSE_NOT_YET, NULL);
}
END_TEST

/* At least 60 minutes and at most 12 hours before. */
START_TEST (test_b_day_dose_window)
{
  static const struct { int given, now; int code; } times[] = {
    { 480, 539, SW_FINDING_DAY_DOSE_RECENT }, { 480, 540, -1 }, { 480, 1200, -1 },
    { 480, 1201, SW_FINDING_DAY_DOSE_MISSING }, { 700, 759, SW_FINDING_DAY_DOSE_RECENT }, { 700, 760, -1 },
  };
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;

  course_tell (fixture, course_dose (fixture, "h1", TREAT, 0), SW_DOSE_GIVEN, TREAT, times[_i].given);
  course_tell (fixture, course_dose (fixture, "h2", TREAT, 0), SW_DOSE_GIVEN, TREAT, times[_i].given);
  course_at (fixture, TREAT, times[_i].now);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  if (times[_i].code < 0)
    course_check_passes (fixture, findings);
  else
    course_check_only (fixture, findings, (SwFindingCode) times[_i].code, "h1");
}
END_TEST

/* The first of day -2 counts at its actual time until 14:00. */
START_TEST (test_b_first_until_two)
{
  static const struct { int morning; int minute; gboolean passes; } times[] = {
    { 480, 840, TRUE }, { 480, 841, FALSE }, { 420, 840, TRUE }, { 420, 841, FALSE },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autofree char *hour = g_strdup_printf ("%d", times[_i].morning);
  g_autoptr (GPtrArray) findings = NULL;

  fixture_setting (fixture, "hour-morning", hour);
  course_lead_in (fixture);
  course_treatment_day (fixture);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT - 2, 0), SW_DOSE_LATE, TREAT - 2,
               times[_i].minute);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  if (times[_i].passes)
    course_check_passes (fixture, findings);
  else
    course_check_only (fixture, findings, SW_FINDING_DOSE_LOST, NULL);
}
END_TEST

START_TEST (test_b_other_day)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;

  ((SwPlan *) sw_case_plan (&fixture->c))->treat_day = TREAT + 1;
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_OTHER_DAY, NULL));
}
END_TEST

/* Weight and readings. */

static void
lose_weight_today (Fixture *fixture)
{
  fixture_put (fixture, sw_fact_withdrawal (sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT)));
}

static void
lose_readings (Fixture *fixture)
{
  SwReading *reading;

  for (guint i = 0; (reading = sw_facts_next (&fixture->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->day == TREAT)
      fixture_put (fixture, sw_fact_withdrawal (reading));
}

static void
lose_one_reading (Fixture *fixture)
{
  fixture_put (fixture, sw_fact_withdrawal (sw_facts_last (&fixture->dossier->facts, SW_FACT_READING)));
}

/* Consent, second person. */

static void
lose_read_aloud (Fixture *fixture)
{
  course_withdraw_all (fixture, SW_FACT_READ_ALOUD);
}

static void
read_once_more (Fixture *fixture)
{
  SwReading *reading = fixture_read (fixture, TREAT, 2120, 1780, 900);
  const SwReadAloud *aloud = sw_facts_last (&fixture->dossier->facts, SW_FACT_READ_ALOUD);

  reading->fact.recorded_us = aloud->fact.recorded_us + 1;
}

static void
read_to_oneself (Fixture *fixture)
{
  ((SwReadAloud *) sw_facts_last (&fixture->dossier->facts, SW_FACT_READ_ALOUD))->second = TECHNICIAN;
}

static void
take_nsaid (Fixture *fixture)
{
  course_answer (fixture, "nsaid-today", "yes", TREAT);
}

static void
vomit_once (Fixture *fixture)
{
  course_answer (fixture, "vomiting-today", "once", TREAT);
}

static void
break_surface (Fixture *fixture)
{
  course_answer (fixture, "surface-today", "erosion", TREAT);
}

static const struct
{
  const char *name;
  void (*damage) (Fixture *fixture);
  SwFindingCode code;
  const char *about;
} breaks_b[] = {
  { "no weight", lose_weight_today, SW_FINDING_NO_WEIGHT_TODAY, NULL },
  { "no readings", lose_readings, SW_FINDING_NO_READING_TODAY, NULL },
  { "one reading", lose_one_reading, SW_FINDING_ONE_READING, NULL },
  { "no consent", course_lose_consent, SW_FINDING_NO_CONSENT, NULL },
  { "consent withdrawn", course_take_back_consent, SW_FINDING_CONSENT_WITHDRAWN, NULL },
  { "not read aloud", lose_read_aloud, SW_FINDING_NOT_READ_ALOUD, NULL },
  { "read since", read_once_more, SW_FINDING_READ_ALOUD_STALE, NULL },
  { "same person", read_to_oneself, SW_FINDING_SAME_PERSON, NULL },
  { "NSAID since", take_nsaid, SW_FINDING_RULED_OUT, "nsaid-today" },
  { "vomited", vomit_once, SW_FINDING_ANSWER_VET_DECIDES, "vomiting-today" },
  { "surface", break_surface, SW_FINDING_RULED_OUT, "surface-today" },
};

START_TEST (test_b_broken)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;

  breaks_b[_i].damage (fixture);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_only (fixture, findings, breaks_b[_i].code, breaks_b[_i].about);
}
END_TEST

/* Every question of the treatment day, not answered today; what must be at hand, answered no. */
START_TEST (test_b_every_question)
{
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (Fixture) fixture = ready ();
      g_autoptr (GPtrArray) findings = NULL;

      if (questions[i].at != SW_ASKED_ON_TREATMENT_DAY)
        continue;
      fixture_unanswer (fixture, questions[i].code);
      course_answer (fixture, questions[i].code, questions[i].choices[0].code, TREAT - 1);
      findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
      ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_NOT_ASKED, questions[i].code));
      ck_assert (!sw_gate_passes (&fixture->c, findings));
      check_sentences (findings);
    }
}
END_TEST

START_TEST (test_b_within_reach)
{
  static const struct { const char *question; SwFindingCode code; } needed[] = {
    { "adrenaline-today", SW_FINDING_NOT_WITHIN_REACH },     { "fluids-today", SW_FINDING_NOT_WITHIN_REACH },
    { "antihistamine-today", SW_FINDING_NOT_WITHIN_REACH },  { "corticosteroid-today", SW_FINDING_NOT_WITHIN_REACH },
    { "oxygen-today", SW_FINDING_NOT_WITHIN_REACH },         { "eye-protection-today", SW_FINDING_NOT_PROTECTED },
    { "gloves-today", SW_FINDING_NOT_PROTECTED },            { "luer-lock-today", SW_FINDING_NOT_PROTECTED },
    { "sharps-box-today", SW_FINDING_NOT_PROTECTED },
  };
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;

  course_answer (fixture, needed[_i].question, "no", TREAT);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_only (fixture, findings, needed[_i].code, needed[_i].question);
}
END_TEST

/* 24.6 kg planned: 27.06 kg is 10 % more and passes; over it the dog is weighed again, then a vet decides.
 * Prednisolone 12.5 mg stays in 0.45-0.60 mg/kg down to 20.83 kg. */
START_TEST (test_b_weight)
{
  g_autoptr (Fixture) fixture = ready ();
  SwWeight *weight = sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT);
  g_autoptr (GPtrArray) ten = NULL, over = NULL, twice = NULL, settled = NULL;
  g_autofree char *sentence = NULL;
  const SwFinding *again;
  SwReadAloud *aloud;

  weight->grams = 27060;
  ten = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_passes (fixture, ten);
  weight->grams = 27061;
  over = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  again = find_finding (over, SW_FINDING_WEIGH_AGAIN, NULL);
  ck_assert_ptr_nonnull (again);
  sentence = sw_finding_sentence (again);
  ck_assert_str_eq (sentence, "Today's weight 27.061 kg is 10.004 % off the planning weight 24.6 kg, more than 10 %.");
  ck_assert (!sw_gate_passes (&fixture->c, over));
  check_sentences (over);
  weight->grams = 22100;
  course_weigh (fixture, TREAT, 22100);
  aloud = course_read_aloud (fixture, SW_READ_ALOUD_BEFORE_RELEASE);
  ck_assert_int_gt (aloud->fact.recorded_us, weight->fact.recorded_us);
  twice = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_only (fixture, twice, SW_FINDING_WEIGHT_CHANGED, NULL);
  course_reason (fixture, find_finding (twice, SW_FINDING_WEIGHT_CHANGED, NULL));
  settled = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_passes (fixture, settled);
}
END_TEST

/* 12.5 mg is under 0.45 mg/kg at 27.8 kg, 13 % over the planning weight: remaining doses are recomputed first. */
START_TEST (test_b_out_of_range)
{
  g_autoptr (Fixture) fixture = ready ();
  g_autoptr (GPtrArray) findings = NULL;
  g_autofree char *sentence = NULL;
  const SwFinding *range;

  ((SwWeight *) sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT))->grams = 27800;
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  range = find_finding (findings, SW_FINDING_OUT_OF_RANGE, "prednisolone");
  ck_assert_ptr_nonnull (range);
  ck_assert_int_eq (range->severity, SW_STOP);
  sentence = sw_finding_sentence (range);
  ck_assert_str_eq (sentence, "At today's weight prednisolone 12.5 mg leaves its range of 0.45 to 0.60 mg/kg.");
  check_sentences (findings);
}
END_TEST

/* Alone on duty: a second look after two minutes. */
START_TEST (test_b_second_look)
{
  g_autoptr (Fixture) fixture = ready ();
  SwReadAloud *row = sw_facts_last (&fixture->dossier->facts, SW_FACT_READ_ALOUD);
  const SwWeight *weight = sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT);
  g_autoptr (GPtrArray) early = NULL, late = NULL;

  row->alone = 1;
  row->second = TECHNICIAN;
  row->fact.recorded_us = weight->fact.recorded_us + 2 * G_TIME_SPAN_MINUTE - 1;
  early = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_only (fixture, early, SW_FINDING_SECOND_LOOK_EARLY, NULL);
  row->fact.recorded_us = weight->fact.recorded_us + 2 * G_TIME_SPAN_MINUTE;
  late = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  course_check_passes (fixture, late);
}
END_TEST

/* The injection's own record */

typedef struct
{
  SwInjection *injection;
  SwInjectionTumour *tumour;
  SwVial *vial;
  SwReadAloud *aloud;
  GPtrArray *tumours, *vials;
} Needle;

static Needle
needle_new (Fixture *fixture)
{
  Needle needle = { sw_new (SW_FACT_INJECTION, SwInjection), sw_new (SW_FACT_INJECTION_TUMOUR, SwInjectionTumour),
                    sw_new (SW_FACT_VIAL, SwVial), sw_new (SW_FACT_READ_ALOUD, SwReadAloud),
                    g_ptr_array_new_with_free_func (sw_fact_free), g_ptr_array_new_with_free_func (sw_fact_free) };

  needle.injection->day = needle.aloud->day = TREAT;
  needle.injection->injector = VET;
  needle.tumour->tumour = fixture->tumour;
  needle.tumour->drawn_nl = needle.tumour->given_nl = 850000;
  needle.vial->lot = g_strdup ("7K214");
  needle.vial->agent = g_strdup ("tigilanol tiglate");
  needle.vial->strength_ug_ml = 1000;
  needle.vial->expiry = TREAT;
  needle.aloud->stage = SW_READ_ALOUD_AFTER_DRAWING;
  needle.aloud->second = TECHNICIAN;
  g_ptr_array_add (needle.tumours, needle.tumour);
  g_ptr_array_add (needle.vials, needle.vial);
  return needle;
}

static void
needle_clear (Needle *needle)
{
  sw_fact_free (needle->injection);
  sw_fact_free (needle->aloud);
  g_ptr_array_unref (needle->tumours);
  g_ptr_array_unref (needle->vials);
}

START_TEST (test_injection)
{
  static const int codes[] = {
    -1, SW_FINDING_RELEASE_OVER, SW_FINDING_VIAL_AGENT, SW_FINDING_VIAL_STRENGTH, SW_FINDING_VIAL_EXPIRED,
    SW_FINDING_NO_VIAL, SW_FINDING_DRAWN_OVER, SW_FINDING_GIVEN_OVER, SW_FINDING_LESS_GIVEN,
    SW_FINDING_TUMOUR_NOT_RELEASED, SW_FINDING_NOT_READ_AFTER_DRAWING, SW_FINDING_SAME_PERSON, -1,
  };
  g_autoptr (Fixture) fixture = ready ();
  Needle needle = needle_new (fixture);
  SwInjectionRecord record = { needle.injection, needle.tumours, needle.vials, needle.aloud };
  g_autoptr (GPtrArray) findings = NULL;

  course_release (fixture);
  if (_i == 1)
    needle.injection->day = needle.aloud->day = TREAT - 1;
  if (_i == 2)
    needle.vial->agent[0] = 'b';
  if (_i == 3)
    needle.vial->strength_ug_ml = 500;
  if (_i == 4)
    needle.vial->expiry = TREAT - 1;
  if (_i == 5)
    g_ptr_array_set_size (needle.vials, 0);
  if (_i == 6)
    needle.tumour->drawn_nl = needle.tumour->given_nl = 860000;
  if (_i == 7)
    needle.tumour->drawn_nl = 840000;
  if (_i == 8 || _i == 12)
    needle.tumour->given_nl = 700000;
  if (_i == 12)
    needle.tumour->reason = g_strdup ("leaked");
  if (_i == 9)
    needle.tumour->tumour = 1;
  if (_i == 10)
    record.read_aloud = NULL;
  if (_i == 11)
    needle.aloud->second = VET;
  findings = sw_gate_injection (&fixture->c, &record);
  if (codes[_i] < 0)
    course_check_passes (fixture, findings);
  else
    course_check_only (fixture, findings, (SwFindingCode) codes[_i], NULL);
  needle_clear (&needle);
}
END_TEST

static TCase *
gate_b_tests (void)
{
  TCase *tests = tcase_create ("gate B");

  tcase_set_timeout (tests, 60);
  tcase_add_test (tests, test_b_passes);
  tcase_add_test (tests, test_b_injection_passes);
  tcase_add_test (tests, test_b_empty_plan);
  tcase_add_test (tests, test_b_unlisted_substance);
  tcase_add_test (tests, test_b_two_lost_of_day_groups);
  tcase_add_test (tests, test_b_no_plan);
  tcase_add_loop_test (tests, test_b_each_dose, 0, G_N_ELEMENTS (seven) * G_N_ELEMENTS (losses));
  tcase_add_test (tests, test_b_dose_ahead_of_time);
  tcase_add_loop_test (tests, test_b_day_dose_window, 0, 6);
  tcase_add_loop_test (tests, test_b_first_until_two, 0, 4);
  tcase_add_test (tests, test_b_other_day);
  tcase_add_loop_test (tests, test_b_broken, 0, G_N_ELEMENTS (breaks_b));
  tcase_add_test (tests, test_b_every_question);
  tcase_add_loop_test (tests, test_b_within_reach, 0, 9);
  tcase_add_test (tests, test_b_weight);
  tcase_add_test (tests, test_b_out_of_range);
  tcase_add_test (tests, test_b_second_look);
  tcase_add_loop_test (tests, test_injection, 0, 13);
  return tests;
}

int
main (void)
{
  Suite *suite = suite_create ("gate B");
  SRunner *runner;

  suite_add_tcase (suite, gate_b_tests ());
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
