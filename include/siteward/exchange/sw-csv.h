/* sw-csv.h: tables as comma-separated text (RFC 4180), read with line numbers and bounds, and written.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Bounds of what is read; past one the file is refused with a sentence. A practice's whole export stays far under
 * them. */
#define SW_CSV_MOST_BYTES (64 * 1024 * 1024)
#define SW_CSV_MOST_FIELD_BYTES (64 * 1024)
#define SW_CSV_MOST_COLUMNS 256
#define SW_CSV_MOST_ROWS 2000000

/**
 * SwCsv:
 *
 * A table: the first record holds the names of the columns, each row after it has as many fields. Fields are UTF-8
 * text as it stood, without its quotes.
 */
typedef struct _SwCsv SwCsv;

/**
 * sw_csv_parse:
 * @data: (array length=length): the file's bytes; need not end with a zero
 * @separator: between fields, usually ','; 0 takes whichever of ',' ';' and tab is most frequent in the first record
 *
 * RFC 4180, with lines ended by CR LF or LF. A byte order mark, blank lines, and lines before the names that begin
 * with '#' are skipped. Nothing is guessed: a quote inside a bare field, text after a closing quote, a quote never
 * closed, a lone CR, a zero byte, a row with more or fewer fields than there are names, the same name twice, or bytes
 * that are not UTF-8 are refused.
 *
 * Errors: %SW_ERROR_INPUT; the sentence begins with the line.
 *
 * Returns: (transfer full): free with sw_csv_free()
 */
SwCsv *sw_csv_parse (const char *data, gsize length, char separator, GError **error);

/* The same from a file, of which no more than %SW_CSV_MOST_BYTES is ever read. Errors also when it can't be read. */
SwCsv *sw_csv_read_file (const char *path, char separator, GError **error);

void sw_csv_free (SwCsv *csv);

gsize sw_csv_n_rows (const SwCsv *csv);
gsize sw_csv_n_columns (const SwCsv *csv);
const char *sw_csv_column_name (const SwCsv *csv, gsize column);

/* The column called @name (letter case counts), or -1. */
int sw_csv_find_column (const SwCsv *csv, const char *name);

/* The column called @name; %SW_ERROR_INPUT names what is missing and what is there. */
gboolean sw_csv_need_column (const SwCsv *csv, const char *name, gsize *column, GError **error);

/* The line of the file on which @row begins, from 1. */
guint sw_csv_line (const SwCsv *csv, gsize row);

/* The field's text, "" when empty; owned by @csv. */
const char *sw_csv_text (const SwCsv *csv, gsize row, gsize column);

/**
 * sw_csv_double:
 * @value: (out): finite
 *
 * A decimal number with a point, such as 12, -0.5 or 1e-3; spaces around it are allowed, nothing else is.
 *
 * Errors: %SW_ERROR_INPUT with line, column and text; @value is left alone.
 */
gboolean sw_csv_double (const SwCsv *csv, gsize row, gsize column, double *value, GError **error);

/* A whole number from @least to @most. Errors as sw_csv_double(). */
gboolean sw_csv_int (const SwCsv *csv,
                     gsize row,
                     gsize column,
                     gint64 least,
                     gint64 most,
                     gint64 *value,
                     GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCsv, sw_csv_free)

/**
 * SwCsvWriter:
 *
 * Writes rows field by field, CR LF at the end of each. Fields are quoted only where they have to be. What it writes,
 * sw_csv_parse() reads back to the same text.
 */
typedef struct _SwCsvWriter SwCsvWriter;

SwCsvWriter *sw_csv_writer_new (void);
void sw_csv_writer_free (SwCsvWriter *writer);

/* One field; NULL is an empty one. @text is UTF-8. */
void sw_csv_writer_text (SwCsvWriter *writer, const char *text);
void sw_csv_writer_int (SwCsvWriter *writer, gint64 value);

/* The shortest digits that read back as the same double; an absent (not finite) value is an empty field. */
void sw_csv_writer_double (SwCsvWriter *writer, double value);

/* Ends the row. */
void sw_csv_writer_end (SwCsvWriter *writer);

/* All rows so far, NULL-terminated; the writer is as new afterwards. */
char *sw_csv_writer_steal (SwCsvWriter *writer, gsize *length);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCsvWriter, sw_csv_writer_free)

G_END_DECLS
