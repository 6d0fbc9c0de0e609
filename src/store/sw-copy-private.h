/* sw-copy-private.h: copying an open database into a file
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-check.h"

#include "sw-db-private.h"

G_BEGIN_DECLS

/* The state of one moment, whoever writes meanwhile; the copy is checked and on the disk when this returns TRUE, and
 * gone when it returns FALSE. An older file of that name is replaced. */
gboolean sw_copy_database (SwDb *db, const char *path, SwProgressFunc progress, gpointer data,
                           GCancellable *cancellable, GError **error);

G_END_DECLS
