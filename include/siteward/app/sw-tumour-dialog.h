/* sw-tumour-dialog.h: register a tumour, or correct where one lies
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* old NULL: a new tumour, with the next letter. */
void sw_tumour_dialog_show (GtkWidget *parent, SwPageContext *context, const SwTumourDetails *old);

G_END_DECLS
