/* sw-gate.c: the two gates, put together from their conditions
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-gate-private.h"

#include "sw-course.h"
#include "sw-definitions.h"
#include "sw-interaction.h"
#include "sw-move.h"
#include "sw-schedule.h"
#include "sw-suitability.h"

SwFinding *
sw_gate_find (SwGateAsk *ask, SwFindingCode code)
{
  SwFinding *finding = sw_finding_new (code);

  g_ptr_array_add (ask->findings, finding);
  return finding;
}

SwFinding *
sw_gate_find_tumour (SwGateAsk *ask, SwFindingCode code, gint64 tumour)
{
  SwFinding *finding = sw_gate_find (ask, code);
  g_autofree char *letter = sw_case_letter (ask->c, tumour);

  finding->tumour = tumour;
  sw_finding_text (finding, "tumour", letter);
  return finding;
}

void
sw_gate_take (SwGateAsk *ask, GPtrArray *findings)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (finding->severity != SW_MEETS)
        g_ptr_array_add (ask->findings, sw_finding_copy (finding));
    }
  g_ptr_array_unref (findings);
}

void
sw_gate_suitability (SwGateAsk *ask)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (ask->c->dossier, ask->c->course);

  if (tumours->len == 0)
    sw_gate_find (ask, SW_FINDING_NO_TUMOUR);
  sw_gate_take (ask, sw_suitability_of_dog (ask->c));
  for (guint i = 0; i < tumours->len; i++)
    sw_gate_take (ask, sw_suitability_of_tumour (ask->c, g_array_index (tumours, gint64, i)));
}

/* The points of the conversation that were left out, as words. */
static char *
missing_points (gint64 points)
{
  GString *text = g_string_new (NULL);

  for (int bit = 1; bit <= SW_CONSENT_ALL_POINTS; bit *= 2)
    if ((points & bit) == 0)
      g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", sw_consent_point_name ((SwConsentPoint) bit));
  return g_string_free (text, FALSE);
}

static void
check_points (SwGateAsk *ask, const SwConsent *consent)
{
  g_autofree char *missing = missing_points (consent->points);

  if (*missing != '\0')
    sw_finding_text (sw_gate_find (ask, SW_FINDING_CONSENT_INCOMPLETE), "points", missing);
  /* The H1 and H2 blockers of the day are tablets for people, so every plan that has them is off-label in part. */
  if (!consent->off_label && ask->protocol->gate.day_groups != NULL && ask->protocol->gate.day_groups[0] != NULL)
    sw_gate_find (ask, SW_FINDING_CONSENT_OFF_LABEL);
}

void
sw_gate_consent (SwGateAsk *ask)
{
  const SwConsent *consent = sw_facts_of_course (&ask->c->dossier->facts, SW_FACT_CONSENT, ask->c->course);
  SwFinding *finding;

  if (consent == NULL)
    sw_gate_find (ask, SW_FINDING_NO_CONSENT);
  else if (consent->state == SW_CONSENT_GIVEN)
    check_points (ask, consent);
  else
    {
      finding = sw_gate_find (ask, SW_FINDING_CONSENT_WITHDRAWN);
      sw_finding_text (finding, "signer", consent->signer);
      sw_finding_day (finding, "date", consent->day);
    }
}

/* Gate A */

static void
find_not_adopted (SwGateAsk *ask, const char *document)
{
  SwFinding *finding = sw_gate_find (ask, SW_FINDING_NOT_ADOPTED);

  finding->about = g_strdup (document);
  sw_finding_text (finding, "document", document);
}

static void
check_protocol_adopted (SwGateAsk *ask)
{
  const char *id = ask->protocol->head.id;
  const SwDocument *adopted = sw_practice_adopted (ask->c->practice, SW_DOCUMENT_PROTOCOL, id);
  SwFinding *finding;

  if (adopted == NULL)
    find_not_adopted (ask, id);
  else if (adopted->fact.id != sw_case_details (ask->c)->document)
    {
      finding = sw_gate_find (ask, SW_FINDING_OTHER_REVISION);
      sw_finding_text (finding, "document", id);
      sw_finding_text (finding, "value", ask->protocol->head.revision);
      sw_finding_text (finding, "limit", adopted->revision);
    }
}

static void
check_adopted (SwGateAsk *ask, SwDocumentKind kind, const char *id)
{
  if (sw_practice_adopted (ask->c->practice, kind, id) == NULL)
    find_not_adopted (ask, id);
}

/* The protocol, the interactions, and the document of each planned medicine. */
static void
check_documents (SwGateAsk *ask, const SwSchedule *schedule)
{
  const SwInteractions *interactions = sw_books_interactions (ask->c->books);
  const char *before = NULL;

  check_protocol_adopted (ask);
  check_adopted (ask, SW_DOCUMENT_INTERACTIONS, interactions != NULL ? interactions->head.id : "interactions");
  for (guint i = 0; i < schedule->lines->len; i++)
    {
      const SwScheduleLine *line = schedule->lines->pdata[i];

      if (before == NULL || !g_str_equal (before, line->substance))
        check_adopted (ask, SW_DOCUMENT_MEDICINE, line->substance);
      before = line->substance;
    }
}

