/* sw-interaction.h: what the dog takes, took and will take, against each other and against its diseases (domain 3.2)
 *
 * The rows come from the document of interactions, classes and washouts from the medicines' documents. A practice may
 * lengthen a washout by its setting washout.SUBSTANCE, never shorten it. A day is free when a washout of n days began
 * n days before it or earlier: last given on the 1st, 5 days: open from the 6th. The end of the course counts the
 * same way ("day +7 plus washout").
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"

G_BEGIN_DECLS

/* With the plan in force; while there is none, with the protocol's own medicines led in from today. (transfer full) */
GPtrArray *sw_interactions_check (const SwCase *c);

/* With a plan that is about to be signed. (transfer full) */
GPtrArray *sw_interactions_of_plan (const SwCase *c, SwDay treat_day, const char *choices);

/* Days between the last dose and the first of the other kind: the document's, or the practice's where that is longer;
 * SW_UNKNOWN. */
gint64 sw_washout_days (const SwCase *c, const char *substance, gint64 otherwise);

/* The washout of what the dog took from elsewhere, and the first day on which the other kind may begin (SW_NO_DAY while it goes on).
 * For an NSAID whose name is not known: the longest known one. FALSE: no washout is known of it. */
gboolean sw_washout_of (const SwCase *c, const SwMedicineTaken *taken, gint64 *days, SwDay *open);

G_END_DECLS
