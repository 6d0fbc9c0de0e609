/* sw-treatment-page.h: the treatment day: weigh, measure, dose, check, release, inject, watch, discharge
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_TREATMENT_PAGE (sw_treatment_page_get_type ())
G_DECLARE_FINAL_TYPE (SwTreatmentPage, sw_treatment_page, SW, TREATMENT_PAGE, SwStepPage)

G_END_DECLS
