/* sw-site-readings.c: caliper readings of one tumour on the day of a visit
 *
 * Rows are bound to readings by their ids: a change signal never writes into a row that somebody is typing in.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-site-readings-private.h"

#include "sw-definitions.h"
#include "sw-form.h"
#include "sw-plausible.h"
#include "sw-quantity.h"
#include "sw-reading-row.h"

#include <glib/gi18n-lib.h>

#define COLUMNS (SW_READING_CELLS + 1) /* the number and the cells */

struct _SwSiteReadings
{
  GtkBox parent_instance;

  /* children */
  GtkWidget *rows; /* a box of SwReadingRow */
  GtkWidget *message;
  SwFindingView *answer;

  GtkSizeGroup *columns[COLUMNS]; /* owned */
  SwStepPage *page;               /* borrowed: it holds this widget */
  char *letter;
  gint64 tumour;
  SwMoment at;
};

G_DEFINE_FINAL_TYPE (SwSiteReadings, sw_site_readings, GTK_TYPE_BOX)

static SwReadingRow *
next_row (SwSiteReadings *self, GtkWidget **at)
{
  *at = *at == NULL ? gtk_widget_get_first_child (self->rows) : gtk_widget_get_next_sibling (*at);
  return *at != NULL ? SW_READING_ROW (*at) : NULL;
}

static const SwFacts *
facts_of (SwSiteReadings *self)
{
  return &sw_step_page_get_context (self->page)->dossier->facts;
}

static const SwReading *
reading_of (SwSiteReadings *self, SwReadingRow *row)
{
  return sw_facts_by_id (facts_of (self), SW_FACT_READING, sw_reading_row_get_reading (row));
}

/* --- recording --- */

static void
focus_next (SwSiteReadings *self)
{
  GtkWidget *cell = sw_site_readings_first_empty (self);

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

static SwReading *
make_reading (SwSiteReadings *self, SwReadingRow *row, const gint64 axes[SW_READING_CELLS], char *typed)
{
  const SwReading *old = reading_of (self, row);
  SwReading *reading = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_READING, SwReading);

  if (old == NULL)
    {
      reading->course = sw_step_page_get_context (self->page)->course;
      reading->tumour = self->tumour;
      reading->day = self->at.day;
      reading->minute = self->at.minute;
    }
  reading->axis1 = axes[0];
  reading->axis2 = axes[1];
  reading->axis3 = axes[2];
  g_free (reading->typed);
  reading->typed = typed;

  return reading;
}

static void
send (SwSiteReadings *self, SwReadingRow *row, gpointer reading)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwRequest *request = sw_step_page_request (self->page, SW_ACT_RECORD_READING);

  request->person = sw_reading_row_get_reader (row);
  sw_request_add (request, reading);
  sw_reading_row_set_state (row, SW_READING_SENT);
  sw_perform (GTK_WIDGET (row), context->record, request, self->answer, recorded_cb, NULL);
}

static void add_empty_row (SwSiteReadings *self);

static void
record_cb (SwReadingRow *row, SwSiteReadings *self)
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
  add_empty_row (self);
  focus_next (self);
}

static void
take_back_cb (SwReadingRow *row, SwSiteReadings *self)
{
  const SwReading *reading = reading_of (self, row);
  SwRequest *request;

  if (reading == NULL)
    return;
  request = sw_step_page_request (self->page, SW_ACT_RECORD_READING);
  sw_request_add (request, sw_fact_withdrawal (reading));
  sw_step_page_perform (self->page, request, self->answer, NULL, NULL);
}

/* --- the question about an unlikely length --- */

