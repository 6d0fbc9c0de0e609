/* sw-workup-medicines.h: what the dog takes or took from elsewhere, with washouts, and what the rules find in it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-question-form.h"
#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_MEDICINES (sw_workup_medicines_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpMedicines, sw_workup_medicines, SW, WORKUP_MEDICINES, SwWorkUpSection)

/* For tests. */
SwQuestionForm *sw_workup_medicines_get_form (SwWorkUpMedicines *self);
GtkWidget *sw_workup_medicines_get_record (SwWorkUpMedicines *self);
GtkWidget *sw_workup_medicines_get_add (SwWorkUpMedicines *self);
/* The dialog that a button opened last; NULL: none is open. */
GtkWidget *sw_workup_medicines_get_dialog (SwWorkUpMedicines *self);
/* The buttons of the n-th medicine shown, "correct" or "take-back"; NULL: none. */
GtkWidget *sw_workup_medicines_get_button (SwWorkUpMedicines *self, guint n, const char *which);

G_END_DECLS
