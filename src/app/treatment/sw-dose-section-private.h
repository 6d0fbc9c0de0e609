/* sw-dose-section-private.h: what follows from the recorded weight and readings: volume, dose, what to draw, the
 * limits, and why
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_DOSE_SECTION (sw_dose_section_get_type ())
G_DECLARE_FINAL_TYPE (SwDoseSection, sw_dose_section, SW, DOSE_SECTION, SwTreatmentSection)

/* The derivation goes under both columns of the page, so it is a widget of its own: an expander. */
GtkWidget *sw_dose_section_get_why (SwDoseSection *self);

G_END_DECLS
