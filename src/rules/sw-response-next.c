/* sw-response-next.c: what a score means: its flags, its notes and the next step
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-response-private.h"

#include <glib/gi18n-lib.h>

static SwFinding *
new_finding (SwFindingCode code, const SwScoring *scoring, SwDefinitionId basis)
{
  SwFinding *finding = sw_finding_new (code);
  const SwDefinition *definition = sw_definition (basis);

  finding->tumour = scoring->tumour;
  sw_finding_basis (finding, definition->source, definition->mark);
  return finding;
}

static void
count_definition (SwFinding *finding, const char *name, SwDefinitionId id)
{
  sw_finding_count (finding, name, sw_definition_whole (id));
}

static SwFinding *
next_after_complete (const SwScoring *scoring)
{
  SwFinding *next = new_finding (SW_FINDING_NEXT_NOTHING, scoring, SW_DEF_WATCH_FIRST);

  count_definition (next, "first", SW_DEF_WATCH_FIRST);
  count_definition (next, "second", SW_DEF_WATCH_SECOND);
  count_definition (next, "every", SW_DEF_WATCH_EVERY_MONTHS);
  count_definition (next, "months", SW_DEF_WATCH_MONTHS);
  return next;
}

static SwFinding *
next_unjudged (const SwScoring *scoring)
{
  SwFinding *next;

  if (scoring->course_day != SW_UNKNOWN && scoring->course_day >= sw_definition_whole (SW_DEF_SAMPLE_FROM_DAY))
    {
      next = new_finding (SW_FINDING_NEXT_SAMPLE, scoring, SW_DEF_SAMPLE_FROM_DAY);
      sw_finding_count (next, "value", scoring->course_day);
      count_definition (next, "limit", SW_DEF_SAMPLE_FROM_DAY);
      return next;
    }
  next = new_finding (SW_FINDING_NEXT_LOOK_AGAIN, scoring, SW_DEF_LOOK_AGAIN_FIRST);
  count_definition (next, "first", SW_DEF_LOOK_AGAIN_FIRST);
  count_definition (next, "last", SW_DEF_LOOK_AGAIN_LAST);
  return next;
}

/* The later of the protocol's day and so many days after the score: the lead-in begins only then. */
static SwDay
earliest_second (const SwScoring *scoring)
{
  const SwProtocol *protocol = scoring->protocol;

  if (protocol == NULL || scoring->score_day == SW_NO_DAY || scoring->course_day == SW_UNKNOWN
      || protocol->retreat_day == SW_UNKNOWN || protocol->retreat_after_score_days == SW_UNKNOWN)
    return SW_NO_DAY;
  return MAX (scoring->score_day - scoring->course_day + protocol->retreat_day,
              scoring->score_day + protocol->retreat_after_score_days);
}

static SwFinding *
next_injection (const SwScoring *scoring)
{
  gboolean many = scoring->injections + 1 >= sw_definition_whole (SW_DEF_REASON_FROM_INJECTION);
  SwFinding *next =
      new_finding (many ? SW_FINDING_NEXT_THIRD : SW_FINDING_NEXT_SECOND, scoring, SW_DEF_REASON_FROM_INJECTION);
  SwDay earliest = earliest_second (scoring);

  if (many)
    sw_finding_count (next, "count", scoring->injections);
  if (earliest == SW_NO_DAY)
    sw_finding_text (next, "when", _("the day that its protocol names"));
  else
    sw_finding_day (next, "when", earliest);
  return next;
}

static gboolean
is_growing (const SwFamilyScore *score)
{
  int order;

  return score->has_now && sw_ratio_compare (score->now, score->smallest, &order) && order > 0;
}

static SwFinding *
next_with_tumour_left (const SwResponse *response, const SwScoring *scoring)
{
  if (!scoring->wound_open)
    return next_injection (scoring);
  if (is_growing (&response->family[SW_FAMILY_LONGEST]))
    return new_finding (SW_FINDING_NEXT_REFER, scoring, SW_DEF_PROGRESSIVE_LONGEST);
  return new_finding (SW_FINDING_NEXT_WHEN_CLOSED, scoring, SW_DEF_PROGRESSIVE_LONGEST);
}

