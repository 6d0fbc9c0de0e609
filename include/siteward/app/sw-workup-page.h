/* sw-workup-page.h: may this tumour be treated this way? All that is asked before the lead-in
 *
 *   [What Is Open 7] [Course] [The Dog 3] [Tumours 2] [Medicines 1] [Consent 1]
 *   the part that is chosen
 *
 * The figures are what still blocks in each part. A finding leads to the field that settles it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"
#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_PAGE (sw_workup_page_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpPage, sw_workup_page, SW, WORKUP_PAGE, SwStepPage)

/* "open", "course", "dog", "tumours", "medicines", "consent". */
void sw_workup_page_show_section (SwWorkUpPage *self, const char *name);
SwWorkUpSection *sw_workup_page_get_section (SwWorkUpPage *self, const char *name);
/* Shows and focuses what settles it, or opens the dialog or page that does. */
void sw_workup_page_go (SwWorkUpPage *self, const SwPlace *place);

G_END_DECLS
