/* sw-response-page.c: the response: figures side by side, category, the dog's overall, and what comes next
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-response-page.h"

#include "sw-course-words.h"
#include "sw-form.h"
#include "sw-next-step-private.h"
#include "sw-response-card-private.h"
#include "sw-response.h"
#include "sw-score-list-private.h"

#include <glib/gi18n-lib.h>

struct _SwResponsePage
{
  SwStepPage parent_instance;

  /* template children */
  GtkWidget *nothing;
  GtkLabel *nothing_words;
  GtkWidget *nothing_act;
  GtkWidget *score;
  GtkDropDown *days;
  GtkLabel *window;
  GtkBox *cards;
  GtkLabel *overall;
  GtkGrid *form;
  SwFindingView *answer;
  GtkBox *button_place;
  SwNextStep *next;
  GtkWidget *earlier;
  GtkListBox *scores;

  /* borrowed: made in init */
  GtkWidget *non_targets;
  GtkWidget *new_tumour;
  GtkWidget *reason;
  GtkWidget *reason_label;
  GtkWidget *record_words;

  GArray *offered; /* SwDay, as in the drop-down */
  SwDay day;       /* shown; SW_NO_DAY: nothing to score */
  guint filling : 1;
};

G_DEFINE_FINAL_TYPE (SwResponsePage, sw_response_page, SW_TYPE_STEP_PAGE)

static SwCase
case_of (SwResponsePage *self)
{
  return sw_page_context_case (sw_step_page_get_context (SW_STEP_PAGE (self)));
}

/* The overall recorded for the day shown; NULL: not scored. */
static const SwOverall *
recorded (SwResponsePage *self, const SwCase *c)
{
  SwOverall like = { .fact.kind = SW_FACT_OVERALL, .fact.patient = c->dossier->patient, .course = c->course,
                     .day = self->day };

  return sw_facts_current_like (&c->dossier->facts, &like);
}

/* --- the dog --- */

static void
show_overall (SwResponsePage *self)
{
  SwCase c = case_of (self);
  SwNonTargets others = (SwNonTargets) sw_choice_get (self->non_targets, FALSE);
  gboolean is_new = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->new_tumour));
  SwCategory dog = sw_response_overall (TRUE, sw_response_of_dog (&c, self->day, others), SW_NON_TARGETS_NONE, is_new);
  g_autofree char *words = g_strdup_printf ("%s (%s)", sw_category_name (dog), sw_category_code (dog));

  gtk_label_set_text (self->overall, words);
}

static void
dog_changed_cb (SwResponsePage *self)
{
  if (!self->filling && self->day != SW_NO_DAY)
    show_overall (self);
}

/* What the record knows is ticked and can't be unticked. */
static void
offer_dog (SwResponsePage *self, const SwCase *c, const SwOverall *before)
{
  gboolean known = sw_response_new_tumour (c, self->day);

  sw_choice_set (self->non_targets, FALSE, before != NULL ? (int) before->non_targets : SW_NON_TARGETS_NONE);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->new_tumour),
                               known || (before != NULL && before->new_tumour != 0));
  gtk_widget_set_sensitive (self->new_tumour, !known);
}

static void
show_dog (SwResponsePage *self, gboolean anew)
{
  SwCase c = case_of (self);
  const SwOverall *before = recorded (self, &c);

  self->filling = TRUE;
  if (anew)
    {
      offer_dog (self, &c, before);
      gtk_editable_set_text (GTK_EDITABLE (self->reason), "");
    }
  self->filling = FALSE;
  gtk_widget_set_visible (self->reason, before != NULL);
  gtk_widget_set_visible (self->reason_label, before != NULL);
  gtk_label_set_label (GTK_LABEL (self->record_words), before != NULL ? _("_Amend the Score") : _("_Record the Score"));
  show_overall (self);
}

/* --- the day --- */

