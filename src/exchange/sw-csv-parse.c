/* sw-csv-parse.c: from bytes to the cells of a table (RFC 4180).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-csv-parse-private.h"

#include "sw-csv.h"
#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define BYTE_ORDER_MARK "\xef\xbb\xbf"

typedef struct
{
  const char *at;
  const char *end;
  guint line;
  char separator;
  SwCsvCells *cells;
} Parser;

G_GNUC_PRINTF (3, 4)
static gboolean
refuse (GError **error, guint line, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_autofree char *sentence = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Line %u: %s"), line, sentence);
  return FALSE;
}

static gboolean
check_utf8 (const char *data, gsize length, GError **error)
{
  const char *bad;
  guint line = 1;

  if (g_utf8_validate_len (data, length, &bad))
    return TRUE;
  for (const char *at = data; at < bad; at++)
    line += *at == '\n';
  return refuse (error, line, _("this is not UTF-8 text. Save the table as CSV in UTF-8 and try again."));
}

static gboolean
at_line_end (const Parser *parser)
{
  return parser->at == parser->end || *parser->at == '\n'
         || (*parser->at == '\r' && parser->at + 1 < parser->end && parser->at[1] == '\n');
}

static void
skip_line_end (Parser *parser)
{
  if (parser->at < parser->end && *parser->at == '\r')
    parser->at++;
  if (parser->at < parser->end)
    {
      parser->at++;
      parser->line++;
    }
}

static void
skip_line (Parser *parser)
{
  const char *feed = memchr (parser->at, '\n', parser->end - parser->at);

  parser->at = feed ? feed : parser->end;
  skip_line_end (parser);
}

static gboolean
read_bare (Parser *parser, GError **error)
{
  while (!at_line_end (parser) && *parser->at != parser->separator)
    {
      if (*parser->at == '"')
        return refuse (error, parser->line,
                       _("a quote stands inside a field that does not begin with one. Put the whole field in quotes."));
      if (*parser->at == '\r')
        return refuse (error, parser->line, _("a carriage return stands alone. End lines with CR LF or LF."));
      g_string_append_c (parser->cells->text, *parser->at++);
    }
  return TRUE;
}

static gboolean
read_quoted (Parser *parser, GError **error)
{
  guint first_line = parser->line;

  parser->at++;
  while (parser->at < parser->end)
    {
      char c = *parser->at++;
      if (c == '"' && (parser->at == parser->end || *parser->at != '"'))
        {
          if (at_line_end (parser) || *parser->at == parser->separator)
            return TRUE;
          return refuse (error, parser->line, _("text follows a closing quote. Double the quotes inside a field."));
        }
      if (c == '"')
        parser->at++; /* the second of two stands for one */
      parser->line += c == '\n';
      g_string_append_c (parser->cells->text, c);
    }
  return refuse (error, first_line, _("a quote is opened and never closed."));
}

static gboolean
read_field (Parser *parser, GError **error)
{
  guint32 offset = parser->cells->text->len;
  guint line = parser->line;

  g_array_append_val (parser->cells->offsets, offset);
  gboolean quoted = parser->at < parser->end && *parser->at == '"';
  if (!(quoted ? read_quoted (parser, error) : read_bare (parser, error)))
    return FALSE;
  gsize bytes = parser->cells->text->len - offset;
  if (bytes > SW_CSV_MOST_FIELD_BYTES)
    return refuse (error, line, _("a field has %zu bytes, more than %d. Shorten it."), bytes, SW_CSV_MOST_FIELD_BYTES);
  g_string_append_c (parser->cells->text, '\0');
  return TRUE;
}

static gboolean
check_width (const Parser *parser, guint line, gsize width, GError **error)
{
  if (parser->cells->n_columns == 0 || width == parser->cells->n_columns)
    return TRUE;
  return refuse (error, line, _("there are %zu fields where the first line has %zu names."), width,
                 parser->cells->n_columns);
}

static gboolean
read_record (Parser *parser, GError **error)
{
  guint line = parser->line;
  gsize width = 0;

  for (;;)
    {
      if (!read_field (parser, error))
        return FALSE;
      if (++width > SW_CSV_MOST_COLUMNS)
        return refuse (error, line, _("there are more than %d fields."), SW_CSV_MOST_COLUMNS);
      if (at_line_end (parser))
        break;
      parser->at++; /* the separator */
    }
  skip_line_end (parser);
  if (!check_width (parser, line, width, error))
    return FALSE;
  parser->cells->n_columns = width;
  g_array_append_val (parser->cells->lines, line);
  if (parser->cells->lines->len > SW_CSV_MOST_ROWS + 1)
    return refuse (error, line, _("there are more than %d rows. Split the table."), SW_CSV_MOST_ROWS);
  return TRUE;
}

static char
guess_separator (const Parser *parser)
{
  static const char candidates[] = { ',', ';', '\t' };
  guint counts[G_N_ELEMENTS (candidates)] = { 0 };
  gboolean quoted = FALSE;
  guint best = 0;

  for (const char *at = parser->at; at < parser->end && (quoted || *at != '\n'); at++)
    {
      quoted ^= *at == '"';
      for (guint i = 0; i < G_N_ELEMENTS (candidates); i++)
        counts[i] += !quoted && *at == candidates[i];
    }
  for (guint i = 1; i < G_N_ELEMENTS (candidates); i++)
    if (counts[i] > counts[best])
      best = i;
  return candidates[best];
}

gboolean
sw_csv_cells_parse (SwCsvCells *cells, const char *data, gsize length, char separator, GError **error)
{
  Parser parser = { data, data + length, 1, separator, cells };

  if (length > SW_CSV_MOST_BYTES)
    return refuse (error, 1, _("the file is larger than %d bytes. Split it."), SW_CSV_MOST_BYTES);
  if (!check_utf8 (data, length, error))
    return FALSE;
  if (length >= strlen (BYTE_ORDER_MARK) && memcmp (data, BYTE_ORDER_MARK, strlen (BYTE_ORDER_MARK)) == 0)
    parser.at += strlen (BYTE_ORDER_MARK);
  while (parser.at < parser.end && (*parser.at == '#' || at_line_end (&parser)))
    skip_line (&parser);
  if (!separator)
    parser.separator = guess_separator (&parser);
  while (parser.at < parser.end)
    {
      if (at_line_end (&parser))
        skip_line_end (&parser);
      else if (!read_record (&parser, error))
        return FALSE;
    }
  return cells->n_columns > 0 || refuse (error, 1, _("the file holds no table. The first line must name the columns."));
}
