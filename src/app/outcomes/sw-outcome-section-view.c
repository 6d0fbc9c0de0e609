/* sw-outcome-section-view.c: one section of the outcomes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-section-view.h"

#include "sw-chart-view.h"
#include "sw-form.h"

#include <glib/gi18n-lib.h>

/* The column of figures keeps its width whatever the charts do. */
#define FIGURES_WIDTH 500

struct _SwOutcomeSectionView
{
  GtkWidget parent_instance;

  GtkWidget *box;
  GtkWidget *definition;
  SwOutcomeSection *section; /* owned */
};

G_DEFINE_FINAL_TYPE (SwOutcomeSectionView, sw_outcome_section_view, GTK_TYPE_WIDGET)

enum
{
  BEHIND,
  SAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* --- figures --- */

static void
activated_cb (GtkButton *button, SwOutcomeSectionView *self)
{
  g_signal_emit (self, signals[BEHIND], 0, g_object_get_data (G_OBJECT (button), "rows"),
                 g_object_get_data (G_OBJECT (button), "title"));
}

static GtkWidget *
label_new (const char *text, float xalign)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  return label;
}

/* A row that opens the treated tumours behind it; its name says which section and group it belongs to. */
static GtkWidget *
opener_new (SwOutcomeSectionView *self, GtkWidget *content, GArray *rows, const char *group, const char *words)
{
  GtkWidget *button = gtk_button_new ();
  g_autofree char *title = g_strdup_printf ("%s, %s, %s", self->section->title, group, words);

  gtk_button_set_child (GTK_BUTTON (button), content);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "figure-row");
  g_object_set_data_full (G_OBJECT (button), "rows", g_array_ref (rows), (GDestroyNotify) g_array_unref);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_object_set_data_full (G_OBJECT (button), "title", g_steal_pointer (&title), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (activated_cb), self);
  return button;
}

static GtkWidget *
figure_content (const SwOutcomeFigure *figure, const char *text)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *values = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *label = label_new (figure->label, 0), *value = label_new (text, 1);

  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_label_set_width_chars (GTK_LABEL (label), 24);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  gtk_label_set_wrap (GTK_LABEL (value), FALSE); /* a figure stays in one piece */
  gtk_widget_add_css_class (value, "figure");
  gtk_box_append (GTK_BOX (content), label);
  gtk_box_append (GTK_BOX (values), value);
  if (figure->kind == SW_FIGURE_SHARE && figure->n > 0)
    {
      g_autofree char *exact
          = g_strdup_printf (_("exact limits %.1f to %.1f %%"), 100 * figure->exact_lo, 100 * figure->exact_hi);
      GtkWidget *quiet = label_new (exact, 1);

      gtk_widget_add_css_class (quiet, "quiet");
      gtk_box_append (GTK_BOX (values), quiet);
    }
  gtk_box_append (GTK_BOX (content), values);
  return content;
}

static GtkWidget *
figure_new (SwOutcomeSectionView *self, const SwOutcomeFigure *figure, const char *group)
{
  g_autofree char *text = sw_outcome_figure_text (figure);
  g_autofree char *words = g_strdup_printf ("%s: %s", figure->label, text);
  GtkWidget *content = figure_content (figure, text);

  if (figure->rows != NULL && figure->rows->len > 0)
    return opener_new (self, content, figure->rows, group, words);
  gtk_widget_add_css_class (content, "figure-row");
  return content;
}

static GArray *
join_left_out (const SwOutcomeGroup *group)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < group->left_out->len; i++)
    {
      const SwLeftOut *left_out = group->left_out->pdata[i];

      g_array_append_vals (rows, left_out->rows->data, left_out->rows->len);
    }
  return rows;
}

static void
add_group (SwOutcomeSectionView *self, GtkBox *column, const SwOutcomeGroup *group)
{
  g_autofree char *left_out = sw_outcome_group_left_out_text (group);
  g_autofree char *heading = group->few ? g_strdup_printf (_("%s · fewer than ten: read with caution"), group->label)
                                        : g_strdup (group->label);
  GtkWidget *label = sw_heading_new (heading);

  if (group->few)
    gtk_widget_add_css_class (label, "few");
  gtk_box_append (column, label);
  for (guint i = 0; i < group->figures->len; i++)
    gtk_box_append (column, figure_new (self, group->figures->pdata[i], group->label));
  if (left_out != NULL)
    {
      g_autoptr (GArray) rows = join_left_out (group);
      GtkWidget *words = label_new (left_out, 0);

      gtk_widget_add_css_class (words, "quiet");
      gtk_box_append (column, opener_new (self, words, rows, group->label, left_out));
    }
}

