/* sw-stock-form-private.h: put another strength of a medicine on the practice's shelf
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_STOCK_FORM (sw_stock_form_get_type ())
G_DECLARE_FINAL_TYPE (SwStockForm, sw_stock_form, SW, STOCK_FORM, GtkBox)

/* Hidden until it is asked for a substance. */
GtkWidget *sw_stock_form_new (void);
void sw_stock_form_ask (SwStockForm *self, const char *substance);

G_END_DECLS
