/* sw-patient-dialog.c: register a patient with its client, or correct who they are
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-patient-dialog.h"

#include "sw-client-field.h"
#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

/* As in the record; N_() so that they can be shown. */
static const char *const species[] = { N_("dog"), N_("cat"), N_("horse"), N_("other") };

typedef struct
{
  /* owned */
  SwRecord *record;
  SwPageContext *context; /* NULL: a new patient */
  gint64 person;

  /* borrowed: children of the window, and the window it stands over */
  GtkWidget *parent;
  GtkWidget *window;
  GtkWidget *name;
  GtkWidget *species;
  GtkWidget *breed;
  GtkWidget *sex;
  GtkWidget *neutered;
  SwQuantityEntry *born;
  GtkWidget *born_exact;
  GtkWidget *markings;
  SwClientField *client;
  SwFindingView *answer;

  SwPatientRegistered registered;
} Registering;

static void
registering_free (Registering *r)
{
  g_object_unref (r->record);
  g_clear_pointer (&r->context, sw_page_context_unref);
  g_free (r);
}

static void
set_text (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text != NULL ? text : "");
}

static GtkWidget *
translated_choice (const char *name, const char *none, const char *const *words, guint n)
{
  g_autoptr (GPtrArray) shown = g_ptr_array_new ();

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (shown, (gpointer) _(words[i]));
  g_ptr_array_add (shown, NULL);

  return sw_choice_new (name, none, (const char *const *) shown->pdata);
}

static GtkWidget *
sex_choice (void)
{
  const char *sexes[SW_N_SEXES];

  for (int i = 0; i < SW_N_SEXES; i++)
    sexes[i] = sw_sex_name (i);
  return translated_choice (_("sex"), _("not known"), sexes, SW_N_SEXES);
}

static int
species_index (const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (species); i++)
    if (g_strcmp0 (species[i], code) == 0)
      return i;
  return G_N_ELEMENTS (species) - 1;
}

static void
take_text (char **field, GtkWidget *entry)
{
  g_free (*field);
  *field = sw_field_dup_text (entry);
}

static void
fill_details (const Registering *r, SwPatientDetails *details, gint64 born)
{
  static const gint64 answers[] = { 0, 1 };
  int neutered = sw_choice_get (r->neutered, TRUE);
  int sex = sw_choice_get (r->sex, TRUE);

  take_text (&details->name, r->name);
  take_text (&details->breed, r->breed);
  take_text (&details->markings, r->markings);
  g_free (details->species);
  details->species = g_strdup (species[sw_choice_get (r->species, FALSE)]);
  details->sex = sex >= 0 ? sex : SW_UNKNOWN;
  details->neutered = neutered >= 0 ? answers[neutered] : SW_UNKNOWN;
  details->born = born;
  details->born_exact = gtk_check_button_get_active (GTK_CHECK_BUTTON (r->born_exact));
}

/* -n of a new client, its id if it is registered. */
static gint64
add_client (const Registering *r, SwRequest *request)
{
  SwClientDetails *details = sw_client_field_make_details (r->client);

  if (details == NULL)
    return sw_client_field_get_chosen (r->client);
  details->client = sw_request_add (request, sw_new (SW_FACT_CLIENT, SwClient));
  sw_request_add (request, details);

  return details->client;
}

static SwRequest *
new_patient (const Registering *r, gint64 born)
{
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_PATIENT, r->person, 0);
  SwPatientDetails *details = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);

  details->client = add_client (r, request);
  fill_details (r, details, born);
  details->fact.patient = sw_request_add (request, sw_new (SW_FACT_PATIENT, SwPatient));
  sw_request_add (request, details);

  return request;
}

static void
correct_client (const Registering *r, SwRequest *request)
{
  const SwClientDetails *old = sw_dossier_client (r->context->dossier);
  SwClientDetails *typed = sw_client_field_make_details (r->client);
  SwClientDetails *details;

  if (old == NULL || typed == NULL)
    return;
  if (g_strcmp0 (old->name, typed->name) != 0 || g_strcmp0 (old->phone, typed->phone) != 0
      || g_strcmp0 (old->other_phone, typed->other_phone) != 0 || g_strcmp0 (old->address, typed->address) != 0)
    {
      details = sw_fact_correction (old);
      g_free (details->name);
      g_free (details->phone);
      g_free (details->other_phone);
      g_free (details->address);
      details->name = g_strdup (typed->name);
      details->phone = g_strdup (typed->phone);
      details->other_phone = g_strdup (typed->other_phone);
      details->address = g_strdup (typed->address);
      sw_request_add (request, details);
    }
  sw_fact_free (typed);
}

static SwRequest *
corrected_patient (const Registering *r, gint64 born)
{
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_PATIENT, r->person, r->context->patient);
  SwPatientDetails *details = sw_fact_correction (sw_dossier_patient (r->context->dossier));

  fill_details (r, details, born);
  sw_request_add (request, details);
  correct_client (r, request);

  return request;
}

static void
replied_cb (GtkWidget *window, const SwReply *reply, gpointer data)
{
  Registering *r = g_object_get_data (G_OBJECT (window), "sw-registering");

  if (reply == NULL || !reply->done)
    return;
  if (r->registered != NULL)
    r->registered (r->parent, reply->patient);
  gtk_window_destroy (GTK_WINDOW (window));
}

