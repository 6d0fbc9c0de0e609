/* sw-outcome-section-view.h: one section of the outcomes: its charts, and its figures as buttons that open what is
 * behind them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-outcome.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_OUTCOME_SECTION_VIEW (sw_outcome_section_view_get_type ())
G_DECLARE_FINAL_TYPE (SwOutcomeSectionView, sw_outcome_section_view, SW, OUTCOME_SECTION_VIEW, GtkWidget)

/* Signals:
 *   behind (GArray *rows, const char *title)      a figure was activated: the places of its treated tumours
 *   save (const SwChart *chart, gboolean picture) a chart is to be saved, as a picture or as a table */
GtkWidget *sw_outcome_section_view_new (SwOutcomeSection *section);

G_END_DECLS
