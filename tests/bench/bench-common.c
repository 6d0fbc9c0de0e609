/* bench-common.c
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-common.h"

#include "sw-demo.h"

#include <glib/gstdio.h>
#include <linux/magic.h>
#include <stdlib.h>
#include <sys/vfs.h>

static gboolean missed;

const char *
bench_folder (void)
{
  const char *folder = g_getenv ("SW_BUILD_DIR");
  struct statfs fs;

  if (folder == NULL || statfs (folder, &fs) != 0)
    g_error ("SW_BUILD_DIR names no folder");
  if (fs.f_type == TMPFS_MAGIC || fs.f_type == RAMFS_MAGIC)
    g_error ("%s lies in memory: build on a disk to measure", folder);
  return folder;
}

static gint64
modified (const char *path)
{
  GStatBuf info;

  return g_stat (path, &info) == 0 ? (gint64) info.st_mtime : 0;
}

/* A record of an older schema would be opened in vain. */
static gboolean
is_current (const char *record)
{
  g_autofree char *file = g_build_filename (record, "record.sqlite", NULL);
  g_autofree char *schema = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", "schema", NULL);
  g_autoptr (GDir) dir = g_dir_open (schema, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (schema, name, NULL);

      if (modified (path) > modified (file))
        return FALSE;
    }
  return modified (file) > 0;
}

static void
empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        empty (path);
      g_remove (path);
    }
}

char *
bench_record (guint patients)
{
  g_autofree char *name = g_strdup_printf ("bench-record-%u", patients);
  char *record = g_build_filename (bench_folder (), name, NULL);
  SwDemoOptions options = { .patients = patients, .seed = 1, .today = BENCH_TODAY };
  g_autoptr (GError) error = NULL;
  gint64 start = g_get_monotonic_time ();

  if (is_current (record))
    return record;
  empty (record);
  if (!sw_demo_make (record, &options, &error))
    g_error ("%s", error->message);
  g_print ("# made %u patients in %.1f s\n", patients, bench_ms (start) / 1000);
  return record;
}

static int
by_value (gconstpointer a, gconstpointer b)
{
  double first = *(const double *) a, second = *(const double *) b;

  return (first > second) - (first < second);
}

double
bench_median (double *values, guint n)
{
  qsort (values, n, sizeof *values, by_value);
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

double
bench_ms (gint64 start_us)
{
  return (double) (g_get_monotonic_time () - start_us) / 1000;
}

void
bench_report (const char *what, double value, const char *unit, double target)
{
  gboolean over = value > target;

  missed = missed || over;
  g_print ("# %-46s %8.2f %s (target %g)%s\n", what, value, unit, target, over ? "  MISSED" : "");
}

int
bench_status (void)
{
  return missed ? EXIT_FAILURE : EXIT_SUCCESS;
}
