/* sw-reading-table.c: today's readings of one tumour
 *
 * Rows are bound to readings by their ids: a change signal never writes into a row that somebody is typing in.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-reading-table-private.h"

#include "sw-definitions.h"
#include "sw-form.h"
#include "sw-plausible.h"
#include "sw-quantity.h"
#include "sw-reading-row.h"
#include "sw-volume.h"

#include <glib/gi18n-lib.h>

#define COLUMNS (SW_READING_CELLS + 1) /* the number and the cells */

struct _SwReadingTable
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *rows; /* a box of SwReadingRow */
  GtkWidget *message;
  GtkWidget *mean_row;
  GtkWidget *means[SW_READING_CELLS];
  GtkWidget *agreement;
  SwFindingView *answer;

  GtkSizeGroup *columns[COLUMNS]; /* owned */
  char *letter;
  char *reader_name;
  gint64 tumour;
  gint64 reader;
  guint sealed : 1; /* released or injected: no new reading; a correction is asked about */
};

G_DEFINE_FINAL_TYPE (SwReadingTable, sw_reading_table, SW_TYPE_TREATMENT_SECTION)

static SwReadingRow *
next_row (SwReadingTable *self, GtkWidget **at)
{
  *at = *at == NULL ? gtk_widget_get_first_child (self->rows) : gtk_widget_get_next_sibling (*at);
  return *at != NULL ? SW_READING_ROW (*at) : NULL;
}

/* --- recording --- */

static void
focus_next (SwReadingTable *self)
{
  GtkWidget *cell = SW_TREATMENT_SECTION_GET_CLASS (self)->first_empty_cell (SW_TREATMENT_SECTION (self));

  if (cell != NULL)
    gtk_widget_grab_focus (cell);
}

static void
recorded_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  SwReadingRow *row = SW_READING_ROW (owner);

  if (reply != NULL && reply->done)
    sw_reading_row_set_kept (row, sw_reply_id (reply, SW_FACT_READING));
  else
    sw_reading_row_set_state (row, SW_READING_FAILED);
}

static const SwReading *
reading_of (SwReadingTable *self, SwReadingRow *row)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));

  return sw_facts_by_id (&context->dossier->facts, SW_FACT_READING, sw_reading_row_get_reading (row));
}

static SwReading *
make_reading (SwReadingTable *self, SwReadingRow *row, const gint64 axes[SW_READING_CELLS], char *typed)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  const SwReading *old = reading_of (self, row);
  SwReading *reading = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_READING, SwReading);
  SwMoment now = sw_page_context_now (context);

  if (old == NULL)
    {
      reading->course = context->course;
      reading->tumour = self->tumour;
      reading->day = now.day;
      reading->minute = now.minute;
    }
  reading->axis1 = axes[0];
  reading->axis2 = axes[1];
  reading->axis3 = axes[2];
  g_free (reading->typed);
  reading->typed = typed;

  return reading;
}

static void
send (SwReadingTable *self, SwReadingRow *row, SwReading *reading)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  SwRequest *request = sw_treatment_section_request (section, SW_ACT_RECORD_READING);
  gboolean correction = reading->fact.replaces != 0;

  request->person = sw_reading_row_get_reader (row);
  sw_request_add (request, reading);
  sw_reading_row_set_state (row, SW_READING_SENT);
  if (correction)
    sw_treatment_section_correct (section, GTK_WIDGET (row), request, self->answer, recorded_cb, NULL);
  else
    sw_treatment_section_perform (section, GTK_WIDGET (row), request, self->answer, recorded_cb, NULL);
}

static void add_empty_rows (SwReadingTable *self);

static void
record_cb (SwReadingRow *row, SwReadingTable *self)
{
  gint64 axes[SW_READING_CELLS];
  char *typed;

  if (sw_reading_row_get_state (row) == SW_READING_SENT)
    return;
  if (sw_reading_row_get_state (row) == SW_READING_KEPT && !sw_reading_row_has_unsaved (row))
    {
      focus_next (self);
      return;
    }
  if (!sw_reading_row_take (row, axes, &typed))
    return;
  send (self, row, make_reading (self, row, axes, typed));
  add_empty_rows (self);
  focus_next (self);
}

