/* sw-course-end.c: how a course may end
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course.h"

#include "sw-definitions.h"

static SwFinding *
add_finding (GPtrArray *findings, SwFindingCode code)
{
  SwFinding *finding = sw_finding_new (code);

  g_ptr_array_add (findings, finding);
  return finding;
}

static guint
attempts_since (const SwCase *c, SwDay day)
{
  const SwContact *contact;
  guint n = 0;

  for (guint i = 0; (contact = sw_facts_next (&c->dossier->facts, SW_FACT_CONTACT, &i)) != NULL;)
    if (contact->course == c->course && contact->day >= day && contact->reached == 0)
      n++;
  return n;
}

static void
check_lost (GPtrArray *findings, const SwCase *c)
{
  SwMoment due = sw_course_next_due (c);
  gint64 overdue = sw_moment_is_set (due) ? MAX (c->now.day - due.day, 0) : 0;
  gint64 limit = sw_definition_whole (SW_DEF_LOST_OVERDUE), least = sw_definition_whole (SW_DEF_LOST_ATTEMPTS);
  guint attempts = sw_moment_is_set (due) ? attempts_since (c, due.day) : 0;
  SwFinding *finding;

  if (overdue >= limit && attempts >= least)
    return;
  finding = add_finding (findings, SW_FINDING_NOT_LOST_YET);
  sw_finding_count (finding, "value", overdue);
  sw_finding_count (finding, "limit", limit);
  sw_finding_count (finding, "attempts", attempts);
  sw_finding_count (finding, "least", least);
}

static void
check_completed (GPtrArray *findings, const SwCase *c)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);

  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      g_autofree char *letter = sw_case_letter (c, tumour);
      SwFinding *finding;

      if (sw_course_last_score (c->dossier, c->course, tumour) != NULL)
        continue;
      finding = add_finding (findings, SW_FINDING_COMPLETED_UNSCORED);
      finding->tumour = tumour;
      sw_finding_text (finding, "tumour", letter);
    }
}

GPtrArray *
sw_course_end_findings (const SwCase *c, const SwCourseEnd *end)
{
  GPtrArray *findings = sw_findings_new ();
  const SwCourseEnd *over = sw_case_end (c);

  if (over != NULL)
    sw_finding_day (add_finding (findings, SW_FINDING_COURSE_OVER), "date", over->day);
  switch ((SwEnd) end->end)
    {
    case SW_END_COMPLETED:
      check_completed (findings, c);
      break;
    case SW_END_DIED:
    case SW_END_EUTHANISED:
      if (end->cause == SW_UNKNOWN)
        add_finding (findings, SW_FINDING_DEATH_CAUSE);
      break;
    case SW_END_LOST:
      check_lost (findings, c);
      break;
    case SW_END_WITHDRAWN:
    case SW_END_STOPPED:
    case SW_END_TRANSFERRED:
    case SW_N_ENDS:
      break;
    }
  return findings;
}
