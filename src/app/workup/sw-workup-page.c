/* sw-workup-page.c: may this tumour be treated this way?
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-page.h"

#include "sw-workup-consent.h"
#include "sw-workup-course.h"
#include "sw-workup-dog.h"
#include "sw-workup-medicines.h"
#include "sw-workup-open.h"
#include "sw-workup-tumours.h"

#include <glib/gi18n-lib.h>

/* The parts, in the order of the work. The first one shows the findings of all. */
static const struct
{
  const char *name;
  const char *title;
  GType (*type) (void);
} parts[] = {
  { "open", N_("What Is Open"), sw_workup_open_get_type },
  { "course", N_("Course"), sw_workup_course_get_type },
  { "dog", N_("The Dog"), sw_workup_dog_get_type },
  { "tumours", N_("Tumours"), sw_workup_tumours_get_type },
  { "medicines", N_("Medicines"), sw_workup_medicines_get_type },
  { "consent", N_("Consent"), sw_workup_consent_get_type },
};

struct _SwWorkUpPage
{
  SwStepPage parent_instance;

  /* template children */
  GtkBox *switcher;
  GtkStack *sections;

  GSimpleActionGroup *actions;
  GtkWidget *titles[G_N_ELEMENTS (parts)]; /* labels in the switcher */
};

G_DEFINE_FINAL_TYPE (SwWorkUpPage, sw_workup_page, SW_TYPE_STEP_PAGE)

SwWorkUpSection *
sw_workup_page_get_section (SwWorkUpPage *self, const char *name)
{
  return SW_WORKUP_SECTION (gtk_stack_get_child_by_name (self->sections, name));
}

void
sw_workup_page_show_section (SwWorkUpPage *self, const char *name)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self->actions), "part");

  gtk_stack_set_visible_child_name (self->sections, name);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (name));
}

static void
part_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  sw_workup_page_show_section (data, g_variant_get_string (target, NULL));
}

/* --- where a finding is settled --- */

static const char *
part_of_question (const SwQuestion *question)
{
  if (question->of == SW_ASKED_OF_TUMOUR)
    return "tumours";
  return sw_question_is_about_medicines (question) ? "medicines" : "dog";
}

/* NULL: not on this page. */
static const char *
part_of_place (const SwPlace *place)
{
  switch (place->kind)
    {
    case SW_PLACE_QUESTION:
      return part_of_question (place->question);
    case SW_PLACE_READINGS:
    case SW_PLACE_TUMOUR_DETAILS:
      return "tumours";
    case SW_PLACE_MEDICINES:
      return "medicines";
    case SW_PLACE_COURSE:
      return "course";
    case SW_PLACE_CONSENT:
      return "consent";
    case SW_PLACE_PATIENT_DETAILS:
      return "dog";
    case SW_PLACE_NOWHERE:
    case SW_PLACE_WEIGHT:
    case SW_PLACE_PRACTICE:
    case SW_PLACE_LEAD_IN:
    case SW_PLACE_RESPONSE:
    case SW_N_PLACES:
      break;
    }
  return NULL;
}

static void
correct_tumour (SwWorkUpPage *self, gint64 tumour)
{
  const SwTumourDetails *details = sw_dossier_tumour (sw_step_page_get_context (SW_STEP_PAGE (self))->dossier, tumour);

  if (details != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "patient.correct-tumour", "x", details->fact.id);
}

static void
go_in_page (SwWorkUpPage *self, const SwPlace *place)
{
  const char *part = part_of_place (place);

  sw_workup_page_show_section (self, part);
  sw_workup_section_show_place (sw_workup_page_get_section (self, part), place);
}

void
sw_workup_page_go (SwWorkUpPage *self, const SwPlace *place)
{
  GtkWidget *widget = GTK_WIDGET (self);

  switch (place->kind)
    {
    case SW_PLACE_QUESTION:
    case SW_PLACE_READINGS:
    case SW_PLACE_MEDICINES:
    case SW_PLACE_COURSE:
    case SW_PLACE_CONSENT:
      go_in_page (self, place);
      break;
    case SW_PLACE_TUMOUR_DETAILS:
      correct_tumour (self, place->tumour);
      break;
    case SW_PLACE_PATIENT_DETAILS:
      gtk_widget_activate_action (widget, "patient.correct", NULL);
      break;
    case SW_PLACE_WEIGHT:
      gtk_widget_activate_action (widget, "patient.weigh", NULL);
      break;
    case SW_PLACE_PRACTICE:
      gtk_widget_activate_action (widget, "win.page", "s", "practice");
      break;
    case SW_PLACE_LEAD_IN:
      gtk_widget_activate_action (widget, "patient.step", "s", "lead-in");
      break;
    case SW_PLACE_RESPONSE:
      gtk_widget_activate_action (widget, "patient.step", "s", "response");
      break;
    case SW_PLACE_NOWHERE:
    case SW_N_PLACES:
      break;
    }
}

