/* sw-decision-row.h: one finding, what leads to settling it, and the vet's reason where the vet decides
 *
 *   ◆ vet decides   grade: Kiupel high. The protocol leaves it to the vet.        [Answer It]
 *                   Give a reason for treating all the same, or treat another way.
 *                   reason [                                     ] [Give the Reason]
 *
 * What is typed as a reason stays when the finding is shown anew.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-workup-findings.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_DECISION_ROW (sw_decision_row_get_type ())
G_DECLARE_FINAL_TYPE (SwDecisionRow, sw_decision_row, SW, DECISION_ROW, GtkWidget)

/* Signals: go (), reason (string). */
GtkWidget *sw_decision_row_new (void);

void sw_decision_row_update (SwDecisionRow *self, const SwWorkUp *work_up, const SwFinding *finding);
const SwFinding *sw_decision_row_get_finding (SwDecisionRow *self);
gboolean sw_decision_row_has_unsaved (SwDecisionRow *self);
/* What was typed is recorded now, or is another dog's. */
void sw_decision_row_forget (SwDecisionRow *self);

/* For tests. NULL: the vet has nothing to decide here. */
GtkWidget *sw_decision_row_get_entry (SwDecisionRow *self);
GtkWidget *sw_decision_row_get_give (SwDecisionRow *self);
GtkWidget *sw_decision_row_get_go (SwDecisionRow *self);

G_END_DECLS
