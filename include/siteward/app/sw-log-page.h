/* sw-log-page.h: what was done for this dog, when and by whom, newest first
 *
 * The example of a step page (sw-step-page.h): a template with this parent, update(), and nothing kept but what it
 * shows.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_LOG_PAGE (sw_log_page_get_type ())
G_DECLARE_FINAL_TYPE (SwLogPage, sw_log_page, SW, LOG_PAGE, SwStepPage)

G_END_DECLS
