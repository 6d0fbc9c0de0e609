/* sw-workup-tumours.c: the work-up of each tumour
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-tumours.h"

#include "sw-form.h"
#include "sw-region.h"
#include "sw-workup-dog.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  gint64 tumour;
  GtkWidget *box;
  GtkWidget *heading;
  SwFindingView *size; /* what the rules say of place and volume */
  SwQuestionForm *form;
  SwWorkUpReadings *readings;
} Card;

struct _SwWorkUpTumours
{
  SwWorkUpSection parent_instance;

  GtkBox *cards_box;
  GtkWidget *empty;
  GtkWidget *record;
  GPtrArray *cards; /* Card */
  gint64 patient;
};

G_DEFINE_FINAL_TYPE (SwWorkUpTumours, sw_workup_tumours, SW_TYPE_WORKUP_SECTION)

static gboolean
is_wanted (const SwQuestion *question)
{
  return question->of == SW_ASKED_OF_TUMOUR;
}

static Card *
find_card (SwWorkUpTumours *self, gint64 tumour)
{
  for (guint i = 0; i < self->cards->len; i++)
    if (((Card *) self->cards->pdata[i])->tumour == tumour)
      return self->cards->pdata[i];
  return NULL;
}

static guint
count_edited (SwWorkUpTumours *self)
{
  guint n = 0;

  for (guint i = 0; i < self->cards->len; i++)
    n += sw_question_form_count_edited (((Card *) self->cards->pdata[i])->form);
  return n;
}

static void
edited_cb (SwWorkUpTumours *self)
{
  g_autofree char *status = sw_answers_status (count_edited (self));

  sw_workup_section_set_status (SW_WORKUP_SECTION (self), status);
}

static void
recorded_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwWorkUpTumours *self = data;

  for (guint i = 0; reply != NULL && reply->done && i < self->cards->len; i++)
    sw_question_form_settle (((Card *) self->cards->pdata[i])->form);
}

static void
record_cb (SwWorkUpTumours *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  g_autoptr (SwRequest) request = NULL;

  if (self->cards->len == 0)
    return;
  request = sw_workup_section_request (section, SW_ACT_ANSWER_WORK_UP);
  for (guint i = 0; i < self->cards->len; i++)
    if (!sw_question_form_collect (((Card *) self->cards->pdata[i])->form, sw_workup_section_get_context (section), request))
      return;
  if (request->facts->len > 0)
    sw_workup_section_perform (section, g_steal_pointer (&request), recorded_cb, self);
}

/* --- cards --- */

static char *
heading_of (const SwDossier *dossier, const SwTumourDetails *tumour, gint64 course)
{
  g_autofree char *letter = sw_tumour_letter (tumour->letter);
  g_autoptr (GArray) treated = sw_dossier_course_tumours (dossier, course);
  gboolean is_treated = FALSE;

  for (guint i = 0; i < treated->len; i++)
    is_treated = is_treated || g_array_index (treated, gint64, i) == tumour->tumour;
  return g_strdup_printf ("%s %s: %s, %s, %s%s", _("Tumour"), letter, sw_side_name (tumour->side), sw_region_name (tumour->region),
                          sw_depth_name (tumour->depth), course != 0 && !is_treated ? _(" (not treated in this course)") : "");
}

static Card *
card_new (SwWorkUpTumours *self, const SwTumourDetails *tumour)
{
  Card *card = g_new0 (Card, 1);
  g_autofree char *letter = sw_tumour_letter (tumour->letter);
  g_autofree char *named = g_strdup_printf (_("tumour %s"), letter);

  card->tumour = tumour->tumour;
  card->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  card->heading = sw_heading_new ("");
  card->size = SW_FINDING_VIEW (sw_finding_view_new ());
  card->form = SW_QUESTION_FORM (sw_question_form_new (is_wanted, card->tumour, named));
  card->readings = SW_WORKUP_READINGS (sw_workup_readings_new (SW_WORKUP_SECTION (self), card->tumour, named));
  gtk_widget_add_css_class (card->box, "card");
  gtk_widget_add_css_class (card->heading, "card-title");
  gtk_label_set_wrap (GTK_LABEL (card->heading), TRUE);
  gtk_box_append (GTK_BOX (card->box), card->heading);
  gtk_box_append (GTK_BOX (card->box), sw_heading_new (_("Caliper readings")));
  gtk_box_append (GTK_BOX (card->box), GTK_WIDGET (card->readings));
  gtk_box_append (GTK_BOX (card->box), GTK_WIDGET (card->size));
  gtk_box_append (GTK_BOX (card->box), GTK_WIDGET (card->form));
  gtk_box_append (self->cards_box, card->box);
  g_signal_connect_object (card->form, "edited", G_CALLBACK (edited_cb), self, G_CONNECT_SWAPPED);
  g_ptr_array_add (self->cards, card);

  return card;
}

/* Place, volume and growth, met or not: they are no answers to questions. */
static void
show_size (const Card *card, const SwWorkUp *work_up)
{
  g_autoptr (GPtrArray) about = g_ptr_array_new ();

  for (guint i = 0; i < work_up->findings->len; i++)
    {
      const SwFinding *finding = work_up->findings->pdata[i];
      SwPlace place = sw_place_of_finding (&work_up->c, finding);

      if (finding->tumour == card->tumour && (place.kind == SW_PLACE_READINGS || place.kind == SW_PLACE_TUMOUR_DETAILS))
        g_ptr_array_add (about, (gpointer) finding);
    }
  sw_finding_view_set_findings (card->size, about, TRUE);
}

