/* sw-workup-medicines.c: what the dog takes or took from elsewhere
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-medicines.h"

#include "sw-form.h"
#include "sw-interaction.h"
#include "sw-medicine-dialog.h"
#include "sw-wide.h"
#include "sw-workup-dog.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>

#define PER_MILLE 1000

typedef struct
{
  gint64 id; /* of the SwMedicineTaken row */
  GtkWidget *correct;
  GtkWidget *take_back;
} Line;

struct _SwWorkUpMedicines
{
  SwWorkUpSection parent_instance;

  GtkBox *lines_box;
  GArray *lines; /* Line */
  GtkWidget *add;
  SwQuestionForm *form;
  GtkWidget *record;
  GtkWidget *dialog; /* weak */
  SwDay shown_on;    /* washouts are told from that day */
};

G_DEFINE_FINAL_TYPE (SwWorkUpMedicines, sw_workup_medicines, SW_TYPE_WORKUP_SECTION)

static gboolean
is_wanted (const SwQuestion *question)
{
  return question->of == SW_ASKED_OF_DOG && sw_question_is_about_medicines (question);
}

/* --- acts --- */

static void
show_dialog (SwWorkUpMedicines *self, const SwMedicineTaken *old)
{
  g_autoptr (SwPageContext) context
      = sw_page_context_ref ((SwPageContext *) sw_workup_section_get_context (SW_WORKUP_SECTION (self)));

  g_set_weak_pointer (&self->dialog, sw_medicine_dialog_show (GTK_WIDGET (self), context, old));
}

static void
add_cb (SwWorkUpMedicines *self)
{
  show_dialog (self, NULL);
}

/* The current row behind a button, or NULL when it was corrected meanwhile. */
static const SwMedicineTaken *
row_of (SwWorkUpMedicines *self, GtkWidget *button)
{
  const SwDossier *dossier = sw_workup_section_get_context (SW_WORKUP_SECTION (self))->dossier;

  for (guint i = 0; i < self->lines->len; i++)
    {
      const Line *line = &g_array_index (self->lines, Line, i);
      const SwMedicineTaken *taken = sw_facts_by_id (&dossier->facts, SW_FACT_MEDICINE_TAKEN, line->id);

      if (line->correct == button || line->take_back == button)
        return taken != NULL && sw_fact_is_current (taken) ? taken : NULL;
    }
  return NULL;
}

static void
correct_cb (GtkWidget *button, SwWorkUpMedicines *self)
{
  const SwMedicineTaken *taken = row_of (self, button);

  if (taken != NULL)
    show_dialog (self, taken);
}

static void
take_back_cb (GtkWidget *button, SwWorkUpMedicines *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  const SwMedicineTaken *taken = row_of (self, button);
  SwRequest *request;

  if (taken == NULL)
    return;
  request = sw_workup_section_request (section, SW_ACT_RECORD_MEDICINE_TAKEN);
  sw_request_add (request, sw_fact_withdrawal (taken));
  sw_workup_section_perform (section, request, NULL, NULL);
}

static void
edited_cb (SwWorkUpMedicines *self)
{
  g_autofree char *status = sw_answers_status (sw_question_form_count_edited (self->form));

  sw_workup_section_set_status (SW_WORKUP_SECTION (self), status);
}

static void
recorded_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    sw_question_form_settle (SW_WORKUP_MEDICINES (data)->form);
}

static void
record_cb (SwWorkUpMedicines *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  g_autoptr (SwRequest) request = sw_workup_section_request (section, SW_ACT_ANSWER_WORK_UP);

  if (sw_question_form_collect (self->form, sw_workup_section_get_context (section), request) && request->facts->len > 0)
    sw_workup_section_perform (section, g_steal_pointer (&request), recorded_cb, self);
}

/* --- words --- */

static void
add_part (GString *text, const char *part)
{
  if (text->len > 0 && part[0] != '\0')
    g_string_append (text, " · ");
  g_string_append (text, part);
}

/* Thousandths without zeros at the end. (transfer full) */
static char *
decimal (gint64 milli)
{
  char *value, *limit;

  sw_ratio_format_beside (sw_ratio (milli, PER_MILLE), sw_ratio (milli, PER_MILLE), 0, &value, &limit);
  g_free (value);
  return limit;
}

static void
add_dose (GString *text, const SwMedicineTaken *taken)
{
  g_autofree char *mg = taken->dose_ug != SW_UNKNOWN ? decimal (taken->dose_ug) : NULL;
  g_autofree char *times = taken->per_day_milli != SW_UNKNOWN ? decimal (taken->per_day_milli) : NULL;
  g_autofree char *part = NULL;

  if (mg != NULL && times != NULL)
    part = g_strdup_printf (_("%s mg %s times a day"), mg, times);
  else if (mg != NULL)
    part = g_strdup_printf (_("%s mg, how often is not known"), mg);
  else if (times != NULL)
    part = g_strdup_printf (_("%s times a day, dose not known"), times);
  else
    part = g_strdup (_("dose not known"));
  add_part (text, part);
}