static gboolean
is_complete (Registering *r, gint64 *born)
{
  g_autofree char *name = sw_field_dup_text (r->name);

  if (name == NULL)
    {
      sw_finding_view_set_sentence (r->answer, SW_NOT_KNOWN, _("The patient has no name yet."), NULL);
      gtk_widget_grab_focus (r->name);
      return FALSE;
    }
  if (!sw_client_field_is_filled (r->client))
    {
      sw_finding_view_set_sentence (r->answer, SW_NOT_KNOWN, _("Name the client, or choose one who is registered."),
                                    NULL);
      gtk_widget_child_focus (GTK_WIDGET (r->client), GTK_DIR_TAB_FORWARD);
      return FALSE;
    }
  if (sw_quantity_entry_take (r->born, born))
    return TRUE;
  gtk_widget_grab_focus (GTK_WIDGET (r->born));
  return FALSE;
}

static void
save_cb (GtkButton *button, Registering *r)
{
  gint64 born;

  if (!is_complete (r, &born))
    return;
  sw_perform (r->window, r->record, r->context != NULL ? corrected_patient (r, born) : new_patient (r, born), r->answer,
              replied_cb,
              NULL);
}

static void
make_fields (Registering *r)
{
  static const char *const neutered[] = { N_("no"), N_("yes") };

  r->name = sw_text_field_new (20);
  r->species = translated_choice (_("species"), NULL, species, G_N_ELEMENTS (species));
  r->breed = sw_text_field_new (20);
  r->sex = sex_choice ();
  r->neutered = translated_choice (_("neutered"), _("not known"), neutered, G_N_ELEMENTS (neutered));
  r->born = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DAY, _("born")));
  r->born_exact = sw_check_new (_("the day of birth is certain"));
  r->markings = sw_text_field_new (28);
  r->client = SW_CLIENT_FIELD (sw_client_field_new (r->record));
  r->answer = SW_FINDING_VIEW (sw_finding_view_new ());
}

static void
show_details (Registering *r, const SwPatientDetails *details)
{
  set_text (r->name, details->name);
  sw_choice_set (r->species, FALSE, species_index (details->species));
  set_text (r->breed, details->breed);
  sw_choice_set (r->sex, TRUE, details->sex != SW_UNKNOWN ? (int) details->sex : -1);
  sw_choice_set (r->neutered, TRUE, details->neutered != SW_UNKNOWN ? (int) details->neutered : -1);
  sw_quantity_entry_set_value (r->born, details->born);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (r->born_exact), details->born_exact == 1);
  set_text (r->markings, details->markings);
}

static GtkWidget *
body_new (Registering *r)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkWidget *form = sw_form_new ();

  sw_form_add (GTK_GRID (form), _("_name"), r->name);
  sw_form_add (GTK_GRID (form), _("_species"), r->species);
  sw_form_add (GTK_GRID (form), _("_breed"), r->breed);
  sw_form_add (GTK_GRID (form), _("se_x"), r->sex);
  sw_form_add (GTK_GRID (form), _("ne_utered"), r->neutered);
  sw_form_add (GTK_GRID (form), _("b_orn"), GTK_WIDGET (r->born));
  sw_form_add (GTK_GRID (form), "", r->born_exact);
  sw_form_add (GTK_GRID (form), _("chip, _marks"), r->markings);
  gtk_box_append (GTK_BOX (columns), form);
  gtk_box_append (GTK_BOX (columns), GTK_WIDGET (r->client));
  gtk_widget_set_valign (GTK_WIDGET (r->client), GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (body), columns);
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (r->answer));

  return body;
}

static void
show (Registering *r, const char *title, const char *act)
{
  GtkWidget *save = sw_primary_button_new (act);

  r->window = sw_dialog_form_new (r->parent, title, body_new (r), save);
  g_object_set_data_full (G_OBJECT (r->window), "sw-registering", r, (GDestroyNotify) registering_free);
  g_signal_connect (save, "clicked", G_CALLBACK (save_cb), r);
  gtk_window_present (GTK_WINDOW (r->window));
  gtk_widget_grab_focus (r->name);
}

void
sw_patient_dialog_register (GtkWidget *parent, SwRecord *record, gint64 person, SwPatientRegistered registered)
{
  Registering *r = g_new0 (Registering, 1);

  r->record = g_object_ref (record);
  r->person = person;
  r->parent = parent;
  r->registered = registered;
  make_fields (r);
  show (r, _("Register a patient"), _("_Register the Patient"));
}

void
sw_patient_dialog_correct (GtkWidget *parent, SwPageContext *context)
{
  Registering *r = g_new0 (Registering, 1);
  const SwClientDetails *client = sw_dossier_client (context->dossier);

  r->record = g_object_ref (context->record);
  r->context = sw_page_context_ref (context);
  r->person = context->person;
  r->parent = parent;
  make_fields (r);
  show_details (r, sw_dossier_patient (context->dossier));
  if (client != NULL)
    sw_client_field_set_details (r->client, client);
  show (r, _("Correct the patient"), _("Record the _Correction"));
}
