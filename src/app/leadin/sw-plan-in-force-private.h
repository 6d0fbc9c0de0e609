/* sw-plan-in-force-private.h: the signed plan: what was told of its doses, the plan itself, and its changes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_PLAN_IN_FORCE (sw_plan_in_force_get_type ())
G_DECLARE_FINAL_TYPE (SwPlanInForce, sw_plan_in_force, SW, PLAN_IN_FORCE, GtkBox)

GtkWidget *sw_plan_in_force_new (void);
/* There is a signed plan. */
void sw_plan_in_force_update (SwPlanInForce *self, const SwPageContext *context, SwPageChanges changes);
gboolean sw_plan_in_force_has_unsaved (SwPlanInForce *self);
/* Brings the row of a dose to view and focuses it; dose 0: what can be done with the plan's day. */
void sw_plan_in_force_focus (SwPlanInForce *self, gint64 dose);

G_END_DECLS
