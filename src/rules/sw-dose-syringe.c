/* sw-dose-syringe.c: what is drawn: each dose to the nearest step of its syringe, and no sum past a limit
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose-private.h"

#include "sw-quantity.h"

typedef struct
{
  SwDefinitionId holds;
  SwDefinitionId step;
} Syringe;

static const Syringe syringes[] = {
  { SW_DEF_SYRINGE_SMALL, SW_DEF_SYRINGE_SMALL_STEP },
  { SW_DEF_SYRINGE_MIDDLE, SW_DEF_SYRINGE_MIDDLE_STEP },
  { SW_DEF_SYRINGE_LARGE, SW_DEF_SYRINGE_LARGE_STEP },
};

static int
compare_with_nl (SwRatio ml, gint64 nl)
{
  int order = 0;

  /* Doses that got this far passed the limits, and those are far below an overflow. */
  return sw_ratio_compare (ml, sw_ratio (nl, SW_NL_PER_ML), &order) ? order : 1;
}

/* The smallest that holds the dose; the largest, several times, when none does. */
static const Syringe *
syringe_for (SwRatio dose_ml)
{
  guint last = G_N_ELEMENTS (syringes) - 1;

  for (guint i = 0; i < last; i++)
    if (compare_with_nl (dose_ml, sw_definition_whole (syringes[i].holds)) <= 0)
      return &syringes[i];
  return &syringes[last];
}

/* Nearest step, ties down, but neither under the least dose nor nothing at all. */
static gboolean
round_to_step (SwRatio dose_ml, gint64 step_nl, gint64 least_nl, gint64 *drawn_nl)
{
  SwRatio steps, half = sw_ratio (1, 2);
  gint64 whole;

  /* The ceiling of x - 1/2, which is minus the floor of 1/2 - x, rounds ties down. */
  if (!sw_ratio_mul (dose_ml, sw_ratio (SW_NL_PER_ML, step_nl), &steps) || !sw_ratio_sub (half, steps, &steps)
      || !sw_ratio_floor (steps, &whole))
    return FALSE;
  *drawn_nl = -whole * step_nl;
  if (*drawn_nl < MAX (least_nl, 1))
    *drawn_nl += step_nl;
  return TRUE;
}

static gint64
step_of (const SwTumourDose *tumour)
{
  return sw_definition_whole (syringe_for (tumour->dose_ml)->step);
}

static gboolean
round_tumour (const SwProtocol *protocol, SwTumourDose *tumour)
{
  gint64 holds = sw_definition_whole (syringe_for (tumour->dose_ml)->holds);

  if (!round_to_step (tumour->dose_ml, step_of (tumour), protocol->least_dose_nl, &tumour->drawn_nl))
    return FALSE;
  tumour->syringe_nl = holds;
  tumour->syringes = (guint) ((tumour->drawn_nl + holds - 1) / holds);
  return TRUE;
}

/* How far up a dose was rounded, mL. */
static gboolean
rounded_up (const SwTumourDose *tumour, SwRatio *by)
{
  return sw_ratio_sub (sw_ratio (tumour->drawn_nl, SW_NL_PER_ML), tumour->dose_ml, by) && by->num > 0;
}

/* Whether @a steps down before @b: rounded up most, then the larger tumour, then the later letter. */
static gboolean
steps_first (const SwTumourDose *a, const SwTumourDose *b)
{
  SwRatio up_a, up_b;
  int order;

  if (!rounded_up (a, &up_a) || !rounded_up (b, &up_b))
    return FALSE;
  if (sw_ratio_compare (up_a, up_b, &order) && order != 0)
    return order > 0;
  if (sw_ratio_compare (a->volume_cm3, b->volume_cm3, &order) && order != 0)
    return order > 0;
  return a->letter > b->letter;
}

static SwTumourDose *
next_to_step (const SwProtocol *protocol, SwDoseResult *result)
{
  SwTumourDose *next = NULL;

  for (guint i = 0; i < result->tumours->len; i++)
    {
      SwTumourDose *tumour = &g_array_index (result->tumours, SwTumourDose, i);
      SwRatio by;

      if (rounded_up (tumour, &by) && tumour->drawn_nl - step_of (tumour) >= MAX (protocol->least_dose_nl, 1)
          && (next == NULL || steps_first (tumour, next)))
        next = tumour;
    }
  return next;
}

static gint64
drawn_sum (const SwDoseResult *result)
{
  gint64 sum = 0;

  for (guint i = 0; i < result->tumours->len; i++)
    sum += g_array_index (result->tumours, SwTumourDose, i).drawn_nl;
  return sum;
}

static gboolean
sum_fits (const SwDoseInput *input, const SwDoseLimits *limits, const SwDoseResult *result)
{
  gint64 counts = drawn_sum (result) + input->given_before_nl;

  return (!limits->has_weight || compare_with_nl (limits->weight_ml, counts) >= 0)
         && (!limits->has_treatment || compare_with_nl (limits->treatment_ml, counts) >= 0);
}

static void
draw_nothing (SwDoseResult *result)
{
  for (guint i = 0; i < result->tumours->len; i++)
    {
      SwTumourDose *tumour = &g_array_index (result->tumours, SwTumourDose, i);

      tumour->drawn_nl = tumour->syringe_nl = SW_UNKNOWN;
      tumour->syringes = 0;
    }
}

gboolean
sw_dose_draw (const SwDoseInput *input, SwDoseResult *result)
{
  SwTumourDose *tumour;
  SwDoseLimits limits;
  gboolean exact = sw_dose_limits (input, &limits);

  for (guint i = 0; exact && i < result->tumours->len; i++)
    exact = round_tumour (input->protocol, &g_array_index (result->tumours, SwTumourDose, i));
  while (exact && !sum_fits (input, &limits, result) && (tumour = next_to_step (input->protocol, result)) != NULL)
    tumour->drawn_nl -= step_of (tumour);
  if (exact && sum_fits (input, &limits, result))
    return TRUE;
  if (exact)
    sw_dose_refuse_sums (input, result, sw_ratio (drawn_sum (result), SW_NL_PER_ML));
  else
    g_ptr_array_add (result->refusals,
                     sw_dose_finding (SW_FINDING_ARITHMETIC, &g_array_index (result->tumours, SwTumourDose, 0)));
  draw_nothing (result);
  return FALSE;
}
