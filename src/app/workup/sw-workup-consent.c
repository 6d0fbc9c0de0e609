/* sw-workup-consent.c: the client's consent to the course
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-consent.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

#define POINTS 7

/* What stands in the fields before anything is typed: the consent on record; after a withdrawal, or without one, an empty sheet for
 * the client, of today. Nothing is ticked that was not talked about. */
typedef struct
{
  char *signer;
  char *sheet_version;
  char *note;
  gint64 points;
  gboolean off_label;
} Sheet;

struct _SwWorkUpConsent
{
  SwWorkUpSection parent_instance;

  GtkWidget *words;
  SwFindingView *findings;
  GtkWidget *form;
  SwConsentFields fields;
  Sheet shown;
  guint has_course : 1;
  guint settled : 1; /* what the fields hold is recorded, and the next update shows the record */
};

G_DEFINE_FINAL_TYPE (SwWorkUpConsent, sw_workup_consent, SW_TYPE_WORKUP_SECTION)

static const SwConsent *
consent_of (const SwPageContext *context)
{
  return sw_facts_of_course (&context->dossier->facts, SW_FACT_CONSENT, context->course);
}

/* --- fields --- */

static gint64
points_ticked (const SwConsentFields *fields)
{
  gint64 points = 0;

  for (int i = 0; i < POINTS; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (fields->points[i])))
      points |= G_GINT64_CONSTANT (1) << i;
  return points;
}

static gboolean
is_ticked (GtkWidget *check)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (check));
}

static void
set_text (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text != NULL ? text : "");
}

static gboolean
differs (GtkWidget *entry, const char *text)
{
  g_autofree char *typed = sw_field_dup_text (entry);

  return g_strcmp0 (typed, text) != 0;
}

static void
clear_sheet (Sheet *sheet)
{
  g_free (sheet->signer);
  g_free (sheet->sheet_version);
  g_free (sheet->note);
  *sheet = (Sheet){ NULL, NULL, NULL, 0, FALSE };
}

static gboolean
is_edited (const SwWorkUpConsent *self)
{
  const SwConsentFields *fields = &self->fields;
  const Sheet *sheet = &self->shown;

  return differs (fields->signer, sheet->signer) || differs (fields->sheet_version, sheet->sheet_version)
         || differs (fields->note, sheet->note) || points_ticked (fields) != sheet->points
         || is_ticked (fields->off_label) != sheet->off_label || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (fields->day));
}

static void
show_sheet (SwWorkUpConsent *self, const SwPageContext *context)
{
  const SwConsent *consent = consent_of (context);
  const SwClientDetails *client = sw_dossier_client (context->dossier);
  const SwConsentFields *fields = &self->fields;
  gboolean given = consent != NULL && consent->state == SW_CONSENT_GIVEN;

  clear_sheet (&self->shown);
  if (given)
    self->shown = (Sheet){ g_strdup (consent->signer), g_strdup (consent->sheet_version), g_strdup (consent->note), consent->points,
                           consent->off_label != 0 };
  else
    self->shown.signer = client != NULL ? g_strdup (client->name) : NULL;
  set_text (fields->signer, self->shown.signer);
  set_text (fields->sheet_version, self->shown.sheet_version);
  set_text (fields->note, self->shown.note);
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (fields->day), given ? consent->day : sw_page_context_now (context).day);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->off_label), self->shown.off_label);
  for (int i = 0; i < POINTS; i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->points[i]), (self->shown.points & (G_GINT64_CONSTANT (1) << i)) != 0);
}

/* --- acts --- */

static void
refuse (SwWorkUpConsent *self, const char *sentence, GtkWidget *field)
{
  sw_finding_view_set_sentence (sw_workup_section_get_messages (SW_WORKUP_SECTION (self)), SW_NOT_KNOWN, sentence, NULL);
  gtk_widget_grab_focus (field);
}

/* The row of this moment: minutes matter, since a withdrawal may come the same day. */
static SwConsent *
make_consent (SwWorkUpConsent *self, const SwPageContext *context, SwDay day)
{
  const SwConsentFields *fields = &self->fields;
  SwMoment now = sw_page_context_now (context);
  SwConsent *consent = sw_new (SW_FACT_CONSENT, SwConsent);

  consent->course = context->course;
  consent->state = SW_CONSENT_GIVEN;
  consent->signer = sw_field_dup_text (fields->signer);
  consent->day = day;
  consent->minute = now.minute;
  consent->sheet_version = sw_field_dup_text (fields->sheet_version);
  consent->off_label = is_ticked (fields->off_label);
  consent->points = points_ticked (fields);
  consent->note = sw_field_dup_text (fields->note);
  return consent;
}

