/* sw-dose-state.h: where a planned dose stands, told from its event and the clock (domain 5)
 *
 * Up to 60 minutes either side of due a dose is given; up to half its interval it is late (on the first day of the
 * lead-in until the hour that the document names even past that); beyond, it is missed. Distances are true minutes.
 * Planned, due and not known are never recorded: they follow from "now". All of it [ours]; the figures stand in
 * sw-definitions.c.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"

G_BEGIN_DECLS

typedef enum
{
  SW_STANDING_PLANNED,   /* not yet due */
  SW_STANDING_DUE,       /* within 60 minutes of its time, not told yet */
  SW_STANDING_NOT_KNOWN, /* past due, not told */
  SW_STANDING_GIVEN,
  SW_STANDING_LATE,
  SW_STANDING_MISSED,
  SW_STANDING_VOMITED,
  SW_STANDING_STOPPED,
  SW_N_STANDINGS
} SwStanding;

SwStanding sw_dose_state (const SwCase *c, const SwDosePlan *dose);

/* "given", "not known" ...: translated */
const char *sw_standing_name (SwStanding standing);

/* What an actual time makes of a dose: SW_DOSE_GIVEN, SW_DOSE_LATE or SW_DOSE_MISSED. */
SwDoseState sw_dose_classify (const SwCase *c, const SwDosePlan *dose, SwMoment actual);

/* The moment meant by a clock time told of a dose: that of the day before, the day or the day after which lies nearest to its due time
 * and has come. A time of which none has come yet stays on the due day. */
SwMoment sw_dose_moment_told (const SwDosePlan *dose, int minute, SwMoment now);

/* When it was given: the event's time, its due time where the event has none; SW_NO_MOMENT unless given or late. */
SwMoment sw_dose_actual (const SwCase *c, const SwDosePlan *dose);

SwMoment sw_dose_due (const SwDosePlan *dose);

/* Its day number in the plan now in force: a kept dose counts against the new day 0 once the day has moved. */
gint64 sw_dose_day_number (const SwPlan *plan, const SwDosePlan *dose);

/* Given or late: what gate B counts. */
gboolean sw_dose_is_confirmed (SwStanding standing);

/* Missed, vomited or stopped: it will not become given any more. */
gboolean sw_dose_is_lost (SwStanding standing);

/* The current dose that the vet ordered in its place, or NULL. */
const SwDosePlan *sw_dose_replacement (const SwCase *c, gint64 dose);

/* The doses that vomiting at this time brings up: given or late up to 60 minutes before it. (transfer container)
 * SwDosePlan */
GPtrArray *sw_doses_vomited_at (const SwCase *c, SwMoment vomiting);

G_END_DECLS
