/* test-recheck.c: visits from day 1 to day 28 through the page's widgets, corrections, attempts, the end of a course
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "after-ui.h"

#include "sw-course.h"
#include "sw-error.h"
#include "sw-expected.h"
#include "sw-patient-page.h"

static const SwVisit *
last_visit (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_VISIT);
}

static const SwWound *
last_wound (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_WOUND);
}

static guint
count (const SwDossier *dossier, SwFactKind kind)
{
  guint n = 0;

  for (guint i = 0; sw_facts_next (&dossier->facts, kind, &i) != NULL;)
    n++;
  return n;
}

static SwVisitStanding
standing (After *after, const SwDossier *dossier, gint64 number)
{
  SwCase c = after_case (after, dossier, after_course (dossier));
  g_autoptr (GArray) slots = sw_course_visits (&c);

  for (guint i = 0; i < slots->len; i++)
    if (g_array_index (slots, SwVisitSlot, i).number == number)
      return g_array_index (slots, SwVisitSlot, i).standing;
  ck_abort_msg ("no visit day %d", (int) number);
  return SW_VISIT_COMING;
}

static void
visit (After *after, int day, const char *wound, const char *length, const char *width)
{
  after_day (after, day);
  after_choose (after, "Wound of tumour A", wound);
  if (length != NULL)
    {
      after_enter (after, "Length of the wound of tumour A, in mm", length);
      after_enter (after, "Width of the wound of tumour A, in mm", width);
    }
  after_press (after, "Record the Visit");
}

START_TEST (day_1_to_day_28)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) first = NULL, end = NULL;

  ck_assert (after_says (after, "Usually seen on day 1, 2026-05-14"));
  ck_assert (after_says (after, "Oedema may track down a limb"));
  ck_assert (after_says (after, "◉ due"));
  after_choose (after, "seen", "by phone");
  after_choose (after, "pain", "3");
  after_choose (after, "Care of the site", "covered loosely");
  after_type (after, "Covered until", "2026-05-20");
  after_type (after, "notes", "ate well");
  after_choose (after, "Wound of tumour A", "no wound yet");
  after_press (after, "Record the Visit");
  first = after_dossier (after);
  ck_assert_int_eq (last_visit (first)->day, after->zero + 1);
  ck_assert_int_eq (last_visit (first)->mode, SW_VISIT_PHONE);
  ck_assert_int_eq (last_visit (first)->pain, 3);
  ck_assert_int_eq (last_visit (first)->cover, SW_COVER_LOOSE);
  ck_assert_int_eq (last_visit (first)->cover_until, sw_day_from_ymd (2026, 5, 20));
  ck_assert_str_eq (last_visit (first)->note, "ate well");
  ck_assert_int_eq (last_wound (first)->state, SW_WOUND_NONE_YET);
  ck_assert_int_eq (standing (after, first, 1), SW_VISIT_DONE);
  ck_assert (after_says (after, "pain 3 of 10"));

  visit (after, 4, "open", "14", "1.1 cm");
  ck_assert (after_says (after, "The mass blackens"));
  ck_assert (after_says (after, "14.0 × 11.0 mm, 121 mm2")); /* 14 x 11 x pi/4 = 120.95 */
  visit (after, 7, "open", "21", "17");
  visit (after, 14, "open", "12", "9");
  visit (after, 28, "closed", NULL, NULL);
  end = after_dossier (after);
  ck_assert_uint_eq (count (end, SW_FACT_VISIT), 5);
  ck_assert_int_eq (last_wound (end)->state, SW_WOUND_CLOSED);
  for (int i = 0; i < 5; i++)
    ck_assert_int_eq (standing (after, end, (const int[]){ 1, 4, 7, 14, 28 }[i]), SW_VISIT_DONE);
  ck_assert_int_eq (standing (after, end, 56), SW_VISIT_COMING);
  ck_assert (after_says (after, "57 %, 78 % and 96 % of wounds have healed by then"));
}
END_TEST

START_TEST (the_area_is_written_beside)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) dossier = NULL;

  after_choose (after, "Wound of tumour A", "open");
  after_enter (after, "Length of the wound of tumour A, in mm", "20");
  ck_assert (!after_says (after, "by the ruler"));
  after_press (after, "Record the Visit"); /* one side alone is refused */
  ck_assert (after_says (after, "fill in both, or neither"));
  after_enter (after, "Width of the wound of tumour A, in mm", "10");
  ck_assert (after_says (after, "157 mm2 by the ruler")); /* 20 x 10 x pi/4 = 157.08 */
  after_press (after, "Record the Visit");
  dossier = after_dossier (after);
  ck_assert_int_eq (last_wound (dossier)->length, 2000);
  ck_assert_int_eq (last_wound (dossier)->width, 1000);
}
END_TEST