static void
add_days (GString *text, const SwMedicineTaken *taken)
{
  g_autofree char *first = sw_day_format (taken->first_day), *last = sw_day_format (taken->last_day);
  g_autofree char *part = NULL;

  if (taken->first_day != SW_NO_DAY && taken->last_day != SW_NO_DAY)
    part = g_strdup_printf (_("%s to %s"), first, last);
  else if (taken->first_day != SW_NO_DAY)
    part = g_strdup_printf (_("since %s, goes on"), first);
  else if (taken->last_day != SW_NO_DAY)
    part = g_strdup_printf (_("until %s, first day not known"), last);
  else
    part = g_strdup (_("goes on, first day not known"));
  add_part (text, part);
}

static char *
facts_of (const SwMedicineTaken *taken)
{
  GString *text = g_string_new (NULL);

  add_dose (text, taken);
  add_days (text, taken);
  add_part (text, sw_medicine_form_name (taken->form));
  if (taken->single_substance == 0)
    add_part (text, _("something besides in the pack"));
  if (taken->xylitol_free == 1)
    add_part (text, _("no xylitol"));
  if (taken->product != NULL)
    add_part (text, taken->product);
  if (taken->note != NULL)
    add_part (text, taken->note);
  return g_string_free (text, FALSE);
}

/* NULL: no washout is known of it. */
static char *
washout_of (const SwWorkUp *work_up, const SwMedicineTaken *taken)
{
  g_autofree char *day = NULL;
  gint64 days;
  SwDay open;

  if (!sw_washout_of (&work_up->c, taken, &days, &open))
    return NULL;
  day = sw_day_format (open);
  if (open == SW_NO_DAY)
    return g_strdup_printf (_("washout %" PRId64 " days, from the last dose on"), days);
  return g_strdup_printf (open <= work_up->c.now.day ? _("washout %" PRId64 " days: over since %s")
                                                     : _("washout %" PRId64 " days: open from %s"),
                          days, day);
}

/* --- lines --- */

static GtkWidget *
line_button (SwWorkUpMedicines *self, const char *act, const char *substance, GCallback callback)
{
  g_autofree char *name = g_strdup_printf ("%s: %s (%u)", act, substance, self->lines->len + 1);
  GtkWidget *button = sw_named_button_new (act, name);

  gtk_widget_add_css_class (button, "chip");
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  g_signal_connect (button, "clicked", callback, self);
  return button;
}

static GtkWidget *
words_new (const SwWorkUp *work_up, const SwMedicineTaken *taken)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  g_autofree char *facts = facts_of (taken);
  g_autofree char *washout = washout_of (work_up, taken);

  gtk_box_append (GTK_BOX (words), sw_heading_new (sw_substance_name (taken->substance)));
  gtk_box_append (GTK_BOX (words), sw_quiet_new (facts));
  if (washout != NULL)
    {
      GtkWidget *label = gtk_label_new (washout);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_box_append (GTK_BOX (words), label);
    }
  gtk_widget_set_hexpand (words, TRUE);
  return words;
}

static GtkWidget *
findings_new (const SwWorkUp *work_up, const SwMedicineTaken *taken)
{
  GtkWidget *view = sw_finding_view_new ();
  g_autoptr (GPtrArray) about = g_ptr_array_new ();

  for (guint i = 0; i < work_up->findings->len; i++)
    {
      const SwFinding *finding = work_up->findings->pdata[i];

      if (sw_place_of_finding (&work_up->c, finding).kind == SW_PLACE_MEDICINES
          && sw_finding_is_about_substance (finding, taken->substance))
        g_ptr_array_add (about, (gpointer) finding);
    }
  sw_finding_view_set_findings (SW_FINDING_VIEW (view), about, FALSE);
  return view;
}

static void
add_line (SwWorkUpMedicines *self, const SwWorkUp *work_up, const SwMedicineTaken *taken)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  const char *name = sw_substance_name (taken->substance);
  Line line = { taken->fact.id, line_button (self, _("Correct"), name, G_CALLBACK (correct_cb)),
                line_button (self, _("Take Back"), name, G_CALLBACK (take_back_cb)) };

  gtk_box_append (GTK_BOX (top), words_new (work_up, taken));
  gtk_box_append (GTK_BOX (top), line.correct);
  gtk_box_append (GTK_BOX (top), line.take_back);
  gtk_box_append (GTK_BOX (box), top);
  gtk_box_append (GTK_BOX (box), findings_new (work_up, taken));
  gtk_widget_add_css_class (box, "card");
  gtk_box_append (self->lines_box, box);
  g_array_append_val (self->lines, line);
}

