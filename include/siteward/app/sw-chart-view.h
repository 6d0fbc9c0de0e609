/* sw-chart-view.h: one chart of the outcomes; what it shows is its accessible name, in words
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-outcome.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_CHART_VIEW (sw_chart_view_get_type ())
G_DECLARE_FINAL_TYPE (SwChartView, sw_chart_view, SW, CHART_VIEW, GtkWidget)

/* A chart of the section, which is kept. */
GtkWidget *sw_chart_view_new (SwOutcomeSection *section, guint index);

G_END_DECLS