START_TEST (the_future_is_refused_and_the_text_stays)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) dossier = NULL;

  after_type (after, "Day of the visit", "2026-05-15");
  after_type (after, "notes", "typed before");
  after_press (after, "Record the Visit");
  ck_assert (after_says (after, "This has not come yet"));
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (after_named (after, "notes"))), "typed before");
  ck_assert (sw_patient_page_has_unsaved (SW_PATIENT_PAGE (after->page)));
  dossier = after_dossier (after);
  ck_assert_uint_eq (count (dossier, SW_FACT_VISIT), 0);
  after_type (after, "Day of the visit", "2026-05-14");
  after_press (after, "Record the Visit");
  ck_assert (!sw_patient_page_has_unsaved (SW_PATIENT_PAGE (after->page)));
}
END_TEST

START_TEST (a_visit_is_corrected_and_taken_back)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) corrected = NULL, back = NULL;
  const char *when = "day 1, 2026-05-14 09:40";
  g_autofree char *correct = g_strdup_printf ("Correct: visit of %s", when);
  g_autofree char *take = g_strdup_printf ("Take Back: visit of %s", when);

  after_choose (after, "pain", "8");
  after_choose (after, "Wound of tumour A", "open");
  after_enter (after, "Length of the wound of tumour A, in mm", "20");
  after_enter (after, "Width of the wound of tumour A, in mm", "10");
  after_choose (after, "What the site shows of tumour A", sw_look_state_name (SW_LOOK_HIDDEN));
  after_press (after, "Record the Visit");
  after_press (after, correct);
  ck_assert (after_says (after, "Correct a visit"));
  after_choose (after, "pain", "2");
  after_enter (after, "Width of the wound of tumour A, in mm", "12");
  after_press (after, "Record the Correction");
  corrected = after_dossier (after);
  ck_assert_int_eq (last_visit (corrected)->pain, 2);
  ck_assert_int_ne (last_visit (corrected)->fact.replaces, 0);
  ck_assert_int_eq (last_wound (corrected)->width, 1200);
  ck_assert_uint_eq (count (corrected, SW_FACT_LOOK), 1);
  ck_assert_uint_eq (count (corrected, SW_FACT_VISIT), 1);
  ck_assert (after_says (after, "corrected since"));
  ck_assert (after_says (after, "New visit"));

  after_press (after, take);
  back = after_dossier (after);
  ck_assert_uint_eq (count (back, SW_FACT_VISIT), 0);
  ck_assert_uint_eq (count (back, SW_FACT_WOUND), 0);
  ck_assert_uint_eq (count (back, SW_FACT_LOOK), 0);
  ck_assert (after_says (after, "taken back"));
}
END_TEST

START_TEST (a_caliper_fills_the_cells)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) dossier = NULL;
  const SwReading *reading;

  after_day (after, 28);
  after_enter (after, "tumour A, reading 1, length in mm", "8.1");
  after_enter (after, "tumour A, reading 1, width in mm", "6,0");
  after_enter (after, "tumour A, reading 1, height in mm", "3.1mm");
  dossier = after_dossier (after);
  reading = sw_facts_last (&dossier->facts, SW_FACT_READING);
  ck_assert_int_eq (reading->day, after->zero + 28);
  ck_assert_int_eq (reading->axis1, 810);
  ck_assert_int_eq (reading->axis2, 600);
  ck_assert_int_eq (reading->axis3, 310);
  ck_assert (after_has (after, "tumour A, reading 2, length in mm"));
}
END_TEST

static void
attempt (After *after, const char *note)
{
  after_type (after, "what was said", note);
  after_press (after, "Record the Attempt");
}

START_TEST (lost_needs_days_and_attempts)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) dossier = NULL;
  const SwCourseEnd *end;

  after_day (after, 70);
  after_open (after, "The end of the course");
  after_choose (after, "the course", sw_end_name (SW_END_LOST));
  ck_assert (after_says (after, "Lost needs 30 days overdue and 2 attempts"));
  after_press (after, "End the Course");
  dossier = after_dossier (after);
  ck_assert_ptr_null (sw_facts_last (&dossier->facts, SW_FACT_COURSE_END));
  after_open (after, "Attempts to reach the client");
  ck_assert (after_says (after, "Rudd, Winifred, 555 0128"));
  attempt (after, "no answer");
  attempt (after, "mailbox full");
  ck_assert (after_says (after, "not reached; mailbox full"));
  after_press (after, "End the Course");
  g_clear_pointer (&dossier, sw_dossier_free);
  dossier = after_dossier (after);
  end = sw_facts_last (&dossier->facts, SW_FACT_COURSE_END);
  ck_assert_ptr_nonnull (end);
  ck_assert_int_eq (end->end, SW_END_LOST);
  ck_assert_uint_eq (count (dossier, SW_FACT_CONTACT), 2);
}
END_TEST

