/* sw-release-section.c: the reading aloud and the release of the dose
 *
 * Two acts of two people. [Release the Dose] stays focusable: pressed while something blocks, it goes there.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-release-section-private.h"

#include "sw-definitions.h"
#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-gate-section-private.h"
#include "sw-outside-dialog-private.h"
#include "sw-second-person-private.h"
#include "sw-treatment-words-private.h"

#include <glib/gi18n-lib.h>

struct _SwReleaseSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *aloud;    /* all about the reading aloud */
  GtkWidget *words;    /* what is read */
  GtkWidget *was_read; /* who read when */
  SwSecondPerson *second;
  SwFindingView *aloud_answer;
  GtkWidget *standing; /* released, void, amended */
  GtkWidget *acts;
  GtkWidget *outside;
  GtkWidget *release;
  SwFindingView *answer;
};

G_DEFINE_FINAL_TYPE (SwReleaseSection, sw_release_section, SW_TYPE_TREATMENT_SECTION)

enum { BLOCKED, N_SIGNALS };

static guint signals[N_SIGNALS];

/* --- the reading aloud --- */

static const SwReadAloud *
read_aloud_today (const SwPageContext *context, SwDay today)
{
  const SwReadAloud *row, *newest = NULL;

  for (guint i = 0; (row = sw_facts_next (&context->dossier->facts, SW_FACT_READ_ALOUD, &i)) != NULL;)
    if (row->course == context->course && row->stage == SW_READ_ALOUD_BEFORE_RELEASE && row->day == today)
      newest = row;
  return newest;
}

static void
read_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    sw_second_person_clear (SW_RELEASE_SECTION (owner)->second);
}

static void
record_read_cb (GtkButton *button, SwReleaseSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwPageContext *context = sw_treatment_section_context (section);
  SwReadAloud *row = sw_second_person_make (self->second, context, SW_READ_ALOUD_BEFORE_RELEASE);
  SwRequest *request;

  if (row == NULL)
    {
      sw_finding_view_set_sentence (self->aloud_answer, SW_NOT_KNOWN,
                                    _ ("Choose who read aloud, or say that you are alone."), NULL);
      gtk_widget_grab_focus (GTK_WIDGET (self->second));
      return;
    }
  request = sw_treatment_section_request (section, SW_ACT_SECOND_CHECK);
  sw_request_add (request, row);
  sw_treatment_section_perform (section, GTK_WIDGET (self), request, self->aloud_answer, read_cb, NULL);
}

static void
show_read_aloud (SwReleaseSection *self, const SwPageContext *context, const SwCase *c)
{
  g_autoptr (SwDoseResult) dose = sw_dose_of_case (c, NULL);
  const SwReadAloud *row = read_aloud_today (context, c->now.day);
  g_autofree char *words = sw_words_to_read_aloud (context, dose);
  g_autofree char *by = NULL, *was_read = NULL;

  gtk_label_set_text (GTK_LABEL (self->words), words);
  gtk_widget_set_visible (self->was_read, row != NULL);
  if (row == NULL)
    return;
  by = sw_treatment_by (context, row->second, (SwMoment){ row->day, (int) row->minute }, c->now.day);
  was_read = g_strdup_printf (row->alone ? _("Looked at a second time by %s, alone.") : _("Read aloud by %s."), by);
  gtk_label_set_text (GTK_LABEL (self->was_read), was_read);
}

/* --- the release --- */

static void
confirmed_cb (gboolean yes, gpointer data)
{
  g_autoptr (SwReleaseSection) self = data;
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwPageContext *context = sw_treatment_section_context (section);

  if (!yes || context == NULL)
    return;
  sw_treatment_section_perform (section, GTK_WIDGET (self),
                                sw_request_release (context->person, context->patient, context->course), self->answer,
                                NULL, NULL);
}

static void
ask_to_release (SwReleaseSection *self, const SwPageContext *context)
{
  SwCase c = sw_page_context_case (context);
  g_autoptr (SwDoseResult) dose = sw_dose_of_case (&c, NULL);
  g_autofree char *words = sw_words_to_read_aloud (context, dose);
  const SwPatientDetails *dog = sw_dossier_patient (context->dossier);
  g_autofree char *heading = g_strdup_printf (_("Release the dose for %s?"), dog != NULL ? dog->name : "?");

  sw_dialog_ask (GTK_WIDGET (self), heading, words, _("Release the Dose"), confirmed_cb, g_object_ref (self));
}

static void
release_cb (GtkButton *button, SwReleaseSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  g_autoptr (GPtrArray) open = sw_gate_section_blocks (context);

  sw_finding_view_clear (self->answer);
  if (open->len > 0)
    g_signal_emit (self, signals[BLOCKED], 0, open->pdata[0]);
  else if (!sw_act_allowed (SW_ACT_RELEASE_DOSE, sw_page_context_roles (context)))
    sw_finding_view_set_sentence (self->answer, SW_STOP, _("Only a vet releases the dose."),
                                  _("A vet sits down at the desk, or releases it at another one."));
  else
    ask_to_release (self, context);
}

