/* sw-csv.c: a table that was read, and what its cells say.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-csv.h"

#include "sw-csv-parse-private.h"
#include "sw-error.h"
#include "sw-text.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* How much of a wrong field is shown. */
#define EXCERPT 40

struct _SwCsv
{
  SwCsvCells cells;
};

static const char *
cell (const SwCsv *csv, gsize index)
{
  return csv->cells.text->str + g_array_index (csv->cells.offsets, guint32, index);
}

static gboolean
check_names (const SwCsv *csv, GError **error)
{
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);

  for (gsize i = 0; i < csv->cells.n_columns; i++)
    if (!g_hash_table_add (names, (gpointer) cell (csv, i)))
      {
        g_autofree char *name = sw_text_excerpt (cell (csv, i), EXCERPT);
        g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                     _("Line %u: two columns are called \"%s\". Give each its own name."),
                     g_array_index (csv->cells.lines, guint, 0), name);
        return FALSE;
      }
  return TRUE;
}

SwCsv *
sw_csv_parse (const char *data, gsize length, char separator, GError **error)
{
  g_autoptr (SwCsv) csv = g_new0 (SwCsv, 1);

  csv->cells.text = g_string_new (NULL);
  csv->cells.offsets = g_array_new (FALSE, FALSE, sizeof (guint32));
  csv->cells.lines = g_array_new (FALSE, FALSE, sizeof (guint));
  if (!sw_csv_cells_parse (&csv->cells, data, length, separator, error) || !check_names (csv, error))
    return NULL;
  return g_steal_pointer (&csv);
}

/* At most one byte more than may be parsed, so that even an endless file ends in a refusal. */
static GBytes *
read_bounded (const char *path, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, error);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 piece[64 * 1024];
  gssize got = 1;

  while (stream && got > 0 && bytes->len <= SW_CSV_MOST_BYTES)
    {
      got = g_input_stream_read (G_INPUT_STREAM (stream), piece, sizeof piece, NULL, error);
      if (got > 0)
        g_byte_array_append (bytes, piece, got);
    }
  return stream && got >= 0 ? g_byte_array_free_to_bytes (g_steal_pointer (&bytes)) : NULL;
}

SwCsv *
sw_csv_read_file (const char *path, char separator, GError **error)
{
  g_autoptr (GError) local = NULL;
  g_autoptr (GBytes) bytes = read_bounded (path, &local);

  if (!bytes)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("The table can't be read: %s"), local->message);
      return NULL;
    }
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  return sw_csv_parse (data ? data : "", length, separator, error);
}

void
sw_csv_free (SwCsv *csv)
{
  if (!csv)
    return;
  g_string_free (csv->cells.text, TRUE);
  g_array_unref (csv->cells.offsets);
  g_array_unref (csv->cells.lines);
  g_free (csv);
}

gsize
sw_csv_n_rows (const SwCsv *csv)
{
  return csv->cells.lines->len - 1;
}

gsize
sw_csv_n_columns (const SwCsv *csv)
{
  return csv->cells.n_columns;
}

const char *
sw_csv_column_name (const SwCsv *csv, gsize column)
{
  g_return_val_if_fail (column < csv->cells.n_columns, NULL);

  return cell (csv, column);
}

int
sw_csv_find_column (const SwCsv *csv, const char *name)
{
  for (gsize i = 0; i < csv->cells.n_columns; i++)
    if (strcmp (cell (csv, i), name) == 0)
      return i;
  return -1;
}

gboolean
sw_csv_need_column (const SwCsv *csv, const char *name, gsize *column, GError **error)
{
  int found = sw_csv_find_column (csv, name);

  if (found >= 0)
    {
      *column = found;
      return TRUE;
    }
  g_autoptr (GString) names = g_string_new (NULL);
  for (gsize i = 0; i < csv->cells.n_columns; i++)
    g_string_append_printf (names, i > 0 ? ", %s" : "%s", cell (csv, i));
  g_autofree char *excerpt = sw_text_excerpt (names->str, 4 * EXCERPT);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("Line %u: no column is called \"%s\"; there are: %s."), g_array_index (csv->cells.lines, guint, 0),
               name, excerpt);
  return FALSE;
}

guint
sw_csv_line (const SwCsv *csv, gsize row)
{
  g_return_val_if_fail (row < sw_csv_n_rows (csv), 0);

  return g_array_index (csv->cells.lines, guint, row + 1);
}

const char *
sw_csv_text (const SwCsv *csv, gsize row, gsize column)
{
  g_return_val_if_fail (row < sw_csv_n_rows (csv) && column < csv->cells.n_columns, NULL);

  return cell (csv, (row + 1) * csv->cells.n_columns + column);
}

static gboolean
refuse_field (const SwCsv *csv, gsize row, gsize column, const char *wanted, GError **error)
{
  g_autofree char *text = sw_text_excerpt (sw_csv_text (csv, row, column), EXCERPT);
  g_autofree char *name = sw_text_excerpt (cell (csv, column), EXCERPT);

  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Line %u, column \"%s\": \"%s\" can't be used: give %s."),
               sw_csv_line (csv, row), name, text, wanted);
  return FALSE;
}

/* The number's text without spaces around it, or NULL when it holds anything that a decimal number doesn't. */
static char *
number_text (const SwCsv *csv, gsize row, gsize column, const char *allowed)
{
  g_autofree char *text = g_strstrip (g_strdup (sw_csv_text (csv, row, column)));

  return *text && strspn (text, allowed) == strlen (text) ? g_steal_pointer (&text) : NULL;
}

gboolean
sw_csv_double (const SwCsv *csv, gsize row, gsize column, double *value, GError **error)
{
  g_autofree char *text = number_text (csv, row, column, "0123456789+-.eE");
  char *end = text;
  double number = text ? g_ascii_strtod (text, &end) : NAN;

  if (!text || end == text || *end || !isfinite (number))
    return refuse_field (csv, row, column, _("a number such as 12.5"), error);
  *value = number;
  return TRUE;
}

gboolean
sw_csv_int (const SwCsv *csv,
            gsize row,
            gsize column,
            gint64 least,
            gint64 most,
            gint64 *value,
            GError **error)
{
  g_autofree char *text = number_text (csv, row, column, "0123456789-");

  if (text && g_ascii_string_to_signed (text, 10, least, most, value, NULL))
    return TRUE;
  g_autofree char *wanted = g_strdup_printf (_("a whole number from %lld to %lld"),
                                             (long long) least, (long long) most);
  return refuse_field (csv, row, column, wanted, error);
}