START_TEST (a_death_cancels_every_reminder)
{
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (SwDossier) before = after_dossier (after), dossier = NULL;
  g_autoptr (GPtrArray) doses = sw_dossier_doses (before, after_course (before));
  g_autoptr (GPtrArray) left = NULL;
  SwCase c = after_case (after, before, after_course (before));
  const SwCourseEnd *end;

  ck_assert (sw_moment_is_set (sw_course_next_due (&c)));
  after_open (after, "The end of the course");
  after_choose (after, "the course", sw_end_name (SW_END_DIED));
  ck_assert (after_says (after, "The cause of death is not chosen"));
  after_press (after, "End the Course");
  ck_assert (after_says (after, "The cause of death is not chosen"));
  after_choose (after, "cause of death", sw_death_cause_name (SW_DEATH_OTHER));
  ck_assert (!after_says (after, "The cause of death is not chosen"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (after_named (after, "the day is certain")), FALSE);
  after_press (after, "End the Course");
  dossier = after_dossier (after);
  end = sw_facts_last (&dossier->facts, SW_FACT_COURSE_END);
  ck_assert_int_eq (end->cause, SW_DEATH_OTHER);
  ck_assert_int_eq (end->certain, 0);
  c = after_case (after, dossier, after_course (dossier));
  ck_assert (!sw_moment_is_set (sw_course_next_due (&c)));
  left = sw_dossier_doses (dossier, after_course (dossier));
  ck_assert_uint_lt (left->len, doses->len);
  for (guint i = 0; i < left->len; i++)
    ck_assert_int_le (((const SwDosePlan *) left->pdata[i])->due_day, c.now.day);
  ck_assert (after_says (after, "the day is not certain"));
  ck_assert (!after_says (after, "◉ due"));
}
END_TEST

START_TEST (each_day_has_its_picture)
{
  static const struct
  {
    int day;
    const char *words;
    const char *basis;
  } expected[] = {
    { 2, "The swelling settles", "[memory]" },
    { 5, "The mass blackens", "not-recorded [second-hand]" },
    { 10, "pink granulating bed", "Johannes 2021, 117 dogs [seen]" },
    { 12, "The wound is at its largest", "De Ridder 2021" },
    { 40, "half of them by day 30", "Musser 2024" },
  };
  g_autoptr (After) after = after_new (LARK, "rechecks");
  g_autoptr (GArray) before = sw_expected_on (-1);

  ck_assert_uint_eq (before->len, 0);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      after_day (after, expected[i].day);
      ck_assert_msg (after_says (after, expected[i].words), "day %d: %s", expected[i].day, expected[i].words);
      ck_assert_msg (after_says (after, expected[i].basis), "day %d: %s", expected[i].day, expected[i].basis);
    }
}
END_TEST

START_TEST (two_tumours_have_names_of_their_own)
{
  g_autoptr (After) after = after_new (ARLO, "rechecks");

  after_choose (after, "Wound of tumour A", "open");
  after_choose (after, "Wound of tumour B", "open");
  after_open (after, "The tumour is back");
  after_open (after, "Attempts to reach the client");
  after_open (after, "The end of the course");
  after_press (after, "Record the Visit");
  after_check_names (after);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("recheck");
  TCase *tcase = tcase_create ("recheck");

  ui_init ();
  tcase_set_timeout (tcase, 90);
  tcase_add_test (tcase, day_1_to_day_28);
  tcase_add_test (tcase, the_area_is_written_beside);
  tcase_add_test (tcase, the_future_is_refused_and_the_text_stays);
  tcase_add_test (tcase, a_visit_is_corrected_and_taken_back);
  tcase_add_test (tcase, a_caliper_fills_the_cells);
  tcase_add_test (tcase, lost_needs_days_and_attempts);
  tcase_add_test (tcase, a_death_cancels_every_reminder);
  tcase_add_test (tcase, each_day_has_its_picture);
  tcase_add_test (tcase, two_tumours_have_names_of_their_own);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
