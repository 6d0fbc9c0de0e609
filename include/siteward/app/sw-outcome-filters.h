/* sw-outcome-filters.h: which treated tumours the outcomes look at, and what they are told apart by
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_OUTCOME_FILTERS (sw_outcome_filters_get_type ())
G_DECLARE_FINAL_TYPE (SwOutcomeFilters, sw_outcome_filters, SW, OUTCOME_FILTERS, GtkWidget)

/* Signal: changed (): the query is another one. */
GtkWidget *sw_outcome_filters_new (void);
/* What is chosen; `today` is the end of the periods. (transfer full) */
SwOutcomeQuery *sw_outcome_filters_get_query (SwOutcomeFilters *self, SwDay today);
/* The values that there are to filter by. */
void sw_outcome_filters_set_rows (SwOutcomeFilters *self, SwRecord *record, GArray *rows);

G_END_DECLS
