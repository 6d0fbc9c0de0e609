/* sw-treated-rows.c: the derived table of treated tumours
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store-private.h"

#include "sw-stmt-private.h"

/* --- the texts, made once of the descriptors --- */

static char *
column_list (const char *prefix)
{
  const SwTreatedField *fields;
  GString *list = g_string_new (NULL);
  guint n;

  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    {
      g_string_append (list, i > 0 ? ", " : "");
      if (*prefix == '?')
        g_string_append_printf (list, "?%u", i + 1);
      else
        g_string_append_printf (list, "\"%s\"", fields[i].column);
    }
  return g_string_free (list, FALSE);
}

static char *
make_insert (void)
{
  g_autofree char *columns = column_list (""), *values = column_list ("?");

  return g_strdup_printf ("INSERT INTO treated (%s) VALUES (%s)", columns, values);
}

static char *
make_select (const char *condition)
{
  g_autofree char *columns = column_list ("");

  return g_strdup_printf ("SELECT %s FROM treated%s", columns, condition);
}

static const char *
insert_text (void)
{
  static char *text;

  if (g_once_init_enter (&text))
    g_once_init_leave (&text, make_insert ());
  return text;
}

static const char *
select_text (gboolean of_patient)
{
  static char *all, *one;

  if (g_once_init_enter (&all))
    g_once_init_leave (&all, make_select (" ORDER BY course, tumour"));
  if (g_once_init_enter (&one))
    g_once_init_leave (&one, make_select (" WHERE patient = ?1 ORDER BY course, tumour"));
  return of_patient ? one : all;
}

/* --- writing --- */

static gboolean
delete_rows (SwStore *store, gint64 patient, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, "DELETE FROM treated WHERE patient = ?1", error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, patient);
  return sw_stmt_run (stmt, error);
}

static gboolean
insert_row (SwStore *store, const SwTreated *row, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, insert_text (), error);
  const SwTreatedField *fields;
  guint n;

  if (stmt == NULL)
    return FALSE;
  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].text)
      sw_stmt_bind_text (stmt, (int) i + 1, sw_treated_text (row, &fields[i]));
    else
      sw_stmt_bind_int_or_null (stmt, (int) i + 1, sw_treated_int (row, &fields[i]), SW_UNKNOWN);
  return sw_stmt_run (stmt, error);
}

gboolean
sw_store_put_treated (SwStore *store, gint64 patient, const GArray *rows, GError **error)
{
  if (!sw_txn_require_write (store, error) || !delete_rows (store, patient, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (!insert_row (store, &g_array_index (rows, SwTreated, i), error))
      return FALSE;
  return TRUE;
}

/* --- reading --- */

/* Few different texts stand in many rows, nearly always the one of the row before: interning each would take longer than
 * reading it. */
static void
read_text (SwStmt *stmt, int column, SwTreated *row, const SwTreated *before, const SwTreatedField *field)
{
  const char *text = sw_stmt_column_text (stmt, column);
  const char *last = before ? sw_treated_text (before, field) : NULL;

  if (text != NULL && last != NULL && g_str_equal (text, last))
    G_STRUCT_MEMBER (const char *, row, field->offset) = last;
  else
    sw_treated_set_text (row, field, text);
}

static void
read_row (SwStmt *stmt, SwTreated *row, const SwTreated *before)
{
  const SwTreatedField *fields;
  guint n;

  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].text)
      read_text (stmt, (int) i, row, before, &fields[i]);
    else if (fields[i].nullable)
      sw_treated_set_int (row, &fields[i], sw_stmt_column_int_or (stmt, (int) i, SW_UNKNOWN));
    else
      sw_treated_set_int (row, &fields[i], sw_stmt_column_int (stmt, (int) i));
}

static gboolean
read_rows (SwStmt *stmt, GArray *rows, GError **error)
{
  gboolean row;

  while (sw_stmt_step (stmt, &row, error))
    {
      SwTreated *place;

      if (!row)
        return TRUE;
      g_array_set_size (rows, rows->len + 1);
      place = &g_array_index (rows, SwTreated, rows->len - 1);
      read_row (stmt, place, rows->len > 1 ? place - 1 : NULL);
    }
  return FALSE;
}

GArray *
sw_store_load_treated (SwStore *store, gint64 patient, GError **error)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, select_text (patient != 0), error);

  if (stmt == NULL)
    return NULL;
  if (patient != 0)
    sw_stmt_bind_int (stmt, 1, patient);
  return read_rows (stmt, rows, error) ? g_steal_pointer (&rows) : NULL;
}
