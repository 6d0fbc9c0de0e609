/* sw-figure-list.c: the figures of one document
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-figure-list.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

struct _SwFigureList
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *grid;

  /* owned */
  GPtrArray *checks;  /* GtkCheckButton of the tree, borrowed */
  GPtrArray *figures; /* SwFigure of each check, borrowed from the document */
};

G_DEFINE_FINAL_TYPE (SwFigureList, sw_figure_list, GTK_TYPE_WIDGET)

enum { CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

enum { COLUMN_TICK, COLUMN_NAME, COLUMN_VALUE, COLUMN_MARK, COLUMN_SOURCE, N_COLUMNS };

static void
attach_words (SwFigureList *self, int column, int row, const char *words, const char *css, int width)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), width);
  gtk_label_set_max_width_chars (GTK_LABEL (label), width);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_grid_attach (GTK_GRID (self->grid), label, column, row, 1, 1);
}

static void
toggled_cb (GtkCheckButton *check, SwFigureList *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
attach_tick (SwFigureList *self, int row, const SwDocumentHead *head, const SwFigure *figure)
{
  GtkWidget *check = gtk_check_button_new ();
  /* Translators: name of a tick box to a screen reader: document, figure, value */
  g_autofree char *name = g_strdup_printf (_("confirmed: %s, %s, %s"), head->id, figure->name, figure->value);

  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_valign (check, GTK_ALIGN_START);
  gtk_grid_attach (GTK_GRID (self->grid), check, COLUMN_TICK, row, 1, 1);
  g_ptr_array_add (self->checks, check);
  g_ptr_array_add (self->figures, (gpointer) figure);
  g_signal_connect (check, "toggled", G_CALLBACK (toggled_cb), self);
}

static void
add_figure (SwFigureList *self, int row, const SwDocumentHead *head, const SwFigure *figure, gboolean ticks)
{
  gboolean empty = figure->value[0] == '\0';

  if (ticks && figure->mark != SW_FIGURE_SEEN)
    attach_tick (self, row, head, figure);
  attach_words (self, COLUMN_NAME, row, figure->name, NULL, 24);
  attach_words (self, COLUMN_VALUE, row, empty ? _("to be filled in") : figure->value,
                empty ? "not-recorded" : "figure", 36);
  attach_words (self, COLUMN_MARK, row, sw_figure_mark_code (figure->mark), figure->mark == SW_FIGURE_SEEN ? "quiet"
                : NULL, 11);
  attach_words (self, COLUMN_SOURCE, row, sw_document_source_title (head, figure), "quiet", 44);
}

static void
add_head (SwFigureList *self)
{
  static const char *const titles[N_COLUMNS] = { NULL, N_("figure"), N_("value"), N_("mark"), N_("source") };
  static const int widths[N_COLUMNS] = { 0, 24, 36, 11, 44 };

  for (int column = COLUMN_NAME; column < N_COLUMNS; column++)
    attach_words (self, column, 0, _(titles[column]), "table-head", widths[column]);
}

static void
sw_figure_list_dispose (GObject *object)
{
  g_clear_pointer (&SW_FIGURE_LIST (object)->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_figure_list_parent_class)->dispose (object);
}

static void
sw_figure_list_finalize (GObject *object)
{
  g_ptr_array_unref (SW_FIGURE_LIST (object)->checks);
  g_ptr_array_unref (SW_FIGURE_LIST (object)->figures);
  G_OBJECT_CLASS (sw_figure_list_parent_class)->finalize (object);
}

static void
sw_figure_list_class_init (SwFigureListClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_figure_list_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_figure_list_finalize;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_figure_list_init (SwFigureList *self)
{
  self->checks = g_ptr_array_new ();
  self->figures = g_ptr_array_new ();
  self->grid = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
}

GtkWidget *
sw_figure_list_new (const SwDocumentHead *head, gboolean ticks)
{
  SwFigureList *self = g_object_new (SW_TYPE_FIGURE_LIST, NULL);

  add_head (self);
  for (guint i = 0; i < head->figures->len; i++)
    add_figure (self, (int) i + 1, head, head->figures->pdata[i], ticks);

  return GTK_WIDGET (self);
}

guint
sw_figure_list_count_wanted (SwFigureList *self)
{
  return self->checks->len;
}

guint
sw_figure_list_count_ticked (SwFigureList *self)
{
  guint ticked = 0;

  for (guint i = 0; i < self->checks->len; i++)
    ticked += gtk_check_button_get_active (self->checks->pdata[i]);
  return ticked;
}

gboolean
sw_figure_list_focus_first (SwFigureList *self)
{
  for (guint i = 0; i < self->checks->len; i++)
    if (!gtk_check_button_get_active (self->checks->pdata[i]))
      return gtk_widget_grab_focus (self->checks->pdata[i]);
  return FALSE;
}

char *
sw_figure_list_ticks (SwFigureList *self)
{
  GString *ticks = g_string_new (NULL);

  for (guint i = 0; i < self->checks->len; i++)
    {
      const SwFigure *figure = self->figures->pdata[i];

      if (gtk_check_button_get_active (self->checks->pdata[i]))
        g_string_append_printf (ticks, "%s%s", ticks->len > 0 ? ";" : "", figure->name);
    }
  return g_string_free (ticks, FALSE);
}
