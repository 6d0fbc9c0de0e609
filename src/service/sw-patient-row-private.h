/* sw-patient-row-private.h: making and filling lines of the patient list
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-patient-list.h"

G_BEGIN_DECLS

/* Knows its patient and number; the rest comes with sw_patient_row_fill(). */
SwPatientRow *sw_patient_row_new (gint64 patient);
/* Notifies what differs. */
void sw_patient_row_fill (SwPatientRow *self, const SwListRow *row);

G_END_DECLS
