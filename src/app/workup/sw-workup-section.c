/* sw-workup-section.c: the base of the parts of the work-up page
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-workup-section.h"

#include "sw-form.h"

typedef struct
{
  GtkWidget *scrolled;
  GtkWidget *foot;

  GtkBox *body;
  GtkBox *bar;
  SwFindingView *messages;
  GtkWidget *status;
} SwWorkUpSectionPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (SwWorkUpSection, sw_workup_section, GTK_TYPE_WIDGET)

enum { GO, N_SIGNALS };

static guint signals[N_SIGNALS];

static SwWorkUpSectionPrivate *
private_of (SwWorkUpSection *self)
{
  return sw_workup_section_get_instance_private (self);
}

static gboolean
nothing_unsaved (SwWorkUpSection *self)
{
  return FALSE;
}

static GtkWidget *
no_cell (SwWorkUpSection *self)
{
  return NULL;
}

static gboolean
no_place (SwWorkUpSection *self, const SwPlace *place)
{
  return FALSE;
}

static void
sw_workup_section_dispose (GObject *object)
{
  SwWorkUpSectionPrivate *private = private_of (SW_WORKUP_SECTION (object));

  g_clear_pointer (&private->scrolled, gtk_widget_unparent);
  g_clear_pointer (&private->foot, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_workup_section_parent_class)->dispose (object);
}

static void
sw_workup_section_class_init (SwWorkUpSectionClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_workup_section_dispose;
  class->has_unsaved = nothing_unsaved;
  class->first_empty_cell = no_cell;
  class->show_place = no_place;
  signals[GO] = g_signal_new ("go", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                              G_TYPE_POINTER);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "workupsection");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static GtkWidget *
bar_new (SwWorkUpSectionPrivate *private)
{
  private->bar = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12));
  private->status = sw_quiet_new (NULL);
  gtk_widget_set_hexpand (private->status, TRUE);
  gtk_box_append (private->bar, private->status);
  gtk_widget_set_visible (GTK_WIDGET (private->bar), FALSE);

  return GTK_WIDGET (private->bar);
}

static void
sw_workup_section_init (SwWorkUpSection *self)
{
  SwWorkUpSectionPrivate *private = private_of (self);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))), GTK_ORIENTATION_VERTICAL);
  private->body = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  private->messages = SW_FINDING_VIEW (sw_finding_view_new ());
  private->scrolled = sw_scrolled_new (GTK_WIDGET (private->body));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (private->scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  private->foot = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (private->foot, "section-foot");
  gtk_box_append (GTK_BOX (private->foot), GTK_WIDGET (private->messages));
  gtk_box_append (GTK_BOX (private->foot), bar_new (private));
  gtk_widget_set_parent (private->scrolled, GTK_WIDGET (self));
  gtk_widget_set_parent (private->foot, GTK_WIDGET (self));
}

void
sw_workup_section_update (SwWorkUpSection *self, const SwWorkUp *work_up, SwPageChanges changes)
{
  if (changes & SW_CHANGED_SUBJECT)
    sw_finding_view_clear (private_of (self)->messages);
  SW_WORKUP_SECTION_GET_CLASS (self)->update (self, work_up, changes);
}

gboolean
sw_workup_section_has_unsaved (SwWorkUpSection *self)
{
  return SW_WORKUP_SECTION_GET_CLASS (self)->has_unsaved (self);
}

GtkWidget *
sw_workup_section_first_empty_cell (SwWorkUpSection *self)
{
  return SW_WORKUP_SECTION_GET_CLASS (self)->first_empty_cell (self);
}

gboolean
sw_workup_section_show_place (SwWorkUpSection *self, const SwPlace *place)
{
  return SW_WORKUP_SECTION_GET_CLASS (self)->show_place (self, place);
}

GtkBox *
sw_workup_section_get_body (SwWorkUpSection *self)
{
  return private_of (self)->body;
}

SwFindingView *
sw_workup_section_get_messages (SwWorkUpSection *self)
{
  return private_of (self)->messages;
}

void
sw_workup_section_add_button (SwWorkUpSection *self, GtkWidget *button)
{
  SwWorkUpSectionPrivate *private = private_of (self);

  gtk_box_append (private->bar, button);
  gtk_widget_set_visible (GTK_WIDGET (private->bar), TRUE);
}

void
sw_workup_section_set_status (SwWorkUpSection *self, const char *status)
{
  gtk_label_set_text (GTK_LABEL (private_of (self)->status), status != NULL ? status : "");
}

static SwStepPage *
page_of (SwWorkUpSection *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

const SwPageContext *
sw_workup_section_get_context (SwWorkUpSection *self)
{
  return sw_step_page_get_context (page_of (self));
}

SwRequest *
sw_workup_section_request (SwWorkUpSection *self, SwActKind act)
{
  return sw_step_page_request (page_of (self), act);
}

void
sw_workup_section_perform (SwWorkUpSection *self, SwRequest *request, SwReplied replied, gpointer data)
{
  sw_step_page_perform (page_of (self), request, private_of (self)->messages, replied, data);
}

void
sw_workup_section_go (SwWorkUpSection *self, const SwPlace *place)
{
  g_signal_emit (self, signals[GO], 0, place);
}

void
sw_request_add_next (SwRequest *request, const SwDossier *dossier, gpointer fact)
{
  const SwFact *tip;

  /* Which rows are of one subject is told by the patient too. */
  ((SwFact *) fact)->patient = dossier->patient;
  tip = sw_facts_tip_like (&dossier->facts, fact);
  if (tip != NULL)
    ((SwFact *) fact)->replaces = tip->id;
  sw_request_add (request, fact);
}
