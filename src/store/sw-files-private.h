/* sw-files-private.h: the folder of a record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* DIR/record.sqlite, DIR/photos. (transfer full) */
char *sw_files_database (const char *dir);
char *sw_files_photos (const char *dir);

/* The file and what SQLite keeps beside it. */
void sw_files_remove_database (const char *path);

/* Makes the folder, or takes an empty one; never one that holds anything. */
gboolean sw_files_make_folder (const char *dir, GError **error);
/* Makes names in the folder, and its own name in its parent, survive a power cut. */
gboolean sw_files_sync_folder (const char *dir, GError **error);
gboolean sw_files_sync_file (const char *path, GError **error);

/* A network file system keeps neither locks nor order of writes well enough: SW_ERROR_RECORD. */
gboolean sw_files_require_local (const char *dir, GError **error);
/* Whether this f_type of statfs(2) is a network file system. */
gboolean sw_files_is_network (guint32 magic);

/* Copies every file of one folder into another, which is made. */
gboolean sw_files_copy_all (const char *from, const char *to, GCancellable *cancellable, GError **error);

G_END_DECLS
