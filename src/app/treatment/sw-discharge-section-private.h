/* sw-discharge-section-private.h: a vet lets the dog go home
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_DISCHARGE_SECTION (sw_discharge_section_get_type ())
G_DECLARE_FINAL_TYPE (SwDischargeSection, sw_discharge_section, SW, DISCHARGE_SECTION, SwTreatmentSection)

G_END_DECLS
