/* test-suitability.c: each fact of domain 4 with each of its answers, for both tigilanol documents
 *
 * What an answer must come to is written out here from domain 4, not read from the documents.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-suitability.h"

#include "case-fixture.h"
#include "sw-question.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

#define EU "tigilanol-eu"
#define US "tigilanol-us"
#define M SW_MEETS
#define N SW_NOTE
#define V SW_VET_DECIDES
#define U SW_NOT_KNOWN
#define X SW_STOP

static const struct
{
  const char *question;
  const char *answer;
  SwSeverity eu, us;
} rows[] = {
  /* sampled: not sampled or not diagnostic: not known; another tumour: rules out */
  { "sample", "not-sampled", U, U },
  { "sample", "not-diagnostic", U, U },
  { "sample", "cytology", M, M },
  { "sample", "histology", M, M },
  { "sample", "other-tumour", X, X },
  /* grade: high or III: vet decides; none: not known */
  { "grade", "none", U, U },
  { "grade", "patnaik-1", M, M },
  { "grade", "patnaik-2", M, M },
  { "grade", "patnaik-3", V, V },
  { "grade", "kiupel-low", M, M },
  { "grade", "kiupel-high", V, V },
  { "grade", "cytology-low", M, M },
  { "grade", "cytology-high", V, V },
  /* regional node: HN2, HN3: rules out; HN1: vet decides; palpated only, or enlarged today: not known */
  { "node", "not-assessed", U, U },
  { "node", "palpated", U, U },
  { "node", "sampled-negative", M, M },
  { "node", "hn0", M, M },
  { "node", "hn1", V, V },
  { "node", "hn2", X, X },
  { "node", "hn3", X, X },
  { "nodes-today", "unchanged", M, M },
  { "nodes-today", "enlarged", U, U },
  { "nodes-today", "not-felt", U, U },
  /* distant spread: yes: rules out; not looked for: not known */
  { "distant", "not-looked-for", U, U },
  { "distant", "no", M, M },
  { "distant", "yes", X, X },
  /* stage: never the numeral; stage 0: rules out */
  { "stage", "0", X, X },
  { "stage", "1", M, M },
  { "stage", "2", M, M },
  { "stage", "3", M, M },
  { "stage", "4", M, M },
  /* signs of mediator release: rules out until controlled */
  { "mediator-signs", "none", M, M },
  { "mediator-signs", "controlled", M, M },
  { "mediator-signs", "present", X, X },
  /* resectable (EU document): rules out */
  { "resectable", "no", M, M },
  { "resectable", "yes", X, M },
  { "reachable", "yes", M, M },
  { "reachable", "no", X, X },
  /* surface not unbroken: rules out; asked at plan and again at the needle */
  { "surface", "unbroken", M, M },
  { "surface", "crust", X, X },
  { "surface", "slough", X, X },
  { "surface", "erosion", X, X },
  { "surface", "biopsy-hole", X, X },
  { "surface-today", "unbroken", M, M },
  { "surface-today", "crust", X, X },
  { "surface-today", "slough", X, X },
  { "surface-today", "erosion", X, X },
  { "surface-today", "biopsy-hole", X, X },
  { "surgical-bed", "no", M, M },
  { "surgical-bed", "yes", X, X },
  { "function-site", "no", M, M },
  { "function-site", "yes", V, V },
  { "breeding", "none", M, M },
  { "breeding", "pregnant", V, V },
  { "breeding", "lactating", V, V },
  { "breeding", "breeding", V, V },
  /* gate B, condition 4: asked again today [ours] */
  { "marked-today", "skin", M, M },
  { "marked-today", "photograph", M, M },
  { "marked-today", "no", U, U },
  { "vomiting-today", "none", M, M },
  { "vomiting-today", "once", V, V },
  { "vomiting-today", "more", X, X },
  { "vomiting-today", "blood", X, X },
  { "stool-today", "normal", M, M },
  { "stool-today", "loose", V, V },
  { "stool-today", "black", X, X },
  { "appetite-today", "normal", M, M },
  { "appetite-today", "less", N, N },
  { "appetite-today", "none", V, V },
  { "nsaid-today", "no", M, M },
  { "nsaid-today", "yes", X, X },
  { "new-lumps-today", "no", M, M },
  { "new-lumps-today", "yes", V, V },
  { "suitability-today", "stands", M, M },
  { "suitability-today", "changed", U, U },
  { "emetic-sedative-today", "no", M, M },
  { "emetic-sedative-today", "yes", N, N },
};