static void
show_lines (SwWorkUpMedicines *self, const SwWorkUp *work_up)
{
  const SwFacts *facts = &work_up->context->dossier->facts;
  const SwMedicineTaken *taken;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->lines_box))) != NULL)
    gtk_box_remove (self->lines_box, child);
  g_array_set_size (self->lines, 0);
  for (guint i = 0; (taken = sw_facts_next (facts, SW_FACT_MEDICINE_TAKEN, &i)) != NULL;)
    add_line (self, work_up, taken);
  if (self->lines->len == 0)
    gtk_box_append (self->lines_box, sw_quiet_new (_("No medicine is listed. What the dog takes, or took in the last 60 days, belongs "
                                                     "here: pain tablets, injections, collars and dips too.")));
}

static void
sw_workup_medicines_update (SwWorkUpSection *section, const SwWorkUp *work_up, SwPageChanges changes)
{
  SwWorkUpMedicines *self = SW_WORKUP_MEDICINES (section);

  sw_question_form_update (self->form, work_up, (changes & SW_CHANGED_DOG) != 0);
  if ((changes & ~SW_CHANGED_TIME) || self->shown_on != work_up->c.now.day)
    show_lines (self, work_up);
  self->shown_on = work_up->c.now.day;
}

static gboolean
sw_workup_medicines_has_unsaved (SwWorkUpSection *section)
{
  return sw_question_form_count_edited (SW_WORKUP_MEDICINES (section)->form) > 0;
}

static gboolean
sw_workup_medicines_show_place (SwWorkUpSection *section, const SwPlace *place)
{
  SwWorkUpMedicines *self = SW_WORKUP_MEDICINES (section);

  if (place->kind == SW_PLACE_MEDICINES)
    return gtk_widget_grab_focus (self->lines->len > 0 ? g_array_index (self->lines, Line, 0).correct : self->add);
  return place->kind == SW_PLACE_QUESTION && sw_question_form_focus (self->form, place->question);
}

static void
sw_workup_medicines_dispose (GObject *object)
{
  g_clear_weak_pointer (&SW_WORKUP_MEDICINES (object)->dialog);
  G_OBJECT_CLASS (sw_workup_medicines_parent_class)->dispose (object);
}

static void
sw_workup_medicines_finalize (GObject *object)
{
  g_array_unref (SW_WORKUP_MEDICINES (object)->lines);
  G_OBJECT_CLASS (sw_workup_medicines_parent_class)->finalize (object);
}

static void
sw_workup_medicines_class_init (SwWorkUpMedicinesClass *class)
{
  SwWorkUpSectionClass *section_class = SW_WORKUP_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_workup_medicines_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_workup_medicines_finalize;
  section_class->update = sw_workup_medicines_update;
  section_class->has_unsaved = sw_workup_medicines_has_unsaved;
  section_class->show_place = sw_workup_medicines_show_place;
}

static void
sw_workup_medicines_init (SwWorkUpMedicines *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  GtkBox *body = sw_workup_section_get_body (section);

  self->lines = g_array_new (FALSE, FALSE, sizeof (Line));
  self->lines_box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  self->add = sw_button_new (_("_Add a Medicine"));
  self->form = SW_QUESTION_FORM (sw_question_form_new (is_wanted, 0, NULL));
  self->record = sw_primary_button_new (_("_Record the Answers"));
  gtk_widget_set_halign (self->add, GTK_ALIGN_START);
  gtk_box_append (body, GTK_WIDGET (self->lines_box));
  gtk_box_append (body, self->add);
  gtk_box_append (body, GTK_WIDGET (self->form));
  sw_workup_section_add_button (section, self->record);
  g_signal_connect_object (self->add, "clicked", G_CALLBACK (add_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->form, "edited", G_CALLBACK (edited_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->record, "clicked", G_CALLBACK (record_cb), self, G_CONNECT_SWAPPED);
}

SwQuestionForm *
sw_workup_medicines_get_form (SwWorkUpMedicines *self)
{
  return self->form;
}

GtkWidget *
sw_workup_medicines_get_record (SwWorkUpMedicines *self)
{
  return self->record;
}

GtkWidget *
sw_workup_medicines_get_add (SwWorkUpMedicines *self)
{
  return self->add;
}

GtkWidget *
sw_workup_medicines_get_dialog (SwWorkUpMedicines *self)
{
  return self->dialog;
}

GtkWidget *
sw_workup_medicines_get_button (SwWorkUpMedicines *self, guint n, const char *which)
{
  const Line *line = n < self->lines->len ? &g_array_index (self->lines, Line, n) : NULL;

  if (line == NULL)
    return NULL;
  return g_str_equal (which, "correct") ? line->correct : line->take_back;
}
