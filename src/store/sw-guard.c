/* sw-guard.c: what keeps facts from being changed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-guard-private.h"

#include <string.h>

const char *
sw_guard_patient_column (SwFactKind kind)
{
  if (sw_fact_type (kind)->scope != SW_SCOPE_PATIENT)
    return NULL;
  return kind == SW_FACT_PATIENT ? "id" : "patient";
}

/* A column of a subject as the expression that is compared: no value equals no value. */
static void
append_column (GString *out, const SwField *field, const char *prefix)
{
  if (!field->nullable)
    g_string_append_printf (out, "%s\"%s\"", prefix, field->column);
  else
    g_string_append_printf (out, "ifnull (%s\"%s\", %s)", prefix, field->column,
                            field->type == SW_FIELD_TEXT ? "''" : "0");
}

/* "patient, ifnull ("course", 0), "question"", or "old.patient = NEW.patient AND ..." with an `other` prefix; NULL: no
 * subject. */
static char *
subject_terms (SwFactKind kind, const char *prefix, const char *other)
{
  const SwFactType *type = sw_fact_type (kind);
  const char *separator = other ? " AND " : ", ";
  GString *out = g_string_new (NULL);
  gboolean has_subject = kind == SW_FACT_PATIENT_DETAILS;

  if (sw_guard_patient_column (kind) != NULL)
    g_string_append_printf (out, other ? "%spatient = %spatient" : "%spatient", prefix, other);
  for (guint i = 0; i < type->n_fields; i++)
    if (type->fields[i].subject)
      {
        has_subject = TRUE;
        if (out->len > 0)
          g_string_append (out, separator);
        append_column (out, &type->fields[i], prefix);
        if (other != NULL)
          {
            g_string_append (out, " = ");
            append_column (out, &type->fields[i], other);
          }
      }
  return g_string_free (out, !has_subject);
}

/* What may not happen when a row comes in: each line aborts when its condition holds. */
static void
append_insert_checks (GString *sql, SwFactKind kind)
{
  const SwFactType *type = sw_fact_type (kind);
  g_autofree char *subject = subject_terms (kind, "o.", "NEW.");

  if (type->entity)
    return;
  g_string_append_printf (sql,
                          " SELECT RAISE (ABORT, 'the row has been replaced already')"
                          " WHERE EXISTS (SELECT 1 FROM \"%s\" AS o WHERE o.replaces = NEW.replaces);",
                          type->table);
  if (subject != NULL)
    g_string_append_printf (sql,
                            " SELECT RAISE (ABORT, 'the subject has its first row already') WHERE NEW.replaces IS NULL"
                            " AND EXISTS (SELECT 1 FROM \"%s\" AS o WHERE o.replaces IS NULL AND %s);",
                            type->table, subject);
  else if (sw_guard_patient_column (kind) != NULL)
    subject = g_strdup ("o.patient = NEW.patient");
  if (subject != NULL)
    g_string_append_printf (
        sql,
        " SELECT RAISE (ABORT, 'a correction stays with its subject') WHERE NEW.replaces IS NOT NULL"
        " AND NOT EXISTS (SELECT 1 FROM \"%s\" AS o WHERE o.id = NEW.replaces AND %s);",
        type->table, subject);
}

static gboolean
make (SwDb *db, const char *type, const char *table, const char *suffix, const char *body, GError **error)
{
  const char *kind = strrchr (type, ' ') ? strrchr (type, ' ') + 1 : type;
  g_autofree char *sql = g_strdup_printf ("DROP %s IF EXISTS \"%s_%s\"; CREATE %s \"%s_%s\" %s", kind, table, suffix,
                                          type, table, suffix, body);

  return sw_db_exec (db, sql, error);
}