static void
outside_cb (GtkButton *button, SwReleaseSection *self)
{
  sw_outside_dialog_show (GTK_WIDGET (self),
                          (SwPageContext *)sw_treatment_section_context (SW_TREATMENT_SECTION (self)));
}

static void
show_standing (SwReleaseSection *self, const SwPageContext *context, const SwRelease *release)
{
  g_autofree char *standing = sw_words_of_standing (context);
  g_autofree char *released = release != NULL ? sw_words_of_release (context, release) : NULL;
  g_autofree char *words = NULL;

  words = released != NULL && standing != NULL ? g_strconcat (released, "\n", standing, NULL)
                                               : g_strdup (released != NULL ? released : standing);
  gtk_label_set_text (GTK_LABEL (self->standing), words != NULL ? words : "");
  gtk_widget_set_visible (self->standing, words != NULL);
}

static void
sw_release_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwReleaseSection *self = SW_RELEASE_SECTION (section);
  SwCase c = sw_treatment_case (context);
  const SwRelease *release = sw_treatment_release (context);

  if (changes & SW_CHANGED_SUBJECT)
    {
      sw_second_person_clear (self->second);
      sw_finding_view_clear (self->answer);
      sw_finding_view_clear (self->aloud_answer);
    }
  sw_second_person_update (self->second, sw_page_context_practice (context));
  show_read_aloud (self, context, &c);
  show_standing (self, context, release);
  gtk_widget_set_visible (self->aloud, release == NULL);
  gtk_widget_set_visible (self->acts, release == NULL);
  gtk_widget_set_visible (self->outside, sw_act_allowed (SW_ACT_RELEASE_DOSE, sw_page_context_roles (context)));
}

static GtkWidget *
sw_release_section_cure_of (SwTreatmentSection *section, const SwFinding *finding)
{
  static const SwFindingCode cured[] = { SW_FINDING_NOT_READ_ALOUD, SW_FINDING_READ_ALOUD_STALE,
                                         SW_FINDING_SECOND_LOOK_EARLY, SW_FINDING_SAME_PERSON };

  for (guint i = 0; i < G_N_ELEMENTS (cured); i++)
    if (cured[i] == finding->code)
      return GTK_WIDGET (SW_RELEASE_SECTION (section)->second);
  return NULL;
}

static void
sw_release_section_class_init (SwReleaseSectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  section_class->update = sw_release_section_update;
  section_class->cure_of = sw_release_section_cure_of;
  signals[BLOCKED] = g_signal_new ("blocked", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_POINTER);
}

static GtkWidget *
lines_new (const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);

  return label;
}

static GtkWidget *
make_aloud (SwReleaseSection *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *record = sw_button_new (_("Record the _Reading Aloud"));
  GtkWidget *heading = sw_heading_new (_("A second person reads aloud"));
  int minutes = (int) sw_definition_whole (SW_DEF_SECOND_LOOK);
  g_autofree char *alone = g_strdup_printf (_("I am alone: a second look, after %d minutes"), minutes);

  gtk_widget_add_css_class (heading, "subheading");
  self->words = lines_new ("read-aloud");
  self->was_read = lines_new (NULL);
  self->second = SW_SECOND_PERSON (sw_second_person_new (_("read aloud by"), alone));
  self->aloud_answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_widget_set_halign (record, GTK_ALIGN_END);
  gtk_widget_set_hexpand (record, TRUE);
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->second));
  gtk_box_append (GTK_BOX (line), record);
  gtk_box_append (GTK_BOX (box), heading);
  gtk_box_append (GTK_BOX (box), self->words);
  gtk_box_append (GTK_BOX (box), self->was_read);
  gtk_box_append (GTK_BOX (box), line);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->aloud_answer));
  g_signal_connect (record, "clicked", G_CALLBACK (record_read_cb), self);

  return box;
}

static GtkWidget *
make_acts (SwReleaseSection *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->outside = sw_button_new (_("Record What Happened outside the Gate…"));
  gtk_widget_add_css_class (self->outside, "flat");
  self->release = sw_primary_button_new (_("R_elease the Dose"));
  gtk_widget_set_halign (box, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (box), self->outside);
  gtk_box_append (GTK_BOX (box), self->release);
  g_signal_connect (self->outside, "clicked", G_CALLBACK (outside_cb), self);
  g_signal_connect (self->release, "clicked", G_CALLBACK (release_cb), self);

  return box;
}

static void
sw_release_section_init (SwReleaseSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);

  self->aloud = make_aloud (self);
  self->standing = lines_new ("standing");
  self->acts = make_acts (self);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  sw_treatment_section_append (section, self->aloud);
  sw_treatment_section_append (section, self->standing);
  sw_treatment_section_append (section, self->acts);
  sw_treatment_section_append (section, GTK_WIDGET (self->answer));
}