/* Both lists in one. (transfer full) */
static GPtrArray *
judge (Fixture *fixture)
{
  GPtrArray *all = sw_suitability_of_dog (&fixture->c);
  GPtrArray *tumour = sw_suitability_of_tumour (&fixture->c, fixture->tumour);

  for (guint i = 0; i < tumour->len; i++)
    ck_assert_int_eq (((SwFinding *) tumour->pdata[i])->tumour, fixture->tumour);
  for (guint i = 0; i < all->len; i++)
    ck_assert_int_eq (((SwFinding *) all->pdata[i])->tumour, 0);
  g_ptr_array_extend_and_steal (all, tumour);
  check_sentences (all);
  return all;
}

/* Nothing but what is about this blocks. */
static void
check_only (const GPtrArray *findings, const char *about)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];
      g_autofree char *sentence = sw_finding_sentence (finding);

      ck_assert_msg (finding->severity < SW_VET_DECIDES || g_strcmp0 (finding->about, about) == 0, "%s", sentence);
    }
}

static void
check_answer (const char *protocol, const char *question, const char *answer, SwSeverity wanted)
{
  g_autoptr (Fixture) fixture = fixture_new (protocol);
  g_autoptr (GPtrArray) findings = NULL;
  int severity;

  fixture_answer (fixture, question, answer, SW_UNKNOWN);
  findings = judge (fixture);
  severity = severity_about (findings, question);
  ck_assert_msg (severity == (int) wanted, "%s: %s %s: %d, not %d", protocol, question, answer, severity, (int) wanted);
  check_only (findings, question);
}

START_TEST (test_every_answer)
{
  check_answer (EU, rows[_i].question, rows[_i].answer, rows[_i].eu);
  check_answer (US, rows[_i].question, rows[_i].answer, rows[_i].us);
}
END_TEST

/* Every question that a document rules on stands in the table with all its answers. */
START_TEST (test_table_is_whole)
{
  g_autoptr (Fixture) fixture = fixture_new (EU);
  const SwProtocol *protocol = sw_case_protocol (&fixture->c);

  for (guint i = 0; i < protocol->rulings->len; i++)
    {
      const SwQuestion *question = sw_question (((SwRuling *) protocol->rulings->pdata[i])->question);

      for (guint k = 0; k < question->n_choices; k++)
        {
          gboolean found = FALSE;

          for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
            found = found || (g_str_equal (rows[r].question, question->code)
                              && g_str_equal (rows[r].answer, question->choices[k].code));
          ck_assert_msg (found, "%s: %s", question->code, question->choices[k].code);
        }
    }
}
END_TEST

START_TEST (test_unanswered_is_not_known)
{
  const char *code = rows[_i].question;
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = NULL;
  int severity;

  fixture_unanswer (fixture, code);
  findings = judge (fixture);
  severity = severity_about (findings, code);
  /* What is asked on the treatment day is gate B's to miss. */
  ck_assert_int_eq (severity, sw_question (code)->at == SW_ASKED_AT_WORK_UP ? SW_NOT_KNOWN : SW_N_SEVERITIES);
  check_only (findings, code);
}
END_TEST

START_TEST (test_good_dog_meets_all)
{
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = judge (fixture);
  const SwFinding *grade = find_finding (findings, SW_FINDING_MEETS, "grade");
  g_autofree char *sentence = NULL;

  ck_assert_int_eq (sw_findings_worst (findings), SW_MEETS);
  ck_assert_int_eq (severity_about (findings, "species"), SW_MEETS);
  ck_assert_int_eq (severity_about (findings, "age"), SW_MEETS);
  ck_assert_int_eq (severity_about (findings, "place"), SW_MEETS);
  ck_assert_int_eq (severity_about (findings, "volume"), SW_MEETS);
  ck_assert_ptr_nonnull (grade);
  sentence = sw_finding_sentence (grade);
  ck_assert_str_eq (sentence, "Grade: Kiupel low.");
  ck_assert_str_eq (grade->mark, "ours");
}
END_TEST

