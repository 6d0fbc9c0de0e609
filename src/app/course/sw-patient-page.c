/* sw-patient-page.c: one dog: heading, course line, and the pages of its steps
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-patient-page.h"

#include "sw-course-picture.h"
#include "sw-course-view.h"
#include "sw-course.h"
#include "sw-dialogs.h"
#include "sw-dose-popover.h"
#include "sw-form.h"
#include "sw-lead-in-page.h"
#include "sw-log-page.h"
#include "sw-patient-dialog.h"
#include "sw-patient-heading.h"
#include "sw-recheck-page.h"
#include "sw-response-page.h"
#include "sw-step-page.h"
#include "sw-treatment-page.h"
#include "sw-tumour-dialog.h"
#include "sw-weight-dialog.h"
#include "sw-workup-page.h"

#include <glib/gi18n-lib.h>

/* The pages, in the order of the work. A new page is one line here. */
static const struct
{
  const char *name;
  const char *title;
  GType (*type) (void);
} steps[] = {
  { "work-up", N_("Work-up"), sw_workup_page_get_type },
  { "lead-in", N_("Lead-in"), sw_lead_in_page_get_type },
  { "treatment", N_("Treatment day"), sw_treatment_page_get_type },
  { "rechecks", N_("Rechecks"), sw_recheck_page_get_type },
  { "response", N_("Response"), sw_response_page_get_type },
  { "log", N_("Log"), sw_log_page_get_type },
};

struct _SwPatientPage
{
  GtkWidget parent_instance;

  /* template children */
  GtkStack *states;
  SwPatientHeading *heading;
  GtkWidget *line_scroll;
  SwCourseView *line;
  GtkBox *switcher;
  GtkDropDown *courses;
  GtkStack *steps;

  /* owned */
  SwRecord *record;
  SwPageContext *context;
  GSimpleActionGroup *actions;
  GArray *course_ids; /* gint64, as in the drop-down */
  char *foot;
  char *wanted_step; /* while a question is open */

  gint64 patient;
  gint64 course; /* chosen; 0: the newest */
  gint64 person;
  guint generation;
  guint minute;
  SwPageChanges pending; /* come while a load is running */
  guint loading : 1;
  guint filling : 1;
};

G_DEFINE_FINAL_TYPE (SwPatientPage, sw_patient_page, GTK_TYPE_WIDGET)

enum { PROP_FOOT = 1, N_PROPERTIES };

static GParamSpec *properties[N_PROPERTIES];

static void load (SwPatientPage *self, SwPageChanges changes);

/* NULL until it is first asked for. */
static SwStepPage *
step_made (SwPatientPage *self, guint i)
{
  return (SwStepPage *) gtk_stack_get_child_by_name (self->steps, steps[i].name);
}

/* Pages are made one by one, as they are asked for: the window opens without them. */
static SwStepPage *
step_page (SwPatientPage *self, guint i)
{
  GtkWidget *page;

  if (step_made (self, i) != NULL)
    return step_made (self, i);
  page = g_object_new (steps[i].type (), NULL);
  gtk_stack_add_named (self->steps, page, steps[i].name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (page), GTK_ACCESSIBLE_PROPERTY_LABEL, _(steps[i].title), -1);
  if (self->context != NULL)
    sw_step_page_set_context (SW_STEP_PAGE (page), self->context, SW_CHANGED_PATIENT);
  return SW_STEP_PAGE (page);
}

static SwStepPage *
step_shown (SwPatientPage *self)
{
  GtkWidget *page = gtk_stack_get_visible_child (self->steps);

  return page != NULL ? SW_STEP_PAGE (page) : NULL;
}

static gboolean
go_to_step (SwPatientPage *self, const char *step)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self->actions), "step");

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (g_str_equal (steps[i].name, step))
      {
        gtk_stack_set_visible_child (self->steps, GTK_WIDGET (step_page (self, i)));
        g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (step));
        return TRUE;
      }
  return FALSE;
}

