/* sw-workup-dog.c: the work-up's questions about the dog
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-dog.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

struct _SwWorkUpDog
{
  SwWorkUpSection parent_instance;

  SwQuestionForm *form;
  GtkWidget *record;
};

G_DEFINE_FINAL_TYPE (SwWorkUpDog, sw_workup_dog, SW_TYPE_WORKUP_SECTION)

gboolean
sw_question_is_about_medicines (const SwQuestion *question)
{
  return g_str_equal (question->heading, sw_question ("medicine-history")->heading);
}

char *
sw_answers_status (guint n_edited)
{
  if (n_edited == 0)
    return NULL;
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u answer is not recorded yet.", "%u answers are not recorded yet.",
                                       n_edited),
                          n_edited);
}

static gboolean
is_wanted (const SwQuestion *question)
{
  return question->of == SW_ASKED_OF_DOG && !sw_question_is_about_medicines (question);
}

static void
edited_cb (SwWorkUpDog *self)
{
  g_autofree char *status = sw_answers_status (sw_question_form_count_edited (self->form));

  sw_workup_section_set_status (SW_WORKUP_SECTION (self), status);
}

static void
recorded_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    sw_question_form_settle (SW_WORKUP_DOG (data)->form);
}

static void
record_cb (SwWorkUpDog *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  g_autoptr (SwRequest) request = sw_workup_section_request (section, SW_ACT_ANSWER_WORK_UP);

  if (sw_question_form_collect (self->form, sw_workup_section_get_context (section), request) && request->facts->len > 0)
    sw_workup_section_perform (section, g_steal_pointer (&request), recorded_cb, self);
}

static void
sw_workup_dog_update (SwWorkUpSection *section, const SwWorkUp *work_up, SwPageChanges changes)
{
  sw_question_form_update (SW_WORKUP_DOG (section)->form, work_up, (changes & SW_CHANGED_DOG) != 0);
}

static gboolean
sw_workup_dog_has_unsaved (SwWorkUpSection *section)
{
  return sw_question_form_count_edited (SW_WORKUP_DOG (section)->form) > 0;
}

static gboolean
sw_workup_dog_show_place (SwWorkUpSection *section, const SwPlace *place)
{
  return place->kind == SW_PLACE_QUESTION && sw_question_form_focus (SW_WORKUP_DOG (section)->form, place->question);
}

static void
sw_workup_dog_class_init (SwWorkUpDogClass *class)
{
  SwWorkUpSectionClass *section_class = SW_WORKUP_SECTION_CLASS (class);

  section_class->update = sw_workup_dog_update;
  section_class->has_unsaved = sw_workup_dog_has_unsaved;
  section_class->show_place = sw_workup_dog_show_place;
}

static void
sw_workup_dog_init (SwWorkUpDog *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);

  self->form = SW_QUESTION_FORM (sw_question_form_new (is_wanted, 0, NULL));
  self->record = sw_primary_button_new (_("_Record the Answers"));
  gtk_box_append (sw_workup_section_get_body (section), GTK_WIDGET (self->form));
  sw_workup_section_add_button (section, self->record);
  g_signal_connect_object (self->form, "edited", G_CALLBACK (edited_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->record, "clicked", G_CALLBACK (record_cb), self, G_CONNECT_SWAPPED);
}

SwQuestionForm *
sw_workup_dog_get_form (SwWorkUpDog *self)
{
  return self->form;
}

GtkWidget *
sw_workup_dog_get_record (SwWorkUpDog *self)
{
  return self->record;
}
