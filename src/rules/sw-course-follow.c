/* sw-course-follow.c: another injection into a tumour, and what a score allows next
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course.h"

#include "sw-definitions.h"
#include "sw-response.h"

/* What was done to one tumour before this course. */
typedef struct
{
  gint64 injections;
  gint64 course; /* of the last one */
  SwDay day;     /* of the last one */
} Treated;

static Treated
treated_before (const SwCase *c, gint64 tumour)
{
  Treated treated = { 0, 0, SW_NO_DAY };
  const SwInjectionTumour *row;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    {
      const SwInjection *injection = sw_dossier_injection (c->dossier, row->course);

      if (row->tumour != tumour || row->course == c->course || row->given_nl <= 0 || injection == NULL)
        continue;
      treated.injections++;
      if (injection->day >= treated.day)
        treated = (Treated) { treated.injections, row->course, injection->day };
    }
  return treated;
}

static SwFinding *
add_finding (GPtrArray *findings, const SwCase *c, SwFindingCode code, gint64 tumour)
{
  SwFinding *finding = sw_finding_new (code);
  g_autofree char *letter = sw_case_letter (c, tumour);

  finding->tumour = tumour;
  sw_finding_text (finding, "tumour", letter);
  g_ptr_array_add (findings, finding);
  return finding;
}

/* A tumour that came back after its complete response may be treated again. */
static gboolean
has_come_back (const SwCase *c, gint64 tumour, SwDay since)
{
  const SwRecurrence *row;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    if (row->tumour == tumour && row->day >= since)
      return TRUE;
  return FALSE;
}

/* The later of the protocol's day after the injection and so many days after the score, since the lead-in begins only
 * then. */
static void
check_earliest (GPtrArray *findings, const SwCase *c, gint64 tumour, const Treated *treated, SwDay scored,
                SwDay treat_day)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  SwDay earliest = scored;
  SwFinding *finding;

  if (protocol->retreat_after_score_days != SW_UNKNOWN)
    earliest = scored + protocol->retreat_after_score_days;
  if (protocol->retreat_day != SW_UNKNOWN)
    earliest = MAX (earliest, treated->day + protocol->retreat_day);
  if (treat_day >= earliest)
    return;
  finding = add_finding (findings, c, SW_FINDING_SECOND_TOO_EARLY, tumour);
  sw_finding_day (finding, "value", treat_day);
  sw_finding_day (finding, "limit", earliest);
}

static void
check_tumour (GPtrArray *findings, const SwCase *c, gint64 tumour, SwDay treat_day)
{
  Treated treated = treated_before (c, tumour);
  const SwScore *score;

  if (treated.injections == 0)
    return;
  score = sw_course_last_score (c->dossier, treated.course, tumour);
  if (score == NULL || score->category == SW_CATEGORY_NOT_EVALUABLE)
    {
      sw_finding_day (add_finding (findings, c, SW_FINDING_NOT_SCORED, tumour), "date", treated.day);
      return;
    }
  if (score->category == SW_CATEGORY_COMPLETE && !has_come_back (c, tumour, score->day))
    sw_finding_day (add_finding (findings, c, SW_FINDING_COMPLETE_RESPONSE, tumour), "date", score->day);
  check_earliest (findings, c, tumour, &treated, score->day, treat_day);
  if (treated.injections + 1 >= sw_definition_whole (SW_DEF_REASON_FROM_INJECTION))
    sw_finding_count (add_finding (findings, c, SW_FINDING_THIRD_INJECTION, tumour), "value", treated.injections + 1);
}

GPtrArray *
sw_course_follow_findings (const SwCase *c, SwDay treat_day)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);
  GPtrArray *findings = sw_findings_new ();

  for (guint i = 0; sw_case_protocol (c) != NULL && i < tumours->len; i++)
    check_tumour (findings, c, g_array_index (tumours, gint64, i), treat_day);
  return findings;
}

SwFinding *
sw_course_next_step (const SwCase *c, gint64 tumour)
{
  const SwScore *score = sw_course_last_score (c->dossier, c->course, tumour);
  g_autoptr (SwResponse) response = score != NULL ? sw_response_of_tumour (c, tumour, score->day, NULL) : NULL;

  return response != NULL ? g_steal_pointer (&response->next) : NULL;
}