static void
taken_back_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  SwReadingTable *self = SW_READING_TABLE (owner);

  if (reply != NULL && reply->done)
    focus_next (self);
}

static void
take_back_cb (SwReadingRow *row, SwReadingTable *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwReading *reading = reading_of (self, row);
  SwRequest *request;

  if (reading == NULL)
    return;
  request = sw_treatment_section_request (section, SW_ACT_RECORD_READING);
  sw_request_add (request, sw_fact_withdrawal (reading));
  sw_treatment_section_correct (section, GTK_WIDGET (self), request, self->answer, taken_back_cb, NULL);
}

/* --- the question about an unlikely length --- */

/* The newest reading other than this one. */
static const SwReading *
last_reading (SwReadingTable *self, gint64 other_than)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  const SwReading *reading, *last = NULL;

  for (guint i = 0; context != NULL
                    && (reading = sw_facts_next (&context->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == self->tumour && reading->fact.id != other_than)
      last = reading;
  return last;
}

static void
typed_cb (SwReadingRow *row, int cell, SwReadingTable *self)
{
  const SwReading *last = last_reading (self, sw_reading_row_get_reading (row));
  gint64 before = last == NULL ? SW_UNKNOWN : cell == 0 ? last->axis1 : cell == 1 ? last->axis2 : last->axis3;
  g_autofree char *mm = NULL, *question = NULL;
  gint64 value;

  if (!sw_reading_row_peek (row, cell, &value) || sw_plausible_value (value, before) == SW_PLAUSIBLE)
    return;
  mm = sw_length_format (before);
  question = g_strdup_printf (_("The last one was %s mm: is the unit right?"), mm);
  sw_reading_row_set_question (row, cell, question);
}

/* --- rows --- */

static SwReadingRow *
add_row (SwReadingTable *self)
{
  GtkWidget *row = sw_reading_row_new (self->letter, GTK_LABEL (self->message), self->columns);

  sw_reading_row_set_reader (SW_READING_ROW (row), self->reader, self->reader_name);
  g_signal_connect (row, "record", G_CALLBACK (record_cb), self);
  g_signal_connect (row, "take-back", G_CALLBACK (take_back_cb), self);
  g_signal_connect (row, "typed", G_CALLBACK (typed_cb), self);
  gtk_box_append (GTK_BOX (self->rows), row);

  return SW_READING_ROW (row);
}

static void
number_rows (SwReadingTable *self)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;

  for (guint n = 1; (row = next_row (self, &at)) != NULL; n++)
    sw_reading_row_set_number (row, n);
}

/* As many rows as are needed at least, and one that is empty; never more than count. */
static void
add_empty_rows (SwReadingTable *self)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;
  guint rows = 0, blank = 0;

  while ((row = next_row (self, &at)) != NULL)
    {
      rows++;
      blank += sw_reading_row_is_blank (row);
    }
  while (!self->sealed && rows < sw_definition_whole (SW_DEF_READINGS_MOST)
         && (rows < sw_definition_whole (SW_DEF_READINGS_LEAST) || blank == 0))
    {
      add_row (self);
      rows++;
      blank++;
    }
  number_rows (self);
}

static gboolean
is_same (const SwReading *reading, SwReadingRow *row)
{
  gint64 axis[SW_READING_CELLS];

  for (int i = 0; i < SW_READING_CELLS; i++)
    if (!sw_reading_row_peek (row, i, &axis[i]))
      return FALSE;
  return axis[0] == reading->axis1 && axis[1] == reading->axis2 && axis[2] == reading->axis3;
}

/* The row that shows this reading, the one it replaces, or the one whose reply got lost with the page. */
static SwReadingRow *
row_of (SwReadingTable *self, const SwReading *reading)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;

  while ((row = next_row (self, &at)) != NULL)
    {
      gint64 id = sw_reading_row_get_reading (row);

      if (id != 0 ? id == reading->fact.id || id == reading->fact.replaces
                  : sw_reading_row_get_state (row) == SW_READING_SENT && is_same (reading, row))
        return row;
    }
  return NULL;
}

