/* sw-workup-tumours.h: the work-up of each tumour: its questions, and its readings
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-question-form.h"
#include "sw-workup-readings.h"
#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_TUMOURS (sw_workup_tumours_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpTumours, sw_workup_tumours, SW, WORKUP_TUMOURS, SwWorkUpSection)

/* For tests; NULL: no such tumour. */
SwQuestionForm *sw_workup_tumours_get_form (SwWorkUpTumours *self, gint64 tumour);
SwWorkUpReadings *sw_workup_tumours_get_readings (SwWorkUpTumours *self, gint64 tumour);
GtkWidget *sw_workup_tumours_get_record (SwWorkUpTumours *self);

G_END_DECLS
