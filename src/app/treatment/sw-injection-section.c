/* sw-injection-section.c: the injection as it happened
 *
 * Given is at most drawn, drawn at most released; less needs a reason. The gate is asked again with the injection's
 * own minute. What
 * has happened against it is recorded by a vet with a reason, by a quieter button that appears only then.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-injection-section-private.h"

#include "sw-amount-row-private.h"
#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-people-choice.h"
#include "sw-quantity-entry.h"
#include "sw-second-person-private.h"
#include "sw-treatment-words-private.h"
#include "sw-vial-row-private.h"

#include <glib/gi18n-lib.h>

struct _SwInjectionSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *before; /* what comes here, while there is no release */
  GtkWidget *form;   /* all below, until the injection is on record */
  GtkWidget *vials;
  GtkWidget *amounts;
  SwQuantityEntry *day;
  SwQuantityEntry *time;
  SwPeopleChoice *injector;
  SwPeopleChoice *assistant;
  GtkWidget *needle;
  GtkWidget *unexpected;
  SwSecondPerson *second;
  GtkWidget *outside;
  SwFindingView *answer;
  GtkWidget *done; /* the injection in words */

  char *subject;   /* which course and tumours the rows are for */
};

G_DEFINE_FINAL_TYPE (SwInjectionSection, sw_injection_section, SW_TYPE_TREATMENT_SECTION)

static void
add_vial (SwInjectionSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  guint number = 1;
  GtkWidget *row;

  for (row = gtk_widget_get_first_child (self->vials); row != NULL; row = gtk_widget_get_next_sibling (row))
    number++;
  row = sw_vial_row_new (number);
  gtk_box_append (GTK_BOX (self->vials), row);
  if (context != NULL)
    sw_vial_row_update (SW_VIAL_ROW (row), sw_page_context_practice (context));
}

static void
another_vial_cb (GtkButton *button, SwInjectionSection *self)
{
  add_vial (self);
}

/* --- recording --- */

static gboolean
add_amounts (SwInjectionSection *self, SwRequest *request)
{
  GtkWidget *row;

  for (row = gtk_widget_get_first_child (self->amounts); row != NULL; row = gtk_widget_get_next_sibling (row))
    {
      SwInjectionTumour *amount = sw_amount_row_make (SW_AMOUNT_ROW (row));

      if (amount == NULL)
        return FALSE;
      sw_request_add (request, amount);
    }
  return TRUE;
}

/* Blank rows behind the first are no vials. */
static gboolean
add_vials (SwInjectionSection *self, SwRequest *request)
{
  GtkWidget *row;

  for (row = gtk_widget_get_first_child (self->vials); row != NULL; row = gtk_widget_get_next_sibling (row))
    {
      SwVial *vial;

      if (sw_vial_row_is_blank (SW_VIAL_ROW (row)) && gtk_widget_get_prev_sibling (row) != NULL)
        continue;
      vial = sw_vial_row_make (SW_VIAL_ROW (row));
      if (vial == NULL)
        return FALSE;
      sw_request_add (request, vial);
    }
  return TRUE;
}

static gboolean
complain (SwInjectionSection *self, GtkWidget *field, const char *sentence)
{
  if (sentence != NULL)
    sw_finding_view_set_sentence (self->answer, SW_NOT_KNOWN, sentence, NULL);
  gtk_widget_grab_focus (field);
  return FALSE;
}

static gboolean
add_injection (SwInjectionSection *self, SwRequest *request)
{
  SwInjection *injection;
  gint64 minute, day;
  g_autofree char *needle = sw_field_dup_text (self->needle);

  if (!sw_quantity_entry_take (self->day, &day))
    return complain (self, GTK_WIDGET (self->day), NULL);
  if (!sw_quantity_entry_take (self->time, &minute))
    return complain (self, GTK_WIDGET (self->time), NULL);
  if (sw_people_choice_get (self->injector) == 0)
    return complain (self, GTK_WIDGET (self->injector), _("Choose who injected."));
  if (needle == NULL)
    return complain (self, self->needle, _("Write which needle was used: its gauge."));
  injection = sw_new (SW_FACT_INJECTION, SwInjection);
  injection->day = day;
  injection->minute = minute;
  injection->injector = sw_people_choice_get (self->injector);
  injection->assistant = sw_people_choice_get (self->assistant);
  injection->needle = g_steal_pointer (&needle);
  injection->unexpected = sw_field_dup_text (self->unexpected);
  sw_request_add (request, injection);

  return TRUE;
}

/* NULL: something is wrong or missing, and has the focus. (transfer full) */
static SwRequest *
make_request (SwInjectionSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  g_autoptr (SwRequest) request = sw_request_injection (context->person, context->patient, context->course);
  SwReadAloud *read_aloud;

  sw_finding_view_clear (self->answer);
  if (!add_vials (self, request) || !add_amounts (self, request) || !add_injection (self, request))
    return NULL;
  read_aloud = sw_second_person_make (self->second, context, SW_READ_ALOUD_AFTER_DRAWING);
  if (read_aloud != NULL)
    sw_request_add (request, read_aloud);
  return g_steal_pointer (&request);
}

