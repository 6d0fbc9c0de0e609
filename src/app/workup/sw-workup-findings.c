/* sw-workup-findings.c: what a work-up has found so far, and where on the page each finding is settled
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-findings.h"

#include "sw-course.h"
#include "sw-gate.h"
#include "sw-interaction.h"
#include "sw-suitability.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Findings that say by their code alone where they are settled. */
static const struct
{
  SwFindingCode code;
  SwPlaceKind kind;
  const char *question;
} places[] = {
  { SW_FINDING_OTHER_SPECIES, SW_PLACE_PATIENT_DETAILS, NULL },
  { SW_FINDING_AGE_NOT_KNOWN, SW_PLACE_PATIENT_DETAILS, NULL },
  { SW_FINDING_TOO_YOUNG, SW_PLACE_PATIENT_DETAILS, NULL },
  { SW_FINDING_WRONG_PLACE, SW_PLACE_TUMOUR_DETAILS, NULL },
  { SW_FINDING_FUNCTION_REGION, SW_PLACE_TUMOUR_DETAILS, NULL },
  { SW_FINDING_NOT_MEASURED, SW_PLACE_READINGS, NULL },
  { SW_FINDING_TUMOUR_TOO_LARGE, SW_PLACE_READINGS, NULL },
  { SW_FINDING_GROWN, SW_PLACE_READINGS, NULL },
  { SW_FINDING_XYLITOL_PLANNED, SW_PLACE_QUESTION, "packs-xylitol" },
  { SW_FINDING_MEDICINE_STOP, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_MEDICINE_VET_DECIDES, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_MEDICINE_NOTED, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_WASHOUT_BEFORE, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_WASHOUT_AFTER, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_WASHOUT_NOT_KNOWN, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_TOO_NEAR, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_TOO_NEAR_NO_DATE, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_CORTICOSTEROID_TAKEN, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_SAME_KIND_TAKEN, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_DOUBLED, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_MIXED_PACK, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_MIXED_NOT_KNOWN, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_XYLITOL, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_NOT_CHECKED, SW_PLACE_MEDICINES, NULL },
  { SW_FINDING_NO_TUMOUR, SW_PLACE_COURSE, NULL },
  { SW_FINDING_NO_COURSE, SW_PLACE_COURSE, NULL },
  { SW_FINDING_NO_CONSENT, SW_PLACE_CONSENT, NULL },
  { SW_FINDING_CONSENT_WITHDRAWN, SW_PLACE_CONSENT, NULL },
  { SW_FINDING_CONSENT_INCOMPLETE, SW_PLACE_CONSENT, NULL },
  { SW_FINDING_CONSENT_OFF_LABEL, SW_PLACE_CONSENT, NULL },
  { SW_FINDING_NO_PLANNING_WEIGHT, SW_PLACE_WEIGHT, NULL },
  { SW_FINDING_PLANNING_WEIGHT_OLD, SW_PLACE_WEIGHT, NULL },
  { SW_FINDING_NO_INTERACTIONS, SW_PLACE_PRACTICE, NULL },
  { SW_FINDING_NOT_ADOPTED, SW_PLACE_PRACTICE, NULL },
  { SW_FINDING_OTHER_REVISION, SW_PLACE_PRACTICE, NULL },
  { SW_FINDING_NO_MEDICINE_DOCUMENT, SW_PLACE_PRACTICE, NULL },
  { SW_FINDING_NO_TABLET_FITS, SW_PLACE_LEAD_IN, NULL },
  { SW_FINDING_NOT_LISTED, SW_PLACE_LEAD_IN, NULL },
  { SW_FINDING_TABLET_DEVIATES, SW_PLACE_LEAD_IN, NULL },
  { SW_FINDING_LEAD_IN_TOO_LATE, SW_PLACE_LEAD_IN, NULL },
  { SW_FINDING_SECOND_TOO_EARLY, SW_PLACE_LEAD_IN, NULL },
  { SW_FINDING_NOT_SCORED, SW_PLACE_RESPONSE, NULL },
};

/* Facts that are met say what they are about. */
static const struct
{
  const char *about;
  SwPlaceKind kind;
} facts[] = {
  { "species", SW_PLACE_PATIENT_DETAILS },
  { "age", SW_PLACE_PATIENT_DETAILS },
  { "place", SW_PLACE_TUMOUR_DETAILS },
  { "volume", SW_PLACE_READINGS },
};

static const char *const acts[SW_N_PLACES] = {
  [SW_PLACE_QUESTION] = N_("Answer It"),
  [SW_PLACE_READINGS] = N_("Measure"),
  [SW_PLACE_MEDICINES] = N_("See the Medicine"),
  [SW_PLACE_COURSE] = N_("See the Course"),
  [SW_PLACE_CONSENT] = N_("See the Consent"),
  [SW_PLACE_TUMOUR_DETAILS] = N_("Correct the Tumour"),
  [SW_PLACE_PATIENT_DETAILS] = N_("Correct the Patient"),
  [SW_PLACE_WEIGHT] = N_("Weigh"),
  [SW_PLACE_PRACTICE] = N_("Go to Practice"),
  [SW_PLACE_LEAD_IN] = N_("Go to Lead-in"),
  [SW_PLACE_RESPONSE] = N_("Go to Response"),
};

