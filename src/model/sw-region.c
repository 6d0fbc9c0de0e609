/* sw-region.c: regions, sides and depths
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-region.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  const char *code;
  const char *name;
} Word;

static const Word regions[SW_N_REGIONS] = {
  [SW_REGION_HEAD] = { "head", N_("head") },
  [SW_REGION_MUZZLE] = { "muzzle", N_("muzzle") },
  [SW_REGION_LIP] = { "lip", N_("lip") },
  [SW_REGION_EYELID] = { "eyelid", N_("eyelid") },
  [SW_REGION_PINNA] = { "pinna", N_("pinna") },
  [SW_REGION_NECK] = { "neck", N_("neck") },
  [SW_REGION_THORAX] = { "thorax", N_("thorax") },
  [SW_REGION_ABDOMEN] = { "abdomen", N_("abdomen") },
  [SW_REGION_FLANK] = { "flank", N_("flank") },
  [SW_REGION_BACK] = { "back", N_("back") },
  [SW_REGION_PERINEUM] = { "perineum", N_("perineum") },
  [SW_REGION_PREPUCE_OR_VULVA] = { "prepuce-or-vulva", N_("prepuce or vulva") },
  [SW_REGION_SCROTUM] = { "scrotum", N_("scrotum") },
  [SW_REGION_MAMMARY] = { "mammary", N_("mammary") },
  [SW_REGION_TAIL] = { "tail", N_("tail") },
  [SW_REGION_FORELIMB_PROXIMAL] = { "forelimb-proximal", N_("forelimb above the elbow") },
  [SW_REGION_ELBOW] = { "elbow", N_("elbow") },
  [SW_REGION_FORELIMB_DISTAL] = { "forelimb-distal", N_("forelimb below the elbow") },
  [SW_REGION_FOREPAW] = { "forepaw", N_("forepaw") },
  [SW_REGION_FORE_DIGIT] = { "fore-digit", N_("digit of the forepaw") },
  [SW_REGION_HINDLIMB_PROXIMAL] = { "hindlimb-proximal", N_("hindlimb above the hock") },
  [SW_REGION_HOCK] = { "hock", N_("hock") },
  [SW_REGION_HINDLIMB_DISTAL] = { "hindlimb-distal", N_("hindlimb below the hock") },
  [SW_REGION_HINDPAW] = { "hindpaw", N_("hindpaw") },
  [SW_REGION_HIND_DIGIT] = { "hind-digit", N_("digit of the hindpaw") },
};

static const Word sides[SW_N_SIDES] = {
  [SW_SIDE_LEFT] = { "left", N_("left") },
  [SW_SIDE_RIGHT] = { "right", N_("right") },
  [SW_SIDE_MIDLINE] = { "midline", N_("midline") },
};

static const Word depths[SW_N_DEPTHS] = {
  [SW_DEPTH_CUTANEOUS] = { "cutaneous", N_("cutaneous") },
  [SW_DEPTH_SUBCUTANEOUS] = { "subcutaneous", N_("subcutaneous") },
  [SW_DEPTH_OTHER] = { "other", N_("mucosa, muscle or deeper") },
};

static int
find_code (const Word *words, int n, const char *code)
{
  for (int i = 0; i < n; i++)
    if (g_strcmp0 (words[i].code, code) == 0)
      return i;
  return -1;
}

int
sw_region_from_code (const char *code)
{
  return find_code (regions, SW_N_REGIONS, code);
}

const char *
sw_region_code (SwRegion region)
{
  g_return_val_if_fail ((guint) region < SW_N_REGIONS, NULL);
  return regions[region].code;
}

const char *
sw_region_name (SwRegion region)
{
  g_return_val_if_fail ((guint) region < SW_N_REGIONS, NULL);
  return _(regions[region].name);
}

int
sw_side_from_code (const char *code)
{
  return find_code (sides, SW_N_SIDES, code);
}

const char *
sw_side_code (SwSide side)
{
  g_return_val_if_fail ((guint) side < SW_N_SIDES, NULL);
  return sides[side].code;
}

const char *
sw_side_name (SwSide side)
{
  g_return_val_if_fail ((guint) side < SW_N_SIDES, NULL);
  return _(sides[side].name);
}

int
sw_depth_from_code (const char *code)
{
  return find_code (depths, SW_N_DEPTHS, code);
}

const char *
sw_depth_code (SwDepth depth)
{
  g_return_val_if_fail ((guint) depth < SW_N_DEPTHS, NULL);
  return depths[depth].code;
}

const char *
sw_depth_name (SwDepth depth)
{
  g_return_val_if_fail ((guint) depth < SW_N_DEPTHS, NULL);
  return _(depths[depth].name);
}
