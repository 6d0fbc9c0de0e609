/* sw-form.c: aligned rows of labels and fields
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-form.h"

#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

#define ROW_SPACING 6
#define COLUMN_SPACING 12
#define ROWS "sw-form-rows"

GtkWidget *
sw_form_new (void)
{
  GtkWidget *form = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (form), ROW_SPACING);
  gtk_grid_set_column_spacing (GTK_GRID (form), COLUMN_SPACING);
  gtk_widget_add_css_class (form, "form");

  return form;
}

static int
next_row (GtkGrid *form)
{
  int row = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (form), ROWS));

  g_object_set_data (G_OBJECT (form), ROWS, GINT_TO_POINTER (row + 1));
  return row;
}

/* The button inside a drop-down takes the focus, and GTK 4.8 gives it no name. */
void
sw_name_drop_down (GtkWidget *choice, const char *name)
{
  GtkWidget *button = gtk_widget_get_first_child (choice);

  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* A composite field is named at the part that takes the focus; any other by its label, which is its mnemonic too. */
static void
name_field (GtkWidget *field, const char *name)
{
  if (SW_IS_QUANTITY_ENTRY (field))
    sw_quantity_entry_set_name (SW_QUANTITY_ENTRY (field), name);
  else if (GTK_IS_DROP_DOWN (field))
    {
      sw_name_drop_down (field, name);
      gtk_accessible_reset_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL);
    }
}

/* A field of our own has its entry on top and its sentences below: the label keeps to the entry. */
static void
align_label (GtkWidget *words, GtkWidget *field)
{
  g_autoptr (GtkSizeGroup) group = NULL;

  gtk_widget_set_valign (field, GTK_ALIGN_BASELINE);
  gtk_widget_set_valign (words, GTK_ALIGN_BASELINE);
  if (!GTK_IS_BOX_LAYOUT (gtk_widget_get_layout_manager (field)) || GTK_IS_ENTRY (field))
    return;
  group = gtk_size_group_new (GTK_SIZE_GROUP_VERTICAL);
  gtk_size_group_add_widget (group, words);
  gtk_size_group_add_widget (group, gtk_widget_get_first_child (field));
  gtk_widget_set_valign (field, GTK_ALIGN_START);
  gtk_widget_set_valign (words, GTK_ALIGN_START);
}

GtkWidget *
sw_form_add (GtkGrid *form, const char *label, GtkWidget *field)
{
  GtkWidget *words = gtk_label_new_with_mnemonic (label);
  int row = next_row (form);

  gtk_label_set_xalign (GTK_LABEL (words), 1);
  gtk_label_set_mnemonic_widget (GTK_LABEL (words), field);
  align_label (words, field);
  gtk_widget_add_css_class (words, "form-label");
  name_field (field, gtk_label_get_text (GTK_LABEL (words)));
  gtk_grid_attach (form, words, 0, row, 1, 1);
  gtk_grid_attach (form, field, 1, row, 1, 1);

  return words;
}

void
sw_form_add_wide (GtkGrid *form, GtkWidget *widget)
{
  gtk_grid_attach (form, widget, 0, next_row (form), 2, 1);
}

GtkWidget *
sw_form_add_heading (GtkGrid *form, const char *heading)
{
  GtkWidget *label = sw_heading_new (heading);

  sw_form_add_wide (form, label);
  return label;
}

GtkWidget *
sw_heading_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "heading");

  return label;
}

GtkWidget *
sw_quiet_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "quiet");

  return label;
}

GtkWidget *
sw_text_field_new (int width_chars)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), width_chars);
  return entry;
}

GtkWidget *
sw_check_new (const char *label)
{
  return gtk_check_button_new_with_label (label);
}

/* A button with its own label property would be named twice over, mnemonic underscore and all: its child names it
 * instead. */
GtkWidget *
sw_button_new (const char *label)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *words = gtk_label_new_with_mnemonic (label);

  gtk_label_set_mnemonic_widget (GTK_LABEL (words), button);
  gtk_button_set_child (GTK_BUTTON (button), words);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);

  return button;
}

GtkWidget *
sw_primary_button_new (const char *label)
{
  GtkWidget *button = sw_button_new (label);

  gtk_widget_add_css_class (button, "suggested-action");
  return button;
}

GtkWidget *
sw_named_button_new (const char *label, const char *name)
{
  GtkWidget *button = gtk_button_new ();

  gtk_button_set_child (GTK_BUTTON (button), gtk_label_new (label));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);

  return button;
}

GtkWidget *
sw_choice_new (const char *name, const char *none, const char *const *choices)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  GtkWidget *choice;

  if (none != NULL)
    gtk_string_list_append (list, none);
  gtk_string_list_splice (list, none != NULL, 0, choices);
  choice = gtk_drop_down_new (G_LIST_MODEL (list), NULL);
  sw_name_drop_down (choice, name);
  gtk_widget_set_halign (choice, GTK_ALIGN_START);

  return choice;
}

void
sw_choice_set (GtkWidget *choice, gboolean has_none, int chosen)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), has_none ? chosen + 1 : MAX (chosen, 0));
}

int
sw_choice_get (GtkWidget *choice, gboolean has_none)
{
  guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (choice));

  if (selected == GTK_INVALID_LIST_POSITION)
    return -1;
  return has_none ? (int) selected - 1 : (int) selected;
}

char *
sw_field_dup_text (GtkWidget *entry)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  return text[0] != '\0' ? g_steal_pointer (&text) : NULL;
}

GtkWidget *
sw_scrolled_new (GtkWidget *child)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  gtk_accessible_update_property (GTK_ACCESSIBLE (scrolled), GTK_ACCESSIBLE_PROPERTY_LABEL, _("All of this page"), -1);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_AUTOMATIC, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), child);
  gtk_widget_add_css_class (child, "page-body");
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_widget_set_hexpand (scrolled, TRUE);

  return scrolled;
}
