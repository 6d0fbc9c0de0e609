/* sw-workup-open.h: what still stands between the work-up and the lead-in, what the vet decided, and what is met
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_OPEN (sw_workup_open_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpOpen, sw_workup_open, SW, WORKUP_OPEN, SwWorkUpSection)

/* For tests: SwDecisionRow widgets as shown, from top to bottom. (transfer container) */
GPtrArray *sw_workup_open_get_rows (SwWorkUpOpen *self);

G_END_DECLS
