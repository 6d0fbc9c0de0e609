/* sw-check-derived.c: lists, search words and summaries against what they are made of
 *
 * What should be there is looked for entry by entry; that nothing else is there follows from the counts.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-check-private.h"

#include "sw-stmt-private.h"

#include "sw-text.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h> /* unlike GLib's, xgettext knows its formats */

/* --- lists and words --- */

typedef struct
{
  const char *table;     /* of words */
  const char *names;     /* id, name, other name */
  const char *has_row;   /* the list's row of ?1 with name ?2, other name ?3 and key ?4 */
  const char *has_word;  /* the word ?1 of ?2 */
  const char *n_rows;
  const char *n_words;
  gboolean numbered;     /* found by its number too */
} List;

static const List lists[] = {
  { "patient_list",
    "SELECT d.patient, d.name, ifnull (c.name, '') FROM patient_details_now AS d"
    " LEFT JOIN client_details_now AS c ON c.client = d.client",
    "SELECT count (*) FROM patient_list WHERE patient = ?1 AND name = ?2 AND client_name = ?3 AND sort_key = ?4",
    "SELECT count (*) FROM patient_word WHERE word = ?1 AND patient = ?2", "SELECT count (*) FROM patient_list",
    "SELECT count (*) FROM patient_word", TRUE },
  { "client_list", "SELECT client, name, phone FROM client_details_now",
    "SELECT count (*) FROM client_list WHERE client = ?1 AND name = ?2 AND phone IS ?3 AND sort_key = ?4",
    "SELECT count (*) FROM client_word WHERE word = ?1 AND client = ?2", "SELECT count (*) FROM client_list",
    "SELECT count (*) FROM client_word", FALSE },
};

static gboolean
read_count (SwStmt *stmt, gint64 *count, GError **error)
{
  gboolean row;

  if (!sw_stmt_step (stmt, &row, error))
    return FALSE;
  *count += row ? sw_stmt_column_int (stmt, 0) : 0;
  return TRUE;
}

static gboolean
count_row (SwDb *db, const List *list, SwStmt *names, gint64 *found, GError **error)
{
  const char *name = sw_stmt_column_text (names, 1);
  g_autofree char *key = sw_text_fold (name);
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, list->has_row, error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, sw_stmt_column_int (names, 0));
  sw_stmt_bind_text (stmt, 2, name);
  sw_stmt_bind_text (stmt, 3, sw_stmt_column_text (names, 2));
  sw_stmt_bind_text (stmt, 4, key);
  return read_count (stmt, found, error);
}

static gboolean
count_words (SwDb *db, const List *list, gint64 id, const GPtrArray *words, gint64 *found, GError **error)
{
  for (guint i = 0; i < words->len; i++)
    {
      g_autoptr (SwStmt) stmt = sw_stmt_get (db, list->has_word, error);

      if (stmt == NULL)
        return FALSE;
      sw_stmt_bind_text (stmt, 1, words->pdata[i]);
      sw_stmt_bind_int (stmt, 2, id);
      if (!read_count (stmt, found, error))
        return FALSE;
    }
  return TRUE;
}

typedef struct
{
  gint64 rows, words, found_rows, found_words;
} Counts;

static gboolean
count_entry (SwDb *db, const List *list, SwStmt *names, Counts *counts, GError **error)
{
  gint64 id = sw_stmt_column_int (names, 0);
  const char *client = list->numbered ? sw_stmt_column_text (names, 2) : NULL;
  g_autoptr (GPtrArray) words = sw_search_words (sw_stmt_column_text (names, 1), client, list->numbered ? id : 0);

  counts->rows++;
  counts->words += words->len;
  return count_row (db, list, names, &counts->found_rows, error)
         && count_words (db, list, id, words, &counts->found_words, error);
}

static gboolean
count_entries (SwDb *db, const List *list, Counts *counts, GError **error)
{
  g_autoptr (SwStmt) names = sw_stmt_get (db, list->names, error);
  gboolean row;

  if (names == NULL)
    return FALSE;
  while (sw_stmt_step (names, &row, error))
    if (!row)
      return TRUE;
    else if (!count_entry (db, list, names, counts, error))
      return FALSE;
  return FALSE;
}

static gboolean
check_list (SwCheck *check, const List *list, GError **error)
{
  SwDb *db = check->store->db;
  Counts counts = { 0 };
  gint64 rows, words;

  if (!count_entries (db, list, &counts, error) || !sw_db_read_int (db, list->n_rows, &rows, error)
      || !sw_db_read_int (db, list->n_words, &words, error))
    return FALSE;
  if (counts.found_rows != counts.rows || rows != counts.rows || counts.found_words != counts.words
      || words != counts.words)
    sw_check_trouble (check,
                      _("The derived table “%s” or its words differ from the names they are made of: %" PRId64
                        " rows and %" PRId64 " words should be there."),
                      list->table, counts.rows, counts.words);
  return TRUE;
}

