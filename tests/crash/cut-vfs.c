/* cut-vfs.c: an SQLite VFS over the usual one that knows what a power cut would leave
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cut-vfs.h"

#include <check.h>
#include <sqlite3.h>
#include <string.h>

#define SECTOR 512

/* One write or truncation that is not synced yet. */
typedef struct
{
  gint64 offset;
  GBytes *bytes; /* NULL: the file was cut to `offset` */
} Pending;

typedef struct
{
  char *name;        /* last part of the path */
  GByteArray *disk;  /* as of the last sync */
  gboolean synced;   /* ever */
  GPtrArray *pending;
} Medium;

typedef struct
{
  sqlite3_file base;
  Medium *medium; /* borrowed from media */
  sqlite3_file real[]; /* the usual VFS's file */
} CutFile;

static GHashTable *media; /* path -> Medium */
static CutFunc watch;
static gpointer watch_data;
static gint64 operations;
static gint64 room = -1;

static sqlite3_vfs *
usual (sqlite3_vfs *vfs)
{
  return vfs->pAppData;
}

/* --- what is on the disk --- */

static void
pending_free (gpointer data)
{
  Pending *pending = data;

  g_clear_pointer (&pending->bytes, g_bytes_unref);
  g_free (pending);
}

static void
medium_free (gpointer data)
{
  Medium *medium = data;

  g_free (medium->name);
  g_byte_array_unref (medium->disk);
  g_ptr_array_unref (medium->pending);
  g_free (medium);
}

static Medium *
medium_of (const char *path)
{
  Medium *medium = g_hash_table_lookup (media, path);

  if (medium == NULL)
    {
      medium = g_new0 (Medium, 1);
      medium->name = g_path_get_basename (path);
      medium->disk = g_byte_array_new ();
      medium->pending = g_ptr_array_new_with_free_func (pending_free);
      g_hash_table_insert (media, g_strdup (path), medium);
    }
  return medium;
}

static void
apply (GByteArray *disk, const Pending *pending)
{
  gsize length = 0, before = disk->len;
  const guint8 *data = pending->bytes ? g_bytes_get_data (pending->bytes, &length) : NULL;
  gsize end = (gsize) pending->offset + length;

  if (pending->bytes == NULL || end > before)
    g_byte_array_set_size (disk, (guint) end);
  if (end > before)
    memset (disk->data + before, 0, end - before);
  if (length > 0)
    memcpy (disk->data + pending->offset, data, length);
}

static void
hold (Medium *medium, gint64 offset, GBytes *bytes)
{
  Pending *pending = g_new0 (Pending, 1);

  pending->offset = offset;
  pending->bytes = bytes;
  g_ptr_array_add (medium->pending, pending);
}

static void
settle (Medium *medium)
{
  for (guint i = 0; i < medium->pending->len; i++)
    apply (medium->disk, medium->pending->pdata[i]);
  g_ptr_array_set_size (medium->pending, 0);
  medium->synced = TRUE;
}

/* All of a write, nothing of it, or its first sectors. */
static void
apply_some (GByteArray *disk, const Pending *pending, GRand *rand)
{
  gsize length = pending->bytes ? g_bytes_get_size (pending->bytes) : 0;
  Pending torn = { pending->offset, NULL };

  if (g_rand_boolean (rand))
    return;
  if (length <= SECTOR || g_rand_boolean (rand))
    {
      apply (disk, pending);
      return;
    }
  length = SECTOR * (gsize) g_rand_int_range (rand, 1, (gint32) (length / SECTOR) + 1);
  torn.bytes = g_bytes_new_from_bytes (pending->bytes, 0, length);
  apply (disk, &torn);
  g_bytes_unref (torn.bytes);
}

static void
write_picture (const Medium *medium, const char *folder, GRand *rand)
{
  g_autofree char *path = g_build_filename (folder, medium->name, NULL);
  g_autoptr (GByteArray) disk = NULL;

  if (!medium->synced && g_rand_boolean (rand))
    return;
  disk = g_byte_array_sized_new (medium->disk->len);
  g_byte_array_append (disk, medium->disk->data, medium->disk->len);
  for (guint i = 0; i < medium->pending->len; i++)
    apply_some (disk, medium->pending->pdata[i], rand);
  ck_assert (g_file_set_contents (path, (const char *) disk->data, disk->len, NULL));
}

void
cut_vfs_picture (const char *folder, GRand *rand)
{
  GHashTableIter iter;
  gpointer medium;

  g_hash_table_iter_init (&iter, media);
  while (g_hash_table_iter_next (&iter, NULL, &medium))
    write_picture (medium, folder, rand);
}

static void
count_operation (void)
{
  operations++;
  if (watch != NULL)
    watch (operations, watch_data);
}

/* --- the file's methods --- */

static int
cut_close (sqlite3_file *file)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xClose (cut->real);
}

static int
cut_read (sqlite3_file *file, void *buffer, int amount, sqlite3_int64 offset)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xRead (cut->real, buffer, amount, offset);
}

