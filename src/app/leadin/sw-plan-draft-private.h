/* sw-plan-draft-private.h: the plan before it is signed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_PLAN_DRAFT (sw_plan_draft_get_type ())
G_DECLARE_FINAL_TYPE (SwPlanDraft, sw_plan_draft, SW, PLAN_DRAFT, GtkBox)

GtkWidget *sw_plan_draft_new (void);
void sw_plan_draft_update (SwPlanDraft *self, const SwPageContext *context, SwPageChanges changes);
gboolean sw_plan_draft_has_unsaved (SwPlanDraft *self);
/* The day, while it is empty; else NULL. */
GtkWidget *sw_plan_draft_first_empty (SwPlanDraft *self);

G_END_DECLS
