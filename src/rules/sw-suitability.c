/* sw-suitability.c: each fact of domain 4 against the protocol's document
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-suitability.h"

#include "sw-definitions.h"
#include "sw-question.h"
#include "sw-suitability-private.h"

#include <glib/gi18n-lib.h>

SwFinding *
sw_judging_add (SwJudging *j, SwFindingCode code, const char *about, const SwFigure *figure)
{
  SwFinding *finding = sw_finding_new (code);

  finding->tumour = j->tumour;
  finding->about = g_strdup (about);
  if (j->letter != NULL)
    sw_finding_text (finding, "tumour", j->letter);
  if (figure != NULL)
    sw_finding_basis (finding, sw_document_source_title (&j->protocol->head, figure),
                      sw_figure_mark_code (figure->mark));
  g_ptr_array_add (j->findings, finding);
  return finding;
}

void
sw_judging_meets (SwJudging *j, const char *about, const char *fact, const char *value, const SwFigure *figure)
{
  SwFinding *finding = sw_judging_add (j, SW_FINDING_MEETS, about, figure);

  sw_finding_text (finding, "fact", fact);
  sw_finding_text (finding, "value", value);
}

/* Answers to questions, as the document rules on them */

static SwFindingCode
code_of_severity (SwSeverity severity)
{
  switch (severity)
    {
    case SW_MEETS:
      return SW_FINDING_MEETS;
    case SW_NOTE:
      return SW_FINDING_ANSWER_NOTED;
    case SW_VET_DECIDES:
      return SW_FINDING_ANSWER_VET_DECIDES;
    case SW_NOT_KNOWN:
      return SW_FINDING_ANSWER_NOT_ENOUGH;
    case SW_STOP:
      return SW_FINDING_RULED_OUT;
    case SW_N_SEVERITIES:
      break;
    }
  g_return_val_if_reached (SW_FINDING_NOT_RULED);
}

const SwAnswer *
sw_case_answer (const SwCase *c, gint64 tumour, const SwQuestion *question)
{
  gint64 course = question->at == SW_ASKED_ON_TREATMENT_DAY ? c->course : 0;

  return sw_dossier_answer (c->dossier, course, tumour, question->code, c->now.day);
}

/* A node found enlarged on the treatment day asks for a sample; an answer of the work-up that was given since settles
 * it. */
static gboolean
is_overtaken (const SwJudging *j, const SwQuestion *question, const SwAnswer *answer)
{
  const SwAnswer *node;

  if (!g_str_equal (question->code, "nodes-today"))
    return FALSE;
  node = sw_case_answer (j->c, 0, sw_question ("node"));
  return node != NULL && node->fact.id > answer->fact.id;
}

static void
judge_answer (SwJudging *j, const SwQuestion *question, const SwAnswer *answer)
{
  const SwRuling *ruling = sw_protocol_ruling (j->protocol, question->code, answer->answer);
  const SwChoice *choice = sw_question_choice (question, answer->answer);
  SwFindingCode code = ruling != NULL ? code_of_severity (ruling->severity) : SW_FINDING_NOT_RULED;
  SwFinding *finding = sw_judging_add (j, code, question->code, ruling != NULL ? ruling->figure : NULL);

  sw_finding_text (finding, "fact", _(question->name));
  sw_finding_text (finding, "value", choice != NULL ? _(choice->name) : answer->answer);
}

static gboolean
is_ruled_on (const SwProtocol *protocol, const SwQuestion *question)
{
  for (guint i = 0; i < protocol->rulings->len; i++)
    if (g_str_equal (((const SwRuling *) protocol->rulings->pdata[i])->question, question->code))
      return TRUE;
  return FALSE;
}

