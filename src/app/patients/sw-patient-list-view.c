/* sw-patient-list-view.c: find a patient
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-patient-list-view.h"

#include "sw-course.h"
#include "sw-perform.h"

#include <glib/gi18n-lib.h>

#define NAME_CHARS 12

struct _SwPatientListView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *box;
  GtkSearchEntry *search;
  GtkToggleButton *due;
  GtkToggleButton *open;
  GtkToggleButton *all;
  GtkStack *states;
  GtkListView *list;
  GtkLabel *none_words;
  GtkWidget *new_patient;

  /* owned */
  SwRecord *record;
  SwPatientList *patients;
  GtkSingleSelection *selection;

  gint64 shown;        /* the patient whose page is open */
  guint following : 1; /* the selection moves because the list or the window did */
};

G_DEFINE_FINAL_TYPE (SwPatientListView, sw_patient_list_view, GTK_TYPE_WIDGET)

enum { CHOSEN, N_SIGNALS };

static guint signals[N_SIGNALS];

/* "recheck due today", "lead-in, next 14 May 08:00": the second line of a row. */
static char *
format_stage (SwPatientRow *row, SwMoment now)
{
  int stage = sw_stage_from_code (sw_patient_row_get_stage (row));
  SwMoment due = sw_patient_row_get_due (row);
  const char *name = stage >= 0 ? sw_stage_name (stage) : NULL;
  g_autofree char *day = NULL;

  if (name == NULL)
    return g_strdup ("");
  if (!sw_moment_is_set (due))
    return g_strdup (name);
  if (due.day < now.day)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, overdue by %d day", "%s, overdue by %d days",
                                         (gulong) (now.day - due.day)),
                            name, (int) (now.day - due.day));
  if (due.day == now.day)
    return g_strdup_printf (_("%s, due today"), name);
  day = sw_day_format (due.day);

  /* Translators: stage of a course and the day of the next thing due */
  return g_strdup_printf (_("%s, next %s"), name, day);
}

static void
show_row (SwPatientListView *self, GtkListItem *item)
{
  SwPatientRow *row = gtk_list_item_get_item (item);
  GtkWidget *box = gtk_list_item_get_child (item);
  GtkWidget *top = gtk_widget_get_first_child (box);
  GtkInscription *name = GTK_INSCRIPTION (gtk_widget_get_first_child (top));
  GtkInscription *client = GTK_INSCRIPTION (gtk_widget_get_last_child (top));
  GtkInscription *stage = GTK_INSCRIPTION (gtk_widget_get_last_child (box));
  g_autofree char *words = format_stage (row, sw_record_get_now (self->record).local);
  g_autofree char *spoken = NULL;

  if (!sw_patient_row_get_loaded (row))
    return; /* its page is on the way */
  gtk_inscription_set_text (name, sw_patient_row_get_name (row));
  gtk_inscription_set_text (client, sw_patient_row_get_client (row));
  gtk_inscription_set_text (stage, words[0] != '\0' ? words : sw_patient_row_get_number (row));
  spoken = g_strdup_printf ("%s, %s, %s, %s", sw_patient_row_get_name (row), sw_patient_row_get_number (row),
                            sw_patient_row_get_client (row), words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (box)), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                  -1);
}

/* Measured by a number of characters, not by its text: the list keeps 200 rows, and laying out all of their texts takes longer than
 * all else at the start. */
