/* test-response.c: complete and partial response, the second injection, a recurrence, through the page's widgets
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "after-ui.h"

#include "sw-course.h"
#include "sw-patient-page.h"

static const SwScore *
last_score (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_SCORE);
}

static const SwOverall *
last_overall (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_OVERALL);
}

/* A visit at which the site of a tumour shows this. */
static void
see (After *after, const char *tumour, SwLookState state)
{
  g_autofree char *look = g_strdup_printf ("What the site shows of tumour %s", tumour);
  g_autofree char *wound = g_strdup_printf ("Wound of tumour %s", tumour);

  after_choose (after, look, sw_look_state_name (state));
  after_choose (after, wound, sw_wound_state_name (state == SW_LOOK_HIDDEN ? SW_WOUND_OPEN : SW_WOUND_CLOSED));
}

static void
measure (After *after, const char *length, const char *width, const char *height)
{
  after_enter (after, "tumour A, reading 1, length in mm", length);
  after_enter (after, "tumour A, reading 1, width in mm", width);
  after_enter (after, "tumour A, reading 1, height in mm", height);
  after_press (after, "Record the Visit");
}

/* Lark, gone on day 28 and scored. */
static After *
complete (void)
{
  After *after = after_new (LARK, "rechecks");

  after_day (after, 28);
  see (after, "A", SW_LOOK_GONE);
  after_press (after, "Record the Visit");
  after_step (after, "response");
  return after;
}

START_TEST (complete_response)
{
  g_autoptr (After) after = complete ();
  g_autoptr (SwDossier) dossier = NULL;

  ck_assert (after_says (after, "complete response (CR)"));
  ck_assert (after_says (after, "counts as day 28"));
  ck_assert (after_says (after, "15.30 mm")); /* mean of 15.4 and 15.2 */
  ck_assert (after_says (after, "The acts come here once the score is recorded"));
  after_press (after, "Record the Score");
  dossier = after_dossier (after);
  ck_assert_int_eq (last_score (dossier)->category, SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (last_score (dossier)->counts_as_day_28, 1);
  ck_assert_str_eq (last_score (dossier)->next_step, "no-further-treatment");
  ck_assert_int_eq (last_overall (dossier)->category, SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (last_overall (dossier)->non_targets, SW_NON_TARGETS_NONE);
  ck_assert (after_says (after, "Looks to come: day 56, 2026-07-08; day 84, 2026-08-05;"));
  ck_assert (after_has (after, "Record the Next Visit"));
  ck_assert (!after_has (after, "Stage Again on Work-up"));
  after_check_names (after);
  after_press (after, "Record the Next Visit");
  ck_assert_str_eq (sw_patient_page_get_step (SW_PATIENT_PAGE (after->page)), "rechecks");
}
END_TEST

START_TEST (the_dog_with_other_tumours)
{
  g_autoptr (After) after = complete ();
  g_autoptr (SwDossier) dossier = NULL;

  after_choose (after, "other known tumours", sw_non_targets_name (SW_NON_TARGETS_PERSISTING));
  ck_assert (after_says (after, "partial response (PR)")); /* CR with others that persist */
  after_press (after, "a new tumour was found since the injection");
  ck_assert (after_says (after, "progressive disease (PD)"));
  after_press (after, "Record the Score");
  dossier = after_dossier (after);
  ck_assert_int_eq (last_score (dossier)->category, SW_CATEGORY_COMPLETE); /* the tumour's own stands */
  ck_assert_int_eq (last_overall (dossier)->category, SW_CATEGORY_PROGRESSIVE);
  ck_assert_int_eq (last_overall (dossier)->non_targets, SW_NON_TARGETS_PERSISTING);
  ck_assert_int_eq (last_overall (dossier)->new_tumour, 1);
}
END_TEST

/* 15.3 to 10.71 mm is exactly 30 % less: partial. */
START_TEST (partial_response_and_a_second_injection)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) scored = NULL, opened = NULL;
  const SwCourseDetails *details;
  gint64 first;

  after_day (after, 28);
  measure (after, "10.71", "6.0", "3.0");
  after_step (after, "response");
  ck_assert (after_says (after, "partial response (PR)"));
  ck_assert (after_says (after, "(10.71 − 15.30) / 15.30"));
  ck_assert (after_says (after, "-30.0 %"));
  ck_assert (after_says (after, "partial at -30.0 % or less"));
  ck_assert (!after_has (after, "Inject Again from 2026-06-12"));
  after_press (after, "Record the Score");
  scored = after_dossier (after);
  first = after_course (scored);
  ck_assert_int_eq (last_score (scored)->category, SW_CATEGORY_PARTIAL);
  ck_assert_str_eq (last_score (scored)->next_step, "second-injection");
  /* day 28 is 2026-06-10: the later of day 30 and two days after the score */
  after_press (after, "Inject Again from 2026-06-12");
  opened = after_dossier (after);
  ck_assert_int_ne (after_course (opened), first);
  details = sw_facts_of_course (&opened->facts, SW_FACT_COURSE_DETAILS, after_course (opened));
  ck_assert_int_eq (details->follows, first);
  after_wait_says (after, "Course P-000002/2");
  ck_assert_int_eq (sw_dossier_course (opened, after_course (opened))->number, 2);
}
END_TEST