static void
judge_question (SwJudging *j, const SwQuestion *question)
{
  const SwAnswer *answer = sw_case_answer (j->c, j->tumour, question);

  if (answer != NULL && !is_overtaken (j, question, answer))
    judge_answer (j, question, answer);
  else if (answer == NULL && question->at == SW_ASKED_AT_WORK_UP)
    sw_finding_text (sw_judging_add (j, SW_FINDING_UNANSWERED, question->code, NULL), "fact", _(question->name));
}

static void
judge_questions (SwJudging *j, SwAskedOf of)
{
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    if (questions[i].of == of && is_ruled_on (j->protocol, &questions[i]))
      judge_question (j, &questions[i]);
}

/* Of the dog */

static void
judge_species (SwJudging *j)
{
  const SwPatientDetails *patient = sw_dossier_patient (j->c->dossier);
  const char *species = patient != NULL ? patient->species : "?";
  SwFinding *finding;

  if (g_strcmp0 (species, j->protocol->species) == 0)
    {
      sw_judging_meets (j, "species", _("species"), species, NULL);
      return;
    }
  finding = sw_judging_add (j, SW_FINDING_OTHER_SPECIES, "species", NULL);
  sw_finding_text (finding, "value", species);
  sw_finding_text (finding, "limit", j->protocol->species);
}

static void
judge_age (SwJudging *j)
{
  const SwPatientDetails *patient = sw_dossier_patient (j->c->dossier);
  const SwFigure *figure = sw_protocol_figure (j->protocol, "least-age");
  gboolean known = patient != NULL && patient->born != SW_NO_DAY;
  int months = known ? sw_day_months_between (patient->born, j->c->now.day) : 0;
  SwFinding *finding;

  if (j->protocol->least_age_months == SW_UNKNOWN)
    return;
  if (known && months >= j->protocol->least_age_months)
    {
      g_autofree char *age = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d month", "%d months", (gulong) months),
                                              months);

      sw_judging_meets (j, "age", _("age"), age, figure);
      return;
    }
  finding = sw_judging_add (j, known ? SW_FINDING_TOO_YOUNG : SW_FINDING_AGE_NOT_KNOWN, "age", figure);
  sw_finding_count (finding, "value", months);
  sw_finding_count (finding, "limit", j->protocol->least_age_months);
}

/* How old the staging is: the day it was made on, else the day the answer was given. */
static void
judge_stage_age (SwJudging *j)
{
  const SwAnswer *stage = sw_case_answer (j->c, 0, sw_question ("stage"));
  SwDay day = stage == NULL ? SW_NO_DAY : stage->value != SW_UNKNOWN ? stage->value : stage->day;
  SwFinding *finding;

  if (stage == NULL || j->protocol->stage_days == SW_UNKNOWN || j->c->now.day - day <= j->protocol->stage_days)
    return;
  finding = sw_judging_add (j, SW_FINDING_STAGE_OLD, "stage", sw_protocol_figure (j->protocol, "staging-age"));
  sw_finding_day (finding, "date", day);
  sw_finding_count (finding, "value", j->c->now.day - day);
  sw_finding_count (finding, "limit", j->protocol->stage_days);
}

/* Of a tumour */

/* The corticosteroid from elsewhere that began first, or NULL. */
static const SwMedicineTaken *
first_corticosteroid (const SwCase *c)
{
  const SwMedicineTaken *taken, *first = NULL;

  for (guint i = 0; (taken = sw_facts_next (&c->dossier->facts, SW_FACT_MEDICINE_TAKEN, &i)) != NULL;)
    if (sw_books_is_class (c->books, taken->substance, SW_CLASS_CORTICOSTEROID)
        && (first == NULL || taken->first_day < first->first_day))
      first = taken;
  return first;
}

