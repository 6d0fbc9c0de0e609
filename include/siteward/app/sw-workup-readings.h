/* sw-workup-readings.h: what the calipers said of one tumour before a treatment day, and the next reading
 *
 *   2026-05-03 09:12   20.8 × 17.9 × 8.8 mm   Tomas Reed                    [Take Back]
 *   length [      ]  width [      ]  height [      ] mm                     [Record the Reading]
 *
 * The third axis that is accepted with Enter records the reading, as a caliper that types like a keyboard expects.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-quantity-entry.h"
#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_READINGS (sw_workup_readings_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpReadings, sw_workup_readings, SW, WORKUP_READINGS, GtkWidget)

/* `named`: "tumour A". The section performs its requests. */
GtkWidget *sw_workup_readings_new (SwWorkUpSection *section, gint64 tumour, const char *named);
void sw_workup_readings_update (SwWorkUpReadings *self, const SwWorkUp *work_up, gboolean anew);
gboolean sw_workup_readings_has_unsaved (SwWorkUpReadings *self);
/* The first of the three cells that is empty; NULL: none. */
GtkWidget *sw_workup_readings_first_empty (SwWorkUpReadings *self);
SwQuantityEntry *sw_workup_readings_get_cell (SwWorkUpReadings *self, int axis);
GtkWidget *sw_workup_readings_get_record (SwWorkUpReadings *self);

G_END_DECLS
