/* sw-treated-list.h: the treated tumours behind a figure; each opens its dog
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-outcome.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_TREATED_LIST (sw_treated_list_get_type ())
G_DECLARE_FINAL_TYPE (SwTreatedList, sw_treated_list, SW, TREATED_LIST, GtkWidget)

/* Signals: back (), chosen (gint64 patient) */
GtkWidget *sw_treated_list_new (void);
/* @places: (element-type guint): in outcomes->rows; both are kept. */
void sw_treated_list_show (SwTreatedList *self, SwOutcomes *outcomes, GArray *places, const char *title);

G_END_DECLS
