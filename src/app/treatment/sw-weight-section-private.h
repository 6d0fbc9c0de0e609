/* sw-weight-section-private.h: today's weight: entered, corrected, taken again
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_WEIGHT_SECTION (sw_weight_section_get_type ())
G_DECLARE_FINAL_TYPE (SwWeightSection, sw_weight_section, SW, WEIGHT_SECTION, SwTreatmentSection)

G_END_DECLS
