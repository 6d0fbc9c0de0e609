/* sw-observation-section-private.h: looks at the dog after the injection, and its discharge
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_OBSERVATION_SECTION (sw_observation_section_get_type ())
G_DECLARE_FINAL_TYPE (SwObservationSection, sw_observation_section, SW, OBSERVATION_SECTION, SwTreatmentSection)

G_END_DECLS
