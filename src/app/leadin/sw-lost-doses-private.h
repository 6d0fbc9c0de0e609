/* sw-lost-doses-private.h: missed and vomited doses, and what is open for each: a replacement, or another day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_LOST_DOSES (sw_lost_doses_get_type ())
G_DECLARE_FINAL_TYPE (SwLostDoses, sw_lost_doses, SW, LOST_DOSES, GtkBox)

/* Takes no room while no dose is lost. Signal move (): the day shall be moved. */
GtkWidget *sw_lost_doses_new (void);
void sw_lost_doses_update (SwLostDoses *self, const SwPageContext *context, SwPageChanges changes);
gboolean sw_lost_doses_has_unsaved (SwLostDoses *self);

G_END_DECLS
