/* test-dossier.c: what is current, what was replaced, what was taken back
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dossier.h"

#include <check.h>
#include <stdlib.h>

#define PATIENT 12

static gint64 next_id;

/* Put a fact in the dossier as store would after writing it. */
static gpointer
put (SwDossier *dossier, gpointer fact)
{
  SwFact *head = fact;

  head->id = ++next_id;
  head->patient = PATIENT;
  sw_facts_add (&dossier->facts, fact);
  return fact;
}

static SwWeight *
put_weight (SwDossier *dossier, gint64 grams)
{
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->grams = grams;
  return put (dossier, weight);
}

static SwDoseEvent *
put_tick (SwDossier *dossier, gint64 dose, SwDoseState state)
{
  SwDoseEvent *event = sw_new (SW_FACT_DOSE_EVENT, SwDoseEvent);

  event->dose = dose;
  event->state = state;
  return put (dossier, event);
}

START_TEST (test_correction_replaces)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);
  SwWeight *first = put_weight (dossier, 24600);
  SwWeight *second = sw_fact_correction (first);

  second->grams = 26400;
  put (dossier, second);
  ck_assert (!sw_fact_is_current (first));
  ck_assert (sw_fact_is_current (second));
  ck_assert_int_eq (first->fact.replaced_by, second->fact.id);
  ck_assert_int_eq (first->grams, 24600); /* the old row stays as it was */
  ck_assert_ptr_eq (sw_facts_last (&dossier->facts, SW_FACT_WEIGHT), second);
  ck_assert_ptr_eq (sw_facts_by_id (&dossier->facts, SW_FACT_WEIGHT, first->fact.id), first);
  ck_assert_ptr_null (sw_facts_by_id (&dossier->facts, SW_FACT_WEIGHT, 999999));
}
END_TEST

START_TEST (test_withdrawn_is_not_current_but_is_the_tip)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);
  SwDoseEvent *tick = put_tick (dossier, 5, SW_DOSE_GIVEN);
  SwDoseEvent *other = put_tick (dossier, 6, SW_DOSE_MISSED);
  SwDoseEvent *back = put (dossier, sw_fact_withdrawal (tick));
  SwDoseEvent *again;

  ck_assert_ptr_null (sw_dossier_dose_event (dossier, 5));
  ck_assert_ptr_eq (sw_dossier_dose_event (dossier, 6), other);
  ck_assert_ptr_null (sw_facts_current_like (&dossier->facts, tick));
  ck_assert_ptr_eq (sw_facts_tip_like (&dossier->facts, tick), back);
  again = sw_fact_correction (back);
  again->state = SW_DOSE_LATE;
  put (dossier, again);
  ck_assert (!again->fact.withdrawn);
  ck_assert_ptr_eq (sw_dossier_dose_event (dossier, 5), again);
}
END_TEST

START_TEST (test_walk_leaves_out_what_is_gone)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);
  SwWeight *kept, *weight;
  guint i = 0;

  put (dossier, sw_fact_withdrawal (put_weight (dossier, 1000)));
  kept = put_weight (dossier, 2000);
  weight = sw_facts_next (&dossier->facts, SW_FACT_WEIGHT, &i);
  ck_assert_ptr_eq (weight, kept);
  ck_assert_ptr_null (sw_facts_next (&dossier->facts, SW_FACT_WEIGHT, &i));
}
END_TEST

static void
put_answer (SwDossier *dossier, gint64 course, const char *text, SwDay day)
{
  SwAnswer *answer = sw_new (SW_FACT_ANSWER, SwAnswer);

  answer->course = course;
  answer->question = g_strdup ("node");
  answer->answer = g_strdup (text);
  answer->day = day;
  put (dossier, answer);
}

START_TEST (test_newest_answer_on_or_before)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);

  put_answer (dossier, 0, "hn1", 100);
  put_answer (dossier, 0, "hn0", 90);
  put_answer (dossier, 3, "hn2", 95);
  ck_assert_ptr_null (sw_dossier_answer (dossier, 0, 0, "node", 89));
  ck_assert_str_eq (sw_dossier_answer (dossier, 0, 0, "node", 99)->answer, "hn0");
  ck_assert_str_eq (sw_dossier_answer (dossier, 0, 0, "node", 100)->answer, "hn1");
  ck_assert_str_eq (sw_dossier_answer (dossier, 3, 0, "node", 100)->answer, "hn2");
  ck_assert_ptr_null (sw_dossier_answer (dossier, 0, 7, "node", 100));
  ck_assert_ptr_null (sw_dossier_answer (dossier, 0, 0, "distant", 100));
}
END_TEST

static gint64
put_tumour (SwDossier *dossier, gint64 letter)
{
  SwFact *tumour = put (dossier, sw_fact_new (SW_FACT_TUMOUR));
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);

  details->tumour = tumour->id;
  details->letter = letter;
  put (dossier, details);
  return tumour->id;
}

static void
put_course_tumour (SwDossier *dossier, gint64 course, gint64 tumour, gboolean treat)
{
  SwCourseTumour *row = sw_new (SW_FACT_COURSE_TUMOUR, SwCourseTumour);

  row->course = course;
  row->tumour = tumour;
  row->treat = treat;
  put (dossier, row);
}

