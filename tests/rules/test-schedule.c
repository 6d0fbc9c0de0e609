/* test-schedule.c: the medicine plan in day numbers, its tablets, and what is dispensed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-schedule.h"

#include "course-fixture.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static SwSchedule *
schedule (Fixture *fixture, SwDay treat_day, gint64 grams, const char *choices)
{
  SwScheduleOrder order = sw_schedule_order (&fixture->c, treat_day, grams, choices);

  return sw_schedule_new (&order);
}

static GPtrArray *
doses_of (const SwSchedule *plan, const char *group)
{
  GPtrArray *doses = g_ptr_array_new ();

  for (guint i = 0; i < plan->doses->len; i++)
    if (g_str_equal (((SwDosePlan *) plan->doses->pdata[i])->group, group))
      g_ptr_array_add (doses, plan->doses->pdata[i]);
  return doses;
}

static void
check_dose (const SwDosePlan *dose, gint64 day_number, const char *due)
{
  g_autofree char *text = sw_moment_format ((SwMoment){ dose->due_day, (int) dose->due_minute });

  ck_assert_int_eq (dose->day_number, day_number);
  ck_assert_str_eq (text, due);
}

/* check-values/medicines.csv, computed: counts in one course of domain 3.1, two doses a day: corticosteroid 14 + 3 =
 * 17, H1 16, H2 16; last twice-daily corticosteroid dose day +4 20:00, first once-daily day +5 08:00, last day +7
 * 08:00. */
START_TEST (test_counts)
{
  g_autoptr (Fixture) fixture = fixture_new (_i == 0 ? "tigilanol-eu" : "tigilanol-us");
  g_autoptr (SwSchedule) plan = schedule (fixture, TREAT, 24600, NULL);
  g_autoptr (GPtrArray) cortico = doses_of (plan, "corticosteroid");
  g_autoptr (GPtrArray) h1 = doses_of (plan, "h1");
  g_autoptr (GPtrArray) h2 = doses_of (plan, "h2");

  ck_assert_uint_eq (cortico->len, 17);
  ck_assert_uint_eq (h1->len, 16);
  ck_assert_uint_eq (h2->len, 16);
  ck_assert_uint_eq (plan->doses->len, 17 + 16 + 16);
  check_dose (cortico->pdata[0], -2, "2026-05-10T08:00");
  check_dose (cortico->pdata[13], 4, "2026-05-16T20:00");
  check_dose (cortico->pdata[14], 5, "2026-05-17T08:00");
  check_dose (cortico->pdata[16], 7, "2026-05-19T08:00");
  check_dose (h1->pdata[0], 0, "2026-05-12T08:00");
  check_dose (h1->pdata[15], 7, "2026-05-19T20:00");
  check_dose (h2->pdata[15], 7, "2026-05-19T20:00");
  ck_assert_str_eq (plan->choices, "corticosteroid=prednisolone;h1=diphenhydramine;h2=famotidine");
}
END_TEST

/* Screens, "Lead-in": 24.6 kg, 0.5 mg/kg is 12.3 mg: 1/2 x 25 mg = 12.5 mg (+1.6 %). */
START_TEST (test_tablets)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = schedule (fixture, TREAT, 24600, NULL);
  const SwScheduleLine *line = plan->lines->pdata[0];

  ck_assert_str_eq (line->substance, "prednisolone");
  ck_assert_int_eq (line->target_ug, 12300);
  ck_assert_int_eq (line->dose_ug, 12500);
  ck_assert_int_eq (line->strength_ug, 25000);
  ck_assert_int_eq (line->halves, 1);
  ck_assert_int_eq (line->volume_nl, SW_UNKNOWN);
  ck_assert_int_eq (line->deviation_milli, 16);
  ck_assert_uint_eq (line->count, 14);
  ck_assert_int_eq (line->every_minutes, 720);
  ck_assert_int_eq (((SwScheduleLine *) plan->lines->pdata[1])->every_minutes, 1440);
}
END_TEST

/* The substitutes have their own first days: omeprazole from day -2 (domain 3.1). */
START_TEST (test_choices)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = schedule (fixture, TREAT, 20000, "h2=omeprazole;h1=chlorphenamine");
  g_autoptr (GPtrArray) h2 = doses_of (plan, "h2");
  g_autoptr (GPtrArray) h1 = doses_of (plan, "h1");

  ck_assert_uint_eq (h2->len, 20);
  ck_assert_uint_eq (h1->len, 16);
  check_dose (h2->pdata[0], -2, "2026-05-10T08:00");
  ck_assert_str_eq (((SwDosePlan *) h2->pdata[0])->substance, "omeprazole");
  ck_assert_str_eq (((SwDosePlan *) h1->pdata[0])->substance, "chlorphenamine");
  ck_assert_str_eq (plan->choices, "corticosteroid=prednisolone;h1=chlorphenamine;h2=omeprazole");
}
END_TEST

