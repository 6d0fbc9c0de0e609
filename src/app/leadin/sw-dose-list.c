/* sw-dose-list.c: doses by day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-list-private.h"

#include "sw-dose-row-private.h"
#include "sw-dose-words-private.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

struct _SwDoseList
{
  GtkBox parent_instance;

  /* borrowed */
  GtkWidget *told_by;

  GPtrArray *rows; /* SwDoseRow in the order shown, borrowed from the box */
  SwDay today;     /* as the headings say it */
};

G_DEFINE_FINAL_TYPE (SwDoseList, sw_dose_list, GTK_TYPE_BOX)

/* The next dose that is not told yet takes the focus, so that a call is ticked off with one key. */
static void
told_cb (SwDoseRow *row, SwDoseList *self)
{
  guint first = 0;

  if (!g_ptr_array_find (self->rows, row, &first))
    return;
  for (guint i = first + 1; i < self->rows->len; i++)
    if (sw_dose_row_focus_telling (self->rows->pdata[i]))
      return;
}

static gboolean
shows_same (SwDoseList *self, const GPtrArray *doses, SwDay today)
{
  if (self->rows->len != doses->len || self->today != today)
    return FALSE;
  for (guint i = 0; i < doses->len; i++)
    if (sw_dose_row_get_dose (self->rows->pdata[i]) != ((const SwDosePlan *) doses->pdata[i])->dose)
      return FALSE;
  return TRUE;
}

static void
add_heading (SwDoseList *self, const SwDosePlan *dose, SwDay today)
{
  g_autofree char *day = sw_day_words (dose->due_day);
  g_autofree char *words = dose->due_day == today       ? g_strdup_printf (_("today, %s"), day)
                           : dose->due_day == today - 1 ? g_strdup_printf (_("yesterday, %s"), day)
                                                        : g_strdup (day);
  GtkWidget *label = sw_quiet_new (words);

  gtk_widget_add_css_class (label, "day-heading");
  gtk_box_append (GTK_BOX (self), label);
}

/* Rows of doses that are still shown are used again, with what is typed in them. */
static GtkWidget *
row_for (SwDoseList *self, GPtrArray *old, gint64 dose)
{
  GtkWidget *row;

  for (guint i = 0; i < old->len; i++)
    if (sw_dose_row_get_dose (old->pdata[i]) == dose)
      return old->pdata[i];
  row = sw_dose_row_new (self->told_by);
  g_signal_connect (row, "told", G_CALLBACK (told_cb), self);
  return row;
}

static void
build (SwDoseList *self, const GPtrArray *doses, SwDay today)
{
  g_autoptr (GPtrArray) old = g_ptr_array_new_with_free_func (g_object_unref);
  GtkWidget *child;

  for (guint i = 0; i < self->rows->len; i++)
    g_ptr_array_add (old, g_object_ref (self->rows->pdata[i]));
  g_ptr_array_set_size (self->rows, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_box_remove (GTK_BOX (self), child);
  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      GtkWidget *row = row_for (self, old, dose->dose);

      if (i == 0 || ((const SwDosePlan *) doses->pdata[i - 1])->due_day != dose->due_day)
        add_heading (self, dose, today);
      gtk_box_append (GTK_BOX (self), row);
      g_ptr_array_add (self->rows, row);
    }
  self->today = today;
}

void
sw_dose_list_show (SwDoseList *self, const SwPageContext *context, const GPtrArray *doses, GHashTable *read_only)
{
  SwDay today = sw_page_context_now (context).day;

  if (!shows_same (self, doses, today))
    build (self, doses, today);
  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      gboolean read = read_only != NULL && g_hash_table_contains (read_only, &dose->dose);

      sw_dose_row_show (self->rows->pdata[i], context, dose, read ? SW_DOSE_ROW_READ : SW_DOSE_ROW_TELL);
    }
}

gboolean
sw_dose_list_has_unsaved (SwDoseList *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (sw_dose_row_has_unsaved (self->rows->pdata[i]))
      return TRUE;
  return FALSE;
}

GtkWidget *
sw_dose_list_find (SwDoseList *self, gint64 dose)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (sw_dose_row_get_dose (self->rows->pdata[i]) == dose)
      return self->rows->pdata[i];
  return NULL;
}

static void
sw_dose_list_finalize (GObject *object)
{
  g_ptr_array_unref (SW_DOSE_LIST (object)->rows);
  G_OBJECT_CLASS (sw_dose_list_parent_class)->finalize (object);
}

static void
sw_dose_list_class_init (SwDoseListClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_dose_list_finalize;
  gtk_widget_class_set_css_name (widget_class, "doselist");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_dose_list_init (SwDoseList *self)
{
  self->rows = g_ptr_array_new ();
  self->today = SW_NO_DAY;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 3);
}

GtkWidget *
sw_dose_list_new (GtkWidget *told_by)
{
  SwDoseList *self = g_object_new (SW_TYPE_DOSE_LIST, NULL);

  self->told_by = told_by;
  return GTK_WIDGET (self);
}
