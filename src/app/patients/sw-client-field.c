/* sw-client-field.c: choose a client who is registered already, or enter a new one
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-client-field.h"

#include "sw-form.h"
#include "sw-perform.h"

#include <glib/gi18n-lib.h>

#define MOST_OFFERS 5

struct _SwClientField
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *form;
  GtkWidget *name;
  GtkWidget *offers;
  GtkWidget *phone;
  GtkWidget *other_phone;
  GtkWidget *address;
  GtkWidget *another;

  /* owned */
  SwRecord *record;
  GCancellable *searching;

  gint64 chosen;
  guint offering : 1; /* clients are offered for what is typed */
};

G_DEFINE_FINAL_TYPE (SwClientField, sw_client_field, GTK_TYPE_WIDGET)

static void
set_text (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text != NULL ? text : "");
}

static void
clear_offers (SwClientField *self)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (self->offers)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->offers), row);
  gtk_widget_set_visible (self->offers, FALSE);
}

static void
set_chosen (SwClientField *self, gint64 client)
{
  self->chosen = client;
  gtk_widget_set_sensitive (self->name, client == 0);
  gtk_widget_set_sensitive (self->phone, client == 0);
  gtk_widget_set_sensitive (self->other_phone, client == 0);
  gtk_widget_set_sensitive (self->address, client == 0);
  gtk_widget_set_visible (self->another, client != 0);
  clear_offers (self);
}

static void
offer (SwClientField *self, const SwClientRow *client)
{
  g_autofree char *words = client->phone != NULL ? g_strdup_printf ("%s, %s", client->name,
                                                                    client->phone) : g_strdup (client->name);
  GtkWidget *label = gtk_label_new (words);
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  g_object_set_data_full (G_OBJECT (row), "sw-client", g_memdup2 (&client->client, sizeof client->client), g_free);
  g_object_set_data_full (G_OBJECT (row), "sw-name", g_strdup (client->name), g_free);
  g_object_set_data_full (G_OBJECT (row), "sw-phone", g_strdup (client->phone), g_free);
  gtk_list_box_append (GTK_LIST_BOX (self->offers), row);
}

static void
found_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwClientField) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) clients = sw_record_find_clients_finish (SW_RECORD (source), result, &error);

  if (self->record == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  clear_offers (self);
  if (clients == NULL)
    {
      sw_trouble_error (GTK_WIDGET (self), error);
      return;
    }
  for (guint i = 0; i < clients->len; i++)
    offer (self, clients->pdata[i]);
  gtk_widget_set_visible (self->offers, clients->len > 0 && self->chosen == 0);
}

static void
name_changed_cb (GtkEditable *editable, SwClientField *self)
{
  g_autofree char *text = sw_field_dup_text (self->name);

  if (!self->offering || self->chosen != 0)
    return;
  g_cancellable_cancel (self->searching);
  g_set_object (&self->searching, NULL);
  if (text == NULL)
    {
      clear_offers (self);
      return;
    }
  self->searching = g_cancellable_new ();
  sw_record_find_clients_async (self->record, text, MOST_OFFERS, self->searching, found_cb, g_object_ref (self));
}

static void
row_activated_cb (GtkListBox *offers, GtkListBoxRow *row, SwClientField *self)
{
  const gint64 *client = g_object_get_data (G_OBJECT (row), "sw-client");
  g_autofree char *name = g_strdup (g_object_get_data (G_OBJECT (row), "sw-name"));
  g_autofree char *phone = g_strdup (g_object_get_data (G_OBJECT (row), "sw-phone"));

  set_chosen (self, *client);
  set_text (self->name, name);
  set_text (self->phone, phone);
  gtk_widget_grab_focus (self->another);
}

static void
another_cb (GtkButton *button, SwClientField *self)
{
  set_chosen (self, 0);
  set_text (self->name, NULL);
  set_text (self->phone, NULL);
  gtk_widget_grab_focus (self->name);
}

static void
sw_client_field_dispose (GObject *object)
{
  SwClientField *self = SW_CLIENT_FIELD (object);

  g_cancellable_cancel (self->searching);
  g_clear_object (&self->searching);
  g_clear_object (&self->record);
  g_clear_pointer (&self->form, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_client_field_parent_class)->dispose (object);
}

static void
sw_client_field_class_init (SwClientFieldClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_client_field_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_client_field_init (SwClientField *self)
{
  self->form = sw_form_new ();
  self->name = sw_text_field_new (28);
  self->offers = gtk_list_box_new ();
  self->phone = sw_text_field_new (20);
  self->other_phone = sw_text_field_new (20);
  self->address = sw_text_field_new (28);
  self->another = sw_button_new (_("_Another Client"));
  self->offering = TRUE;
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->offers), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->offers, "boxed");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->offers), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Registered clients"),
                                  -1);
  gtk_widget_set_halign (self->another, GTK_ALIGN_START);
  sw_form_add (GTK_GRID (self->form), _("_client"), self->name);
  sw_form_add_wide (GTK_GRID (self->form), self->offers);
  sw_form_add_wide (GTK_GRID (self->form), self->another);
  sw_form_add (GTK_GRID (self->form), _("_telephone"), self->phone);
  sw_form_add (GTK_GRID (self->form), _("other tele_phone"), self->other_phone);
  sw_form_add (GTK_GRID (self->form), _("_address"), self->address);
  gtk_widget_set_parent (self->form, GTK_WIDGET (self));
  set_chosen (self, 0);
  g_signal_connect (self->name, "changed", G_CALLBACK (name_changed_cb), self);
  g_signal_connect (self->offers, "row-activated", G_CALLBACK (row_activated_cb), self);
  g_signal_connect (self->another, "clicked", G_CALLBACK (another_cb), self);
}

GtkWidget *
sw_client_field_new (SwRecord *record)
{
  SwClientField *self = g_object_new (SW_TYPE_CLIENT_FIELD, NULL);

  self->record = g_object_ref (record);
  return GTK_WIDGET (self);
}

void
sw_client_field_set_details (SwClientField *self, const SwClientDetails *details)
{
  self->offering = FALSE;
  set_text (self->name, details->name);
  set_text (self->phone, details->phone);
  set_text (self->other_phone, details->other_phone);
  set_text (self->address, details->address);
}

SwClientDetails *
sw_client_field_make_details (SwClientField *self)
{
  SwClientDetails *details;

  if (self->chosen != 0 || !sw_client_field_is_filled (self))
    return NULL;
  details = sw_new (SW_FACT_CLIENT_DETAILS, SwClientDetails);
  details->name = sw_field_dup_text (self->name);
  details->phone = sw_field_dup_text (self->phone);
  details->other_phone = sw_field_dup_text (self->other_phone);
  details->address = sw_field_dup_text (self->address);

  return details;
}

gint64
sw_client_field_get_chosen (SwClientField *self)
{
  return self->chosen;
}

gboolean
sw_client_field_is_filled (SwClientField *self)
{
  g_autofree char *name = sw_field_dup_text (self->name);

  return self->chosen != 0 || name != NULL;
}