START_TEST (test_course_tumours_by_letter)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);
  gint64 b = put_tumour (dossier, 1), a = put_tumour (dossier, 0), c = put_tumour (dossier, 2);
  g_autoptr (GArray) tumours = NULL;

  put_course_tumour (dossier, 1, b, TRUE);
  put_course_tumour (dossier, 1, a, TRUE);
  put_course_tumour (dossier, 1, c, FALSE);
  put_course_tumour (dossier, 2, c, TRUE);
  tumours = sw_dossier_course_tumours (dossier, 1);
  ck_assert_int_eq (tumours->len, 2);
  ck_assert_int_eq (g_array_index (tumours, gint64, 0), a);
  ck_assert_int_eq (g_array_index (tumours, gint64, 1), b);
}
END_TEST

START_TEST (test_doses_by_due_time)
{
  static const gint64 due[][2] = { { 10, 1200 }, { 9, 480 }, { 10, 480 } };
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);
  g_autoptr (GPtrArray) doses = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (due); i++)
    {
      SwDosePlan *dose = sw_new (SW_FACT_DOSE_PLAN, SwDosePlan);

      dose->course = 1;
      dose->dose = 100 + i;
      dose->due_day = due[i][0];
      dose->due_minute = due[i][1];
      put (dossier, dose);
    }
  put (dossier, sw_fact_withdrawal (dossier->facts.rows[SW_FACT_DOSE_PLAN]->pdata[2]));
  doses = sw_dossier_doses (dossier, 1);
  ck_assert_int_eq (doses->len, 2);
  ck_assert_int_eq (((SwDosePlan *) doses->pdata[0])->dose, 101);
  ck_assert_int_eq (((SwDosePlan *) doses->pdata[1])->dose, 100);
}
END_TEST

START_TEST (test_numbers)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (PATIENT);
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  g_autofree char *patient = sw_patient_number (PATIENT), *number = NULL;
  g_autofree char *a = sw_tumour_letter (0), *z = sw_tumour_letter (25), *aa = sw_tumour_letter (26);

  course->number = 2;
  put (dossier, course);
  number = sw_course_number (dossier, course->fact.id);
  ck_assert_str_eq (patient, "P-000012");
  ck_assert_str_eq (number, "P-000012/2");
  ck_assert_str_eq (a, "A");
  ck_assert_str_eq (z, "Z");
  ck_assert_str_eq (aa, "AA");
  ck_assert_ptr_eq (sw_dossier_last_course (dossier), course);
}
END_TEST

static void
put_setting (SwPractice *practice, const char *key, const char *value)
{
  SwSetting *setting = sw_new (SW_FACT_SETTING, SwSetting);

  setting->fact.id = ++next_id;
  setting->key = g_strdup (key);
  setting->value = g_strdup (value);
  sw_facts_add (&practice->facts, setting);
}

START_TEST (test_settings_have_defaults)
{
  g_autoptr (SwPractice) practice = sw_practice_new ();

  ck_assert_int_eq (sw_practice_morning (practice), 480);
  ck_assert_int_eq (sw_practice_evening (practice), 1200);
  ck_assert_str_eq (sw_practice_zone (practice), "UTC");
  ck_assert_str_eq (sw_practice_person_name (practice, 3), "?");
  put_setting (practice, "hour-morning", "450");
  put_setting (practice, "washout.meloxicam", "not a number");
  ck_assert_int_eq (sw_practice_morning (practice), 450);
  ck_assert_int_eq (sw_practice_setting_int (practice, "washout.meloxicam", 5), 5);
}
END_TEST

START_TEST (test_roles_end_with_the_work)
{
  g_autoptr (SwPractice) practice = sw_practice_new ();
  SwPersonDetails *person = sw_new (SW_FACT_PERSON_DETAILS, SwPersonDetails), *gone;

  person->fact.id = ++next_id;
  person->person = 4;
  person->name = g_strdup ("Ines");
  person->roles = SW_ROLE_VET;
  person->active = 1;
  sw_facts_add (&practice->facts, person);
  ck_assert_int_eq (sw_practice_roles (practice, 4), SW_ROLE_VET);
  gone = sw_fact_correction (person);
  gone->fact.id = ++next_id;
  gone->active = 0;
  sw_facts_add (&practice->facts, gone);
  ck_assert_int_eq (sw_practice_roles (practice, 4), 0);
  ck_assert_str_eq (sw_practice_person_name (practice, 4), "Ines");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("dossier");
  TCase *tcase = tcase_create ("dossier");
  SRunner *runner;

  tcase_add_test (tcase, test_correction_replaces);
  tcase_add_test (tcase, test_withdrawn_is_not_current_but_is_the_tip);
  tcase_add_test (tcase, test_walk_leaves_out_what_is_gone);
  tcase_add_test (tcase, test_newest_answer_on_or_before);
  tcase_add_test (tcase, test_course_tumours_by_letter);
  tcase_add_test (tcase, test_doses_by_due_time);
  tcase_add_test (tcase, test_numbers);
  tcase_add_test (tcase, test_settings_have_defaults);
  tcase_add_test (tcase, test_roles_end_with_the_work);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
