/* sw-readings-section-private.h: caliper readings, a table for each tumour of the course and a switch between them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_READINGS_SECTION (sw_readings_section_get_type ())
G_DECLARE_FINAL_TYPE (SwReadingsSection, sw_readings_section, SW, READINGS_SECTION, SwTreatmentSection)

/* Brings the table of a tumour to view; FALSE: none of this course. */
gboolean sw_readings_section_show_tumour (SwReadingsSection *self, gint64 tumour);

G_END_DECLS