static int
cut_write (sqlite3_file *file, const void *buffer, int amount, sqlite3_int64 offset)
{
  CutFile *cut = (CutFile *) file;

  count_operation ();
  if (room >= 0 && (room -= amount) < 0)
    {
      room = 0;
      return SQLITE_FULL;
    }
  hold (cut->medium, offset, g_bytes_new (buffer, (gsize) amount));
  return cut->real->pMethods->xWrite (cut->real, buffer, amount, offset);
}

static int
cut_truncate (sqlite3_file *file, sqlite3_int64 size)
{
  CutFile *cut = (CutFile *) file;

  count_operation ();
  hold (cut->medium, size, NULL);
  return cut->real->pMethods->xTruncate (cut->real, size);
}

/* The real sync is left out: the process survives, and the picture is ours. */
static int
cut_sync (sqlite3_file *file, int flags)
{
  CutFile *cut = (CutFile *) file;

  count_operation ();
  settle (cut->medium);
  return SQLITE_OK;
}

static int
cut_file_size (sqlite3_file *file, sqlite3_int64 *size)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xFileSize (cut->real, size);
}

static int
cut_lock (sqlite3_file *file, int level)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xLock (cut->real, level);
}

static int
cut_unlock (sqlite3_file *file, int level)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xUnlock (cut->real, level);
}

static int
cut_check_reserved (sqlite3_file *file, int *reserved)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xCheckReservedLock (cut->real, reserved);
}

static int
cut_control (sqlite3_file *file, int operation, void *argument)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xFileControl (cut->real, operation, argument);
}

static int
cut_sector_size (sqlite3_file *file)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xSectorSize (cut->real);
}

/* No promise that a write survives whole or in order. */
static int
cut_characteristics (sqlite3_file *file)
{
  return 0;
}

static int
cut_shm_map (sqlite3_file *file, int page, int size, int extend, void volatile **memory)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xShmMap (cut->real, page, size, extend, memory);
}

static int
cut_shm_lock (sqlite3_file *file, int offset, int n, int flags)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xShmLock (cut->real, offset, n, flags);
}

static void
cut_shm_barrier (sqlite3_file *file)
{
  CutFile *cut = (CutFile *) file;

  cut->real->pMethods->xShmBarrier (cut->real);
}

static int
cut_shm_unmap (sqlite3_file *file, int delete)
{
  CutFile *cut = (CutFile *) file;

  return cut->real->pMethods->xShmUnmap (cut->real, delete);
}

static const sqlite3_io_methods cut_methods = {
  .iVersion = 2,
  .xClose = cut_close,
  .xRead = cut_read,
  .xWrite = cut_write,
  .xTruncate = cut_truncate,
  .xSync = cut_sync,
  .xFileSize = cut_file_size,
  .xLock = cut_lock,
  .xUnlock = cut_unlock,
  .xCheckReservedLock = cut_check_reserved,
  .xFileControl = cut_control,
  .xSectorSize = cut_sector_size,
  .xDeviceCharacteristics = cut_characteristics,
  .xShmMap = cut_shm_map,
  .xShmLock = cut_shm_lock,
  .xShmBarrier = cut_shm_barrier,
  .xShmUnmap = cut_shm_unmap,
};

/* --- the file system's methods --- */

static int
cut_open (sqlite3_vfs *vfs, const char *path, sqlite3_file *file, int flags, int *out_flags)
{
  CutFile *cut = (CutFile *) file;
  int code = usual (vfs)->xOpen (usual (vfs), path, cut->real, flags, out_flags);

  /* Temporary files have no name, and need not outlive a cut. */
  file->pMethods = NULL;
  if (code == SQLITE_OK)
    {
      cut->medium = medium_of (path ? path : "temporary");
      file->pMethods = &cut_methods;
    }
  return code;
}

static int
cut_delete (sqlite3_vfs *vfs, const char *path, int sync)
{
  g_hash_table_remove (media, path);
  return usual (vfs)->xDelete (usual (vfs), path, sync);
}

void
cut_vfs_register (void)
{
  static sqlite3_vfs vfs;
  sqlite3_vfs *below = sqlite3_vfs_find (NULL);

  if (vfs.zName != NULL)
    return;
  vfs = *below;
  vfs.zName = CUT_VFS;
  vfs.pAppData = below;
  vfs.szOsFile = (int) sizeof (CutFile) + below->szOsFile;
  vfs.xOpen = cut_open;
  vfs.xDelete = cut_delete;
  ck_assert_int_eq (sqlite3_vfs_register (&vfs, 0), SQLITE_OK);
}

void
cut_vfs_start (void)
{
  g_clear_pointer (&media, g_hash_table_unref);
  media = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, medium_free);
  operations = 0;
  watch = NULL;
  room = -1;
}

void
cut_vfs_watch (CutFunc func, gpointer data)
{
  operations = 0;
  watch = func;
  watch_data = data;
}

void
cut_vfs_fill_after (gint64 bytes)
{
  room = bytes;
}
