/* sw-why-view.h: a derivation laid out as a table: what, formula, inputs, value, limit, source and mark
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-why.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_WHY_VIEW (sw_why_view_get_type ())
G_DECLARE_FINAL_TYPE (SwWhyView, sw_why_view, SW, WHY_VIEW, GtkWidget)

GtkWidget *sw_why_view_new (void);
/* SwWhy lines; NULL or none shows nothing. */
void sw_why_view_set_lines (SwWhyView *self, const GPtrArray *lines);

G_END_DECLS
