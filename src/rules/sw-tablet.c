/* sw-tablet.c: choosing tablets and liquids for one dose
 *
 * Doses are compared as integers: dose, target and range are all brought to one denominator first, and an overflow
 * there is no choice at all. Real figures stay far below it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tablet.h"

#include "sw-quantity.h"
#include "sw-unknown.h"

#include <glib/gi18n-lib.h>

/* Masses are whole numbers of a common part of a microgram, so small that half a tablet and one step of a liquid are
 * whole. */
typedef struct
{
  SwWide per_half; /* parts in one ug of a tablet's strength, per half tablet */
  SwWide per_step; /* parts in one ug/mL of a liquid's strength, per step of volume */
  SwWide target;
  SwWide low;
  SwWide high;
  SwWide unit; /* parts in one ug */
  gboolean at_least;
} Range;

typedef struct
{
  SwWide dose;
  gint64 strength;
  gint64 amount; /* halves of a tablet, or steps of a liquid */
} Candidate;

static gboolean
product (SwWide a, SwWide b, SwWide c, SwWide d, SwWide *result)
{
  return sw_wide_mul (a, b, result) && sw_wide_mul (*result, c, result) && sw_wide_mul (*result, d, result);
}

static gboolean
in_parts (SwRatio mg_per_kg, const SwTabletInput *input, SwWide unit, SwWide *parts)
{
  return product (mg_per_kg.num, unit / mg_per_kg.den, input->weight_g, 1, parts);
}

static gboolean
make_range (const SwTabletInput *input, Range *range)
{
  SwWide steps = SW_NL_PER_ML / sw_definition_whole (SW_DEF_LIQUID_STEP);
  SwRatio low = input->at_least ? input->target : input->low;

  if (input->weight_g <= 0 || input->target.num <= 0)
    return FALSE;
  range->at_least = input->at_least;
  if (!product (input->target.den, low.den, input->high.den, 2 * steps, &range->unit))
    return FALSE;
  range->per_half = range->unit / 2;
  range->per_step = range->unit / steps;
  return in_parts (input->target, input, range->unit, &range->target)
         && in_parts (low, input, range->unit, &range->low)
         && in_parts (input->high, input, range->unit, &range->high);
}

static SwWide
distance (const Range *range, SwWide dose)
{
  return dose > range->target ? dose - range->target : range->target - dose;
}

static gboolean
is_inside (const Range *range, SwWide dose)
{
  return dose >= range->low && dose <= range->high;
}

static gboolean
is_near (const Range *range, SwWide dose)
{
  const SwDefinition *window = sw_definition (SW_DEF_TARGET_WINDOW);

  return range->at_least || distance (range, dose) * window->den <= range->target * window->num;
}

static int
order (SwWide a, SwWide b)
{
  return (a > b) - (a < b);
}

/* Below 0 when @a is the better choice. Near ones come before others; among them fewest pieces count first, else
 * nearness. */
static int
compare_tablets (const Range *range, const Candidate *a, const Candidate *b)
{
  gboolean near_a = is_near (range, a->dose), near_b = is_near (range, b->dose);
  int pieces = order (sw_tablet_pieces (a->amount), sw_tablet_pieces (b->amount));
  int nearest = order (distance (range, a->dose), distance (range, b->dose));

  if (near_a != near_b)
    return near_a ? -1 : 1;
  if (near_a && pieces != 0)
    return pieces;
  if (nearest != 0)
    return nearest;
  if (pieces != 0)
    return pieces;
  if (a->dose != b->dose)
    return order (a->dose, b->dose);
  if (a->amount % 2 != b->amount % 2)
    return order (a->amount % 2, b->amount % 2);
  return order (a->strength, b->strength);
}

static gboolean
best_tablet (const SwTabletInput *input, const Range *range, Candidate *best)
{
  gint64 most = sw_definition_whole (SW_DEF_PIECES_MOST);
  gboolean found = FALSE;

  for (guint i = 0; i < input->n_strengths; i++)
    for (gint64 halves = input->halves ? 1 : 2; sw_tablet_pieces (halves) <= most; halves += input->halves ? 1 : 2)
      {
        Candidate c = { .strength = input->strengths_ug[i], .amount = halves };

        if (c.strength <= 0 || !product (c.strength, halves, range->per_half, 1, &c.dose))
          continue;
        if (is_inside (range, c.dose) && (!found || compare_tablets (range, &c, best) < 0))
          {
            *best = c;
            found = TRUE;
          }
      }
  return found;
}

static int
compare_liquids (const Range *range, const Candidate *a, const Candidate *b)
{
  int nearest = order (distance (range, a->dose), distance (range, b->dose));

  if (nearest != 0)
    return nearest;
  if (a->dose != b->dose)
    return order (a->dose, b->dose);
  return order (a->strength, b->strength);
}

