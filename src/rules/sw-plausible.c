/* sw-plausible.c: entries that are possible but unlikely
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-plausible.h"

#include "sw-definitions.h"

/* Entries are far smaller than 64 bits hold: their products here don't overflow. */
SwPlausible
sw_plausible_value (gint64 value, gint64 last)
{
  gint64 times = sw_definition_whole (SW_DEF_SLIP_TIMES);

  if (last == SW_UNKNOWN)
    return SW_PLAUSIBLE;
  return value >= times * last || last >= times * value ? SW_PLAUSIBLE_UNIT_SLIP : SW_PLAUSIBLE;
}

SwPlausible
sw_plausible_weight (gint64 grams, SwDay day, gint64 last, SwDay last_day)
{
  const SwDefinition *share = sw_definition (SW_DEF_WEIGHT_MOVE);

  if (last == SW_UNKNOWN)
    return SW_PLAUSIBLE;
  if (sw_plausible_value (grams, last) == SW_PLAUSIBLE_UNIT_SLIP)
    return SW_PLAUSIBLE_UNIT_SLIP;
  if (ABS (day - last_day) > sw_definition_whole (SW_DEF_WEIGHT_MOVE_DAYS))
    return SW_PLAUSIBLE;

  return ABS (grams - last) * share->den > last * share->num ? SW_PLAUSIBLE_MOVED : SW_PLAUSIBLE;
}
