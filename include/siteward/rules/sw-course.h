/* sw-course.h: where a course stands, what is due next, what blocks it, and how it may end (domain 1, 7, 8)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"

G_BEGIN_DECLS

typedef enum
{
  SW_STAGE_WORK_UP,
  SW_STAGE_LEAD_IN,
  SW_STAGE_TREATMENT_DAY, /* day 0 is here, or the dose is released */
  SW_STAGE_OBSERVATION,   /* injected, not discharged */
  SW_STAGE_AFTER,
  SW_STAGE_SCORE_DUE,
  SW_STAGE_WATCH,         /* scored: looks for recurrence or what comes next */
  SW_STAGE_CLOSED,
  SW_N_STAGES
} SwStage;

SwStage sw_course_stage (const SwCase *c);
const char *sw_stage_code (SwStage stage); /* stable: "lead-in" */
int sw_stage_from_code (const char *code); /* -1: unknown */
const char *sw_stage_name (SwStage stage); /* translated */

/* The actual day of injection, else the planned one, else that of a release without a plan; SW_NO_DAY without any. */
SwDay sw_course_day_zero (const SwDossier *dossier, gint64 course);

typedef enum
{
  SW_VISIT_COMING,
  SW_VISIT_DUE,     /* its day has come, its window is open */
  SW_VISIT_OVERDUE, /* its window is over and nobody has looked since */
  SW_VISIT_DONE,
  SW_VISIT_PASSED,  /* not held, but a later one was */
} SwVisitStanding;

typedef struct
{
  gint64 number;  /* day number; 0 is the contact at hour 8 */
  SwDay day;
  int minute;     /* of the contact at hour 8; else 0 */
  SwDay opens;    /* the window in which a visit counts for it */
  SwDay closes;
  SwVisitStanding standing;
  const SwVisit *visit; /* the visit that answers it, or NULL */
} SwVisitSlot;

/* The visit days of a course once injected, recurrence watch among them after a complete response. (transfer full)
 * SwVisitSlot */
GArray *sw_course_visits (const SwCase *c);

/* The next thing somebody must do: an untold dose, the treatment day, a visit, a score. day SW_NO_DAY: nothing
 * (closed, died, no plan). */
SwMoment sw_course_next_due (const SwCase *c);

/* What comes next after the newest score of a tumour in this course (sw-response.h), or NULL while it is not scored.
 * (transfer full) */
SwFinding *sw_course_next_step (const SwCase *c, gint64 tumour);

/* The newest current score of a tumour in a course, or NULL. */
const SwScore *sw_course_last_score (const SwDossier *dossier, gint64 course, gint64 tumour);

/* Whether a course may be opened or planned after another one: days, scores, third injections. For gate A. (transfer
 * full) */
GPtrArray *sw_course_follow_findings (const SwCase *c, SwDay treat_day);

/* Whether it may end this way: lost needs 30 days overdue and two attempts; completed a score; a death its cause.
 * (transfer full) */
GPtrArray *sw_course_end_findings (const SwCase *c, const SwCourseEnd *end);

/* The plan that a work-up is heading for: the newest weight, the first possible day, the protocol's own medicines; what gate A is
 * asked about before anybody has chosen. (transfer full): sw_fact_free */
SwPlan *sw_course_draft_plan (const SwCase *c);

/* The first finding that blocks the next step of this stage, or NULL when nothing does. (transfer full) */
SwFinding *sw_course_first_block (const SwCase *c);

/* The foot line: one sentence of what blocks the next step, or that nothing does. (transfer full) */
char *sw_course_foot_line (const SwCase *c);

G_END_DECLS
