/* sw-reading-row.c: one caliper reading
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-reading-row.h"

#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

struct _SwReadingRow
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *number;
  SwQuantityEntry *cells[SW_READING_CELLS];
  GtkWidget *words;
  GtkWidget *retry;
  GtkWidget *back;

  char *letter;
  char *reader_name;
  char *kept_name;
  char *sent; /* what was typed when it was sent */
  gint64 reader;
  gint64 reading;
  SwReadingState state;
};

G_DEFINE_FINAL_TYPE (SwReadingRow, sw_reading_row, GTK_TYPE_WIDGET)

enum { RECORD, TAKE_BACK, TYPED, N_SIGNALS };

static guint signals[N_SIGNALS];

static const char *const axis_names[SW_READING_CELLS] = { N_("length"), N_("width"), N_("height") };

static gboolean
is_empty (SwReadingRow *self, int cell)
{
  return sw_quantity_entry_get_text (self->cells[cell])[0] == '\0';
}

gboolean
sw_reading_row_is_blank (SwReadingRow *self)
{
  for (int i = 0; i < SW_READING_CELLS; i++)
    if (!is_empty (self, i))
      return FALSE;
  return self->reading == 0;
}

gboolean
sw_reading_row_has_unsaved (SwReadingRow *self)
{
  for (int i = 0; i < SW_READING_CELLS; i++)
    if (sw_quantity_entry_is_edited (self->cells[i]))
      return TRUE;
  return FALSE;
}

/* A recorded row that was changed is no empty one, so digits from elsewhere never land in it. */
GtkWidget *
sw_reading_row_first_empty (SwReadingRow *self)
{
  for (int i = 0; i < SW_READING_CELLS && self->reading == 0; i++)
    if (is_empty (self, i))
      return GTK_WIDGET (self->cells[i]);
  return NULL;
}

/* --- words --- */

static char *
words_of (SwReadingRow *self)
{
  gboolean edited = sw_reading_row_has_unsaved (self);

  switch (self->state)
    {
    case SW_READING_SENT:
      return g_strdup_printf (_("%s, recording …"), self->reader_name);
    case SW_READING_FAILED:
      return g_strdup_printf (_("%s, not saved"), self->reader_name);
    case SW_READING_KEPT:
      return edited ? g_strdup (_("correction not recorded")) : g_strdup (self->kept_name);
    case SW_READING_TYPED:
      return edited ? g_strdup_printf (_("%s, not recorded"), self->reader_name) : g_strdup (_("not recorded"));
    }
  g_return_val_if_reached (NULL);
}

static void
set_class (GtkWidget *widget, const char *css, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (widget, css);
  else
    gtk_widget_remove_css_class (widget, css);
}

static void
show (SwReadingRow *self)
{
  g_autofree char *words = words_of (self);
  gboolean kept = self->state == SW_READING_KEPT && !sw_reading_row_has_unsaved (self);

  gtk_label_set_text (GTK_LABEL (self->words), words);
  set_class (GTK_WIDGET (self), "pending", !kept);
  set_class (self->words, "not-recorded", !kept && self->state != SW_READING_FAILED);
  set_class (self->words, "not-saved", self->state == SW_READING_FAILED);
  gtk_widget_set_visible (self->retry, self->state == SW_READING_FAILED);
  gtk_widget_set_visible (self->back, self->state == SW_READING_KEPT);
}

/* --- cells --- */

static int
cell_of (SwReadingRow *self, SwQuantityEntry *entry)
{
  for (int i = 0; i < SW_READING_CELLS; i++)
    if (self->cells[i] == entry)
      return i;
  g_return_val_if_reached (0);
}

static void
changed_cb (SwQuantityEntry *entry, SwReadingRow *self)
{
  if (self->state == SW_READING_FAILED)
    self->state = self->reading != 0 ? SW_READING_KEPT : SW_READING_TYPED;
  g_signal_emit (self, signals[TYPED], 0, cell_of (self, entry));
  show (self);
}

