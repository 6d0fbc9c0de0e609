/* sw-course-end-section.c: how a course ends
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course-end-section-private.h"

#include "sw-course-words.h"
#include "sw-course.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-recheck-private.h"

#include <glib/gi18n-lib.h>

struct _SwCourseEndSection
{
  GtkBox parent_instance;

  /* children */
  GtkLabel *over; /* how it ended */
  GtkWidget *open;
  GtkWidget *end;   /* first choice: none */
  GtkWidget *cause; /* first choice: none */
  GtkWidget *cause_label;
  GtkWidget *day;
  GtkWidget *certain;
  GtkWidget *orders;
  GtkWidget *orders_label;
  GtkWidget *note;
  SwFindingView *answer;

  SwStepPage *page; /* borrowed: it holds this widget */
};

G_DEFINE_FINAL_TYPE (SwCourseEndSection, sw_course_end_section, GTK_TYPE_BOX)

static SwCase
case_of (SwCourseEndSection *self)
{
  return sw_page_context_case (sw_step_page_get_context (self->page));
}

static gboolean
is_death (int end)
{
  return end == SW_END_DIED || end == SW_END_EUTHANISED;
}

static gint64
cause_chosen (SwCourseEndSection *self)
{
  int cause = sw_choice_get (self->cause, TRUE);

  return is_death (sw_choice_get (self->end, TRUE)) && cause >= 0 ? cause : SW_UNKNOWN;
}

/* --- what the rules say about it --- */

static void
ask_rules (SwCourseEndSection *self)
{
  SwCase c = case_of (self);
  SwCourseEnd end = { .fact.kind = SW_FACT_COURSE_END, .fact.patient = c.dossier->patient, .course = c.course };
  int chosen = sw_choice_get (self->end, TRUE);
  g_autoptr (GPtrArray) findings = NULL;

  if (chosen < 0)
    {
      sw_finding_view_clear (self->answer);
      return;
    }
  end.end = chosen;
  end.cause = cause_chosen (self);
  end.day = c.now.day;
  findings = sw_course_end_findings (&c, &end);
  sw_finding_view_set_findings (self->answer, findings, FALSE);
}

/* Once the lead-in began, a course that is given up needs the vet's orders about the corticosteroid. */
static gboolean
needs_orders (const SwCase *c)
{
  return sw_dossier_injection (c->dossier, c->course) == NULL && sw_case_plan (c) != NULL;
}

static void
show_fields (SwCourseEndSection *self)
{
  SwCase c = case_of (self);
  gboolean death = is_death (sw_choice_get (self->end, TRUE)), orders = needs_orders (&c);

  gtk_widget_set_visible (self->cause, death);
  gtk_widget_set_visible (self->cause_label, death);
  gtk_widget_set_visible (self->orders, orders);
  gtk_widget_set_visible (self->orders_label, orders);
}

static void
chosen_cb (SwCourseEndSection *self)
{
  if (self->page == NULL)
    return;
  show_fields (self);
  ask_rules (self);
}

/* --- recording --- */

static void
start_anew (SwCourseEndSection *self)
{
  sw_choice_set (self->end, TRUE, -1);
  sw_choice_set (self->cause, TRUE, -1);
  sw_when_set (self->day, NULL, sw_page_context_now (sw_step_page_get_context (self->page)));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->certain), TRUE);
  gtk_editable_set_text (GTK_EDITABLE (self->orders), "");
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
}

static void
ended_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    start_anew (SW_COURSE_END_SECTION (owner));
}

static void
end_cb (GtkButton *button, SwCourseEndSection *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  g_autofree char *note = sw_field_dup_text (self->note), *orders = sw_field_dup_text (self->orders);
  int end = sw_choice_get (self->end, TRUE);
  SwRequest *request;
  SwMoment when;

  if (end < 0)
    {
      sw_finding_view_set_sentence (self->answer, SW_STOP, _("How the course ended is not chosen."), _("Choose it."));
      gtk_widget_grab_focus (self->end);
      return;
    }
  if (!sw_when_take (self->day, NULL, sw_page_context_now (context), &when))
    return;
  request = sw_request_end_course (context->person, context->patient, context->course, (SwEnd) end,
                                   cause_chosen (self), when.day,
                                   gtk_check_button_get_active (GTK_CHECK_BUTTON (self->certain)));
  sw_request_set_reason (request, note);
  sw_request_set_vet_orders (request, orders);
  sw_perform (GTK_WIDGET (self), context->record, request, self->answer, ended_cb, NULL);
}

/* --- showing --- */

