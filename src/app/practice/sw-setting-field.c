/* sw-setting-field.c: one setting of the practice as a field
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-setting-field.h"

#include "sw-form.h"

struct _SwSettingField
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *entry;
  GtkWidget *message;

  /* owned */
  char *key;
  char *otherwise;
  char *shown; /* as last set */

  SwSettingParse parse;
  SwSettingFormat format;
  gint64 limit;
};

G_DEFINE_FINAL_TYPE (SwSettingField, sw_setting_field, GTK_TYPE_WIDGET)

static void
show_message (SwSettingField *self, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (self->message), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->message, sentence != NULL);
  if (sentence != NULL)
    gtk_widget_add_css_class (self->entry, "error");
  else
    gtk_widget_remove_css_class (self->entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               sentence != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

static void
changed_cb (GtkEditable *editable, SwSettingField *self)
{
  show_message (self, NULL);
}

static gboolean
sw_setting_field_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (SW_SETTING_FIELD (widget)->entry);
}

static void
sw_setting_field_dispose (GObject *object)
{
  SwSettingField *self = SW_SETTING_FIELD (object);

  g_clear_pointer (&self->entry, gtk_widget_unparent);
  g_clear_pointer (&self->message, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_setting_field_parent_class)->dispose (object);
}

static void
sw_setting_field_finalize (GObject *object)
{
  SwSettingField *self = SW_SETTING_FIELD (object);

  g_free (self->key);
  g_free (self->otherwise);
  g_free (self->shown);
  G_OBJECT_CLASS (sw_setting_field_parent_class)->finalize (object);
}

static void
sw_setting_field_class_init (SwSettingFieldClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_setting_field_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_setting_field_finalize;
  GTK_WIDGET_CLASS (class)->grab_focus = sw_setting_field_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BOX_LAYOUT);
}

static void
sw_setting_field_init (SwSettingField *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  self->entry = sw_text_field_new (0);
  self->message = gtk_label_new (NULL);
  self->shown = g_strdup ("");
  gtk_widget_set_halign (self->entry, GTK_ALIGN_START);
  gtk_widget_add_css_class (self->message, "field-message");
  gtk_label_set_wrap (GTK_LABEL (self->message), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->message), 0);
  gtk_widget_set_visible (self->message, FALSE);
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  gtk_widget_set_parent (self->message, GTK_WIDGET (self));
  g_signal_connect (self->entry, "changed", G_CALLBACK (changed_cb), self);
}

GtkWidget *
sw_setting_field_new (const char *key, const char *name, const char *otherwise, gint64 limit, SwSettingParse parse,
                      SwSettingFormat format, int width_chars)
{
  SwSettingField *self = g_object_new (SW_TYPE_SETTING_FIELD, NULL);

  self->key = g_strdup (key);
  self->otherwise = g_strdup (otherwise);
  self->limit = limit;
  self->parse = parse;
  self->format = format;
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), width_chars);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);

  return GTK_WIDGET (self);
}

static const char *
typed (SwSettingField *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

static const char *
kept (SwSettingField *self, const SwPractice *practice)
{
  const char *setting = sw_practice_setting (practice, self->key);

  return setting != NULL ? setting : self->otherwise;
}

void
sw_setting_field_show (SwSettingField *self, const SwPractice *practice)
{
  if (!g_str_equal (typed (self), self->shown))
    return;
  g_free (self->shown);
  self->shown = self->format (kept (self, practice));
  gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
}

static SwSetting *
new_row (SwSettingField *self, const SwPractice *practice)
{
  SwSetting *row = sw_new (SW_FACT_SETTING, SwSetting);
  const SwSetting *tip;

  row->key = g_strdup (self->key);
  tip = sw_facts_tip_like (&practice->facts, row);
  if (tip == NULL)
    return row;
  sw_fact_free (row);
  row = sw_fact_correction (tip);
  g_clear_pointer (&row->value, g_free);

  return row;
}

gboolean
sw_setting_field_add (SwSettingField *self, const SwPractice *practice, SwRequest *request)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *value = self->parse (typed (self), self->limit, &error);
  SwSetting *row;

  if (value == NULL)
    {
      show_message (self, error->message);
      gtk_widget_grab_focus (self->entry);
      return FALSE;
    }
  if (g_str_equal (value, kept (self, practice)))
    return TRUE;
  row = new_row (self, practice);
  row->value = g_steal_pointer (&value);
  sw_request_add (request, row);

  return TRUE;
}

void
sw_setting_field_taken (SwSettingField *self)
{
  g_free (self->shown);
  self->shown = g_strdup (typed (self));
}
