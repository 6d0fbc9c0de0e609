/* test-window.c: the window on a real record: first start, a patient, a weighing, names of everything that takes the
 * focus
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-patient-heading.h"
#include "sw-patient-page.h"

START_TEST (opens_a_record)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = ui_open (practice->folder, practice->clock);

  ck_assert_int_eq (sw_window_get_person (window), practice->person);
  ui_show_patient (window, practice->patient);
  ck_assert_int_eq (sw_patient_page_get_patient (SW_PATIENT_PAGE (sw_window_get_patient_page (window))),
                    practice->patient);
  ui_close (window);
}
END_TEST

static gboolean
record_is_open (gpointer window)
{
  return sw_window_get_record (window) != NULL;
}

START_TEST (first_start_makes_a_record)
{
  g_autofree char *folder = ui_folder ();
  g_autofree char *place = g_build_filename (folder, "record", NULL);
  g_autoptr (SwClock) clock = sw_clock_new ();
  SwWindow *window = SW_WINDOW (sw_window_new (NULL, place, clock));
  GtkWidget *make = ui_find_button (GTK_WIDGET (window), "Make the Record");

  gtk_window_present (GTK_WINDOW (window));
  ui_click (make); /* without a name: says so and makes nothing */
  ck_assert_ptr_null (sw_window_get_record (window));
  ck_assert (!g_file_test (place, G_FILE_TEST_EXISTS));
  gtk_editable_set_text (GTK_EDITABLE (ui_find_type (gtk_widget_get_parent (gtk_widget_get_parent (make)),
                                                     GTK_TYPE_ENTRY)), "Ines");
  ui_click (make);
  ui_wait (record_is_open, window, "the new record");
  ck_assert (!sw_record_get_practice_only (sw_window_get_record (window)));
  ck_assert_str_eq (sw_practice_person_name (sw_record_get_practice (sw_window_get_record (window)), 1), "Ines");
  ui_close (window);
  ui_forget (folder);
}
END_TEST

static gboolean
no_dialog (gpointer window)
{
  return ui_dialog (window) == NULL;
}

static gboolean
shows_26 (gpointer window)
{
  GtkWidget *heading = ui_find_type (sw_window_get_patient_page (window), SW_TYPE_PATIENT_HEADING);
  GObject *weight = gtk_widget_get_template_child (heading, SW_TYPE_PATIENT_HEADING, "weight");

  return g_str_has_prefix (gtk_label_get_text (GTK_LABEL (weight)), "26.0 kg");
}

START_TEST (a_weighing_shows_at_once)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = ui_open (practice->folder, practice->clock);
  GtkWidget *dialog;

  ui_show_patient (window, practice->patient);
  ck_assert (gtk_widget_activate_action (ui_find_type (GTK_WIDGET (window), SW_TYPE_PATIENT_HEADING), "patient.weigh",
                                         NULL));
  dialog = ui_dialog (window);
  ck_assert_ptr_nonnull (dialog);
  gtk_editable_set_text (GTK_EDITABLE (ui_find_type (dialog, GTK_TYPE_ENTRY)), "two dozen");
  ui_click (ui_find_button (dialog, "Record the Weight"));
  ui_settle ();
  ck_assert_ptr_eq (ui_dialog (window), dialog); /* refused, and still there with its text */
  gtk_editable_set_text (GTK_EDITABLE (ui_find_type (dialog, GTK_TYPE_ENTRY)), "26");
  ui_click (ui_find_button (dialog, "Record the Weight"));
  ui_wait (no_dialog, window, "the dialog to close");
  ui_wait (shows_26, window, "the new weight");
  ui_close (window);
}
END_TEST

START_TEST (trouble_stays_until_handled)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = ui_open (practice->folder, practice->clock);
  GtkWidget *handled = ui_find_button (GTK_WIDGET (window), "Handled");

  ck_assert (!gtk_widget_get_mapped (handled));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.trouble", "s", "The disk is full.");
  gtk_widget_activate_action (GTK_WIDGET (window), "win.trouble", "s", "The disk is still full.");
  ck_assert (gtk_widget_get_mapped (handled));
  ui_click (handled);
  ck_assert (gtk_widget_get_mapped (handled));
  ui_click (handled);
  ck_assert (!gtk_widget_get_mapped (handled));
  ui_close (window);
}
END_TEST

START_TEST (everything_has_a_name)
{
  static const char *const pages[] = { "patients", "practice" };
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = ui_open (practice->folder, practice->clock);

  ui_show_patient (window, practice->patient);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

      gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", pages[i]);
      ui_settle ();
      ui_check_names (GTK_WIDGET (window), names);
      ck_assert_uint_gt (g_hash_table_size (names), 5);
    }
  ui_close (window);
}
END_TEST

/* Whole at 1280 x 720 on every page: what doesn't fit scrolls. */
START_TEST (fits_the_screen)
{
  static const char *const pages[] = { "patients", "practice" };
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = ui_open (practice->folder, practice->clock);
  int width, height;

  ui_show_patient (window, practice->patient);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", pages[i]);
      ui_settle ();
      gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
      gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_VERTICAL, 1280, &height, NULL, NULL, NULL);
      ck_assert_int_le (width, 1280);
      ck_assert_int_le (height, 720);
    }
  ui_close (window);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("window");
  TCase *tcase = tcase_create ("window");

  ui_init ();
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, opens_a_record);
  tcase_add_test (tcase, first_start_makes_a_record);
  tcase_add_test (tcase, a_weighing_shows_at_once);
  tcase_add_test (tcase, trouble_stays_until_handled);
  tcase_add_test (tcase, everything_has_a_name);
  tcase_add_test (tcase, fits_the_screen);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
