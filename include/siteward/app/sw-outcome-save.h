/* sw-outcome-save.h: outcomes into files that a person chose
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-outcome.h"

#include <gio/gio.h>

G_BEGIN_DECLS

gboolean sw_outcome_save_report (const SwOutcomes *outcomes, GFile *file, GError **error);
/* FILE.csv with the figures; beside it FILE-curves.csv and FILE-tumours.csv. */
gboolean sw_outcome_save_tables (const SwOutcomes *outcomes, GFile *file, GError **error);
/* As a PNG, or its points as a table. */
gboolean sw_outcome_save_chart (const SwChart *chart, gboolean picture, GFile *file, GError **error);

G_END_DECLS
