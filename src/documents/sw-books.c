/* sw-books.c: the parsed documents of a record, or the shipped ones
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-books.h"

#include "sw-error.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

struct _SwBooks
{
  int ref_count;
  GPtrArray *medicines, *protocols, *interactions; /* parsed, in the order of their rows or file names */
  GHashTable *rows;                                /* document row (gint64) -> SwProtocol, borrowed */
  GHashTable *adopted;                             /* parsed documents in use, borrowed: a set */
};

static SwBooks *
books_alloc (void)
{
  SwBooks *books = g_new0 (SwBooks, 1);

  books->ref_count = 1;
  books->medicines = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_medicine_free);
  books->protocols = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_protocol_free);
  books->interactions = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_interactions_free);
  books->rows = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  books->adopted = g_hash_table_new (NULL, NULL);
  return books;
}

SwBooks *
sw_books_ref (SwBooks *books)
{
  g_atomic_int_inc (&books->ref_count);
  return books;
}

void
sw_books_unref (SwBooks *books)
{
  if (!g_atomic_int_dec_and_test (&books->ref_count))
    return;
  g_ptr_array_unref (books->medicines);
  g_ptr_array_unref (books->protocols);
  g_ptr_array_unref (books->interactions);
  g_hash_table_unref (books->rows);
  g_hash_table_unref (books->adopted);
  g_free (books);
}

static GPtrArray *
shelf_of (const SwBooks *books, SwDocumentKind kind)
{
  switch (kind)
    {
    case SW_DOCUMENT_MEDICINE:
      return books->medicines;
    case SW_DOCUMENT_INTERACTIONS:
      return books->interactions;
    case SW_DOCUMENT_PROTOCOL:
      return books->protocols;
    case SW_N_DOCUMENT_KINDS:
      break;
    }
  g_assert_not_reached ();
}

/* Every parsed document begins with its head. */
static SwDocumentHead *
parse (SwDocumentKind kind, const char *name, GBytes *bytes, const GPtrArray *medicines, GError **error)
{
  switch (kind)
    {
    case SW_DOCUMENT_MEDICINE:
      return (SwDocumentHead *) sw_medicine_parse (name, bytes, error);
    case SW_DOCUMENT_INTERACTIONS:
      return (SwDocumentHead *) sw_interactions_parse (name, bytes, medicines, error);
    case SW_DOCUMENT_PROTOCOL:
      return (SwDocumentHead *) sw_protocol_parse (name, bytes, medicines, error);
    case SW_N_DOCUMENT_KINDS:
      break;
    }
  g_assert_not_reached ();
}

/* Documents of a record were checked against the medicines of their day when they were adopted: not again against
 * today's. */
static gboolean
add_row (SwBooks *books, const SwPractice *practice, const SwDocument *row, GError **error)
{
  SwDocumentKind kind = (SwDocumentKind) row->doc_kind;
  g_autoptr (GError) local = NULL;
  SwDocumentHead *head;

  if (row->doc_kind < 0 || row->doc_kind >= SW_N_DOCUMENT_KINDS)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD, _ ("The record holds a document “%s” of no kind known here."),
                   row->doc_id);
      return FALSE;
    }
  head = parse (kind, row->doc_id, row->bytes, NULL, &local);
  if (head == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD, _ ("A document kept in the record can't be read: %s"),
                   local->message);
      return FALSE;
    }
  g_ptr_array_add (shelf_of (books, kind), head);
  if (kind == SW_DOCUMENT_PROTOCOL)
    g_hash_table_insert (books->rows, g_memdup2 (&row->fact.id, sizeof row->fact.id), head);
  if (sw_practice_adopted (practice, kind, row->doc_id) == row)
    g_hash_table_add (books->adopted, head);
  return TRUE;
}

SwBooks *
sw_books_new (const SwPractice *practice, GError **error)
{
  g_autoptr (SwBooks) books = books_alloc ();
  const SwDocument *row;

  for (guint i = 0; (row = sw_facts_next (&practice->facts, SW_FACT_DOCUMENT, &i)) != NULL;)
    if (!add_row (books, practice, row, error))
      return NULL;
  return g_steal_pointer (&books);
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *) a, *(const char *const *) b);
}

/* The names of the XML files in a folder, in order; none when there is no such folder. */
static GPtrArray *
list_files (const char *folder)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  return names;
}

