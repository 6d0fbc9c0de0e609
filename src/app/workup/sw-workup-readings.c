/* sw-workup-readings.c: caliper readings of one tumour before a treatment day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-readings.h"

#include "sw-form.h"
#include "sw-plausible.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

#define AXES 3
#define LINES 6 /* the newest readings; the log has them all */

struct _SwWorkUpReadings
{
  GtkWidget parent_instance;

  SwWorkUpSection *section; /* borrowed: an ancestor */
  GtkWidget *box;
  GtkBox *lines;
  SwQuantityEntry *cells[AXES];
  GtkWidget *message;
  GtkWidget *record;
  gint64 tumour;
  char *named;
  gint64 last[AXES]; /* the newest reading, for the question about a unit slip */
  guint sending : 1;
};

G_DEFINE_FINAL_TYPE (SwWorkUpReadings, sw_workup_readings, GTK_TYPE_WIDGET)

static const char *const axis_names[AXES] = { N_("length"), N_("width"), N_("height") };

/* --- the next reading --- */

static void
recorded_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwWorkUpReadings *self = data;

  self->sending = FALSE;
  if (reply == NULL || !reply->done)
    return;
  for (int i = 0; i < AXES; i++)
    sw_quantity_entry_set_value (self->cells[i], SW_UNKNOWN);
  gtk_widget_grab_focus (GTK_WIDGET (self->cells[0]));
}

static gboolean
take_cells (SwWorkUpReadings *self, gint64 axes[AXES])
{
  for (int i = 0; i < AXES; i++)
    if (!sw_quantity_entry_take (self->cells[i], &axes[i]))
      {
        gtk_widget_grab_focus (GTK_WIDGET (self->cells[i]));
        return FALSE;
      }
  return TRUE;
}

static SwReading *
make_reading (SwWorkUpReadings *self, const SwPageContext *context, const gint64 axes[AXES])
{
  SwMoment now = sw_page_context_now (context);
  SwReading *reading = sw_new (SW_FACT_READING, SwReading);

  reading->course = context->course;
  reading->tumour = self->tumour;
  reading->day = now.day;
  reading->minute = now.minute;
  reading->axis1 = axes[0];
  reading->axis2 = axes[1];
  reading->axis3 = axes[2];
  reading->typed = g_strdup_printf ("%s x %s x %s", sw_quantity_entry_get_text (self->cells[0]),
                                    sw_quantity_entry_get_text (self->cells[1]), sw_quantity_entry_get_text (self->cells[2]));
  return reading;
}

static void
record_cb (SwWorkUpReadings *self)
{
  gint64 axes[AXES];
  SwRequest *request;

  if (self->sending || !take_cells (self, axes))
    return;
  request = sw_workup_section_request (self->section, SW_ACT_RECORD_READING);
  sw_request_add (request, make_reading (self, sw_workup_section_get_context (self->section), axes));
  self->sending = TRUE;
  sw_workup_section_perform (self->section, request, recorded_cb, self);
}

static int
index_of (const SwWorkUpReadings *self, const SwQuantityEntry *cell)
{
  for (int i = 0; i < AXES; i++)
    if (self->cells[i] == cell)
      return i;
  g_return_val_if_reached (0);
}

/* Enter goes on to the next axis; the last one records. */
static void
accepted_cb (SwQuantityEntry *cell, gint64 value, SwWorkUpReadings *self)
{
  int next = index_of (self, cell) + 1;

  if (next < AXES)
    gtk_widget_grab_focus (GTK_WIDGET (self->cells[next]));
  else
    record_cb (self);
}

static void
changed_cb (SwQuantityEntry *cell, SwWorkUpReadings *self)
{
  gint64 last = self->last[index_of (self, cell)], value;
  g_autofree char *mm = NULL, *question = NULL;

  if (last == SW_UNKNOWN || !sw_quantity_entry_peek (cell, &value, NULL) || sw_plausible_value (value, last) == SW_PLAUSIBLE)
    return;
  mm = sw_length_format (last);
  question = g_strdup_printf (_("The last reading was %s mm: is the unit right?"), mm);
  sw_quantity_entry_set_question (cell, question);
}

