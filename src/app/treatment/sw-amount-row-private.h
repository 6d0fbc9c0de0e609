/* sw-amount-row-private.h: what was drawn for and given into one tumour
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_AMOUNT_ROW (sw_amount_row_get_type ())
G_DECLARE_FINAL_TYPE (SwAmountRow, sw_amount_row, SW, AMOUNT_ROW, GtkWidget)

/* `name`: "tumour A, left hock". */
GtkWidget *sw_amount_row_new (gint64 tumour, const char *name);
gint64 sw_amount_row_get_tumour (SwAmountRow *self);
/* What was released is offered as drawn; what was given is always typed. */
void sw_amount_row_offer (SwAmountRow *self, gint64 released_nl);
/* NULL, with the focus in what is wrong. (transfer full) */
SwInjectionTumour *sw_amount_row_make (SwAmountRow *self);
gboolean sw_amount_row_is_blank (SwAmountRow *self);

G_END_DECLS
