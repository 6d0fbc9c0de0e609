/* sw-patient-heading.h: who the dog is, its client, weight, warnings and tumours: the top of the patient page
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PATIENT_HEADING (sw_patient_heading_get_type ())
G_DECLARE_FINAL_TYPE (SwPatientHeading, sw_patient_heading, SW, PATIENT_HEADING, GtkWidget)

/* Acts through the actions patient.weigh, patient.correct, patient.add-tumour, patient.correct-tumour (row id). */
void sw_patient_heading_set_context (SwPatientHeading *self, const SwPageContext *context);

G_END_DECLS
