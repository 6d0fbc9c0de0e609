/* sw-reading-table-private.h: today's readings of one tumour, and the rows still to be filled
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_READING_TABLE (sw_reading_table_get_type ())
G_DECLARE_FINAL_TYPE (SwReadingTable, sw_reading_table, SW, READING_TABLE, SwTreatmentSection)

GtkWidget *sw_reading_table_new (gint64 tumour, const char *letter);
gint64 sw_reading_table_get_tumour (SwReadingTable *self);
/* Who reads from now on; rows begun by somebody else keep their reader. */
void sw_reading_table_set_reader (SwReadingTable *self, gint64 person, const char *name);

G_END_DECLS
