/* sw-suitability-size.c: whether a tumour's size may be treated, and whether it grew since the work-up
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-suitability-private.h"

#include "sw-definitions.h"
#include "sw-lead-in.h"
#include "sw-quantity.h"
#include "sw-volume.h"

#include <glib/gi18n-lib.h>

/* The newest day before `before` on which the tumour was measured, or SW_NO_DAY. */
static SwDay
last_reading_day (const SwJudging *j, SwDay before)
{
  const SwReading *reading;
  SwDay last = SW_NO_DAY;

  for (guint i = 0; (reading = sw_facts_next (&j->c->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == j->tumour && reading->day < before)
      last = MAX (last, reading->day);
  return last;
}

/* FALSE: no reading that day, or no exact volume of them. */
static gboolean
volume_on (const SwJudging *j, SwDay day, SwRatio *cm3)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (j->c->dossier, j->tumour, day);
  g_autofree SwAxes *axes = sw_axes_of_readings (readings);
  SwMeasured measured;

  return sw_volume_measure (axes, readings->len, &measured)
         && sw_volume_cm3 (&measured, j->protocol->volume_rule, cm3);
}

/* The work-up's reading is the newest one before the lead-in began; where there is none, the one before today's. */
static SwDay
work_up_day (const SwJudging *j, SwDay now)
{
  const SwPlan *plan = sw_dossier_plan (j->c->dossier, j->c->course);
  SwDay day = SW_NO_DAY;

  if (plan != NULL)
    day = last_reading_day (j, MIN (plan->treat_day + sw_lead_in_first_day (j->protocol), now));
  return day != SW_NO_DAY ? day : last_reading_day (j, now);
}

static gboolean
is_over (SwRatio value, SwRatio limit)
{
  int order;

  return !sw_ratio_compare (value, limit, &order) || order > 0;
}

static void
judge_limit (SwJudging *j, SwRatio cm3, SwDay day)
{
  const SwFigure *figure = sw_protocol_figure (j->protocol, "largest-tumour");
  SwRatio limit = sw_ratio (j->protocol->largest_tumour, SW_VOLUME_UNITS_PER_CM3);
  SwFinding *finding;

  if (!is_over (cm3, limit))
    {
      g_autofree char *number = sw_volume_format (cm3);
      g_autofree char *shown = g_strdup_printf ("%s cm3", number);

      sw_judging_meets (j, "volume", _("volume"), shown, figure);
      return;
    }
  finding = sw_judging_add (j, SW_FINDING_TUMOUR_TOO_LARGE, "volume", figure);
  sw_finding_ratio (finding, "value", cm3.num, cm3.den, "cm3");
  sw_finding_ratio (finding, "limit", limit.num, limit.den, "cm3");
  sw_finding_day (finding, "date", day);
}

/* By how much, in percent, one volume is over another; FALSE when it can't be said exactly. */
static gboolean
growth_percent (SwRatio now, SwRatio before, SwRatio *percent)
{
  SwRatio whole = sw_ratio (SW_PER_CENT, 1), share;

  return sw_ratio_div (now, before, &share) && sw_ratio_mul (share, whole, &share)
         && sw_ratio_sub (share, whole, percent);
}

static void
judge_growth (SwJudging *j, SwRatio now, SwDay before_day)
{
  SwRatio before, growth, most = sw_ratio (j->protocol->growth_permille, SW_PER_MILLE / SW_PER_CENT);
  SwFinding *finding;

  if (!volume_on (j, before_day, &before) || !growth_percent (now, before, &growth))
    {
      sw_judging_add (j, SW_FINDING_NOT_MEASURED, "growth", NULL);
      return;
    }
  if (!is_over (growth, most))
    return;
  finding = sw_judging_add (j, SW_FINDING_GROWN, "growth", sw_protocol_figure (j->protocol, "growth"));
  sw_finding_ratio (finding, "value", growth.num, growth.den, "%");
  sw_finding_ratio (finding, "limit", most.num, most.den, "%");
  sw_finding_day (finding, "date", before_day);
}

void
sw_judge_size (SwJudging *j)
{
  SwDay now = last_reading_day (j, j->c->now.day + 1), before;
  SwRatio cm3;

  if (now == SW_NO_DAY || !volume_on (j, now, &cm3))
    {
      sw_judging_add (j, SW_FINDING_NOT_MEASURED, "volume", NULL);
      return;
    }
  if (j->protocol->largest_tumour != SW_UNKNOWN)
    judge_limit (j, cm3, now);
  before = work_up_day (j, now);
  if (before != SW_NO_DAY && j->protocol->growth_permille != SW_UNKNOWN)
    judge_growth (j, cm3, before);
}
