/* sw-summaries.c: what the patient list shows of a dog's courses, and what the outcomes count of them
 *
 * A summary says how things stood at the last act about this dog, so that it holds no "today" and can be computed
 * again from the facts at any time: the due day it names is what a later day is compared with.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-desk-private.h"

#include "sw-course.h"
#include "sw-treated-rows.h"

static gint64
last_recorded (const SwDossier *dossier)
{
  gint64 last = 0;

  for (int kind = 0; kind < SW_N_FACTS; kind++)
    for (guint i = 0; i < dossier->facts.rows[kind]->len; i++)
      {
        const SwFact *fact = dossier->facts.rows[kind]->pdata[i];

        if (fact->patient != 0)
          last = MAX (last, fact->recorded_us);
      }
  return last;
}

static SwCourseSummary
summarise_course (const SwCase *c)
{
  SwMoment due = sw_course_next_due (c);
  SwCourseSummary summary = { .course = c->course, .patient = c->dossier->patient };

  summary.stage = sw_stage_code (sw_course_stage (c));
  summary.due_day = due.day;
  summary.due_minute = sw_moment_is_set (due) && due.minute > 0 ? due.minute : SW_UNKNOWN;
  summary.open = sw_facts_of_course (&c->dossier->facts, SW_FACT_COURSE_END, c->course) == NULL;
  return summary;
}

GArray *
sw_summarise (const SwDossier *dossier, const SwPractice *practice, const SwBooks *books)
{
  GArray *summaries = g_array_new (FALSE, FALSE, sizeof (SwCourseSummary));
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (sw_practice_zone (practice));
  SwCase c = { dossier, practice, books, 0, SW_NO_MOMENT, zone };
  const SwCourse *course;

  if (zone == NULL)
    return summaries;
  c.now = sw_moment_from_utc (zone, last_recorded (dossier));
  for (guint i = 0; (course = sw_facts_next (&dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    {
      SwCourseSummary summary;

      c.course = course->fact.id;
      summary = summarise_course (&c);
      g_array_append_val (summaries, summary);
    }
  return summaries;
}

GArray *
sw_count_treated (const SwDossier *dossier, const SwPractice *practice, const SwBooks *books)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (sw_practice_zone (practice));
  SwCase c = { dossier, practice, books, 0, SW_NO_MOMENT, zone };

  if (zone == NULL)
    return g_array_new (FALSE, FALSE, sizeof (SwTreated));
  c.now = sw_moment_from_utc (zone, last_recorded (dossier));
  return sw_treated_rows (&c);
}
