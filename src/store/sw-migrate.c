/* sw-migrate.c: bringing an older record up to date
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-migrate-private.h"

#include "sw-copy-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

gboolean
sw_migrate (SwDb *db, const char *dir, gboolean read_only, const SwSchemaStep *steps, guint n, GError **error)
{
  int newest = steps[n - 1].version;
  g_autofree char *name = g_strdup_printf ("before-schema-%d.sqlite", newest);
  g_autofree char *copy = g_build_filename (dir, name, NULL);
  gint64 version;

  if (!sw_schema_identify (db, newest, &version, error))
    return FALSE;
  if (version == newest)
    return TRUE;
  if (read_only)
    {
      g_set_error (
          error, SW_ERROR, SW_ERROR_RECORD,
          _("The record was written by an older version of this program (its layout is %d, today's is %d): open it "
             "once for writing, which keeps a copy and brings it up to date."),
          (int) version, newest);
      return FALSE;
    }
  return sw_copy_database (db, copy, NULL, NULL, NULL, error) && sw_schema_upgrade (db, steps, n, version, error);
}
