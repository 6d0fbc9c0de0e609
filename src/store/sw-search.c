/* sw-search.c: the words of dogs and clients, kept true by the acts that change names
 *
 * A chunk between white spaces is a word, and so is each part of it after a mark: "Smith-Jones" is found by "smith-j"
 * and by "jones". A dog is also found by its number, as people see it and without leading zeros.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store-private.h"

#include "sw-stmt-private.h"

#include "sw-text.h"

#include <string.h>

/* More words than a person types. */
#define MOST_TERMS 100

/* --- words --- */

static void
add_word (GPtrArray *words, const char *word)
{
  for (guint i = 0; i < words->len; i++)
    if (g_str_equal (words->pdata[i], word))
      return;
  g_ptr_array_add (words, g_strdup (word));
}

static void
add_chunk (GPtrArray *words, const char *chunk)
{
  gboolean after_mark = TRUE;

  for (const char *p = chunk; *p != '\0'; p = g_utf8_next_char (p))
    {
      gboolean is_mark = !g_unichar_isalnum (g_utf8_get_char (p));

      if (p == chunk || (after_mark && !is_mark))
        add_word (words, p);
      after_mark = is_mark;
    }
}

static void
add_name (GPtrArray *words, const char *name)
{
  g_autofree char *folded = sw_text_fold (name);
  g_auto (GStrv) chunks = g_strsplit (folded, " ", -1);

  for (guint i = 0; chunks[i] != NULL; i++)
    add_chunk (words, chunks[i]);
}

GPtrArray *
sw_search_words (const char *name, const char *client, gint64 number)
{
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);
  char digits[24];

  add_name (words, name);
  if (client != NULL)
    add_name (words, client);
  if (number != 0)
    {
      g_snprintf (digits, sizeof digits, "%06" G_GINT64_FORMAT, number);
      add_word (words, digits);
      add_word (words, digits + strspn (digits, "0"));
    }
  return words;
}

/* "p-000123" and "p-" mean the digits: a number is not indexed under P, or that letter would find every dog. */
static const char *
without_number_sign (const char *term)
{
  if (g_str_has_prefix (term, "p-") && strspn (term + 2, "0123456789") == strlen (term + 2))
    return term + 2;
  return term;
}

char **
sw_search_terms (const char *search)
{
  g_autofree char *valid = g_utf8_make_valid (search ? search : "", -1);
  g_autofree char *folded = sw_text_fold (valid);
  g_auto (GStrv) chunks = g_strsplit (folded, " ", MOST_TERMS);
  g_autoptr (GStrvBuilder) terms = g_strv_builder_new ();

  for (guint i = 0; chunks[i] != NULL; i++)
    {
      const char *term = without_number_sign (chunks[i]);

      if (*term != '\0')
        g_strv_builder_add (terms, term);
    }
  return g_strv_builder_end (terms);
}

char *
sw_search_above (const char *beginning)
{
  /* Texts compare byte by byte, and no text holds this byte. */
  return g_strconcat (beginning, "\xff", NULL);
}

/* --- the index --- */

static gboolean
change_word (SwStore *store, const char *sql, const char *word, gint64 id, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, sql, error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_text (stmt, 1, word);
  sw_stmt_bind_int (stmt, 2, id);
  return sw_stmt_run (stmt, error);
}

static gboolean
change_words (SwStore *store, const char *sql, const GPtrArray *words, gint64 id, GError **error)
{
  for (guint i = 0; i < words->len; i++)
    if (!change_word (store, sql, words->pdata[i], id, error))
      return FALSE;
  return TRUE;
}

static gboolean
run_on (SwStore *store, const char *sql, gint64 id, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, sql, error);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, id);
  return sw_stmt_run (stmt, error);
}

/* The words under which a row of a list stands now: name, other name, of the row with this id. */
static gboolean
words_of_row (SwStore *store, const char *sql, gint64 id, gint64 number, GPtrArray **words, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, sql, error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, id);
  if (!sw_stmt_step (stmt, &row, error))
    return FALSE;
  *words = row ? sw_search_words (sw_stmt_column_text (stmt, 0), sw_stmt_column_text (stmt, 1), number)
               : g_ptr_array_new_with_free_func (g_free);
  return TRUE;
}

static gboolean
forget_patient (SwStore *store, gint64 patient, GError **error)
{
  g_autoptr (GPtrArray) words = NULL;

  return words_of_row (store, "SELECT name, client_name FROM patient_list WHERE patient = ?1", patient, patient, &words,
                       error)
         && change_words (store, "DELETE FROM patient_word WHERE word = ?1 AND patient = ?2", words, patient, error)
         && run_on (store, "DELETE FROM patient_list WHERE patient = ?1", patient, error);
}

