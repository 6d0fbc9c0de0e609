/* sw-recurrence-section.c: mast cells again in or beside a scar
 *
 * A tumour comes back once in a course; telling it again, when the sample is back, corrects what was told.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-recurrence-section-private.h"

#include "sw-course-words.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-quantity.h"
#include "sw-recheck-private.h"

#include <glib/gi18n-lib.h>

struct _SwRecurrenceSection
{
  GtkBox parent_instance;

  /* children */
  GtkWidget *tumour;
  GtkWidget *day;
  GtkWidget *sampled; /* first choice: presumed */
  GtkWidget *distance;
  GtkWidget *note;
  SwFindingView *answer;
  GtkListBox *list;

  GArray *tumours;  /* gint64, as in the drop-down */
  SwStepPage *page; /* borrowed: it holds this widget */
};

G_DEFINE_FINAL_TYPE (SwRecurrenceSection, sw_recurrence_section, GTK_TYPE_BOX)

static void
start_anew (SwRecurrenceSection *self)
{
  sw_when_set (self->day, NULL, sw_page_context_now (sw_step_page_get_context (self->page)));
  sw_choice_set (self->sampled, FALSE, 0);
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (self->distance), SW_UNKNOWN);
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
}

static void
recorded_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    start_anew (SW_RECURRENCE_SECTION (owner));
}

static SwRecurrence *
make_recurrence (SwRecurrenceSection *self, SwDay day, gint64 distance)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwRecurrence like = { .fact.kind = SW_FACT_RECURRENCE, .fact.patient = context->patient, .course = context->course };
  const SwRecurrence *old;
  SwRecurrence *row;

  like.tumour = g_array_index (self->tumours, gint64, sw_choice_get (self->tumour, FALSE));
  old = sw_facts_current_like (&context->dossier->facts, &like);
  row = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_RECURRENCE, SwRecurrence);
  row->course = like.course;
  row->tumour = like.tumour;
  row->day = day;
  row->sampled = sw_choice_get (self->sampled, FALSE);
  row->distance = distance;
  g_free (row->note);
  row->note = sw_field_dup_text (self->note);

  return row;
}

static void
record_cb (GtkButton *button, SwRecurrenceSection *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwRequest *request;
  gint64 distance;
  SwMoment when;

  if (!sw_when_take (self->day, NULL, sw_page_context_now (context), &when))
    return;
  if (!sw_quantity_entry_take (SW_QUANTITY_ENTRY (self->distance), &distance))
    {
      gtk_widget_grab_focus (self->distance);
      return;
    }
  request = sw_step_page_request (self->page, SW_ACT_RECORD_RECURRENCE);
  sw_request_add (request, make_recurrence (self, when.day, distance));
  sw_perform (GTK_WIDGET (self), context->record, request, self->answer, recorded_cb, NULL);
}

static char *
words_of (const SwDossier *dossier, const SwRecurrence *row)
{
  g_autofree char *tumour = sw_words_tumour (dossier, row->tumour);
  GString *words = g_string_new (tumour);

  g_string_append (words,
                   row->sampled ? _(": confirmed by cytology or histology") : _(": presumed, nobody sampled it"));
  if (row->distance != SW_UNKNOWN)
    {
      g_autofree char *mm = sw_length_format (row->distance);

      g_string_append_printf (words, _(", %s mm from the scar"), mm);
    }
  if (row->note != NULL)
    g_string_append_printf (words, "; %s", row->note);
  return g_string_free (words, FALSE);
}

static void
fill_list (SwRecurrenceSection *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwCase c = sw_page_context_case (context);
  const SwRecurrence *row;
  gboolean any = FALSE;

  sw_recheck_rows_clear (self->list);
  for (guint i = 0; (row = sw_facts_next (&c.dossier->facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    {
      g_autofree char *when = sw_words_day (&c, row->day), *who = sw_words_recorded (context, &row->fact);
      g_autofree char *words = words_of (c.dossier, row);

      if (row->course != c.course)
        continue;
      gtk_list_box_prepend (self->list, sw_recheck_row_new (&row->fact, when, words, who, NULL));
      any = TRUE;
    }
  gtk_widget_set_visible (GTK_WIDGET (self->list), any);
}

static void
offer_tumours (SwRecurrenceSection *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  g_clear_pointer (&self->tumours, g_array_unref);
  self->tumours = sw_dossier_course_tumours (context->dossier, context->course);
  for (guint i = 0; i < self->tumours->len; i++)
    {
      g_autofree char *name = sw_words_tumour (context->dossier, g_array_index (self->tumours, gint64, i));

      gtk_string_list_append (names, name);
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->tumour), G_LIST_MODEL (names));
}

void
sw_recurrence_section_update (SwRecurrenceSection *self, SwStepPage *page, SwPageChanges changes)
{
  gboolean first = self->page == NULL;

  self->page = page;
  if (first || changes & SW_CHANGED_SUBJECT)
    {
      sw_finding_view_clear (self->answer);
      offer_tumours (self);
      start_anew (self);
    }
  else
    sw_when_offer (self->day, NULL, sw_page_context_now (sw_step_page_get_context (page)));
  if (first || (changes & ~SW_CHANGED_TIME) != 0)
    fill_list (self);
}

gboolean
sw_recurrence_section_has_unsaved (SwRecurrenceSection *self)
{
  g_autofree char *note = sw_field_dup_text (self->note);

  return note != NULL || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->day))
         || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->distance))
         || sw_choice_get (self->sampled, FALSE) != 0;
}

gboolean
sw_recurrence_section_show_row (SwRecurrenceSection *self, gint64 id)
{
  GtkWidget *row = sw_recheck_row_find (self->list, SW_FACT_RECURRENCE, id);

  return row != NULL && gtk_widget_grab_focus (row);
}

static void
sw_recurrence_section_finalize (GObject *object)
{
  g_clear_pointer (&SW_RECURRENCE_SECTION (object)->tumours, g_array_unref);
  G_OBJECT_CLASS (sw_recurrence_section_parent_class)->finalize (object);
}

static void
sw_recurrence_section_class_init (SwRecurrenceSectionClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_recurrence_section_finalize;
}

static void
sw_recurrence_section_init (SwRecurrenceSection *self)
{
  const char *const certainty[] = { _("presumed, not sampled"), _("confirmed by cytology or histology"), NULL };
  const char *const none[] = { NULL };
  GtkWidget *form = sw_form_new (), *record = sw_button_new (_("Record the Recurrence"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->tumour = sw_choice_new (_("Tumour that came back"), NULL, none);
  self->sampled = sw_choice_new (_("How certain the recurrence is"), NULL, certainty);
  self->distance = sw_quantity_entry_new (SW_QUANTITY_LENGTH, _("Distance from the scar"));
  self->note = sw_text_field_new (40);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->list = sw_recheck_list_new (_("Recurrences on record"));
  sw_form_add (GTK_GRID (form), _("tumour"), self->tumour);
  sw_form_add (GTK_GRID (form), _("found on"), sw_when_new (_("Day the recurrence was found"), NULL, &self->day, NULL));
  sw_form_add (GTK_GRID (form), _("certainty"), self->sampled);
  sw_form_add (GTK_GRID (form), _("distance from the scar"), self->distance);
  sw_form_add (GTK_GRID (form), _("what was seen"), self->note);
  gtk_widget_set_halign (record, GTK_ALIGN_START);
  g_signal_connect (record, "clicked", G_CALLBACK (record_cb), self);
  gtk_box_append (GTK_BOX (self), form);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (self), record);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->list));
}
