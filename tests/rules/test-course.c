/* test-course.c: stages, visits, what is due next, second injections, ends, the foot line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course.h"

#include "course-fixture.h"
#include "sw-gate.h"
#include "sw-suitability.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

#define INJECTED (TREAT) /* day 0 */

/* Injected at 10:41 and let go. */
static Fixture *
injected (void)
{
  Fixture *fixture = fixture_new ("tigilanol-eu");

  course_lead_in (fixture);
  course_treatment_day (fixture);
  course_release (fixture);
  course_at (fixture, TREAT, 10 * 60 + 41);
  course_inject (fixture);
  course_discharge (fixture);
  return fixture;
}

static void
check_foot (Fixture *fixture, const char *beginning)
{
  g_autofree char *line = sw_course_foot_line (&fixture->c);

  ck_assert_msg (g_str_has_prefix (line, beginning), "%s", line);
  ck_assert_msg (strpbrk (line, "{}\n") == NULL, "%s", line);
}

/* One course through all its stages. */
START_TEST (test_stages)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwCourseEnd *end = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  course_at (fixture, TODAY, 7 * 60);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_WORK_UP);
  course_lead_in (fixture);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_LEAD_IN);
  course_at (fixture, TREAT - 1, 1439);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_LEAD_IN);
  course_at (fixture, TREAT, 0);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_TREATMENT_DAY);
  course_treatment_day (fixture);
  course_release (fixture);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_TREATMENT_DAY);
  ck_assert_ptr_nonnull (sw_case_release (&fixture->c));
  course_at (fixture, TREAT + 1, 0);
  ck_assert_ptr_null (sw_case_release (&fixture->c));
  course_at (fixture, TREAT, 600);
  course_inject (fixture);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_OBSERVATION);
  course_discharge (fixture);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_AFTER);
  course_at (fixture, INJECTED + 24, 600);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_AFTER);
  course_at (fixture, INJECTED + 25, 600);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_SCORE_DUE);
  course_score (fixture, INJECTED + 28, SW_CATEGORY_NOT_EVALUABLE);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_SCORE_DUE);
  course_score (fixture, INJECTED + 35, SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_WATCH);
  end->course = fixture->c.course;
  end->day = INJECTED + 400;
  fixture_put (fixture, end);
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_CLOSED);
  for (int stage = 0; stage < SW_N_STAGES; stage++)
    {
      ck_assert_int_eq (sw_stage_from_code (sw_stage_code ((SwStage) stage)), stage);
      ck_assert_ptr_nonnull (sw_stage_name ((SwStage) stage));
    }
  ck_assert_int_eq (sw_stage_from_code ("elsewhere"), -1);
}
END_TEST

/* Domain 7: hour 8, days 1, 4, 7, 14, 28, 56, 84; day 28 counts from 25 to 35 (domain 8). */
START_TEST (test_visit_days)
{
  static const struct { gint64 number, opens, closes; } wanted[] = {
    { 0, 0, 0 }, { 1, 1, 1 }, { 4, 4, 5 }, { 7, 7, 8 }, { 14, 13, 17 }, { 28, 25, 35 }, { 56, 49, 70 }, { 84, 74, 105 },
  };
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GArray) slots = sw_course_visits (&fixture->c);

  ck_assert_uint_eq (slots->len, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);

      ck_assert_int_eq (slot->number, wanted[i].number);
      ck_assert_int_eq (slot->day, INJECTED + wanted[i].number);
      ck_assert_int_eq (slot->opens, INJECTED + wanted[i].opens);
      ck_assert_int_eq (slot->closes, INJECTED + wanted[i].closes);
      ck_assert_int_eq (slot->standing, SW_VISIT_COMING);
    }
  ck_assert_int_eq (g_array_index (slots, SwVisitSlot, 0).minute, 18 * 60 + 41);
}
END_TEST

static SwVisitStanding
standing (Fixture *fixture, gint64 number)
{
  g_autoptr (GArray) slots = sw_course_visits (&fixture->c);

  for (guint i = 0; i < slots->len; i++)
    if (g_array_index (slots, SwVisitSlot, i).number == number)
      return g_array_index (slots, SwVisitSlot, i).standing;
  ck_abort_msg ("no visit on day %d", (int) number);
}

