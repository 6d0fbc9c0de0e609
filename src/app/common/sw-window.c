/* sw-window.c: the one window
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-window.h"

#include "sw-dialogs.h"
#include "sw-focus.h"
#include "sw-outcomes-view.h"
#include "sw-patient-dialog.h"
#include "sw-patient-list-view.h"
#include "sw-patient-page.h"
#include "sw-perform.h"
#include "sw-practice-view.h"
#include "sw-start-page.h"
#include "sw-wedge-guard.h"

#include <glib/gi18n-lib.h>

struct _SwWindow
{
  GtkApplicationWindow parent_instance;

  /* template children */
  GtkWidget *pages_switch;
  GtkLabel *title;
  GtkWidget *flag;
  GtkMenuButton *person_button;
  GtkLabel *person_words;
  GtkWidget *trouble_bar;
  GtkLabel *trouble_words;
  GtkStack *pages;
  SwStartPage *start;
  SwPatientListView *list;
  SwPatientPage *patient;
  SwOutcomesView *outcomes;
  SwPracticeView *practice;
  GtkLabel *foot;

  /* owned */
  SwRecord *record;
  GQueue troubles; /* sentences; the first is shown */

  gint64 person;
  gint64 wanted_patient; /* while a question is open */
  gint64 wanted_person;
  guint closing : 1; /* the record is closed, or nothing unsaved is to be asked about any more */
};

G_DEFINE_FINAL_TYPE (SwWindow, sw_window, GTK_TYPE_APPLICATION_WINDOW)

static void
show_trouble (SwWindow *self)
{
  const char *sentence = g_queue_peek_head (&self->troubles);

  gtk_label_set_text (self->trouble_words, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->trouble_bar, sentence != NULL);
}

static void
trouble_action (GSimpleAction *action, GVariant *sentence, gpointer data)
{
  SwWindow *self = data;

  g_queue_push_tail (&self->troubles, g_variant_dup_string (sentence, NULL));
  show_trouble (self);
}

static void
handled_cb (GtkButton *button, SwWindow *self)
{
  g_free (g_queue_pop_head (&self->troubles));
  show_trouble (self);
}

static void
show_foot (SwWindow *self)
{
  const char *foot = sw_patient_page_get_foot (self->patient);
  gboolean patients = g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), "patients") == 0;

  gtk_label_set_text (self->foot, foot != NULL ? foot : "");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->foot), foot);
  gtk_widget_set_visible (GTK_WIDGET (self->foot), foot != NULL && patients);
}

static void
foot_cb (SwPatientPage *page, GParamSpec *pspec, SwWindow *self)
{
  show_foot (self);
}

static void
page_action (GSimpleAction *action, GVariant *page, gpointer data)
{
  SwWindow *self = data;

  if (self->record == NULL)
    return;
  gtk_stack_set_visible_child_name (self->pages, g_variant_get_string (page, NULL));
  g_simple_action_set_state (action, page);
  show_foot (self);
}

static void
show_patient (SwWindow *self, gint64 patient)
{
  sw_patient_page_show (self->patient, patient);
  sw_patient_list_view_set_shown (self->list, patient);
}

static void
leave_patient_cb (gboolean yes, gpointer data)
{
  SwWindow *self = data;

  show_patient (self, yes ? self->wanted_patient : sw_patient_page_get_patient (self->patient));
}

void
sw_window_show_patient (SwWindow *self, gint64 patient)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.page", "s", "patients");
  if (patient == sw_patient_page_get_patient (self->patient) || !sw_patient_page_has_unsaved (self->patient))
    {
      show_patient (self, patient);
      return;
    }
  self->wanted_patient = patient;
  sw_dialog_ask (GTK_WIDGET (self), _("Something typed for this patient is not saved."),
                 _("Opening another patient drops it."),
                 _("Open the Other Patient"), leave_patient_cb, self);
}

static void
chosen_cb (SwPatientListView *list, gint64 patient, SwWindow *self)
{
  sw_window_show_patient (self, patient);
}

static void
outcome_chosen_cb (SwOutcomesView *outcomes, gint64 patient, SwWindow *self)
{
  sw_window_show_patient (self, patient);
}

static void
registered_cb (GtkWidget *window, gint64 patient)
{
  sw_window_show_patient (SW_WINDOW (window), patient);
}

static void
new_patient_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  SwWindow *self = data;

  if (self->record != NULL)
    sw_patient_dialog_register (GTK_WIDGET (self), self->record, self->person, registered_cb);
}

static void
find_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  SwWindow *self = data;

  if (self->record == NULL)
    return;
  gtk_widget_activate_action (GTK_WIDGET (self), "win.page", "s", "patients");
  sw_patient_list_view_focus_search (self->list);
}

