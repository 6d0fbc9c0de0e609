/* sw-vial-row.c: one vial as it was read, opened and disposed of
 *
 *   vial 1   lot [ 7K214 ]  good until [ 2027-03 ]  agent [ … ]  strength [ 1 ] mg/mL
 *            left over [ 1.15 ] mL  [ ] nothing left   disposal [ cytotoxic waste ]  witness [ Tomas v ]
 *
 * Agent and strength are read from the vial: nothing is filled in from the protocol, or the check would check itself.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-vial-row-private.h"

#include "sw-form.h"
#include "sw-people-choice.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

struct _SwVialRow
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *lot;
  SwQuantityEntry *expiry;
  GtkWidget *agent;
  SwQuantityEntry *strength;
  SwQuantityEntry *left;
  GtkWidget *nothing_left;
  GtkWidget *disposal;
  SwPeopleChoice *witness;
  GtkWidget *message;
};

G_DEFINE_FINAL_TYPE (SwVialRow, sw_vial_row, GTK_TYPE_WIDGET)

static gboolean
is_empty (GtkWidget *entry)
{
  g_autofree char *text = sw_field_dup_text (entry);

  return text == NULL;
}

gboolean
sw_vial_row_is_blank (SwVialRow *self)
{
  return is_empty (self->lot) && is_empty (self->agent) && is_empty (self->disposal)
         && sw_quantity_entry_get_text (self->expiry)[0] == '\0'
         && sw_quantity_entry_get_text (self->strength)[0] == '\0'
         && sw_quantity_entry_get_text (self->left)[0] == '\0';
}

static gboolean
complain (SwVialRow *self, GtkWidget *field, const char *sentence)
{
  if (sentence != NULL)
    gtk_label_set_text (GTK_LABEL (self->message), sentence);
  gtk_widget_set_visible (self->message, sentence != NULL);
  gtk_widget_grab_focus (field);
  return FALSE;
}

static gboolean
take (SwVialRow *self, SwQuantityEntry *entry, gint64 *value)
{
  return sw_quantity_entry_take (entry, value) || complain (self, GTK_WIDGET (entry), NULL);
}

static gboolean
take_left (SwVialRow *self, gint64 *nl)
{
  if (!gtk_check_button_get_active (GTK_CHECK_BUTTON (self->nothing_left)))
    return take (self, self->left, nl);
  *nl = 0;
  return TRUE;
}

static gboolean
is_complete (SwVialRow *self)
{
  if (is_empty (self->lot))
    return complain (self, self->lot, _("The lot is missing: read it from the vial."));
  if (is_empty (self->agent))
    return complain (self, self->agent, _("The agent is missing: read it from the vial."));
  return TRUE;
}

SwVial *
sw_vial_row_make (SwVialRow *self)
{
  SwVial *vial;
  gint64 expiry, strength, left;

  gtk_widget_set_visible (self->message, FALSE);
  if (!is_complete (self) || !take (self, self->expiry, &expiry) || !take (self, self->strength, &strength)
      || !take_left (self, &left))
    return NULL;
  vial = sw_new (SW_FACT_VIAL, SwVial);
  vial->lot = sw_field_dup_text (self->lot);
  vial->expiry = expiry;
  vial->agent = sw_field_dup_text (self->agent);
  vial->strength_ug_ml = strength;
  vial->left_nl = left;
  vial->disposal = sw_field_dup_text (self->disposal);
  vial->witness = sw_people_choice_get (self->witness);

  return vial;
}

void
sw_vial_row_update (SwVialRow *self, const SwPractice *practice)
{
  sw_people_choice_update (self->witness, practice);
}

static void
nothing_left_cb (GtkCheckButton *button, SwVialRow *self)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self->left), !gtk_check_button_get_active (button));
}

static void
sw_vial_row_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_vial_row_parent_class)->dispose (object);
}

static void
sw_vial_row_class_init (SwVialRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_vial_row_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "vialrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_vial_row_init (SwVialRow *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
}

/* Words in front of a field, which is named "vial 1: lot". */
static void
put (GtkWidget *line, guint number, const char *words, GtkWidget *field)
{
  g_autofree char *name = g_strdup_printf (_("vial %u: %s"), number, words);
  GtkWidget *label = gtk_label_new (words);

  gtk_widget_add_css_class (label, "form-label");
  if (SW_IS_QUANTITY_ENTRY (field))
    {
      sw_quantity_entry_set_name (SW_QUANTITY_ENTRY (field), name);
      sw_quantity_entry_set_required (SW_QUANTITY_ENTRY (field), TRUE);
    }
  else if (GTK_IS_ENTRY (field))
    gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_valign (field, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), field);
}

static GtkWidget *
narrow_entry (int width)
{
  GtkWidget *entry = sw_text_field_new (width);

  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), width);
  return entry;
}

static void
make_lines (SwVialRow *self, guint number, GtkWidget *first, GtkWidget *second)
{
  g_autofree char *witness = g_strdup_printf (_("vial %u: witness of the disposal"), number);
  g_autofree char *nothing = g_strdup_printf (_("vial %u: nothing left"), number);

  self->lot = narrow_entry (8);
  self->expiry = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_EXPIRY, NULL));
  self->agent = narrow_entry (16);
  self->strength = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_STRENGTH, NULL));
  self->left = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DRUG, NULL));
  self->nothing_left = sw_check_new (_("nothing left"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->nothing_left), GTK_ACCESSIBLE_PROPERTY_LABEL, nothing, -1);
  self->disposal = sw_text_field_new (14);
  self->witness = SW_PEOPLE_CHOICE (sw_people_choice_new (witness, _("nobody")));
  put (first, number, _("lot"), self->lot);
  put (first, number, _("good until"), GTK_WIDGET (self->expiry));
  put (first, number, _("agent"), self->agent);
  put (first, number, _("strength"), GTK_WIDGET (self->strength));
  put (second, number, _("left over"), GTK_WIDGET (self->left));
  gtk_box_append (GTK_BOX (second), self->nothing_left);
  put (second, number, _("disposal"), self->disposal);
  put (second, number, _("witness"), GTK_WIDGET (self->witness));
}

GtkWidget *
sw_vial_row_new (guint number)
{
  SwVialRow *self = g_object_new (SW_TYPE_VIAL_ROW, NULL);
  GtkWidget *first = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *second = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  g_autofree char *name = g_strdup_printf (_("vial %u"), number);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_box_append (GTK_BOX (first), sw_heading_new (name));
  make_lines (self, number, first, second);
  self->message = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->message), 0);
  gtk_widget_add_css_class (self->message, "field-message");
  gtk_widget_set_visible (self->message, FALSE);
  gtk_widget_set_parent (first, GTK_WIDGET (self));
  gtk_widget_set_parent (second, GTK_WIDGET (self));
  gtk_widget_set_parent (self->message, GTK_WIDGET (self));
  g_signal_connect (self->nothing_left, "toggled", G_CALLBACK (nothing_left_cb), self);

  return GTK_WIDGET (self);
}
