/* test-gate-a.c: each condition of gate A broken alone
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

/* The plan that is about to be signed: the newest weight, TREAT. */
static SwPlan *
proposal (Fixture *fixture, SwDay treat_day, const char *choices)
{
  const SwWeight *weight = sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT);
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);

  plan->course = fixture->c.course;
  plan->treat_day = treat_day;
  plan->weight = weight != NULL ? weight->fact.id : 0;
  plan->choices = g_strdup (choices);
  return plan;
}

static GPtrArray *
ask_a (Fixture *fixture, SwDay treat_day, const char *choices)
{
  SwPlan *plan = proposal (fixture, treat_day, choices);
  GPtrArray *findings = sw_gate_a (&fixture->c, plan);

  sw_fact_free (plan);
  return findings;
}

START_TEST (test_a_passes)
{
  g_autoptr (Fixture) fixture = fixture_new (_i == 0 ? "tigilanol-eu" : "tigilanol-us");
  g_autoptr (GPtrArray) findings = NULL;

  course_consent (fixture);
  findings = ask_a (fixture, TREAT, NULL);
  course_check_passes (fixture, findings);
}
END_TEST

static void
unadopt (Fixture *fixture, const char *id)
{
  SwAdoption *adoption;

  for (guint i = 0; (adoption = sw_facts_next (&fixture->practice->facts, SW_FACT_ADOPTION, &i)) != NULL;)
    if (g_str_equal (adoption->doc_id, id))
      fixture_put (fixture, sw_fact_withdrawal (adoption));
}

static void
break_suitability (Fixture *fixture)
{
  fixture_answer (fixture, "surface", "crust", SW_UNKNOWN);
}

static void
break_history (Fixture *fixture)
{
  fixture_answer (fixture, "medicine-history", "incomplete", SW_UNKNOWN);
}

static void
break_washout (Fixture *fixture)
{
  fixture_take (fixture, "carprofen", TODAY - 10, TODAY - 2);
}

static void
shorten_consent (Fixture *fixture)
{
  ((SwConsent *) sw_facts_last (&fixture->dossier->facts, SW_FACT_CONSENT))->points &= ~SW_CONSENT_WOUND;
}

static void
leave_off_label (Fixture *fixture)
{
  ((SwConsent *) sw_facts_last (&fixture->dossier->facts, SW_FACT_CONSENT))->off_label = 0;
}

static void
unadopt_protocol (Fixture *fixture)
{
  unadopt (fixture, "tigilanol-eu");
}

static void
unadopt_interactions (Fixture *fixture)
{
  unadopt (fixture, "interactions");
}

static void
unadopt_medicine (Fixture *fixture)
{
  unadopt (fixture, "famotidine");
}

/* Another revision of the protocol is in use now. */
static void
adopt_newer (Fixture *fixture)
{
  const SwDocument *old = sw_practice_adopted (fixture->practice, SW_DOCUMENT_PROTOCOL, "tigilanol-eu");
  SwDocument *newer = sw_fact_copy (old);
  SwAdoption *adoption = sw_new (SW_FACT_ADOPTION, SwAdoption);

  unadopt_protocol (fixture);
  g_free (newer->revision);
  newer->revision = g_strdup ("2");
  newer->fact = (SwFact){ .kind = SW_FACT_DOCUMENT };
  fixture_put (fixture, newer);
  adoption->doc_kind = SW_DOCUMENT_PROTOCOL;
  adoption->doc_id = g_strdup ("tigilanol-eu");
  adoption->document = newer->fact.id;
  fixture_put (fixture, adoption);
}

static void
age_weight (Fixture *fixture)
{
  ((SwWeight *) sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT))->day = TODAY - 15;
}

static void
lose_weight (Fixture *fixture)
{
  course_withdraw_all (fixture, SW_FACT_WEIGHT);
}

static void
lose_tumours (Fixture *fixture)
{
  ((SwCourseTumour *) sw_facts_last (&fixture->dossier->facts, SW_FACT_COURSE_TUMOUR))->treat = 0;
}

static void
empty_shelf (Fixture *fixture)
{
  fixture_setting (fixture, "strengths.famotidine", "40000000");
}

