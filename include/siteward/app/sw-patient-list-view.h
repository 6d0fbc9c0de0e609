/* sw-patient-list-view.h: find a patient: search, due / open / all, and the list
 *
 * Signal chosen (gint64 patient): the person chose another patient in the list. The choice is kept as an id; a search
 * that hides the chosen patient chooses nothing. Property shown: set_shown() tells which patient the window shows,
 * without a signal.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-patient-list.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PATIENT_LIST_VIEW (sw_patient_list_view_get_type ())
G_DECLARE_FINAL_TYPE (SwPatientListView, sw_patient_list_view, SW, PATIENT_LIST_VIEW, GtkWidget)

void sw_patient_list_view_set_record (SwPatientListView *self, SwRecord *record);
void sw_patient_list_view_set_shown (SwPatientListView *self, gint64 patient);
void sw_patient_list_view_focus_search (SwPatientListView *self);

G_END_DECLS