static void
update_card (Card *card, const SwWorkUp *work_up, const SwTumourDetails *tumour, gboolean anew)
{
  g_autofree char *heading = heading_of (work_up->context->dossier, tumour, work_up->context->course);

  gtk_label_set_text (GTK_LABEL (card->heading), heading);
  sw_question_form_update (card->form, work_up, anew);
  sw_workup_readings_update (card->readings, work_up, anew);
  show_size (card, work_up);
}

static void
clear_cards (SwWorkUpTumours *self)
{
  for (guint i = 0; i < self->cards->len; i++)
    gtk_box_remove (self->cards_box, ((Card *) self->cards->pdata[i])->box);
  g_ptr_array_set_size (self->cards, 0);
}

static void
sw_workup_tumours_update (SwWorkUpSection *section, const SwWorkUp *work_up, SwPageChanges changes)
{
  SwWorkUpTumours *self = SW_WORKUP_TUMOURS (section);
  const SwDossier *dossier = work_up->context->dossier;
  const SwTumourDetails *tumour;

  if (self->patient != work_up->context->patient)
    clear_cards (self);
  self->patient = work_up->context->patient;
  for (guint i = 0; (tumour = sw_facts_next (&dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    {
      Card *card = find_card (self, tumour->tumour);

      update_card (card != NULL ? card : card_new (self, tumour), work_up, tumour,
                   card == NULL || (changes & SW_CHANGED_DOG) != 0);
    }
  gtk_widget_set_visible (self->empty, self->cards->len == 0);
  gtk_widget_set_visible (self->record, self->cards->len > 0);
}

static gboolean
sw_workup_tumours_has_unsaved (SwWorkUpSection *section)
{
  SwWorkUpTumours *self = SW_WORKUP_TUMOURS (section);

  for (guint i = 0; i < self->cards->len; i++)
    if (sw_workup_readings_has_unsaved (((Card *) self->cards->pdata[i])->readings))
      return TRUE;
  return count_edited (self) > 0;
}

static GtkWidget *
sw_workup_tumours_first_empty_cell (SwWorkUpSection *section)
{
  SwWorkUpTumours *self = SW_WORKUP_TUMOURS (section);

  return self->cards->len > 0 ? sw_workup_readings_first_empty (((Card *) self->cards->pdata[0])->readings) : NULL;
}

static gboolean
sw_workup_tumours_show_place (SwWorkUpSection *section, const SwPlace *place)
{
  Card *card = find_card (SW_WORKUP_TUMOURS (section), place->tumour);

  if (card == NULL)
    return FALSE;
  if (place->kind == SW_PLACE_READINGS)
    return gtk_widget_grab_focus (GTK_WIDGET (sw_workup_readings_get_cell (card->readings, 0)));
  return place->kind == SW_PLACE_QUESTION && sw_question_form_focus (card->form, place->question);
}

static void
sw_workup_tumours_finalize (GObject *object)
{
  g_ptr_array_unref (SW_WORKUP_TUMOURS (object)->cards);
  G_OBJECT_CLASS (sw_workup_tumours_parent_class)->finalize (object);
}

static void
sw_workup_tumours_class_init (SwWorkUpTumoursClass *class)
{
  SwWorkUpSectionClass *section_class = SW_WORKUP_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_workup_tumours_finalize;
  section_class->update = sw_workup_tumours_update;
  section_class->has_unsaved = sw_workup_tumours_has_unsaved;
  section_class->first_empty_cell = sw_workup_tumours_first_empty_cell;
  section_class->show_place = sw_workup_tumours_show_place;
}

static GtkWidget *
empty_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *button = sw_button_new (_("Register a _Tumour"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "patient.add-tumour");
  gtk_box_append (GTK_BOX (box), sw_quiet_new (_("No tumour is registered yet. Here each one gets its diagnosis, its site and its "
                                                 "first caliper readings.")));
  gtk_box_append (GTK_BOX (box), button);

  return box;
}

static void
sw_workup_tumours_init (SwWorkUpTumours *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);

  self->cards = g_ptr_array_new_with_free_func (g_free);
  self->cards_box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 24));
  self->empty = empty_new ();
  self->record = sw_primary_button_new (_("_Record the Answers"));
  gtk_box_append (sw_workup_section_get_body (section), self->empty);
  gtk_box_append (sw_workup_section_get_body (section), GTK_WIDGET (self->cards_box));
  sw_workup_section_add_button (section, self->record);
  g_signal_connect_object (self->record, "clicked", G_CALLBACK (record_cb), self, G_CONNECT_SWAPPED);
}

SwQuestionForm *
sw_workup_tumours_get_form (SwWorkUpTumours *self, gint64 tumour)
{
  Card *card = find_card (self, tumour);

  return card != NULL ? card->form : NULL;
}

SwWorkUpReadings *
sw_workup_tumours_get_readings (SwWorkUpTumours *self, gint64 tumour)
{
  Card *card = find_card (self, tumour);

  return card != NULL ? card->readings : NULL;
}

GtkWidget *
sw_workup_tumours_get_record (SwWorkUpTumours *self)
{
  return self->record;
}
