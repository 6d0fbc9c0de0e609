/* sw-dose-why.c: the derivation of a dose, tumour by tumour, then limit by limit
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

static const char *const volume_formulas[SW_N_VOLUME_RULES] = {
  [SW_VOLUME_HALF_PRODUCT] = N_("L x W x H / 2"),
  [SW_VOLUME_SIXTH_PI_PRODUCT] = N_("pi/6 x L x W x H"),
  [SW_VOLUME_SIXTH_PI_A_B2] = N_("pi/6 x a x b x b, a longest, b next"),
};

static SwRatio
in_ml (gint64 nl)
{
  return sw_ratio (nl, SW_NL_PER_ML);
}

static SwWhy *
add_line (GPtrArray *why, const SwProtocol *protocol, char *label, const char *figure)
{
  SwWhy *line = sw_why_add (why, NULL, NULL);
  const char *source, *mark;

  sw_why_take_label (line, label);
  sw_dose_basis (protocol, figure, &source, &mark);
  sw_why_basis (line, source, mark);
  return line;
}

/* A value and the limit beside it, with digits enough to tell them apart. */
static void
set_against (SwWhy *line, SwRatio value, SwRatio limit, const char *unit)
{
  g_autofree char *value_text = NULL, *limit_text = NULL;
  const guint digits = 2;

  sw_ratio_format_beside (value, limit, digits, &value_text, &limit_text);
  sw_why_take_value (line, g_strdup_printf ("%s %s", value_text, unit));
  sw_why_take_limit (line, g_strdup_printf (_("at most %s %s"), limit_text, unit));
}

static char *
exact_ml (SwRatio ml)
{
  g_autofree char *text = NULL, *same = NULL;

  sw_ratio_format_beside (ml, ml, 2, &text, &same);
  return g_steal_pointer (&text);
}

static char *
mean_mm (const SwMeasured *measured, int axis)
{
  return sw_ratio_format (sw_ratio (measured->sum[axis], measured->count * SW_PER_CENT), 2);
}

static void
explain_volume (const SwProtocol *protocol, const SwTumourDose *tumour, const char *letter, GPtrArray *why)
{
  SwWhy *line = add_line (why, protocol, g_strdup_printf (_("Tumour %s: volume"), letter), "volume-rule");
  g_autofree char *longest = mean_mm (&tumour->measured, SW_AXIS_LONGEST);
  g_autofree char *middle = mean_mm (&tumour->measured, SW_AXIS_MIDDLE);
  g_autofree char *shortest = mean_mm (&tumour->measured, SW_AXIS_SHORTEST);
  g_autofree char *volume = sw_volume_format (tumour->volume_cm3);

  sw_why_formula (line, _(volume_formulas[protocol->volume_rule]));
  /* Translators: means of so many readings */
  sw_why_take_inputs (line,
                      g_strdup_printf (ngettext ("%s x %s x %s mm, %d reading", "%s x %s x %s mm, means of %d readings",
                                                 (gulong) tumour->measured.count),
                                       longest, middle, shortest, (int) tumour->measured.count));
  sw_why_take_value (line, g_strdup_printf ("%s cm3", volume));
}

static void
explain_interval (const SwProtocol *protocol, const SwTumourDose *tumour, const char *letter, GPtrArray *why)
{
  SwWhy *line = add_line (why, protocol, g_strdup_printf (_("Tumour %s: 95 %% interval"), letter), "");

  sw_why_formula (line, _("V x exp (+/- 1.96 r), r from the scatter of the axes"));
  sw_why_take_inputs (line, g_strdup_printf ("r %.4f", tumour->interval.r));
  sw_why_take_value (line, g_strdup_printf (_("%.3g to %.3g cm3"), tumour->interval.lo, tumour->interval.hi));
  if (tumour->chance_over >= 0)
    sw_why_take_limit (line, g_strdup_printf (_("chance that the largest tumour allowed is exceeded: %.1f %%"),
                                              tumour->chance_over * SW_PER_CENT));
  sw_why_definition (line, SW_DEF_READER_ERROR);
}

static void
explain_dose (const SwProtocol *protocol, const SwTumourDose *tumour, const char *letter, GPtrArray *why)
{
  const SwTier *tier = sw_dose_tier (protocol, tumour->volume_cm3);
  g_autofree char *rate = exact_ml (in_ml (tier->nl_per_cm3)), *volume = NULL, *raw = NULL;
  SwWhy *line = add_line (why, protocol, g_strdup_printf (_("Tumour %s: dose"), letter), "");

  volume = sw_volume_format (tumour->volume_cm3);
  raw = exact_ml (tumour->raw_ml);
  sw_why_basis (line, sw_document_source_title (&protocol->head, tier->figure),
                sw_figure_mark_code (tier->figure->mark));
  sw_why_formula (line, _("volume x dose per volume"));
  sw_why_take_inputs (line, g_strdup_printf ("%s cm3 x %s mL/cm3", volume, rate));
  sw_why_take_value (line, g_strdup_printf ("%s mL", raw));
}

static void
explain_floor (const SwProtocol *protocol, const SwTumourDose *tumour, const char *letter, GPtrArray *why)
{
  g_autofree char *least = NULL;
  SwWhy *line;
  int order;

  if (!sw_ratio_compare (tumour->raw_ml, tumour->dose_ml, &order) || order >= 0)
    return;
  line = add_line (why, protocol, g_strdup_printf (_("Tumour %s: raised to the least dose"), letter), "least-dose");
  least = exact_ml (tumour->dose_ml);
  sw_why_take_value (line, g_strdup_printf ("%s mL", least));
}

