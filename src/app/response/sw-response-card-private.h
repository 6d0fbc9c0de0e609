/* sw-response-card-private.h: how one tumour answered on one day: figures, category, flags and the arithmetic
 *
 *   Tumour A, left hock                                        partial response (PR)
 *                       baseline     smallest     newest
 *                       2026-05-14                2026-06-11
 *   longest diameter    21.20 mm     21.20 mm     12.10 mm     PR   counts
 *   ...
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A tumour that can't be scored on that day says why, in the rule's sentence. */
GtkWidget *sw_response_card_new (const SwPageContext *context, gint64 tumour, SwDay day);

G_END_DECLS
