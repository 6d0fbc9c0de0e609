/* sw-plausible.h: entries that are possible but unlikely: asked about, never refused (domain 2)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_PLAUSIBLE,
  SW_PLAUSIBLE_UNIT_SLIP, /* 8 times or more off the last value, either way */
  SW_PLAUSIBLE_MOVED,     /* a weight that moved more than 10 % within 14 days */
} SwPlausible;

/* Two values of one kind, both over 0; `last` SW_UNKNOWN: nothing to compare with. */
SwPlausible sw_plausible_value (gint64 value, gint64 last);

/* In grams; `last` SW_UNKNOWN: the first weighing. */
SwPlausible sw_plausible_weight (gint64 grams, SwDay day, gint64 last, SwDay last_day);

G_END_DECLS
