/* test-move.c: moving the day, other weights and choices, replacements, cancelling
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-move.h"

#include "course-fixture.h"
#include "sw-dose-state.h"
#include "sw-gate.h"
#include "sw-lead-in.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static SwReplan *
move (Fixture *fixture, SwDay day, SwMoveWay way, const char *orders)
{
  SwMoveOrder order = { day, way, "the client can't come", orders };

  return sw_move_preview (&fixture->c, &order);
}

/* Refused for this, with words, and without a fact to write. */
static void
check_refused (SwReplan *replan, SwFindingCode code)
{
  check_sentences (replan->findings);
  ck_assert_msg (find_finding (replan->findings, code, NULL) != NULL, "%s", sw_finding_code (code));
  ck_assert_uint_eq (replan->facts->len, 0);
}

static void
check_done (SwReplan *replan)
{
  g_autofree char *codes = sw_findings_codes (replan->findings, SW_VET_DECIDES);

  ck_assert_msg (replan->facts->len > 0, "%s", codes);
  ck_assert_uint_gt (replan->changes->len, 0);
}

static guint
count_group (Fixture *fixture, const char *group, SwDay from, SwDay to)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);
  guint n = 0;

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      n += g_str_equal (dose->group, group) && from <= dose->due_day && dose->due_day <= to;
    }
  return n;
}

/* No two doses of a group at one time, none closer than the plan's hours, and gate B's slots all there. */
static void
check_plan_whole (Fixture *fixture, SwDay treat_day)
{
  g_autoptr (GArray) slots = sw_lead_in_slots (&fixture->c, treat_day);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);

  ck_assert_uint_eq (slots->len, 5);
  for (guint i = 0; i < slots->len; i++)
    ck_assert_ptr_nonnull (g_array_index (slots, SwLeadInSlot, i).dose);
  for (guint i = 0; i < doses->len; i++)
    for (guint k = i + 1; k < doses->len; k++)
      {
        const SwDosePlan *a = doses->pdata[i], *b = doses->pdata[k];

        ck_assert (!g_str_equal (a->group, b->group) || a->due_day != b->due_day || a->due_minute != b->due_minute);
      }
  ck_assert_uint_eq (count_group (fixture, "h1", treat_day, treat_day + 7), 16);
  ck_assert_uint_eq (count_group (fixture, "h2", treat_day, treat_day + 7), 16);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", treat_day - 2, treat_day + 7), 4 + 10 + 3);
}

/* Before anything began, the plan shifts whole. */
START_TEST (test_move_before_lead_in)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL;

  course_lead_in (fixture);
  replan = move (fixture, TREAT + 10, SW_MOVE_UNDECIDED, NULL);
  check_done (replan);
  ck_assert (!replan->vet_only);
  course_write (fixture, replan->facts);
  ck_assert_int_eq (sw_case_plan (&fixture->c)->treat_day, TREAT + 10);
  ck_assert_int_eq (sw_case_plan (&fixture->c)->moved_from, TREAT);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", TODAY, TREAT + 7), 0);
  check_plan_whole (fixture, TREAT + 10);
}
END_TEST

/* Begun, a day later: what is due stays, the corticosteroid goes on every twelve hours, and gate B still passes on
 * the new day. */
START_TEST (test_move_goes_on)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL;
  g_autoptr (GPtrArray) findings = NULL;
  gint64 delay = _i + 1;
  const SwDosePlan *first;

  course_lead_in (fixture);
  first = course_dose (fixture, "corticosteroid", TODAY, 0);
  course_at (fixture, TREAT - 1, 9 * 60);
  course_tell_all (fixture);
  replan = move (fixture, TREAT + delay, SW_MOVE_UNDECIDED, NULL);
  check_done (replan);
  ck_assert (!replan->vet_only);
  course_write (fixture, replan->facts);
  ck_assert (sw_fact_is_current (first));
  for (SwDay day = TODAY; day < TREAT + delay; day++)
    ck_assert_uint_eq (count_group (fixture, "corticosteroid", day, day), 2);
  ck_assert_uint_eq (count_group (fixture, "h1", TODAY, TREAT + delay - 1), 0);
  check_plan_whole (fixture, TREAT + delay);
  course_treatment_day (fixture);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert (sw_gate_passes (&fixture->c, findings));
}
END_TEST

