/* sw-change-form.c: the signed plan on another weight, or with other medicines
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-change-form-private.h"

#include "sw-dose-words-private.h"
#include "sw-expander-private.h"
#include "sw-plan-rows-private.h"
#include "sw-plan-table-private.h"
#include "sw-replan-view-private.h"

#include "sw-form.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

struct _SwChangeForm
{
  GtkBox parent_instance;

  /* another weight */
  GtkWidget *weighed;
  GtkLabel *weights;
  SwReplanView *weight_preview;
  SwFindingView *weight_answer;

  /* other medicines */
  GtkWidget *expander;
  SwPlanTable *table;
  GtkWidget *reason;
  SwReplanView *preview;
  SwFindingView *answer;

  char *choices; /* of the plan, as the table was last set ... */
  gint64 plan;   /* ... and the plan's row */
};

G_DEFINE_FINAL_TYPE (SwChangeForm, sw_change_form, GTK_TYPE_BOX)

static SwStepPage *
page_of (SwChangeForm *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

static const SwPageContext *
context_of (SwChangeForm *self)
{
  return sw_step_page_get_context (page_of (self));
}

/* --- another weight --- */

/* The newest weight, when the plan rests on another. */
static const SwWeight *
other_weight (const SwCase *c)
{
  const SwWeight *weight = sw_facts_last (&c->dossier->facts, SW_FACT_WEIGHT);

  return weight != NULL && weight->fact.id != sw_case_plan (c)->weight ? weight : NULL;
}

static void
show_weight (SwChangeForm *self, const SwPageContext *context, const SwCase *c)
{
  const SwWeight *weight = other_weight (c);
  const SwWeight *planned = sw_facts_by_id (&c->dossier->facts, SW_FACT_WEIGHT, sw_case_plan (c)->weight);
  g_autofree char *kg = NULL, *age = NULL, *old = NULL, *words = NULL;
  g_autoptr (SwReplan) replan = NULL;

  gtk_widget_set_visible (self->weighed, weight != NULL);
  if (weight == NULL)
    return;
  kg = sw_mass_format (weight->grams);
  age = sw_age_words (weight->day, c->now.day);
  old = planned != NULL ? sw_mass_format (planned->grams) : g_strdup ("?");
  words = g_strdup_printf (_("Weighed since: %s kg, %s; the plan was computed on %s kg."), kg, age, old);
  replan = sw_replan_weight (c, weight);
  gtk_label_set_text (self->weights, words);
  sw_replan_view_show (self->weight_preview, replan, sw_page_context_roles (context));
}

static void
reweigh_cb (GtkButton *button, SwChangeForm *self)
{
  const SwPageContext *context = context_of (self);
  SwCase c = sw_page_context_case (context);
  const SwWeight *weight = other_weight (&c);

  if (weight != NULL)
    sw_step_page_perform (page_of (self),
                          sw_request_reweigh_plan (context->person, context->patient, context->course, weight->fact.id),
                          self->weight_answer, NULL, NULL);
}

/* --- other medicines --- */

static gboolean
is_changed (SwChangeForm *self)
{
  g_autofree char *chosen = sw_plan_table_get_choices (self->table);

  return self->choices != NULL && g_strcmp0 (chosen, self->choices) != 0;
}

static void
show_medicines (SwChangeForm *self)
{
  const SwPageContext *context = context_of (self);
  SwCase c = sw_page_context_case (context);
  const SwPlan *plan = sw_case_plan (&c);
  const SwWeight *weight = sw_facts_by_id (&c.dossier->facts, SW_FACT_WEIGHT, plan->weight);
  g_autofree char *choices = sw_plan_table_get_choices (self->table);
  SwScheduleOrder order = sw_schedule_order (&c, plan->treat_day, weight != NULL ? weight->grams : 0, choices);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&order);
  g_autoptr (GPtrArray) rows = sw_plan_rows_of_schedule (schedule, plan->treat_day);
  g_autoptr (SwReplan) replan = is_changed (self) ? sw_replan_choices (&c, choices, NULL) : NULL;

  sw_plan_table_show (self->table, rows);
  sw_replan_view_show (self->preview, replan, sw_page_context_roles (context));
}

static void
chosen_cb (SwPlanTable *table, SwChangeForm *self)
{
  if (page_of (self) != NULL && self->choices != NULL)
    show_medicines (self);
}

/* The table follows the plan until something else is chosen in it. */
static void
set_medicines (SwChangeForm *self, const SwCase *c)
{
  if (self->plan == sw_case_plan (c)->fact.id && self->choices != NULL)
    return;
  self->plan = sw_case_plan (c)->fact.id;
  sw_plan_table_set_groups (self->table, sw_case_protocol (c), sw_case_plan (c)->choices);
  g_free (self->choices);
  self->choices = sw_plan_table_get_choices (self->table);
}

