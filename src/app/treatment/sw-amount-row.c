/* sw-amount-row.c: what was drawn for and given into one tumour
 *
 *   tumour A, left hock   drawn [ 0.85 ] mL   given [ 0.85 ] mL   why less [            ]
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-amount-row-private.h"

#include "sw-form.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

struct _SwAmountRow
{
  GtkWidget parent_instance;

  /* children */
  SwQuantityEntry *drawn;
  SwQuantityEntry *given;
  GtkWidget *reason;

  gint64 tumour;
};

G_DEFINE_FINAL_TYPE (SwAmountRow, sw_amount_row, GTK_TYPE_WIDGET)

static void
sw_amount_row_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_amount_row_parent_class)->dispose (object);
}

static void
sw_amount_row_class_init (SwAmountRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_amount_row_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "amountrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_amount_row_init (SwAmountRow *self)
{
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))), 9);
}

static void
put (SwAmountRow *self, const char *words, GtkWidget *field)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_widget_add_css_class (label, "form-label");
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  gtk_widget_set_valign (field, GTK_ALIGN_BASELINE);
  gtk_widget_set_parent (label, GTK_WIDGET (self));
  gtk_widget_set_parent (field, GTK_WIDGET (self));
}

GtkWidget *
sw_amount_row_new (gint64 tumour, const char *name)
{
  SwAmountRow *self = g_object_new (SW_TYPE_AMOUNT_ROW, NULL);
  g_autofree char *drawn = g_strdup_printf (_("drawn for %s"), name);
  g_autofree char *given = g_strdup_printf (_("given into %s"), name);
  g_autofree char *reason = g_strdup_printf (_("why less was given into %s"), name);
  GtkWidget *label = gtk_label_new (name);

  self->tumour = tumour;
  self->drawn = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DRUG, drawn));
  self->given = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DRUG, given));
  self->reason = sw_text_field_new (18);
  gtk_widget_set_hexpand (self->reason, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->reason), GTK_ACCESSIBLE_PROPERTY_LABEL, reason, -1);
  sw_quantity_entry_set_required (self->drawn, TRUE);
  sw_quantity_entry_set_required (self->given, TRUE);
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  gtk_widget_set_parent (label, GTK_WIDGET (self));
  put (self, _("drawn"), GTK_WIDGET (self->drawn));
  put (self, _("given"), GTK_WIDGET (self->given));
  put (self, _("if less, why"), self->reason);

  return GTK_WIDGET (self);
}

gint64
sw_amount_row_get_tumour (SwAmountRow *self)
{
  return self->tumour;
}

void
sw_amount_row_offer (SwAmountRow *self, gint64 released_nl)
{
  sw_quantity_entry_offer_value (self->drawn, released_nl);
}

gboolean
sw_amount_row_is_blank (SwAmountRow *self)
{
  g_autofree char *reason = sw_field_dup_text (self->reason);

  return !sw_quantity_entry_is_edited (self->drawn) && sw_quantity_entry_get_text (self->given)[0] == '\0'
         && reason == NULL;
}

SwInjectionTumour *
sw_amount_row_make (SwAmountRow *self)
{
  SwQuantityEntry *const entries[] = { self->drawn, self->given };
  gint64 nl[G_N_ELEMENTS (entries)];
  SwInjectionTumour *row;

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    if (!sw_quantity_entry_take (entries[i], &nl[i]))
      {
        gtk_widget_grab_focus (GTK_WIDGET (entries[i]));
        return NULL;
      }
  row = sw_new (SW_FACT_INJECTION_TUMOUR, SwInjectionTumour);
  row->tumour = self->tumour;
  row->drawn_nl = nl[0];
  row->given_nl = nl[1];
  row->reason = sw_field_dup_text (self->reason);

  return row;
}
