/* sw-recurrence-section-private.h: mast cells again in or beside a scar
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_RECURRENCE_SECTION (sw_recurrence_section_get_type ())
G_DECLARE_FINAL_TYPE (SwRecurrenceSection, sw_recurrence_section, SW, RECURRENCE_SECTION, GtkBox)

void sw_recurrence_section_update (SwRecurrenceSection *self, SwStepPage *page, SwPageChanges changes);
gboolean sw_recurrence_section_has_unsaved (SwRecurrenceSection *self);
gboolean sw_recurrence_section_show_row (SwRecurrenceSection *self, gint64 id);

G_END_DECLS
