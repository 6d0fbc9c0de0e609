/* sw-response-page.h: the response: baseline and today's figures side by side, the category, and what comes next
 *
 * Everything shown is what rules answer for the chosen day; recording the score asks them once more inside the act.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_RESPONSE_PAGE (sw_response_page_get_type ())
G_DECLARE_FINAL_TYPE (SwResponsePage, sw_response_page, SW, RESPONSE_PAGE, SwStepPage)

G_END_DECLS