static void
replied_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  SwInjectionSection *self = SW_INJECTION_SECTION (owner);
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  gboolean vet = context != NULL && (sw_page_context_roles (context) & SW_ROLE_VET) != 0;

  gtk_widget_set_visible (self->outside, vet && reply != NULL && !reply->done);
  if (reply != NULL && reply->done)
    g_clear_pointer (&self->subject, g_free); /* what was typed is on record */
}

static void
record_cb (GtkButton *button, SwInjectionSection *self)
{
  SwRequest *request = make_request (self);

  if (request != NULL)
    sw_treatment_section_perform (SW_TREATMENT_SECTION (self), GTK_WIDGET (self), request, self->answer, replied_cb,
                                  NULL);
}

static void
reasoned_cb (const char *reason, gpointer data)
{
  g_autoptr (SwInjectionSection) self = data;
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  SwRequest *request;

  if (reason == NULL || sw_treatment_section_context (section) == NULL)
    return;
  request = make_request (self);
  if (request == NULL)
    return;
  sw_request_set_outside (request, reason);
  sw_treatment_section_perform (section, GTK_WIDGET (self), request, self->answer, replied_cb, NULL);
}

static void
outside_cb (GtkButton *button, SwInjectionSection *self)
{
  sw_dialog_reason (GTK_WIDGET (self), _("The injection was given although the gate stood against it."),
                    _("It is recorded as it was, marked outside the gate, and counted in the outcomes."),
                    _("Record It outside the Gate"), reasoned_cb, g_object_ref (self));
}

/* --- showing --- */

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

static void
start_anew (SwInjectionSection *self, const SwPageContext *context, GArray *tumours)
{
  clear_box (self->vials);
  clear_box (self->amounts);
  add_vial (self);
  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      g_autofree char *name = sw_treatment_tumour_name (context, tumour);

      gtk_box_append (GTK_BOX (self->amounts), sw_amount_row_new (tumour, name));
    }
  sw_quantity_entry_set_value (self->time, SW_UNKNOWN);
  gtk_editable_set_text (GTK_EDITABLE (self->needle), "");
  gtk_editable_set_text (GTK_EDITABLE (self->unexpected), "");
  sw_people_choice_set (self->assistant, 0);
  sw_second_person_clear (self->second);
  sw_finding_view_clear (self->answer);
  gtk_widget_set_visible (self->outside, FALSE);
}

static char *
subject_of (const SwPageContext *context, GArray *tumours)
{
  GString *subject = g_string_new (NULL);

  g_string_append_printf (subject, "%" G_GINT64_FORMAT, context->course);
  for (guint i = 0; i < tumours->len; i++)
    g_string_append_printf (subject, " %" G_GINT64_FORMAT, g_array_index (tumours, gint64, i));
  return g_string_free (subject, FALSE);
}

/* Rows are made anew for another course only: a release that became void loses nothing that was typed. */
static void
make_rows (SwInjectionSection *self, const SwPageContext *context)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, context->course);
  g_autofree char *subject = subject_of (context, tumours);

  if (g_strcmp0 (subject, self->subject) == 0)
    return;
  start_anew (self, context, tumours);
  g_free (self->subject);
  self->subject = g_steal_pointer (&subject);
}

static void
update_form (SwInjectionSection *self, const SwPageContext *context, const SwRelease *release)
{
  const SwPractice *practice = sw_page_context_practice (context);
  GtkWidget *row;

  sw_people_choice_update (self->injector, practice);
  sw_people_choice_update (self->assistant, practice);
  sw_second_person_update (self->second, practice);
  make_rows (self, context);
  sw_quantity_entry_offer_value (self->day, release->day);
  if (sw_people_choice_get (self->injector) == 0 && (sw_page_context_roles (context) & SW_ROLE_VET) != 0)
    sw_people_choice_set (self->injector, context->person);
  for (row = gtk_widget_get_first_child (self->vials); row != NULL; row = gtk_widget_get_next_sibling (row))
    sw_vial_row_update (SW_VIAL_ROW (row), practice);
  for (row = gtk_widget_get_first_child (self->amounts); row != NULL; row = gtk_widget_get_next_sibling (row))
    {
      const SwReleaseTumour *released
          = sw_treatment_released_for (context, release, sw_amount_row_get_tumour (SW_AMOUNT_ROW (row)));

      if (released != NULL)
        sw_amount_row_offer (SW_AMOUNT_ROW (row), released->drawn_nl);
    }
}

static void
sw_injection_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwInjectionSection *self = SW_INJECTION_SECTION (section);
  const SwInjection *injection = sw_dossier_injection (context->dossier, context->course);
  const SwRelease *release = sw_treatment_release (context);
  g_autofree char *words = injection != NULL ? sw_words_of_injection (context, injection) : NULL;
  gboolean asks = injection == NULL && release != NULL;

  if (asks)
    update_form (self, context, release);
  gtk_label_set_text (GTK_LABEL (self->done), words != NULL ? words : "");
  gtk_widget_set_visible (self->done, injection != NULL);
  gtk_widget_set_visible (self->form, asks);
  gtk_widget_set_visible (self->before, injection == NULL && release == NULL);
}

