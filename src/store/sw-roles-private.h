/* sw-roles-private.h: who may write what
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-store-private.h"

G_BEGIN_DECLS

/* The person's present roles; 0 for somebody who no longer works here. SW_ERROR_ROLE for nobody known. `name`:
 * (transfer full) */
gboolean sw_roles_of (SwStore *store, gint64 person, gint64 *roles, char **name, GError **error);

/* Asks the act x role table for the act and for every row in it. */
gboolean sw_roles_require (SwStore *store, const SwActHead *head, const GPtrArray *facts, gint64 *roles,
                           GError **error);

G_END_DECLS
