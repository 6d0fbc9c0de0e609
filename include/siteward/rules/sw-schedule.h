/* sw-schedule.h: the medicine plan of a course, in day numbers round the day of injection (domain 3.1, 3.2)
 *
 * Protocol groups x chosen substances x weight x day 0 x the practice's hours give the planned doses, each with its
 * tablets from the strengths in stock. Pure: the same for the record and for the command line. A substance for which
 * no stocked strength fits is refused by a finding that names the listed substances that do fit.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"

G_BEGIN_DECLS

typedef struct
{
  const SwProtocol *protocol;
  const SwBooks *books;
  const SwPractice *practice; /* hours and stocked strengths; without a record an empty one: the defaults */
  gint64 grams;
  SwDay treat_day;     /* day 0 */
  const char *choices; /* "h1=chlorphenamine;h2=famotidine"; a group not named takes its first alternative; or NULL */
} SwScheduleOrder;

/* One medicine over one run of days: a row of the plan's table. */
typedef struct
{
  char *group;
  char *substance;
  gint64 first_number; /* day numbers, both ends count */
  gint64 last_number;
  gint64 every_minutes;
  guint count;            /* doses in the run */
  gint64 target_ug;       /* floored, for show */
  gint64 dose_ug;         /* what is given */
  gint64 strength_ug;     /* SW_UNKNOWN for a liquid */
  gint64 halves;          /* half tablets in one dose; SW_UNKNOWN for a liquid */
  gint64 volume_nl;       /* SW_UNKNOWN for tablets */
  gint64 deviation_milli; /* from the target, thousandths, rounded: +16 is +1.6 % */
  const SwFigure *figure; /* the dose in the document: source and mark */
} SwScheduleLine;

typedef struct
{
  GPtrArray *lines;    /* SwScheduleLine */
  GPtrArray *doses;    /* SwDosePlan by due time; course, dose and plan are still 0 */
  GPtrArray *findings; /* a finding of severity SW_STOP: no plan */
  char *choices;       /* complete: every group named */
} SwSchedule;

SwSchedule *sw_schedule_new (const SwScheduleOrder *order);
void sw_schedule_free (SwSchedule *schedule);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSchedule, sw_schedule_free)

/* "h1=chlorphenamine;h2=famotidine" -> the substance of a group, NULL if it is not named. (transfer full) */
char *sw_choices_get (const char *choices, const char *group);
/* The same text with one group's substance set. (transfer full) */
char *sw_choices_set (const char *choices, const char *group, const char *substance);

/* The order for a course of the record. */
SwScheduleOrder sw_schedule_order (const SwCase *c, SwDay treat_day, gint64 grams, const char *choices);

/* The facts of signing: the plan (transfer full) as fact 1, then each dose and its row, which refer to it by -1.
 * (transfer full) */
GPtrArray *sw_schedule_facts (const SwSchedule *schedule, SwPlan *plan);

/* One dose of a line: `minute` of that day, 1440 and more on the next. Its course, dose and plan are still 0.
 * (transfer full) */
SwDosePlan *sw_schedule_dose (const SwScheduleLine *line, SwDay treat_day, gint64 day_number, gint64 minute);

/* Appends each dose and its row for these SwDosePlan values; `plan` is the row, or -n. */
void sw_schedule_append_doses (GPtrArray *facts, const GPtrArray *doses, gint64 patient, gint64 course, gint64 plan);

/* What to dispense, per substance and strength (transfer full) SwDispense: whole tablets rounded up, the other half
 * kept for the next dose; liquids in nL. Hand in the doses that are given at home. */
typedef struct
{
  char *substance;
  gint64 strength_ug; /* SW_UNKNOWN for a liquid */
  gint64 halves;      /* needed */
  gint64 tablets;     /* whole tablets to hand out */
  gint64 volume_nl;   /* liquids; else 0 */
  guint doses;
} SwDispense;

GPtrArray *sw_schedule_dispense (const GPtrArray *doses);

/* Whether what a planned dose gives still lies in its medicine's range at this weight. */
gboolean sw_dose_in_range (const SwCase *c, const SwDosePlan *dose, gint64 grams);

G_END_DECLS
