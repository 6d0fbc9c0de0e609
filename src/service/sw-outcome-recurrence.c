/* sw-outcome-recurrence.c: how long tumours stayed away: time free of recurrence, with death competing
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-competing.h"
#include "sw-survival.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <math.h>

enum
{
  CENSORED,
  CAME_BACK,
  DIED,
  N_CAUSES = DIED
};

/* Those of a part that were ever clear, with their times in days from the first complete response. */
typedef struct
{
  GArray *places;   /* guint */
  GArray *times;    /* double: recurrence, else the last look that found it clear */
  GByteArray *came; /* 1: came back */
  GArray *until;    /* double: recurrence, death, or the last look */
  GByteArray *cause;
  gint64 presumed;
} Followed;

static void
followed_init (Followed *followed)
{
  followed->places = sw_places_new ();
  followed->times = g_array_new (FALSE, FALSE, sizeof (double));
  followed->came = g_byte_array_new ();
  followed->until = g_array_new (FALSE, FALSE, sizeof (double));
  followed->cause = g_byte_array_new ();
  followed->presumed = 0;
}

static void
followed_clear (Followed *followed)
{
  g_array_unref (followed->places);
  g_array_unref (followed->times);
  g_byte_array_unref (followed->came);
  g_array_unref (followed->until);
  g_byte_array_unref (followed->cause);
}

static void
follow (Followed *followed, const SwTreated *row, guint place)
{
  guint8 came = row->recurrence_day != SW_UNKNOWN;
  double time = (double) ((came ? row->recurrence_day : row->last_clear_day) - row->clear_day);
  gboolean died = !came && row->died_day != SW_UNKNOWN && row->died_day >= row->clear_day;
  double until = died ? (double) (row->died_day - row->clear_day) : time;
  guint8 cause = came ? CAME_BACK : died ? DIED : CENSORED;

  sw_places_add (followed->places, place);
  g_array_append_val (followed->times, time);
  g_byte_array_append (followed->came, &came, 1);
  g_array_append_val (followed->until, until);
  g_byte_array_append (followed->cause, &cause, 1);
  if (came && row->sampled == 0)
    followed->presumed++;
}

static void
follow_part (const SwOutcomeRun *run, const SwOutcomePart *part, Followed *followed, GArray *never)
{
  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      guint place = g_array_index (part->rows, guint, i);

      if (row->clear_day == SW_UNKNOWN)
        sw_places_add (never, place);
      else
        follow (followed, row, place);
    }
}

/* --- figures --- */

static void
take_median (SwOutcomeGroup *group, const SwSurvivalCurve *curve, const GArray *rows)
{
  SwOutcomeFigure *figure
      = sw_outcome_number ("median", _("median time free of recurrence (none while more than half stay free)"),
                           curve->median, _("days"), rows);

  figure->lo = curve->median_lo;
  figure->hi = curve->median_hi;
  sw_outcome_group_take (group, figure);
}

/* Where nobody is followed any more the curve says nothing. */
static void
take_free (SwOutcomeGroup *group, const SwSurvivalCurve *curve, const GArray *rows, SwDefinitionId day)
{
  gint64 t = sw_definition_whole (day);
  g_autofree char *label = g_strdup_printf (_("free of recurrence %" PRId64 " days after the response"), t);
  g_autofree char *code = g_strdup_printf ("free-%" PRId64, t);
  SwOutcomeFigure *figure = sw_outcome_figure_new (SW_FIGURE_CHANCE, code, label);

  figure->n = sw_survival_curve_at_risk (curve, (double) t);
  figure->rows = g_array_ref ((GArray *) rows);
  if (figure->n > 0)
    {
      figure->value = sw_survival_curve_at (curve, (double) t);
      for (gsize i = 0; i < curve->n_steps && curve->steps[i].t <= (double) t; i++)
        {
          figure->lo = curve->steps[i].loglog_lo;
          figure->hi = curve->steps[i].loglog_hi;
        }
    }
  sw_outcome_group_take (group, figure);
}