static void
set_foot (SwPatientPage *self, char *foot)
{
  g_autofree char *old = self->foot;

  self->foot = foot;
  if (g_strcmp0 (old, foot) != 0)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FOOT]);
}

static void
show_line (SwPatientPage *self)
{
  SwCase c = sw_page_context_case (self->context);
  SwCourseLine *line = self->context->course != 0 ? sw_course_picture (&c) : NULL;

  gtk_widget_set_visible (self->line_scroll, line != NULL);
  sw_course_view_set_line (self->line, line);
  set_foot (self, sw_course_foot_line (&c));
}

/* One entry for each course, the newest first. */
static void
show_courses (SwPatientPage *self)
{
  const SwDossier *dossier = self->context->dossier;
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;
  const SwCourse *course;

  g_array_set_size (self->course_ids, 0);
  for (guint i = 0; (course = sw_facts_next (&dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    g_array_prepend_val (self->course_ids, course->fact.id);
  for (guint i = 0; i < self->course_ids->len; i++)
    {
      gint64 id = g_array_index (self->course_ids, gint64, i);
      g_autofree char *number = sw_course_number (dossier, id);
      g_autofree char *name = g_strdup_printf (_("Course %s"), number);

      gtk_string_list_append (names, name);
      selected = id == self->context->course ? i : selected;
    }
  self->filling = TRUE;
  gtk_drop_down_set_model (self->courses, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->courses, selected);
  self->filling = FALSE;
  gtk_widget_set_visible (GTK_WIDGET (self->courses), self->course_ids->len > 0);
}

static void
hand_out_context (SwPatientPage *self, SwPageChanges changes)
{
  sw_patient_heading_set_context (self->heading, self->context);
  show_courses (self);
  show_line (self);
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (step_made (self, i) != NULL)
      sw_step_page_set_context (step_made (self, i), self->context, changes);
  if (step_shown (self) == NULL)
    go_to_step (self, steps[0].name);
  gtk_stack_set_visible_child_name (self->states, "patient");
}

static void
take_dossier (SwPatientPage *self, SwDossier *dossier, SwPageChanges changes)
{
  g_autoptr (SwPageContext) old = self->context;

  self->context = sw_page_context_new (self->record, dossier, self->course, self->person);
  if (old != NULL && old->course != self->context->course)
    changes |= SW_CHANGED_COURSE;
  hand_out_context (self, changes);
}

typedef struct
{
  SwPatientPage *page;
  guint generation;
  SwPageChanges changes;
} Loading;

static void
loaded_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Loading *loading = data;
  g_autoptr (SwPatientPage) self = loading->page;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDossier) dossier = sw_record_load_dossier_finish (SW_RECORD (source), result, &error);
  SwPageChanges pending = self->pending;

  if (loading->generation != self->generation || self->record == NULL
      || gtk_widget_get_root (GTK_WIDGET (self)) == NULL)
    return; /* another dog was chosen meanwhile, or the window is closed */
  self->loading = FALSE;
  self->pending = 0;
  if (dossier == NULL)
    sw_trouble_error (GTK_WIDGET (self), error);
  else
    take_dossier (self, g_steal_pointer (&dossier), loading->changes);
  if (pending != 0)
    load (self, pending);
}

/* One load at a time: what changes while it runs is loaded once more at its end. */
static void
load (SwPatientPage *self, SwPageChanges changes)
{
  Loading *loading;

  if (self->patient == 0 || self->record == NULL)
    return;
  if (self->loading)
    {
      self->pending |= changes;
      return;
    }
  loading = g_new0 (Loading, 1);
  loading->page = g_object_ref (self);
  loading->generation = self->generation;
  loading->changes = changes;
  self->loading = TRUE;
  sw_record_load_dossier_async (self->record, self->patient, NULL, loaded_cb, loading);
}

static void
changed_cb (SwRecord *record, gint64 patient, SwPatientPage *self)
{
  if (patient == self->patient)
    load (self, SW_CHANGED_FACTS);
}

static void
practice_changed_cb (SwRecord *record, SwPatientPage *self)
{
  load (self, SW_CHANGED_PRACTICE);
}

static void
day_changed_cb (SwRecord *record, SwPatientPage *self)
{
  load (self, SW_CHANGED_TIME);
}

/* Doses become due as time goes by. */
static gboolean
minute_cb (gpointer data)
{
  SwPatientPage *self = data;

  if (self->context != NULL && !self->loading)
    hand_out_context (self, SW_CHANGED_TIME);
  return G_SOURCE_CONTINUE;
}

static void
course_chosen_cb (GtkDropDown *courses, GParamSpec *pspec, SwPatientPage *self)
{
  guint selected = gtk_drop_down_get_selected (courses);

  if (self->filling || selected >= self->course_ids->len)
    return;
  self->course = g_array_index (self->course_ids, gint64, selected);
  load (self, SW_CHANGED_COURSE);
}

static void
leave_answered_cb (gboolean yes, gpointer data)
{
  SwPatientPage *self = data;
  g_autofree char *step = g_steal_pointer (&self->wanted_step);

  if (yes && step != NULL)
    go_to_step (self, step);
}

gboolean
sw_patient_page_show_step (SwPatientPage *self, const char *step)
{
  if (g_strcmp0 (step, sw_patient_page_get_step (self)) == 0 || !sw_patient_page_has_unsaved (self))
    return go_to_step (self, step);
  g_free (self->wanted_step);
  self->wanted_step = g_strdup (step);
  sw_dialog_ask (GTK_WIDGET (self), _("Something typed on this page is not saved."),
                 _("It stays on the page and counts for nothing until it is saved."),
                 _("Leave the Page"), leave_answered_cb, self);

  return TRUE;
}

static void
step_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  sw_patient_page_show_step (data, g_variant_get_string (target, NULL));
}

