/* sw-volume.c: volumes from sums of sorted axes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-volume.h"

#include "sw-definitions.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const char *const axis_names[SW_N_AXES] = { N_("longest axis"), N_("middle axis"), N_("shortest axis") };

static void
sort_axes (const SwAxes *reading, gint64 sorted[SW_N_AXES])
{
  for (int a = 0; a < SW_N_AXES; a++)
    {
      int place = a;

      while (place > 0 && sorted[place - 1] < reading->axis[a])
        {
          sorted[place] = sorted[place - 1];
          place--;
        }
      sorted[place] = reading->axis[a];
    }
}

/* Sample standard deviation, from sums that are exact: n sum(x^2) - (sum x)^2. */
static double
deviation (gint64 squares, gint64 sum, gint64 n)
{
  if (n < 2)
    return 0;
  return sqrt ((double) (n * squares - sum * sum) / (double) (n * (n - 1)));
}

static gboolean
is_reading (const SwAxes *reading)
{
  for (int a = 0; a < SW_N_AXES; a++)
    if (reading->axis[a] <= 0 || reading->axis[a] > sw_definition_whole (SW_DEF_AXIS_MOST))
      return FALSE;
  return TRUE;
}

SwAxes *
sw_axes_of_readings (const GPtrArray *readings)
{
  SwAxes *axes = g_new0 (SwAxes, readings->len + 1);

  for (guint i = 0; i < readings->len; i++)
    {
      const SwReading *row = readings->pdata[i];

      axes[i] = (SwAxes){ { row->axis1, row->axis2, row->axis3 } };
    }
  return axes;
}

gboolean
sw_volume_measure (const SwAxes *readings, guint n, SwMeasured *measured)
{
  gint64 least[SW_N_AXES] = { 0 }, most[SW_N_AXES] = { 0 }, squares[SW_N_AXES] = { 0 };
  SwMeasured m = { .count = n };

  if (n == 0 || n > sw_definition_whole (SW_DEF_READINGS_MOST))
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      gint64 sorted[SW_N_AXES];

      if (!is_reading (&readings[i]))
        return FALSE;
      sort_axes (&readings[i], sorted);
      for (int a = 0; a < SW_N_AXES; a++)
        {
          m.sum[a] += sorted[a];
          squares[a] += sorted[a] * sorted[a];
          least[a] = i == 0 ? sorted[a] : MIN (least[a], sorted[a]);
          most[a] = i == 0 ? sorted[a] : MAX (most[a], sorted[a]);
        }
    }
  for (int a = 0; a < SW_N_AXES; a++)
    {
      m.spread[a] = most[a] - least[a];
      m.sd[a] = deviation (squares[a], m.sum[a], m.count);
    }
  *measured = m;
  return TRUE;
}

SwRatio
sw_volume_longest (const SwMeasured *measured)
{
  return sw_ratio (measured->sum[SW_AXIS_LONGEST], measured->count);
}

static SwRatio
mean (const SwMeasured *measured, int axis)
{
  return sw_ratio (measured->sum[axis], measured->count);
}

gboolean
sw_volume_product (const SwMeasured *measured, SwRatio *product)
{
  return sw_ratio_mul (mean (measured, SW_AXIS_LONGEST), mean (measured, SW_AXIS_MIDDLE), product);
}

/* What the box of three axes is multiplied with. */
static SwRatio
shape (SwVolumeRule rule)
{
  SwRatio pi = SW_PI;

  if (rule == SW_VOLUME_HALF_PRODUCT)
    return sw_ratio (1, 2);
  return (SwRatio){ pi.num, pi.den * sw_definition_whole (SW_DEF_PI_SIXTH_PARTS) };
}

gboolean
sw_volume_cm3 (const SwMeasured *measured, SwVolumeRule rule, SwRatio *cm3)
{
  int third = rule == SW_VOLUME_SIXTH_PI_A_B2 ? SW_AXIS_MIDDLE : SW_AXIS_SHORTEST;
  SwRatio box;

  return sw_volume_product (measured, &box)
         && sw_ratio_mul (box, mean (measured, third), &box)
         && sw_ratio_mul (box, shape (rule), &box)
         && sw_ratio_div (box, sw_ratio (SW_VOLUME_UNITS_PER_CM3, 1), cm3);
}

