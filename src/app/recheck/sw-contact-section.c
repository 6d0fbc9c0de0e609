/* sw-contact-section.c: attempts to reach the client
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-contact-section-private.h"

#include "sw-course-words.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-recheck-private.h"

#include <glib/gi18n-lib.h>

struct _SwContactSection
{
  GtkBox parent_instance;

  /* children */
  GtkWidget *phone;
  GtkWidget *day;
  GtkWidget *time;
  GtkWidget *reached; /* first choice: not reached */
  GtkWidget *note;
  SwFindingView *answer;
  GtkListBox *list;

  SwStepPage *page; /* borrowed: it holds this widget */
};

G_DEFINE_FINAL_TYPE (SwContactSection, sw_contact_section, GTK_TYPE_BOX)

static void
start_anew (SwContactSection *self)
{
  sw_when_set (self->day, self->time, sw_page_context_now (sw_step_page_get_context (self->page)));
  sw_choice_set (self->reached, FALSE, 0);
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
}

static void
recorded_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    start_anew (SW_CONTACT_SECTION (owner));
}

static void
record_cb (GtkButton *button, SwContactSection *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwRequest *request;
  SwContact *contact;
  SwMoment when;

  if (!sw_when_take (self->day, self->time, sw_page_context_now (context), &when))
    return;
  contact = sw_new (SW_FACT_CONTACT, SwContact);
  contact->course = context->course;
  contact->day = when.day;
  contact->minute = when.minute;
  contact->reached = sw_choice_get (self->reached, FALSE);
  contact->note = sw_field_dup_text (self->note);
  request = sw_step_page_request (self->page, SW_ACT_RECORD_CONTACT);
  sw_request_add (request, contact);
  sw_perform (GTK_WIDGET (self), context->record, request, self->answer, recorded_cb, NULL);
}

static char *
words_of (const SwContact *contact)
{
  const char *reached = contact->reached ? _("reached") : _("not reached");

  return contact->note != NULL ? g_strdup_printf ("%s; %s", reached, contact->note) : g_strdup (reached);
}

static void
fill_list (SwContactSection *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwCase c = sw_page_context_case (context);
  const SwContact *contact;
  gboolean any = FALSE;

  sw_recheck_rows_clear (self->list);
  for (guint i = 0; (contact = sw_facts_next (&c.dossier->facts, SW_FACT_CONTACT, &i)) != NULL;)
    {
      g_autofree char *day = sw_words_day (&c, contact->day), *time = sw_time_format ((int) contact->minute);
      g_autofree char *when = g_strdup_printf ("%s %s", day, time), *words = words_of (contact);
      g_autofree char *who = sw_words_recorded (context, &contact->fact);

      if (contact->course != c.course)
        continue;
      gtk_list_box_prepend (self->list, sw_recheck_row_new (&contact->fact, when, words, who, NULL));
      any = TRUE;
    }
  gtk_widget_set_visible (GTK_WIDGET (self->list), any);
}

static void
show_phone (SwContactSection *self)
{
  const SwClientDetails *client = sw_dossier_client (sw_step_page_get_context (self->page)->dossier);
  g_autoptr (GString) words = g_string_new (client != NULL ? client->name : NULL);

  if (client != NULL && client->phone != NULL)
    g_string_append_printf (words, ", %s", client->phone);
  if (client != NULL && client->other_phone != NULL)
    g_string_append_printf (words, ", %s", client->other_phone);
  gtk_label_set_text (GTK_LABEL (self->phone), words->str);
}

void
sw_contact_section_update (SwContactSection *self, SwStepPage *page, SwPageChanges changes)
{
  gboolean first = self->page == NULL;

  self->page = page;
  if (first || changes & SW_CHANGED_SUBJECT)
    {
      sw_finding_view_clear (self->answer);
      start_anew (self);
    }
  else
    sw_when_offer (self->day, self->time, sw_page_context_now (sw_step_page_get_context (page)));
  if (!first && (changes & ~SW_CHANGED_TIME) == 0)
    return;
  show_phone (self);
  fill_list (self);
}

gboolean
sw_contact_section_has_unsaved (SwContactSection *self)
{
  g_autofree char *note = sw_field_dup_text (self->note);

  return note != NULL || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->day))
         || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->time)) || sw_choice_get (self->reached, FALSE) != 0;
}

gboolean
sw_contact_section_show_row (SwContactSection *self, gint64 id)
{
  GtkWidget *row = sw_recheck_row_find (self->list, SW_FACT_CONTACT, id);

  return row != NULL && gtk_widget_grab_focus (row);
}

static void
sw_contact_section_class_init (SwContactSectionClass *class)
{
}

static void
sw_contact_section_init (SwContactSection *self)
{
  const char *const answers[] = { _("not reached"), _("reached"), NULL };
  GtkWidget *form = sw_form_new (), *record = sw_button_new (_("Record the Attempt"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->phone = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->phone), 0);
  self->reached = sw_choice_new (_("Whether the client was reached"), NULL, answers);
  self->note = sw_text_field_new (40);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->list = sw_recheck_list_new (_("Attempts so far"));
  sw_form_add (GTK_GRID (form), _("client"), self->phone);
  sw_form_add (GTK_GRID (form), _("tried on"),
               sw_when_new (_("Day of the attempt"), _("Time of the attempt"), &self->day, &self->time));
  sw_form_add (GTK_GRID (form), _("client was"), self->reached);
  sw_form_add (GTK_GRID (form), _("what was said"), self->note);
  gtk_widget_set_halign (record, GTK_ALIGN_START);
  g_signal_connect (record, "clicked", G_CALLBACK (record_cb), self);
  gtk_box_append (GTK_BOX (self), form);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (self), record);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->list));
}
