/* sw-list.c: which dogs a list shows, in which order, and what it says about them
 *
 * The whole list in its order is read once and kept until an act names a dog. A query then marks the dogs that each of
 * its conditions finds (an index range of words, the open courses), and walks the kept order: no sorting, whatever the
 * search.
 *
 *   order   [ 17  4  291  8 ... ]          mark[17] = 2 of 2 conditions -> shown
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store-private.h"

#include "sw-journal-private.h"
#include "sw-stmt-private.h"

/* --- the spine --- */

static gboolean
read_order (SwStore *store, GArray *order, GError **error)
{
  g_autoptr (SwStmt) stmt
      = sw_stmt_get (store->db, "SELECT patient FROM patient_list ORDER BY sort_key, patient", error);
  gboolean row = FALSE;

  if (stmt == NULL)
    return FALSE;
  while (sw_stmt_step (stmt, &row, error))
    {
      gint64 patient = row ? sw_stmt_column_int (stmt, 0) : 0;

      if (!row)
        return TRUE;
      g_array_append_val (order, patient);
    }
  return FALSE;
}

static gboolean
names_a_dog (const char *payload)
{
  g_autoptr (GArray) rows = sw_journal_parse (payload, NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (g_array_index (rows, SwPayloadRow, i).row.kind == SW_FACT_PATIENT_DETAILS)
      return TRUE;
  return FALSE;
}

/* Whether an act after this one may have changed the order. */
static gboolean
order_moved (SwStore *store, gint64 after, gboolean *moved, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, "SELECT payload FROM act WHERE id > ?1 ORDER BY id", error);
  gboolean row;

  *moved = FALSE;
  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, after);
  while (!*moved && sw_stmt_step (stmt, &row, error))
    if (!row)
      return TRUE;
    else
      *moved = names_a_dog (sw_stmt_column_text (stmt, 0));
  return *moved;
}

static gboolean
refresh_order (SwStore *store, GError **error)
{
  gint64 act = sw_store_last_act (store, error);
  g_autoptr (GArray) order = NULL;
  gboolean moved = TRUE;

  if (act < 0
      || (store->spine != NULL && store->spine_act >= 0 && !order_moved (store, store->spine_act, &moved, error)))
    return FALSE;
  if (!moved)
    {
      store->spine_act = store->txn == SW_TXN_WRITE ? store->spine_act : act;
      return TRUE;
    }
  order = g_array_new (FALSE, FALSE, sizeof (gint64));
  if (!read_order (store, order, error))
    return FALSE;
  g_clear_pointer (&store->spine, g_array_unref);
  store->spine = g_steal_pointer (&order);
  /* An act that is not committed yet may be rolled back, and its number given to another. */
  store->spine_act = store->txn == SW_TXN_WRITE ? -1 : act;
  return TRUE;
}

/* How many conditions, from the first, each dog has met; by its number. */
typedef struct
{
  guint8 *met;
  gint64 size;
  guint8 conditions;
} Marks;

static void
marks_clear (Marks *marks)
{
  g_free (marks->met);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Marks, marks_clear)

static gboolean
marks_start (SwStore *store, Marks *marks, GError **error)
{
  if (!sw_db_read_int (store->db, "SELECT ifnull (max (id), 0) + 1 FROM patient", &marks->size, error))
    return FALSE;
  marks->met = g_malloc0 ((gsize) marks->size);
  return TRUE;
}

/* The dogs of the statement's first column meet the next condition; a dog found twice counts once. */
static gboolean
marks_add (Marks *marks, SwStmt *stmt, GError **error)
{
  gboolean row;

  while (sw_stmt_step (stmt, &row, error))
    {
      gint64 patient = row ? sw_stmt_column_int (stmt, 0) : 0;

      if (!row)
        {
          marks->conditions++;
          return TRUE;
        }
      if (patient > 0 && patient < marks->size && marks->met[patient] == marks->conditions)
        marks->met[patient]++;
    }
  return FALSE;
}