static const SwReading *
last_reading (SwSiteReadings *self, gint64 other_than)
{
  const SwReading *reading, *last = NULL;

  for (guint i = 0; (reading = sw_facts_next (facts_of (self), SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == self->tumour && reading->fact.id != other_than)
      last = reading;
  return last;
}

static void
typed_cb (SwReadingRow *row, int cell, SwSiteReadings *self)
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
add_row (SwSiteReadings *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  GtkWidget *row = sw_reading_row_new (self->letter, GTK_LABEL (self->message), self->columns);

  sw_reading_row_set_reader (SW_READING_ROW (row), context->person,
                             sw_practice_person_name (sw_page_context_practice (context), context->person));
  g_signal_connect (row, "record", G_CALLBACK (record_cb), self);
  g_signal_connect (row, "take-back", G_CALLBACK (take_back_cb), self);
  g_signal_connect (row, "typed", G_CALLBACK (typed_cb), self);
  gtk_box_append (GTK_BOX (self->rows), row);

  return SW_READING_ROW (row);
}

/* One that is empty, never more than count. */
static void
add_empty_row (SwSiteReadings *self)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;
  guint n = 0, blank = 0;

  while ((row = next_row (self, &at)) != NULL)
    {
      sw_reading_row_set_number (row, ++n);
      blank += sw_reading_row_is_blank (row);
    }
  if (blank == 0 && n < sw_definition_whole (SW_DEF_READINGS_MOST))
    sw_reading_row_set_number (add_row (self), n + 1);
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

/* The row that shows this reading, the one it replaces, or the one whose reply is still to come. */
static SwReadingRow *
row_of (SwSiteReadings *self, const SwReading *reading)
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

/* Those on record come first. */
static SwReadingRow *
add_row_for_record (SwSiteReadings *self)
{
  SwReadingRow *added = add_row (self), *row;
  GtkWidget *at = NULL, *before = NULL;

  while ((row = next_row (self, &at)) != NULL)
    if (row != added && sw_reading_row_get_reading (row) != 0)
      before = GTK_WIDGET (row);
  gtk_box_reorder_child_after (GTK_BOX (self->rows), GTK_WIDGET (added), before);
  return added;
}

static void
bind (SwSiteReadings *self, const SwReading *reading)
{
  const SwPractice *practice = sw_page_context_practice (sw_step_page_get_context (self->page));
  SwReadingRow *row = row_of (self, reading);

  if (row == NULL)
    row = add_row_for_record (self);
  sw_reading_row_bind (row, reading, sw_practice_person_name (practice, reading->fact.person));
}

/* Rows whose reading was taken back go. */
static void
drop_rows (SwSiteReadings *self, gboolean all)
{
  GtkWidget *at = gtk_widget_get_first_child (self->rows);

  while (at != NULL)
    {
      SwReadingRow *row = SW_READING_ROW (at);
      const SwReading *reading = reading_of (self, row);

      at = gtk_widget_get_next_sibling (at);
      if (all || (sw_reading_row_get_reading (row) != 0 && reading != NULL && !sw_fact_is_current (reading)))
        gtk_box_remove (GTK_BOX (self->rows), GTK_WIDGET (row));
    }
}

void
sw_site_readings_show (SwSiteReadings *self, SwStepPage *page, SwMoment at, gboolean anew)
{
  g_autoptr (GPtrArray) readings = NULL;

  self->page = page;
  if (anew || at.day != self->at.day)
    {
      drop_rows (self, TRUE);
      sw_finding_view_clear (self->answer);
    }
  self->at = at;
  readings = sw_dossier_readings (sw_step_page_get_context (page)->dossier, self->tumour, at.day);
  for (guint i = 0; i < readings->len; i++)
    bind (self, readings->pdata[i]);
  drop_rows (self, FALSE);
  add_empty_row (self);
}

gboolean
sw_site_readings_has_unsaved (SwSiteReadings *self)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;

  while ((row = next_row (self, &at)) != NULL)
    if (sw_reading_row_has_unsaved (row) && sw_reading_row_get_state (row) != SW_READING_SENT)
      return TRUE;
  return FALSE;
}

GtkWidget *
sw_site_readings_first_empty (SwSiteReadings *self)
{
  GtkWidget *at = NULL, *cell = NULL;
  SwReadingRow *row;

  while (cell == NULL && (row = next_row (self, &at)) != NULL)
    cell = sw_reading_row_first_empty (row);
  return cell;
}

guint
sw_site_readings_count (SwSiteReadings *self)
{
  GtkWidget *at = NULL;
  SwReadingRow *row;
  guint n = 0;

  while ((row = next_row (self, &at)) != NULL)
    n += sw_reading_row_get_reading (row) != 0;
  return n;
}

static void
sw_site_readings_dispose (GObject *object)
{
  for (int i = 0; i < COLUMNS; i++)
    g_clear_object (&SW_SITE_READINGS (object)->columns[i]);
  G_OBJECT_CLASS (sw_site_readings_parent_class)->dispose (object);
}

static void
sw_site_readings_finalize (GObject *object)
{
  g_free (SW_SITE_READINGS (object)->letter);
  G_OBJECT_CLASS (sw_site_readings_parent_class)->finalize (object);
}

static void
sw_site_readings_class_init (SwSiteReadingsClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_site_readings_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_site_readings_finalize;
}

static GtkWidget *
head_new (SwSiteReadings *self)
{
  const char *const names[COLUMNS] = { "#", _("length"), _("width"), _("height") };
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  for (int i = 0; i < COLUMNS; i++)
    {
      GtkWidget *label = gtk_label_new (names[i]);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_size_group_add_widget (self->columns[i], label);
      gtk_box_append (GTK_BOX (line), label);
    }
  gtk_widget_add_css_class (line, "table-head");

  return line;
}

static void
sw_site_readings_init (SwSiteReadings *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  for (int i = 0; i < COLUMNS; i++)
    self->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->message = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->message), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->message), 0);
  gtk_widget_add_css_class (self->message, "field-message");
  gtk_widget_set_visible (self->message, FALSE);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->at = SW_NO_MOMENT;
  gtk_box_append (GTK_BOX (self), head_new (self));
  gtk_box_append (GTK_BOX (self), self->rows);
  gtk_box_append (GTK_BOX (self), self->message);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
}

GtkWidget *
sw_site_readings_new (gint64 tumour, const char *letter)
{
  SwSiteReadings *self = g_object_new (SW_TYPE_SITE_READINGS, NULL);

  self->tumour = tumour;
  self->letter = g_strdup (letter);

  return GTK_WIDGET (self);
}
