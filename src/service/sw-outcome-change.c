/* sw-outcome-change.c: how far each tumour shrank at best: the waterfall
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* More columns than this can't be told apart on any screen: they are thinned evenly. */
#define MOST_COLUMNS 2000

static int
by_change (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x < y) - (x > y);
}

static double
quantile_middle (const GArray *sorted)
{
  guint half = sorted->len / 2;

  if (sorted->len == 0)
    return NAN;
  return sorted->len % 2 == 1 ? g_array_index (sorted, double, half)
                              : (g_array_index (sorted, double, half - 1) + g_array_index (sorted, double, half)) / 2;
}

static SwChart *
waterfall (const GArray *sorted, const char *label)
{
  SwChart *chart
      = sw_chart_new (SW_CHART_COLUMNS, "change", _("Best change of the longest diameter, tumour by tumour"));
  SwChartSeries *series = sw_chart_add_series (chart, label, sorted->len);
  guint step = sorted->len / MOST_COLUMNS + 1;

  chart->percent = TRUE;
  chart->y_title = g_strdup (_("change against baseline, %"));
  chart->y_lo = -1;
  for (guint i = 0; i < sorted->len; i += step)
    {
      double change = g_array_index (sorted, double, i);

      sw_chart_series_point (series, i, change, NAN, NAN);
      chart->y_hi = MAX (chart->y_hi, change);
    }
  chart->x_hi = sorted->len;
  sw_chart_add_line (chart, _("partial response"), sw_definition_double (SW_DEF_PARTIAL_LONGEST) - 1, NAN, NAN);
  chart->words = g_strdup_printf (_("%u tumours, from %+.0f %% to %+.0f %%"), sorted->len,
                                  100 * g_array_index (sorted, double, 0),
                                  100 * g_array_index (sorted, double, sorted->len - 1));
  return chart;
}

static void
add_group (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part)
{
  g_autoptr (GArray) with = sw_places_new (), changes = g_array_new (FALSE, FALSE, sizeof (double));
  GArray *without = sw_places_new ();
  SwOutcomeGroup *group;

  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      double change = row->best_den != SW_UNKNOWN ? (double) row->best_num / (double) row->best_den : NAN;

      sw_places_add (isfinite (change) ? with : without, g_array_index (part->rows, guint, i));
      if (isfinite (change))
        g_array_append_val (changes, change);
    }
  g_array_sort (changes, by_change);
  group = sw_outcome_add_group (section, part, with->len);
  sw_outcome_group_take (group, sw_outcome_number ("median-change", _("middle of the best changes"),
                                                   100 * quantile_middle (changes), "%", with));
  sw_outcome_group_leave_out (group, "no-size", _("not scored with a size yet"), without);
  if (section->groups->len == 1 && changes->len > 0)
    g_ptr_array_add (section->charts, waterfall (changes, part->label));
}

SwOutcomeSection *
sw_outcome_change (const SwOutcomeRun *run, GError **error)
{
  SwOutcomeSection *section = sw_outcome_section_new (
      "change", _("Best change of size, per tumour"),
      _("The smallest longest diameter at any score of a course against its baseline, the measurement of the "
         "treatment "
         "day of the first course on this tumour. Gone is −100 %. Every injected tumour of a course is one column; a "
         "second injection is a column of its own."));

  for (guint i = 0; i < run->parts->len; i++)
    add_group (run, section, run->parts->pdata[i]);
  if (section->charts->len == 0)
    section->empty = g_strdup (_("No treated tumour has been scored with a size yet."));
  return section;
}
