/* sw-visit-days-private.h: the visit days of a course with their standing, and what the site should look like, in words
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Fills the flow with one card for each visit day. */
void sw_visit_days_fill (GtkFlowBox *flow, const SwPageContext *context);

/* Fills the box with the pictures expected on this day of the course, each with its source and mark. */
void sw_expected_fill (GtkBox *box, const SwPageContext *context, SwDay day);

G_END_DECLS
