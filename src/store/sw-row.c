/* sw-row.c: facts in and out of their tables
 *
 * Columns of every SELECT here: id, act, patient, replaces, withdrawn, then the descriptor's fields in order, then
 * person and time of the act.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-row-private.h"

#include "sw-guard-private.h"
#include "sw-stmt-private.h"

#define FIRST_FIELD 5

static char *
insert_sql (SwFactKind kind)
{
  const SwFactType *type = sw_fact_type (kind);
  g_autoptr (GString) columns = g_string_new ("id, act");
  g_autoptr (GString) values = g_string_new ("?1, ?2");

  if (sw_guard_patient_column (kind) != NULL && kind != SW_FACT_PATIENT)
    {
      g_string_append (columns, ", patient");
      g_string_append (values, ", ?3");
    }
  if (!type->entity)
    {
      g_string_append (columns, ", replaces, withdrawn");
      g_string_append (values, ", ?4, ?5");
    }
  for (guint i = 0; i < type->n_fields; i++)
    {
      g_string_append_printf (columns, ", \"%s\"", type->fields[i].column);
      g_string_append_printf (values, ", ?%u", FIRST_FIELD + 1 + i);
    }
  return g_strdup_printf ("INSERT INTO \"%s\" (%s) VALUES (%s)", type->table, columns->str, values->str);
}

static const char *
condition (SwFactKind kind, SwRows rows)
{
  switch (rows)
    {
    case SW_ROWS_BY_ID:
      return "WHERE t.id = ?1";
    case SW_ROWS_OF_PATIENT:
      return kind == SW_FACT_PATIENT ? "WHERE t.id = ?1" : "WHERE t.patient = ?1";
    case SW_ROWS_OF_CLIENT:
      return kind == SW_FACT_CLIENT ? "WHERE t.id = ?1" : "WHERE t.client = ?1";
    case SW_ROWS_ALL:
    case SW_N_ROWS:
      break;
    }
  return "";
}

static char *
select_sql (SwFactKind kind, SwRows rows)
{
  const SwFactType *type = sw_fact_type (kind);
  const char *patient = sw_guard_patient_column (kind);
  g_autoptr (GString) columns = g_string_new (NULL);

  g_string_append_printf (columns, "t.id, t.act, %s%s, %s", patient ? "t." : "", patient ? patient : "0",
                          type->entity ? "NULL, 0" : "t.replaces, t.withdrawn");
  for (guint i = 0; i < type->n_fields; i++)
    g_string_append_printf (columns, ", t.\"%s\"", type->fields[i].column);
  return g_strdup_printf (
      "SELECT %s, a.person, a.at_us FROM \"%s\" AS t JOIN act AS a ON a.id = t.act %s ORDER BY t.id", columns->str,
      type->table, condition (kind, rows));
}

/* The texts depend on the descriptors only, so they are made once for the program. */
static const char *
insert_text (SwFactKind kind)
{
  static char *texts[SW_N_FACTS];

  if (g_once_init_enter (&texts[kind]))
    g_once_init_leave (&texts[kind], insert_sql (kind));
  return texts[kind];
}

static const char *
select_text (SwFactKind kind, SwRows rows)
{
  static char *texts[SW_N_FACTS][SW_N_ROWS];

  if (g_once_init_enter (&texts[kind][rows]))
    g_once_init_leave (&texts[kind][rows], select_sql (kind, rows));
  return texts[kind][rows];
}