static void
be_late (Fixture *fixture)
{
  course_at (fixture, TODAY, 14 * 60 + 1);
}

static const struct
{
  const char *name;
  void (*damage) (Fixture *fixture);
  SwFindingCode code;
  const char *about;
} breaks_a[] = {
  { "suitability", break_suitability, SW_FINDING_RULED_OUT, "surface" },
  { "history", break_history, SW_FINDING_HISTORY_INCOMPLETE, NULL },
  { "washout", break_washout, SW_FINDING_WASHOUT_BEFORE, NULL },
  { "no consent", course_lose_consent, SW_FINDING_NO_CONSENT, NULL },
  { "consent withdrawn", course_take_back_consent, SW_FINDING_CONSENT_WITHDRAWN, NULL },
  { "consent incomplete", shorten_consent, SW_FINDING_CONSENT_INCOMPLETE, NULL },
  { "off-label", leave_off_label, SW_FINDING_CONSENT_OFF_LABEL, NULL },
  { "protocol", unadopt_protocol, SW_FINDING_NOT_ADOPTED, "tigilanol-eu" },
  { "interactions", unadopt_interactions, SW_FINDING_NOT_ADOPTED, "interactions" },
  { "medicine", unadopt_medicine, SW_FINDING_NOT_ADOPTED, "famotidine" },
  { "revision", adopt_newer, SW_FINDING_OTHER_REVISION, NULL },
  { "old weight", age_weight, SW_FINDING_PLANNING_WEIGHT_OLD, NULL },
  { "no weight", lose_weight, SW_FINDING_NO_PLANNING_WEIGHT, NULL },
  { "no tumour", lose_tumours, SW_FINDING_NO_TUMOUR, NULL },
  { "no tablet", empty_shelf, SW_FINDING_NO_TABLET_FITS, "famotidine" },
  { "too late today", be_late, SW_FINDING_LEAD_IN_TOO_LATE, NULL },
};

START_TEST (test_a_broken)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  course_consent (fixture);
  breaks_a[_i].damage (fixture);
  findings = ask_a (fixture, TREAT, NULL);
  course_check_only (fixture, findings, breaks_a[_i].code, breaks_a[_i].about);
}
END_TEST

/* At most 14 days old [ours]: the fourteenth day still counts; 14:00 is still in time. */
START_TEST (test_a_edges)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  course_consent (fixture);
  ((SwWeight *) sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT))->day = TODAY - 14;
  course_at (fixture, TODAY, 14 * 60);
  findings = ask_a (fixture, TREAT, NULL);
  course_check_passes (fixture, findings);
}
END_TEST

/* A stop pair: an NSAID that goes on. */
START_TEST (test_a_stop_pair)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  course_consent (fixture);
  fixture_take (fixture, "meloxicam", TODAY - 3, SW_NO_DAY);
  findings = ask_a (fixture, TREAT, NULL);
  ck_assert (!sw_gate_passes (&fixture->c, findings));
}
END_TEST

/* A vet-decides finding blocks until the vet's reason stands. */
START_TEST (test_a_reason)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) before = NULL, after = NULL;

  course_consent (fixture);
  fixture_answer (fixture, "grade", "kiupel-high", SW_UNKNOWN);
  before = ask_a (fixture, TREAT, NULL);
  course_check_only (fixture, before, SW_FINDING_ANSWER_VET_DECIDES, "grade");
  course_reason (fixture, find_finding (before, SW_FINDING_ANSWER_VET_DECIDES, "grade"));
  after = ask_a (fixture, TREAT, NULL);
  course_check_passes (fixture, after);
}
END_TEST

static TCase *
gate_a_tests (void)
{
  TCase *tests = tcase_create ("gate A");

  tcase_set_timeout (tests, 60);
  tcase_add_loop_test (tests, test_a_passes, 0, 2);
  tcase_add_loop_test (tests, test_a_broken, 0, G_N_ELEMENTS (breaks_a));
  tcase_add_test (tests, test_a_edges);
  tcase_add_test (tests, test_a_stop_pair);
  tcase_add_test (tests, test_a_reason);
  return tests;
}

int
main (void)
{
  Suite *suite = suite_create ("gate A");
  SRunner *runner;

  suite_add_tcase (suite, gate_a_tests ());
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
