/* sw-injection-section-private.h: the injection as it happened: vials, amounts, who, when, how
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_INJECTION_SECTION (sw_injection_section_get_type ())
G_DECLARE_FINAL_TYPE (SwInjectionSection, sw_injection_section, SW, INJECTION_SECTION, SwTreatmentSection)

G_END_DECLS
