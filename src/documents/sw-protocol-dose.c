/* sw-protocol-dose.c: strength, volume rule, tiers and limits of a protocol
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-protocol-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define NL_DIGITS 6       /* mL in documents, nL inside */
#define VOLUME_DIGITS 9   /* cm3 in documents, 1e-9 cm3 inside */
#define STRENGTH_DIGITS 3 /* thousandths of mg or IU */

static const char *const volume_rule_codes[] = { "half-product", "sixth-pi-product", "sixth-pi-a-b2", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (volume_rule_codes) == SW_N_VOLUME_RULES + 1);

static const char *const dose_rule_codes[] = { "constant", "tiers", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (dose_rule_codes) == SW_N_DOSE_RULES + 1);

const char *
sw_volume_rule_code (SwVolumeRule rule)
{
  g_return_val_if_fail ((guint) rule < SW_N_VOLUME_RULES, NULL);

  return volume_rule_codes[rule];
}

static void
read_strength (SwReader *reader, SwNode *dose, SwProtocol *protocol)
{
  const SwFigure *figure = sw_reader_need (reader, dose, "strength");
  gboolean units = figure != NULL && g_str_has_suffix (figure->value, " IU/mL");

  protocol->strength_unit = g_strdup (units ? "IU" : "mg");
  protocol->strength = sw_reader_amount (reader, figure, units ? "IU/mL" : "mg/mL", STRENGTH_DIGITS);
  if (protocol->strength == 0)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE, _ ("a strength of 0 holds nothing"));
}

static SwTier *
add_tier (SwProtocol *protocol)
{
  SwTier *tier = g_new0 (SwTier, 1);

  tier->to = SW_UNKNOWN;
  g_ptr_array_add (protocol->tiers, tier);
  return tier;
}

static void
read_dose_figure (SwReader *reader, SwNode *parent, const char *name, SwTier *tier)
{
  tier->figure = sw_reader_need (reader, parent, name);
  tier->nl_per_cm3 = sw_reader_amount (reader, tier->figure, "mL/cm3", NL_DIGITS);
  if (tier->nl_per_cm3 == 0)
    sw_reader_refuse_figure (reader, tier->figure, SW_CONTRADICTION_BAD_VALUE, _ ("a dose of 0 treats nothing"));
}

/* "from" and "to" belong to the tier, "over" and "under" lie just outside it. */
static void
read_tier (SwReader *reader, SwNode *node, SwProtocol *protocol)
{
  const SwFigure *from = sw_reader_figure (reader, node, "from"), *over = sw_reader_figure (reader, node, "over");
  const SwFigure *to = sw_reader_figure (reader, node, "to"), *under = sw_reader_figure (reader, node, "under");
  SwTier *tier = add_tier (protocol);

  sw_reader_only (reader, node, (const char *const[]){ NULL });
  read_dose_figure (reader, node, "dose", tier);
  if ((from != NULL) == (over != NULL))
    sw_reader_refuse (reader, node, "tier", SW_CONTRADICTION_MISSING_FIGURE,
                      _ ("a tier begins either from a volume or over it: write one of the two"));
  if (to != NULL && under != NULL)
    sw_reader_refuse_figure (reader, under, SW_CONTRADICTION_DUPLICATE_FIGURE,
                             _ ("a tier ends either at a volume or under it"));
  tier->from_included = from != NULL;
  tier->from = sw_reader_amount (reader, from != NULL ? from : over, "cm3", VOLUME_DIGITS);
  tier->to_included = to != NULL;
  tier->to = sw_reader_amount (reader, to != NULL ? to : under, "cm3", VOLUME_DIGITS);
  if (tier->from == SW_UNKNOWN || ((to != NULL || under != NULL) && tier->to == SW_UNKNOWN))
    sw_reader_refuse (reader, node, "tier", SW_CONTRADICTION_BAD_VALUE, _ ("the ends of a tier need values"));
  else if (tier->to != SW_UNKNOWN && tier->from >= tier->to)
    sw_reader_refuse_figure (reader, to != NULL ? to : under, SW_CONTRADICTION_LEAST_OVER_MOST,
                             _ ("the tier ends at or below where it begins"));
}