/* --- summaries --- */

static gboolean
check_summary (SwCheck *check, const SwCourseSummary *wanted, GError **error)
{
  static const char sql[] = "SELECT count (*) FROM course_summary WHERE course = ?1 AND patient = ?2 AND stage = ?3"
                            " AND due_day IS ?4 AND due_minute IS ?5 AND open = ?6";
  g_autoptr (SwStmt) stmt = sw_stmt_get (check->store->db, sql, error);
  gint64 found = 0;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, wanted->course);
  sw_stmt_bind_int (stmt, 2, wanted->patient);
  sw_stmt_bind_text (stmt, 3, wanted->stage);
  sw_stmt_bind_int_or_null (stmt, 4, wanted->due_day, SW_NO_DAY);
  sw_stmt_bind_int_or_null (stmt, 5, wanted->due_minute, SW_UNKNOWN);
  sw_stmt_bind_int (stmt, 6, wanted->open);
  if (!read_count (stmt, &found, error))
    return FALSE;
  check->report->summaries++;
  if (found != 1)
    sw_check_trouble (check, _("The list shows course %" PRId64 " of patient %" PRId64
                               " otherwise than its facts say."),
                      wanted->course, wanted->patient);
  return TRUE;
}

/* --- rows of the outcomes --- */

static gboolean
same_rows (const GArray *a, const GArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!sw_treated_equal (&g_array_index (a, SwTreated, i), &g_array_index (b, SwTreated, i)))
      return FALSE;
  return TRUE;
}

static int
by_course_and_tumour (gconstpointer a, gconstpointer b)
{
  const SwTreated *first = a, *second = b;

  if (first->course != second->course)
    return first->course < second->course ? -1 : 1;
  return (first->tumour > second->tumour) - (first->tumour < second->tumour);
}

static gboolean
check_treated_of (SwCheck *check, const SwDossier *dossier, const SwPractice *practice, GError **error)
{
  g_autoptr (GArray) found = sw_store_load_treated (check->store, dossier->patient, error);
  g_autoptr (GArray) wanted = found ? check->options->count_treated (dossier, practice, check->options->data) : NULL;

  if (found == NULL)
    return FALSE;
  g_array_sort (wanted, by_course_and_tumour);
  if (!same_rows (found, wanted))
    sw_check_trouble (check, _("The outcomes count patient %" PRId64 " otherwise than the facts say."),
                      dossier->patient);
  check->treated += wanted->len;
  return TRUE;
}

/* --- dog by dog --- */

static gboolean
check_summaries_of (SwCheck *check, const SwPractice *practice, gint64 patient, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_store_load_dossier (check->store, patient, error);
  g_autoptr (GArray) wanted = NULL;

  if (dossier == NULL)
    return FALSE;
  wanted = check->options->summarise (dossier, practice, check->options->data);
  for (guint i = 0; i < wanted->len; i++)
    if (!check_summary (check, &g_array_index (wanted, SwCourseSummary, i), error))
      return FALSE;
  return check->options->count_treated == NULL || check_treated_of (check, dossier, practice, error);
}

static gboolean
walk_summaries (SwCheck *check, const SwPractice *practice, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (check->store->db, "SELECT DISTINCT patient FROM course", error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  while (sw_stmt_step (stmt, &row, error))
    if (!row)
      return TRUE;
    else if (!check_summaries_of (check, practice, sw_stmt_column_int (stmt, 0), error))
      return FALSE;
  return FALSE;
}

static gboolean
check_summaries (SwCheck *check, GError **error)
{
  g_autoptr (SwPractice) practice = sw_store_load_practice (check->store, error);
  gint64 kept, treated;

  if (practice == NULL || !walk_summaries (check, practice, error)
      || !sw_db_read_int (check->store->db, "SELECT count (*) FROM course_summary", &kept, error)
      || !sw_db_read_int (check->store->db, "SELECT count (*) FROM treated", &treated, error))
    return FALSE;
  if (check->options->count_treated != NULL && treated != check->treated)
    sw_check_trouble (check, _("The outcomes count %" PRId64 " treated tumours, the facts %" PRId64 "."), treated,
                      check->treated);
  if (kept != check->report->summaries)
    sw_check_trouble (check, _("The list holds %" PRId64 " courses, the facts %" PRId64 "."), kept,
                      check->report->summaries);
  return TRUE;
}

gboolean
sw_check_derived (SwCheck *check, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    if (!check_list (check, &lists[i], error))
      return FALSE;
  return check->options->summarise == NULL || check_summaries (check, error);
}
