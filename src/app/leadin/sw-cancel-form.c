/* sw-cancel-form.c: end a course before its injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-cancel-form-private.h"

#include "sw-expander-private.h"
#include "sw-replan-view-private.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

/* A course without an injection can't be completed. */
static const SwEnd ends[]
    = { SW_END_WITHDRAWN, SW_END_STOPPED, SW_END_TRANSFERRED, SW_END_DIED, SW_END_EUTHANISED, SW_END_LOST };

struct _SwCancelForm
{
  GtkBox parent_instance;

  GtkWidget *expander;
  GtkWidget *end;
  GtkWidget *cause_words;
  GtkWidget *cause;
  GtkWidget *orders;
  GtkWidget *note;
  SwReplanView *preview;
  SwFindingView *answer;
};

G_DEFINE_FINAL_TYPE (SwCancelForm, sw_cancel_form, GTK_TYPE_BOX)

static SwStepPage *
page_of (SwCancelForm *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

static gboolean
is_death (int chosen)
{
  return chosen >= 0 && (ends[chosen] == SW_END_DIED || ends[chosen] == SW_END_EUTHANISED);
}

/* The cause as it is kept: SW_UNKNOWN unless the dog died. */
static gint64
cause_of (SwCancelForm *self)
{
  int cause = is_death (sw_choice_get (self->end, TRUE)) ? sw_choice_get (self->cause, TRUE) : -1;

  return cause >= 0 ? cause : SW_UNKNOWN;
}

static SwReplan *
preview_of (SwCancelForm *self, const SwCase *c, int chosen)
{
  SwCourseEnd *end = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  end->course = c->course;
  end->end = ends[chosen];
  end->cause = cause_of (self);
  end->day = c->now.day;
  end->certain = 1;
  end->vet_orders = sw_field_dup_text (self->orders);
  return sw_cancel_course (c, end);
}

static void
show (SwCancelForm *self)
{
  const SwPageContext *context = sw_step_page_get_context (page_of (self));
  SwCase c = sw_page_context_case (context);
  int chosen = sw_choice_get (self->end, TRUE);
  g_autoptr (SwReplan) replan = chosen >= 0 ? preview_of (self, &c, chosen) : NULL;

  gtk_widget_set_visible (self->cause, is_death (chosen));
  gtk_widget_set_visible (self->cause_words, is_death (chosen));
  sw_replan_view_show (self->preview, replan, sw_page_context_roles (context));
}

static void
changed_cb (GtkWidget *widget, SwCancelForm *self)
{
  if (page_of (self) != NULL && gtk_expander_get_expanded (GTK_EXPANDER (self->expander)))
    show (self);
}

static void
chosen_cb (GtkWidget *choice, GParamSpec *pspec, SwCancelForm *self)
{
  changed_cb (choice, self);
}

static void
clear (SwCancelForm *self)
{
  gtk_expander_set_expanded (GTK_EXPANDER (self->expander), FALSE);
  sw_choice_set (self->end, TRUE, -1);
  sw_choice_set (self->cause, TRUE, -1);
  gtk_editable_set_text (GTK_EDITABLE (self->orders), "");
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
  sw_replan_view_show (self->preview, NULL, 0);
}

static void
ended_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    clear (data);
}

static void
end_cb (GtkButton *button, SwCancelForm *self)
{
  const SwPageContext *context = sw_step_page_get_context (page_of (self));
  g_autofree char *orders = sw_field_dup_text (self->orders), *note = sw_field_dup_text (self->note);
  int chosen = sw_choice_get (self->end, TRUE);
  SwRequest *request;

  if (chosen < 0)
    {
      sw_finding_view_set_sentence (self->answer, SW_STOP, _("Choose how the course ends."), NULL);
      gtk_widget_grab_focus (self->end);
      return;
    }
  request = sw_request_end_course (context->person, context->patient, context->course, ends[chosen], cause_of (self),
                                   sw_page_context_now (context).day, TRUE);
  sw_request_set_vet_orders (request, orders);
  sw_request_set_reason (request, note);
  sw_replan_view_show (self->preview, NULL, 0); /* the answer says it from here on */
  sw_step_page_perform (page_of (self), request, self->answer, ended_cb, self);
}

void
sw_cancel_form_update (SwCancelForm *self, const SwPageContext *context, SwPageChanges changes)
{
  if (changes & SW_CHANGED_SUBJECT)
    {
      clear (self);
      sw_finding_view_clear (self->answer);
    }
  if (gtk_expander_get_expanded (GTK_EXPANDER (self->expander)))
    show (self);
}

gboolean
sw_cancel_form_has_unsaved (SwCancelForm *self)
{
  g_autofree char *orders = sw_field_dup_text (self->orders), *note = sw_field_dup_text (self->note);

  return orders != NULL || note != NULL;
}

/* --- making --- */

static GtkWidget *
end_choice_new (void)
{
  const char *names[G_N_ELEMENTS (ends) + 1] = { NULL };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    names[i] = sw_end_name (ends[i]);
  return sw_choice_new (_("how the course ends"), _("choose…"), names);
}

static GtkWidget *
cause_choice_new (void)
{
  const char *names[SW_N_DEATH_CAUSES + 1] = { NULL };

  for (int i = 0; i < SW_N_DEATH_CAUSES; i++)
    names[i] = sw_death_cause_name ((SwDeathCause) i);
  return sw_choice_new (_("cause of death"), _("choose…"), names);
}

static GtkWidget *
form_new (SwCancelForm *self)
{
  GtkWidget *form = sw_form_new ();

  self->end = end_choice_new ();
  self->cause = cause_choice_new ();
  self->orders = sw_text_field_new (40);
  self->note = sw_text_field_new (40);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->orders),
                                  _("how the corticosteroid is tapered, or that it is stopped"));
  sw_form_add (GTK_GRID (form), _("how the course ends"), self->end);
  self->cause_words = sw_form_add (GTK_GRID (form), _("cause of death"), self->cause);
  sw_form_add (GTK_GRID (form), _("vet's order (taper or stop)"), self->orders);
  sw_form_add (GTK_GRID (form), _("note on the end"), self->note);
  g_signal_connect (self->end, "notify::selected", G_CALLBACK (chosen_cb), self);
  g_signal_connect (self->cause, "notify::selected", G_CALLBACK (chosen_cb), self);
  g_signal_connect (self->orders, "changed", G_CALLBACK (changed_cb), self);

  return form;
}

static void
sw_cancel_form_class_init (SwCancelFormClass *class)
{
}

static void
sw_cancel_form_init (SwCancelForm *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *end = sw_button_new (_("End the Course"));

  self->expander = sw_expander_new (_("End this course before the injection"));
  self->preview = SW_REPLAN_VIEW (sw_replan_view_new ());
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_widget_set_halign (end, GTK_ALIGN_END);
  gtk_widget_add_css_class (body, "expanded");
  gtk_box_append (GTK_BOX (body), form_new (self));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->preview));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (body), end);
  gtk_expander_set_child (GTK_EXPANDER (self->expander), body);
  gtk_box_append (GTK_BOX (self), self->expander);
  g_signal_connect (end, "clicked", G_CALLBACK (end_cb), self);
  g_signal_connect_swapped (self->expander, "notify::expanded", G_CALLBACK (sw_finding_view_clear), self->answer);
}

GtkWidget *
sw_cancel_form_new (void)
{
  return g_object_new (SW_TYPE_CANCEL_FORM, NULL);
}