static SwFinding *
next_step (const SwResponse *response, const SwScoring *scoring)
{
  switch (response->category)
    {
    case SW_CATEGORY_COMPLETE:
      return next_after_complete (scoring);
    case SW_CATEGORY_PARTIAL:
    case SW_CATEGORY_STABLE:
    case SW_CATEGORY_NON_CR_NON_PD:
      return next_with_tumour_left (response, scoring);
    case SW_CATEGORY_PROGRESSIVE:
      return new_finding (SW_FINDING_NEXT_STAGE, scoring, SW_DEF_PROGRESSIVE_LONGEST);
    case SW_CATEGORY_RECURRENCE:
      return new_finding (SW_FINDING_NEXT_RECURRENCE, scoring, SW_DEF_PROGRESSIVE_LONGEST);
    case SW_CATEGORY_NOT_EVALUABLE:
    case SW_N_CATEGORIES:
      break;
    }
  return next_unjudged (scoring);
}

static void
conclude_window (SwResponse *response, const SwScoring *scoring)
{
  const SwProtocol *protocol = scoring->protocol;
  SwFinding *finding;

  if (protocol == NULL || scoring->course_day == SW_UNKNOWN)
    return;
  response->counts_as_day_28 = scoring->course_day >= protocol->score_first_day
                               && scoring->course_day <= protocol->score_last_day;
  if (response->counts_as_day_28)
    return;
  finding = sw_finding_new (SW_FINDING_OUTSIDE_DAY_28);
  finding->tumour = scoring->tumour;
  sw_finding_count (finding, "value", scoring->course_day);
  sw_finding_count (finding, "first", protocol->score_first_day);
  sw_finding_count (finding, "last", protocol->score_last_day);
  sw_finding_count (finding, "limit", protocol->score_day);
  g_ptr_array_add (response->findings, finding);
}

/* The least change that is no reading error: so many technical errors of the baseline axis, 0.01 mm. */
static gboolean
detectable_change (SwRatio baseline, gint64 reader_error, SwRatio *change)
{
  return sw_ratio_mul (baseline, sw_ratio (reader_error, SW_PER_MILLE), change)
         && sw_ratio_mul (*change, sw_definition_ratio (SW_DEF_DETECTABLE), change);
}

static void
conclude_detectable (SwResponse *response, const SwScoring *scoring)
{
  const SwFamilyScore *score = &response->family[SW_FAMILY_LONGEST];
  SwRatio change, least, hundred = sw_ratio (SW_PER_CENT, 1);
  SwFinding *finding;
  int order;

  response->detectable = TRUE;
  if (scoring->reader_error <= 0 || !score->has_now || score->now.num == 0
      || !sw_ratio_sub (score->now, score->baseline, &change)
      || !detectable_change (score->baseline, scoring->reader_error, &least))
    return;
  if (change.num < 0)
    change.num = -change.num;
  if (!sw_ratio_compare (change, least, &order) || order >= 0
      || !sw_ratio_div (change, hundred, &change) || !sw_ratio_div (least, hundred, &least))
    return;
  response->detectable = FALSE;
  finding = new_finding (SW_FINDING_BELOW_DETECTABLE, scoring, SW_DEF_DETECTABLE);
  sw_finding_ratio (finding, "value", change.num, change.den, "mm");
  sw_finding_ratio (finding, "limit", least.num, least.den, "mm");
  g_ptr_array_add (response->findings, finding);
}

static void
conclude_category (SwResponse *response, const SwScoring *scoring)
{
  response->wound_open = response->category == SW_CATEGORY_COMPLETE && scoring->wound_open;
  response->presumed = response->category == SW_CATEGORY_RECURRENCE && !scoring->sampled;
  if (response->wound_open)
    g_ptr_array_add (response->findings, new_finding (SW_FINDING_CR_WOUND_OPEN, scoring, SW_DEF_PARTIAL_LONGEST));
  if (response->presumed)
    g_ptr_array_add (response->findings, new_finding (SW_FINDING_PRESUMED_RECURRENCE, scoring, SW_DEF_PARTIAL_LONGEST));
}

void
sw_response_conclude (SwResponse *response, const SwScoring *scoring)
{
  conclude_category (response, scoring);
  conclude_window (response, scoring);
  conclude_detectable (response, scoring);
  response->next = next_step (response, scoring);
  sw_response_explain (response);
}