static void
show_window (SwResponsePage *self, const SwCase *c)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  g_autofree char *words = NULL;

  if (protocol != NULL)
    words = g_strdup_printf (_("days %d to %d count as day %d"), protocol->score_first_day, protocol->score_last_day,
                             protocol->score_day);
  gtk_label_set_text (self->window, words != NULL ? words : "");
}

static void
show_day (SwResponsePage *self, gboolean anew)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  SwCase c = sw_page_context_case (context);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c.dossier, c.course);
  GtkWidget *card;

  while ((card = gtk_widget_get_first_child (GTK_WIDGET (self->cards))) != NULL)
    gtk_box_remove (self->cards, card);
  for (guint i = 0; i < tumours->len; i++)
    gtk_box_append (self->cards, sw_response_card_new (context, g_array_index (tumours, gint64, i), self->day));
  show_window (self, &c);
  show_dog (self, anew);
  sw_next_step_show (self->next, SW_STEP_PAGE (self), self->day);
}

static void
day_chosen_cb (GtkDropDown *days, GParamSpec *pspec, SwResponsePage *self)
{
  guint selected = gtk_drop_down_get_selected (days);

  if (self->filling || selected >= self->offered->len)
    return;
  self->day = g_array_index (self->offered, SwDay, selected);
  sw_finding_view_clear (self->answer);
  show_day (self, TRUE);
}

/* The newest day, unless another is being looked at. */
static void
offer_days (SwResponsePage *self, const SwCase *c, gboolean anew)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;

  g_clear_pointer (&self->offered, g_array_unref);
  self->offered = sw_response_days (c);
  for (guint i = 0; i < self->offered->len; i++)
    {
      SwDay day = g_array_index (self->offered, SwDay, i);
      g_autofree char *name = sw_words_day (c, day);

      gtk_string_list_append (names, name);
      if (!anew && day == self->day)
        selected = i;
    }
  self->filling = TRUE;
  gtk_drop_down_set_model (self->days, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->days, selected);
  self->filling = FALSE;
  self->day = self->offered->len > 0 ? g_array_index (self->offered, SwDay, selected) : SW_NO_DAY;
}

static const char *
why_nothing (const SwCase *c)
{
  if (c->course == 0)
    return _("No course is open: a response belongs to a course.");
  if (sw_dossier_injection (c->dossier, c->course) == NULL)
    return _("Nothing was injected in this course yet, so there is no response to score.");
  return _("Nothing was measured or looked at since the injection.");
}

static void
show_all (SwResponsePage *self, gboolean anew)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  SwCase c = sw_page_context_case (context);
  SwDay before = self->day;

  if (c.course != 0)
    offer_days (self, &c, anew);
  else
    self->day = SW_NO_DAY;
  gtk_widget_set_visible (self->nothing, self->day == SW_NO_DAY);
  gtk_widget_set_visible (self->score, self->day != SW_NO_DAY);
  gtk_label_set_text (self->nothing_words, why_nothing (&c));
  gtk_widget_set_visible (self->nothing_act, c.course != 0 && sw_dossier_injection (c.dossier, c.course) != NULL);
  gtk_widget_set_visible (self->earlier, sw_score_list_fill (self->scores, context) > 0);
  if (self->day != SW_NO_DAY)
    show_day (self, anew || self->day != before);
}

/* --- acts --- */

static void
measure_cb (GtkButton *button, SwResponsePage *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "patient.show-row", "(ix)", SW_FACT_VISIT, (gint64) 0);
}

static void
recorded_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_editable_set_text (GTK_EDITABLE (SW_RESPONSE_PAGE (owner)->reason), "");
}

static void
record_cb (GtkButton *button, SwResponsePage *self)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  SwCase c = case_of (self);
  g_autofree char *reason = sw_field_dup_text (self->reason);
  SwRequest *request;

  if (recorded (self, &c) != NULL && reason == NULL)
    {
      sw_finding_view_set_sentence (self->answer, SW_STOP, _("This day has a score: amending it needs a reason."),
                                    _("Write why it is scored again; the earlier score stays on record."));
      gtk_widget_grab_focus (self->reason);
      return;
    }
  request = sw_request_score (context->person, context->patient, context->course, self->day,
                              (SwNonTargets) sw_choice_get (self->non_targets, FALSE),
                              gtk_check_button_get_active (GTK_CHECK_BUTTON (self->new_tumour)));
  sw_request_set_reason (request, reason);
  sw_step_page_perform (SW_STEP_PAGE (self), request, self->answer, recorded_cb, NULL);
}