/* Species, age: domain 4. */
START_TEST (test_species_and_age)
{
  static const struct { const char *species; SwDay born; const char *about; SwSeverity wanted; } dogs[] = {
    { "cat", TODAY - 2000, "species", X },
    { "horse", TODAY - 2000, "species", X },
    { "other", TODAY - 2000, "species", X },
    { "dog", SW_NO_DAY, "age", U },
    { "dog", 20219, "age", V },  /* 2025-05-11: twelve months tomorrow */
    { "dog", 20218, "age", M },  /* 2025-05-10: twelve months today */
  };
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = NULL;

  g_free (fixture_patient (fixture)->species);
  fixture_patient (fixture)->species = g_strdup (dogs[_i].species);
  fixture_patient (fixture)->born = dogs[_i].born;
  findings = judge (fixture);
  ck_assert_int_eq (severity_about (findings, dogs[_i].about), dogs[_i].wanted);
  check_only (findings, dogs[_i].about);
}
END_TEST

/* Cutaneous: anywhere. Subcutaneous: at or distal to elbow or hock. Neither mucosa nor muscle. */
START_TEST (test_every_place)
{
  static const SwRegion distal[] = { SW_REGION_ELBOW, SW_REGION_FORELIMB_DISTAL, SW_REGION_FOREPAW,
                                     SW_REGION_FORE_DIGIT, SW_REGION_HOCK, SW_REGION_HINDLIMB_DISTAL,
                                     SW_REGION_HINDPAW, SW_REGION_HIND_DIGIT };
  /* the regions among eyelid, lip, ear margin, digit, pad, prepuce, vulva, anus, tail; ear margin, pad and anus are
   * asked */
  static const SwRegion function[] = { SW_REGION_EYELID, SW_REGION_LIP, SW_REGION_FORE_DIGIT, SW_REGION_HIND_DIGIT,
                                       SW_REGION_PREPUCE_OR_VULVA, SW_REGION_TAIL };
  g_autoptr (Fixture) fixture = fixture_new (_i == 0 ? EU : US);

  for (int region = 0; region < SW_N_REGIONS; region++)
    for (int depth = 0; depth < SW_N_DEPTHS; depth++)
      {
        g_autoptr (GPtrArray) findings = NULL;
        gboolean is_distal = FALSE, harms = FALSE, may;

        for (guint i = 0; i < G_N_ELEMENTS (distal); i++)
          is_distal = is_distal || (int) distal[i] == region;
        for (guint i = 0; i < G_N_ELEMENTS (function); i++)
          harms = harms || (int) function[i] == region;
        may = depth == SW_DEPTH_CUTANEOUS || (depth == SW_DEPTH_SUBCUTANEOUS && is_distal);
        fixture_tumour (fixture)->region = region;
        fixture_tumour (fixture)->depth = depth;
        findings = judge (fixture);
        ck_assert_int_eq (severity_about (findings, "place"), may ? SW_MEETS : SW_STOP);
        ck_assert_int_eq (severity_about (findings, "function-region"), harms ? SW_VET_DECIDES : SW_N_SEVERITIES);
      }
}
END_TEST