static void
bind (SwReadingTable *self, const SwPageContext *context, const SwReading *reading)
{
  SwReadingRow *row = row_of (self, reading);
  const char *name = sw_practice_person_name (sw_page_context_practice (context), reading->fact.person);
  GtkWidget *at = NULL, *before = NULL;
  SwReadingRow *other;

  if (row == NULL)
    {
      row = add_row (self);
      while ((other = next_row (self, &at)) != NULL && other != row)
        if (sw_reading_row_get_reading (other) != 0)
          before = GTK_WIDGET (other);
      gtk_box_reorder_child_after (GTK_BOX (self->rows), GTK_WIDGET (row), before);
    }
  sw_reading_row_bind (row, reading, name);
}

/* Rows whose reading was taken back go, unless something is typed there. */
static void
drop_rows (SwReadingTable *self, const SwPageContext *context)
{
  GtkWidget *at = gtk_widget_get_first_child (self->rows);

  while (at != NULL)
    {
      SwReadingRow *row = SW_READING_ROW (at);
      const SwReading *reading = reading_of (self, row);

      at = gtk_widget_get_next_sibling (at);
      if (sw_reading_row_get_reading (row) != 0 && (reading == NULL || !sw_fact_is_current (reading)))
        gtk_box_remove (GTK_BOX (self->rows), GTK_WIDGET (row));
      else if (self->sealed && sw_reading_row_is_blank (row))
        gtk_box_remove (GTK_BOX (self->rows), GTK_WIDGET (row));
    }
}

static void
show_means (SwReadingTable *self, const GPtrArray *readings)
{
  g_autofree SwAxes *axes = sw_axes_of_readings (readings);
  SwMeasured measured;
  SwRatio spread;
  g_autofree char *percent = NULL, *words = NULL;
  gboolean known = sw_volume_measure (axes, readings->len, &measured);

  gtk_widget_set_visible (self->mean_row, known);
  gtk_widget_set_visible (self->agreement, known && sw_volume_widest_spread (&measured, &spread));
  for (int i = 0; known && i < SW_READING_CELLS; i++)
    {
      g_autofree char *mm = sw_ratio_format (sw_ratio (measured.sum[i], measured.count * SW_PER_CENT), 1);

      gtk_label_set_text (GTK_LABEL (self->means[i]), mm);
    }
  if (!known || !sw_volume_widest_spread (&measured, &spread))
    return;
  percent = sw_ratio_format (spread, 1);
  words = g_strdup_printf (_("Longest first; readings of an axis agree within %s %%."), percent);
  gtk_label_set_text (GTK_LABEL (self->agreement), words);
}

static void
sw_reading_table_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwReadingTable *self = SW_READING_TABLE (section);
  SwCase c = sw_treatment_case (context);
  g_autoptr (GPtrArray) readings = sw_dossier_readings (context->dossier, self->tumour, c.now.day);

  self->sealed = sw_treatment_release (context) != NULL;
  for (guint i = 0; i < readings->len; i++)
    bind (self, context, readings->pdata[i]);
  drop_rows (self, context);
  add_empty_rows (self);
  show_means (self, readings);
}

static gboolean
sw_reading_table_has_unsaved (SwTreatmentSection *section)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;

  while ((row = next_row (SW_READING_TABLE (section), &at)) != NULL)
    if (sw_reading_row_has_unsaved (row) && sw_reading_row_get_state (row) != SW_READING_SENT)
      return TRUE;
  return FALSE;
}

static GtkWidget *
sw_reading_table_first_empty_cell (SwTreatmentSection *section)
{
  GtkWidget *at = NULL, *cell = NULL;
  SwReadingRow *row;

  while (cell == NULL && (row = next_row (SW_READING_TABLE (section), &at)) != NULL)
    cell = sw_reading_row_first_empty (row);
  return cell;
}

static GtkWidget *
sw_reading_table_cure_of (SwTreatmentSection *section, const SwFinding *finding)
{
  SwReadingTable *self = SW_READING_TABLE (section);

  if (finding->tumour != self->tumour
      || (finding->code != SW_FINDING_NO_READING_TODAY && finding->code != SW_FINDING_ONE_READING))
    return NULL;
  return sw_reading_table_first_empty_cell (section);
}

