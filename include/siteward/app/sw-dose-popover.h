/* sw-dose-popover.h: tell what became of a dose, right at its mark: [Given] [Late] [Missed] [Vomited]
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Opens over `mark` for a dose of the context's dossier; closes when the record has taken the answer, stays with words
 * when not. */
void sw_dose_popover_show (GtkWidget *mark, SwPageContext *context, gint64 dose);

G_END_DECLS
