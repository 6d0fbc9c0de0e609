/* sw-outcome-readings.c: can our caliper readings be trusted: two people, and one person twice
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-agreement.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <math.h>

/* More points than this only blacken the paper: they are thinned evenly. */
#define MOST_POINTS 2000

typedef struct
{
  GArray *places;
  GArray *a, *b; /* double, mm */
} Pairs;

static double
millimetres (gint64 length)
{
  return (double) length / SW_PER_CENT;
}

static void
add_pair (Pairs *pairs, guint place, gint64 a, gint64 b)
{
  double first = millimetres (a), second = millimetres (b);

  sw_places_add (pairs->places, place);
  g_array_append_val (pairs->a, first);
  g_array_append_val (pairs->b, second);
}

static Pairs
pairs_new (void)
{
  return (Pairs){ sw_places_new (), g_array_new (FALSE, FALSE, sizeof (double)),
                  g_array_new (FALSE, FALSE, sizeof (double)) };
}

static void
pairs_clear (Pairs *pairs)
{
  g_array_unref (pairs->places);
  g_array_unref (pairs->a);
  g_array_unref (pairs->b);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Pairs, pairs_clear)

static void
collect (const SwOutcomeRun *run, const SwOutcomePart *part, Pairs *between, Pairs *within, GArray *alone)
{
  for (guint i = 0; i < part->rows->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, part->rows, i);
      guint place = g_array_index (part->rows, guint, i);

      if (row->reader_b != SW_UNKNOWN)
        add_pair (between, place, row->longest_a, row->longest_b);
      else
        sw_places_add (alone, place);
      if (row->longest_again != SW_UNKNOWN)
        add_pair (within, place, row->longest_a, row->longest_again);
    }
}

static const double *
doubles (const GArray *values)
{
  return (const double *) (gconstpointer) values->data;
}

/* --- figures --- */

static void
take_limited (SwOutcomeGroup *group, const char *code, const char *label, double value, double lo, double hi,
              const GArray *rows)
{
  SwOutcomeFigure *figure = sw_outcome_number (code, label, value, "mm", rows);

  figure->lo = lo;
  figure->hi = hi;
  sw_outcome_group_take (group, figure);
}

static void
take_agreement (SwOutcomeGroup *group, const SwAgreement *found, const GArray *rows)
{
  take_limited (group, "mean-difference", _("mean difference, first reader less second"), found->mean_difference,
                found->mean_lo, found->mean_hi, rows);
  take_limited (group, "lower-limit", _("lower limit of agreement"), found->lo, found->lo_lo, found->lo_hi, rows);
  take_limited (group, "upper-limit", _("upper limit of agreement"), found->hi, found->hi_lo, found->hi_hi, rows);
  sw_outcome_group_take (
      group, sw_outcome_number ("error-between", _("technical error between two people"), found->tem, "mm", rows));
  sw_outcome_group_take (group, sw_outcome_number ("error-between-percent", _("the same, of the mean of all readings"),
                                                   found->tem_percent, "%", rows));
}

/* The two people who most often read the same tumour. */
typedef struct
{
  gint64 low, high;
  guint n;
} Couple;

static Couple
couple_of (const SwTreated *row)
{
  return (Couple){ MIN (row->reader_a, row->reader_b), MAX (row->reader_a, row->reader_b), 0 };
}

static guint
couple_hash (gconstpointer key)
{
  const Couple *couple = key;

  return g_int64_hash (&couple->low) * 31 + g_int64_hash (&couple->high);
}

static gboolean
couple_equal (gconstpointer a, gconstpointer b)
{
  const Couple *x = a, *y = b;

  return x->low == y->low && x->high == y->high;
}

static Couple
most_frequent (const SwOutcomeRun *run, const GArray *places)
{
  g_autoptr (GHashTable) couples = g_hash_table_new_full (couple_hash, couple_equal, g_free, NULL);
  Couple best = { 0 };

  for (guint i = 0; i < places->len; i++)
    {
      Couple key = couple_of (sw_outcome_row (run, places, i));
      Couple *known = g_hash_table_lookup (couples, &key);

      if (known == NULL)
        {
          known = g_memdup2 (&key, sizeof key);
          g_hash_table_insert (couples, known, known);
        }
      known->n++;
      if (known->n > best.n || (known->n == best.n && known->low < best.low))
        best = *known;
    }
  return best;
}

