/* cut-vfs.h: an SQLite VFS over the usual one that knows what a power cut would leave
 *
 * Every write is held as pending until its file is synced. A picture is what the disk holds if the power goes now: all
 * that was synced, and of what is pending a random part (a disk may write in any order before it is told to sync). A
 * file that was never synced may be missing altogether.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#define CUT_VFS "cut"

/* Registers the VFS, once. */
void cut_vfs_register (void);
/* Forgets all files. */
void cut_vfs_start (void);

/* Called before every write and sync, with how many there have been: may take a picture. */
typedef void (*CutFunc) (gint64 operation, gpointer data);
void cut_vfs_watch (CutFunc func, gpointer data);

/* Writes the picture of every file into `folder`, under the file's own name. Shared memory is no file on the disk. */
void cut_vfs_picture (const char *folder, GRand *rand);

/* From now on, after so many bytes, every write fails as on a full disk; -1: never. */
void cut_vfs_fill_after (gint64 bytes);