/* 15.3 to 10.72 mm is not quite 30 % less: stable. */
START_TEST (stable_disease)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");

  after_day (after, 28);
  measure (after, "10.72", "6.0", "3.0");
  after_step (after, "response");
  ck_assert (after_says (after, "stable disease (SD)"));
}
END_TEST

START_TEST (recurrence_after_complete_response)
{
  g_autoptr (After) after = complete ();
  g_autoptr (SwDossier) dossier = NULL;
  const SwRecurrence *back;

  after_press (after, "Record the Score");
  after_step (after, "rechecks");
  after_day (after, 120);
  after_open (after, "The tumour is back");
  after_type (after, "distance from the scar", "8");
  after_type (after, "what was seen", "new nodule");
  after_press (after, "Record the Recurrence");
  dossier = after_dossier (after);
  back = sw_facts_last (&dossier->facts, SW_FACT_RECURRENCE);
  ck_assert_int_eq (back->day, after->zero + 120);
  ck_assert_int_eq (back->sampled, 0);
  ck_assert_int_eq (back->distance, 800);
  after_step (after, "response");
  ck_assert (after_says (after, "(RECURRENCE)"));
  ck_assert (after_says (after, "The tumour is back after a complete response")); /* though the newest score is CR */
  ck_assert (!after_says (after, "No tumour is left"));
  ck_assert (after_says (after, "presumed"));

  after_step (after, "rechecks"); /* the sample is back: told again, it corrects */
  after_choose (after, "certainty", "confirmed by cytology or histology");
  after_press (after, "Record the Recurrence");
  after_step (after, "response");
  ck_assert (!after_says (after, "Nobody has sampled it"));
  after_press (after, "Record the Score");
  g_clear_pointer (&dossier, sw_dossier_free);
  dossier = after_dossier (after);
  back = sw_facts_last (&dossier->facts, SW_FACT_RECURRENCE);
  ck_assert_int_eq (back->sampled, 1);
  ck_assert_int_ne (back->fact.replaces, 0);
  ck_assert_int_eq (last_score (dossier)->category, SW_CATEGORY_RECURRENCE);
  ck_assert_int_eq (last_overall (dossier)->category, SW_CATEGORY_PROGRESSIVE);
  ck_assert (after_has (after, "Treat Again: Open a Course That Follows"));
  after_press (after, "Refer: End This Course");
  ck_assert_str_eq (sw_patient_page_get_step (SW_PATIENT_PAGE (after->page)), "rechecks");
  ck_assert (after_has (after, "End the Course"));
}
END_TEST