START_TEST (test_choice_not_listed)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = schedule (fixture, TREAT, 24600, "h2=maropitant");
  const SwFinding *finding = find_finding (plan->findings, SW_FINDING_NOT_LISTED, "maropitant");
  g_autofree char *next = NULL;

  ck_assert_ptr_nonnull (finding);
  next = sw_finding_next (finding);
  ck_assert_str_eq (next, "Choose one of: famotidine, omeprazole.");
  ck_assert_uint_eq (plan->doses->len, 0);
  check_sentences (plan->findings);
}
END_TEST

/* 8 kg: famotidine 4 mg (4-8) fits with half a 10; diphenhydramine 16 mg (16-32) with one 25; 3.2 mg of
 * chlorphenamine (2.4-4) with one 4. At 3.5 kg neither H1 nor H2 blocker has a tablet: 7 mg of 25, 1.4 mg (1.05-1.75)
 * of 4, 1.75 mg (1.75-3.5) of 10, and omeprazole's 3.5 mg is not divided. */
START_TEST (test_nothing_fits)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) small = schedule (fixture, TREAT, 3500, NULL);
  g_autoptr (SwSchedule) fair = schedule (fixture, TREAT, 8000, NULL);
  const SwFinding *h1 = find_finding (small->findings, SW_FINDING_NO_TABLET_FITS, "diphenhydramine");
  g_autofree char *sentence = NULL, *next = NULL;

  ck_assert_ptr_nonnull (h1);
  ck_assert_ptr_nonnull (find_finding (small->findings, SW_FINDING_NO_TABLET_FITS, "famotidine"));
  ck_assert_uint_eq (small->doses->len, 0);
  sentence = sw_finding_sentence (h1);
  next = sw_finding_next (h1);
  ck_assert_msg (strstr (sentence, "diphenhydramine") != NULL && strstr (sentence, "7 mg") != NULL, "%s", sentence);
  ck_assert_msg (strstr (next, "none of those listed") != NULL, "%s", next);
  check_sentences (small->findings);
  ck_assert_int_lt (sw_findings_worst (fair->findings), SW_VET_DECIDES);
  ck_assert_uint_eq (fair->doses->len, 49);
}
END_TEST

/* An alternative that doesn't fit is refused naming those that do: 5 kg takes 2 mg (1.5-2.5) of chlorphenamine as
 * half a 4, but no 10 mg (10-20) of diphenhydramine from 25. */
START_TEST (test_fitting_alternative_is_named)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = schedule (fixture, TREAT, 5000, NULL);
  const SwFinding *finding = find_finding (plan->findings, SW_FINDING_NO_TABLET_FITS, "diphenhydramine");
  g_autofree char *next = NULL;

  ck_assert_ptr_nonnull (finding);
  next = sw_finding_next (finding);
  ck_assert_str_eq (next, "Stock a liquid or another strength, or choose a listed substance that fits: "
                          "chlorphenamine.");
}
END_TEST

/* The practice's own shelf wins over the document's strengths; a liquid may be added. */
START_TEST (test_stock)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = NULL;
  g_autoptr (SwSchedule) liquid = NULL;

  fixture_setting (fixture, "strengths.prednisolone", "5000");
  plan = schedule (fixture, TREAT, 24600, NULL);
  ck_assert_int_eq (((SwScheduleLine *) plan->lines->pdata[0])->strength_ug, 5000);
  ck_assert_int_eq (((SwScheduleLine *) plan->lines->pdata[0])->halves, 5);
  fixture_setting (fixture, "strengths.famotidine", "10000;4000/mL");
  fixture_setting (fixture, "strengths.diphenhydramine", "25000;2500/mL");
  liquid = schedule (fixture, TREAT, 3500, "corticosteroid=prednisone");
  ck_assert_int_lt (sw_findings_worst (liquid->findings), SW_VET_DECIDES);
  ck_assert_int_eq (((SwScheduleLine *) liquid->lines->pdata[2])->volume_nl, 2800000); /* 7 mg of 2.5 mg/mL */
  ck_assert_int_eq (((SwScheduleLine *) liquid->lines->pdata[2])->strength_ug, SW_UNKNOWN);
}
END_TEST

