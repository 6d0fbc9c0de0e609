/* sw-figure-list.h: the figures of one document, each with value, mark and source, and a tick for each that was not
 * read there
 *
 *   [ ] least-dose            0.1 mL          second-hand   not recorded
 *       dose-per-volume       0.5 mL/cm3      seen          Product information ...
 *
 * Signal changed (): a tick was set or taken away.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-document.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_FIGURE_LIST (sw_figure_list_get_type ())
G_DECLARE_FINAL_TYPE (SwFigureList, sw_figure_list, SW, FIGURE_LIST, GtkWidget)

/* The head is borrowed. Without `ticks` it only shows. */
GtkWidget *sw_figure_list_new (const SwDocumentHead *head, gboolean ticks);

guint sw_figure_list_count_wanted (SwFigureList *self);
guint sw_figure_list_count_ticked (SwFigureList *self);
/* Focuses the first figure that wants a tick; FALSE: none does. */
gboolean sw_figure_list_focus_first (SwFigureList *self);
/* Names of the figures ticked, separated by ";": what adoption asks for. (transfer full) */
char *sw_figure_list_ticks (SwFigureList *self);

G_END_DECLS