/* Over the last Sundays of March and October, 29 February and the turn of the year: the same hours, no dose lost or
 * doubled, and the gate stands open on the new day. */
START_TEST (test_move_over_the_calendar)
{
  static const struct { int year, month, day; } zeros[] = {
    { 2026, 3, 29 }, { 2026, 10, 25 }, { 2028, 2, 29 }, { 2027, 1, 1 },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwDay zero = sw_day_from_ymd (zeros[_i].year, zeros[_i].month, zeros[_i].day);
  g_autoptr (SwReplan) replan = NULL;
  g_autoptr (GPtrArray) doses = NULL;

  g_time_zone_unref (fixture->zone);
  fixture->c.zone = fixture->zone = g_time_zone_new_identifier ("Europe/Berlin");
  course_at (fixture, zero - 2, 7 * 60);
  course_sign (fixture, zero, NULL);
  course_at (fixture, zero - 1, 20 * 60);
  course_tell_all (fixture);
  replan = move (fixture, zero + 1, SW_MOVE_UNDECIDED, NULL);
  check_done (replan);
  course_write (fixture, replan->facts);
  check_plan_whole (fixture, zero + 1);
  course_at (fixture, zero + 1, 9 * 60);
  course_tell_all (fixture);
  doses = sw_dossier_doses (fixture->dossier, fixture->c.course);
  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      ck_assert (dose->due_minute == 480 || dose->due_minute == 1200);
      ck_assert (dose->due_day > zero || sw_dose_state (&fixture->c, dose) == SW_STANDING_GIVEN);
    }
  ck_assert_int_eq (sw_move_first_day (&fixture->c, NULL), zero + 1);
}
END_TEST

/* H1 and H2 that have begun on the morning of day 0 go on. */
START_TEST (test_move_on_day_zero)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL;

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  course_tell_all (fixture);
  replan = move (fixture, TREAT + 2, SW_MOVE_UNDECIDED, NULL);
  check_done (replan);
  course_write (fixture, replan->facts);
  for (SwDay day = TREAT; day < TREAT + 2; day++)
    {
      ck_assert_uint_eq (count_group (fixture, "h1", day, day), 2);
      ck_assert_uint_eq (count_group (fixture, "h2", day, day), 2);
    }
  check_plan_whole (fixture, TREAT + 2);
}
END_TEST

/* Over 3 days a vet chooses; stopped and begun anew there is a gap, and no dose in it. */
START_TEST (test_move_long_delay)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) three = NULL, four = NULL, on = NULL, anew = NULL;

  course_lead_in (fixture);
  course_at (fixture, TREAT - 1, 9 * 60);
  course_tell_all (fixture);
  three = move (fixture, TREAT + 3, SW_MOVE_UNDECIDED, NULL);
  check_done (three);
  four = move (fixture, TREAT + 4, SW_MOVE_UNDECIDED, NULL);
  check_refused (four, SW_FINDING_LONG_DELAY);
  ck_assert (four->vet_only);
  on = move (fixture, TREAT + 4, SW_MOVE_GO_ON, NULL);
  check_done (on);
  ck_assert (on->vet_only);
  ck_assert_int_eq (on->cause, SW_PLAN_MOVED);
  anew = move (fixture, TREAT + 6, SW_MOVE_ANEW, NULL);
  check_done (anew);
  ck_assert_int_eq (anew->cause, SW_PLAN_LED_IN_ANEW);
  course_write (fixture, anew->facts);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", TREAT, TREAT + 3), 0);
  check_plan_whole (fixture, TREAT + 6);
}
END_TEST

