/* sw-site-form-private.h: what one treated site shows at a visit: size or look, and the wound
 *
 *   Tumour A, left hock
 *   the mass   [measured with the caliper v]     the wound   [open v]
 *    #  length  width  height                    [18.0] x [12.0] mm   169.6 mm2 by the ruler
 *    1  [    ]  [   ]  [    ]
 *
 * Readings are recorded one by one as they are complete; look and wound go with the visit.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_SITE_FORM (sw_site_form_get_type ())
G_DECLARE_FINAL_TYPE (SwSiteForm, sw_site_form, SW, SITE_FORM, GtkBox)

GtkWidget *sw_site_form_new (gint64 tumour, const char *title, const char *letter);

/* Readings and look of this day; `anew`: what was typed goes. */
void sw_site_form_show (SwSiteForm *self, SwStepPage *page, SwMoment at, gboolean anew);
/* The wound as it was recorded, for a correction; NULL: none yet. */
void sw_site_form_set_wound (SwSiteForm *self, const SwWound *wound);

/* Adds the wound and the look of a visit where new or changed. `visit`: its row, or what the request calls it. FALSE,
 * with the focus in the field that is wrong. */
gboolean sw_site_form_add_rows (SwSiteForm *self, SwRequest *request, gint64 visit, SwDay day);

gboolean sw_site_form_has_unsaved (SwSiteForm *self);
GtkWidget *sw_site_form_first_empty (SwSiteForm *self);

G_END_DECLS
