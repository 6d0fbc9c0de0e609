/* sw-form.h: aligned rows of labels and fields, the same on every page
 *
 *        weight  [ 24.6 ] kg
 *       on scale [        ]
 *
 * Labels end where fields begin; a field is named by its label for screen readers and by its mnemonic for the keyboard.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *sw_form_new (void);

/* A new last row. The label may have a mnemonic; it names the field. Returns the label. */
GtkWidget *sw_form_add (GtkGrid *form, const char *label, GtkWidget *field);
/* A row over both columns: a heading, a note, a list. */
void sw_form_add_wide (GtkGrid *form, GtkWidget *widget);
GtkWidget *sw_form_add_heading (GtkGrid *form, const char *heading);

/* Parts of forms. */
GtkWidget *sw_heading_new (const char *text);              /* class "heading" */
GtkWidget *sw_quiet_new (const char *text);                /* a wrapping label in a quieter weight */
GtkWidget *sw_text_field_new (int width_chars);            /* a GtkEntry that Enter never sends off */
/* a check button named by its words: no mnemonic, it would be read out */
GtkWidget *sw_check_new (const char *label);
/* One primary act per page: class suggested-action. Named by its words even with a mnemonic in them. */
GtkWidget *sw_button_new (const char *label);
GtkWidget *sw_primary_button_new (const char *label);
/* A button whose words recur on the page: `name` tells it from its like for screen readers. */
GtkWidget *sw_named_button_new (const char *label, const char *name);
/* The first choice is `none` ("choose ..."), if given: then 0 means nothing is chosen and choice n is n + 1. */
GtkWidget *sw_choice_new (const char *name, const char *none, const char *const *choices);
void sw_choice_set (GtkWidget *choice, gboolean has_none, int chosen); /* -1: none */
int sw_choice_get (GtkWidget *choice, gboolean has_none);              /* -1: none */

/* For drop-downs of templates; sw_choice_new and sw_form_add do it by themselves. */
void sw_name_drop_down (GtkWidget *choice, const char *name);

/* A field's text without blanks at its ends; NULL when nothing is left. (transfer full) */
char *sw_field_dup_text (GtkWidget *entry);

/* A page body that scrolls when it must and keeps its 12 px margins; `child` is the body. */
GtkWidget *sw_scrolled_new (GtkWidget *child);

G_END_DECLS
