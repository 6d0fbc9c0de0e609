/* sw-move.h: changing a signed plan: moving the day, another weight, another choice, a replacement dose, cancelling
 * (domain 5)
 *
 * Each answers with a preview: what was found, what changes in words, and the facts that make it so. Doses already
 * due or told stay as recorded; doses not yet due are withdrawn and planned anew. Nothing here is done after the
 * injection.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding.h"
#include "sw-schedule.h"

G_BEGIN_DECLS

typedef enum
{
  SW_MOVE_UNDECIDED, /* the rule decides while the delay allows it */
  SW_MOVE_GO_ON,     /* the corticosteroid goes on without a gap, H1 and H2 that have begun too */
  SW_MOVE_ANEW,      /* stop, and lead in again two days before the new day */
} SwMoveWay;

typedef struct
{
  SwDay treat_day;
  SwMoveWay way;
  const char *reason;
  const char *vet_orders; /* the taper, when the corticosteroid runs over 14 days */
} SwMoveOrder;

typedef struct
{
  SwDay treat_day;
  SwPlanCause cause;
  gboolean vet_only;   /* only a vet may do this */
  GPtrArray *findings; /* anything at or over SW_VET_DECIDES stands in the way */
  GPtrArray *changes;  /* char *: what changes, a sentence each */
  GPtrArray *facts;    /* SwPlan first, then withdrawals, doses and their rows; empty when refused */
} SwReplan;

void sw_replan_free (SwReplan *replan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwReplan, sw_replan_free)

SwReplan *sw_move_preview (const SwCase *c, const SwMoveOrder *order);

/* The first day on which gate B's count can hold, counted from today. `nearer` (transfer full, may be NULL): why each
 * nearer day cannot. */
SwDay sw_move_first_day (const SwCase *c, GPtrArray **nearer);

/* Why gate B's count can't hold with this day 0: a dose lost or past, or a lead-in that would have to begin in the
 * past. NULL: it can. Needs a course. (transfer full) */
SwFinding *sw_move_day_refused (const SwCase *c, SwDay treat_day);

/* Every remaining medicine that leaves its range at another weight is recomputed; the rest stays as it is. */
SwReplan *sw_replan_weight (const SwCase *c, const SwWeight *weight);

/* Another substance for a group, from the doses not yet due on. */
SwReplan *sw_replan_choices (const SwCase *c, const char *choices, const char *reason);

/* The vet's replacement of one missed or vomited dose, due at a time: facts are the new dose and its row. */
SwReplan *sw_replace_dose (const SwCase *c, gint64 dose, SwMoment due);

/* The course ends. A death cancels every dose to come; after the injection nothing else does. Before it that cancels
 * the course: doses not yet due are withdrawn; once the lead-in has begun the vet's order (taper or stop) is needed,
 * and the NSAID washout starts. `end` is transfer full and becomes the last fact. */
SwReplan *sw_cancel_course (const SwCase *c, SwCourseEnd *end);

G_END_DECLS
