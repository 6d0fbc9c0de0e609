/* sw-weight-dialog.h: register a weighing
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

void sw_weight_dialog_show (GtkWidget *parent, SwPageContext *context);

/* The question about an unlikely weight, or NULL: 8 times or more off the last one, or more than 10 % in 14 days
 * (domain 2, [ours]). (transfer full) */
char *sw_weight_question (const SwDossier *dossier, gint64 grams, SwDay day);

G_END_DECLS