static void
bind_field (SwStmt *stmt, int parameter, gconstpointer fact, const SwField *field)
{
  GBytes *bytes;
  gsize length;
  gconstpointer data;

  switch (field->type)
    {
    case SW_FIELD_INT:
      if (field->nullable)
        sw_stmt_bind_int_or_null (stmt, parameter, sw_fact_get_int (fact, field), SW_UNKNOWN);
      else
        sw_stmt_bind_int (stmt, parameter, sw_fact_get_int (fact, field));
      break;
    case SW_FIELD_REF:
      sw_stmt_bind_int_or_null (stmt, parameter, sw_fact_get_int (fact, field), 0);
      break;
    case SW_FIELD_TEXT:
      sw_stmt_bind_text (stmt, parameter, sw_fact_get_text (fact, field));
      break;
    case SW_FIELD_BYTES:
      bytes = sw_fact_get_bytes (fact, field);
      data = g_bytes_get_data (bytes, &length);
      sw_stmt_bind_blob (stmt, parameter, data, length);
      break;
    }
}

gboolean
sw_row_insert (SwDb *db, gconstpointer fact, GError **error)
{
  const SwFact *head = fact;
  const SwFactType *type = sw_fact_type (head->kind);
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, insert_text (head->kind), error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, head->id);
  sw_stmt_bind_int (stmt, 2, head->act);
  if (sw_guard_patient_column (head->kind) != NULL && head->kind != SW_FACT_PATIENT)
    sw_stmt_bind_int (stmt, 3, head->patient);
  if (!type->entity)
    {
      sw_stmt_bind_int_or_null (stmt, 4, head->replaces, 0);
      sw_stmt_bind_int (stmt, 5, head->withdrawn);
    }
  for (guint i = 0; i < type->n_fields; i++)
    bind_field (stmt, FIRST_FIELD + 1 + (int) i, fact, &type->fields[i]);
  return sw_stmt_run (stmt, error);
}

static void
read_field (SwStmt *stmt, int column, gpointer fact, const SwField *field)
{
  gsize length;
  gconstpointer data;

  switch (field->type)
    {
    case SW_FIELD_INT:
      sw_fact_set_int (fact, field, sw_stmt_column_int_or (stmt, column, SW_UNKNOWN));
      break;
    case SW_FIELD_REF:
      sw_fact_set_int (fact, field, sw_stmt_column_int (stmt, column));
      break;
    case SW_FIELD_TEXT:
      sw_fact_take_text (fact, field, g_strdup (sw_stmt_column_text (stmt, column)));
      break;
    case SW_FIELD_BYTES:
      data = sw_stmt_column_blob (stmt, column, &length);
      sw_fact_take_bytes (fact, field, g_bytes_new (data, length));
      break;
    }
}

static gpointer
read_fact (SwStmt *stmt, SwFactKind kind)
{
  const SwFactType *type = sw_fact_type (kind);
  int after = FIRST_FIELD + (int) type->n_fields;
  SwFact *head = sw_fact_new (kind);

  head->id = sw_stmt_column_int (stmt, 0);
  head->act = sw_stmt_column_int (stmt, 1);
  head->patient = sw_stmt_column_int (stmt, 2);
  head->replaces = sw_stmt_column_int (stmt, 3);
  head->withdrawn = (gboolean) sw_stmt_column_int (stmt, 4);
  for (guint i = 0; i < type->n_fields; i++)
    read_field (stmt, FIRST_FIELD + (int) i, head, &type->fields[i]);
  head->person = sw_stmt_column_int (stmt, after);
  head->recorded_us = sw_stmt_column_int (stmt, after + 1);
  return head;
}

gboolean
sw_row_each (SwDb *db, SwFactKind kind, SwRows rows, gint64 key, SwRowFunc func, gpointer data, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, select_text (kind, rows), error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  if (rows != SW_ROWS_ALL)
    sw_stmt_bind_int (stmt, 1, key);
  while (sw_stmt_step (stmt, &row, error))
    if (!row)
      return TRUE;
    else
      func (read_fact (stmt, kind), data);
  return FALSE;
}

static void
add_to_facts (gpointer fact, gpointer facts)
{
  sw_facts_add (facts, fact);
}

gboolean
sw_row_load (SwDb *db, SwFactKind kind, SwRows rows, gint64 key, SwFacts *facts, GError **error)
{
  return sw_row_each (db, kind, rows, key, add_to_facts, facts, error);
}