START_TEST (a_hidden_site_is_looked_at_again)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) dossier = NULL;

  after_day (after, 28);
  see (after, "A", SW_LOOK_HIDDEN);
  after_press (after, "Record the Visit");
  after_step (after, "response");
  ck_assert (after_says (after, "not evaluable"));
  after_press (after, "Record the Score");
  ck_assert (after_says (after, "Look at it again in 7 to 14 days"));
  dossier = after_dossier (after);
  ck_assert_int_eq (last_score (dossier)->category, SW_CATEGORY_NOT_EVALUABLE);
  ck_assert_int_eq (last_score (dossier)->now_sum, SW_UNKNOWN);
}
END_TEST

/* Taking the look back and measuring instead: the score is amended, both stay. */
START_TEST (amending_needs_a_reason)
{
  g_autoptr (After) after = complete ();
  g_autoptr (SwDossier) dossier = NULL;

  after_press (after, "Record the Score");
  after_press (after, "Amend the Score");
  ck_assert (after_says (after, "This day has a score: amending it needs a reason"));
  after_step (after, "rechecks");
  after_press (after, "Correct: visit of day 28, 2026-06-10 11:00");
  after_choose (after, "What the site shows of tumour A", sw_look_state_name (SW_LOOK_TOO_SMALL));
  after_press (after, "Record the Correction");
  after_step (after, "response");
  ck_assert (after_says (after, "partial response (PR)")); /* 5 mm stand for it */
  after_type (after, "why it is amended", "a small nodule was overlooked");
  after_press (after, "Amend the Score");
  dossier = after_dossier (after);
  ck_assert_int_eq (last_score (dossier)->category, SW_CATEGORY_PARTIAL);
  ck_assert_int_eq (last_score (dossier)->now_sum, 500);
  ck_assert_str_eq (last_score (dossier)->note, "a small nodule was overlooked");
  ck_assert_int_ne (last_score (dossier)->fact.replaces, 0);
  ck_assert (after_says (after, "amended since"));
}
END_TEST

START_TEST (each_tumour_is_asked_for)
{
  g_autoptr (After) after = after_new (ARLO, "response");
  g_autoptr (SwDossier) dossier = NULL;

  ck_assert (after_says (after, "Nothing was measured or looked at since the injection"));
  after_press (after, "Record a Visit");
  see (after, "A", SW_LOOK_GONE);
  after_press (after, "Record the Visit");
  after_step (after, "response");
  ck_assert (after_says (after, "complete response (CR)"));
  ck_assert (after_says (after, "Nothing was measured or looked at on 2026-05-14"));
  after_press (after, "Record the Score");
  dossier = after_dossier (after);
  ck_assert_ptr_null (last_score (dossier)); /* B is not known: nothing is scored */
  after_step (after, "rechecks");
  sw_clock_set (after->clock, (SwMoment){ after->zero + 28, 10 * 60 });
  after_type (after, "Time of the visit", "09:50");
  see (after, "B", SW_LOOK_TOO_SMALL);
  after_press (after, "Record the Visit");
  after_step (after, "response");
  after_press (after, "Record the Score");
  g_clear_pointer (&dossier, sw_dossier_free);
  dossier = after_dossier (after);
  ck_assert_ptr_nonnull (last_score (dossier));
  after_check_names (after);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("response");
  TCase *tcase = tcase_create ("response");

  ui_init ();
  tcase_set_timeout (tcase, 90);
  tcase_add_test (tcase, complete_response);
  tcase_add_test (tcase, the_dog_with_other_tumours);
  tcase_add_test (tcase, partial_response_and_a_second_injection);
  tcase_add_test (tcase, stable_disease);
  tcase_add_test (tcase, recurrence_after_complete_response);
  tcase_add_test (tcase, a_hidden_site_is_looked_at_again);
  tcase_add_test (tcase, amending_needs_a_reason);
  tcase_add_test (tcase, each_tumour_is_asked_for);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