static void
go_cb (SwWorkUpPage *self, const SwPlace *place)
{
  sw_workup_page_go (self, place);
}

/* --- the step page --- */

static guint
count_open (const SwWorkUp *work_up, const char *part)
{
  guint n = 0;

  for (guint i = 0; i < work_up->open->len; i++)
    {
      SwPlace place = sw_place_of_finding (&work_up->c, work_up->open->pdata[i]);

      n += g_strcmp0 (part_of_place (&place), part) == 0;
    }
  return n;
}

static void
show_titles (SwWorkUpPage *self, const SwWorkUp *work_up)
{
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      guint n = i == 0 ? work_up->open->len : count_open (work_up, parts[i].name);
      g_autofree char *title = n > 0 ? g_strdup_printf ("%s (%u)", _(parts[i].title), n) : g_strdup (_(parts[i].title));

      gtk_label_set_text (GTK_LABEL (self->titles[i]), title);
    }
}

/* A dog without a course begins with opening one. */
static void
show_first_part (SwWorkUpPage *self, const SwWorkUp *work_up)
{
  sw_workup_page_show_section (self, work_up->context->course != 0 ? "open" : "course");
}

static void
sw_workup_page_update (SwStepPage *page, const SwPageContext *context, SwPageChanges changes)
{
  SwWorkUpPage *self = SW_WORKUP_PAGE (page);
  g_autoptr (SwWorkUp) work_up = sw_work_up_new (context);

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    sw_workup_section_update (sw_workup_page_get_section (self, parts[i].name), work_up, changes);
  show_titles (self, work_up);
  if (changes & SW_CHANGED_PATIENT)
    show_first_part (self, work_up);
}

static gboolean
sw_workup_page_has_unsaved (SwStepPage *page)
{
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (sw_workup_section_has_unsaved (sw_workup_page_get_section (SW_WORKUP_PAGE (page), parts[i].name)))
      return TRUE;
  return FALSE;
}

static GtkWidget *
sw_workup_page_first_empty_cell (SwStepPage *page)
{
  GtkWidget *section = gtk_stack_get_visible_child (SW_WORKUP_PAGE (page)->sections);

  return section != NULL ? sw_workup_section_first_empty_cell (SW_WORKUP_SECTION (section)) : NULL;
}

static gboolean
sw_workup_page_show_row (SwStepPage *page, SwFactKind kind, gint64 id)
{
  if (kind != SW_FACT_CONSENT && kind != SW_FACT_MEDICINE_TAKEN)
    return FALSE;
  sw_workup_page_show_section (SW_WORKUP_PAGE (page), kind == SW_FACT_CONSENT ? "consent" : "medicines");
  return TRUE;
}

static void
sw_workup_page_dispose (GObject *object)
{
  g_clear_object (&SW_WORKUP_PAGE (object)->actions);
  G_OBJECT_CLASS (sw_workup_page_parent_class)->dispose (object);
}

static void
sw_workup_page_class_init (SwWorkUpPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  SwStepPageClass *page_class = SW_STEP_PAGE_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_workup_page_dispose;
  page_class->update = sw_workup_page_update;
  page_class->has_unsaved = sw_workup_page_has_unsaved;
  page_class->first_empty_cell = sw_workup_page_first_empty_cell;
  page_class->show_row = sw_workup_page_show_row;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-workup-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwWorkUpPage, switcher);
  gtk_widget_class_bind_template_child (widget_class, SwWorkUpPage, sections);
}

static void
add_part (SwWorkUpPage *self, guint i)
{
  GtkWidget *section = g_object_new (parts[i].type (), NULL);
  GtkWidget *button = gtk_toggle_button_new ();

  self->titles[i] = gtk_label_new (_(parts[i].title));
  gtk_button_set_child (GTK_BUTTON (button), self->titles[i]);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", parts[i].name);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "workup.part");
  gtk_widget_add_css_class (button, "part");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _(parts[i].title), -1);
  gtk_box_append (self->switcher, button);
  gtk_stack_add_named (self->sections, section, parts[i].name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (section), GTK_ACCESSIBLE_PROPERTY_LABEL, _(parts[i].title), -1);
  g_signal_connect_object (section, "go", G_CALLBACK (go_cb), self, G_CONNECT_SWAPPED);
}

static void
sw_workup_page_init (SwWorkUpPage *self)
{
  static const GActionEntry entries[] = { { "part", part_action, "s", "'open'" } };

  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_insert_action_group (GTK_WIDGET (self), "workup", G_ACTION_GROUP (self->actions));
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    add_part (self, i);
}
