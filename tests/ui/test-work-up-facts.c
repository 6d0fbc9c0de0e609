/* test-work-up-facts.c: each fact of domain 4 is entered in the window, and what it comes to is shown there
 *
 * What an answer must come to in the EU protocol is written out here from domain 4.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "work-up-ui.h"

#include "sw-decision-row.h"

#define M SW_MEETS
#define V SW_VET_DECIDES
#define U SW_NOT_KNOWN
#define X SW_STOP

static const struct
{
  const char *question;
  const char *answer;
  SwSeverity wanted;
} rows[] = {
  /* sampled: not sampled or not diagnostic: not known; another tumour: rules out */
  { "sample", "not-sampled", U },
  { "sample", "not-diagnostic", U },
  { "sample", "other-tumour", X },
  { "sample", "histology", M },
  { "sample", "cytology", M },
  /* grade: high or III: vet decides; none: not known */
  { "grade", "none", U },
  { "grade", "patnaik-1", M },
  { "grade", "patnaik-2", M },
  { "grade", "patnaik-3", V },
  { "grade", "kiupel-low", M },
  { "grade", "kiupel-high", V },
  { "grade", "cytology-high", V },
  { "grade", "cytology-low", M },
  /* regional node: HN2, HN3: rules out; HN1: vet decides; palpated only: not known */
  { "node", "not-assessed", U },
  { "node", "palpated", U },
  { "node", "hn0", M },
  { "node", "hn1", V },
  { "node", "hn2", X },
  { "node", "hn3", X },
  { "node", "sampled-negative", M },
  /* distant spread: yes: rules out; not looked for: not known */
  { "distant", "not-looked-for", U },
  { "distant", "yes", X },
  { "distant", "no", M },
  /* stage: never the numeral; stage 0: rules out */
  { "stage", "0", X },
  { "stage", "2", M },
  { "stage", "3", M },
  { "stage", "4", M },
  { "stage", "1", M },
  /* signs of mediator release now: rules out until controlled */
  { "mediator-signs", "present", X },
  { "mediator-signs", "controlled", M },
  { "mediator-signs", "none", M },
  /* resectable (EU document): rules out */
  { "resectable", "yes", X },
  { "resectable", "no", M },
  /* reachable by the needle: no: rules out */
  { "reachable", "no", X },
  { "reachable", "yes", M },
  /* surface: not unbroken: rules out */
  { "surface", "crust", X },
  { "surface", "slough", X },
  { "surface", "erosion", X },
  { "surface", "biopsy-hole", X },
  { "surface", "unbroken", M },
  /* surgical bed: rules out */
  { "surgical-bed", "yes", X },
  { "surgical-bed", "no", M },
  /* a site where lost tissue harms function: vet decides */
  { "function-site", "yes", V },
  { "function-site", "no", M },
  /* pregnant, lactating, breeding: vet decides */
  { "breeding", "pregnant", V },
  { "breeding", "lactating", V },
  { "breeding", "breeding", V },
  { "breeding", "none", M },
  /* full medicine history: gate A */
  { "medicine-history", "incomplete", U },
  { "medicine-history", "complete", M },
};

static UiWorkUp *work_up;

/* One window for all rows: each leaves the dog as it found it. */
static void
open_window (void)
{
  work_up = ui_work_up_new ();
}

static void
close_window (void)
{
  ui_work_up_free (work_up);
}

/* Before anything is told, each question is shown as not known, and the whole is done by the page's widgets alone. */
START_TEST (nothing_is_known_at_first)
{
  ui_work_up_open_course (work_up, "tigilanol-eu");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    ck_assert_int_eq (ui_work_up_severity (work_up, SW_N_FINDINGS, rows[i].question), U);
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_NOT_MEASURED, "volume"), U);
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_NO_CONSENT, NULL), X);
}
END_TEST

static const char *
extra_of (const char *question)
{
  return g_str_equal (question, "sample") || g_str_equal (question, "stage") ? "2026-05-10" : NULL;
}

START_TEST (every_answer_is_shown)
{
  ui_work_up_make_good (work_up);
  ck_assert_uint_eq (ui_work_up_blocks (work_up), 0);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int severity;

      ui_work_up_answer (work_up, rows[i].question, rows[i].answer, extra_of (rows[i].question));
      severity = ui_work_up_severity (work_up, SW_N_FINDINGS, rows[i].question);
      ck_assert_msg (severity == (int) rows[i].wanted, "%s %s: %d", rows[i].question, rows[i].answer, severity);
      ck_assert_uint_eq (ui_work_up_blocks (work_up), rows[i].wanted >= V ? 1 : 0);
    }
}
END_TEST

