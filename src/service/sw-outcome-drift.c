/* sw-outcome-drift.c: are we getting better or worse: a running sum of failures
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-cusum.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <math.h>

/* Longer sums are drawn at every so many steps. */
#define MOST_POINTS 4000

static const SwDefinitionId pairs[SW_N_RATES][2] = {
  [SW_RATES_STRICT] = { SW_DEF_ACCEPTED_GOOD, SW_DEF_WORSE_GOOD },
  [SW_RATES_USUAL] = { SW_DEF_ACCEPTED_USUAL, SW_DEF_WORSE_USUAL },
  [SW_RATES_WIDE] = { SW_DEF_ACCEPTED_LOOSE, SW_DEF_WORSE_LOOSE },
};

void
sw_rates (SwRates rates, double *accepted, double *worse)
{
  g_return_if_fail ((guint) rates < SW_N_RATES);
  *accepted = sw_definition_double (pairs[rates][0]);
  *worse = sw_definition_double (pairs[rates][1]);
}

static int
by_time (gconstpointer a, gconstpointer b, gpointer data)
{
  const SwOutcomeRun *run = data;
  const SwTreated *x = &g_array_index (run->rows, SwTreated, *(const guint *) a);
  const SwTreated *y = &g_array_index (run->rows, SwTreated, *(const guint *) b);

  if (x->day != y->day)
    return x->day < y->day ? -1 : 1;
  if (x->minute != y->minute)
    return x->minute < y->minute ? -1 : 1;
  return *(const guint *) a < *(const guint *) b ? -1 : 1;
}

/* First injections that were scored, in order of time. */
static void
collect (const SwOutcomeRun *run, const SwOutcomePart *part, GArray *places, GArray *without)
{
  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      SwAnswerAt28 answer = sw_answer_at_28 (run, row);
      gboolean scored = answer == SW_ANSWER_COMPLETE || answer == SW_ANSWER_LESS || answer == SW_ANSWER_DIED_OF_IT;

      if (row->injection == 1)
        sw_places_add (scored ? places : without, g_array_index (part->rows, guint, i));
    }
  g_array_sort_with_data (places, by_time, (gpointer) run);
}

static SwChart *
sum_chart (const SwCusumPlan *plan, const SwCusum *cusum)
{
  SwChart *chart = sw_chart_new (SW_CHART_LINE, "drift", _("Running sum of failures"));
  SwChartSeries *series = sw_chart_add_series (chart, "", (gint64) cusum->n);
  gsize step = cusum->n / MOST_POINTS + 1;

  chart->x_title = g_strdup (_("scored tumours, in order of treatment"));
  chart->y_title = g_strdup (_("sum: up for a failure, down for a success"));
  chart->x_hi = (double) cusum->n;
  sw_chart_series_point (series, 0, 0, NAN, NAN);
  for (gsize i = 0; i < cusum->n; i++)
    {
      chart->y_lo = MIN (chart->y_lo, cusum->sums[i]);
      chart->y_hi = MAX (chart->y_hi, cusum->sums[i]);
      if (i % step == 0 || i + 1 == cusum->n)
        sw_chart_series_point (series, (double) (i + 1), cusum->sums[i], NAN, NAN);
    }
  sw_chart_add_line (chart, _("worse rate"), plan->h1, NAN, NAN);
  sw_chart_add_line (chart, _("accepted rate"), -plan->h0, NAN, NAN);
  chart->words = g_strdup_printf (
      _("%" PRIu64 " scored tumours; the sum stands at %.2f; %s; %s"), (guint64) cusum->n,
      cusum->n > 0 ? cusum->sums[cusum->n - 1] : 0.0,
      cusum->first_worse >= 0 ? _("it has crossed the upper line") : _("it has not crossed the upper line"),
      cusum->first_as_planned >= 0 ? _("it has reached the lower line") : _("it has not reached the lower line"));
  return chart;
}

static void
take_crossing (SwOutcomeGroup *group, const char *code, const char *label, gssize index, const GArray *places)
{
  sw_outcome_group_take (group, sw_outcome_number (code, label, index < 0 ? NAN : (double) (index + 1), "", places));
}

static gboolean
fill (const SwOutcomeRun *run, SwOutcomeSection *section, const SwCusumPlan *plan, GError **error)
{
  const SwOutcomePart *part = run->parts->pdata[0];
  g_autoptr (GArray) places = sw_places_new ();
  g_autoptr (GByteArray) failures = g_byte_array_new ();
  g_autoptr (SwCusum) cusum = NULL;
  GArray *without = sw_places_new ();
  SwOutcomeGroup *group;

  collect (run, part, places, without);
  group = sw_outcome_add_group (section, part, places->len);
  sw_outcome_group_leave_out (group, "not-scored", _("not scored on days that count, or not yet"), without);
  for (guint i = 0; i < places->len; i++)
    {
      guint8 failure = sw_answer_at_28 (run, sw_outcome_row (run, places, i)) != SW_ANSWER_COMPLETE;

      g_byte_array_append (failures, &failure, 1);
    }
  cusum = sw_cusum_run (plan, failures->data, failures->len, error);
  if (cusum == NULL)
    return FALSE;
  if (cusum->n == 0)
    {
      section->empty = g_strdup (_("No first injection has been scored on days that count yet."));
      return TRUE;
    }
  sw_outcome_group_take (group, sw_outcome_number ("sum", _("the sum now"), cusum->sums[cusum->n - 1], "", places));
  take_crossing (group, "worse-at", _("first crossed the upper line (worse rate) at tumour"), cusum->first_worse,
                 places);
  take_crossing (group, "accepted-at", _("first reached the lower line (accepted rate) at tumour"),
                 cusum->first_as_planned, places);
  g_ptr_array_add (section->charts, sum_chart (plan, cusum));
  return TRUE;
}

SwOutcomeSection *
sw_outcome_drift (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = NULL;
  g_autofree char *definition = NULL;
  SwCusumPlan plan;
  double accepted, worse;

  sw_rates (run->query->rates, &accepted, &worse);
  if (!sw_cusum_plan (accepted, worse, sw_definition_double (SW_DEF_ALARM), sw_definition_double (SW_DEF_MISS), &plan,
                      error))
    return NULL;
  definition = g_strdup_printf (
      _("Scored first injections in order of treatment; less than complete at day 28 is a failure. A failure adds "
         "%.3f, a "
         "success takes off %.3f. At the upper line the sum speaks for %.0f %% of failures, at the lower line for %.0f "
         "%% "
         "(chance of a false alarm and of a miss 10 %% each; the sum runs on). The split does not apply."),
      1 - plan.s, plan.s, 100 * worse, 100 * accepted);
  section = sw_outcome_section_new ("drift", _("Getting better or worse"), definition);
  return fill (run, section, &plan, error) ? g_steal_pointer (&section) : NULL;
}
