/* sw-discharge-section.c: a vet lets the dog go home, with a number for the night and somebody for the contact at
 * hour eight
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-discharge-section-private.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-observation.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

struct _SwDischargeSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *form;
  SwQuantityEntry *time;
  GtkWidget *night_number;
  GtkWidget *contact;
  GtkWidget *note;
  SwFindingView *answer;
  GtkWidget *done;
  SwDischarge *asked; /* while it is asked whether the dog goes early */
};

G_DEFINE_FINAL_TYPE (SwDischargeSection, sw_discharge_section, SW_TYPE_TREATMENT_SECTION)

static void
clear_fields (SwDischargeSection *self)
{
  sw_quantity_entry_set_value (self->time, SW_UNKNOWN);
  gtk_editable_set_text (GTK_EDITABLE (self->night_number), "");
  gtk_editable_set_text (GTK_EDITABLE (self->contact), "");
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
  sw_finding_view_clear (self->answer);
}

static void
replied_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    clear_fields (SW_DISCHARGE_SECTION (owner));
}

static void
perform (SwDischargeSection *self, SwDischarge *discharge)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  SwRequest *request = sw_treatment_section_request (section, SW_ACT_DISCHARGE);

  sw_request_add (request, discharge);
  sw_treatment_section_perform (section, GTK_WIDGET (self), request, self->answer, replied_cb, NULL);
}

static void
early_answered_cb (gboolean yes, gpointer data)
{
  g_autoptr (SwDischargeSection) self = data;
  SwDischarge *discharge = g_steal_pointer (&self->asked);

  if (yes && discharge != NULL && sw_treatment_section_context (SW_TREATMENT_SECTION (self)) != NULL)
    perform (self, discharge);
  else
    sw_fact_free (discharge);
}

static gboolean
complain (SwDischargeSection *self, GtkWidget *field, const char *sentence)
{
  sw_finding_view_set_sentence (self->answer, SW_NOT_KNOWN, sentence, NULL);
  gtk_widget_grab_focus (field);
  return FALSE;
}

static gboolean
is_complete (SwDischargeSection *self)
{
  g_autofree char *number = sw_field_dup_text (self->night_number);
  g_autofree char *contact = sw_field_dup_text (self->contact);

  if (number == NULL)
    return complain (self, self->night_number, _("Write the number that is answered out of hours."));
  if (contact == NULL)
    return complain (self, self->contact, _("Write who makes the contact at hour eight."));
  return TRUE;
}

static SwDischarge *
make_discharge (SwDischargeSection *self, const SwPageContext *context, gint64 minute)
{
  SwDischarge *discharge = sw_new (SW_FACT_DISCHARGE, SwDischarge);

  discharge->course = context->course;
  discharge->day = sw_page_context_now (context).day;
  discharge->minute = minute;
  discharge->night_number = sw_field_dup_text (self->night_number);
  discharge->eight_hour_contact = sw_field_dup_text (self->contact);
  discharge->note = sw_field_dup_text (self->note);

  return discharge;
}

static void
ask_early (SwDischargeSection *self, SwDischarge *discharge, SwMoment until)
{
  g_autofree char *time = sw_time_format (until.minute);
  g_autofree char *heading = g_strdup_printf (_("The dog is watched until %s."), time);

  g_clear_pointer (&self->asked, sw_fact_free);
  self->asked = discharge;
  sw_dialog_ask (GTK_WIDGET (self), heading, _("Does it go home before?"), _("Discharge Early"), early_answered_cb,
                 g_object_ref (self));
}

static void
discharge_cb (GtkButton *button, SwDischargeSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  SwCase c = sw_page_context_case (context);
  SwMoment until = sw_observation_until (&c);
  SwDischarge *discharge;
  gint64 minute;

  sw_finding_view_clear (self->answer);
  if (!sw_quantity_entry_take (self->time, &minute) || !is_complete (self))
    return;
  discharge = make_discharge (self, context, minute);
  if (sw_moment_compare ((SwMoment){ discharge->day, (int) minute }, until) < 0)
    ask_early (self, discharge, until);
  else
    perform (self, discharge);
}