static gboolean
add_patient (SwStore *store, gint64 patient, gint64 client, const char *name, const char *client_name, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (
      store->db, "INSERT INTO patient_list (patient, client, name, client_name, sort_key) VALUES (?1, ?2, ?3, ?4, ?5)",
      error);
  g_autoptr (GPtrArray) words = sw_search_words (name, client_name, patient);
  g_autofree char *key = sw_text_fold (name);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, patient);
  sw_stmt_bind_int (stmt, 2, client);
  sw_stmt_bind_text (stmt, 3, name);
  sw_stmt_bind_text (stmt, 4, client_name);
  sw_stmt_bind_text (stmt, 5, key);
  return sw_stmt_run (stmt, error)
         && change_words (store, "INSERT INTO patient_word (word, patient) VALUES (?1, ?2)", words, patient, error);
}

static gboolean
index_patient (SwStore *store, gint64 patient, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db,
                                         "SELECT d.client, d.name, ifnull (c.name, '') FROM patient_details_now AS d"
                                         " LEFT JOIN client_list AS c ON c.client = d.client WHERE d.patient = ?1",
                                         error);
  gboolean row;

  if (stmt == NULL || !forget_patient (store, patient, error))
    return FALSE;
  sw_stmt_bind_int (stmt, 1, patient);
  if (!sw_stmt_step (stmt, &row, error))
    return FALSE;
  return !row
         || add_patient (store, patient, sw_stmt_column_int (stmt, 0), sw_stmt_column_text (stmt, 1),
                         sw_stmt_column_text (stmt, 2), error);
}

/* Ids of the first column. (transfer full), NULL: error */
static GArray *
read_ids (SwStmt *stmt, GError **error)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  gboolean row;

  while (sw_stmt_step (stmt, &row, error))
    {
      gint64 id = row ? sw_stmt_column_int (stmt, 0) : 0;

      if (!row)
        return g_steal_pointer (&ids);
      g_array_append_val (ids, id);
    }
  return NULL;
}

static gboolean
index_patients_of (SwStore *store, gint64 client, GError **error)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, "SELECT patient FROM patient_list WHERE client = ?1", error);
  g_autoptr (GArray) patients = NULL;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, client);
  patients = read_ids (stmt, error);
  for (guint i = 0; patients != NULL && i < patients->len; i++)
    if (!index_patient (store, g_array_index (patients, gint64, i), error))
      return FALSE;
  return patients != NULL;
}

static gboolean
forget_client (SwStore *store, gint64 client, GError **error)
{
  g_autoptr (GPtrArray) words = NULL;

  return words_of_row (store, "SELECT name, NULL FROM client_list WHERE client = ?1", client, 0, &words, error)
         && change_words (store, "DELETE FROM client_word WHERE word = ?1 AND client = ?2", words, client, error)
         && run_on (store, "DELETE FROM client_list WHERE client = ?1", client, error);
}

static gboolean
add_client (SwStore *store, const SwClientDetails *details, GError **error)
{
  g_autoptr (SwStmt) stmt
    = sw_stmt_get (store->db, "INSERT INTO client_list (client, name, phone, sort_key) VALUES (?1, ?2, ?3, ?4)", error);
  g_autoptr (GPtrArray) words = sw_search_words (details->name, NULL, 0);
  g_autofree char *key = sw_text_fold (details->name);

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, details->client);
  sw_stmt_bind_text (stmt, 2, details->name);
  sw_stmt_bind_text (stmt, 3, details->phone);
  sw_stmt_bind_text (stmt, 4, key);
  return sw_stmt_run (stmt, error)
         && change_words (store, "INSERT INTO client_word (word, client) VALUES (?1, ?2)", words, details->client,
                          error);
}

/* The newest row of a subject is the current one, unless it takes the subject back. */
static gboolean
index_client (SwStore *store, const SwClientDetails *details, GError **error)
{
  return forget_client (store, details->client, error)
         && (details->fact.withdrawn || add_client (store, details, error))
         && index_patients_of (store, details->client, error);
}

gboolean
sw_search_keep (SwStore *store, gconstpointer fact, GError **error)
{
  const SwFact *head = fact;

  if (head->kind == SW_FACT_PATIENT_DETAILS)
    return index_patient (store, head->patient, error);
  if (head->kind == SW_FACT_CLIENT_DETAILS)
    return index_client (store, fact, error);
  return TRUE;
}