/* Day -2 to +7 are ten days; four days more make fourteen, five need the vet's taper. */
START_TEST (test_move_taper)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) fourteen = NULL, fifteen = NULL, tapered = NULL, anew = NULL;

  course_lead_in (fixture);
  course_at (fixture, TREAT - 1, 9 * 60);
  course_tell_all (fixture);
  fourteen = move (fixture, TREAT + 4, SW_MOVE_GO_ON, NULL);
  check_done (fourteen);
  fifteen = move (fixture, TREAT + 5, SW_MOVE_GO_ON, NULL);
  check_refused (fifteen, SW_FINDING_TAPER_NEEDED);
  tapered = move (fixture, TREAT + 5, SW_MOVE_GO_ON, "5 mg every second day for a week");
  check_done (tapered);
  ck_assert_str_eq (((SwPlan *) tapered->facts->pdata[0])->vet_orders, "5 mg every second day for a week");
  anew = move (fixture, TREAT + 5, SW_MOVE_ANEW, NULL);
  check_done (anew);
}
END_TEST

/* The day of the last unreplaced miss + 3. */
START_TEST (test_first_day_after_miss)
{
  static const struct { gint64 day; guint nth; gint64 first; } misses[] = {
    { -2, 0, 1 }, { -2, 1, 1 }, { -1, 0, 2 }, { -1, 1, 2 }, { 0, 0, 3 },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) nearer = NULL;
  g_autoptr (SwReplan) early = NULL, first = NULL;
  SwDay wanted = TREAT + misses[_i].first;

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  course_tell (fixture, course_dose (fixture, "corticosteroid", TREAT + misses[_i].day, misses[_i].nth), SW_DOSE_MISSED,
               SW_UNKNOWN, SW_UNKNOWN);
  course_tell_all (fixture);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, &nearer), wanted);
  ck_assert_uint_eq (nearer->len, (guint) misses[_i].first);
  check_sentences (nearer);
  for (guint i = 0; i < nearer->len; i++)
    ck_assert_int_eq (((SwFinding *) nearer->pdata[i])->code, SW_FINDING_COUNT_CANNOT_HOLD);
  if (wanted > TREAT + 1)
    {
      early = move (fixture, wanted - 1, SW_MOVE_UNDECIDED, NULL);
      check_refused (early, SW_FINDING_COUNT_CANNOT_HOLD);
    }
  first = move (fixture, wanted, SW_MOVE_UNDECIDED, NULL);
  check_done (first);
}
END_TEST

/* Two lost doses are too many even when both were replaced; the day moves until one of them is out of the count. */
START_TEST (test_first_day_after_two)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) nearer = NULL;

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  for (gint64 day = -2; day <= -1; day++)
    {
      const SwDosePlan *dose = course_dose (fixture, "corticosteroid", TREAT + day, 0);
      SwDosePlan *instead = sw_fact_copy (dose);
      g_autoptr (GPtrArray) facts = g_ptr_array_new_with_free_func (sw_fact_free);

      course_tell (fixture, dose, SW_DOSE_MISSED, SW_UNKNOWN, SW_UNKNOWN);
      instead->fact = (SwFact){ .kind = SW_FACT_DOSE_PLAN };
      instead->dose = -1;
      instead->instead_of = dose->dose;
      instead->due_minute = 900;
      g_ptr_array_add (facts, sw_fact_new (SW_FACT_DOSE));
      g_ptr_array_add (facts, instead);
      course_write (fixture, facts);
    }
  course_tell_all (fixture);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, &nearer), TREAT + 1);
  ck_assert_uint_eq (nearer->len, 1);
  ck_assert_int_eq (((SwFinding *) nearer->pdata[0])->code, SW_FINDING_TWO_DOSES_LOST);
  check_sentences (nearer);
}
END_TEST

/* Nothing missed: today itself can hold. A dose that is only not known may still turn out given. */
START_TEST (test_first_day_clean)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, NULL), TREAT);
  course_tell_all (fixture);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, NULL), TREAT);
}
END_TEST

