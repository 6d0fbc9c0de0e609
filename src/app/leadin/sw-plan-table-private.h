/* sw-plan-table-private.h: the medicine plan as a table, with or without a choice of substance for each group
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-protocol.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PLAN_TABLE (sw_plan_table_get_type ())
G_DECLARE_FINAL_TYPE (SwPlanTable, sw_plan_table, SW, PLAN_TABLE, GtkGrid)

/* Signal changed (): another substance was chosen. */
GtkWidget *sw_plan_table_new (gboolean chooses);

/* The groups of a protocol, with what is chosen ("h1=chlorphenamine;..."; NULL: the first of each). */
void sw_plan_table_set_groups (SwPlanTable *self, const SwProtocol *protocol, const char *choices);
/* SwPlanRow, by group. */
void sw_plan_table_show (SwPlanTable *self, const GPtrArray *rows);

/* (transfer full) */
char *sw_plan_table_get_choices (SwPlanTable *self);
void sw_plan_table_choose (SwPlanTable *self, const char *group, const char *substance);

G_END_DECLS
