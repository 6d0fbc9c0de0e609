/* sw-outcome-healing.c: how fast wounds closed, seen only at visits
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-interval.h"
#include "sw-proportion.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <math.h>

/* The same data always draw the same band. */
#define SEED 1

/* Points at which the band is known, spread over the chart. */
#define BAND_POINTS 60

typedef struct
{
  GArray *places;
  GArray *left, *right; /* double, days from the injection */
} Wounds;

static void
wounds_clear (Wounds *wounds)
{
  g_array_unref (wounds->places);
  g_array_unref (wounds->left);
  g_array_unref (wounds->right);
}

static void
wounds_init (Wounds *wounds)
{
  wounds->places = sw_places_new ();
  wounds->left = g_array_new (FALSE, FALSE, sizeof (double));
  wounds->right = g_array_new (FALSE, FALSE, sizeof (double));
}

static void
collect (const SwOutcomeRun *run, const SwOutcomePart *part, Wounds *wounds, GArray *unseen)
{
  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      guint place = g_array_index (part->rows, guint, i);
      double left = row->wound_open_day == SW_UNKNOWN ? 0 : (double) (row->wound_open_day - row->day);
      double right = row->wound_closed_day == SW_UNKNOWN ? INFINITY : (double) (row->wound_closed_day - row->day);

      if (row->wound_looks == 0)
        {
          sw_places_add (unseen, place);
          continue;
        }
      sw_places_add (wounds->places, place);
      g_array_append_val (wounds->left, left);
      g_array_append_val (wounds->right, right);
    }
}

static const double *
doubles (const GArray *values)
{
  return (const double *) (gconstpointer) values->data;
}

/* --- the band --- */

typedef struct
{
  double times[BAND_POINTS + 3]; /* rising; the last three are the days told as figures */
  double lo[BAND_POINTS + 3], hi[BAND_POINTS + 3];
  gboolean known;
} Band;

static const SwDefinitionId told_days[] = { SW_DEF_HEALED_FIRST, SW_DEF_HEALED_SECOND, SW_DEF_HEALED_THIRD };

static gboolean
draw_band (const SwOutcomeRun *run, const Wounds *wounds, double last, Band *band, GError **error)
{
  for (guint i = 0; i < BAND_POINTS; i++)
    band->times[i] = last * i / (BAND_POINTS - 1);
  for (guint i = 0; i < G_N_ELEMENTS (told_days); i++)
    band->times[BAND_POINTS + i] = sw_definition_double (told_days[i]);
  band->known = wounds->places->len > 1 && wounds->places->len <= sw_definition_whole (SW_DEF_BAND_MOST);
  if (!band->known)
    return TRUE;
  return sw_turnbull_band (doubles (wounds->left), doubles (wounds->right), wounds->left->len, run->level,
                           (guint) sw_definition_whole (SW_DEF_BAND_DRAWS), SEED, band->times,
                           G_N_ELEMENTS (band->times), band->lo, band->hi, run->cancellable, error);
}

/* --- the curve --- */

static double
last_time (const Wounds *wounds)
{
  double last = 1;

  for (guint i = 0; i < wounds->left->len; i++)
    {
      double right = g_array_index (wounds->right, double, i);

      last = MAX (last, isfinite (right) ? right : g_array_index (wounds->left, double, i));
    }
  return last;
}

/* A step between two visits happened somewhere from left to right; what never closed has no step. */
static void
add_curve (SwChart *chart, const SwOutcomePart *part, const SwTurnbull *fit, const Band *band)
{
  SwChartSeries *series = sw_chart_add_series (chart, part->label, fit->n);
  double share = 0;

  sw_chart_series_point (series, 0, 0, NAN, NAN);
  for (gsize i = 0; i < fit->n_masses && isfinite (fit->masses[i].right); i++)
    {
      share += fit->masses[i].mass;
      sw_chart_series_step (series, fit->masses[i].left, fit->masses[i].right, MIN (share, 1), NAN, NAN);
    }
  for (guint i = 0; band->known && i < BAND_POINTS; i++)
    {
      SwChartPoint mark = { band->times[i], band->times[i], NAN, band->lo[i], band->hi[i] };

      g_array_append_val (series->marks, mark);
    }
}

/* Not closed at t, and looked at then or later. */
static gint64
still_open (const Wounds *wounds, double t)
{
  gint64 n = 0;

  for (guint i = 0; i < wounds->left->len; i++)
    n += g_array_index (wounds->left, double, i) >= t;
  return n;
}

static void
add_ticks (SwChart *chart, const Wounds *wounds)
{
  gint64 step = 7;

  while ((double) (8 * step) < chart->x_hi)
    step *= 2;
  for (gint64 t = 0; (double) t <= chart->x_hi; t += step)
    {
      sw_chart_add_tick (chart, (double) t);
      for (guint i = 0; i < chart->series->len; i++)
        sw_chart_series_count (chart->series->pdata[i], (double) t, still_open (&wounds[i], (double) t));
    }
}

static SwChart *
chart_new (void)
{
  SwChart *chart = sw_chart_new (SW_CHART_STEPS, "healing", _("Closed wounds"));

  chart->percent = TRUE;
  chart->y_hi = 1;
  chart->x_title = g_strdup (_("days from the injection; under the axis: known to be open"));
  chart->y_title = g_strdup (_("wound closed, %"));
  return chart;
}

/* --- figures --- */

static void
take_median (SwOutcomeGroup *group, const SwTurnbull *fit, const GArray *rows)
{
  SwOutcomeFigure *figure = sw_outcome_number ("median", _("half of the wounds had closed"), NAN, _("days"), rows);

  if (sw_turnbull_median (fit, &figure->value, &figure->value_to) && isinf (figure->value_to) && figure->value == 0)
    figure->value = NAN;
  sw_outcome_group_take (group, figure);
}

