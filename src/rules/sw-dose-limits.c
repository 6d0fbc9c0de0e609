/* sw-dose-limits.c: every limit of a treatment, the refusals and the notes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

static SwRatio
in_ml (gint64 nl)
{
  return sw_ratio (nl, SW_NL_PER_ML);
}

static SwRatio
in_cm3 (gint64 units)
{
  return sw_ratio (units, SW_VOLUME_UNITS_PER_CM3);
}

static gboolean
is_over (SwRatio value, SwRatio limit)
{
  int order;

  /* An overflow counts as over: it refuses. */
  return !sw_ratio_compare (value, limit, &order) || order > 0;
}

gboolean
sw_dose_limits (const SwDoseInput *input, SwDoseLimits *limits)
{
  const SwProtocol *protocol = input->protocol;

  limits->has_weight = protocol->most_nl_per_kg != SW_UNKNOWN;
  limits->has_treatment = protocol->most_nl_per_treatment != SW_UNKNOWN;
  limits->treatment_ml = in_ml (limits->has_treatment ? protocol->most_nl_per_treatment : 0);
  return sw_ratio_mul (in_ml (limits->has_weight ? protocol->most_nl_per_kg : 0),
                       sw_ratio (input->weight_g, SW_GRAMS_PER_KG), &limits->weight_ml);
}

static void
set_ratio (SwFinding *finding, const char *name, SwRatio value, const char *unit)
{
  sw_finding_ratio (finding, name, value.num, value.den, unit);
}

/* Value, limit, by how much, and the figure behind the limit. */
static void
set_breach (SwFinding *finding, const SwProtocol *protocol, const char *figure, SwRatio value, SwRatio limit,
            const char *unit)
{
  const char *source, *mark;
  SwRatio over;

  set_ratio (finding, "value", value, unit);
  set_ratio (finding, "limit", limit, unit);
  if (sw_ratio_sub (value, limit, &over))
    set_ratio (finding, "over", over, unit);
  sw_dose_basis (protocol, figure, &source, &mark);
  sw_finding_basis (finding, source, mark);
}

void
sw_dose_refuse_volumes (const SwDoseInput *input, SwDoseResult *result)
{
  g_autoptr (GPtrArray) tumours = sw_dose_by_letter (result);
  gint64 largest = input->protocol->largest_tumour;

  for (guint i = 0; largest != SW_UNKNOWN && i < tumours->len; i++)
    {
      const SwTumourDose *tumour = tumours->pdata[i];

      if (is_over (tumour->volume_cm3, in_cm3 (largest)))
        {
          SwFinding *finding = sw_dose_finding (SW_FINDING_VOLUME_LIMIT, tumour);

          set_breach (finding, input->protocol, "largest-tumour", tumour->volume_cm3, in_cm3 (largest), "cm3");
          g_ptr_array_add (result->refusals, finding);
        }
    }
}

/* The day on which today's treatment no longer counts, in words. (transfer full) */
static char *
later_day (const SwDoseInput *input)
{
  gint64 look_back = input->protocol->look_back_days;

  if (look_back == SW_UNKNOWN)
    return g_strdup (_("a later treatment"));
  if (input->today == SW_NO_DAY)
    return g_strdup_printf (_("%d days after this treatment"), (int) look_back);
  return sw_day_format (input->today + look_back);
}

static gboolean
one_alone_fits (const SwDoseInput *input, const SwDoseResult *result, SwRatio limit_ml)
{
  SwRatio given = in_ml (input->given_before_nl), with_given;

  for (guint i = 0; i < result->tumours->len; i++)
    {
      const SwTumourDose *tumour = &g_array_index (result->tumours, SwTumourDose, i);

      if (tumour->has_dose && sw_ratio_add (tumour->dose_ml, given, &with_given) && !is_over (with_given, limit_ml))
        return TRUE;
    }
  return FALSE;
}

/* What is open when a sum passes a limit: only what can work in this case. (transfer full) */
static char *
what_is_open (const SwDoseInput *input, const SwDoseResult *result, SwRatio total_ml, SwRatio limit_ml)
{
  g_autofree char *later = NULL;

  if (input->given_before_nl > 0 && input->free_day != SW_NO_DAY && !is_over (total_ml, limit_ml))
    {
      later = sw_day_format (input->free_day);
      return g_strdup_printf (
          _("Wait until %s, when what was given before no longer counts, treat another way, or refer"), later);
    }
  if (result->tumours->len < 2 || !one_alone_fits (input, result, limit_ml))
    return g_strdup (_("Treat it another way, or refer"));
  later = later_day (input);
  return g_strdup_printf (_("Treat fewer tumours now and the others not before %s, treat another way, or refer"),
                          later);
}

/* A finding about the sum: @value_ml is what breaches, with what was given before in it; @total_ml only what is meant
 * now. */
static SwFinding *
sum_finding (SwFindingCode code, const SwDoseInput *input, const SwDoseResult *result, SwRatio total_ml,
             SwRatio value_ml, SwRatio limit_ml)
{
  gboolean weight = code == SW_FINDING_WEIGHT_LIMIT;
  SwFinding *finding = sw_finding_new (code);
  g_autofree char *open = what_is_open (input, result, total_ml, limit_ml);

  set_breach (finding, input->protocol, weight ? "most-per-weight" : "most-per-treatment", value_ml, limit_ml, "mL");
  sw_finding_text (finding, "open", open);
  if (weight)
    {
      sw_finding_mass (finding, "weight", input->weight_g);
      set_ratio (finding, "per", in_ml (input->protocol->most_nl_per_kg), "mL/kg");
    }
  return finding;
}