static GtkWidget *
figures_new (SwOutcomeSectionView *self)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_widget_set_size_request (column, FIGURES_WIDTH, -1);
  gtk_widget_set_valign (column, GTK_ALIGN_START);
  gtk_widget_set_halign (column, GTK_ALIGN_START);
  for (guint i = 0; i < self->section->groups->len; i++)
    add_group (self, GTK_BOX (column), self->section->groups->pdata[i]);
  for (guint i = 0; i < self->section->tests->len; i++)
    gtk_box_append (GTK_BOX (column), figure_new (self, self->section->tests->pdata[i], _("comparison")));
  return column;
}

/* --- charts --- */

static void
save_cb (GtkButton *button, SwOutcomeSectionView *self)
{
  g_signal_emit (self, signals[SAVE], 0, g_object_get_data (G_OBJECT (button), "chart"),
                 g_object_get_data (G_OBJECT (button), "picture") != NULL);
}

static GtkWidget *
save_button (SwOutcomeSectionView *self, const SwChart *chart, gboolean picture)
{
  g_autofree char *name = picture ? g_strdup_printf (_("Save the chart “%s” as a picture"), chart->title)
                                  : g_strdup_printf (_("Save the points of “%s” as a table"), chart->title);
  GtkWidget *button = sw_named_button_new (picture ? _("Save picture…") : _("Save points…"), name);

  gtk_widget_add_css_class (button, "small");
  g_object_set_data (G_OBJECT (button), "chart", (gpointer) chart);
  g_object_set_data (G_OBJECT (button), "picture", picture ? button : NULL);
  g_signal_connect (button, "clicked", G_CALLBACK (save_cb), self);
  return button;
}

static GtkWidget *
charts_new (SwOutcomeSectionView *self)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_set_hexpand (column, TRUE);
  for (guint i = 0; i < self->section->charts->len; i++)
    {
      const SwChart *chart = self->section->charts->pdata[i];
      GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

      gtk_box_append (GTK_BOX (column), sw_chart_view_new (self->section, i));
      gtk_box_append (GTK_BOX (column), sw_quiet_new (chart->words));
      gtk_box_append (GTK_BOX (buttons), save_button (self, chart, TRUE));
      gtk_box_append (GTK_BOX (buttons), save_button (self, chart, FALSE));
      gtk_box_append (GTK_BOX (column), buttons);
    }
  return column;
}

/* --- the section --- */

static void
definition_cb (GtkButton *button, SwOutcomeSectionView *self)
{
  gtk_widget_set_visible (self->definition, !gtk_widget_get_visible (self->definition));
}

static GtkWidget *
head_new (SwOutcomeSectionView *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *title = label_new (self->section->title, 0);
  g_autofree char *name = g_strdup_printf (_("How “%s” is counted"), self->section->title);
  GtkWidget *button = sw_named_button_new (_("How it is counted"), name);

  gtk_widget_add_css_class (title, "section-heading");
  gtk_widget_add_css_class (button, "small");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_signal_connect (button, "clicked", G_CALLBACK (definition_cb), self);
  gtk_box_append (GTK_BOX (head), title);
  gtk_box_append (GTK_BOX (head), button);
  return head;
}

static void
build (SwOutcomeSectionView *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);

  self->definition = sw_quiet_new (self->section->definition);
  gtk_widget_set_visible (self->definition, FALSE);
  gtk_box_append (GTK_BOX (self->box), head_new (self));
  gtk_box_append (GTK_BOX (self->box), self->definition);
  if (self->section->empty != NULL)
    {
      gtk_box_append (GTK_BOX (self->box), sw_quiet_new (self->section->empty));
      g_object_unref (g_object_ref_sink (body));
      return;
    }
  if (self->section->charts->len > 0)
    gtk_box_append (GTK_BOX (body), charts_new (self));
  gtk_box_append (GTK_BOX (body), figures_new (self));
  gtk_box_append (GTK_BOX (self->box), body);
}

static void
sw_outcome_section_view_dispose (GObject *object)
{
  SwOutcomeSectionView *self = SW_OUTCOME_SECTION_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->section, sw_outcome_section_unref);
  G_OBJECT_CLASS (sw_outcome_section_view_parent_class)->dispose (object);
}

static void
sw_outcome_section_view_class_init (SwOutcomeSectionViewClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_outcome_section_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "outcomesection");
  signals[BEHIND] = g_signal_new ("behind", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_ARRAY,
                                  G_TYPE_STRING);
  signals[SAVE] = g_signal_new ("save", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_POINTER,
                                G_TYPE_BOOLEAN);
}

static void
sw_outcome_section_view_init (SwOutcomeSectionView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
sw_outcome_section_view_new (SwOutcomeSection *section)
{
  SwOutcomeSectionView *self = g_object_new (SW_TYPE_OUTCOME_SECTION_VIEW, NULL);

  self->section = sw_outcome_section_ref (section);
  build (self);
  return GTK_WIDGET (self);
}