/* The triggers that every table of the record has which is not derived. `checks`: more for the insert. */
static gboolean
keep_table (SwDb *db, const char *table, const char *checks, GError **error)
{
  g_autofree char *update = g_strdup_printf (
    "BEFORE UPDATE ON \"%s\" BEGIN SELECT RAISE (ABORT, 'what is recorded is never changed'); END", table);
  g_autofree char *delete = g_strdup_printf (
    "BEFORE DELETE ON \"%s\" BEGIN SELECT RAISE (ABORT, 'what is recorded is never deleted'); END", table);
  g_autofree char *insert = g_strdup_printf ("BEFORE INSERT ON \"%s\" BEGIN"
                                             " SELECT RAISE (ABORT, 'the row is there already')"
                                             " WHERE EXISTS (SELECT 1 FROM \"%s\" AS o WHERE o.id = NEW.id);%s END",
                                             table, table, checks);

  return make (db, "TRIGGER", table, "kept_update", update, error)
         && make (db, "TRIGGER", table, "kept_delete", delete, error)
         && make (db, "TRIGGER", table, "kept_insert", insert, error);
}

static gboolean
index_fact (SwDb *db, SwFactKind kind, GError **error)
{
  const SwFactType *type = sw_fact_type (kind);
  g_autofree char *subject = subject_terms (kind, "", NULL);
  const char *owner = NULL;

  if (type->scope == SW_SCOPE_PATIENT && kind != SW_FACT_PATIENT)
    owner = "patient";
  else if (type->scope == SW_SCOPE_CLIENT && kind != SW_FACT_CLIENT)
    owner = "client";
  if (owner != NULL)
    {
      g_autofree char *body = g_strdup_printf ("ON \"%s\" (%s)", type->table, owner);

      if (!make (db, "INDEX", type->table, owner, body, error))
        return FALSE;
    }
  if (subject != NULL)
    {
      g_autofree char *body = g_strdup_printf ("ON \"%s\" (%s) WHERE replaces IS NULL", type->table, subject);

      return make (db, "UNIQUE INDEX", type->table, "subject", body, error);
    }
  return TRUE;
}

static gboolean
guard_fact (SwDb *db, SwFactKind kind, GError **error)
{
  const SwFactType *type = sw_fact_type (kind);
  g_autofree char *view = g_strdup_printf ("AS SELECT * FROM \"%s\" AS o WHERE o.withdrawn = 0"
                                           " AND NOT EXISTS (SELECT 1 FROM \"%s\" AS n WHERE n.replaces = o.id)",
                                           type->table, type->table);
  g_autofree char *all = g_strdup_printf ("AS SELECT * FROM \"%s\"", type->table);
  g_autoptr (GString) checks = g_string_new (NULL);

  append_insert_checks (checks, kind);
  return index_fact (db, kind, error) && make (db, "VIEW", type->table, "now", type->entity ? all : view, error)
         && keep_table (db, type->table, checks->str, error);
}

gboolean
sw_guard_install (SwDb *db, GError **error)
{
  if (!keep_table (db, "founding", "", error) || !keep_table (db, "act", "", error))
    return FALSE;
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    if (!guard_fact (db, kind, error))
      return FALSE;
  return TRUE;
}

static gboolean
is_one_of (const char *name, const char *const *names)
{
  return name != NULL && g_strv_contains (names, name);
}

static int
authorize (gpointer data, int action, const char *first, const char *second, const char *database, const char *trigger)
{
  static const char *const derived[]
      = { "course_summary", "treated", "patient_list", "patient_word", "client_list", "client_word", NULL };
  static const char *const harmless[] = { "data_version", "integrity_check", "quick_check", "foreign_key_check", NULL };

  switch (action)
    {
    case SQLITE_SELECT:
    case SQLITE_READ:
    case SQLITE_FUNCTION:
    case SQLITE_INSERT: /* triggers say which */
    case SQLITE_TRANSACTION:
      return SQLITE_OK;
    case SQLITE_UPDATE:
    case SQLITE_DELETE:
      return is_one_of (first, derived) ? SQLITE_OK : SQLITE_DENY;
    case SQLITE_PRAGMA:
      return is_one_of (first, harmless) ? SQLITE_OK : SQLITE_DENY;
    default: /* actions are SQLite's, not ours: an unknown one is refused */
      return SQLITE_DENY;
    }
}

void
sw_guard_authorize (SwDb *db)
{
  sqlite3_set_authorizer (db->handle, authorize, NULL);
}
