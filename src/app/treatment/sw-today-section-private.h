/* sw-today-section-private.h: the questions of the treatment day, one field for each of the vocabulary's, and who
 * answers
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_TODAY_SECTION (sw_today_section_get_type ())
G_DECLARE_FINAL_TYPE (SwTodaySection, sw_today_section, SW, TODAY_SECTION, SwTreatmentSection)

G_END_DECLS
