/* sw-patient-dialog.h: register a patient with its client, or correct who they are
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Called with the new patient's id once it is on record. */
typedef void (*SwPatientRegistered) (GtkWidget *parent, gint64 patient);

void sw_patient_dialog_register (GtkWidget *parent, SwRecord *record, gint64 person, SwPatientRegistered registered);
void sw_patient_dialog_correct (GtkWidget *parent, SwPageContext *context);

G_END_DECLS