static void
sw_reading_table_dispose (GObject *object)
{
  SwReadingTable *self = SW_READING_TABLE (object);

  for (int i = 0; i < COLUMNS; i++)
    g_clear_object (&self->columns[i]);
  G_OBJECT_CLASS (sw_reading_table_parent_class)->dispose (object);
}

static void
sw_reading_table_finalize (GObject *object)
{
  SwReadingTable *self = SW_READING_TABLE (object);

  g_free (self->letter);
  g_free (self->reader_name);
  G_OBJECT_CLASS (sw_reading_table_parent_class)->finalize (object);
}

static void
sw_reading_table_class_init (SwReadingTableClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_reading_table_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_reading_table_finalize;
  section_class->update = sw_reading_table_update;
  section_class->has_unsaved = sw_reading_table_has_unsaved;
  section_class->first_empty_cell = sw_reading_table_first_empty_cell;
  section_class->cure_of = sw_reading_table_cure_of;
}

static GtkWidget *
line_of_labels (SwReadingTable *self, const char *first, GtkWidget *labels[SW_READING_CELLS], const char *last)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *number = gtk_label_new (first);

  gtk_label_set_xalign (GTK_LABEL (number), 0);
  gtk_size_group_add_widget (self->columns[0], number);
  gtk_box_append (GTK_BOX (line), number);
  for (int i = 0; i < SW_READING_CELLS; i++)
    {
      gtk_label_set_xalign (GTK_LABEL (labels[i]), 0);
      gtk_widget_set_margin_start (labels[i], 9); /* as the text in an entry */
      gtk_size_group_add_widget (self->columns[i + 1], labels[i]);
      gtk_box_append (GTK_BOX (line), labels[i]);
    }
  number = gtk_label_new (last);
  gtk_widget_set_margin_start (number, 6);
  gtk_box_append (GTK_BOX (line), number);

  return line;
}

static void
sw_reading_table_init (SwReadingTable *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *heads[SW_READING_CELLS]
      = { gtk_label_new (_ ("length")), gtk_label_new (_ ("width")), gtk_label_new (_ ("height")) };
  GtkWidget *head;

  for (int i = 0; i < COLUMNS; i++)
    self->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  for (int i = 0; i < SW_READING_CELLS; i++)
    self->means[i] = gtk_label_new (NULL);
  head = line_of_labels (self, "#", heads, _("read by"));
  gtk_widget_add_css_class (head, "table-head");
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->message = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->message), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->message), 0);
  gtk_widget_add_css_class (self->message, "field-message");
  gtk_widget_set_visible (self->message, FALSE);
  self->mean_row = line_of_labels (self, _("mean"), self->means, "mm");
  gtk_widget_add_css_class (self->mean_row, "figure");
  self->agreement = sw_quiet_new (NULL);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  sw_treatment_section_append (section, head);
  sw_treatment_section_append (section, self->rows);
  sw_treatment_section_append (section, self->message);
  sw_treatment_section_append (section, self->mean_row);
  sw_treatment_section_append (section, self->agreement);
  sw_treatment_section_append (section, GTK_WIDGET (self->answer));
}

GtkWidget *
sw_reading_table_new (gint64 tumour, const char *letter)
{
  SwReadingTable *self = g_object_new (SW_TYPE_READING_TABLE, NULL);

  self->tumour = tumour;
  self->letter = g_strdup (letter);
  self->reader_name = g_strdup ("?");

  return GTK_WIDGET (self);
}

gint64
sw_reading_table_get_tumour (SwReadingTable *self)
{
  return self->tumour;
}

void
sw_reading_table_set_reader (SwReadingTable *self, gint64 person, const char *name)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;

  self->reader = person;
  g_free (self->reader_name);
  self->reader_name = g_strdup (name);
  while ((row = next_row (self, &at)) != NULL)
    if (sw_reading_row_is_blank (row) || sw_reading_row_get_state (row) == SW_READING_KEPT)
      sw_reading_row_set_reader (row, person, name);
}
