/* sw-replan-view-private.h: a change of the plan in words before it is made: what changes, what stands in the way
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-move.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_REPLAN_VIEW (sw_replan_view_get_type ())
G_DECLARE_FINAL_TYPE (SwReplanView, sw_replan_view, SW, REPLAN_VIEW, GtkBox)

GtkWidget *sw_replan_view_new (void);
/* NULL shows nothing. `roles`: of the person at the desk, for what only a vet may do. */
void sw_replan_view_show (SwReplanView *self, const SwReplan *replan, gint64 roles);

G_END_DECLS