/* Without a plan: until 14:00 the lead-in can begin today. */
START_TEST (test_first_day_without_plan)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) nearer = NULL;

  course_at (fixture, TODAY, 14 * 60);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, &nearer), TODAY + 2);
  ck_assert_uint_eq (nearer->len, 2);
  ck_assert_int_eq (((SwFinding *) nearer->pdata[0])->code, SW_FINDING_LEAD_IN_TOO_LATE);
  check_sentences (nearer);
  course_at (fixture, TODAY, 14 * 60 + 1);
  ck_assert_int_eq (sw_move_first_day (&fixture->c, NULL), TODAY + 3);
}
END_TEST

/* Earlier only if the count still holds. */
START_TEST (test_move_earlier)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) later = NULL, back = NULL, earlier = NULL;

  course_lead_in (fixture);
  course_at (fixture, TREAT - 1, 9 * 60);
  course_tell_all (fixture);
  later = move (fixture, TREAT + 2, SW_MOVE_UNDECIDED, NULL);
  course_write (fixture, later->facts);
  earlier = move (fixture, TREAT - 1, SW_MOVE_UNDECIDED, NULL);
  check_refused (earlier, SW_FINDING_COUNT_CANNOT_HOLD);
  back = move (fixture, TREAT, SW_MOVE_UNDECIDED, NULL);
  check_done (back);
  course_write (fixture, back->facts);
  check_plan_whole (fixture, TREAT);
}
END_TEST

START_TEST (test_move_refused)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) none = NULL, same = NULL, released = NULL, injected = NULL;

  none = move (fixture, TREAT + 1, SW_MOVE_UNDECIDED, NULL);
  check_refused (none, SW_FINDING_NO_PLAN);
  course_lead_in (fixture);
  same = move (fixture, TREAT, SW_MOVE_UNDECIDED, NULL);
  check_refused (same, SW_FINDING_SAME_DAY);
  course_treatment_day (fixture);
  course_release (fixture);
  released = move (fixture, TREAT + 1, SW_MOVE_UNDECIDED, NULL);
  check_refused (released, SW_FINDING_ALREADY_RELEASED);
  course_inject (fixture);
  injected = move (fixture, TREAT + 1, SW_MOVE_UNDECIDED, NULL);
  check_refused (injected, SW_FINDING_ALREADY_INJECTED);
}
END_TEST

/* A release ends with its day: on the next one the day can be moved. */
START_TEST (test_move_after_release_ended)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL;

  course_lead_in (fixture);
  course_treatment_day (fixture);
  course_release (fixture);
  course_at (fixture, TREAT + 1, 9 * 60);
  course_tell_all (fixture);
  replan = move (fixture, TREAT + 1, SW_MOVE_UNDECIDED, NULL);
  check_done (replan);
  course_write (fixture, replan->facts);
  check_plan_whole (fixture, TREAT + 1);
}
END_TEST

/* One missed dose is replaced, and the injection waits two hours; then the gate passes. */
START_TEST (test_replacement)
{
  static const SwDoseState lost[] = { SW_DOSE_MISSED, SW_DOSE_VOMITED };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL, twice = NULL;
  g_autoptr (GPtrArray) before = NULL, early = NULL, late = NULL;
  const SwDosePlan *dose, *instead;

  course_lead_in (fixture);
  course_treatment_day (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT - 1, 1);
  course_tell (fixture, dose, lost[_i], SW_UNKNOWN, SW_UNKNOWN);
  before = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert_ptr_nonnull (find_finding (before, SW_FINDING_DOSE_LOST, NULL));
  replan = sw_replace_dose (&fixture->c, dose->dose, (SwMoment){ TREAT, 600 });
  check_done (replan);
  ck_assert (replan->vet_only);
  course_write (fixture, replan->facts);
  instead = sw_dose_replacement (&fixture->c, dose->dose);
  ck_assert_ptr_nonnull (instead);
  twice = sw_replace_dose (&fixture->c, dose->dose, (SwMoment){ TREAT, 600 });
  check_refused (twice, SW_FINDING_ALREADY_REPLACED);
  course_tell (fixture, instead, SW_DOSE_GIVEN, TREAT, 600);
  course_at (fixture, TREAT, 600 + 119);
  early = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert_ptr_nonnull (find_finding (early, SW_FINDING_REPLACEMENT_RECENT, NULL));
  check_sentences (early);
  course_at (fixture, TREAT, 600 + 120);
  late = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  ck_assert (sw_gate_passes (&fixture->c, late));
}
END_TEST