/* The sample counts when it was taken before any corticosteroid. */
static void
judge_sampling_day (SwJudging *j)
{
  const SwAnswer *sample = sw_case_answer (j->c, j->tumour, sw_question ("sample"));
  const SwMedicineTaken *taken = first_corticosteroid (j->c);
  SwFinding *finding;

  if (sample == NULL || taken == NULL
      || (!g_str_equal (sample->answer, "cytology") && !g_str_equal (sample->answer, "histology")))
    return;
  if (sample->value == SW_UNKNOWN || taken->first_day == SW_NO_DAY)
    finding = sw_judging_add (j, SW_FINDING_SAMPLE_DATE_MISSING, "sample", NULL);
  else if (sample->value > taken->first_day)
    finding = sw_judging_add (j, SW_FINDING_SAMPLED_LATE, "sample", NULL);
  else
    return;
  sw_finding_day (finding, "value", sample->value);
  sw_finding_text (finding, "substance", taken->substance);
  sw_finding_day (finding, "limit", taken->first_day);
}

static void
judge_place (SwJudging *j, const SwTumourDetails *details)
{
  g_autofree char *place = g_strdup_printf ("%s, %s", sw_depth_name ((SwDepth) details->depth),
                                            sw_region_name ((SwRegion) details->region));
  gboolean cutaneous = details->depth == SW_DEPTH_CUTANEOUS;
  const SwFigure *regions = sw_protocol_figure (j->protocol, cutaneous ? "cutaneous-regions" : "subcutaneous-regions");
  SwFinding *finding;

  if (j->protocol->regions[details->depth][details->region])
    sw_judging_meets (j, "place", _("depth and region"), place, regions);
  else
    sw_finding_text (sw_judging_add (j, SW_FINDING_WRONG_PLACE, "place", regions), "value", place);
  if (!j->protocol->function_regions[details->region])
    return;
  finding = sw_judging_add (j, SW_FINDING_FUNCTION_REGION, "function-region",
                            sw_protocol_figure (j->protocol, "function-regions"));
  sw_finding_text (finding, "value", sw_region_name ((SwRegion) details->region));
}

static SwJudging
judging (const SwCase *c, gint64 tumour)
{
  return (SwJudging){ .c = c, .protocol = sw_case_protocol (c), .tumour = tumour, .findings = sw_findings_new () };
}

GPtrArray *
sw_suitability_of_dog (const SwCase *c)
{
  SwJudging j = judging (c, 0);

  if (j.protocol == NULL)
    return j.findings;
  judge_species (&j);
  judge_age (&j);
  judge_questions (&j, SW_ASKED_OF_DOG);
  judge_stage_age (&j);
  return j.findings;
}

GPtrArray *
sw_suitability_of_tumour (const SwCase *c, gint64 tumour)
{
  SwJudging j = judging (c, tumour);
  const SwTumourDetails *details = sw_dossier_tumour (c->dossier, tumour);
  g_autofree char *letter = NULL;

  if (j.protocol == NULL || details == NULL)
    return j.findings;
  letter = sw_tumour_letter (details->letter);
  j.letter = letter;
  judge_questions (&j, SW_ASKED_OF_TUMOUR);
  judge_sampling_day (&j);
  judge_place (&j, details);
  sw_judge_size (&j);
  return j.findings;
}

const SwReason *
sw_finding_reason (const SwCase *c, const SwFinding *finding)
{
  const SwReason *reason;

  for (guint i = 0; (reason = sw_facts_next (&c->dossier->facts, SW_FACT_REASON, &i)) != NULL;)
    if (reason->course == c->course && reason->tumour == finding->tumour
        && g_str_equal (reason->finding, sw_finding_code (finding->code))
        && g_strcmp0 (reason->about, finding->about) == 0)
      return reason;
  return NULL;
}

GPtrArray *
sw_findings_open (const SwCase *c, GPtrArray *findings)
{
  GPtrArray *open = sw_findings_new ();

  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];
      gboolean settled = finding->severity == SW_VET_DECIDES && sw_finding_reason (c, finding) != NULL;

      if (finding->severity >= SW_VET_DECIDES && !settled)
        g_ptr_array_add (open, sw_finding_copy (finding));
    }
  sw_findings_sort (open);
  return open;
}
