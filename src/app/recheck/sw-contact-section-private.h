/* sw-contact-section-private.h: attempts to reach the client
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_CONTACT_SECTION (sw_contact_section_get_type ())
G_DECLARE_FINAL_TYPE (SwContactSection, sw_contact_section, SW, CONTACT_SECTION, GtkBox)

void sw_contact_section_update (SwContactSection *self, SwStepPage *page, SwPageChanges changes);
gboolean sw_contact_section_has_unsaved (SwContactSection *self);
gboolean sw_contact_section_show_row (SwContactSection *self, gint64 id);

G_END_DECLS
