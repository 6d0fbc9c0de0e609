/* sw-tool-figures-private.h: what the commands on a table of figures share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-csv.h"
#include "sw-tool-private.h"

G_BEGIN_DECLS

/* Confidence of all limits that the command line prints. */
#define SW_FIGURES_LEVEL 0.95

/* Each reads its table, prints its figures and is done; else the error says what is wrong with the table. */
gboolean sw_figures_survival (const SwTool *tool, const SwCsv *csv, GError **error);
gboolean sw_figures_interval (const SwTool *tool, const SwCsv *csv, GError **error);
gboolean sw_figures_competing (const SwTool *tool, const SwCsv *csv, GError **error);
gboolean sw_figures_agreement (const SwTool *tool, const SwCsv *csv, GError **error);
gboolean sw_figures_judges (const SwTool *tool, const SwCsv *csv, GError **error);

/* Prints "label  value" for people; an absent value as a dash. */
void sw_figures_print (const char *label, double value);

G_END_DECLS
