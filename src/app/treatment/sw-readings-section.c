/* sw-readings-section.c: caliper readings of the treatment day
 *
 * Tables are kept by tumour. One with unsent text outlives a change of patient: it is shown again, with its reader,
 * when the dog is.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-readings-section-private.h"

#include "sw-form.h"
#include "sw-people-choice.h"
#include "sw-reading-table-private.h"

#include <glib/gi18n-lib.h>

struct _SwReadingsSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *heading;
  GtkWidget *tumours; /* a box of toggle buttons; hidden for one tumour */
  GtkWidget *reading; /* the line of the reader */
  SwPeopleChoice *reader;
  GtkStack *stack;

  GHashTable *tables; /* gint64 * tumour -> SwReadingTable, owned */
};

G_DEFINE_FINAL_TYPE (SwReadingsSection, sw_readings_section, SW_TYPE_TREATMENT_SECTION)

static SwReadingTable *
shown_table (SwReadingsSection *self)
{
  GtkWidget *table = gtk_stack_get_visible_child (self->stack);

  return table != NULL ? SW_READING_TABLE (table) : NULL;
}

static void
tell_reader (SwReadingsSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  gint64 person = sw_people_choice_get (self->reader);
  GtkWidget *table;

  if (context == NULL)
    return;
  for (table = gtk_widget_get_first_child (GTK_WIDGET (self->stack)); table != NULL;
       table = gtk_widget_get_next_sibling (table))
    sw_reading_table_set_reader (SW_READING_TABLE (table), person,
                                 sw_practice_person_name (sw_page_context_practice (context), person));
}

static void
reader_changed_cb (SwPeopleChoice *choice, SwReadingsSection *self)
{
  tell_reader (self);
}

/* --- the switch --- */

static void
show_heading (SwReadingsSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  SwReadingTable *table = shown_table (self);
  g_autofree char *name = NULL, *heading = NULL;

  if (table == NULL || context == NULL)
    return;
  name = sw_treatment_tumour_name (context, sw_reading_table_get_tumour (table));
  heading = g_strdup_printf (_("Caliper readings, %s"), name);
  gtk_label_set_text (GTK_LABEL (self->heading), heading);
}

static void
tumour_toggled_cb (GtkToggleButton *button, GtkWidget *table)
{
  GtkWidget *stack = gtk_widget_get_parent (table);

  if (!gtk_toggle_button_get_active (button) || stack == NULL)
    return;
  gtk_stack_set_visible_child (GTK_STACK (stack), table);
  show_heading (SW_READINGS_SECTION (gtk_widget_get_ancestor (stack, SW_TYPE_READINGS_SECTION)));
}

static void
add_switch (SwReadingsSection *self, const SwPageContext *context, GtkWidget *table)
{
  GtkWidget *first = gtk_widget_get_first_child (self->tumours);
  GtkWidget *button = gtk_toggle_button_new ();
  g_autofree char *name = sw_treatment_tumour_name (context, sw_reading_table_get_tumour (SW_READING_TABLE (table)));
  g_autofree char *spoken = g_strdup_printf (_("Readings of %s"), name);

  gtk_button_set_child (GTK_BUTTON (button), gtk_label_new (name));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  if (first != NULL)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (first));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), first == NULL);
  g_object_set_data (G_OBJECT (table), "sw-switch", button);
  g_signal_connect_object (button, "toggled", G_CALLBACK (tumour_toggled_cb), table, 0);
  gtk_box_append (GTK_BOX (self->tumours), button);
}

gboolean
sw_readings_section_show_tumour (SwReadingsSection *self, gint64 tumour)
{
  GtkWidget *table = g_hash_table_lookup (self->tables, &tumour);

  if (table == NULL || gtk_widget_get_parent (table) != GTK_WIDGET (self->stack))
    return FALSE;
  gtk_toggle_button_set_active (g_object_get_data (G_OBJECT (table), "sw-switch"), TRUE);
  return TRUE;
}

/* --- tables --- */

static SwReadingTable *
table_of (SwReadingsSection *self, const SwPageContext *context, gint64 tumour)
{
  const SwTumourDetails *details = sw_dossier_tumour (context->dossier, tumour);
  SwReadingTable *table = g_hash_table_lookup (self->tables, &tumour);
  g_autofree char *letter = NULL;

  if (table != NULL)
    return table;
  letter = details != NULL ? sw_tumour_letter (details->letter) : g_strdup ("?");
  table = SW_READING_TABLE (sw_reading_table_new (tumour, letter));
  g_hash_table_insert (self->tables, g_memdup2 (&tumour, sizeof tumour), g_object_ref_sink (table));

  return table;
}

static gboolean
is_shown_for (SwReadingsSection *self, GArray *tumours)
{
  GtkWidget *table = gtk_widget_get_first_child (GTK_WIDGET (self->stack));

  for (guint i = 0; i < tumours->len; i++, table = gtk_widget_get_next_sibling (table))
    if (table == NULL || sw_reading_table_get_tumour (SW_READING_TABLE (table)) != g_array_index (tumours, gint64, i))
      return FALSE;
  return table == NULL;
}

static gboolean
is_spare (gpointer tumour, gpointer table, gpointer stack)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (table);

  return gtk_widget_get_parent (table) != stack && !SW_TREATMENT_SECTION_GET_CLASS (section)->has_unsaved (section);
}