/* Where all wounds, or none, had closed every draw of the bootstrap says the same: the exact limits of a share of those
 * whose state on that day is known are honest there. */
static gboolean
limit_extreme (const SwOutcomeRun *run, const Wounds *wounds, double day, SwOutcomeFigure *figure, GError **error)
{
  SwProportion share;
  gint64 known = 0;

  for (guint i = 0; i < wounds->left->len; i++)
    known += g_array_index (wounds->left, double, i) >= day || g_array_index (wounds->right, double, i) <= day;
  if (!sw_proportion_compute (figure->value > 0 ? known : 0, known, run->level, &share, error))
    return FALSE;
  figure->lo = share.exact_lo;
  figure->hi = share.exact_hi;
  return TRUE;
}

static gboolean
is_extreme (const SwOutcomeFigure *figure)
{
  const double nearly = 1e-9;

  return figure->value_to < nearly || figure->value > 1 - nearly;
}

static gboolean
take_closed (const SwOutcomeRun *run, SwOutcomeGroup *group, const SwTurnbull *fit, const Band *band, guint which,
             const Wounds *wounds, GError **error)
{
  gint64 day = sw_definition_whole (told_days[which]);
  g_autofree char *code = g_strdup_printf ("closed-%" PRId64, day);
  g_autofree char *label = g_strdup_printf (_("closed by day %" PRId64), day);
  SwOutcomeFigure *figure = sw_outcome_figure_new (SW_FIGURE_CHANCE, code, label);

  figure->n = fit->n;
  figure->rows = g_array_ref (wounds->places);
  if (fit->n > 0)
    sw_turnbull_at (fit, (double) day, &figure->value, &figure->value_to);
  if (band->known)
    {
      figure->lo = band->lo[BAND_POINTS + which];
      figure->hi = band->hi[BAND_POINTS + which];
    }
  sw_outcome_group_take (group, figure);
  return fit->n == 0 || !is_extreme (figure) || limit_extreme (run, wounds, (double) day, figure, error);
}

static gboolean
add_group (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part, Wounds *wounds,
           SwChart *chart, GError **error)
{
  GArray *unseen = sw_places_new ();
  SwOutcomeGroup *group;
  g_autoptr (SwTurnbull) fit = NULL;
  Band band = { .known = FALSE };

  collect (run, part, wounds, unseen);
  group = sw_outcome_add_group (section, part, wounds->places->len);
  sw_outcome_group_leave_out (group, "not-seen", _("whose wound nobody has looked at yet"), unseen);
  fit = sw_turnbull_fit (doubles (wounds->left), doubles (wounds->right), wounds->left->len, run->cancellable, error);
  if (fit == NULL || !draw_band (run, wounds, last_time (wounds), &band, error))
    return FALSE;
  take_median (group, fit, wounds->places);
  for (guint i = 0; i < G_N_ELEMENTS (told_days); i++)
    if (!take_closed (run, group, fit, &band, i, wounds, error))
      return FALSE;
  if (chart != NULL && fit->n > 0)
    {
      add_curve (chart, part, fit, &band);
      chart->x_hi = MAX (chart->x_hi, last_time (wounds));
    }
  return TRUE;
}

static void
add_words (SwChart *chart, const SwOutcomeSection *section)
{
  const SwOutcomeGroup *all = section->groups->pdata[0];
  g_autofree char *median = sw_outcome_figure_text (all->figures->pdata[0]);
  g_autofree char *closed = sw_outcome_figure_text (all->figures->pdata[1]);

  chart->words = g_strdup_printf (_("%" PRId64 " wounds; half had closed %s after the injection; closed by day %" PRId64
                                    ": %s"),
                                  all->n, median, sw_definition_whole (told_days[0]), closed);
}

static gboolean
fill (const SwOutcomeRun *run, SwOutcomeSection *section, Wounds *wounds, GError **error)
{
  g_autoptr (SwChart) chart = chart_new ();
  guint first = run->parts->len > 1 ? 1 : 0;
  g_autoptr (GArray) shown = g_array_new (FALSE, FALSE, sizeof (Wounds));

  for (guint i = 0; i < run->parts->len; i++)
    {
      if (!add_group (run, section, run->parts->pdata[i], &wounds[i], i >= first ? chart : NULL, error))
        return FALSE;
      if (i >= first && wounds[i].places->len > 0)
        g_array_append_val (shown, wounds[i]);
    }
  if (wounds[0].places->len == 0)
    {
      section->empty = g_strdup (_("No wound has been looked at yet."));
      return TRUE;
    }
  add_ticks (chart, (const Wounds *) (gpointer) shown->data);
  add_words (chart, section);
  g_ptr_array_add (section->charts, g_steal_pointer (&chart));
  return TRUE;
}

SwOutcomeSection *
sw_outcome_healing (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
    "healing", _("Time to closed wound"),
    _("From the injection to a closed wound, known only to lie between two visits: after the last at which it was not "
      "closed, up to the next at which it was. A wound that opened again counts from its last closing; one not closed "
      "yet is followed up to its last look. Estimate: Turnbull's, which leaves open where between two visits a step "
      "lies (shaded). Limits: percentile bootstrap of 200 draws, for up to 2,000 wounds; where all or none had closed, "
      "exact limits of those whose state on that day is known."));
  g_autofree Wounds *wounds = g_new0 (Wounds, run->parts->len);
  gboolean done;

  for (guint i = 0; i < run->parts->len; i++)
    wounds_init (&wounds[i]);
  done = fill (run, section, wounds, error);
  for (guint i = 0; i < run->parts->len; i++)
    wounds_clear (&wounds[i]);
  return done ? g_steal_pointer (&section) : NULL;
}