static void
sw_response_page_update (SwStepPage *page, const SwPageContext *context, SwPageChanges changes)
{
  SwResponsePage *self = SW_RESPONSE_PAGE (page);
  gboolean anew = (changes & SW_CHANGED_SUBJECT) != 0;

  if ((changes & ~SW_CHANGED_TIME) == 0)
    return;
  if (anew)
    sw_finding_view_clear (self->answer);
  show_all (self, anew);
}

static gboolean
sw_response_page_has_unsaved (SwStepPage *page)
{
  g_autofree char *reason = sw_field_dup_text (SW_RESPONSE_PAGE (page)->reason);

  return reason != NULL;
}

static gboolean
sw_response_page_show_row (SwStepPage *page, SwFactKind kind, gint64 id)
{
  GtkWidget *row = sw_score_list_find (SW_RESPONSE_PAGE (page)->scores, kind, id);

  return row != NULL && gtk_widget_grab_focus (row);
}

static void
sw_response_page_finalize (GObject *object)
{
  g_clear_pointer (&SW_RESPONSE_PAGE (object)->offered, g_array_unref);
  G_OBJECT_CLASS (sw_response_page_parent_class)->finalize (object);
}

static void
sw_response_page_class_init (SwResponsePageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  SwStepPageClass *page_class = SW_STEP_PAGE_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_response_page_finalize;
  page_class->update = sw_response_page_update;
  page_class->has_unsaved = sw_response_page_has_unsaved;
  page_class->show_row = sw_response_page_show_row;
  g_type_ensure (SW_TYPE_FINDING_VIEW);
  g_type_ensure (SW_TYPE_NEXT_STEP);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-response-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, nothing);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, nothing_words);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, nothing_act);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, score);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, days);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, window);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, cards);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, overall);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, form);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, answer);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, button_place);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, next);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, earlier);
  gtk_widget_class_bind_template_child (widget_class, SwResponsePage, scores);
  gtk_widget_class_bind_template_callback (widget_class, day_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, measure_cb);
}

static void
add_form (SwResponsePage *self)
{
  const char *names[SW_N_NON_TARGETS + 1] = { NULL };

  for (int i = 0; i < SW_N_NON_TARGETS; i++)
    names[i] = sw_non_targets_name ((SwNonTargets) i);
  self->non_targets = sw_choice_new (_("Other known tumours"), NULL, names);
  self->new_tumour = sw_check_new (_("a new tumour was found since the injection"));
  self->reason = sw_text_field_new (40);
  sw_form_add (self->form, _("_other known tumours"), self->non_targets);
  sw_form_add (self->form, "", self->new_tumour);
  self->reason_label = sw_form_add (self->form, _("_why it is amended"), self->reason);
  g_signal_connect_swapped (self->non_targets, "notify::selected", G_CALLBACK (dog_changed_cb), self);
  g_signal_connect_swapped (self->new_tumour, "toggled", G_CALLBACK (dog_changed_cb), self);
}

static void
sw_response_page_init (SwResponsePage *self)
{
  GtkWidget *record;

  gtk_widget_init_template (GTK_WIDGET (self));
  self->day = SW_NO_DAY;
  self->offered = g_array_new (FALSE, FALSE, sizeof (SwDay));
  sw_name_drop_down (GTK_WIDGET (self->days), _("Day of the response"));
  add_form (self);
  record = sw_primary_button_new (_("_Record the Score"));
  self->record_words = gtk_button_get_child (GTK_BUTTON (record));
  g_signal_connect (record, "clicked", G_CALLBACK (record_cb), self);
  gtk_box_append (self->button_place, record);
}