/* To the next empty cell of the row; when there is none, the row is complete. */
static void
accepted_cb (SwQuantityEntry *entry, gint64 value, SwReadingRow *self)
{
  int from = cell_of (self, entry);

  for (int i = 1; i < SW_READING_CELLS; i++)
    {
      int cell = (from + i) % SW_READING_CELLS;

      if (is_empty (self, cell))
        {
          gtk_widget_grab_focus (GTK_WIDGET (self->cells[cell]));
          return;
        }
    }
  g_signal_emit (self, signals[RECORD], 0);
}

static void
retry_cb (GtkButton *button, SwReadingRow *self)
{
  g_signal_emit (self, signals[RECORD], 0);
}

static void
back_cb (GtkButton *button, SwReadingRow *self)
{
  g_signal_emit (self, signals[TAKE_BACK], 0);
}

gboolean
sw_reading_row_peek (SwReadingRow *self, int cell, gint64 *value)
{
  return sw_quantity_entry_peek (self->cells[cell], value, NULL);
}

void
sw_reading_row_set_question (SwReadingRow *self, int cell, const char *question)
{
  sw_quantity_entry_set_question (self->cells[cell], question);
}

static gboolean
has_unit (SwReadingRow *self, int cell)
{
  const char *text = sw_quantity_entry_get_text (self->cells[cell]);

  for (; *text != '\0'; text++)
    if (g_ascii_isalpha (*text))
      return TRUE;
  return FALSE;
}

/* A unit behind the last axis alone holds for all three. */
static gboolean
take_as_group (SwReadingRow *self, const char *typed, gint64 axes[SW_READING_CELLS])
{
  return has_unit (self, SW_READING_CELLS - 1) && !has_unit (self, 0) && !has_unit (self, 1)
         && sw_reading_parse (typed, axes, NULL);
}

static char *
text_of (SwReadingRow *self)
{
  return g_strdup_printf ("%s x %s x %s", sw_quantity_entry_get_text (self->cells[0]),
                          sw_quantity_entry_get_text (self->cells[1]), sw_quantity_entry_get_text (self->cells[2]));
}

gboolean
sw_reading_row_take (SwReadingRow *self, gint64 axes[SW_READING_CELLS], char **typed)
{
  g_autofree char *text = text_of (self);

  for (int i = 0; i < SW_READING_CELLS; i++)
    if (!sw_quantity_entry_take (self->cells[i], &axes[i]))
      {
        gtk_widget_grab_focus (GTK_WIDGET (self->cells[i]));
        return FALSE;
      }
  take_as_group (self, text, axes);
  *typed = g_steal_pointer (&text);
  return TRUE;
}

/* --- state --- */

static void
name_cells (SwReadingRow *self, guint number)
{
  for (int i = 0; i < SW_READING_CELLS; i++)
    {
      /* Translators: "tumour A, reading 2, width in mm" */
      g_autofree char *name
          = g_strdup_printf (_ ("tumour %s, reading %u, %s in mm"), self->letter, number, _ (axis_names[i]));

      sw_quantity_entry_set_name (self->cells[i], name);
    }
}

void
sw_reading_row_set_number (SwReadingRow *self, guint number)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  g_autofree char *back = g_strdup_printf (_("Take back reading %u of tumour %s"), number, self->letter);
  g_autofree char *retry = g_strdup_printf (_("Retry reading %u of tumour %s"), number, self->letter);

  gtk_label_set_text (GTK_LABEL (self->number), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->back), GTK_ACCESSIBLE_PROPERTY_LABEL, back, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->retry), GTK_ACCESSIBLE_PROPERTY_LABEL, retry, -1);
  name_cells (self, number);
}

void
sw_reading_row_set_reader (SwReadingRow *self, gint64 person, const char *name)
{
  self->reader = person;
  g_free (self->reader_name);
  self->reader_name = g_strdup (name);
  show (self);
}

gint64
sw_reading_row_get_reader (SwReadingRow *self)
{
  return self->reader;
}

void
sw_reading_row_bind (SwReadingRow *self, const SwReading *reading, const char *name)
{
  const gint64 axes[SW_READING_CELLS] = { reading->axis1, reading->axis2, reading->axis3 };

  self->reading = reading->fact.id;
  g_free (self->kept_name);
  self->kept_name = g_strdup (name);
  for (int i = 0; i < SW_READING_CELLS; i++)
    sw_quantity_entry_offer_value (self->cells[i], axes[i]);
  if (self->state == SW_READING_TYPED)
    self->state = SW_READING_KEPT;
  show (self);
}