/* 20 x 20 x 40 mm / 2 is 8 cm3, the EU document's limit; 20 x 25 x 40 / 2 is 10 cm3, that of the US document. */
START_TEST (test_volume)
{
  static const struct { const char *protocol; gint64 axes[3]; SwSeverity wanted; } sizes[] = {
    { EU, { 2000, 2000, 4000 }, M },
    { EU, { 2000, 2000, 4001 }, X },
    { US, { 2000, 2000, 4001 }, M },
    { US, { 2000, 2500, 4000 }, M },
    { US, { 2001, 2500, 4000 }, X },
  };
  g_autoptr (Fixture) fixture = fixture_new (sizes[_i].protocol);
  SwReading *reading = sw_facts_last (&fixture->dossier->facts, SW_FACT_READING);
  g_autoptr (GPtrArray) findings = NULL;
  const SwFinding *large;

  reading->axis1 = sizes[_i].axes[0];
  reading->axis2 = sizes[_i].axes[1];
  reading->axis3 = sizes[_i].axes[2];
  findings = judge (fixture);
  ck_assert_int_eq (severity_about (findings, "volume"), sizes[_i].wanted);
  large = find_finding (findings, SW_FINDING_TUMOUR_TOO_LARGE, "volume");
  if (_i == 1)
    {
      g_autofree char *sentence = sw_finding_sentence (large);

      ck_assert_str_eq (sentence, "Tumour A measured 8.002 cm3 on 2026-05-03; this protocol allows at most 8 cm3.");
    }
}
END_TEST

START_TEST (test_not_measured)
{
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = NULL;

  fixture_put (fixture, sw_fact_withdrawal (sw_facts_last (&fixture->dossier->facts, SW_FACT_READING)));
  findings = judge (fixture);
  ck_assert_int_eq (severity_about (findings, "volume"), SW_NOT_KNOWN);
}
END_TEST

/* Over 25 % more than at work-up: vet decides. Exactly 25 % more passes. */
START_TEST (test_growth)
{
  static const struct { gint64 axis; SwSeverity wanted; } today[] = { { 2500, SW_N_SEVERITIES }, { 2501, V },
                                                                      { 1500, SW_N_SEVERITIES } };
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = NULL;

  fixture_plan (fixture, TODAY, "");
  fixture_read (fixture, TODAY - 6, 2000, 1000, 1000); /* the newest before the lead-in */
  fixture_read (fixture, TODAY - 1, 2400, 1000, 1000); /* during it: not the work-up's */
  fixture_read (fixture, TODAY, today[_i].axis, 1000, 1000);
  findings = judge (fixture);
  ck_assert_int_eq (severity_about (findings, "growth"), (int) today[_i].wanted);
  if (today[_i].wanted == V)
    {
      g_autofree char *sentence = sw_finding_sentence (find_finding (findings, SW_FINDING_GROWN, NULL));

      ck_assert_str_eq (sentence, "Tumour A measures 25.05 % more than on 2026-05-04, over the 25 % that pass "
                                  "without a decision.");
    }
}
END_TEST

/* Staging older than 30 days: vet decides. */
START_TEST (test_stage_age)
{
  for (int days = 29; days <= 31; days++)
    {
      g_autoptr (Fixture) fixture = fixture_new (EU);
      g_autoptr (GPtrArray) findings = NULL;

      fixture_answer (fixture, "stage", "2", TODAY - days);
      findings = judge (fixture);
      ck_assert_int_eq (severity_about (findings, "stage"), days > 30 ? SW_VET_DECIDES : SW_MEETS);
    }
}
END_TEST

/* Sampled before any corticosteroid. */
START_TEST (test_sampling_day)
{
  static const struct { gint64 sampled; SwDay first; int wanted; } times[] = {
    { TODAY - 20, TODAY - 10, SW_N_SEVERITIES },
    { TODAY - 10, TODAY - 10, SW_N_SEVERITIES },
    { TODAY - 9, TODAY - 10, SW_VET_DECIDES },
    { SW_UNKNOWN, TODAY - 10, SW_NOT_KNOWN },
    { TODAY - 9, SW_NO_DAY, SW_NOT_KNOWN },
  };
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = NULL;

  fixture_answer (fixture, "sample", "histology", times[_i].sampled);
  fixture_take (fixture, "dexamethasone", times[_i].first, TODAY - 5);
  fixture_take (fixture, "meloxicam", TODAY - 100, TODAY - 90);
  findings = judge (fixture);
  ck_assert_int_eq (severity_about (findings, "sample"), times[_i].wanted == SW_N_SEVERITIES ? M : times[_i].wanted);
}
END_TEST

