/* sw-score-list-private.h: the scores of a course so far, the newest first, with those that were amended
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Fills an empty or filled box of rows; how many there are. */
guint sw_score_list_fill (GtkListBox *list, const SwPageContext *context);
/* The row of this score or overall; NULL: none. */
GtkWidget *sw_score_list_find (GtkListBox *list, SwFactKind kind, gint64 id);

G_END_DECLS