static void
weigh_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  sw_weight_dialog_show (data, SW_PATIENT_PAGE (data)->context);
}

static void
correct_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  sw_patient_dialog_correct (data, SW_PATIENT_PAGE (data)->context);
}

static void
add_tumour_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  sw_tumour_dialog_show (data, SW_PATIENT_PAGE (data)->context, NULL);
}

static void
correct_tumour_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  SwPageContext *context = SW_PATIENT_PAGE (data)->context;
  const SwTumourDetails *tumour = sw_facts_by_id (&context->dossier->facts, SW_FACT_TUMOUR_DETAILS,
                                                  g_variant_get_int64 (target));

  if (tumour != NULL)
    sw_tumour_dialog_show (data, context, tumour);
}

static void
course_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  SwPatientPage *self = data;

  self->course = g_variant_get_int64 (target);
  load (self, SW_CHANGED_COURSE);
}

/* Opens the page that shows a row, or for id 0 the one where such a row is made. */
static gboolean
show_row (SwPatientPage *self, SwFactKind kind, gint64 id)
{
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (sw_step_page_show_row (step_page (self, i), kind, id))
      return sw_patient_page_show_step (self, steps[i].name);
  return FALSE;
}

static void
show_row_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  gint32 kind;
  gint64 id;

  g_variant_get (target, "(ix)", &kind, &id);
  show_row (data, (SwFactKind) kind, id);
}

/* A dose is told on the line itself; anything else opens the page that shows it. */
static void
mark_activated_cb (SwCourseView *view, GtkWidget *mark, const SwLineMark *value, SwPatientPage *self)
{
  if (value->kind == SW_FACT_DOSE)
    {
      sw_dose_popover_show (mark, self->context, value->id);
      return;
    }
  show_row (self, value->kind, value->id);
}

static void
add_step_button (SwPatientPage *self, guint i)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (_(steps[i].title));

  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", steps[i].name);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "patient.step");
  gtk_box_append (self->switcher, button);
}

static void
sw_patient_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_FOOT)
    g_value_set_string (value, SW_PATIENT_PAGE (object)->foot);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
