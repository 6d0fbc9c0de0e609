/* sw-lead-in-page.h: the medicines round the injection: planned and signed before it, told dose by dose, changed by the vet
 *
 *   no plan    treatment day, planning weight, medicines and tablets, what gate A lacks, what to dispense, [Sign the Plan]
 *   signed     doses lost and what is open for each; told today; the plan; all doses; changes: day, weight, medicine, the end
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_LEAD_IN_PAGE (sw_lead_in_page_get_type ())
G_DECLARE_FINAL_TYPE (SwLeadInPage, sw_lead_in_page, SW, LEAD_IN_PAGE, SwStepPage)

G_END_DECLS