/* The power in which an axis goes into the volume: its share of the error of ln V. */
static int
power (SwVolumeRule rule, int axis)
{
  if (rule != SW_VOLUME_SIXTH_PI_A_B2 || axis == SW_AXIS_LONGEST)
    return 1;
  return axis == SW_AXIS_MIDDLE ? 2 : 0;
}

SwInterval
sw_volume_interval (const SwMeasured *measured, SwVolumeRule rule, gint64 reader_error, double cm3)
{
  double error = sw_definition_double (SW_DEF_READER_ERROR), squares = 0;
  SwInterval interval;

  if (reader_error > 0)
    error = (double) reader_error / (double) SW_PER_MILLE;
  for (int a = 0; a < SW_N_AXES; a++)
    {
      double axis = (double) measured->sum[a] / (double) measured->count;
      double relative = power (rule, a) * MAX (measured->sd[a] / axis, error) / sqrt ((double) measured->count);

      squares += relative * relative;
    }
  interval.r = sqrt (squares);
  interval.lo = cm3 * exp (-sw_definition_double (SW_DEF_NORMAL_95) * interval.r);
  interval.hi = cm3 * exp (sw_definition_double (SW_DEF_NORMAL_95) * interval.r);
  return interval;
}

double
sw_volume_chance_over (const SwInterval *interval, double cm3, double limit_cm3)
{
  return erfc (log (limit_cm3 / cm3) / interval->r / sqrt (2)) / 2;
}

/* Exactly: (max - min) / mean over the limit. */
static gboolean
is_spread (const SwMeasured *measured, int axis)
{
  const SwDefinition *limit = sw_definition (SW_DEF_AXIS_SPREAD);

  return measured->spread[axis] * measured->count * limit->den > measured->sum[axis] * limit->num;
}

gboolean
sw_volume_widest_spread (const SwMeasured *measured, SwRatio *percent)
{
  SwRatio widest = sw_ratio (0, 1);

  if (measured->count < 2)
    return FALSE;
  for (int a = 0; a < SW_N_AXES; a++)
    {
      SwRatio share = sw_ratio (measured->spread[a] * measured->count, measured->sum[a]);
      int order;

      if (!sw_ratio_compare (share, widest, &order))
        return FALSE;
      widest = order > 0 ? share : widest;
    }
  return sw_ratio_mul (widest, sw_ratio (SW_PER_CENT, 1), percent);
}

void
sw_volume_note_spread (const SwMeasured *measured, gint64 tumour, const char *letter, GPtrArray *findings)
{
  const SwDefinition *limit = sw_definition (SW_DEF_AXIS_SPREAD);

  for (int a = 0; a < SW_N_AXES; a++)
    if (is_spread (measured, a))
      {
        SwFinding *finding = sw_finding_new (SW_FINDING_AXIS_SPREAD);

        finding->tumour = tumour;
        sw_finding_text (finding, "tumour", letter);
        sw_finding_text (finding, "axis", _(axis_names[a]));
        sw_finding_ratio (finding, "value", measured->spread[a] * measured->count * SW_PER_CENT, measured->sum[a], "%");
        sw_finding_ratio (finding, "limit", limit->num * SW_PER_CENT, limit->den, "%");
        sw_finding_basis (finding, limit->source, limit->mark);
        g_ptr_array_add (findings, finding);
      }
}

void
sw_volume_note_few (const SwMeasured *measured, gint64 tumour, const char *letter, GPtrArray *findings)
{
  const SwDefinition *least = sw_definition (SW_DEF_READINGS_LEAST);
  SwFinding *finding;

  if (measured->count * least->den >= least->num)
    return;
  finding = sw_finding_new (SW_FINDING_ONE_READING);
  finding->tumour = tumour;
  sw_finding_text (finding, "tumour", letter);
  sw_finding_count (finding, "value", measured->count);
  sw_finding_count (finding, "limit", least->num);
  sw_finding_basis (finding, least->source, least->mark);
  g_ptr_array_add (findings, finding);
}
