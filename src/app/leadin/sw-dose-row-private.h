/* sw-dose-row-private.h: one dose, and what became of it
 *
 *   08:00  prednisolone  1/2 x 25 mg = 12.5 mg   ◇ not known   [Given] [Late…] [Missed] [Vomited] [Stop…]
 *                                                given at [     ] [Record Late]
 *   20:00  famotidine    1 x 10 mg = 10 mg       ● given, told by the client; recorded by Tomas  [Correct…] [Take Back]
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_DOSE_ROW (sw_dose_row_get_type ())
G_DECLARE_FINAL_TYPE (SwDoseRow, sw_dose_row, SW, DOSE_ROW, GtkBox)

/* `told_by`: the entry that says by whom, shared by the rows of a list.
 * Signal told (): the record has taken what was said of the dose. */
GtkWidget *sw_dose_row_new (GtkWidget *told_by);

typedef enum
{
  SW_DOSE_ROW_READ, /* told of elsewhere on the page */
  SW_DOSE_ROW_TELL, /* buttons as its state allows */
} SwDoseRowUse;

void sw_dose_row_show (SwDoseRow *self, const SwPageContext *context, const SwDosePlan *dose, SwDoseRowUse use);
gint64 sw_dose_row_get_dose (SwDoseRow *self);
/* Puts the focus where it is told; FALSE: it is told already, or not due. */
gboolean sw_dose_row_focus_telling (SwDoseRow *self);
/* A time is typed and not recorded. */
gboolean sw_dose_row_has_unsaved (SwDoseRow *self);

G_END_DECLS
