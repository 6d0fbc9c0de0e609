/* sw-course-line.h: the picture of a dog's courses as values: what the course line shows, before any layout
 *
 * Service makes it of a case; render lays it out and draws it; the window makes a widget of each mark. It holds
 * sentences that are ready to show (translated), never pixels. Lengths in 0.01 mm, areas in mm2.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"
#include "sw-fact.h"

#include <glib.h>

G_BEGIN_DECLS

/* How a mark is drawn. Planned, due and not known follow from the clock; the rest is recorded. Each has a shape and a
 * word. */
typedef enum
{
  /* doses */
  SW_MARK_PLANNED,
  SW_MARK_DUE,       /* may be given now */
  SW_MARK_GIVEN,
  SW_MARK_LATE,
  SW_MARK_NOT_KNOWN, /* past due, not told */
  SW_MARK_MISSED,
  SW_MARK_VOMITED,
  SW_MARK_STOPPED,
  /* visits */
  SW_MARK_VISIT_PLANNED,
  SW_MARK_VISIT_DUE, /* today */
  SW_MARK_VISIT_DONE,
  SW_MARK_VISIT_OVERDUE,
  /* the treatment day */
  SW_MARK_INJECTION_PLANNED,
  SW_MARK_INJECTED,
  /* what was scored, and what came after */
  SW_MARK_SCORED,
  SW_MARK_RECURRENCE,
  SW_MARK_ENDED,
  SW_N_MARK_STATES
} SwMarkState;

/* One thing on a lane. */
typedef struct
{
  SwMarkState state;
  SwDay day;
  int minute;      /* of the local day; noon where only the day is known */
  /* what the mark stands for: SW_FACT_DOSE, SW_FACT_VISIT, SW_FACT_INJECTION, SW_FACT_COURSE (a planned visit) ... */
  SwFactKind kind;
  gint64 id;       /* its row; for a dose the dose, not the event */
  gint64 course;
  gboolean outside; /* outside the gate or past a limit: drawn with a ring of its own */
  char *sentence;   /* "Prednisolone 12.5 mg, Wednesday 13 May 20:00: missed": the accessible name and the tooltip */
} SwLineMark;

typedef struct
{
  char *title;      /* "prednisolone", "visits" */
  GPtrArray *marks; /* SwLineMark, by time */
} SwLineLane;

typedef struct
{
  SwDay day;
  int minute;
  gint64 value;
  char *sentence;
} SwLinePoint;

/* Tumour size or open wound area of one tumour. */
typedef struct
{
  char *title;       /* "A, longest, mm" */
  gint64 tumour;
  GPtrArray *points; /* SwLinePoint, by time */
} SwLineCurve;

/* One course on the line; its days from first_day to last_day are drawn wide. */
typedef struct
{
  gint64 course;
  SwDay treat_day; /* day 0; SW_NO_DAY while nothing is planned */
  SwDay first_day; /* first day of its medicines, at the latest treat_day - 2 */
  SwDay last_day;  /* last day of its medicines, at the earliest treat_day + 7 */
  gboolean treated;
} SwLineCourse;

typedef struct
{
  GPtrArray *courses; /* SwLineCourse, by day; at least one, else there is no line */
  SwDay last_day;     /* the last planned visit */
  SwMoment now;
  GPtrArray *lanes;   /* SwLineLane: medicines in the protocol's order, then visits */
  GPtrArray *sizes;   /* SwLineCurve, 0.01 mm */
  GPtrArray *wounds;  /* SwLineCurve, mm2 */
} SwCourseLine;

SwCourseLine *sw_course_line_new (void);
void sw_course_line_free (SwCourseLine *line);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCourseLine, sw_course_line_free)

/* Each adds at the end and hands back what it added (transfer none), to be filled. Texts are copied. */
SwLineCourse *sw_course_line_add_course (SwCourseLine *line, gint64 course, SwDay treat_day);
SwLineLane *sw_course_line_add_lane (SwCourseLine *line, const char *title);
SwLineMark *sw_line_lane_add (SwLineLane *lane, SwMarkState state, SwDay day, int minute, const char *sentence);
SwLineCurve *sw_course_line_add_size (SwCourseLine *line, gint64 tumour, const char *title);
SwLineCurve *sw_course_line_add_wound (SwCourseLine *line, gint64 tumour, const char *title);
SwLinePoint *sw_line_curve_add (SwLineCurve *curve, SwDay day, int minute, gint64 value, const char *sentence);

/* "given", "not known", "overdue" ...: the word that goes with the shape; translated. */
const char *sw_mark_state_name (SwMarkState state);

/* The picture in words, one line a lane, for those who don't see it. (transfer full) */
char *sw_course_line_text (const SwCourseLine *line);

G_END_DECLS
