/* sw-replan-private.h: what every change of a signed plan is made of
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding.h"
#include "sw-move.h"

G_BEGIN_DECLS

SwReplan *sw_replan_alloc (SwDay treat_day, SwPlanCause cause);

/* Says "what changes" in a sentence (transfer full). */
void sw_replan_say (SwReplan *replan, char *sentence);

/* A finding with the day argument `date` and its place in the replan's findings (borrowed). */
SwFinding *sw_replan_find (SwReplan *replan, SwFindingCode code);

/* What stands in the way of any change before the needle: no plan, released, injected, ended. */
void sw_replan_check_open (SwReplan *replan, const SwCase *c);

/* Nothing at or over "vet decides" was found. */
gboolean sw_replan_may (const SwReplan *replan);

/* Not yet due and not told: only these may change. */
gboolean sw_dose_is_open (const SwCase *c, const SwDosePlan *dose);

/* Names a dose in a finding: substance, date, time, state. */
void sw_finding_of_dose (SwFinding *finding, const SwCase *c, const SwDosePlan *dose);

/* Two or more doses that gate B asks for with this day 0 are lost; `first` is the day to move to. (transfer full) */
SwFinding *sw_finding_of_lost (const SwCase *c, SwDay treat_day, SwDay first);

/* The schedule of the case's plan with another day, weight or choice; its stops join the findings. */
SwSchedule *sw_replan_schedule (SwReplan *replan, const SwCase *c, SwDay treat_day, gint64 grams, const char *choices);

/* Puts a copy of a text, or none, into a field of a fact. */
void sw_set_text (char **field, const char *text);

/* Grams of a plan's weight row; 0 if it is not there. */
gint64 sw_plan_grams (const SwCase *c, const SwPlan *plan);

G_END_DECLS