static gboolean
take_competing (const SwOutcomeRun *run, SwOutcomeGroup *group, const Followed *followed, GError **error)
{
  static const char *const codes[] = { "came-back-within", "died-within" };
  gint64 t = sw_definition_whole (SW_DEF_FREE_SECOND);
  g_autoptr (SwIncidence) incidence
      = sw_incidence_fit ((const double *) (gpointer) followed->until->data, followed->cause->data,
                          followed->until->len, N_CAUSES, run->level, error);

  if (incidence == NULL)
    return FALSE;
  for (guint cause = 0; cause < N_CAUSES; cause++)
    {
      g_autofree char *label = cause == 0
                                   ? g_strdup_printf (_("came back within %" PRId64 " days, death competing"), t)
                                   : g_strdup_printf (_("died free of recurrence within %" PRId64 " days"), t);
      SwOutcomeFigure *figure = sw_outcome_figure_new (SW_FIGURE_CHANCE, codes[cause], label);

      figure->n = sw_incidence_at_risk (incidence, (double) t);
      figure->rows = g_array_ref (followed->places);
      figure->value = figure->n > 0 ? sw_incidence_at (incidence, cause + 1, (double) t) : NAN;
      for (gsize i = 0; figure->n > 0 && i < incidence->n_steps && incidence->steps[i].t <= (double) t; i++)
        {
          figure->lo = incidence->lo[cause * incidence->n_steps + i];
          figure->hi = incidence->hi[cause * incidence->n_steps + i];
        }
      sw_outcome_group_take (group, figure);
    }
  return TRUE;
}

/* --- the curve --- */

static void
add_curve (SwChart *chart, const SwOutcomePart *part, const SwSurvivalCurve *curve)
{
  SwChartSeries *series = sw_chart_add_series (chart, part->label, curve->n);

  sw_chart_series_point (series, 0, 1, 1, 1);
  for (gsize i = 0; i < curve->n_steps; i++)
    sw_chart_series_point (series, curve->steps[i].t, curve->steps[i].s, curve->steps[i].loglog_lo,
                           curve->steps[i].loglog_hi);
  for (gsize i = 0; i < curve->n_marks; i++)
    sw_chart_series_mark (series, curve->marks[i].t, curve->marks[i].s);
  if (curve->n > 0)
    chart->x_hi = MAX (chart->x_hi, curve->times[curve->n - 1]);
}

static void
add_ticks (SwChart *chart, const SwSurvivalCurve *const *curves)
{
  gint64 step = 1;

  /* A week's, a month's, a quarter's or a year's worth of days, so that eight ticks at most stand side by side. */
  for (gint64 days = 7; (double) (8 * step) < chart->x_hi; days *= 2)
    step = days;
  for (gint64 t = 0; (double) t <= chart->x_hi; t += step)
    {
      sw_chart_add_tick (chart, (double) t);
      for (guint i = 0; i < chart->series->len; i++)
        sw_chart_series_count (chart->series->pdata[i], (double) t, sw_survival_curve_at_risk (curves[i], (double) t));
    }
}

static void
add_words (SwChart *chart)
{
  g_autoptr (GString) words = g_string_new (NULL);

  for (guint i = 0; i < chart->series->len; i++)
    {
      const SwChartSeries *series = chart->series->pdata[i];
      const SwChartPoint *last = &g_array_index (series->points, SwChartPoint, series->points->len - 1);

      g_string_append_printf (words,
                              _("%s%s: %" PRId64 " followed, %.0f %% free of recurrence at the last step, day %.0f"),
                              i > 0 ? "; " : "", series->label, series->n, 100 * last->y, last->x);
    }
  chart->words = g_string_free (g_steal_pointer (&words), FALSE);
}

static SwChart *
curves_chart (const GPtrArray *parts, const SwSurvivalCurve *const *curves)
{
  SwChart *chart = sw_chart_new (SW_CHART_STEPS, "recurrence", _("Free of recurrence"));

  chart->percent = TRUE;
  chart->y_hi = 1;
  chart->x_title = g_strdup (_("days from complete response; under the axis: still followed"));
  chart->y_title = g_strdup (_("free of recurrence, %"));
  for (guint i = 0; i < parts->len; i++)
    add_curve (chart, parts->pdata[i], curves[i]);
  add_ticks (chart, curves);
  add_words (chart);
  return chart;
}

/* --- the section --- */

static gboolean
add_group (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part, const Followed *followed,
           GArray *never, const SwSurvivalCurve *curve, GError **error)
{
  SwOutcomeGroup *group = sw_outcome_add_group (section, part, curve->n);
  SwOutcomeFigure *share = sw_outcome_share (run, "came-back", _("came back so far, of those once complete"),
                                             curve->events, followed->places, error);

  sw_outcome_group_leave_out (group, "never-complete", _("without a complete response in that course"), never);
  if (share == NULL)
    return FALSE;
  sw_outcome_group_take (group, share);
  sw_outcome_group_take (
      group, sw_outcome_count ("presumed", _("of these presumed, not sampled"), followed->presumed, followed->places));
  take_median (group, curve, followed->places);
  take_free (group, curve, followed->places, SW_DEF_FREE_FIRST);
  take_free (group, curve, followed->places, SW_DEF_FREE_SECOND);
  return take_competing (run, group, followed, error);
}