START_TEST (test_visit_standing)
{
  g_autoptr (Fixture) fixture = injected ();
  SwVisit *late;

  course_at (fixture, INJECTED, 18 * 60 + 40);
  ck_assert_int_eq (standing (fixture, 0), SW_VISIT_COMING);
  course_at (fixture, INJECTED, 18 * 60 + 41);
  ck_assert_int_eq (standing (fixture, 0), SW_VISIT_DUE);
  course_at (fixture, INJECTED + 1, 0);
  ck_assert_int_eq (standing (fixture, 0), SW_VISIT_OVERDUE);
  course_at (fixture, INJECTED + 14, 600);
  ck_assert_int_eq (standing (fixture, 14), SW_VISIT_DUE);
  course_at (fixture, INJECTED + 17, 600);
  ck_assert_int_eq (standing (fixture, 14), SW_VISIT_DUE);
  course_at (fixture, INJECTED + 18, 600);
  ck_assert_int_eq (standing (fixture, 14), SW_VISIT_OVERDUE);
  course_visit (fixture, INJECTED + 13);
  ck_assert_int_eq (standing (fixture, 14), SW_VISIT_DONE);
  ck_assert_int_eq (standing (fixture, 7), SW_VISIT_PASSED);
  /* a visit says itself which day it answers */
  late = course_visit (fixture, INJECTED + 18);
  late->planned_day = 28;
  ck_assert_int_eq (standing (fixture, 28), SW_VISIT_DONE);
}
END_TEST

/* Complete response: days 56 and 84, then every 3 months for a year (domain 8). */
START_TEST (test_watch)
{
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GArray) slots = NULL;

  course_score (fixture, INJECTED + 28, SW_CATEGORY_COMPLETE);
  slots = sw_course_visits (&fixture->c);
  ck_assert_uint_eq (slots->len, 8 + 4);
  for (guint i = 8; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);

      ck_assert_int_eq (slot->day, sw_day_add_months (INJECTED + 84, 3 * ((int) i - 7)));
      ck_assert_int_gt (slot->opens, g_array_index (slots, SwVisitSlot, i - 1).closes);
    }
}
END_TEST

static void
check_due (Fixture *fixture, SwDay day, int minute)
{
  SwMoment due = sw_course_next_due (&fixture->c);

  ck_assert_int_eq (due.day, day);
  if (day != SW_NO_DAY)
    ck_assert_int_eq (due.minute, minute);
}

/* What is due next follows from the facts, whatever the clock says. */
START_TEST (test_next_due)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwCourseEnd *end = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  check_due (fixture, SW_NO_DAY, 0);
  course_lead_in (fixture);
  check_due (fixture, TODAY, 480);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TODAY, 0), SW_DOSE_GIVEN, TODAY, 480);
  check_due (fixture, TODAY, 1200);
  course_treatment_day (fixture);
  check_due (fixture, TREAT, 0);
  course_release (fixture);
  course_inject (fixture);
  course_discharge (fixture);
  check_due (fixture, TREAT, 17 * 60 + 30);
  course_visit (fixture, INJECTED)->planned_day = 0;
  check_due (fixture, TREAT, 1200);
  course_visit (fixture, INJECTED + 8);
  check_due (fixture, INJECTED + 14, 0);
  course_visit (fixture, INJECTED + 14);
  course_visit (fixture, INJECTED + 28);
  check_due (fixture, INJECTED + 28, 0);
  course_score (fixture, INJECTED + 28, SW_CATEGORY_NOT_EVALUABLE);
  check_due (fixture, INJECTED + 35, 0);
  course_score (fixture, INJECTED + 36, SW_CATEGORY_COMPLETE);
  check_due (fixture, INJECTED + 56, 0);
  end->course = fixture->c.course;
  end->end = SW_END_DIED;
  end->cause = SW_DEATH_OTHER;
  fixture_put (fixture, end);
  check_due (fixture, SW_NO_DAY, 0);
  ck_assert_int_eq (standing (fixture, 56), SW_VISIT_PASSED);
}
END_TEST

