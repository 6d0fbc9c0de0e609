/* sw-vial-row-private.h: one vial as it was read, opened and disposed of
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dossier.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_VIAL_ROW (sw_vial_row_get_type ())
G_DECLARE_FINAL_TYPE (SwVialRow, sw_vial_row, SW, VIAL_ROW, GtkWidget)

GtkWidget *sw_vial_row_new (guint number);
void sw_vial_row_update (SwVialRow *self, const SwPractice *practice);
/* NULL, with the focus in what is wrong or missing and a sentence beside it. (transfer full) */
SwVial *sw_vial_row_make (SwVialRow *self);
gboolean sw_vial_row_is_blank (SwVialRow *self);

G_END_DECLS