sw_patient_page_dispose (GObject *object)
{
  SwPatientPage *self = SW_PATIENT_PAGE (object);
  GtkWidget *child;

  self->generation++;
  g_clear_handle_id (&self->minute, g_source_remove);
  g_clear_pointer (&self->context, sw_page_context_unref);
  g_clear_object (&self->record);
  g_clear_object (&self->actions);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_patient_page_parent_class)->dispose (object);
}

static void
sw_patient_page_finalize (GObject *object)
{
  SwPatientPage *self = SW_PATIENT_PAGE (object);

  g_array_unref (self->course_ids);
  g_free (self->foot);
  g_free (self->wanted_step);
  G_OBJECT_CLASS (sw_patient_page_parent_class)->finalize (object);
}

static void
sw_patient_page_class_init (SwPatientPageClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  object_class->get_property = sw_patient_page_get_property;
  object_class->dispose = sw_patient_page_dispose;
  object_class->finalize = sw_patient_page_finalize;

  properties[PROP_FOOT] = g_param_spec_string ("foot", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (SW_TYPE_PATIENT_HEADING);
  g_type_ensure (SW_TYPE_COURSE_VIEW);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-patient-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, states);
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, heading);
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, line_scroll);
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, line);
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, switcher);
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, courses);
  gtk_widget_class_bind_template_child (widget_class, SwPatientPage, steps);
  gtk_widget_class_bind_template_callback (widget_class, course_chosen_cb);
}

static void
sw_patient_page_init (SwPatientPage *self)
{
  static const GActionEntry entries[] = {
    { "step", step_action, "s", "'work-up'" },
    { "weigh", weigh_action },
    { "correct", correct_action },
    { "add-tumour", add_tumour_action },
    { "correct-tumour", correct_tumour_action, "x" },
    { "course", course_action, "x" },
    { "show-row", show_row_action, "(ix)" },
  };

  self->course_ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_insert_action_group (GTK_WIDGET (self), "patient", G_ACTION_GROUP (self->actions));
  sw_name_drop_down (GTK_WIDGET (self->courses), _("Course shown"));
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    add_step_button (self, i);
  g_signal_connect (self->line, "mark-activated", G_CALLBACK (mark_activated_cb), self);
  self->minute = g_timeout_add_seconds (60, minute_cb, self);
}

void
sw_patient_page_set_record (SwPatientPage *self, SwRecord *record)
{
  g_set_object (&self->record, record);
  g_signal_connect_object (record, "changed", G_CALLBACK (changed_cb), self, 0);
  g_signal_connect_object (record, "practice-changed", G_CALLBACK (practice_changed_cb), self, 0);
  g_signal_connect_object (record, "day-changed", G_CALLBACK (day_changed_cb), self, 0);
}

void
sw_patient_page_set_person (SwPatientPage *self, gint64 person)
{
  if (self->person == person)
    return;
  self->person = person;
  load (self, SW_CHANGED_PERSON);
}

void
sw_patient_page_show (SwPatientPage *self, gint64 patient)
{
  if (self->patient == patient)
    return;
  self->patient = patient;
  self->course = 0;
  self->generation++;
  self->loading = FALSE;
  self->pending = 0;
  if (patient == 0)
    {
      gtk_stack_set_visible_child_name (self->states, "empty");
      set_foot (self, NULL);
    }
  load (self, SW_CHANGED_PATIENT);
}

gint64
sw_patient_page_get_patient (SwPatientPage *self)
{
  return self->patient;
}

const char *
sw_patient_page_get_step (SwPatientPage *self)
{
  return gtk_stack_get_visible_child_name (self->steps);
}

gboolean
sw_patient_page_has_unsaved (SwPatientPage *self)
{
  return self->context != NULL && step_shown (self) != NULL && sw_step_page_has_unsaved (step_shown (self));
}

GtkWidget *
sw_patient_page_first_empty_cell (SwPatientPage *self)
{
  return self->context != NULL && step_shown (self) != NULL ? sw_step_page_first_empty_cell (step_shown (self)) : NULL;
}

const char *
sw_patient_page_get_foot (SwPatientPage *self)
{
  return self->foot;
}
