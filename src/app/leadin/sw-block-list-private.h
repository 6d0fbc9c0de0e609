/* sw-block-list-private.h: what stands in the way of signing, by where it is cured, with the next act
 *
 *   on this page      sentence                                   [Take Tue 2026-05-15]  [Take chlorphenamine]
 *   in the work-up    sentence ...                               [Go to Work-up]
 *   in the practice   sentence ...                               [Go to Practice]
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_BLOCK_LIST (sw_block_list_get_type ())
G_DECLARE_FINAL_TYPE (SwBlockList, sw_block_list, SW, BLOCK_LIST, GtkBox)

/* Signals: take-day (gint64 day); take-substance (string "group=substance"); stock (string substance);
 * label-read (): the labels of the packs handed out say no xylitol. */
GtkWidget *sw_block_list_new (void);

/* `findings`: open ones. `fitting`: for each substance that doesn't fit, those of its group that do: a hash of
 * substance -> GStrv of "group=substance". */
void sw_block_list_set (SwBlockList *self, const GPtrArray *findings, GHashTable *fitting);
/* Focuses the first act; FALSE: nothing blocks. */
gboolean sw_block_list_focus (SwBlockList *self);

G_END_DECLS
