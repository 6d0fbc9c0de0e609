/* sw-recheck-page.h: what follows the injection: visits and wounds, attempts to reach the client, recurrence, the end
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_RECHECK_PAGE (sw_recheck_page_get_type ())
G_DECLARE_FINAL_TYPE (SwRecheckPage, sw_recheck_page, SW, RECHECK_PAGE, SwStepPage)

G_END_DECLS
