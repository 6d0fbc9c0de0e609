/* sw-schema.c: versions of the schema
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-schema-private.h"

#include "sw-guard-private.h"
#include "sw-resources.h"
#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

/* The application_id is the last thing a new record gets, so a file cut short while it was made has none. */
#define WRITE_HEADER "PRAGMA application_id = %d; PRAGMA user_version = %d"

static const char *const first_scripts[] = {
  "/siteward/schema/0001-record.sql", "/siteward/schema/0001-practice.sql", "/siteward/schema/0001-patient.sql",
  "/siteward/schema/0001-course.sql", "/siteward/schema/0001-after.sql",    "/siteward/schema/0001-derived.sql",
  NULL,
};

static const SwSchemaStep schema_steps[] = {
  { SW_SCHEMA_FIRST, first_scripts, NULL },
};
G_STATIC_ASSERT (G_N_ELEMENTS (schema_steps) == SW_SCHEMA_NOW);

const SwSchemaStep *
sw_schema_steps (guint *n)
{
  *n = G_N_ELEMENTS (schema_steps);
  return schema_steps;
}

gboolean
sw_schema_identify (SwDb *db, int newest, gint64 *version, GError **error)
{
  gint64 application;

  if (!sw_db_read_int (db, "PRAGMA application_id", &application, error)
      || !sw_db_read_int (db, "PRAGMA user_version", version, error))
    return FALSE;
  if (application != SW_DB_APPLICATION_ID || *version < SW_SCHEMA_FIRST)
    {
      g_set_error_literal (
          error, SW_ERROR, SW_ERROR_RECORD,
          _("The file record.sqlite belongs to another program, or the making of the record was cut short: "
             "choose another folder."));
      return FALSE;
    }
  if (*version > newest)
    {
      g_set_error (
          error, SW_ERROR, SW_ERROR_RECORD,
          _("The record was written by a newer version of this program (its layout is %d, the newest known here is "
             "%d): install that version."),
          (int)*version, newest);
      return FALSE;
    }
  return TRUE;
}

static gboolean
run_script (SwDb *db, const char *path, GError **error)
{
  g_autoptr (GBytes) script
      = g_resource_lookup_data (sw_store_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, error);

  /* Resource data ends with a NUL that its size does not count. */
  return script != NULL && sw_db_exec (db, g_bytes_get_data (script, NULL), error);
}

static gboolean
run_step (SwDb *db, const SwSchemaStep *step, GError **error)
{
  for (const char *const *script = step->scripts; *script != NULL; script++)
    if (!run_script (db, *script, error))
      return FALSE;
  return step->code == NULL || step->code (db, error);
}

static gboolean
references_hold (SwDb *db, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, "PRAGMA foreign_key_check", error);
  gboolean row;

  if (stmt == NULL || !sw_stmt_step (stmt, &row, error))
    return FALSE;
  return !row || sw_db_fail_code (SQLITE_CORRUPT, NULL, error);
}

static gboolean
run_steps (SwDb *db, const SwSchemaStep *steps, guint n, gint64 version, GError **error)
{
  g_autofree char *header = g_strdup_printf (WRITE_HEADER, SW_DB_APPLICATION_ID, steps[n - 1].version);

  for (guint i = 0; i < n; i++)
    if (steps[i].version > version && !run_step (db, &steps[i], error))
      return FALSE;
  return sw_guard_install (db, error) && references_hold (db, error) && sw_db_exec (db, header, error);
}

gboolean
sw_schema_upgrade (SwDb *db, const SwSchemaStep *steps, guint n, gint64 version, GError **error)
{
  gboolean done;

  /* Inside a transaction SQLite ignores this setting. */
  if (!sw_db_exec (db, "PRAGMA foreign_keys = OFF; BEGIN IMMEDIATE", error))
    return FALSE;
  done = run_steps (db, steps, n, version, error) && sw_db_exec (db, "COMMIT", error);
  if (!done)
    sw_db_exec (db, "ROLLBACK", NULL);
  return sw_db_exec (db, "PRAGMA foreign_keys = ON", done ? error : NULL) && done;
}
