/* sw-move-form-private.h: move the treatment day
 *
 * Shows the first possible day, what changes in words, and the vet's choice and order where they are needed.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_MOVE_FORM (sw_move_form_get_type ())
G_DECLARE_FINAL_TYPE (SwMoveForm, sw_move_form, SW, MOVE_FORM, GtkBox)

GtkWidget *sw_move_form_new (void);
void sw_move_form_update (SwMoveForm *self, const SwPageContext *context, SwPageChanges changes);
gboolean sw_move_form_has_unsaved (SwMoveForm *self);
/* Opens it on the first possible day, with the focus where the day stands. */
void sw_move_form_suggest (SwMoveForm *self);

G_END_DECLS
