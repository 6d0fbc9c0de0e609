/* test-registering.c: clients, patients and tumours registered and corrected in their dialogs
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-client-field.h"
#include "sw-patient-heading.h"
#include "sw-patient-page.h"

typedef struct
{
  SwWindow *window;
  gint64 patient;
} Shown;

static gboolean
no_dialog (gpointer window)
{
  return ui_dialog (window) == NULL;
}

static gboolean
shows (gpointer data)
{
  const Shown *shown = data;

  return sw_patient_page_get_patient (SW_PATIENT_PAGE (sw_window_get_patient_page (shown->window))) == shown->patient;
}

static GtkWidget *
register_dialog (SwWindow *window)
{
  gtk_widget_activate_action (GTK_WIDGET (window), "win.new-patient", NULL);
  ck_assert_ptr_nonnull (ui_dialog (window));
  return ui_dialog (window);
}

static GtkWidget *
client_name (GtkWidget *dialog)
{
  return ui_find_type (ui_find_type (dialog, SW_TYPE_CLIENT_FIELD), GTK_TYPE_ENTRY);
}

static void
type (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

START_TEST (a_patient_needs_a_name_and_a_client)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = ui_open (practice->folder, practice->clock);
  GtkWidget *dialog = register_dialog (window);
  Shown shown = { window, practice->patient + 1 };

  ui_click (ui_find_button (dialog, "Register the Patient"));
  ui_settle ();
  ck_assert_ptr_eq (ui_dialog (window), dialog);
  type (ui_find_type (dialog, GTK_TYPE_ENTRY), "Quill");
  ui_click (ui_find_button (dialog, "Register the Patient"));
  ui_settle ();
  ck_assert_ptr_eq (ui_dialog (window), dialog);
  type (client_name (dialog), "Bisset");
  ui_click (ui_find_button (dialog, "Register the Patient"));
  ui_wait (no_dialog, window, "the patient");
  ui_wait (shows, &shown, "its page");
  ui_close (window);
}
END_TEST

static gboolean
is_offered (gpointer field)
{
  return ui_find_type (field, GTK_TYPE_LIST_BOX_ROW) != NULL;
}

static SwDossier *
load (const UiPractice *practice, gint64 patient)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (practice->folder, practice->clock, &error);
  SwDossier *dossier;

  g_assert_no_error (error);
  dossier = sw_desk_load_dossier (desk, patient, &error);
  g_assert_no_error (error);
  return dossier;
}

START_TEST (a_registered_client_is_found_again)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  g_autoptr (SwDossier) first = load (practice, practice->patient);
  g_autoptr (SwDossier) second = NULL;
  SwWindow *window = ui_open (practice->folder, practice->clock);
  GtkWidget *dialog = register_dialog (window);
  GtkWidget *field = ui_find_type (dialog, SW_TYPE_CLIENT_FIELD);

  type (ui_find_type (dialog, GTK_TYPE_ENTRY), "Tansy");
  type (client_name (dialog), "ald");
  ui_wait (is_offered, field, "the client to be offered");
  g_signal_emit_by_name (ui_find_type (field, GTK_TYPE_LIST_BOX), "row-activated",
                         ui_find_type (field, GTK_TYPE_LIST_BOX_ROW));
  ck_assert_int_ne (sw_client_field_get_chosen (SW_CLIENT_FIELD (field)), 0);
  ui_click (ui_find_button (dialog, "Register the Patient"));
  ui_wait (no_dialog, window, "the patient");
  ui_close (window);
  second = load (practice, practice->patient + 1);
  ck_assert_int_eq (sw_dossier_patient (second)->client, sw_dossier_patient (first)->client);
  ck_assert_str_eq (sw_dossier_patient (second)->name, "Tansy");
}
END_TEST

START_TEST (corrections_keep_the_earlier_row)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  g_autoptr (SwDossier) dossier = NULL;
  SwWindow *window = ui_open (practice->folder, practice->clock);
  GtkWidget *dialog;

  ui_show_patient (window, practice->patient);
  gtk_widget_activate_action (ui_find_type (GTK_WIDGET (window), SW_TYPE_PATIENT_HEADING), "patient.correct", NULL);
  dialog = ui_dialog (window);
  type (ui_find_type (dialog, GTK_TYPE_ENTRY), "Marlow");
  type (client_name (dialog), "Aldane, Vera");
  ui_click (ui_find_button (dialog, "Record the Correction"));
  ui_wait (no_dialog, window, "the correction");
  ui_close (window);
  dossier = load (practice, practice->patient);
  ck_assert_str_eq (sw_dossier_patient (dossier)->name, "Marlow");
  ck_assert_str_eq (sw_dossier_client (dossier)->name, "Aldane, Vera");
  ck_assert_str_eq (sw_dossier_client (dossier)->phone, "555 0101");
  ck_assert_uint_eq (dossier->facts.rows[SW_FACT_PATIENT_DETAILS]->len, 2);
}
END_TEST

START_TEST (a_second_tumour_gets_the_next_letter)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  g_autoptr (SwDossier) dossier = NULL;
  SwWindow *window = ui_open (practice->folder, practice->clock);
  GtkWidget *dialog, *form;

  ui_show_patient (window, practice->patient);
  gtk_widget_activate_action (ui_find_type (GTK_WIDGET (window), SW_TYPE_PATIENT_HEADING), "patient.add-tumour", NULL);
  dialog = ui_dialog (window);
  ui_click (ui_find_button (dialog, "Register the Tumour"));
  ui_settle ();
  ck_assert_ptr_eq (ui_dialog (window), dialog); /* side, region and layer are chosen, never assumed */
  form = ui_find_type (dialog, GTK_TYPE_GRID);
  for (int row = 0; row < 3; row++)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (gtk_grid_get_child_at (GTK_GRID (form), 1, row)), 2);
  ui_click (ui_find_button (dialog, "Register the Tumour"));
  ui_wait (no_dialog, window, "the tumour");
  ui_close (window);
  dossier = load (practice, practice->patient);
  ck_assert_uint_eq (dossier->facts.rows[SW_FACT_TUMOUR_DETAILS]->len, 2);
  ck_assert_int_eq (((SwTumourDetails *) sw_facts_last (&dossier->facts, SW_FACT_TUMOUR_DETAILS))->letter, 1);
  ck_assert_int_eq (((SwTumourDetails *) sw_facts_last (&dossier->facts, SW_FACT_TUMOUR_DETAILS))->side, SW_SIDE_RIGHT);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("registering");
  TCase *tcase = tcase_create ("registering");

  ui_init ();
  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, a_patient_needs_a_name_and_a_client);
  tcase_add_test (tcase, a_registered_client_is_found_again);
  tcase_add_test (tcase, corrections_keep_the_earlier_row);
  tcase_add_test (tcase, a_second_tumour_gets_the_next_letter);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