/* A node found enlarged is settled by a later answer of the work-up, not by an earlier one. */
START_TEST (test_enlarged_node_sampled_since)
{
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) before = NULL, after = NULL;

  fixture_answer (fixture, "nodes-today", "enlarged", SW_UNKNOWN);
  before = judge (fixture);
  ck_assert_int_eq (severity_about (before, "nodes-today"), SW_NOT_KNOWN);
  fixture_answer (fixture, "node", "sampled-negative", SW_UNKNOWN);
  after = judge (fixture);
  ck_assert_int_eq (sw_findings_worst (after), SW_MEETS);
}
END_TEST

static void
put_reason (Fixture *fixture, const char *code, const char *about, gint64 tumour)
{
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);

  reason->course = fixture->c.course;
  reason->finding = g_strdup (code);
  reason->about = g_strdup (about);
  reason->tumour = tumour;
  reason->reason = g_strdup ("explained to the client");
  fixture_put (fixture, reason);
}

/* Vet decides needs a written reason; rules out can't be overridden. */
START_TEST (test_reasons_settle)
{
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) findings = NULL, open = NULL, wrong = NULL, settled = NULL;
  const SwFinding *grade;

  fixture_answer (fixture, "grade", "patnaik-3", SW_UNKNOWN);
  fixture_answer (fixture, "distant", "yes", SW_UNKNOWN);
  findings = judge (fixture);
  open = sw_findings_open (&fixture->c, findings);
  ck_assert_int_eq (open->len, 2);
  put_reason (fixture, "answer-vet-decides", "grade", 0); /* of the dog: another subject */
  put_reason (fixture, "answer-vet-decides", "breeding", fixture->tumour);
  wrong = sw_findings_open (&fixture->c, findings);
  ck_assert_int_eq (wrong->len, 2);
  put_reason (fixture, "answer-vet-decides", "grade", fixture->tumour);
  put_reason (fixture, "ruled-out", "distant", 0);
  settled = sw_findings_open (&fixture->c, findings);
  ck_assert_int_eq (settled->len, 1);
  ck_assert_str_eq (((SwFinding *) settled->pdata[0])->about, "distant");
  grade = find_finding (findings, SW_FINDING_ANSWER_VET_DECIDES, "grade");
  fixture_put (fixture, sw_fact_withdrawal (sw_finding_reason (&fixture->c, grade)));
  g_ptr_array_unref (settled);
  settled = sw_findings_open (&fixture->c, findings);
  ck_assert_int_eq (settled->len, 2);
}
END_TEST

START_TEST (test_no_course_no_judgement)
{
  g_autoptr (Fixture) fixture = fixture_new (EU);
  g_autoptr (GPtrArray) dog = NULL, tumour = NULL;

  fixture->c.course = 0;
  dog = sw_suitability_of_dog (&fixture->c);
  tumour = sw_suitability_of_tumour (&fixture->c, fixture->tumour);
  ck_assert_int_eq (dog->len + tumour->len, 0);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("suitability");
  TCase *tcase = tcase_create ("suitability");
  SRunner *runner;

  tcase_set_timeout (tcase, 60);
  tcase_add_loop_test (tcase, test_every_answer, 0, G_N_ELEMENTS (rows));
  tcase_add_test (tcase, test_table_is_whole);
  tcase_add_loop_test (tcase, test_unanswered_is_not_known, 0, G_N_ELEMENTS (rows));
  tcase_add_test (tcase, test_good_dog_meets_all);
  tcase_add_loop_test (tcase, test_species_and_age, 0, 6);
  tcase_add_loop_test (tcase, test_every_place, 0, 2);
  tcase_add_loop_test (tcase, test_volume, 0, 5);
  tcase_add_test (tcase, test_not_measured);
  tcase_add_loop_test (tcase, test_growth, 0, 3);
  tcase_add_test (tcase, test_stage_age);
  tcase_add_loop_test (tcase, test_sampling_day, 0, 5);
  tcase_add_test (tcase, test_enlarged_node_sampled_since);
  tcase_add_test (tcase, test_reasons_settle);
  tcase_add_test (tcase, test_no_course_no_judgement);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
