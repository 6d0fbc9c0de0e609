/* sw-response-private.h: the parts of a score, for this room only
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-response.h"

G_BEGIN_DECLS

/* One family's way through a series of two or more sizes that begins with one. */
SwFamilyScore sw_response_walk (const SwSize *sizes, guint n, SwFamily family);

/* The recorded recurrence of a tumour after one day and up to another, a sampled one before others; NULL. */
const SwRecurrence *sw_response_recurrence (const SwCase *c, gint64 tumour, SwDay after, SwDay until);

/* Flags, notes, derivation and next step of a score whose categories are done. */
void sw_response_conclude (SwResponse *response, const SwScoring *scoring);

/* Adds the derivation. */
void sw_response_explain (SwResponse *response);

G_END_DECLS