static gboolean
mark_term (SwStore *store, Marks *marks, const char *term, GError **error)
{
  g_autofree char *above = sw_search_above (term); /* outlives the statement that is bound to it */
  g_autoptr (SwStmt) stmt
    = sw_stmt_get (store->db, "SELECT patient FROM patient_word WHERE word >= ?1 AND word < ?2", error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_text (stmt, 1, term);
  sw_stmt_bind_text (stmt, 2, above);
  return marks_add (marks, stmt, error);
}

static gboolean
mark_show (SwStore *store, Marks *marks, const SwSpineQuery *query, GError **error)
{
  g_autoptr (SwStmt) stmt = NULL;

  switch (query->show)
    {
    case SW_SHOW_ALL:
    case SW_N_SHOWS:
      return TRUE;
    case SW_SHOW_OPEN:
      stmt = sw_stmt_get (store->db, "SELECT patient FROM course_summary WHERE open = 1", error);
      break;
    case SW_SHOW_DUE:
      stmt = sw_stmt_get (store->db, "SELECT patient FROM course_summary WHERE open = 1 AND due_day <= ?1", error);
      if (stmt != NULL)
        sw_stmt_bind_int (stmt, 1, query->today);
      break;
    }
  return stmt != NULL && marks_add (marks, stmt, error);
}

static gboolean
mark_all (SwStore *store, Marks *marks, const SwSpineQuery *query, GError **error)
{
  g_auto (GStrv) terms = sw_search_terms (query->search);

  if (!marks_start (store, marks, error) || !mark_show (store, marks, query, error))
    return FALSE;
  for (guint i = 0; terms[i] != NULL; i++)
    if (!mark_term (store, marks, terms[i], error))
      return FALSE;
  return TRUE;
}

static GArray *
take_marked (const GArray *order, const Marks *marks)
{
  GArray *spine = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; i < order->len; i++)
    {
      gint64 patient = g_array_index (order, gint64, i);

      if (marks->met[patient] == marks->conditions)
        g_array_append_val (spine, patient);
    }
  return spine;
}

GArray *
sw_store_spine (SwStore *store, const SwSpineQuery *query, GError **error)
{
  g_auto (Marks) marks = { NULL };
  gboolean began, done;

  if (!sw_txn_enter_read (store, &began, error))
    return NULL;
  done = refresh_order (store, error) && mark_all (store, &marks, query, error);
  sw_txn_leave_read (store, began);
  return done ? take_marked (store->spine, &marks) : NULL;
}

/* --- rows --- */

void
sw_list_row_free (SwListRow *row)
{
  g_free (row->name);
  g_free (row->client);
  g_free (row);
}

static SwListRow *
read_list_row (SwStmt *stmt)
{
  SwListRow *row = g_new0 (SwListRow, 1);
  const char *stage = sw_stmt_column_text (stmt, 3);

  row->patient = sw_stmt_column_int (stmt, 0);
  row->name = g_strdup (sw_stmt_column_text (stmt, 1));
  row->client = g_strdup (sw_stmt_column_text (stmt, 2));
  row->stage = g_intern_string (stage ? stage : "");
  row->due_day = sw_stmt_column_int_or (stmt, 4, SW_NO_DAY);
  row->due_minute = sw_stmt_column_int_or (stmt, 5, SW_UNKNOWN);
  row->open = (gboolean) sw_stmt_column_int (stmt, 6);
  return row;
}

static gboolean
add_list_row (SwStore *store, gint64 patient, GPtrArray *rows, GError **error)
{
  static const char sql[] = "SELECT p.patient, p.name, p.client_name, s.stage, s.due_day, s.due_minute, s.open"
                            " FROM patient_list AS p LEFT JOIN course_summary AS s ON s.patient = p.patient"
                            " WHERE p.patient = ?1 ORDER BY s.open DESC, s.course DESC LIMIT 1";
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, sql, error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, patient);
  if (!sw_stmt_step (stmt, &row, error))
    return FALSE;
  if (row)
    g_ptr_array_add (rows, read_list_row (stmt));
  return TRUE;
}

static gboolean
add_list_rows (SwStore *store, const gint64 *ids, guint n, GPtrArray *rows, GError **error)
{
  for (guint i = 0; i < n; i++)
    if (!add_list_row (store, ids[i], rows, error))
      return FALSE;
  return TRUE;
}

GPtrArray *
sw_store_list_rows (SwStore *store, const gint64 *ids, guint n, GError **error)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_full (n, (GDestroyNotify) sw_list_row_free);
  gboolean began, done;

  if (!sw_txn_enter_read (store, &began, error))
    return NULL;
  done = add_list_rows (store, ids, n, rows, error);
  sw_txn_leave_read (store, began);
  return done ? g_steal_pointer (&rows) : NULL;
}
