/* sw-dose-list-private.h: doses by day, each with what became of it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_DOSE_LIST (sw_dose_list_get_type ())
G_DECLARE_FINAL_TYPE (SwDoseList, sw_dose_list, SW, DOSE_LIST, GtkBox)

/* `told_by`: the entry that says by whom, borrowed. */
GtkWidget *sw_dose_list_new (GtkWidget *told_by);

/* Shows these SwDosePlan, by due time; those of `read_only` (a set of dose ids as gint64 *, or NULL) without buttons.
 * Rows that stay keep their widgets, and so the focus. */
void sw_dose_list_show (SwDoseList *self, const SwPageContext *context, const GPtrArray *doses, GHashTable *read_only);

gboolean sw_dose_list_has_unsaved (SwDoseList *self);
/* The row of a dose, or NULL. */
GtkWidget *sw_dose_list_find (SwDoseList *self, gint64 dose);

G_END_DECLS
