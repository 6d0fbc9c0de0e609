/* sw-outcome-paper.h: the outcomes as a report on A4
 *
 * Every figure with its numerator, denominator and limits, who is left out and why, the charts, and how each is
 * counted: the same values and texts as on the screen.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-outcome.h"

#include <cairo.h>

G_BEGIN_DECLS

/* Writes a PDF. Errors: what writing a file errs with. */
gboolean sw_outcome_paper_write (const SwOutcomes *outcomes, const char *path, GError **error);

G_END_DECLS