/* --- readings on record --- */

static void
take_back_cb (GtkButton *button, SwWorkUpReadings *self)
{
  const SwDossier *dossier = sw_workup_section_get_context (self->section)->dossier;
  const gint64 *id = g_object_get_data (G_OBJECT (button), "sw-reading");
  const SwReading *reading = sw_facts_by_id (&dossier->facts, SW_FACT_READING, *id);
  SwRequest *request;

  if (reading == NULL || !sw_fact_is_current (reading))
    return;
  request = sw_workup_section_request (self->section, SW_ACT_RECORD_READING);
  sw_request_add (request, sw_fact_withdrawal (reading));
  sw_workup_section_perform (self->section, request, NULL, NULL);
}

static GtkWidget *
take_back_new (SwWorkUpReadings *self, const SwReading *reading, const char *what)
{
  g_autofree char *name = g_strdup_printf (_("Take Back the reading of %s, %s"), self->named, what);
  GtkWidget *button = sw_named_button_new (_("Take Back"), name);

  gtk_widget_add_css_class (button, "chip");
  g_object_set_data_full (G_OBJECT (button), "sw-reading", g_memdup2 (&reading->fact.id, sizeof reading->fact.id), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (take_back_cb), self);

  return button;
}

static GtkWidget *
line_label (const char *text, int width_chars, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), width_chars);
  gtk_widget_add_css_class (label, css);

  return label;
}

static void
add_line (SwWorkUpReadings *self, const SwPageContext *context, const SwReading *reading)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  const gint64 axes[AXES] = { reading->axis1, reading->axis2, reading->axis3 };
  g_autofree char *day = sw_day_format (reading->day);
  g_autofree char *time = sw_time_format ((int) reading->minute);
  g_autofree char *when = g_strdup_printf ("%s %s", day, time);
  g_autofree char *size = sw_reading_format (axes);
  g_autofree char *mm = g_strdup_printf ("%s mm", size);
  GtkWidget *who = line_label (sw_practice_person_name (sw_page_context_practice (context), reading->fact.person), 16, "quiet");

  gtk_widget_set_hexpand (who, TRUE);
  gtk_box_append (GTK_BOX (line), line_label (when, 17, "figure"));
  gtk_box_append (GTK_BOX (line), line_label (mm, 24, "figure"));
  gtk_box_append (GTK_BOX (line), who);
  gtk_box_append (GTK_BOX (line), take_back_new (self, reading, when));
  gtk_box_append (self->lines, line);
}

/* The newest first. (transfer container) */
static GPtrArray *
newest_readings (const SwDossier *dossier, gint64 tumour)
{
  GPtrArray *readings = g_ptr_array_new ();
  SwReading *reading;

  for (guint i = 0; (reading = sw_facts_next (&dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == tumour)
      g_ptr_array_insert (readings, 0, reading);
  return readings;
}

static void
show_lines (SwWorkUpReadings *self, const SwPageContext *context)
{
  g_autoptr (GPtrArray) readings = newest_readings (context->dossier, self->tumour);
  const SwReading *last = readings->len > 0 ? readings->pdata[0] : NULL;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->lines))) != NULL)
    gtk_box_remove (self->lines, child);
  for (guint i = 0; i < readings->len && i < LINES; i++)
    add_line (self, context, readings->pdata[i]);
  if (last == NULL)
    gtk_box_append (self->lines, sw_quiet_new (_("Not measured yet.")));
  self->last[0] = last != NULL ? last->axis1 : SW_UNKNOWN;
  self->last[1] = last != NULL ? last->axis2 : SW_UNKNOWN;
  self->last[2] = last != NULL ? last->axis3 : SW_UNKNOWN;
}

