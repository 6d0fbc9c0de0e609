/* sw-cancel-form-private.h: end a course before its injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_CANCEL_FORM (sw_cancel_form_get_type ())
G_DECLARE_FINAL_TYPE (SwCancelForm, sw_cancel_form, SW, CANCEL_FORM, GtkBox)

GtkWidget *sw_cancel_form_new (void);
void sw_cancel_form_update (SwCancelForm *self, const SwPageContext *context, SwPageChanges changes);
gboolean sw_cancel_form_has_unsaved (SwCancelForm *self);

G_END_DECLS
