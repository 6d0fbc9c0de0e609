/* sw-migrate-private.h: bringing an older record up to date
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-schema-private.h"

G_BEGIN_DECLS

/* Identifies the file; if its schema is older than the last step, copies it to DIR/before-schema-N.sqlite, N the last
 * step's version, and runs the steps. A failed upgrade leaves the record as it was. */
gboolean sw_migrate (SwDb *db, const char *dir, gboolean read_only, const SwSchemaStep *steps, guint n, GError **error);

G_END_DECLS
