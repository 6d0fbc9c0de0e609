/* sw-size.c: the size of a tumour at one visit
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-response.h"

SwSize
sw_size_longest (SwDay day, SwRatio longest)
{
  SwSize size = sw_size_of_state (day, SW_SITE_SIZE);

  size.value[SW_FAMILY_LONGEST] = longest;
  size.known[SW_FAMILY_LONGEST] = TRUE;
  return size;
}

SwSize
sw_size_measured (SwDay day, const SwMeasured *measured, SwVolumeRule rule)
{
  SwSize size = sw_size_longest (day, sw_volume_longest (measured));

  size.known[SW_FAMILY_PRODUCT] = sw_volume_product (measured, &size.value[SW_FAMILY_PRODUCT]);
  size.known[SW_FAMILY_VOLUME] = sw_volume_cm3 (measured, rule, &size.value[SW_FAMILY_VOLUME]);
  return size;
}

SwSize
sw_size_of_state (SwDay day, SwSiteState state)
{
  SwSize size = { .day = day, .state = state };

  for (int family = 0; family < SW_N_FAMILIES; family++)
    {
      size.value[family] = sw_ratio (0, 1);
      size.known[family] = state == SW_SITE_GONE;
    }
  return size;
}

void
sw_size_add_part (SwSize *whole, const SwSize *part)
{
  for (int family = 0; family < SW_N_FAMILIES; family++)
    whole->known[family] = whole->known[family] && part->known[family]
                           && sw_ratio_add (whole->value[family], part->value[family], &whole->value[family]);
  if (!whole->known[SW_FAMILY_LONGEST])
    whole->state = SW_SITE_NOT_EVALUABLE;
}