/* The later of day 30 and score day + 2. */
START_TEST (test_second_injection)
{
  static const struct { gint64 scored, earliest; } rows[] = { { 25, 30 }, { 28, 30 }, { 29, 31 }, { 35, 37 } };
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GPtrArray) early = NULL, in_time = NULL;
  const SwFinding *finding;

  course_score (fixture, INJECTED + rows[_i].scored, SW_CATEGORY_PARTIAL);
  course_follow (fixture);
  early = sw_course_follow_findings (&fixture->c, INJECTED + rows[_i].earliest - 1);
  finding = find_finding (early, SW_FINDING_SECOND_TOO_EARLY, NULL);
  ck_assert_ptr_nonnull (finding);
  ck_assert_int_eq ((SwDay) sw_finding_arg (finding, "limit")->num, INJECTED + rows[_i].earliest);
  check_sentences (early);
  in_time = sw_course_follow_findings (&fixture->c, INJECTED + rows[_i].earliest);
  ck_assert_uint_eq (in_time->len, 0);
}
END_TEST

START_TEST (test_second_needs_score)
{
  g_autoptr (Fixture) fixture = injected ();
  gint64 first = fixture->c.course;
  g_autoptr (GPtrArray) unscored = NULL, unknown = NULL, complete = NULL, back = NULL;
  SwRecurrence *recurrence = sw_new (SW_FACT_RECURRENCE, SwRecurrence);

  course_follow (fixture);
  unscored = sw_course_follow_findings (&fixture->c, INJECTED + 60);
  ck_assert_ptr_nonnull (find_finding (unscored, SW_FINDING_NOT_SCORED, NULL));
  course_score (fixture, INJECTED + 28, SW_CATEGORY_NOT_EVALUABLE)->course = first;
  unknown = sw_course_follow_findings (&fixture->c, INJECTED + 60);
  ck_assert_ptr_nonnull (find_finding (unknown, SW_FINDING_NOT_SCORED, NULL));
  course_score (fixture, INJECTED + 35, SW_CATEGORY_COMPLETE)->course = first;
  complete = sw_course_follow_findings (&fixture->c, INJECTED + 60);
  ck_assert_ptr_nonnull (find_finding (complete, SW_FINDING_COMPLETE_RESPONSE, NULL));
  check_sentences (complete);
  recurrence->course = first;
  recurrence->tumour = fixture->tumour;
  recurrence->day = INJECTED + 50;
  fixture_put (fixture, recurrence);
  back = sw_course_follow_findings (&fixture->c, INJECTED + 60);
  ck_assert_uint_eq (back->len, 0);
}
END_TEST

/* A third injection into one tumour needs a reason; gate A says so until it stands. */
START_TEST (test_third_injection)
{
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GPtrArray) second = NULL, third = NULL, open = NULL;
  const SwFinding *finding;

  course_score (fixture, INJECTED + 28, SW_CATEGORY_STABLE);
  course_follow (fixture);
  second = sw_course_follow_findings (&fixture->c, INJECTED + 30);
  ck_assert_uint_eq (second->len, 0);
  course_at (fixture, INJECTED + 30, 600);
  course_release (fixture);
  course_inject (fixture);
  course_score (fixture, INJECTED + 58, SW_CATEGORY_STABLE);
  course_follow (fixture);
  third = sw_course_follow_findings (&fixture->c, INJECTED + 60);
  finding = find_finding (third, SW_FINDING_THIRD_INJECTION, NULL);
  ck_assert_ptr_nonnull (finding);
  ck_assert_int_eq (finding->severity, SW_VET_DECIDES);
  check_sentences (third);
  course_reason (fixture, finding);
  open = sw_findings_open (&fixture->c, third);
  ck_assert_uint_eq (open->len, 0);
}
END_TEST

/* Once the course that follows is injected, the first one's visits are held there. */
START_TEST (test_followed_course_rests)
{
  g_autoptr (Fixture) fixture = injected ();
  gint64 first = fixture->c.course;

  course_score (fixture, INJECTED + 28, SW_CATEGORY_PARTIAL);
  course_follow (fixture);
  course_at (fixture, INJECTED + 40, 600);
  course_release (fixture);
  course_inject (fixture);
  fixture->c.course = first;
  ck_assert_int_eq (standing (fixture, 56), SW_VISIT_PASSED);
}
END_TEST

