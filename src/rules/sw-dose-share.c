/* sw-dose-share.c: how much of each limit a treatment takes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose-private.h"

#include "sw-definitions.h"
#include "sw-quantity.h"

/* A share that can't be computed is left out: the dose itself is refused then. */
static void
add_share (SwDoseResult *result, SwFindingCode limit, gint64 tumour, SwRatio value, SwRatio most, const char *unit)
{
  SwDoseShare share = { limit, tumour, value, most, unit, sw_ratio (0, 1), FALSE };
  int order;

  if (!sw_ratio_div (value, most, &share.percent) || !sw_ratio_mul (share.percent, sw_ratio (SW_PER_CENT, 1), &share.percent)
      || !sw_ratio_compare (value, most, &order))
    return;
  share.over = order > 0;
  g_array_append_val (result->shares, share);
}

void
sw_dose_share (const SwDoseInput *input, SwDoseResult *result, SwRatio total_ml)
{
  gint64 largest = input->protocol->largest_tumour;
  SwRatio counts;
  SwDoseLimits limits;

  for (guint i = 0; largest != SW_UNKNOWN && i < result->tumours->len; i++)
    {
      const SwTumourDose *tumour = &g_array_index (result->tumours, SwTumourDose, i);

      add_share (result, SW_FINDING_VOLUME_LIMIT, tumour->tumour, tumour->volume_cm3,
                 sw_ratio (largest, SW_VOLUME_UNITS_PER_CM3), "cm3");
    }
  if (!sw_ratio_add (total_ml, sw_ratio (input->given_before_nl, SW_NL_PER_ML), &counts) || !sw_dose_limits (input, &limits))
    return;
  if (limits.has_weight)
    add_share (result, SW_FINDING_WEIGHT_LIMIT, 0, counts, limits.weight_ml, "mL");
  if (limits.has_treatment)
    add_share (result, SW_FINDING_TREATMENT_LIMIT, 0, counts, limits.treatment_ml, "mL");
}
