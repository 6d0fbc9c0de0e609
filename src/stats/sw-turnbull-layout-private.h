/* sw-turnbull-layout-private.h: the maximal intervals, and which of them each course spans.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-interval.h"
#include "sw-turnbull-private.h"

/* Between the ends of the courses: the maximal intervals (@cells) and what each course spans. */
typedef struct
{
  GArray *cells; /* of SwTurnbullMass, in order, masses not set */
  GArray *spans; /* of SwSpan, all different */
} SwTurnbullLayout;

/* TRUE, or SW_ERROR_INPUT with a sentence. */
gboolean sw_turnbull_check (const double *left, const double *right, gsize n, GError **error);

SwTurnbullLayout sw_turnbull_lay_out (const double *left, const double *right, gsize n);

/* The layout of other courses: counts[i] for each that @layout has in its span i. */
SwTurnbullLayout sw_turnbull_layout_draw (const SwTurnbullLayout *layout, const unsigned int *counts);

void sw_turnbull_layout_clear (SwTurnbullLayout *layout);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwTurnbullLayout, sw_turnbull_layout_clear)
