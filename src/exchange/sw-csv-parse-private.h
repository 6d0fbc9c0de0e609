/* sw-csv-parse-private.h: from bytes to the cells of a table.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* Cells one after the other: cell @i is the text at offset @i of @offsets. The first @n_columns are the names. */
typedef struct
{
  GString *text;
  GArray *offsets; /* of guint32 */
  GArray *lines;   /* of guint, one per record */
  gsize n_columns;
} SwCsvCells;

/* Fills empty @cells; on FALSE they hold rubbish. */
gboolean sw_csv_cells_parse (SwCsvCells *cells, const char *data, gsize length, char separator, GError **error);