static GPtrArray *
ask_end (Fixture *fixture, SwEnd how, gint64 cause)
{
  SwCourseEnd *end = sw_new (SW_FACT_COURSE_END, SwCourseEnd);
  GPtrArray *findings;

  end->course = fixture->c.course;
  end->end = how;
  end->cause = cause;
  findings = sw_course_end_findings (&fixture->c, end);
  check_sentences (findings);
  sw_fact_free (end);
  return findings;
}

static void
try_to_reach (Fixture *fixture, SwDay day, gboolean reached)
{
  SwContact *contact = sw_new (SW_FACT_CONTACT, SwContact);

  contact->course = fixture->c.course;
  contact->day = day;
  contact->reached = reached;
  fixture_put (fixture, contact);
}

/* Lost: 30 days overdue and two attempts. The contact at hour 8 and the doses were never told, so day 0 is what is
 * overdue. */
START_TEST (test_lost)
{
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GPtrArray) early = NULL, once = NULL, reached = NULL, lost = NULL;

  course_visit (fixture, INJECTED + 14);
  course_at (fixture, INJECTED + 28 + 29, 600);
  try_to_reach (fixture, INJECTED + 40, FALSE);
  try_to_reach (fixture, INJECTED + 50, FALSE);
  early = ask_end (fixture, SW_END_LOST, SW_UNKNOWN);
  ck_assert_ptr_nonnull (find_finding (early, SW_FINDING_NOT_LOST_YET, NULL));
  course_at (fixture, INJECTED + 28 + 30, 600);
  lost = ask_end (fixture, SW_END_LOST, SW_UNKNOWN);
  ck_assert_uint_eq (lost->len, 0);
}
END_TEST

START_TEST (test_lost_needs_two_attempts)
{
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GPtrArray) once = NULL, reached = NULL;

  course_visit (fixture, INJECTED + 14);
  course_at (fixture, INJECTED + 100, 600);
  try_to_reach (fixture, INJECTED + 20, FALSE); /* before anything was overdue */
  try_to_reach (fixture, INJECTED + 40, FALSE);
  once = ask_end (fixture, SW_END_LOST, SW_UNKNOWN);
  ck_assert_ptr_nonnull (find_finding (once, SW_FINDING_NOT_LOST_YET, NULL));
  try_to_reach (fixture, INJECTED + 50, TRUE);
  reached = ask_end (fixture, SW_END_LOST, SW_UNKNOWN);
  ck_assert_ptr_nonnull (find_finding (reached, SW_FINDING_NOT_LOST_YET, NULL));
}
END_TEST

START_TEST (test_ends)
{
  g_autoptr (Fixture) fixture = injected ();
  g_autoptr (GPtrArray) unscored = NULL, scored = NULL, no_cause = NULL, cause = NULL, withdrawn = NULL, over = NULL;
  SwCourseEnd *end = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  unscored = ask_end (fixture, SW_END_COMPLETED, SW_UNKNOWN);
  ck_assert_ptr_nonnull (find_finding (unscored, SW_FINDING_COMPLETED_UNSCORED, NULL));
  course_score (fixture, INJECTED + 28, SW_CATEGORY_COMPLETE);
  scored = ask_end (fixture, SW_END_COMPLETED, SW_UNKNOWN);
  ck_assert_uint_eq (scored->len, 0);
  no_cause = ask_end (fixture, SW_END_EUTHANISED, SW_UNKNOWN);
  ck_assert_ptr_nonnull (find_finding (no_cause, SW_FINDING_DEATH_CAUSE, NULL));
  cause = ask_end (fixture, SW_END_DIED, SW_DEATH_UNKNOWN);
  ck_assert_uint_eq (cause->len, 0);
  withdrawn = ask_end (fixture, SW_END_WITHDRAWN, SW_UNKNOWN);
  ck_assert_uint_eq (withdrawn->len, 0);
  end->course = fixture->c.course;
  fixture_put (fixture, end);
  over = ask_end (fixture, SW_END_STOPPED, SW_UNKNOWN);
  ck_assert_ptr_nonnull (find_finding (over, SW_FINDING_COURSE_OVER, NULL));
}
END_TEST