static void
changed_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwChangeForm *self = data;

  if (reply == NULL || !reply->done)
    return;
  gtk_editable_set_text (GTK_EDITABLE (self->reason), "");
  g_clear_pointer (&self->choices, g_free);
  gtk_expander_set_expanded (GTK_EXPANDER (self->expander), FALSE);
}

static void
change_cb (GtkButton *button, SwChangeForm *self)
{
  const SwPageContext *context = context_of (self);
  SwCase c = sw_page_context_case (context);
  const SwPlan *plan = sw_case_plan (&c);
  g_autofree char *choices = sw_plan_table_get_choices (self->table);
  g_autofree char *reason = sw_field_dup_text (self->reason);
  SwRequest *request;

  if (!is_changed (self))
    {
      sw_finding_view_set_sentence (self->answer, SW_NOTE, _("Choose another medicine in the table first."), NULL);
      return;
    }
  request = sw_request_sign_plan (context->person, context->patient, context->course, plan->treat_day, plan->weight,
                                  choices);
  sw_request_set_reason (request, reason);
  sw_replan_view_show (self->preview, NULL, 0); /* the answer says it from here on */
  sw_step_page_perform (page_of (self), request, self->answer, changed_cb, self);
}

/* --- both --- */

void
sw_change_form_update (SwChangeForm *self, const SwPageContext *context, SwPageChanges changes)
{
  SwCase c = sw_page_context_case (context);

  if (changes & SW_CHANGED_SUBJECT)
    {
      sw_finding_view_clear (self->weight_answer);
      sw_finding_view_clear (self->answer);
      gtk_editable_set_text (GTK_EDITABLE (self->reason), "");
      gtk_expander_set_expanded (GTK_EXPANDER (self->expander), FALSE);
      g_clear_pointer (&self->choices, g_free);
    }
  show_weight (self, context, &c);
  if (!is_changed (self))
    set_medicines (self, &c);
  show_medicines (self);
}

gboolean
sw_change_form_has_unsaved (SwChangeForm *self)
{
  return is_changed (self);
}

static GtkWidget *
wrapping_new (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  return label;
}

static GtkWidget *
act_new (const char *label, GCallback callback, SwChangeForm *self)
{
  GtkWidget *button = sw_button_new (label);

  gtk_widget_set_halign (button, GTK_ALIGN_END);
  g_signal_connect (button, "clicked", callback, self);
  return button;
}

static void
add_weighed (SwChangeForm *self)
{
  self->weighed = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->weights = GTK_LABEL (wrapping_new ());
  self->weight_preview = SW_REPLAN_VIEW (sw_replan_view_new ());
  self->weight_answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (self->weighed), GTK_WIDGET (self->weights));
  gtk_box_append (GTK_BOX (self->weighed), GTK_WIDGET (self->weight_preview));
  gtk_box_append (GTK_BOX (self->weighed), GTK_WIDGET (self->weight_answer));
  gtk_box_append (GTK_BOX (self->weighed),
                  act_new (_("Compute the Plan on This Weight"), G_CALLBACK (reweigh_cb), self));
  gtk_box_append (GTK_BOX (self), self->weighed);
}

static void
add_medicines (SwChangeForm *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *form = sw_form_new ();

  self->expander = sw_expander_new (_("Change a medicine"));
  self->table = SW_PLAN_TABLE (sw_plan_table_new (TRUE));
  self->reason = sw_text_field_new (40);
  self->preview = SW_REPLAN_VIEW (sw_replan_view_new ());
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  sw_form_add (GTK_GRID (form), _("reason for the change"), self->reason);
  gtk_widget_add_css_class (body, "expanded");
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->table));
  gtk_box_append (GTK_BOX (body), form);
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->preview));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (body), act_new (_("Change the Medicine"), G_CALLBACK (change_cb), self));
  gtk_expander_set_child (GTK_EXPANDER (self->expander), body);
  gtk_box_append (GTK_BOX (self), self->expander);
  g_signal_connect (self->table, "changed", G_CALLBACK (chosen_cb), self);
}

static void
sw_change_form_finalize (GObject *object)
{
  g_free (SW_CHANGE_FORM (object)->choices);
  G_OBJECT_CLASS (sw_change_form_parent_class)->finalize (object);
}

static void
sw_change_form_class_init (SwChangeFormClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_change_form_finalize;
}

static void
sw_change_form_init (SwChangeForm *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 12);
  add_weighed (self);
  add_medicines (self);
}

GtkWidget *
sw_change_form_new (void)
{
  return g_object_new (SW_TYPE_CHANGE_FORM, NULL);
}