/* One entry for each person who works here. */
static void
show_people (SwWindow *self)
{
  const SwPractice *practice = sw_record_get_practice (self->record);
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autofree char *roles = sw_roles_names (sw_practice_roles (practice, self->person));
  /* Translators: who uses the program now: name and roles */
  g_autofree char *words = g_strdup_printf (_("at the desk: %s (%s)"), sw_practice_person_name (practice, self->person),
                                            roles);
  const SwPersonDetails *person;

  for (guint i = 0; (person = sw_facts_next (&practice->facts, SW_FACT_PERSON_DETAILS, &i)) != NULL;)
    {
      g_autofree char *names = sw_roles_names (person->roles);
      g_autofree char *label = g_strdup_printf ("%s (%s)", person->name, names);
      g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, person->person);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

      g_menu_item_set_action_and_target (item, "win.person", "s", id);
      if (person->active)
        g_menu_append_item (menu, item);
    }
  gtk_menu_button_set_menu_model (self->person_button, G_MENU_MODEL (menu));
  gtk_label_set_text (self->person_words, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->person_button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

static void
sit_down (SwWindow *self, gint64 person)
{
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, person);
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "person");

  self->person = person;
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (id));
  show_people (self);
  sw_patient_page_set_person (self->patient, person);
  sw_practice_view_set_person (self->practice, person);
}

static void
change_person_cb (gboolean yes, gpointer data)
{
  SwWindow *self = data;

  if (yes)
    sit_down (self, self->wanted_person);
}

void
sw_window_set_person (SwWindow *self, gint64 person)
{
  if (!sw_patient_page_has_unsaved (self->patient))
    {
      sit_down (self, person);
      return;
    }
  self->wanted_person = person;
  sw_dialog_ask (GTK_WIDGET (self), _("Something typed for this patient is not saved."),
                 _("It belongs to the person who typed it: another person at the desk drops it."),
                 _("Change the Person"),
                 change_person_cb, self);
}

static void
person_action (GSimpleAction *action, GVariant *id, gpointer data)
{
  sw_window_set_person (data, g_ascii_strtoll (g_variant_get_string (id, NULL), NULL, 10));
}

/* The first of those who work here sits down when nobody does. */
static gint64
first_person (const SwPractice *practice)
{
  const SwPersonDetails *person;

  for (guint i = 0; (person = sw_facts_next (&practice->facts, SW_FACT_PERSON_DETAILS, &i)) != NULL;)
    if (person->active)
      return person->person;
  return 0;
}

static void
show_title (SwWindow *self)
{
  gboolean practice_only = sw_record_get_practice_only (self->record);
  const char *name = sw_practice_setting (sw_record_get_practice (self->record), "name");
  g_autofree char *title = g_strdup (name != NULL ? name : "Siteward");
  /* Translators: window title of a record that is flagged as one to practise on */
  g_autofree char *flagged = g_strdup_printf (_("%s (for practising)"), title);

  gtk_label_set_text (self->title, title);
  gtk_window_set_title (GTK_WINDOW (self), practice_only ? flagged : title);
  gtk_widget_set_visible (self->flag, practice_only);
  if (practice_only)
    gtk_widget_add_css_class (GTK_WIDGET (self), "practice-only");
}

static void
practice_changed_cb (SwRecord *record, SwWindow *self)
{
  const SwPersonDetails *person = sw_practice_person (sw_record_get_practice (record), self->person);

  show_title (self);
  if (person == NULL || !person->active)
    sit_down (self, first_person (sw_record_get_practice (record)));
  else
    show_people (self);
}

static void
take_record (SwWindow *self, SwRecord *record)
{
  g_set_object (&self->record, record);
  g_signal_connect_object (record, "practice-changed", G_CALLBACK (practice_changed_cb), self, 0);
  sw_patient_page_set_record (self->patient, record);
  sw_practice_view_set_record (self->practice, record);
  sw_outcomes_view_set_record (self->outcomes, record);
  sw_patient_list_view_set_record (self->list, record);
  show_title (self);
  sit_down (self, first_person (sw_record_get_practice (record)));
  gtk_widget_set_visible (self->pages_switch, TRUE);
  gtk_widget_set_visible (GTK_WIDGET (self->person_button), TRUE);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.page", "s", "patients");
  sw_patient_list_view_focus_search (self->list);
}

typedef struct
{
  SwWindow *window;
  SwRecord *record;
} Opened;

static void
opened_free (gpointer data)
{
  Opened *opened = data;

  g_object_unref (opened->window);
  g_object_unref (opened->record);
  g_free (opened);
}

static gboolean
drawn_cb (gpointer data)
{
  Opened *opened = data;

  take_record (opened->window, opened->record);
  return G_SOURCE_REMOVE;
}

static gboolean
drawing_cb (GtkWidget *window, GdkFrameClock *clock, gpointer record)
{
  Opened *opened = g_new (Opened, 1);

  *opened = (Opened){ g_object_ref (SW_WINDOW (window)), g_object_ref (record) };
  g_idle_add_full (G_PRIORITY_DEFAULT, drawn_cb, opened, opened_free);
  return G_SOURCE_REMOVE;
}

/* The window shows itself before it fills its list, which takes longer. */
static void
opened_cb (SwStartPage *start, SwRecord *record, SwWindow *self)
{
  gtk_widget_add_tick_callback (GTK_WIDGET (self), drawing_cb, g_object_ref (record), g_object_unref);
}