/* The foot line from the first day to the last. */
START_TEST (test_foot_line)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwDosePlan *dose;

  course_at (fixture, TODAY, 7 * 60);
  check_foot (fixture, "The client's consent to this course is not recorded. Record the consent.");
  course_consent (fixture);
  check_foot (fixture, "Nothing blocks the next step: a vet can sign the medicine plan.");
  course_sign (fixture, TREAT, NULL);
  check_foot (fixture, "Nothing blocks the next step: the lead-in runs, and day 0 is 2026-05-12.");
  course_at (fixture, TREAT - 1, 7 * 60);
  check_foot (fixture, "What became of prednisolone of 2026-05-10 08:00 is not known.");
  course_tell_all (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT - 2, 1);
  course_tell (fixture, dose, SW_DOSE_MISSED, SW_UNKNOWN, SW_UNKNOWN);
  check_foot (fixture, "Prednisolone of 2026-05-10 20:00 is missed. Replace it, or move the day.");
  course_tell (fixture, dose, SW_DOSE_GIVEN, dose->due_day, dose->due_minute);
  course_at (fixture, TREAT, 8 * 60);
  course_tell_all (fixture);
  check_foot (fixture, "Diphenhydramine was given at 08:00, less than 60 minutes ago. The injection may follow from "
                       "09:00 on.");
  course_treatment_day (fixture);
  check_foot (fixture, "Nothing blocks the next step: a vet can release the dose.");
  course_release (fixture);
  check_foot (fixture, "Nothing blocks the next step: draw, read aloud and record the injection.");
  course_inject (fixture);
  check_foot (fixture, "The dog is observed until 11:30 at least.");
  course_discharge (fixture);
  check_foot (fixture, "Nothing blocks the next step: what comes next is due on 2026-05-12.");
  course_at (fixture, INJECTED + 4, 600);
  course_visit (fixture, INJECTED + 4);
  course_tell_all (fixture);
  check_foot (fixture, "Nothing blocks the next step: what comes next is due on 2026-05-16.");
  course_at (fixture, INJECTED + 30, 600);
  check_foot (fixture, "The response of tumour A is not scored; day 28 counts until 2026-06-16.");
  course_score (fixture, INJECTED + 30, SW_CATEGORY_COMPLETE);
  course_visit (fixture, INJECTED + 30);
  check_foot (fixture, "Nothing blocks the next step: what comes next is due on 2026-07-07.");
}
END_TEST

/* A dose past a limit blocks the treatment day although the gate stands open: 8.3 kg take 1.245 mL at 0.15 mL/kg. */
START_TEST (test_foot_line_of_refusal)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwReading *reading;

  ((SwWeight *) sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT))->grams = 8300;
  for (guint i = 0; (reading = sw_facts_next (&fixture->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    reading->axis3 = 1500;
  course_lead_in (fixture);
  course_treatment_day (fixture);
  ((SwWeight *) sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT))->grams = 8300;
  for (guint i = 0; (reading = sw_facts_next (&fixture->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    reading->axis3 = 1500;
  check_foot (fixture, "The treatment comes to 1.415 mL; this protocol allows a dog of 8.3 kg at most 1.245 mL");
  course_withdraw_all (fixture, SW_FACT_READ_ALOUD);
  check_foot (fixture, "The treatment comes to 1.415 mL;"); /* nobody read aloud: that hides no refusal */
}
END_TEST

START_TEST (test_foot_line_without_course)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");

  fixture->c.course = 0;
  ck_assert_int_eq (sw_course_stage (&fixture->c), SW_STAGE_WORK_UP);
  check_foot (fixture, "No course is open. Open one with an adopted protocol.");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("course");
  TCase *tests = tcase_create ("course");
  SRunner *runner;

  tcase_set_timeout (tests, 60);
  tcase_add_test (tests, test_stages);
  tcase_add_test (tests, test_visit_days);
  tcase_add_test (tests, test_visit_standing);
  tcase_add_test (tests, test_watch);
  tcase_add_test (tests, test_next_due);
  tcase_add_loop_test (tests, test_second_injection, 0, 4);
  tcase_add_test (tests, test_second_needs_score);
  tcase_add_test (tests, test_third_injection);
  tcase_add_test (tests, test_followed_course_rests);
  tcase_add_test (tests, test_lost);
  tcase_add_test (tests, test_lost_needs_two_attempts);
  tcase_add_test (tests, test_ends);
  tcase_add_test (tests, test_foot_line);
  tcase_add_test (tests, test_foot_line_of_refusal);
  tcase_add_test (tests, test_foot_line_without_course);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