START_TEST (dates_are_shown)
{
  UiPack dexamethasone = { "dexamethasone", -90, -70, SW_FORM_INJECTION, 1 };

  ui_work_up_make_good (work_up);
  ui_work_up_answer (work_up, "stage", "1", "2026-04-12"); /* 31 days */
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_STAGE_OLD, "stage"), V);
  ui_work_up_answer (work_up, "stage", "1", "2026-04-13");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_STAGE_OLD, "stage"), SW_N_SEVERITIES);
  /* sampled before any corticosteroid */
  ui_work_up_take (work_up, &dexamethasone);
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_SAMPLED_LATE, "sample"), V);
  ui_work_up_answer (work_up, "sample", "cytology", NULL);
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_SAMPLE_DATE_MISSING, "sample"), U);
  ui_work_up_answer (work_up, "sample", "cytology", "2026-02-10");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_N_FINDINGS, "sample"), M);
}
END_TEST

/* A reading of ten days ago, written by another program: 20 x 10 x 10 / 2 is 1 cm3. */
static void
read_before (const UiPractice *practice)
{
  g_autoptr (SwDesk) desk = sw_desk_open (practice->folder, practice->clock, NULL);
  SwRequest *request = sw_request_new (SW_ACT_RECORD_READING, practice->person, practice->patient);
  SwReading *reading = sw_new (SW_FACT_READING, SwReading);

  reading->tumour = practice->tumour;
  reading->day = ui_work_up_today () - 10;
  reading->axis1 = 2000;
  reading->axis2 = reading->axis3 = 1000;
  reading->typed = g_strdup ("20 x 10 x 10");
  sw_request_add (request, reading);
  sw_reply_free (ui_perform (desk, request));
}

static gboolean
is_measured (gpointer data)
{
  return ui_work_up_severity (data, SW_N_FINDINGS, "volume") == M;
}

/* Over the limit: rules out. Over 25 % more than at work-up: vet decides. */
START_TEST (readings_are_shown)
{
  ui_work_up_open_course (work_up, "tigilanol-eu");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_NOT_MEASURED, "volume"), U);
  read_before (work_up->practice);
  ui_wait (is_measured, work_up, "the other program's reading");
  ui_work_up_measure (work_up, "25.0", "10.0", "10.0");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_GROWN, NULL), SW_N_SEVERITIES);
  ui_work_up_measure (work_up, "2.502 cm", "10.0", "10.0"); /* the mean is 25.01 */
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_GROWN, NULL), V);
  ui_work_up_measure (work_up, "80.0", "40.0", "40.0");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_TUMOUR_TOO_LARGE, "volume"), X);
}
END_TEST

static void
open_dialog (UiWorkUp *self, SwFindingCode code, const char *about)
{
  GtkWidget *row = ui_work_up_row (self, code, about);
  SwCase c = sw_page_context_case (ui_work_up_context (self));
  SwPlace place = sw_place_of_finding (&c, sw_decision_row_get_finding (SW_DECISION_ROW (row)));

  sw_workup_page_go (self->page, &place);
  ck_assert_ptr_nonnull (ui_dialog (self->window));
}

/* Species and age are the patient's; where a tumour lies is the tumour's: their dialogs open from the finding. */
START_TEST (patient_and_tumour_are_shown)
{
  ui_work_up_make_good (work_up);
  open_dialog (work_up, SW_N_FINDINGS, "species");
  ui_dialog_choose (ui_dialog (work_up->window), "species", "cat");
  ui_dialog_press (work_up, "Record the Correction");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_OTHER_SPECIES, NULL), X);
  open_dialog (work_up, SW_FINDING_OTHER_SPECIES, NULL);
  ui_dialog_choose (ui_dialog (work_up->window), "species", "dog");
  ui_dialog_type (ui_dialog (work_up->window), "born", "2025-05-14");
  ui_dialog_press (work_up, "Record the Correction");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_TOO_YOUNG, NULL), V);
  open_dialog (work_up, SW_FINDING_TOO_YOUNG, NULL);
  ui_dialog_type (ui_dialog (work_up->window), "born", "");
  ui_dialog_press (work_up, "Record the Correction");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_AGE_NOT_KNOWN, NULL), U);
  open_dialog (work_up, SW_N_FINDINGS, "place");
  ui_dialog_choose (ui_dialog (work_up->window), "layer", "subcutaneous");
  ui_dialog_choose (ui_dialog (work_up->window), "region", "flank");
  ui_dialog_press (work_up, "Record the Correction");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_WRONG_PLACE, NULL), X);
  open_dialog (work_up, SW_FINDING_WRONG_PLACE, NULL);
  ui_dialog_choose (ui_dialog (work_up->window), "layer", "cutaneous");
  ui_dialog_choose (ui_dialog (work_up->window), "region", "eyelid");
  ui_dialog_press (work_up, "Record the Correction");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_FUNCTION_REGION, NULL), V);
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_N_FINDINGS, "place"), M);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("work-up-facts");
  TCase *tcase = tcase_create ("work-up-facts");

  ui_init ();
  tcase_set_timeout (tcase, 120);
  tcase_add_checked_fixture (tcase, open_window, close_window);
  tcase_add_test (tcase, nothing_is_known_at_first);
  tcase_add_test (tcase, every_answer_is_shown);
  tcase_add_test (tcase, dates_are_shown);
  tcase_add_test (tcase, readings_are_shown);
  tcase_add_test (tcase, patient_and_tumour_are_shown);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
