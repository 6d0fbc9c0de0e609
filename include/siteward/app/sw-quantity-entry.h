/* sw-quantity-entry.h: a field for one exact quantity, a day or a time, read by the parsers of base
 *
 *   [ 24.6     ] kg
 *   sentence of what is wrong, or the question about an unlikely value
 *
 * What is typed stays as it is typed, right or wrong, until it is accepted or replaced by set_value(). A caliper that
 * types like a keyboard ends its number with Enter: then `accepted` is emitted, and never for text that doesn't parse.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  SW_QUANTITY_LENGTH, /* 0.01 mm */
  SW_QUANTITY_MASS,   /* g */
  SW_QUANTITY_DRUG,   /* nL */
  SW_QUANTITY_DAY,    /* SwDay, 2026-02-28 */
  SW_QUANTITY_TIME,   /* minute of the day, 08:05 */
  SW_QUANTITY_EXPIRY, /* SwDay, 2027-03-15; 2027-03 means its last day */
  SW_QUANTITY_STRENGTH, /* ug in a mL, entered as mg/mL */
  SW_QUANTITY_WHOLE,  /* whole number from 0 on, without a unit */
  SW_QUANTITY_DECIMAL, /* thousandths, over 0, without a unit: mg of a medicine are ug inside */
  SW_N_QUANTITIES
} SwQuantity;

#define SW_TYPE_QUANTITY_ENTRY (sw_quantity_entry_get_type ())
G_DECLARE_FINAL_TYPE (SwQuantityEntry, sw_quantity_entry, SW, QUANTITY_ENTRY, GtkWidget)

/* Properties: quantity (int, construct only), name (string, construct: what a screen reader says), unit-visible,
 * required. Signals: changed () on every keystroke; accepted (gint64 value) on Enter, when the text parses; left ()
 * when the focus goes. */
GtkWidget *sw_quantity_entry_new (SwQuantity quantity, const char *name);

const char *sw_quantity_entry_get_text (SwQuantityEntry *self);
void sw_quantity_entry_set_text (SwQuantityEntry *self, const char *text);

/* FALSE, with the parser's sentence, while the text is empty or wrong. Shows nothing. */
gboolean sw_quantity_entry_peek (SwQuantityEntry *self, gint64 *value, GError **error);
/* The same and shows the sentence beside the field: for the moment of saving. Empty text is wrong only in a required
 * field; else it gives SW_UNKNOWN and TRUE. */
gboolean sw_quantity_entry_take (SwQuantityEntry *self, gint64 *value);

/* Shows a value in its standard form, SW_UNKNOWN as nothing, and forgets what was typed. */
void sw_quantity_entry_set_value (SwQuantityEntry *self, gint64 value);
/* As set_value, but leaves a field alone that has the focus or text of its own: for what comes from a change signal. */
void sw_quantity_entry_offer_value (SwQuantityEntry *self, gint64 value);
/* Whether the text is other than what was last set. */
gboolean sw_quantity_entry_is_edited (SwQuantityEntry *self);

void sw_quantity_entry_set_required (SwQuantityEntry *self, gboolean required);
/* Refuse with a sentence of one's own; NULL: nothing is wrong. Goes with the next keystroke. */
void sw_quantity_entry_set_error (SwQuantityEntry *self, const char *sentence);
/* Ask without refusing; NULL: nothing to ask. Goes with the next keystroke. */
void sw_quantity_entry_set_question (SwQuantityEntry *self, const char *question);
/* Sentences appear in this label instead of under the field: for the cells of a table. */
void sw_quantity_entry_set_message_label (SwQuantityEntry *self, GtkLabel *label);
void sw_quantity_entry_set_width_chars (SwQuantityEntry *self, int width);
void sw_quantity_entry_set_unit_visible (SwQuantityEntry *self, gboolean visible);
/* What a screen reader calls it; for cells whose name changes. */
void sw_quantity_entry_set_name (SwQuantityEntry *self, const char *name);

/* The entry that holds this widget or is it; NULL: none. */
SwQuantityEntry *sw_quantity_entry_around (GtkWidget *widget);

G_END_DECLS