static void
check_neighbours (SwReader *reader, const SwTier *lower, const SwTier *upper)
{
  if (lower->to == SW_UNKNOWN || upper->from < lower->to ||
      (upper->from == lower->to && lower->to_included && upper->from_included))
    sw_reader_refuse_figure (reader, upper->figure, SW_CONTRADICTION_TIERS_OVERLAP,
                             _ ("the tier begins within the one before it: a volume would have two doses"));
  else if (upper->from > lower->to)
    sw_reader_refuse_figure (reader, upper->figure, SW_CONTRADICTION_TIER_GAP,
                             _ ("between the tier and the one before it lie volumes without a dose"));
}

static void
check_ends (SwReader *reader, const SwProtocol *protocol)
{
  const SwTier *first = g_ptr_array_index (protocol->tiers, 0);
  const SwTier *last = g_ptr_array_index (protocol->tiers, protocol->tiers->len - 1);

  if (first->from > 0)
    sw_reader_refuse_figure (reader, first->figure, SW_CONTRADICTION_TIER_GAP,
                             _ ("the first tier does not begin at 0 cm3: small tumours would have no dose"));
  if (last->to != SW_UNKNOWN && (protocol->largest_tumour == SW_UNKNOWN || protocol->largest_tumour > last->to))
    sw_reader_refuse_figure (reader, last->figure, SW_CONTRADICTION_TIER_GAP,
                             _ ("the last tier ends below the largest tumour: large tumours would have no dose"));
}

static void
read_tiers (SwReader *reader, SwNode *dose, SwProtocol *protocol)
{
  g_autoptr (GPtrArray) nodes = sw_reader_children (reader, dose, "tier");

  if (nodes->len < 2)
    sw_reader_refuse (reader, dose, "tier", SW_CONTRADICTION_MISSING_FIGURE,
                      _ ("a rule by tiers needs two tiers or more"));
  for (guint i = 0; i < nodes->len && reader->error == NULL; i++)
    {
      read_tier (reader, g_ptr_array_index (nodes, i), protocol);
      if (i > 0 && reader->error == NULL)
        check_neighbours (reader, g_ptr_array_index (protocol->tiers, i - 1), g_ptr_array_index (protocol->tiers, i));
    }
  if (reader->error == NULL)
    check_ends (reader, protocol);
}

static void
read_rules (SwReader *reader, SwNode *dose, SwProtocol *protocol)
{
  int volume = sw_reader_code (reader, sw_reader_need (reader, dose, "volume-rule"), volume_rule_codes,
                               SW_CONTRADICTION_UNKNOWN_RULE);
  const SwFigure *figure = sw_reader_need (reader, dose, "dose-rule");
  int rule = sw_reader_code (reader, figure, dose_rule_codes, SW_CONTRADICTION_UNKNOWN_RULE);

  if (reader->error != NULL)
    return;
  if (volume < 0 || rule < 0)
    {
      sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_RULE,
                               _ ("the volume rule and the dose rule need values"));
      return;
    }
  protocol->volume_rule = (SwVolumeRule) volume;
  protocol->dose_rule = (SwDoseRule) rule;
  if (protocol->dose_rule == SW_DOSE_TIERS)
    read_tiers (reader, dose, protocol);
  else
    read_dose_figure (reader, dose, "dose-per-volume", add_tier (protocol));
}