gint64
sw_reading_row_get_reading (SwReadingRow *self)
{
  return self->reading;
}

SwReadingState
sw_reading_row_get_state (SwReadingRow *self)
{
  return self->state;
}

void
sw_reading_row_set_state (SwReadingRow *self, SwReadingState state)
{
  self->state = state;
  if (state == SW_READING_SENT)
    {
      g_free (self->sent);
      self->sent = text_of (self);
    }
  show (self);
}

void
sw_reading_row_set_kept (SwReadingRow *self, gint64 reading)
{
  g_autofree char *now = text_of (self);
  g_autofree char *typed = NULL;
  gint64 axes[SW_READING_CELLS];

  self->reading = reading;
  self->state = SW_READING_KEPT;
  g_free (self->kept_name);
  self->kept_name = g_strdup (self->reader_name);
  if (g_strcmp0 (now, self->sent) == 0 && sw_reading_row_take (self, axes, &typed))
    for (int i = 0; i < SW_READING_CELLS; i++)
      sw_quantity_entry_set_value (self->cells[i], axes[i]);
  show (self);
}

static void
sw_reading_row_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_reading_row_parent_class)->dispose (object);
}

static void
sw_reading_row_finalize (GObject *object)
{
  SwReadingRow *self = SW_READING_ROW (object);

  g_free (self->letter);
  g_free (self->reader_name);
  g_free (self->kept_name);
  g_free (self->sent);
  G_OBJECT_CLASS (sw_reading_row_parent_class)->finalize (object);
}

static void
sw_reading_row_class_init (SwReadingRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_reading_row_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_reading_row_finalize;
  signals[RECORD] = g_signal_new ("record", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[TAKE_BACK] = g_signal_new ("take-back", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[TYPED] = g_signal_new ("typed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "readingrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_reading_row_init (SwReadingRow *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
  self->number = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->number, "quiet");
  gtk_widget_set_parent (self->number, GTK_WIDGET (self));
  for (int i = 0; i < SW_READING_CELLS; i++)
    {
      self->cells[i] = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_LENGTH, _(axis_names[i])));
      sw_quantity_entry_set_unit_visible (self->cells[i], FALSE);
      sw_quantity_entry_set_required (self->cells[i], TRUE);
      gtk_widget_set_parent (GTK_WIDGET (self->cells[i]), GTK_WIDGET (self));
      g_signal_connect (self->cells[i], "accepted", G_CALLBACK (accepted_cb), self);
      g_signal_connect (self->cells[i], "changed", G_CALLBACK (changed_cb), self);
    }
  self->words = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->words), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_widget_set_margin_start (self->words, 6);
  gtk_widget_set_parent (self->words, GTK_WIDGET (self));
  self->retry = sw_named_button_new (_("Retry"), _("Retry"));
  self->back = sw_named_button_new (_("Take Back"), _("Take Back"));
  gtk_widget_add_css_class (self->back, "flat");
  gtk_widget_set_parent (self->retry, GTK_WIDGET (self));
  gtk_widget_set_parent (self->back, GTK_WIDGET (self));
  g_signal_connect (self->retry, "clicked", G_CALLBACK (retry_cb), self);
  g_signal_connect (self->back, "clicked", G_CALLBACK (back_cb), self);
}

GtkWidget *
sw_reading_row_new (const char *letter, GtkLabel *message, GtkSizeGroup *const *columns)
{
  SwReadingRow *self = g_object_new (SW_TYPE_READING_ROW, NULL);

  self->letter = g_strdup (letter);
  self->reader_name = g_strdup ("?");
  for (int i = 0; i < SW_READING_CELLS; i++)
    {
      sw_quantity_entry_set_message_label (self->cells[i], message);
      gtk_size_group_add_widget (columns[i + 1], GTK_WIDGET (self->cells[i]));
    }
  gtk_size_group_add_widget (columns[0], self->number);
  show (self);

  return GTK_WIDGET (self);
}