void
sw_dose_refuse_sums (const SwDoseInput *input, SwDoseResult *result, SwRatio total_ml)
{
  SwDoseLimits limits;
  SwRatio counts;

  if (!sw_ratio_add (total_ml, in_ml (input->given_before_nl), &counts) || !sw_dose_limits (input, &limits))
    {
      g_ptr_array_add (result->refusals,
                       sw_dose_finding (SW_FINDING_ARITHMETIC, &g_array_index (result->tumours, SwTumourDose, 0)));
      return;
    }
  if (limits.has_weight && is_over (counts, limits.weight_ml))
    g_ptr_array_add (result->refusals,
                     sum_finding (SW_FINDING_WEIGHT_LIMIT, input, result, total_ml, counts, limits.weight_ml));
  if (limits.has_treatment && is_over (counts, limits.treatment_ml))
    g_ptr_array_add (result->refusals,
                     sum_finding (SW_FINDING_TREATMENT_LIMIT, input, result, total_ml, counts, limits.treatment_ml));
}

void
sw_dose_refuse_edges (const SwDoseInput *input, SwDoseResult *result)
{
  g_autoptr (GPtrArray) tumours = sw_dose_by_letter (result);

  for (guint i = 0; i < tumours->len; i++)
    {
      const SwTumourDose *tumour = tumours->pdata[i];

      if (!tumour->has_dose && sw_dose_tier (input->protocol, tumour->volume_cm3) == NULL)
        {
          SwFinding *finding = sw_dose_finding (SW_FINDING_TIER_EDGE, tumour);

          /* The volume lies on the edge, so it is the edge. */
          set_breach (finding, input->protocol, "dose-rule", tumour->volume_cm3, tumour->volume_cm3, "cm3");
          g_ptr_array_add (result->refusals, finding);
        }
    }
}

static void
note_tiny (SwDoseResult *result, const SwTumourDose *tumour)
{
  const SwDefinition *limit = sw_definition (SW_DEF_TINY_VOLUME);
  SwRatio per_cm3;
  SwFinding *finding;
  int order;

  if (!sw_ratio_compare (tumour->volume_cm3, sw_definition_ratio (SW_DEF_TINY_VOLUME), &order) || order >= 0
      || !tumour->has_dose || !sw_ratio_div (tumour->dose_ml, tumour->volume_cm3, &per_cm3))
    return;
  finding = sw_dose_finding (SW_FINDING_TINY_TUMOUR, tumour);
  set_ratio (finding, "value", tumour->volume_cm3, "cm3");
  set_ratio (finding, "limit", sw_definition_ratio (SW_DEF_TINY_VOLUME), "cm3");
  set_ratio (finding, "ratio", per_cm3, "mL/cm3");
  sw_finding_basis (finding, limit->source, limit->mark);
  g_ptr_array_add (result->notes, finding);
}

/* Tiers are not monotonic: a small error of the caliper may change the dose by half. */
static void
note_crossings (const SwProtocol *protocol, SwDoseResult *result, const SwTumourDose *tumour)
{
  for (guint i = 1; i < protocol->tiers->len; i++)
    {
      const SwTier *tier = protocol->tiers->pdata[i];
      double edge = sw_ratio_to_double (in_cm3 (tier->from));
      const char *source, *mark;
      SwFinding *finding;

      if (edge < tumour->interval.lo || edge > tumour->interval.hi)
        continue;
      finding = sw_dose_finding (SW_FINDING_TIER_CROSSING, tumour);
      set_ratio (finding, "limit", in_cm3 (tier->from), "cm3");
      finding->about = sw_ratio_format (in_cm3 (tier->from), 2);
      sw_dose_basis (protocol, "dose-rule", &source, &mark);
      sw_finding_basis (finding, source, mark);
      g_ptr_array_add (result->notes, finding);
    }
}

static void
note_given (const SwDoseInput *input, SwDoseResult *result)
{
  SwFinding *finding;
  const char *source, *mark;

  if (input->given_before_nl <= 0)
    return;
  finding = sw_finding_new (SW_FINDING_GIVEN_LATELY);
  set_ratio (finding, "value", in_ml (input->given_before_nl), "mL");
  sw_finding_count (finding, "days", MAX (input->protocol->look_back_days, 0));
  sw_dose_basis (input->protocol, "look-back", &source, &mark);
  sw_finding_basis (finding, source, mark);
  g_ptr_array_add (result->notes, finding);
}

static void
note_syringes (SwDoseResult *result, const SwTumourDose *tumour)
{
  SwFinding *finding;

  if (tumour->syringes < 2)
    return;
  finding = sw_dose_finding (SW_FINDING_SEVERAL_SYRINGES, tumour);
  set_ratio (finding, "value", in_ml (tumour->drawn_nl), "mL");
  set_ratio (finding, "limit", in_ml (tumour->syringe_nl), "mL");
  sw_finding_count (finding, "count", tumour->syringes);
  g_ptr_array_add (result->notes, finding);
}

void
sw_dose_note (const SwDoseInput *input, SwDoseResult *result)
{
  g_autoptr (GPtrArray) tumours = sw_dose_by_letter (result);

  for (guint i = 0; i < tumours->len; i++)
    {
      const SwTumourDose *tumour = tumours->pdata[i];
      g_autofree char *letter = sw_tumour_letter (tumour->letter);

      note_tiny (result, tumour);
      note_crossings (input->protocol, result, tumour);
      sw_volume_note_spread (&tumour->measured, tumour->tumour, letter, result->notes);
      note_syringes (result, tumour);
    }
  note_given (input, result);
}
