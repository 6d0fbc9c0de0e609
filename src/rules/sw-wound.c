/* sw-wound.c: the area of a wound by the ruler
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-wound.h"

#include "sw-quantity.h"

gboolean
sw_wound_area (gint64 length, gint64 width, SwRatio *mm2)
{
  SwRatio box, ellipse;

  return sw_ratio_mul (sw_ratio (length, 2), sw_ratio (width, 2), &box) /* half axes */
         && sw_ratio_mul (box, SW_PI, &ellipse)
         && sw_ratio_div (ellipse, sw_ratio (SW_AREA_UNITS_PER_MM2, 1), mm2);
}