static gboolean
add_folder (SwBooks *books, const char *dir, const char *name, SwDocumentKind kind, GError **error)
{
  g_autofree char *folder = g_build_filename (dir, name, NULL);
  g_autoptr (GPtrArray) names = list_files (folder);

  for (guint i = 0; i < names->len; i++)
    {
      const char *file = g_ptr_array_index (names, i);
      g_autofree char *path = g_build_filename (folder, file, NULL);
      g_autofree char *text = NULL;
      g_autoptr (GBytes) bytes = NULL;
      SwDocumentHead *head;
      gsize size;

      if (!g_file_get_contents (path, &text, &size, error))
        return FALSE;
      bytes = g_bytes_new_take (g_steal_pointer (&text), size);
      head = parse (kind, file, bytes, books->medicines, error);
      if (head == NULL)
        return FALSE;
      g_ptr_array_add (shelf_of (books, kind), head);
    }
  return TRUE;
}

char *
sw_books_shipped_dir (void)
{
  const char *given = g_getenv ("SW_DATA_DIR");
  g_autofree char *installed = g_build_filename (SW_DATA_DIR, "protocols", NULL);

  if (given != NULL && *given != '\0')
    return g_strdup (given);
  return g_strdup (g_file_test (installed, G_FILE_TEST_IS_DIR) ? SW_DATA_DIR : SW_SOURCE_DATA_DIR);
}

SwBooks *
sw_books_new_shipped (const char *dir, GError **error)
{
  g_autoptr (SwBooks) books = books_alloc ();
  g_autofree char *folder = dir != NULL ? g_strdup (dir) : sw_books_shipped_dir ();

  if (!add_folder (books, folder, "medicines", SW_DOCUMENT_MEDICINE, error) ||
      !add_folder (books, folder, "interactions", SW_DOCUMENT_INTERACTIONS, error) ||
      !add_folder (books, folder, "protocols", SW_DOCUMENT_PROTOCOL, error))
    return NULL;
  if (books->protocols->len == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_DISK, _ ("No protocols lie in %s: install the program's data."), folder);
      return NULL;
    }
  return g_steal_pointer (&books);
}

const SwProtocol *
sw_books_protocol (const SwBooks *books, gint64 document)
{
  return g_hash_table_lookup (books->rows, &document);
}

/* The adopted one, else the newest. */
static gconstpointer
find (const SwBooks *books, const GPtrArray *shelf, const char *id)
{
  gconstpointer newest = NULL;

  for (guint i = shelf->len; i-- > 0;)
    {
      const SwDocumentHead *head = g_ptr_array_index (shelf, i);

      if (id != NULL && !g_str_equal (head->id, id))
        continue;
      if (g_hash_table_contains (books->adopted, head))
        return head;
      if (newest == NULL)
        newest = head;
    }
  return newest;
}

const SwProtocol *
sw_books_protocol_named (const SwBooks *books, const char *id)
{
  return find (books, books->protocols, id);
}

const SwMedicine *
sw_books_medicine (const SwBooks *books, const char *substance)
{
  return find (books, books->medicines, substance);
}

const SwInteractions *
sw_books_interactions (const SwBooks *books)
{
  return find (books, books->interactions, NULL);
}

gboolean
sw_books_is_class (const SwBooks *books, const char *substance, const char *class_code)
{
  const SwMedicine *medicine = sw_books_medicine (books, substance);
  const SwInteractions *interactions = sw_books_interactions (books);

  if (medicine != NULL && sw_medicine_has_class (medicine, class_code))
    return TRUE;
  for (guint i = 0; interactions != NULL && i < interactions->classes->len; i++)
    {
      const SwMedicineClass *listed = g_ptr_array_index (interactions->classes, i);

      if (g_str_equal (listed->id, class_code) && listed->substances != NULL &&
          g_strv_contains ((const char *const *) listed->substances, substance))
        return TRUE;
    }
  return FALSE;
}

const GPtrArray *
sw_books_medicines (const SwBooks *books)
{
  return books->medicines;
}

static int
compare_ids (gconstpointer a, gconstpointer b)
{
  const SwDocumentHead *left = *(SwDocumentHead *const *) a, *right = *(SwDocumentHead *const *) b;

  return left->kind != right->kind ? (int) left->kind - (int) right->kind : strcmp (left->id, right->id);
}

GPtrArray *
sw_books_heads (const SwBooks *books)
{
  GPtrArray *heads = g_ptr_array_new ();

  g_ptr_array_extend (heads, books->protocols, NULL, NULL);
  g_ptr_array_extend (heads, books->medicines, NULL, NULL);
  g_ptr_array_extend (heads, books->interactions, NULL, NULL);
  g_ptr_array_sort (heads, compare_ids);
  return heads;
}