static char *
words_of (const SwPageContext *context, const SwDischarge *discharge)
{
  g_autofree char *by
      = sw_treatment_by (context, discharge->fact.person, (SwMoment){ discharge->day, (int)discharge->minute },
                         sw_page_context_now (context).day);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _ ("Discharged by %s. Out of hours: %s. Contact at hour eight: %s."), by,
                          discharge->night_number, discharge->eight_hour_contact);
  if (discharge->note != NULL)
    g_string_append_printf (text, "\n%s", discharge->note);
  return g_string_free (text, FALSE);
}

static void
sw_discharge_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwDischargeSection *self = SW_DISCHARGE_SECTION (section);
  const SwDischarge *discharge = sw_facts_of_course (&context->dossier->facts, SW_FACT_DISCHARGE, context->course);
  g_autofree char *words = discharge != NULL ? words_of (context, discharge) : NULL;

  if (changes & (SW_CHANGED_PATIENT | SW_CHANGED_COURSE))
    clear_fields (self);
  gtk_widget_set_visible (GTK_WIDGET (self), sw_dossier_injection (context->dossier, context->course) != NULL);
  gtk_label_set_text (GTK_LABEL (self->done), words != NULL ? words : "");
  gtk_widget_set_visible (self->done, discharge != NULL);
  gtk_widget_set_visible (self->form, discharge == NULL);
}

static gboolean
sw_discharge_section_has_unsaved (SwTreatmentSection *section)
{
  SwDischargeSection *self = SW_DISCHARGE_SECTION (section);
  GtkWidget *const entries[] = { self->night_number, self->contact, self->note };

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      g_autofree char *text = sw_field_dup_text (entries[i]);

      if (text != NULL)
        return TRUE;
    }
  return sw_quantity_entry_is_edited (self->time);
}

static void
sw_discharge_section_finalize (GObject *object)
{
  g_clear_pointer (&SW_DISCHARGE_SECTION (object)->asked, sw_fact_free);
  G_OBJECT_CLASS (sw_discharge_section_parent_class)->finalize (object);
}

static void
sw_discharge_section_class_init (SwDischargeSectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_discharge_section_finalize;
  section_class->update = sw_discharge_section_update;
  section_class->has_unsaved = sw_discharge_section_has_unsaved;
}

static void
sw_discharge_section_init (SwDischargeSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *form = sw_form_new ();
  GtkWidget *discharge = sw_primary_button_new (_("_Discharge the Dog"));

  sw_treatment_section_set_heading (section, _("Discharge"));
  self->form = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->time = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_TIME, _("goes home at")));
  self->night_number = sw_text_field_new (20);
  self->contact = sw_text_field_new (30);
  self->note = sw_text_field_new (40);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->done = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->done), 0);
  gtk_label_set_wrap (GTK_LABEL (self->done), TRUE);
  sw_quantity_entry_set_required (self->time, TRUE);
  gtk_widget_set_halign (discharge, GTK_ALIGN_END);
  sw_form_add (GTK_GRID (form), _("_goes home at"), GTK_WIDGET (self->time));
  sw_form_add (GTK_GRID (form), _("number out of _hours"), self->night_number);
  sw_form_add (GTK_GRID (form), _("contact at hour _eight by"), self->contact);
  sw_form_add (GTK_GRID (form), _("n_ote"), self->note);
  gtk_box_append (GTK_BOX (self->form), form);
  gtk_box_append (GTK_BOX (self->form), discharge);
  gtk_box_append (GTK_BOX (self->form), GTK_WIDGET (self->answer));
  sw_treatment_section_append (section, self->form);
  sw_treatment_section_append (section, self->done);
  g_signal_connect (discharge, "clicked", G_CALLBACK (discharge_cb), self);
}