/* A replacement that is lost too is the second one. */
START_TEST (test_two_lost)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) first = NULL, second = NULL;
  g_autoptr (GPtrArray) findings = NULL;
  const SwFinding *two;
  const SwDosePlan *dose;

  course_lead_in (fixture);
  course_treatment_day (fixture);
  dose = course_dose (fixture, "corticosteroid", TREAT - 1, 0);
  course_tell (fixture, dose, SW_DOSE_MISSED, SW_UNKNOWN, SW_UNKNOWN);
  first = sw_replace_dose (&fixture->c, dose->dose, (SwMoment){ TREAT - 1, 900 });
  course_write (fixture, first->facts);
  if (_i == 0)
    course_tell (fixture, sw_dose_replacement (&fixture->c, dose->dose), SW_DOSE_VOMITED, SW_UNKNOWN, SW_UNKNOWN);
  else
    {
      course_tell (fixture, sw_dose_replacement (&fixture->c, dose->dose), SW_DOSE_GIVEN, TREAT - 1, 900);
      dose = course_dose (fixture, "corticosteroid", TREAT - 2, 1);
      course_tell (fixture, dose, SW_DOSE_MISSED, SW_UNKNOWN, SW_UNKNOWN);
    }
  second = sw_replace_dose (&fixture->c, _i == 0 ? sw_dose_replacement (&fixture->c, dose->dose)->dose : dose->dose,
                            (SwMoment){ TREAT, 600 });
  check_refused (second, SW_FINDING_TWO_DOSES_LOST);
  findings = sw_gate_b (&fixture->c, SW_GATE_AT_RELEASE);
  two = find_finding (findings, SW_FINDING_TWO_DOSES_LOST, NULL);
  ck_assert_ptr_nonnull (two);
  check_sentences (findings);
}
END_TEST

START_TEST (test_replacement_of_given)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL;

  course_lead_in (fixture);
  course_treatment_day (fixture);
  replan = sw_replace_dose (&fixture->c, course_dose (fixture, "corticosteroid", TREAT, 0)->dose,
                            (SwMoment){ TREAT, 600 });
  check_refused (replan, SW_FINDING_DOSE_NOT_LOST);
}
END_TEST

/* 27.8 kg: 12.5 mg of prednisolone leaves 0.45 mg/kg and is made up anew; 50 mg of diphenhydramine leaves 2 mg/kg
 * too. */
START_TEST (test_reweigh)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL, same = NULL;
  const SwDosePlan *past, *next;

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  course_tell_all (fixture);
  same = sw_replan_weight (&fixture->c, course_weigh (fixture, TREAT, 24800));
  check_done (same);
  ck_assert_uint_eq (same->facts->len, 1);
  replan = sw_replan_weight (&fixture->c, course_weigh (fixture, TREAT, 27800));
  check_done (replan);
  course_write (fixture, replan->facts);
  ck_assert_int_eq (sw_case_plan (&fixture->c)->cause, SW_PLAN_REWEIGHED);
  past = course_dose (fixture, "corticosteroid", TREAT, 0);
  next = course_dose (fixture, "corticosteroid", TREAT, 1);
  ck_assert_int_eq (past->dose_ug, 12500);
  ck_assert_int_gt (next->dose_ug, 12510);
  ck_assert (sw_dose_in_range (&fixture->c, next, 27800));
  check_plan_whole (fixture, TREAT);
}
END_TEST