const char *
sw_place_act (SwPlaceKind kind, SwSeverity severity)
{
  if (kind == SW_PLACE_QUESTION && severity != SW_NOT_KNOWN)
    return _("See the Answer");
  return acts[kind] != NULL ? _(acts[kind]) : NULL;
}

/* An interaction with a disease or a vaccine is settled where that is asked: about is "row/substance". */
static const SwQuestion *
question_of_interaction (const SwCase *c, const char *about)
{
  const SwInteractions *document = sw_books_interactions (c->books);
  g_autofree char *id = g_strndup (about, strcspn (about, "/"));
  const SwInteraction *row = document != NULL ? sw_interactions_row (document, id) : NULL;
  g_autofree char *code = NULL;

  if (row == NULL || row->b_is != SW_PARTY_FACT)
    return NULL;
  code = g_strndup (row->b, strcspn (row->b, "/"));
  return sw_question (code);
}

static const SwQuestion *
question_of_finding (const SwCase *c, const SwFinding *finding)
{
  const SwQuestion *question = finding->about != NULL ? sw_question (finding->about) : NULL;

  if (question == NULL && finding->about != NULL)
    question = question_of_interaction (c, finding->about);
  return question;
}

SwPlace
sw_place_of_finding (const SwCase *c, const SwFinding *finding)
{
  SwPlace place = { SW_PLACE_NOWHERE, question_of_finding (c, finding), finding->tumour };

  if (place.question != NULL)
    {
      place.kind = place.question->at == SW_ASKED_AT_WORK_UP ? SW_PLACE_QUESTION : SW_PLACE_NOWHERE;
      return place;
    }
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    if (places[i].code == finding->code)
      {
        place.kind = places[i].kind;
        place.question = places[i].question != NULL ? sw_question (places[i].question) : NULL;
        return place;
      }
  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    if (g_strcmp0 (facts[i].about, finding->about) == 0)
      place.kind = facts[i].kind;
  return place;
}

gboolean
sw_finding_is_about_substance (const SwFinding *finding, const char *substance)
{
  const char *slash = finding->about != NULL ? strchr (finding->about, '/') : NULL;
  g_auto (GStrv) names = NULL;

  if (slash == NULL)
    return g_strcmp0 (finding->about, substance) == 0;
  names = g_strsplit (slash + 1, "+", -1);
  return g_strv_contains ((const char *const *) names, substance);
}

static gboolean
is_same (const SwFinding *a, const SwFinding *b)
{
  return a->code == b->code && a->tumour == b->tumour && g_strcmp0 (a->about, b->about) == 0;
}

/* Takes `more`, but not what is there already: gate A asks some of the rules again. */
static void
take (GPtrArray *findings, GPtrArray *more)
{
  for (guint i = 0; i < more->len; i++)
    {
      gboolean there = FALSE;

      for (guint k = 0; k < findings->len && !there; k++)
        there = is_same (findings->pdata[k], more->pdata[i]);
      if (!there)
        g_ptr_array_add (findings, sw_finding_copy (more->pdata[i]));
    }
  g_ptr_array_unref (more);
}

static void
take_suitability (const SwCase *c, GPtrArray *findings)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);

  take (findings, sw_suitability_of_dog (c));
  for (guint i = 0; i < tumours->len; i++)
    take (findings, sw_suitability_of_tumour (c, g_array_index (tumours, gint64, i)));
}

/* Before a plan is signed gate A stands before it; afterwards the facts go on to be asked, for gate B. */
static void
find (const SwCase *c, GPtrArray *findings)
{
  SwPlan *draft;

  take_suitability (c, findings);
  if (sw_case_plan (c) != NULL)
    {
      take (findings, sw_interactions_check (c));
      return;
    }
  draft = sw_course_draft_plan (c);
  take (findings, sw_interactions_of_plan (c, draft->treat_day, draft->choices));
  take (findings, sw_gate_a (c, draft));
  sw_fact_free (draft);
}

SwWorkUp *
sw_work_up_new (const SwPageContext *context)
{
  SwWorkUp *self = g_new0 (SwWorkUp, 1);

  self->context = context;
  self->c = sw_page_context_case (context);
  self->findings = sw_findings_new ();
  if (sw_case_protocol (&self->c) != NULL && sw_course_stage (&self->c) <= SW_STAGE_TREATMENT_DAY)
    find (&self->c, self->findings);
  self->open = sw_findings_open (&self->c, self->findings);
  return self;
}

void
sw_work_up_free (SwWorkUp *self)
{
  g_ptr_array_unref (self->findings);
  g_ptr_array_unref (self->open);
  g_free (self);
}

const SwFinding *
sw_work_up_of_question (const SwWorkUp *self, const SwQuestion *question, gint64 tumour)
{
  const SwFinding *worst = NULL;

  for (guint i = 0; i < self->findings->len; i++)
    {
      const SwFinding *finding = self->findings->pdata[i];
      SwPlace place = sw_place_of_finding (&self->c, finding);

      if (place.question == question && place.tumour == tumour && (worst == NULL || finding->severity > worst->severity))
        worst = finding;
    }
  return worst;
}