/* A digit typed outside entries belongs to the page of the shown step, if that has cells. */
static GtkWidget *
first_empty_cell (GtkWidget *window, gpointer data)
{
  SwWindow *self = SW_WINDOW (window);

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), "patients") != 0)
    return NULL;
  return sw_patient_page_first_empty_cell (self->patient);
}

static void
closed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwWindow) self = data;
  g_autoptr (GError) error = NULL;

  if (!sw_record_close_finish (SW_RECORD (source), result, &error))
    {
      sw_trouble_error (GTK_WIDGET (self), error);
      return;
    }
  self->closing = TRUE;
  gtk_window_close (GTK_WINDOW (self));
}

static void
close_record (SwWindow *self)
{
  /* a text that loses its focus by becoming insensitive makes GTK 4.8 warn */
  gtk_window_set_focus (GTK_WINDOW (self), NULL);
  gtk_widget_set_sensitive (GTK_WIDGET (self->pages), FALSE);
  sw_record_close_async (self->record, closed_cb, g_object_ref (self));
}

static void
close_answered_cb (gboolean yes, gpointer data)
{
  if (yes)
    close_record (data);
}

/* Everything queued is written before the window goes. */
static gboolean
sw_window_close_request (GtkWindow *window)
{
  SwWindow *self = SW_WINDOW (window);

  if (self->record == NULL || self->closing)
    return GTK_WINDOW_CLASS (sw_window_parent_class)->close_request (window);
  if (sw_patient_page_has_unsaved (self->patient))
    sw_dialog_ask (GTK_WIDGET (self), _("Something typed for this patient is not saved."), _("Closing drops it."),
                   _("Close"),
                   close_answered_cb, self);
  else
    close_record (self);

  return TRUE;
}

static void
sw_window_dispose (GObject *object)
{
  SwWindow *self = SW_WINDOW (object);

  g_clear_object (&self->record);
  g_queue_clear_full (&self->troubles, g_free);
  G_OBJECT_CLASS (sw_window_parent_class)->dispose (object);
}

static gboolean
sw_window_focus (GtkWidget *widget, GtkDirectionType direction)
{
  sw_focus_prepare (GTK_WINDOW (widget));
  return GTK_WIDGET_CLASS (sw_window_parent_class)->focus (widget, direction);
}

static void
sw_window_class_init (SwWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_window_dispose;
  widget_class->focus = sw_window_focus;
  GTK_WINDOW_CLASS (class)->close_request = sw_window_close_request;
  g_type_ensure (SW_TYPE_START_PAGE);
  g_type_ensure (SW_TYPE_PATIENT_LIST_VIEW);
  g_type_ensure (SW_TYPE_PATIENT_PAGE);
  g_type_ensure (SW_TYPE_OUTCOMES_VIEW);
  g_type_ensure (SW_TYPE_PRACTICE_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-window.ui");
  gtk_widget_class_bind_template_child (widget_class, SwWindow, pages_switch);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, flag);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, person_button);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, person_words);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, trouble_bar);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, trouble_words);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, start);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, list);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, patient);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, outcomes);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, practice);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, foot);
  gtk_widget_class_bind_template_callback (widget_class, handled_cb);
}

static void
sw_window_init (SwWindow *self)
{
  static const GActionEntry entries[] = {
    { "page", page_action, "s", "'patients'" },
    { "person", person_action, "s", "''" },
    { "trouble", trouble_action, "s" },
    { "new-patient", new_patient_action },
    { "find", find_action },
  };

  g_queue_init (&self->troubles);
  gtk_widget_init_template (GTK_WIDGET (self));
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect (self->start, "opened", G_CALLBACK (opened_cb), self);
  g_signal_connect (self->list, "chosen", G_CALLBACK (chosen_cb), self);
  g_signal_connect (self->outcomes, "chosen", G_CALLBACK (outcome_chosen_cb), self);
  g_signal_connect (self->patient, "notify::foot", G_CALLBACK (foot_cb), self);
  sw_wedge_guard_attach (GTK_WIDGET (self), first_empty_cell, NULL);
}

GtkWidget *
sw_window_new (GtkApplication *application, const char *directory, SwClock *clock)
{
  SwWindow *self = g_object_new (SW_TYPE_WINDOW, "application", application, NULL);
  g_autofree char *file = g_build_filename (directory, "record.sqlite", NULL);

  sw_start_page_set_place (self->start, directory, clock);
  if (g_file_test (file, G_FILE_TEST_EXISTS))
    sw_start_page_open (self->start, directory);

  return GTK_WIDGET (self);
}

SwRecord *
sw_window_get_record (SwWindow *self)
{
  return self->record;
}

gint64
sw_window_get_person (SwWindow *self)
{
  return self->person;
}

GtkWidget *
sw_window_get_patient_page (SwWindow *self)
{
  return GTK_WIDGET (self->patient);
}

GtkWidget *
sw_window_get_practice_view (SwWindow *self)
{
  return GTK_WIDGET (self->practice);
}
