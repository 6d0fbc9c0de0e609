/* sw-treated-list.c: the treated tumours behind a figure
 *
 * There may be a hundred thousand: the model makes an item only for a row that is looked at.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-treated-list.h"

#include "sw-form.h"
#include "sw-outcomes.h"
#include "sw-region.h"

#include <glib/gi18n-lib.h>

/* --- an item --- */

#define SW_TYPE_TREATED_ITEM (sw_treated_item_get_type ())
G_DECLARE_FINAL_TYPE (SwTreatedItem, sw_treated_item, SW, TREATED_ITEM, GObject)

struct _SwTreatedItem
{
  GObject parent_instance;
  SwTreated row;
};

G_DEFINE_FINAL_TYPE (SwTreatedItem, sw_treated_item, G_TYPE_OBJECT)

static void
sw_treated_item_class_init (SwTreatedItemClass *class)
{
}

static void
sw_treated_item_init (SwTreatedItem *self)
{
}

/* --- the model --- */

#define SW_TYPE_TREATED_MODEL (sw_treated_model_get_type ())
G_DECLARE_FINAL_TYPE (SwTreatedModel, sw_treated_model, SW, TREATED_MODEL, GObject)

struct _SwTreatedModel
{
  GObject parent_instance;
  SwOutcomes *outcomes;
  GArray *places;
};

static GType
get_item_type (GListModel *model)
{
  return SW_TYPE_TREATED_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  return SW_TREATED_MODEL (model)->places->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  SwTreatedModel *self = SW_TREATED_MODEL (model);
  SwTreatedItem *item;

  if (position >= self->places->len)
    return NULL;
  item = g_object_new (SW_TYPE_TREATED_ITEM, NULL);
  item->row = g_array_index (self->outcomes->rows, SwTreated, g_array_index (self->places, guint, position));
  return item;
}

static void
model_interface (GListModelInterface *interface)
{
  interface->get_item_type = get_item_type;
  interface->get_n_items = get_n_items;
  interface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (SwTreatedModel, sw_treated_model, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, model_interface))

static void
sw_treated_model_finalize (GObject *object)
{
  SwTreatedModel *self = SW_TREATED_MODEL (object);

  sw_outcomes_unref (self->outcomes);
  g_array_unref (self->places);
  G_OBJECT_CLASS (sw_treated_model_parent_class)->finalize (object);
}

static void
sw_treated_model_class_init (SwTreatedModelClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_treated_model_finalize;
}

static void
sw_treated_model_init (SwTreatedModel *self)
{
}

static GListModel *
model_new (SwOutcomes *outcomes, GArray *places)
{
  SwTreatedModel *model = g_object_new (SW_TYPE_TREATED_MODEL, NULL);

  model->outcomes = sw_outcomes_ref (outcomes);
  model->places = g_array_ref (places);
  return G_LIST_MODEL (model);
}

/* --- the list --- */

struct _SwTreatedList
{
  GtkWidget parent_instance;

  GtkWidget *box;
  GtkLabel *title;
  GtkWidget *back;
  GtkListView *list;
};

G_DEFINE_FINAL_TYPE (SwTreatedList, sw_treated_list, GTK_TYPE_WIDGET)

enum
{
  BACK,
  CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static char *
row_text (const SwTreated *row)
{
  g_autofree char *name = sw_treated_name (row), *day = sw_day_format (row->day);
  const char *score
      = row->category != SW_UNKNOWN ? sw_category_name ((SwCategory) row->category) : _("no score on day 28");

  /* Translators: a treated tumour in a list: P-000012/2 A, treated 2026-05-14: left hock, 1.70 cm³; complete response
   */
  return g_strdup_printf (_("%s, treated %s: %s %s, %.2f cm³; injection %d; %s"), name, day,
                          sw_side_name ((SwSide) row->side), sw_region_name ((SwRegion) row->region),
                          (double) row->volume_mm3 / 1000, (int) row->injection, score);
}

static void
setup_cb (GtkListItemFactory *factory, GtkListItem *item)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, "figure");
  gtk_list_item_set_child (item, label);
}

static void
bind_cb (GtkListItemFactory *factory, GtkListItem *item)
{
  g_autofree char *text = row_text (&SW_TREATED_ITEM (gtk_list_item_get_item (item))->row);

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), text);
}

static void
activate_cb (GtkListView *list, guint position, SwTreatedList *self)
{
  g_autoptr (SwTreatedItem) item = g_list_model_get_item (G_LIST_MODEL (gtk_list_view_get_model (list)), position);

  if (item != NULL)
    g_signal_emit (self, signals[CHOSEN], 0, item->row.patient);
}

static void
back_cb (GtkButton *button, SwTreatedList *self)
{
  g_signal_emit (self, signals[BACK], 0);
}

static void
sw_treated_list_dispose (GObject *object)
{
  g_clear_pointer (&SW_TREATED_LIST (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_treated_list_parent_class)->dispose (object);
}

static void
sw_treated_list_class_init (SwTreatedListClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_treated_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  signals[BACK] = g_signal_new ("back", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[CHOSEN] = g_signal_new ("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
}

static GtkWidget *
list_new (SwTreatedList *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkWidget *list = gtk_list_view_new (NULL, factory);

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (list, "activate", G_CALLBACK (activate_cb), self);
  gtk_list_view_set_single_click_activate (GTK_LIST_VIEW (list), TRUE);
  gtk_widget_add_css_class (list, "treated");
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Treated tumours behind the figure"), -1);
  return list;
}

static void
sw_treated_list_init (SwTreatedList *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *scrolled = gtk_scrolled_window_new (), *title = gtk_label_new (NULL);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->back = sw_named_button_new (_("Back to the figures"), _("Back to the figures"));
  self->title = GTK_LABEL (title);
  gtk_label_set_wrap (self->title, TRUE);
  gtk_label_set_xalign (self->title, 0);
  gtk_widget_add_css_class (title, "heading");
  gtk_widget_add_css_class (self->box, "page-body");
  g_signal_connect (self->back, "clicked", G_CALLBACK (back_cb), self);
  gtk_box_append (GTK_BOX (head), self->back);
  gtk_box_append (GTK_BOX (head), title);
  self->list = GTK_LIST_VIEW (list_new (self));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), GTK_WIDGET (self->list));
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (scrolled), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Scrolled list of tumours"), -1);
  gtk_box_append (GTK_BOX (self->box), head);
  gtk_box_append (GTK_BOX (self->box), scrolled);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
sw_treated_list_new (void)
{
  return g_object_new (SW_TYPE_TREATED_LIST, NULL);
}

void
sw_treated_list_show (SwTreatedList *self, SwOutcomes *outcomes, GArray *places, const char *title)
{
  GtkSelectionModel *model = GTK_SELECTION_MODEL (gtk_single_selection_new (model_new (outcomes, places)));
  g_autofree char *text = g_strdup_printf (ngettext ("%s (%u treated tumour)", "%s (%u treated tumours)", places->len),
                                           title, places->len);

  gtk_label_set_text (self->title, text);
  gtk_list_view_set_model (self->list, model);
  g_object_unref (model);
  gtk_widget_grab_focus (self->back);
}
