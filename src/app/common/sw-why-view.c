/* sw-why-view.c: a derivation laid out as a table
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-why-view.h"

struct _SwWhyView
{
  GtkWidget parent_instance;

  GtkWidget *grid; /* child */
};

G_DEFINE_FINAL_TYPE (SwWhyView, sw_why_view, GTK_TYPE_WIDGET)

static void
sw_why_view_dispose (GObject *object)
{
  g_clear_pointer (&SW_WHY_VIEW (object)->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_why_view_parent_class)->dispose (object);
}

static void
sw_why_view_class_init (SwWhyViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_why_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "whyview");
}

static void
sw_why_view_init (SwWhyView *self)
{
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 18);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 6);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
}

GtkWidget *
sw_why_view_new (void)
{
  return g_object_new (SW_TYPE_WHY_VIEW, NULL);
}

static void
put (SwWhyView *self, int column, int row, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_grid_attach (GTK_GRID (self->grid), label, column, row, 1, 1);
}

/* "L x W x H / 2\n21.2 x 17.8 x 9.0 mm, means of 2 readings" */
static char *
working_of (const SwWhy *line)
{
  if (line->formula != NULL && line->inputs != NULL)
    return g_strdup_printf ("%s\n%s", line->formula, line->inputs);
  return g_strdup (line->formula != NULL ? line->formula : line->inputs);
}

static char *
basis_of (const SwWhy *line)
{
  if (line->source != NULL && line->mark != NULL)
    return g_strdup_printf ("%s [%s]", line->source, line->mark);
  return line->mark != NULL ? g_strdup_printf ("[%s]", line->mark) : g_strdup (line->source);
}

static void
put_line (SwWhyView *self, int row, const SwWhy *line)
{
  g_autofree char *working = working_of (line);
  g_autofree char *basis = basis_of (line);
  g_autofree char *value
      = line->limit != NULL ? g_strdup_printf ("%s\n%s", line->value, line->limit) : g_strdup (line->value);

  put (self, 0, row, line->label, NULL);
  put (self, 1, row, working, "quiet");
  put (self, 2, row, value, "figure");
  put (self, 3, row, basis, "quiet");
}

void
sw_why_view_set_lines (SwWhyView *self, const GPtrArray *lines)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->grid)) != NULL)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  for (guint i = 0; lines != NULL && i < lines->len; i++)
    put_line (self, (int) i, lines->pdata[i]);
}