START_TEST (test_other_choice)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) replan = NULL, none = NULL;

  course_lead_in (fixture);
  course_at (fixture, TREAT, 9 * 60);
  course_tell_all (fixture);
  none = sw_replan_choices (&fixture->c, "h1=morphine", "none left");
  check_refused (none, SW_FINDING_NOT_LISTED);
  replan = sw_replan_choices (&fixture->c, "h1=chlorphenamine", "none left");
  check_done (replan);
  course_write (fixture, replan->facts);
  ck_assert_str_eq (course_dose (fixture, "h1", TREAT, 0)->substance, "diphenhydramine");
  ck_assert_str_eq (course_dose (fixture, "h1", TREAT, 1)->substance, "chlorphenamine");
  ck_assert_str_eq (course_dose (fixture, "h2", TREAT, 1)->substance, "famotidine");
  check_plan_whole (fixture, TREAT);
}
END_TEST

static SwCourseEnd *
end_of (Fixture *fixture, SwEnd how, const char *orders)
{
  SwCourseEnd *end = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  end->course = fixture->c.course;
  end->end = how;
  end->day = fixture->c.now.day;
  end->vet_orders = g_strdup (orders);
  return end;
}

/* Cancelled after the lead-in began: taper or stop is written, and no dose stays planned. Before it, nothing is
 * needed. */
START_TEST (test_cancel)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) before = NULL, silent = NULL, ordered = NULL, died = NULL, again = NULL;

  course_lead_in (fixture);
  before = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_WITHDRAWN, NULL));
  check_done (before);
  ck_assert_uint_eq (before->facts->len, 50);
  course_at (fixture, TREAT - 1, 9 * 60);
  course_tell_all (fixture);
  silent = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_WITHDRAWN, NULL));
  check_refused (silent, SW_FINDING_ORDERS_NEEDED);
  died = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_DIED, NULL));
  check_done (died);
  ordered = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_WITHDRAWN, "stop, three doses only"));
  check_done (ordered);
  ck_assert_ptr_nonnull (find_finding (ordered->findings, SW_FINDING_NSAID_WASHOUT, NULL));
  course_write (fixture, ordered->facts);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", TREAT, TREAT + 7), 0);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", TODAY, TREAT), 3);
  again = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_STOPPED, NULL));
  check_refused (again, SW_FINDING_COURSE_OVER);
}
END_TEST

/* After the injection medicines go on, whatever ends the course, unless the dog is dead. */
START_TEST (test_end_after_injection)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwReplan) transferred = NULL, died = NULL;

  course_lead_in (fixture);
  course_treatment_day (fixture);
  course_release (fixture);
  course_inject (fixture);
  transferred = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_TRANSFERRED, NULL));
  ck_assert_uint_eq (transferred->facts->len, 1);
  died = sw_cancel_course (&fixture->c, end_of (fixture, SW_END_DIED, NULL));
  course_write (fixture, died->facts);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", TREAT + 1, TREAT + 7), 0);
  ck_assert_uint_eq (count_group (fixture, "corticosteroid", TODAY, TREAT), 5);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("move");
  TCase *tests = tcase_create ("move");
  SRunner *runner;

  tcase_set_timeout (tests, 60);
  tcase_add_test (tests, test_move_before_lead_in);
  tcase_add_loop_test (tests, test_move_goes_on, 0, 3);
  tcase_add_loop_test (tests, test_move_over_the_calendar, 0, 4);
  tcase_add_test (tests, test_move_on_day_zero);
  tcase_add_test (tests, test_move_long_delay);
  tcase_add_test (tests, test_move_taper);
  tcase_add_loop_test (tests, test_first_day_after_miss, 0, 5);
  tcase_add_test (tests, test_first_day_after_two);
  tcase_add_test (tests, test_first_day_clean);
  tcase_add_test (tests, test_first_day_without_plan);
  tcase_add_test (tests, test_move_earlier);
  tcase_add_test (tests, test_move_refused);
  tcase_add_test (tests, test_move_after_release_ended);
  tcase_add_loop_test (tests, test_replacement, 0, 2);
  tcase_add_loop_test (tests, test_two_lost, 0, 2);
  tcase_add_test (tests, test_replacement_of_given);
  tcase_add_test (tests, test_reweigh);
  tcase_add_test (tests, test_other_choice);
  tcase_add_test (tests, test_cancel);
  tcase_add_test (tests, test_end_after_injection);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
