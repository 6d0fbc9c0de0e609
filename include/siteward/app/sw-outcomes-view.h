/* sw-outcomes-view.h: what this practice achieved: filters, figures and charts, and the tumours behind each figure
 *
 * Computed on the record's reader thread when the page is shown; sections appear as they are done.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_OUTCOMES_VIEW (sw_outcomes_view_get_type ())
G_DECLARE_FINAL_TYPE (SwOutcomesView, sw_outcomes_view, SW, OUTCOMES_VIEW, GtkWidget)

/* Signal: chosen (gint64 patient): a tumour behind a figure was activated. */
void sw_outcomes_view_set_record (SwOutcomesView *self, SwRecord *record);
/* What is shown; NULL while it is being computed. For tests. */
SwOutcomes *sw_outcomes_view_get_outcomes (SwOutcomesView *self);
/* Writes what is shown: the report (PDF) or, beside each other, the tables. FALSE: told in the bar. */
gboolean sw_outcomes_view_save_report (SwOutcomesView *self, GFile *file);
gboolean sw_outcomes_view_save_tables (SwOutcomesView *self, GFile *file);

G_END_DECLS