static void
recorded_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    SW_WORKUP_CONSENT (data)->settled = TRUE;
}

static void
record_cb (SwWorkUpConsent *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  const SwPageContext *context = sw_workup_section_get_context (section);
  const SwConsentFields *fields = &self->fields;
  g_autofree char *signer = sw_field_dup_text (fields->signer), *version = sw_field_dup_text (fields->sheet_version);
  SwRequest *request;
  gint64 day;

  if (signer == NULL)
    refuse (self, _("Who signed? Write the name as it stands on the sheet."), fields->signer);
  else if (version == NULL)
    refuse (self, _("Which version of the sheet was signed? It stands at its foot."), fields->sheet_version);
  else if (!sw_quantity_entry_take (SW_QUANTITY_ENTRY (fields->day), &day))
    gtk_widget_grab_focus (fields->day);
  else
    {
      request = sw_workup_section_request (section, SW_ACT_RECORD_CONSENT);
      sw_request_add_next (request, context->dossier, make_consent (self, context, day));
      sw_workup_section_perform (section, request, recorded_cb, self);
    }
}

static void
withdrawn_cb (const char *reason, gpointer data)
{
  SwWorkUpSection *section = data;
  const SwPageContext *context = sw_workup_section_get_context (section);
  const SwConsent *given = consent_of (context);
  SwMoment now = sw_page_context_now (context);
  SwConsent *consent;
  SwRequest *request;

  if (reason == NULL || given == NULL || given->state != SW_CONSENT_GIVEN)
    return;
  consent = sw_fact_correction (given);
  consent->state = SW_CONSENT_WITHDRAWN;
  consent->day = now.day;
  consent->minute = now.minute;
  g_free (consent->note);
  consent->note = g_strdup (reason);
  request = sw_workup_section_request (section, SW_ACT_RECORD_CONSENT);
  sw_request_add (request, consent);
  sw_workup_section_perform (section, request, NULL, NULL);
}

static void
withdraw_cb (SwWorkUpConsent *self)
{
  sw_dialog_reason (GTK_WIDGET (self), _("Has the client withdrawn the consent?"),
                    _("It blocks at once: nothing is released or injected until there is a new consent."),
                    _("_Record the Withdrawal"), withdrawn_cb, self);
}

/* --- what is shown --- */

static char *
words_of (const SwPageContext *context)
{
  const SwConsent *consent = consent_of (context);
  g_autofree char *day = consent != NULL ? sw_day_format (consent->day) : NULL;

  if (context->course == 0)
    return g_strdup (_("Consent is given to one course. Open the course first."));
  if (consent == NULL)
    return g_strdup (_("No consent is recorded yet. Each course needs its own."));
  if (consent->state == SW_CONSENT_GIVEN)
    return g_strdup_printf (_("%s signed sheet version %s on %s. What is recorded below takes its place."), consent->signer,
                            consent->sheet_version, day);
  return g_strdup_printf (_("%s withdrew the consent on %s: %s. Treat only with a new one."), consent->signer, day,
                          consent->note != NULL ? consent->note : _("no reason is recorded"));
}

static void
show_findings (SwWorkUpConsent *self, const SwWorkUp *work_up)
{
  g_autoptr (GPtrArray) about = g_ptr_array_new ();

  for (guint i = 0; i < work_up->findings->len; i++)
    if (sw_place_of_finding (&work_up->c, work_up->findings->pdata[i]).kind == SW_PLACE_CONSENT)
      g_ptr_array_add (about, work_up->findings->pdata[i]);
  sw_finding_view_set_findings (self->findings, about, FALSE);
}

static void
sw_workup_consent_update (SwWorkUpSection *section, const SwWorkUp *work_up, SwPageChanges changes)
{
  SwWorkUpConsent *self = SW_WORKUP_CONSENT (section);
  const SwConsent *consent = consent_of (work_up->context);
  g_autofree char *words = words_of (work_up->context);

  self->has_course = work_up->context->course != 0;
  gtk_label_set_text (GTK_LABEL (self->words), words);
  gtk_widget_set_visible (self->form, self->has_course);
  gtk_widget_set_visible (self->fields.record, self->has_course);
  gtk_widget_set_visible (self->fields.withdraw, consent != NULL && consent->state == SW_CONSENT_GIVEN);
  show_findings (self, work_up);
  if ((changes & SW_CHANGED_SUBJECT) || self->settled || !is_edited (self))
    show_sheet (self, work_up->context);
  self->settled = FALSE;
}

