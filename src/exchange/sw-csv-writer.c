/* sw-csv-writer.c: tables out.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-csv.h"

#include "sw-number-private.h"

#include <math.h>
#include <string.h>

struct _SwCsvWriter
{
  GString *text;
  gsize row;    /* where the row begins */
  gsize fields; /* in it so far */
};

SwCsvWriter *
sw_csv_writer_new (void)
{
  SwCsvWriter *writer = g_new0 (SwCsvWriter, 1);

  writer->text = g_string_new (NULL);
  return writer;
}

void
sw_csv_writer_free (SwCsvWriter *writer)
{
  if (!writer)
    return;
  g_string_free (writer->text, TRUE);
  g_free (writer);
}

static void
begin_field (SwCsvWriter *writer)
{
  if (writer->fields++ > 0)
    g_string_append_c (writer->text, ',');
}

/* Semicolons and tabs too, for readers that guess their separator; '#' because it may begin a comment. */
static gboolean
needs_quotes (const char *text)
{
  return strpbrk (text, ",;\t\"\r\n") != NULL || *text == '#' || *text == ' ';
}

void
sw_csv_writer_text (SwCsvWriter *writer, const char *text)
{
  begin_field (writer);
  if (!text || !needs_quotes (text))
    {
      g_string_append (writer->text, text ? text : "");
      return;
    }
  g_string_append_c (writer->text, '"');
  for (const char *at = text; *at; at++)
    {
      if (*at == '"')
        g_string_append_c (writer->text, '"');
      g_string_append_c (writer->text, *at);
    }
  g_string_append_c (writer->text, '"');
}

void
sw_csv_writer_int (SwCsvWriter *writer, gint64 value)
{
  begin_field (writer);
  g_string_append_printf (writer->text, "%" G_GINT64_FORMAT, value);
}

void
sw_csv_writer_double (SwCsvWriter *writer, double value)
{
  begin_field (writer);
  if (isfinite (value))
    sw_number_append (writer->text, value);
}

/* A row of one empty field would be a blank line, which readers skip. */
void
sw_csv_writer_end (SwCsvWriter *writer)
{
  if (writer->text->len == writer->row && writer->fields > 0)
    g_string_append (writer->text, "\"\"");
  g_string_append (writer->text, "\r\n");
  writer->row = writer->text->len;
  writer->fields = 0;
}

char *
sw_csv_writer_steal (SwCsvWriter *writer, gsize *length)
{
  if (length)
    *length = writer->text->len;
  char *text = g_string_free (writer->text, FALSE);
  *writer = (SwCsvWriter) { .text = g_string_new (NULL) };
  return text;
}
