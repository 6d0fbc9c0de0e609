/* sw-check-record.h: the whole check of a record, its derived lines recomputed by the rules
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-check.h"

G_BEGIN_DECLS

/* As sw_store_check(), summaries included. `digest`: what the newest line is expected to have, or NULL. */
SwCheckReport *sw_check_record (SwStore *store, const char *digest, GCancellable *cancellable, GError **error);

G_END_DECLS