static SwDefinitionId
syringe_definition (const SwTumourDose *tumour)
{
  if (tumour->syringe_nl == sw_definition_whole (SW_DEF_SYRINGE_SMALL))
    return SW_DEF_SYRINGE_SMALL_STEP;
  return tumour->syringe_nl == sw_definition_whole (SW_DEF_SYRINGE_MIDDLE) ? SW_DEF_SYRINGE_MIDDLE_STEP
                                                                           : SW_DEF_SYRINGE_LARGE_STEP;
}

static void
explain_drawn (const SwTumourDose *tumour, const char *letter, GPtrArray *why)
{
  SwDefinitionId id = syringe_definition (tumour);
  g_autofree char *holds = exact_ml (in_ml (tumour->syringe_nl)), *step = exact_ml (in_ml (sw_definition_whole (id)));
  g_autofree char *drawn = sw_drug_volume_format (tumour->drawn_nl);
  SwWhy *line = sw_why_add (why, NULL, NULL);

  sw_why_take_label (line, g_strdup_printf (_("Tumour %s: to draw"), letter));
  sw_why_formula (line, _("nearest step of the smallest syringe that holds it, ties down; no sum past a limit"));
  sw_why_take_inputs (line, g_strdup_printf (_("%s mL syringe, steps of %s mL"), holds, step));
  sw_why_take_value (line, g_strdup_printf ("%s mL", drawn));
  sw_why_definition (line, id);
}

static void
explain_tumour (const SwProtocol *protocol, const SwTumourDose *tumour, GPtrArray *why)
{
  g_autofree char *letter = sw_tumour_letter (tumour->letter);

  explain_volume (protocol, tumour, letter, why);
  if (protocol->largest_tumour != SW_UNKNOWN)
    set_against (add_line (why, protocol, g_strdup_printf (_("Tumour %s: largest volume"), letter), "largest-tumour"),
                 tumour->volume_cm3, sw_ratio (protocol->largest_tumour, SW_VOLUME_UNITS_PER_CM3), "cm3");
  explain_interval (protocol, tumour, letter, why);
  if (!tumour->has_dose)
    return;
  explain_dose (protocol, tumour, letter, why);
  explain_floor (protocol, tumour, letter, why);
  if (tumour->drawn_nl != SW_UNKNOWN)
    explain_drawn (tumour, letter, why);
}

/* What counts into the mL limits: this treatment and what was given lately. */
static gboolean
sum_that_counts (const SwDoseInput *input, const SwDoseResult *result, SwRatio *counts)
{
  SwRatio sum = in_ml (input->given_before_nl);

  for (guint i = 0; i < result->tumours->len; i++)
    {
      const SwTumourDose *tumour = &g_array_index (result->tumours, SwTumourDose, i);

      if (tumour->has_dose && !sw_ratio_add (sum, tumour->dose_ml, &sum))
        return FALSE;
    }
  *counts = sum;
  return TRUE;
}

static void
explain_limits (const SwDoseInput *input, SwDoseResult *result)
{
  const SwProtocol *protocol = input->protocol;
  SwDoseLimits limits;
  SwRatio counts;

  if (!sum_that_counts (input, result, &counts) || !sw_dose_limits (input, &limits))
    return;
  if (limits.has_weight)
    {
      SwWhy *line = add_line (result->why, protocol, g_strdup (_("Most per body weight")), "most-per-weight");
      g_autofree char *weight = sw_mass_format (input->weight_g), *per_kg = exact_ml (in_ml (protocol->most_nl_per_kg));

      sw_why_formula (line, _("weight x most per kg"));
      sw_why_take_inputs (line, g_strdup_printf ("%s kg x %s mL/kg", weight, per_kg));
      set_against (line, counts, limits.weight_ml, "mL");
    }
  if (limits.has_treatment)
    set_against (add_line (result->why, protocol, g_strdup (_("Most per treatment")), "most-per-treatment"), counts,
                 limits.treatment_ml, "mL");
}

static void
explain_given (const SwDoseInput *input, SwDoseResult *result)
{
  g_autofree char *given = sw_drug_volume_format (input->given_before_nl);

  if (input->given_before_nl > 0)
    sw_why_take_value (
        add_line (result->why, input->protocol, g_strdup (_("Given before, and still counting")), "look-back"),
        g_strdup_printf ("%s mL", given));
}

static void
explain_vials (const SwDoseInput *input, SwDoseResult *result)
{
  g_autofree char *vial = NULL, *total = NULL, *left = NULL;
  SwWhy *line;

  if (result->vials == 0)
    return;
  line = add_line (result->why, input->protocol, g_strdup (_("Vials to open")), "vial");
  vial = exact_ml (in_ml (input->protocol->vial_nl));
  total = sw_drug_volume_format (result->total_nl);
  left = sw_drug_volume_format (result->left_nl);
  sw_why_take_inputs (line, g_strdup_printf (_("%s mL from vials of %s mL"), total, vial));
  sw_why_take_value (line, g_strdup_printf (_("%u, %s mL left over"), result->vials, left));
}

void
sw_dose_explain (const SwDoseInput *input, SwDoseResult *result)
{
  for (guint i = 0; i < result->tumours->len; i++)
    explain_tumour (input->protocol, &g_array_index (result->tumours, SwTumourDose, i), result->why);
  explain_given (input, result);
  explain_limits (input, result);
  explain_vials (input, result);
}