static gboolean
sw_workup_consent_has_unsaved (SwWorkUpSection *section)
{
  SwWorkUpConsent *self = SW_WORKUP_CONSENT (section);

  return self->has_course && !self->settled && is_edited (self);
}

static gboolean
sw_workup_consent_show_place (SwWorkUpSection *section, const SwPlace *place)
{
  return place->kind == SW_PLACE_CONSENT && gtk_widget_grab_focus (SW_WORKUP_CONSENT (section)->fields.signer);
}

static void
sw_workup_consent_finalize (GObject *object)
{
  clear_sheet (&SW_WORKUP_CONSENT (object)->shown);
  G_OBJECT_CLASS (sw_workup_consent_parent_class)->finalize (object);
}

static void
sw_workup_consent_class_init (SwWorkUpConsentClass *class)
{
  SwWorkUpSectionClass *section_class = SW_WORKUP_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_workup_consent_finalize;
  section_class->update = sw_workup_consent_update;
  section_class->has_unsaved = sw_workup_consent_has_unsaved;
  section_class->show_place = sw_workup_consent_show_place;
}

/* Points are sentences: they wrap. */
static GtkWidget *
point_new (const char *words)
{
  GtkWidget *check = gtk_check_button_new (), *label = gtk_label_new (words);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (check), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  return check;
}

static GtkWidget *
points_new (SwConsentFields *fields)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_box_append (GTK_BOX (box), sw_heading_new (_("Explained and understood")));
  for (int i = 0; i < POINTS; i++)
    {
      fields->points[i] = point_new (sw_consent_point_name (1 << i));
      gtk_box_append (GTK_BOX (box), fields->points[i]);
    }
  fields->off_label = point_new (_("off-label parts agreed, tablets for people among them"));
  gtk_box_append (GTK_BOX (box), fields->off_label);
  gtk_widget_set_hexpand (box, TRUE);

  return box;
}

static GtkWidget *
form_new (SwConsentFields *fields)
{
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 36);
  GtkWidget *form = sw_form_new ();

  fields->signer = sw_text_field_new (22);
  fields->day = sw_quantity_entry_new (SW_QUANTITY_DAY, _("signed on"));
  fields->sheet_version = sw_text_field_new (8);
  fields->note = sw_text_field_new (22);
  sw_quantity_entry_set_required (SW_QUANTITY_ENTRY (fields->day), TRUE);
  gtk_widget_set_halign (fields->sheet_version, GTK_ALIGN_START);
  sw_form_add (GTK_GRID (form), _("_signed by"), fields->signer);
  sw_form_add (GTK_GRID (form), _("signed _on"), fields->day);
  sw_form_add (GTK_GRID (form), _("_version of the sheet"), fields->sheet_version);
  sw_form_add (GTK_GRID (form), _("_note"), fields->note);
  gtk_box_append (GTK_BOX (columns), form);
  gtk_box_append (GTK_BOX (columns), points_new (fields));

  return columns;
}

static void
sw_workup_consent_init (SwWorkUpConsent *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  GtkBox *body = sw_workup_section_get_body (section);

  self->words = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->words), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  self->findings = SW_FINDING_VIEW (sw_finding_view_new ());
  self->form = form_new (&self->fields);
  self->fields.withdraw = sw_button_new (_("The Client _Withdraws"));
  self->fields.record = sw_primary_button_new (_("_Record the Consent"));
  gtk_box_append (body, self->words);
  gtk_box_append (body, GTK_WIDGET (self->findings));
  gtk_box_append (body, self->form);
  sw_workup_section_add_button (section, self->fields.withdraw);
  sw_workup_section_add_button (section, self->fields.record);
  g_signal_connect_object (self->fields.record, "clicked", G_CALLBACK (record_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->fields.withdraw, "clicked", G_CALLBACK (withdraw_cb), self, G_CONNECT_SWAPPED);
}

const SwConsentFields *
sw_workup_consent_get_fields (SwWorkUpConsent *self)
{
  return &self->fields;
}