static gboolean
sw_injection_section_has_unsaved (SwTreatmentSection *section)
{
  SwInjectionSection *self = SW_INJECTION_SECTION (section);
  GtkWidget *row;

  if (!gtk_widget_get_visible (self->form))
    return FALSE;
  for (row = gtk_widget_get_first_child (self->vials); row != NULL; row = gtk_widget_get_next_sibling (row))
    if (!sw_vial_row_is_blank (SW_VIAL_ROW (row)))
      return TRUE;
  for (row = gtk_widget_get_first_child (self->amounts); row != NULL; row = gtk_widget_get_next_sibling (row))
    if (!sw_amount_row_is_blank (SW_AMOUNT_ROW (row)))
      return TRUE;
  return sw_quantity_entry_get_text (self->time)[0] != '\0';
}

static void
sw_injection_section_finalize (GObject *object)
{
  g_free (SW_INJECTION_SECTION (object)->subject);
  G_OBJECT_CLASS (sw_injection_section_parent_class)->finalize (object);
}

static void
sw_injection_section_class_init (SwInjectionSectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_injection_section_finalize;
  section_class->update = sw_injection_section_update;
  section_class->has_unsaved = sw_injection_section_has_unsaved;
}

static GtkWidget *
make_how (SwInjectionSection *self)
{
  GtkWidget *form = sw_form_new ();

  self->day = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DAY, _("injected on")));
  self->time = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_TIME, _("injected at")));
  self->injector = SW_PEOPLE_CHOICE (sw_people_choice_new (_("injected by"), _("choose …")));
  self->assistant = SW_PEOPLE_CHOICE (sw_people_choice_new (_("assisted by"), _("nobody")));
  self->needle = sw_text_field_new (20);
  self->unexpected = sw_text_field_new (40);
  self->second = SW_SECOND_PERSON (
      sw_second_person_new (_ ("after drawing, read aloud by"), _ ("I was alone: I looked a second time")));
  gtk_widget_set_halign (self->needle, GTK_ALIGN_START);
  sw_quantity_entry_set_required (self->day, TRUE);
  sw_quantity_entry_set_required (self->time, TRUE);
  sw_form_add (GTK_GRID (form), _("injected _on"), GTK_WIDGET (self->day));
  sw_form_add (GTK_GRID (form), _("injected _at"), GTK_WIDGET (self->time));
  sw_form_add (GTK_GRID (form), _("_by"), GTK_WIDGET (self->injector));
  sw_form_add (GTK_GRID (form), _("assisted b_y"), GTK_WIDGET (self->assistant));
  sw_form_add (GTK_GRID (form), _("_needle, its gauge"), self->needle);
  sw_form_add (GTK_GRID (form), _("anything _unexpected"), self->unexpected);
  sw_form_add_wide (GTK_GRID (form), GTK_WIDGET (self->second));

  return form;
}

static GtkWidget *
make_acts (SwInjectionSection *self)
{
  GtkWidget *acts = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *record = sw_primary_button_new (_("Record the _Injection"));

  self->outside = sw_button_new (_("Record the Injection outside the Gate…"));
  gtk_widget_add_css_class (self->outside, "flat");
  gtk_widget_set_visible (self->outside, FALSE);
  gtk_widget_set_halign (acts, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (acts), self->outside);
  gtk_box_append (GTK_BOX (acts), record);
  g_signal_connect (self->outside, "clicked", G_CALLBACK (outside_cb), self);
  g_signal_connect (record, "clicked", G_CALLBACK (record_cb), self);

  return acts;
}

static void
sw_injection_section_init (SwInjectionSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *another = sw_button_new (_("Another _Vial"));

  sw_treatment_section_set_heading (section, _("Drawing and injecting"));
  self->before = sw_quiet_new (
      _ ("Vials, what was drawn and what was given are recorded here once a vet has released the dose."));
  self->form = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->vials = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->amounts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->done = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->done), 0);
  gtk_label_set_wrap (GTK_LABEL (self->done), TRUE);
  gtk_widget_set_halign (another, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->form), self->vials);
  gtk_box_append (GTK_BOX (self->form), another);
  gtk_box_append (GTK_BOX (self->form), self->amounts);
  gtk_box_append (GTK_BOX (self->form), make_how (self));
  gtk_box_append (GTK_BOX (self->form), make_acts (self));
  gtk_box_append (GTK_BOX (self->form), GTK_WIDGET (self->answer));
  sw_treatment_section_append (section, self->before);
  sw_treatment_section_append (section, self->form);
  sw_treatment_section_append (section, self->done);
  g_signal_connect (another, "clicked", G_CALLBACK (another_vial_cb), self);
}