/* The last Sundays of March and October, 29 February, the turn of the year: the clock face never moves. */
START_TEST (test_calendar)
{
  static const struct { int year, month, day; const char *first, *second, *last; } turns[] = {
    { 2026, 3, 30, "2026-03-28T08:00", "2026-03-29T08:00", "2026-04-06T08:00" },
    { 2026, 10, 26, "2026-10-24T08:00", "2026-10-25T08:00", "2026-11-02T08:00" },
    { 2028, 3, 1, "2028-02-28T08:00", "2028-02-29T08:00", "2028-03-08T08:00" },
    { 2027, 1, 1, "2026-12-30T08:00", "2026-12-31T08:00", "2027-01-08T08:00" },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan
    = schedule (fixture, sw_day_from_ymd (turns[_i].year, turns[_i].month, turns[_i].day), 24600, NULL);
  g_autoptr (GPtrArray) cortico = doses_of (plan, "corticosteroid");

  ck_assert_uint_eq (cortico->len, 17);
  check_dose (cortico->pdata[0], -2, turns[_i].first);
  check_dose (cortico->pdata[2], -1, turns[_i].second);
  check_dose (cortico->pdata[16], 7, turns[_i].last);
  for (guint i = 0; i < cortico->len; i++)
    {
      const SwDosePlan *dose = cortico->pdata[i];

      ck_assert (dose->due_minute == 480 || dose->due_minute == 1200);
    }
}
END_TEST

START_TEST (test_hours_of_the_practice)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = NULL;

  fixture_setting (fixture, "hour-morning", "420");
  fixture_setting (fixture, "hour-evening", "1170");
  plan = schedule (fixture, TREAT, 24600, NULL);
  check_dose (plan->doses->pdata[0], -2, "2026-05-10T07:00");
  check_dose (plan->doses->pdata[1], -2, "2026-05-10T19:30");
}
END_TEST

/* 17 doses of half a 25 are 17 halves: nine tablets, the other half is kept; 1 1/2 x 10 sixteen times are 24. */
START_TEST (test_dispense)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwSchedule) plan = schedule (fixture, TREAT, 24600, NULL);
  g_autoptr (GPtrArray) entries = sw_schedule_dispense (plan->doses);
  const SwDispense *prednisolone = entries->pdata[0];

  ck_assert_uint_eq (entries->len, 3);
  ck_assert_str_eq (prednisolone->substance, "prednisolone");
  ck_assert_int_eq (prednisolone->halves, 17);
  ck_assert_int_eq (prednisolone->tablets, 9);
  for (guint i = 0; i < entries->len; i++)
    {
      const SwDispense *entry = entries->pdata[i];

      ck_assert_int_eq (entry->tablets, (entry->halves + 1) / 2);
      if (g_str_equal (entry->substance, "famotidine"))
        ck_assert_int_eq (entry->tablets, 24);
      if (g_str_equal (entry->substance, "diphenhydramine"))
        ck_assert_int_eq (entry->tablets, 16);
    }
}
END_TEST

START_TEST (test_choices_text)
{
  g_autofree char *none = sw_choices_get ("h1=a", "h");
  g_autofree char *one = sw_choices_get ("h1=a;h2=b", "h2");
  g_autofree char *set = sw_choices_set ("h1=a;h2=b", "h1", "c");
  g_autofree char *unset = sw_choices_set ("h1=a;h2=b", "h1", NULL);
  g_autofree char *first = sw_choices_set (NULL, "h1", "c");

  ck_assert_ptr_null (none);
  ck_assert_str_eq (one, "b");
  ck_assert_str_eq (set, "h2=b;h1=c");
  ck_assert_str_eq (unset, "h2=b");
  ck_assert_str_eq (first, "h1=c");
}
END_TEST

/* The facts of signing: rows name the plan and their dose. */
START_TEST (test_facts)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwPlan *plan = course_sign (fixture, TREAT, NULL);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);

  ck_assert_uint_eq (doses->len, 49);
  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      ck_assert_int_eq (dose->plan, plan->fact.id);
      ck_assert_ptr_nonnull (sw_facts_by_id (&fixture->dossier->facts, SW_FACT_DOSE, dose->dose));
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("schedule");
  TCase *tests = tcase_create ("schedule");
  SRunner *runner;

  tcase_add_loop_test (tests, test_counts, 0, 2);
  tcase_add_test (tests, test_tablets);
  tcase_add_test (tests, test_choices);
  tcase_add_test (tests, test_choice_not_listed);
  tcase_add_test (tests, test_nothing_fits);
  tcase_add_test (tests, test_fitting_alternative_is_named);
  tcase_add_test (tests, test_stock);
  tcase_add_loop_test (tests, test_calendar, 0, 4);
  tcase_add_test (tests, test_hours_of_the_practice);
  tcase_add_test (tests, test_dispense);
  tcase_add_test (tests, test_choices_text);
  tcase_add_test (tests, test_facts);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