/* The parts of the split in one fit, so that they are compared. */
static gboolean
compare (const SwOutcomeRun *run, SwOutcomeSection *section, GPtrArray *parts, const Followed *followed, GError **error)
{
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GByteArray) came = g_byte_array_new ();
  g_autoptr (GPtrArray) drawn = g_ptr_array_new ();
  g_autofree const SwSurvivalCurve **curves = g_new0 (const SwSurvivalCurve *, parts->len);
  g_autoptr (SwSurvival) fit = NULL;

  for (guint32 p = 0; p < parts->len; p++)
    {
      g_array_append_vals (times, followed[p].times->data, followed[p].times->len);
      g_byte_array_append (came, followed[p].came->data, followed[p].came->len);
      for (guint i = 0; i < followed[p].times->len; i++)
        g_array_append_val (groups, p);
    }
  fit = sw_survival_fit ((const double *) (gpointer) times->data, came->data, (const guint32 *) (gpointer) groups->data,
                         times->len, parts->len, run->level, error);
  if (fit == NULL)
    return FALSE;
  for (guint p = 0; p < parts->len; p++)
    if (fit->curves[p].n > 0)
      {
        curves[drawn->len] = &fit->curves[p];
        g_ptr_array_add (drawn, parts->pdata[p]);
      }
  g_ptr_array_add (section->charts, curves_chart (drawn, curves));
  if (fit->logrank.df > 0)
    {
      g_autofree char *label
          = g_strdup_printf (_("between these groups: log-rank test, χ² = %.3f, %d degrees of freedom"),
                             fit->logrank.chi2, fit->logrank.df);
      SwOutcomeFigure *test = sw_outcome_figure_new (SW_FIGURE_P, "logrank", label);

      test->value = fit->logrank.p;
      test->n = times->len;
      g_ptr_array_add (section->tests, test);
    }
  return TRUE;
}

static gboolean
fill_part (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part, Followed *followed,
           GError **error)
{
  GArray *never = sw_places_new ();
  g_autoptr (SwSurvival) fit = NULL;

  follow_part (run, part, followed, never);
  fit = sw_survival_fit ((const double *) (gpointer) followed->times->data, followed->came->data, NULL,
                         followed->times->len, 1, run->level, error);
  if (fit != NULL)
    return add_group (run, section, part, followed, never, &fit->curves[0], error);
  g_array_unref (never);
  return FALSE;
}

static gboolean
fill (const SwOutcomeRun *run, SwOutcomeSection *section, Followed *followed, GError **error)
{
  g_autoptr (GPtrArray) shown = g_ptr_array_new ();
  guint first = run->parts->len > 1 ? 1 : 0; /* with a split, its parts make the chart */

  for (guint i = 0; i < run->parts->len; i++)
    if (!fill_part (run, section, run->parts->pdata[i], &followed[i], error))
      return FALSE;
  for (guint i = first; i < run->parts->len; i++)
    g_ptr_array_add (shown, run->parts->pdata[i]);
  if (followed[0].times->len > 0)
    return compare (run, section, shown, followed + first, error);
  section->empty = g_strdup (_("No treated tumour has had a complete response yet."));
  return TRUE;
}

SwOutcomeSection *
sw_outcome_recurrence (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "recurrence", _("Time free of recurrence"),
      _("From the first complete response of a course to mast cells found again in or within 2 cm of the scar; "
         "presumed "
         "ones count and are told apart. A tumour that has not come back is followed up to the last day on which the "
         "site "
         "was examined and found clear (censored). Curve: Kaplan-Meier with Greenwood's error and log-log limits. "
         "Within "
         "a year: cumulative incidence, a death without recurrence being the competing event."));
  g_autofree Followed *followed = g_new0 (Followed, run->parts->len);
  gboolean done;

  for (guint i = 0; i < run->parts->len; i++)
    followed_init (&followed[i]);
  done = fill (run, section, followed, error);
  for (guint i = 0; i < run->parts->len; i++)
    followed_clear (&followed[i]);
  return done ? g_steal_pointer (&section) : NULL;
}