/* Steps on both sides of the target: the nearer may lie outside the range. */
static gboolean
best_liquid (const SwTabletInput *input, const Range *range, Candidate *best)
{
  gboolean found = FALSE;

  for (guint i = 0; i < input->n_liquids; i++)
    {
      SwWide step;

      if (input->liquids_ug_ml[i] <= 0 || !sw_wide_mul (input->liquids_ug_ml[i], range->per_step, &step))
        continue;
      for (SwWide n = range->target / step; n <= range->target / step + 1; n++)
        {
          Candidate c = { step * n, input->liquids_ug_ml[i], (gint64) n };

          if (n > 0 && is_inside (range, c.dose) && (!found || compare_liquids (range, &c, best) < 0))
            {
              *best = c;
              found = TRUE;
            }
        }
    }
  return found;
}

static SwRatio
in_ug (const Range *range, SwWide parts)
{
  SwRatio ug = { 0, 1 };

  return sw_ratio_div ((SwRatio){ parts, 1 }, (SwRatio){ range->unit, 1 }, &ug) ? ug : (SwRatio){ parts, range->unit };
}

gboolean
sw_tablet_choose (const SwTabletInput *input, SwTabletChoice *choice)
{
  SwTabletChoice c = { SW_UNKNOWN, SW_UNKNOWN, SW_UNKNOWN, SW_UNKNOWN };
  Candidate best = { 0 };
  Range range;

  if (!make_range (input, &range))
    return FALSE;
  if (best_tablet (input, &range, &best))
    {
      c.strength_ug = best.strength;
      c.halves = best.amount;
    }
  else if (best_liquid (input, &range, &best))
    {
      c.liquid_ug_ml = best.strength;
      c.volume_nl = best.amount * sw_definition_whole (SW_DEF_LIQUID_STEP);
    }
  else
    return FALSE;
  c.dose = in_ug (&range, best.dose);
  c.target = in_ug (&range, range.target);
  c.deviates = !is_near (&range, best.dose);
  *choice = c;
  return TRUE;
}

gint64
sw_tablet_pieces (gint64 halves)
{
  return halves / 2 + halves % 2;
}

/* Without a unit: 25, 2.5, 0.375. */
static char *
in_thousands (gint64 small)
{
  g_autofree char *text = NULL, *same = NULL;
  SwRatio value = sw_ratio (small, SW_UG_PER_MG);

  sw_ratio_format_beside (value, value, 0, &text, &same);
  return g_steal_pointer (&text);
}

char *
sw_tablet_describe (const SwTabletChoice *choice)
{
  g_autofree char *strength = NULL, *volume = NULL;

  if (choice->strength_ug == SW_UNKNOWN)
    {
      strength = in_thousands (choice->liquid_ug_ml);
      volume = sw_ratio_format (sw_ratio (choice->volume_nl, SW_NL_PER_ML), 1);
      /* Translators: so much of a liquid of so many mg/mL */
      return g_strdup_printf (_("%s mL of %s mg/mL"), volume, strength);
    }
  strength = in_thousands (choice->strength_ug);
  if (choice->halves == 1)
    return g_strdup_printf ("1/2 x %s mg", strength);
  return g_strdup_printf ("%" G_GINT64_FORMAT "%s x %s mg", choice->halves / 2, choice->halves % 2 ? " 1/2" : "",
                          strength);
}

static char *
in_mg (SwRatio ug)
{
  SwRatio mg = { 0, 1 };

  return sw_ratio_div (ug, sw_ratio (SW_UG_PER_MG, 1), &mg) ? sw_ratio_format_significant (mg, 2) : g_strdup ("");
}

void
sw_tablet_explain (const SwTabletInput *input, const SwTabletChoice *choice, GPtrArray *why)
{
  g_autofree char *target = in_mg (choice->target), *dose = in_mg (choice->dose),
                  *described = sw_tablet_describe (choice);
  g_autofree char *weight = sw_mass_format (input->weight_g), *per_kg = sw_ratio_format_significant (input->target, 1);
  SwWhy *line = sw_why_add (why, _("Target of one dose"), NULL);

  sw_why_formula (line, _("weight x dose per kg"));
  sw_why_take_inputs (line, g_strdup_printf ("%s kg x %s mg/kg", weight, per_kg));
  sw_why_take_value (line, g_strdup_printf ("%s mg", target));
  line = sw_why_add (why, _("Tablets or liquid"), NULL);
  sw_why_take_inputs (line, g_steal_pointer (&described));
  sw_why_take_value (line, g_strdup_printf ("%s mg", dose));
  sw_why_definition (line, SW_DEF_TARGET_WINDOW);
}