static gboolean
take_icc (const SwOutcomeRun *run, SwOutcomeGroup *group, const Pairs *pairs, GError **error)
{
  Couple couple = most_frequent (run, pairs->places);
  g_autoptr (GArray) ratings = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) rows = sw_places_new ();
  g_autofree char *label = NULL;
  SwJudges judges;

  if (couple.n < 2)
    return TRUE;
  for (guint i = 0; i < pairs->places->len; i++)
    {
      const SwTreated *row = sw_outcome_row (run, pairs->places, i);
      Couple own = couple_of (row);
      double low = millimetres (row->reader_a == couple.low ? row->longest_a : row->longest_b);
      double high = millimetres (row->reader_a == couple.low ? row->longest_b : row->longest_a);

      if (!couple_equal (&own, &couple))
        continue;
      g_array_append_val (ratings, low);
      g_array_append_val (ratings, high);
      sw_places_add (rows, g_array_index (pairs->places, guint, i));
    }
  if (!sw_judges_compute (doubles (ratings), rows->len, 2, &judges, error))
    return FALSE;
  label = g_strdup_printf (_("ICC(2,1) of %s and %s, who most often read the same tumour"),
                           sw_practice_person_name (run->practice, couple.low),
                           sw_practice_person_name (run->practice, couple.high));
  sw_outcome_group_take (group, sw_outcome_number ("icc-2-1", label, judges.icc[SW_ICC_2_1], "", rows));
  return TRUE;
}

static gboolean
take_within (const SwOutcomeRun *run, SwOutcomeGroup *group, const Pairs *pairs, GError **error)
{
  SwAgreement found;

  if (pairs->places->len == 0)
    return TRUE;
  if (!sw_agreement_compute (doubles (pairs->a), doubles (pairs->b), pairs->places->len, run->level, &found, error))
    return FALSE;
  sw_outcome_group_take (group, sw_outcome_number ("error-within", _("technical error of one person reading twice"),
                                                   found.tem, "mm", pairs->places));
  sw_outcome_group_take (group,
                         sw_outcome_number ("error-within-percent", _("the same, of the mean of all these readings"),
                                            found.tem_percent, "%", pairs->places));
  return TRUE;
}

/* --- the plot --- */

static SwChart *
bland_altman (const Pairs *pairs, const SwAgreement *found)
{
  SwChart *chart = sw_chart_new (SW_CHART_POINTS, "readings", _("Two people reading the same tumour (Bland-Altman)"));
  SwChartSeries *series = sw_chart_add_series (chart, "", pairs->places->len);
  guint step = pairs->places->len / MOST_POINTS + 1;

  chart->x_title = g_strdup (_("mean of both readings of the longest diameter, mm"));
  chart->y_title = g_strdup (_("first less second, mm"));
  chart->x_lo = INFINITY;
  for (guint i = 0; i < pairs->places->len; i += step)
    {
      double a = g_array_index (pairs->a, double, i), b = g_array_index (pairs->b, double, i);

      sw_chart_series_point (series, (a + b) / 2, a - b, NAN, NAN);
      chart->x_lo = MIN (chart->x_lo, (a + b) / 2);
      chart->x_hi = MAX (chart->x_hi, (a + b) / 2);
      chart->y_lo = MIN (chart->y_lo, a - b);
      chart->y_hi = MAX (chart->y_hi, a - b);
    }
  sw_chart_add_line (chart, _("mean"), found->mean_difference, found->mean_lo, found->mean_hi);
  if (isfinite (found->lo))
    {
      sw_chart_add_line (chart, _("lower limit"), found->lo, found->lo_lo, found->lo_hi);
      sw_chart_add_line (chart, _("upper limit"), found->hi, found->hi_lo, found->hi_hi);
    }
  chart->words = g_strdup_printf (
      _("%u tumours read by two people; mean difference %.2f mm, limits of agreement %.2f to %.2f mm"),
      pairs->places->len, found->mean_difference, found->lo, found->hi);
  return chart;
}

/* --- the section --- */

static gboolean
add_group (const SwOutcomeRun *run, SwOutcomeSection *section, const SwOutcomePart *part, GError **error)
{
  g_auto (Pairs) between = pairs_new (), within = pairs_new ();
  GArray *alone = sw_places_new ();
  SwOutcomeGroup *group;
  SwAgreement found;

  collect (run, part, &between, &within, alone);
  group = sw_outcome_add_group (section, part, between.places->len);
  sw_outcome_group_leave_out (group, "one-reader", _("not read by two people"), alone);
  if (!sw_agreement_compute (doubles (between.a), doubles (between.b), between.places->len, run->level, &found, error))
    return FALSE;
  if (between.places->len > 0)
    take_agreement (group, &found, between.places);
  if (between.places->len > 0 && section->groups->len == 1)
    g_ptr_array_add (section->charts, bland_altman (&between, &found));
  if (between.places->len == 0 && within.places->len == 0 && section->groups->len == 1)
    section->empty = g_strdup (_("No treated tumour has been read twice on its treatment day."));
  return take_icc (run, group, &between, error) && take_within (run, group, &within, error);
}

SwOutcomeSection *
sw_outcome_readings (const SwOutcomeRun *run, GError **error)
{
  g_autoptr (SwOutcomeSection) section = sw_outcome_section_new (
      "readings", _("Readings of the longest diameter"),
      _("On the treatment day: the longest axis of the first reading against that of the first reading by another "
         "person (Bland and Altman; limits with their own 95 % limits), and against the second reading by the same "
         "person. Technical error: the square root of the sum of squared differences over twice their number."));

  for (guint i = 0; i < run->parts->len; i++)
    if (!add_group (run, section, run->parts->pdata[i], error))
      return NULL;
  return g_steal_pointer (&section);
}
