/* sw-change-form-private.h: the signed plan on another weight, or with other medicines, seen in words before it is made
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_CHANGE_FORM (sw_change_form_get_type ())
G_DECLARE_FINAL_TYPE (SwChangeForm, sw_change_form, SW, CHANGE_FORM, GtkBox)

GtkWidget *sw_change_form_new (void);
void sw_change_form_update (SwChangeForm *self, const SwPageContext *context, SwPageChanges changes);
gboolean sw_change_form_has_unsaved (SwChangeForm *self);

G_END_DECLS
