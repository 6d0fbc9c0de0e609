/* sw-files.c: the folder of a record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define _GNU_SOURCE /* O_CLOEXEC, O_DIRECTORY in strict C11 */

#include "config.h"

#include "sw-files-private.h"

#include "sw-error.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <sys/vfs.h>
#include <unistd.h>

char *
sw_files_database (const char *dir)
{
  return g_build_filename (dir, "record.sqlite", NULL);
}

char *
sw_files_photos (const char *dir)
{
  return g_build_filename (dir, "photos", NULL);
}

static gboolean
fail_disk (const char *path, int code, GError **error)
{
  g_set_error (error, SW_ERROR, SW_ERROR_DISK, _("“%s” can't be written: %s."), path, g_strerror (code));
  return FALSE;
}

static gboolean
is_empty (const char *dir)
{
  g_autoptr (GDir) folder = g_dir_open (dir, 0, NULL);

  return folder != NULL && g_dir_read_name (folder) == NULL;
}

gboolean
sw_files_make_folder (const char *dir, GError **error)
{
  if (g_file_test (dir, G_FILE_TEST_EXISTS) && !is_empty (dir))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD,
                   _("“%s” holds something already: choose a folder that is new or empty."), dir);
      return FALSE;
    }
  /* Patient data: nobody else on the machine reads it. */
  if (g_mkdir_with_parents (dir, 0700) != 0)
    return fail_disk (dir, errno, error);
  return TRUE;
}

void
sw_files_remove_database (const char *path)
{
  static const char *const endings[] = { "", "-journal", "-wal", "-shm" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *name = g_strconcat (path, endings[i], NULL);

      g_unlink (name);
    }
}

static gboolean
sync_path (const char *path, int flags, GError **error)
{
  int fd = g_open (path, flags | O_CLOEXEC, 0);
  int code = 0;

  if (fd < 0)
    return fail_disk (path, errno, error);
  if (fsync (fd) != 0)
    code = errno;
  close (fd);
  return code == 0 || fail_disk (path, code, error);
}

gboolean
sw_files_sync_file (const char *path, GError **error)
{
  return sync_path (path, O_RDONLY, error);
}

gboolean
sw_files_sync_folder (const char *dir, GError **error)
{
  g_autofree char *parent = g_path_get_dirname (dir);

  return sync_path (dir, O_RDONLY | O_DIRECTORY, error) && sync_path (parent, O_RDONLY | O_DIRECTORY, error);
}

gboolean
sw_files_is_network (guint32 magic)
{
  /* From statfs(2) and linux/magic.h: NFS, SMB, SMB2, CIFS, AFS (two), Coda, NCP, 9P, Ceph, Lustre, GFS2, OCFS2. */
  static const guint32 network[] = { 0x6969,     0x517B,     0xFE534D42, 0xFF534D42, 0x5346414F, 0x6B414653, 0x73757245,
                                     0x564C,     0x01021997, 0x00C36400, 0x0BD00BD0, 0x01161970, 0x7461636F };

  for (gsize i = 0; i < G_N_ELEMENTS (network); i++)
    if (network[i] == magic)
      return TRUE;
  return FALSE;
}

gboolean
sw_files_require_local (const char *dir, GError **error)
{
  struct statfs information;

  if (statfs (dir, &information) != 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD, _("“%s” can't be opened: %s."), dir, g_strerror (errno));
      return FALSE;
    }
  if (sw_files_is_network ((guint32) information.f_type))
    {
      g_set_error (
          error, SW_ERROR, SW_ERROR_RECORD,
          _("“%s” lies on a network drive, where two programs can spoil a record: move the folder to a disk of this "
             "computer."),
          dir);
      return FALSE;
    }
  return TRUE;
}

static gboolean
copy_file (const char *from, const char *to, GCancellable *cancellable, GError **error)
{
  g_autoptr (GFile) source = g_file_new_for_path (from);
  g_autoptr (GFile) target = g_file_new_for_path (to);

  return g_file_copy (source, target, G_FILE_COPY_NONE, cancellable, NULL, NULL, error)
         && sw_files_sync_file (to, error);
}

gboolean
sw_files_copy_all (const char *from, const char *to, GCancellable *cancellable, GError **error)
{
  g_autoptr (GDir) folder = NULL;
  const char *name;

  if (g_mkdir (to, 0700) != 0)
    return fail_disk (to, errno, error);
  folder = g_dir_open (from, 0, NULL);
  while (folder != NULL && (name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *source = g_build_filename (from, name, NULL);
      g_autofree char *target = g_build_filename (to, name, NULL);

      if (!copy_file (source, target, cancellable, error))
        return FALSE;
    }
  return sw_files_sync_folder (to, error);
}