/* "died (tumour), day 40, 2026-06-23; Ines, ..." */
static char *
words_of (const SwPageContext *context, const SwCase *c, const SwCourseEnd *end)
{
  g_autofree char *day = sw_words_day (c, end->day), *who = sw_words_recorded (context, &end->fact);
  GString *words = g_string_new (sw_end_name ((SwEnd) end->end));

  if (end->cause != SW_UNKNOWN)
    g_string_append_printf (words, _(", cause: %s"), sw_death_cause_name ((SwDeathCause) end->cause));
  g_string_append_printf (words, ", %s", day);
  if (!end->certain)
    g_string_append (words, _(" (the day is not certain)"));
  if (end->vet_orders != NULL)
    g_string_append_printf (words, "; %s", end->vet_orders);
  if (end->note != NULL)
    g_string_append_printf (words, "; %s", end->note);
  g_string_append_printf (words, "; %s", who);
  return g_string_free (words, FALSE);
}

void
sw_course_end_section_update (SwCourseEndSection *self, SwStepPage *page, SwPageChanges changes)
{
  const SwPageContext *context = sw_step_page_get_context (page);
  SwCase c = sw_page_context_case (context);
  const SwCourseEnd *end = sw_case_end (&c);
  g_autofree char *words = end != NULL ? words_of (context, &c, end) : NULL;
  gboolean anew = self->page == NULL || changes & SW_CHANGED_SUBJECT;

  self->page = page;
  gtk_label_set_text (self->over, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->over), end != NULL);
  gtk_widget_set_visible (self->open, end == NULL);
  if (anew)
    start_anew (self);
  else
    sw_when_offer (self->day, NULL, c.now);
  show_fields (self);
  if (anew)
    sw_finding_view_clear (self->answer);
}

gboolean
sw_course_end_section_has_unsaved (SwCourseEndSection *self)
{
  g_autofree char *note = sw_field_dup_text (self->note), *orders = sw_field_dup_text (self->orders);

  return note != NULL || orders != NULL || sw_choice_get (self->end, TRUE) >= 0
         || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->day));
}

void
sw_course_end_section_focus (SwCourseEndSection *self)
{
  gtk_widget_grab_focus (self->end);
}

static void
sw_course_end_section_class_init (SwCourseEndSectionClass *class)
{
}

static GtkWidget *
end_new (void)
{
  const char *ends[SW_N_ENDS + 1] = { NULL };

  for (int i = 0; i < SW_N_ENDS; i++)
    ends[i] = sw_end_name ((SwEnd) i);
  return sw_choice_new (_("How the course ended"), _("choose …"), ends);
}

static GtkWidget *
cause_new (void)
{
  const char *causes[SW_N_DEATH_CAUSES + 1] = { NULL };

  for (int i = 0; i < SW_N_DEATH_CAUSES; i++)
    causes[i] = sw_death_cause_name ((SwDeathCause) i);
  return sw_choice_new (_("Cause of death"), _("choose …"), causes);
}

static GtkWidget *
form_new (SwCourseEndSection *self)
{
  GtkWidget *form = sw_form_new (), *when;

  self->end = end_new ();
  self->cause = cause_new ();
  self->certain = sw_check_new (_("the day is certain"));
  self->orders = sw_text_field_new (40);
  self->note = sw_text_field_new (40);
  when = sw_when_new (_("Day the course ended"), NULL, &self->day, NULL);
  gtk_box_append (GTK_BOX (when), self->certain);
  sw_form_add (GTK_GRID (form), _("the course"), self->end);
  self->cause_label = sw_form_add (GTK_GRID (form), _("cause of death"), self->cause);
  sw_form_add (GTK_GRID (form), _("on"), when);
  self->orders_label = sw_form_add (GTK_GRID (form), _("vet's orders: taper or stop"), self->orders);
  sw_form_add (GTK_GRID (form), _("what happened"), self->note);

  return form;
}

static void
sw_course_end_section_init (SwCourseEndSection *self)
{
  GtkWidget *end = sw_button_new (_("End the Course"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->over = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->over, TRUE);
  gtk_label_set_xalign (self->over, 0);
  self->open = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_widget_set_halign (end, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->open), form_new (self));
  gtk_box_append (GTK_BOX (self->open), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (self->open), end);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->over));
  gtk_box_append (GTK_BOX (self), self->open);
  g_signal_connect_swapped (self->end, "notify::selected", G_CALLBACK (chosen_cb), self);
  g_signal_connect_swapped (self->cause, "notify::selected", G_CALLBACK (chosen_cb), self);
  g_signal_connect (end, "clicked", G_CALLBACK (end_cb), self);
}