/* Whether there is a weight to plan with; its age is said when it is too old. */
static gboolean
check_planning_weight (SwGateAsk *ask)
{
  const SwWeight *weight = sw_facts_by_id (&ask->c->dossier->facts, SW_FACT_WEIGHT, ask->plan->weight);
  gint64 limit = sw_definition_whole (SW_DEF_WEIGHT_AGE);
  SwFinding *finding;

  if (weight == NULL || !sw_fact_is_current (weight))
    {
      sw_gate_find (ask, SW_FINDING_NO_PLANNING_WEIGHT);
      return FALSE;
    }
  if (ask->c->now.day - weight->day > limit)
    {
      finding = sw_gate_find (ask, SW_FINDING_PLANNING_WEIGHT_OLD);
      sw_finding_count (finding, "value", ask->c->now.day - weight->day);
      sw_finding_count (finding, "limit", limit);
    }
  return TRUE;
}

static void
check_medicines (SwGateAsk *ask)
{
  const SwWeight *weight = sw_facts_by_id (&ask->c->dossier->facts, SW_FACT_WEIGHT, ask->plan->weight);
  SwScheduleOrder order = sw_schedule_order (ask->c, ask->plan->treat_day, weight->grams, ask->plan->choices);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&order);

  sw_gate_take (ask, g_ptr_array_ref (schedule->findings));
  check_documents (ask, schedule);
}

GPtrArray *
sw_gate_a (const SwCase *c, const SwPlan *plan)
{
  SwGateAsk ask = { c, sw_case_protocol (c), plan, sw_findings_new () };
  SwFinding *refused;

  if (ask.protocol == NULL)
    {
      sw_gate_find (&ask, SW_FINDING_NO_COURSE)->severity = SW_STOP;
      return ask.findings;
    }
  sw_gate_suitability (&ask);
  sw_gate_take (&ask, sw_interactions_of_plan (c, plan->treat_day, plan->choices));
  sw_gate_consent (&ask);
  if (check_planning_weight (&ask))
    check_medicines (&ask);
  refused = sw_move_day_refused (c, plan->treat_day);
  if (refused != NULL)
    g_ptr_array_add (ask.findings, refused);
  sw_gate_take (&ask, sw_course_follow_findings (c, plan->treat_day));
  return ask.findings;
}

/* Gate B */

static void
check_day (SwGateAsk *ask)
{
  SwFinding *finding;

  if (ask->plan == NULL)
    sw_gate_find (ask, SW_FINDING_NO_PLAN);
  else if (ask->plan->treat_day != ask->c->now.day)
    {
      finding = sw_gate_find (ask, SW_FINDING_OTHER_DAY);
      sw_finding_day (finding, "value", ask->c->now.day);
      sw_finding_day (finding, "limit", ask->plan->treat_day);
    }
}

/* A release ends with the practice's day. */
static void
check_release (SwGateAsk *ask)
{
  const SwRelease *release = sw_dossier_release (ask->c->dossier, ask->c->course);
  SwFinding *finding;

  if (release == NULL)
    sw_gate_find (ask, SW_FINDING_NOT_RELEASED);
  else if (release->day != ask->c->now.day)
    {
      finding = sw_gate_find (ask, SW_FINDING_RELEASE_OVER);
      sw_finding_day (finding, "value", ask->c->now.day);
      sw_finding_day (finding, "limit", release->day);
    }
}

static void
check_over (SwGateAsk *ask)
{
  const SwCourseEnd *end = sw_case_end (ask->c);

  if (end != NULL)
    sw_finding_day (sw_gate_find (ask, SW_FINDING_COURSE_OVER), "date", end->day);
}

GPtrArray *
sw_gate_b (const SwCase *c, SwGateMoment moment)
{
  SwGateAsk ask = { c, sw_case_protocol (c), sw_case_plan (c), sw_findings_new () };

  if (ask.protocol == NULL)
    {
      sw_gate_find (&ask, SW_FINDING_NO_COURSE)->severity = SW_STOP;
      return ask.findings;
    }
  check_over (&ask);
  check_day (&ask);
  sw_gate_doses (&ask);
  sw_gate_measures (&ask);
  sw_gate_questions (&ask);
  sw_gate_suitability (&ask);
  sw_gate_take (&ask, sw_interactions_check (c));
  sw_gate_consent (&ask);
  sw_gate_read_aloud (&ask);
  if (moment == SW_GATE_AT_INJECTION)
    check_release (&ask);
  return ask.findings;
}

gboolean
sw_gate_passes (const SwCase *c, GPtrArray *findings)
{
  g_autoptr (GPtrArray) open = sw_findings_open (c, findings);

  return open->len == 0;
}
