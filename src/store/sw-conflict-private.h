/* sw-conflict-private.h: who was first
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-store-private.h"

G_BEGIN_DECLS

/* After inserting `fact` failed: if another row stands in its place, makes the error a conflict that names who wrote it
 * and when. */
void sw_conflict_explain (SwStore *store, gconstpointer fact, GError **error);

G_END_DECLS