static void
read_limits (SwReader *reader, SwNode *dose, SwProtocol *protocol)
{
  static const char *const uses[] = { "several", "single", NULL };

  protocol->least_dose_nl = sw_reader_amount (reader, sw_reader_figure (reader, dose, "least-dose"), "mL", NL_DIGITS);
  protocol->largest_tumour =
      sw_reader_amount (reader, sw_reader_figure (reader, dose, "largest-tumour"), "cm3", VOLUME_DIGITS);
  protocol->most_nl_per_kg =
      sw_reader_amount (reader, sw_reader_figure (reader, dose, "most-per-weight"), "mL/kg", NL_DIGITS);
  protocol->most_nl_per_treatment =
      sw_reader_amount (reader, sw_reader_figure (reader, dose, "most-per-treatment"), "mL", NL_DIGITS);
  protocol->vial_nl = sw_reader_amount (reader, sw_reader_figure (reader, dose, "vial"), "mL", NL_DIGITS);
  protocol->vial_single_use = sw_reader_code (reader, sw_reader_figure (reader, dose, "vial-use"), uses,
                                              SW_CONTRADICTION_BAD_VALUE) == 1;
  protocol->look_back_days = sw_reader_whole (reader, sw_reader_figure (reader, dose, "look-back"), "d");
}

/* The most that one tumour of a tier can need, in nL x 1e-9 cm3 / cm3; the tier's upper end is the largest tumour's if
 * nearer. */
static void
check_tier_dose (SwReader *reader, const SwProtocol *protocol, const SwTier *tier, const SwFigure *limit)
{
  gint64 largest =
      tier->to == SW_UNKNOWN || (protocol->largest_tumour != SW_UNKNOWN && protocol->largest_tumour < tier->to)
            ? protocol->largest_tumour
            : tier->to;
  g_autofree char *needed = NULL, *most = NULL;
  SwRatio need, allowed = sw_ratio (protocol->most_nl_per_treatment, SW_NL_PER_ML);
  int order = 0;

  if (largest == SW_UNKNOWN || tier->nl_per_cm3 == SW_UNKNOWN || largest <= tier->from)
    return;
  if (!sw_ratio_mul (sw_ratio (tier->nl_per_cm3, SW_NL_PER_ML), sw_ratio (largest, SW_VOLUME_UNITS_PER_CM3), &need) ||
      !sw_ratio_compare (need, allowed, &order) || order <= 0)
    return;
  sw_ratio_format_beside (need, allowed, 2, &needed, &most);
  sw_reader_refuse_figure (
      reader, limit, SW_CONTRADICTION_DOSE_OVER_LIMIT,
      _ ("a tumour that may be treated needs %s mL, over the %s mL of a treatment: it could never be treated"), needed,
      most);
}

static void
check_limits (SwReader *reader, SwNode *dose, const SwProtocol *protocol)
{
  const SwFigure *limit = sw_reader_figure (reader, dose, "most-per-treatment");

  if (protocol->most_nl_per_treatment == SW_UNKNOWN)
    return;
  if (protocol->least_dose_nl != SW_UNKNOWN && protocol->least_dose_nl > protocol->most_nl_per_treatment)
    {
      g_autofree char *least = sw_drug_volume_format (protocol->least_dose_nl);
      g_autofree char *most = sw_drug_volume_format (protocol->most_nl_per_treatment);

      sw_reader_refuse_figure (reader, limit, SW_CONTRADICTION_LEAST_OVER_MOST,
                               _ ("the least dose, %s mL, is over the most of a treatment, %s mL"), least, most);
    }
  for (guint i = 0; i < protocol->tiers->len && reader->error == NULL; i++)
    check_tier_dose (reader, protocol, g_ptr_array_index (protocol->tiers, i), limit);
}

void
sw_protocol_read_dose (SwReader *reader, SwProtocol *protocol)
{
  SwNode *dose = sw_reader_child (reader, reader->root, "dose");

  if (dose == NULL)
    {
      sw_reader_refuse (reader, reader->root, "dose", SW_CONTRADICTION_MISSING_FIGURE, _ ("a protocol needs a <dose>"));
      return;
    }
  read_strength (reader, dose, protocol);
  read_limits (reader, dose, protocol);
  read_rules (reader, dose, protocol);
  if (reader->error == NULL)
    check_limits (reader, dose, protocol);
}
