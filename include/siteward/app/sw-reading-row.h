/* sw-reading-row.h: one caliper reading: three cells and what became of it
 *
 *   1  [21.4]  [18.0]  [ 8.9]  Tomas              [Take Back]
 *   2  [21.0]  [    ]  [    ]  Ines, not recorded
 *
 * A number and Enter fills a cell and moves on. When no cell is empty, Enter asks for the row to be recorded. Until
 * it is, the row is
 * grey and belongs to the person who began it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_READING_ROW (sw_reading_row_get_type ())
G_DECLARE_FINAL_TYPE (SwReadingRow, sw_reading_row, SW, READING_ROW, GtkWidget)

#define SW_READING_CELLS 3

typedef enum
{
  SW_READING_TYPED,  /* not recorded */
  SW_READING_SENT,   /* on its way */
  SW_READING_FAILED, /* not saved */
  SW_READING_KEPT,   /* on record */
} SwReadingState;

/* Signals: record () when the row is complete or [Retry] was pressed; take-back (); typed (int cell) on every
 * keystroke.
 * `letter` is the tumour's, for screen readers; sentences appear in `message`; cells line up through `columns`, one
 * group each. */
GtkWidget *sw_reading_row_new (const char *letter, GtkLabel *message, GtkSizeGroup *const *columns);
void sw_reading_row_set_number (SwReadingRow *self, guint number);

/* Who reads: named while the row is not recorded. */
void sw_reading_row_set_reader (SwReadingRow *self, gint64 person, const char *name);
gint64 sw_reading_row_get_reader (SwReadingRow *self);

/* Binds a row of the record and offers its values to the cells; `name` recorded it. */
void sw_reading_row_bind (SwReadingRow *self, const SwReading *reading, const char *name);
/* 0: not recorded. */
gint64 sw_reading_row_get_reading (SwReadingRow *self);
SwReadingState sw_reading_row_get_state (SwReadingRow *self);
void sw_reading_row_set_state (SwReadingRow *self, SwReadingState state);
/* The record took it under this id: typed texts give way to the standard form. */
void sw_reading_row_set_kept (SwReadingRow *self, gint64 reading);

/* All three axes, and what was typed (transfer full); else FALSE, with the focus in the cell that is wrong. */
gboolean sw_reading_row_take (SwReadingRow *self, gint64 axes[SW_READING_CELLS], char **typed);
gboolean sw_reading_row_peek (SwReadingRow *self, int cell, gint64 *value);
void sw_reading_row_set_question (SwReadingRow *self, int cell, const char *question);

gboolean sw_reading_row_is_blank (SwReadingRow *self);
/* Something is typed that the record does not have. */
gboolean sw_reading_row_has_unsaved (SwReadingRow *self);
GtkWidget *sw_reading_row_first_empty (SwReadingRow *self);

G_END_DECLS
