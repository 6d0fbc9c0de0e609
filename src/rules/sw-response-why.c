/* sw-response-why.c: the derivation of a score
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-response-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

static const char *const verdict_names[SW_N_FAMILIES] = {
  [SW_FAMILY_LONGEST] = N_("By the longest diameter"),
  [SW_FAMILY_PRODUCT] = N_("By the product of two diameters"),
  [SW_FAMILY_VOLUME] = N_("By the volume"),
};
static const char *const family_names[SW_N_FAMILIES] = {
  [SW_FAMILY_LONGEST] = N_("longest diameter"),
  [SW_FAMILY_PRODUCT] = N_("product of two diameters"),
  [SW_FAMILY_VOLUME] = N_("volume"),
};

static const SwDefinitionId partial_limits[SW_N_FAMILIES] = {
  SW_DEF_PARTIAL_LONGEST, SW_DEF_PARTIAL_PRODUCT, SW_DEF_PARTIAL_VOLUME,
};
static const SwDefinitionId progressive_limits[SW_N_FAMILIES] = {
  SW_DEF_PROGRESSIVE_LONGEST, SW_DEF_PROGRESSIVE_PRODUCT, SW_DEF_PROGRESSIVE_VOLUME,
};

static char *
in_mm (SwRatio hundredths)
{
  SwRatio mm;

  return sw_ratio_div (hundredths, sw_ratio (SW_PER_CENT, 1), &mm) ? sw_ratio_format (mm, 2) : g_strdup ("?");
}

const char *
sw_family_name (SwFamily family)
{
  g_return_val_if_fail ((guint) family < SW_N_FAMILIES, NULL);
  return _(family_names[family]);
}

static char *
in_mm2 (SwRatio size)
{
  SwRatio mm2;

  return sw_ratio_div (size, sw_ratio (SW_AREA_UNITS_PER_MM2, 1), &mm2) ? sw_ratio_format (mm2, 1) : g_strdup ("?");
}

/* The number alone. */
static char *
figure_of (SwFamily family, SwRatio size)
{
  switch (family)
    {
    case SW_FAMILY_LONGEST:
      return in_mm (size);
    case SW_FAMILY_PRODUCT:
      return in_mm2 (size);
    case SW_FAMILY_VOLUME:
    case SW_N_FAMILIES:
      break;
    }
  return sw_volume_format (size);
}

char *
sw_family_format (SwFamily family, SwRatio size)
{
  static const char *const units[SW_N_FAMILIES] = { "mm", "mm2", "cm3" };
  g_autofree char *figure = NULL;

  g_return_val_if_fail ((guint) family < SW_N_FAMILIES, NULL);
  figure = figure_of (family, size);
  return g_strdup_printf ("%s %s", figure, units[family]);
}

/* "(12.10 - 21.20) / 21.20" */
static char *
written_out (SwFamily family, SwRatio now, SwRatio reference)
{
  g_autofree char *a = figure_of (family, now), *b = figure_of (family, reference);

  return g_strdup_printf ("(%s − %s) / %s", a, b, b);
}

/* now / reference - 1, in per cent with its sign. */
static char *
change_in_per_cent (SwRatio now, SwRatio reference)
{
  SwRatio change;
  g_autofree char *text = NULL;

  if (reference.num == 0 || !sw_ratio_sub (now, reference, &change) || !sw_ratio_div (change, reference, &change)
      || !sw_ratio_mul (change, sw_ratio (SW_PER_CENT, 1), &change))
    return g_strdup ("?");
  text = sw_ratio_format (change, 1);
  return g_strdup_printf ("%s%s %%", change.num > 0 ? "+" : "", text);
}

static char *
limit_in_per_cent (SwDefinitionId id)
{
  return change_in_per_cent (sw_definition_ratio (id), sw_ratio (1, 1));
}

static void
explain_sizes (const SwFamilyScore *score, GPtrArray *why)
{
  g_autofree char *baseline = in_mm (score->baseline), *smallest = in_mm (score->smallest), *now = in_mm (score->now);

  sw_why_take_value (sw_why_add (why, _("Baseline, longest diameter"), NULL), g_strdup_printf ("%s mm", baseline));
  sw_why_take_value (sw_why_add (why, _("Smallest before this visit"), NULL), g_strdup_printf ("%s mm", smallest));
  if (score->has_now)
    sw_why_take_value (sw_why_add (why, _("Now"), NULL), g_strdup_printf ("%s mm", now));
  else
    sw_why_add (why, _("Now"), _("not evaluable"));
}

static void
explain_from_baseline (const SwFamilyScore *score, SwFamily family, GPtrArray *why)
{
  SwWhy *line = sw_why_add (why, _("Change from baseline"), NULL);
  g_autofree char *limit = limit_in_per_cent (partial_limits[family]);

  sw_why_formula (line, _("(now − baseline) / baseline"));
  sw_why_take_inputs (line, written_out (family, score->now, score->baseline));
  sw_why_take_value (line, change_in_per_cent (score->now, score->baseline));
  sw_why_take_limit (line, g_strdup_printf (_("partial at %s or less"), limit));
  sw_why_definition (line, partial_limits[family]);
}

static void
explain_from_smallest (const SwFamilyScore *score, SwFamily family, GPtrArray *why)
{
  SwWhy *line = sw_why_add (why, _("Change from the smallest"), NULL);
  g_autofree char *change = change_in_per_cent (score->now, score->smallest), *limit = NULL;
  SwRatio growth = sw_ratio (0, 1);

  sw_why_formula (line, _("(now − smallest) / smallest"));
  sw_why_take_inputs (line, written_out (family, score->now, score->smallest));
  limit = limit_in_per_cent (progressive_limits[family]);
  if (family == SW_FAMILY_LONGEST && sw_ratio_sub (score->now, score->smallest, &growth))
    {
      g_autofree char *mm = in_mm (growth), *least = in_mm (sw_definition_ratio (SW_DEF_PROGRESSIVE_GROWTH));

      sw_why_take_value (line, g_strdup_printf ("%s, %s mm", change, mm));
      sw_why_take_limit (line, g_strdup_printf (_("progressive at %s or more and %s mm or more"), limit, least));
    }
  else
    {
      sw_why_take_value (line, g_steal_pointer (&change));
      sw_why_take_limit (line, g_strdup_printf (_("progressive at %s or more"), limit));
    }
  sw_why_definition (line, progressive_limits[family]);
}

void
sw_response_explain (SwResponse *response)
{
  const SwFamilyScore *longest = &response->family[SW_FAMILY_LONGEST];

  explain_sizes (longest, response->why);
  for (int family = 0; family < SW_N_FAMILIES; family++)
    {
      const SwFamilyScore *score = &response->family[family];

      if (!score->known)
        continue;
      if (score->has_now && score->now.num != 0)
        {
          explain_from_baseline (score, family, response->why);
          if (score->smallest.num != 0)
            explain_from_smallest (score, family, response->why);
        }
      sw_why_definition (sw_why_add (response->why, _(verdict_names[family]), sw_category_code (score->category)),
                         partial_limits[family]);
    }
}