static GtkWidget *
line_text (const char *css, guint chars, float xalign)
{
  GtkWidget *text = gtk_inscription_new (NULL);

  gtk_inscription_set_text_overflow (GTK_INSCRIPTION (text), GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
  gtk_inscription_set_nat_chars (GTK_INSCRIPTION (text), chars);
  gtk_inscription_set_xalign (GTK_INSCRIPTION (text), xalign);
  gtk_widget_set_hexpand (text, TRUE);
  gtk_widget_add_css_class (text, css);

  return text;
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwPatientListView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_box_append (GTK_BOX (top), line_text ("row-name", NAME_CHARS, 0));
  gtk_box_append (GTK_BOX (top), line_text ("client", NAME_CHARS, 1));
  gtk_box_append (GTK_BOX (box), top);
  gtk_box_append (GTK_BOX (box), line_text ("quiet", 2 * NAME_CHARS, 0));
  gtk_list_item_set_child (item, box);
}

static void
row_notify_cb (SwPatientRow *row, GParamSpec *pspec, GtkListItem *item)
{
  show_row (g_object_get_data (G_OBJECT (item), "sw-view"), item);
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwPatientListView *self)
{
  GObject *row = gtk_list_item_get_item (item);

  g_object_set_data (G_OBJECT (item), "sw-view", self);
  g_signal_connect (row, "notify::loaded", G_CALLBACK (row_notify_cb), item);
  g_signal_connect (row, "notify::stage", G_CALLBACK (row_notify_cb), item);
  show_row (self, item);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwPatientListView *self)
{
  g_signal_handlers_disconnect_by_func (gtk_list_item_get_item (item), row_notify_cb, item);
}

static void
selected_cb (GtkSingleSelection *selection, GParamSpec *pspec, SwPatientListView *self)
{
  SwPatientRow *row = gtk_single_selection_get_selected_item (selection);

  if (self->following || row == NULL || sw_patient_row_get_patient (row) == self->shown)
    return;
  g_signal_emit (self, signals[CHOSEN], 0, sw_patient_row_get_patient (row));
}

/* Enter on a row; arrows and clicks have selected it already. */
static void
activate_cb (GtkListView *list, guint position, SwPatientListView *self)
{
  gtk_single_selection_set_selected (self->selection, position);
}

/* The selection follows the shown patient to wherever the list has it now. */
static void
follow_shown (SwPatientListView *self)
{
  guint position = GTK_INVALID_LIST_POSITION;

  if (self->patients == NULL)
    return;
  if (self->shown == 0 || !sw_patient_list_find (self->patients, self->shown, &position))
    position = GTK_INVALID_LIST_POSITION;
  self->following = TRUE;
  gtk_single_selection_set_selected (self->selection, position);
  self->following = FALSE;
}

static void
show_emptiness (SwPatientListView *self)
{
  gboolean empty = g_list_model_get_n_items (G_LIST_MODEL (self->patients)) == 0
                   && !sw_patient_list_get_loading (self->patients);
  const char *search = sw_patient_list_get_search (self->patients);

  if (search != NULL && search[0] != '\0')
    gtk_label_set_text (self->none_words, _("No patient, client or number begins with this."));
  else if (sw_patient_list_get_show (self->patients) == SW_SHOW_DUE)
    gtk_label_set_text (self->none_words, _("Nothing is due today."));
  else if (sw_patient_list_get_show (self->patients) == SW_SHOW_OPEN)
    gtk_label_set_text (self->none_words, _("No course is open."));
  else
    gtk_label_set_text (self->none_words, _("No patients yet. Register the first one below."));
  gtk_stack_set_visible_child_name (self->states, empty ? "none" : "list");
}

static void
refreshed_cb (SwPatientList *patients, SwPatientListView *self)
{
  follow_shown (self);
  show_emptiness (self);
}

static void
failed_cb (SwPatientList *patients, const char *sentence, SwPatientListView *self)
{
  sw_trouble (GTK_WIDGET (self), sentence);
}

static void
search_changed_cb (GtkSearchEntry *entry, SwPatientListView *self)
{
  if (self->patients != NULL)
    sw_patient_list_set_search (self->patients, gtk_editable_get_text (GTK_EDITABLE (entry)));
}

static void
show_toggled_cb (GtkToggleButton *button, SwPatientListView *self)
{
  if (self->patients == NULL || !gtk_toggle_button_get_active (button))
    return;
  sw_patient_list_set_show (self->patients, button == self->due ? SW_SHOW_DUE : button == self->open ? SW_SHOW_OPEN
                            : SW_SHOW_ALL);
}

/* GTK 4.8 walks a list row by row with Tab: with thousands of rows there would be no way out. Arrows walk, Tab leaves.
 * */
static gboolean
sw_patient_list_view_focus (GtkWidget *widget, GtkDirectionType direction)
{
  SwPatientListView *self = SW_PATIENT_LIST_VIEW (widget);
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  gboolean in_list = focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->list));

  if (in_list && direction == GTK_DIR_TAB_FORWARD)
    return gtk_widget_grab_focus (self->new_patient);
  if (in_list && direction == GTK_DIR_TAB_BACKWARD)
    return gtk_widget_grab_focus (GTK_WIDGET (self->all));
  return GTK_WIDGET_CLASS (sw_patient_list_view_parent_class)->focus (widget, direction);
}

static void
sw_patient_list_view_dispose (GObject *object)
{
  SwPatientListView *self = SW_PATIENT_LIST_VIEW (object);

  self->following = TRUE;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->patients);
  g_clear_object (&self->record);
  G_OBJECT_CLASS (sw_patient_list_view_parent_class)->dispose (object);
}

static void
sw_patient_list_view_class_init (SwPatientListViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_patient_list_view_dispose;
  widget_class->focus = sw_patient_list_view_focus;
  signals[CHOSEN] = g_signal_new ("chosen", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1,
                                  G_TYPE_INT64);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "patientlist");
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-patient-list-view.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, box);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, search);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, due);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, open);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, all);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, states);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, list);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, none_words);
  gtk_widget_class_bind_template_child (widget_class, SwPatientListView, new_patient);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, show_toggled_cb);
}

static void
sw_patient_list_view_init (SwPatientListView *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), self);
  gtk_list_view_set_factory (self->list, factory);
  g_signal_connect (self->list, "activate", G_CALLBACK (activate_cb), self);
  g_object_unref (factory);
}

void
sw_patient_list_view_set_record (SwPatientListView *self, SwRecord *record)
{
  g_set_object (&self->record, record);
  self->patients = sw_patient_list_new (record);
  self->selection = gtk_single_selection_new (NULL);
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  gtk_single_selection_set_model (self->selection, G_LIST_MODEL (self->patients));
  g_signal_connect (self->selection, "notify::selected", G_CALLBACK (selected_cb), self);
  g_signal_connect_object (self->patients, "refreshed", G_CALLBACK (refreshed_cb), self, 0);
  g_signal_connect_object (self->patients, "failed", G_CALLBACK (failed_cb), self, 0);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
}

void
sw_patient_list_view_set_shown (SwPatientListView *self, gint64 patient)
{
  self->shown = patient;
  follow_shown (self);
}

void
sw_patient_list_view_focus_search (SwPatientListView *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}