/* --- the widget --- */

static void
sw_workup_readings_dispose (GObject *object)
{
  g_clear_pointer (&SW_WORKUP_READINGS (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_workup_readings_parent_class)->dispose (object);
}

static void
sw_workup_readings_finalize (GObject *object)
{
  g_free (SW_WORKUP_READINGS (object)->named);
  G_OBJECT_CLASS (sw_workup_readings_parent_class)->finalize (object);
}

static void
sw_workup_readings_class_init (SwWorkUpReadingsClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_workup_readings_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_workup_readings_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "workupreadings");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_workup_readings_init (SwWorkUpReadings *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->lines = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 3));
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->lines));
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

static GtkWidget *
cells_new (SwWorkUpReadings *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  for (int i = 0; i < AXES; i++)
    {
      g_autofree char *name = g_strdup_printf (_("%s, %s of the next reading"), self->named, _(axis_names[i]));
      GtkWidget *label = gtk_label_new (_(axis_names[i]));

      self->cells[i] = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_LENGTH, name));
      sw_quantity_entry_set_required (self->cells[i], TRUE);
      sw_quantity_entry_set_message_label (self->cells[i], GTK_LABEL (self->message));
      g_signal_connect (self->cells[i], "accepted", G_CALLBACK (accepted_cb), self);
      g_signal_connect (self->cells[i], "changed", G_CALLBACK (changed_cb), self);
      gtk_widget_add_css_class (label, "form-label");
      gtk_widget_set_margin_start (label, i > 0 ? 6 : 0);
      gtk_box_append (GTK_BOX (line), label);
      gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->cells[i]));
    }
  gtk_box_append (GTK_BOX (line), self->record);

  return line;
}

GtkWidget *
sw_workup_readings_new (SwWorkUpSection *section, gint64 tumour, const char *named)
{
  SwWorkUpReadings *self = g_object_new (SW_TYPE_WORKUP_READINGS, NULL);
  g_autofree char *name = g_strdup_printf (_("Record the Reading of %s"), named);

  self->section = section;
  self->tumour = tumour;
  self->named = g_strdup (named);
  self->message = gtk_label_new (NULL);
  self->record = sw_named_button_new (_("Record the Reading"), name);
  gtk_widget_add_css_class (self->message, "field-message");
  gtk_widget_set_visible (self->message, FALSE);
  gtk_label_set_xalign (GTK_LABEL (self->message), 0);
  gtk_label_set_wrap (GTK_LABEL (self->message), TRUE);
  gtk_box_append (GTK_BOX (self->box), cells_new (self));
  gtk_box_append (GTK_BOX (self->box), self->message);
  g_signal_connect_object (self->record, "clicked", G_CALLBACK (record_cb), self, G_CONNECT_SWAPPED);

  return GTK_WIDGET (self);
}

void
sw_workup_readings_update (SwWorkUpReadings *self, const SwWorkUp *work_up, gboolean anew)
{
  for (int i = 0; anew && i < AXES; i++)
    sw_quantity_entry_set_value (self->cells[i], SW_UNKNOWN);
  show_lines (self, work_up->context);
}

gboolean
sw_workup_readings_has_unsaved (SwWorkUpReadings *self)
{
  for (int i = 0; i < AXES; i++)
    if (sw_quantity_entry_is_edited (self->cells[i]))
      return TRUE;
  return FALSE;
}

GtkWidget *
sw_workup_readings_first_empty (SwWorkUpReadings *self)
{
  for (int i = 0; i < AXES; i++)
    if (sw_quantity_entry_get_text (self->cells[i])[0] == '\0')
      return GTK_WIDGET (self->cells[i]);
  return NULL;
}

SwQuantityEntry *
sw_workup_readings_get_cell (SwWorkUpReadings *self, int axis)
{
  return self->cells[axis];
}

GtkWidget *
sw_workup_readings_get_record (SwWorkUpReadings *self)
{
  return self->record;
}