static void
remove_children (GtkWidget *container, void (*remove) (GtkWidget *container, GtkWidget *child))
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (container)) != NULL)
    remove (container, child);
}

static void
remove_from_box (GtkWidget *box, GtkWidget *child)
{
  gtk_box_remove (GTK_BOX (box), child);
}

static void
remove_from_stack (GtkWidget *stack, GtkWidget *child)
{
  gtk_stack_remove (GTK_STACK (stack), child);
}

static void
lay_out (SwReadingsSection *self, const SwPageContext *context, GArray *tumours)
{
  remove_children (self->tumours, remove_from_box);
  remove_children (GTK_WIDGET (self->stack), remove_from_stack);
  for (guint i = 0; i < tumours->len; i++)
    {
      SwReadingTable *table = table_of (self, context, g_array_index (tumours, gint64, i));

      gtk_stack_add_child (self->stack, GTK_WIDGET (table));
      add_switch (self, context, GTK_WIDGET (table));
    }
  gtk_widget_set_visible (self->tumours, tumours->len > 1);
  g_hash_table_foreach_remove (self->tables, is_spare, self->stack);
}

static void
sw_readings_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwReadingsSection *self = SW_READINGS_SECTION (section);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, context->course);
  GtkWidget *table;

  sw_people_choice_update (self->reader, sw_page_context_practice (context));
  if ((changes & SW_CHANGED_SUBJECT) || sw_people_choice_get (self->reader) == 0)
    sw_people_choice_set (self->reader, context->person);
  if (!is_shown_for (self, tumours))
    lay_out (self, context, tumours);
  tell_reader (self);
  for (table = gtk_widget_get_first_child (GTK_WIDGET (self->stack)); table != NULL;
       table = gtk_widget_get_next_sibling (table))
    SW_TREATMENT_SECTION_GET_CLASS (table)->update (SW_TREATMENT_SECTION (table), context, changes);
  gtk_widget_set_visible (self->reading, sw_treatment_release (context) == NULL);
  show_heading (self);
}

static gboolean
sw_readings_section_has_unsaved (SwTreatmentSection *section)
{
  SwReadingsSection *self = SW_READINGS_SECTION (section);
  GtkWidget *table;

  for (table = gtk_widget_get_first_child (GTK_WIDGET (self->stack)); table != NULL;
       table = gtk_widget_get_next_sibling (table))
    if (SW_TREATMENT_SECTION_GET_CLASS (table)->has_unsaved (SW_TREATMENT_SECTION (table)))
      return TRUE;
  return FALSE;
}

/* Of the tumour that is shown. */
static GtkWidget *
sw_readings_section_first_empty_cell (SwTreatmentSection *section)
{
  SwReadingTable *table = shown_table (SW_READINGS_SECTION (section));

  return table != NULL ? SW_TREATMENT_SECTION_GET_CLASS (table)->first_empty_cell (SW_TREATMENT_SECTION (table)) : NULL;
}

static GtkWidget *
sw_readings_section_cure_of (SwTreatmentSection *section, const SwFinding *finding)
{
  SwReadingsSection *self = SW_READINGS_SECTION (section);
  GtkWidget *table = g_hash_table_lookup (self->tables, &finding->tumour);

  return table != NULL ? SW_TREATMENT_SECTION_GET_CLASS (table)->cure_of (SW_TREATMENT_SECTION (table), finding) : NULL;
}

static void
sw_readings_section_dispose (GObject *object)
{
  SwReadingsSection *self = SW_READINGS_SECTION (object);

  if (self->tables != NULL)
    g_hash_table_remove_all (self->tables);
  G_OBJECT_CLASS (sw_readings_section_parent_class)->dispose (object);
}

static void
sw_readings_section_finalize (GObject *object)
{
  g_hash_table_unref (SW_READINGS_SECTION (object)->tables);
  G_OBJECT_CLASS (sw_readings_section_parent_class)->finalize (object);
}

static void
sw_readings_section_class_init (SwReadingsSectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_readings_section_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_readings_section_finalize;
  section_class->update = sw_readings_section_update;
  section_class->has_unsaved = sw_readings_section_has_unsaved;
  section_class->first_empty_cell = sw_readings_section_first_empty_cell;
  section_class->cure_of = sw_readings_section_cure_of;
}

static void
sw_readings_section_init (SwReadingsSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *words = gtk_label_new (_("next reading by"));

  self->tables = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_object_unref);
  self->heading = sw_treatment_section_set_heading (section, _("Caliper readings"));
  self->tumours = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (self->tumours, "linked");
  self->stack = GTK_STACK (gtk_stack_new ());
  self->reader = SW_PEOPLE_CHOICE (sw_people_choice_new (_("next reading by"), NULL));
  gtk_widget_add_css_class (words, "form-label");
  self->reading = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_box_append (GTK_BOX (self->reading), words);
  gtk_box_append (GTK_BOX (self->reading), GTK_WIDGET (self->reader));
  sw_treatment_section_append (section, self->tumours);
  sw_treatment_section_append (section, GTK_WIDGET (self->stack));
  sw_treatment_section_append (section, self->reading);
  g_signal_connect (self->reader, "changed", G_CALLBACK (reader_changed_cb), self);
}
