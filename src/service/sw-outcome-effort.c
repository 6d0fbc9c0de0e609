/* sw-outcome-effort.c: what it took: lead-in doses, drug, vials, and what happened outside the gate
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include <glib/gi18n-lib.h>

#define NL_PER_ML 1e6

/* The first chosen tumour of each course: what belongs to a course counts once. */
static GArray *
one_a_course (const SwOutcomeRun *run, const SwOutcomePart *part)
{
  GArray *places = sw_places_new ();
  gint64 before = 0;

  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);

      if (row->course != before)
        sw_places_add (places, g_array_index (part->rows, guint, i));
      before = row->course;
    }
  return places;
}

/* --- lead-in --- */

typedef struct
{
  gint64 doses, on_time, late, lost, replaced, untold, whole;
} Doses;

static Doses
sum_doses (const SwOutcomeRun *run, const GArray *courses)
{
  Doses sum = { 0 };

  for (guint i = 0; i < courses->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, courses, i);

      sum.doses += row->doses;
      sum.on_time += row->doses_on_time;
      sum.late += row->doses_late;
      sum.lost += row->doses_lost;
      sum.replaced += row->doses_replaced;
      sum.untold += row->doses_untold;
      sum.whole += row->doses > 0 && row->doses_on_time == row->doses;
    }
  return sum;
}

static gboolean
add_lead_in (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part, GError **error)
{
  g_autoptr (GArray) courses = one_a_course (run, part);
  Doses sum = sum_doses (run, courses);
  SwOutcomeGroup *group = sw_outcome_add_group (section, part, courses->len);
  SwOutcomeFigure *doses = sw_outcome_share_of (run, "doses-on-time", _("lead-in doses given on time, of those due"),
                                                sum.on_time, sum.doses, courses, error);
  SwOutcomeFigure *whole = NULL;

  if (doses == NULL)
    return FALSE;
  sw_outcome_group_take (group, doses);
  whole = sw_outcome_share (run, "courses-on-time", _("courses with every lead-in dose on time"), sum.whole, courses,
                            error);
  if (whole == NULL)
    return FALSE;
  sw_outcome_group_take (group, whole);
  sw_outcome_group_take (group, sw_outcome_count ("doses-late", _("doses given late"), sum.late, courses));
  sw_outcome_group_take (
      group, sw_outcome_count ("doses-replaced", _("doses missed or vomited, and replaced"), sum.replaced, courses));
  sw_outcome_group_take (group,
                         sw_outcome_count ("doses-lost", _("doses missed, vomited or stopped"), sum.lost, courses));
  sw_outcome_group_take (group, sw_outcome_count ("doses-untold", _("doses nobody told of"), sum.untold, courses));
  return TRUE;
}

SwOutcomeSection *
sw_outcome_lead_in (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "lead-in", _("Lead-in doses"),
      _("Of each course that reached its injection: the doses the protocol asks for before the needle, from the first "
         "day of the lead-in to the first dose of the treatment day. On time: within 60 minutes of due. A dose in "
         "another's place counts as replaced. Limits take doses as independent, which doses of one client are not quite."));

  for (guint i = 0; i < run->parts->len; i++)
    if (!add_lead_in (run, section, run->parts->pdata[i], error))
      return NULL;
  if (((const SwOutcomePart *) run->parts->pdata[0])->rows->len == 0)
    section->empty = g_strdup (_("No course has reached its injection yet."));
  return g_steal_pointer (&section);
}

/* --- drug --- */

static double
sum_ml (const SwOutcomeRun *run, const GArray *places, gsize member)
{
  gint64 sum = 0;

  for (guint i = 0; i < places->len; i++)
    sum += G_STRUCT_MEMBER (gint64, sw_outcome_row (run, places, i), member);
  return (double) sum / NL_PER_ML;
}

static gint64
count_set (const SwOutcomeRun *run, const GArray *places, gsize member)
{
  gint64 sum = 0;

  for (guint i = 0; i < places->len; i++)
    sum += G_STRUCT_MEMBER (gint64, sw_outcome_row (run, places, i), member);
  return sum;
}

static void
take_volumes (const SwOutcomeRun *run, SwOutcomeGroup *group, const GArray *tumours, const GArray *courses)
{
  double drawn = sum_ml (run, tumours, G_STRUCT_OFFSET (SwTreated, drawn_nl));
  double given = sum_ml (run, tumours, G_STRUCT_OFFSET (SwTreated, given_nl));

  sw_outcome_group_take (group, sw_outcome_number ("released", _("released"),
                                                   sum_ml (run, tumours, G_STRUCT_OFFSET (SwTreated, released_nl)),
                                                   "mL", tumours));
  sw_outcome_group_take (group, sw_outcome_number ("drawn", _("drawn"), drawn, "mL", tumours));
  sw_outcome_group_take (group, sw_outcome_number ("given", _("given"), given, "mL", tumours));
  sw_outcome_group_take (group,
                         sw_outcome_number ("not-given", _("drawn and not given"), drawn - given, "mL", tumours));
  sw_outcome_group_take (group, sw_outcome_number ("left", _("left in opened vials"),
                                                   sum_ml (run, courses, G_STRUCT_OFFSET (SwTreated, left_nl)), "mL",
                                                   courses));
  sw_outcome_group_take (group,
                         sw_outcome_count ("vials", _("vials opened"),
                                           count_set (run, courses, G_STRUCT_OFFSET (SwTreated, vials)), courses));
}

static gboolean
add_drug (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part, GError **error)
{
  g_autoptr (GArray) courses = one_a_course (run, part);
  SwOutcomeGroup *group = sw_outcome_add_group (section, part, courses->len);
  SwOutcomeFigure *outside, *past;

  take_volumes (run, group, part->rows, courses);
  outside = sw_outcome_share (run, "outside-gate", _("courses injected outside the gate"),
                              count_set (run, courses, G_STRUCT_OFFSET (SwTreated, outside)), courses, error);
  if (outside == NULL)
    return FALSE;
  sw_outcome_group_take (group, outside);
  past = sw_outcome_share (run, "past-limit", _("courses injected past a limit"),
                           count_set (run, courses, G_STRUCT_OFFSET (SwTreated, past_limit)), courses, error);
  if (past == NULL)
    return FALSE;
  sw_outcome_group_take (group, past);
  return TRUE;
}

SwOutcomeSection *
sw_outcome_drug (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "drug", _("Drug"),
      _("Sums over the chosen tumours; what lies in vials over their courses, each once. What is left in an opened "
         "single-use vial is never used again. Outside the gate, past a limit: as marked when it was recorded."));

  for (guint i = 0; i < run->parts->len; i++)
    if (!add_drug (run, section, run->parts->pdata[i], error))
      return NULL;
  if (((const SwOutcomePart *) run->parts->pdata[0])->rows->len == 0)
    section->empty = g_strdup (_("Nothing has been injected yet."));
  return g_steal_pointer (&section);
}
