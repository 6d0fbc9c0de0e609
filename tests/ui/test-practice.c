/* test-practice.c: the practice page: documents adopted figure by figure, settings that guard, people
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-error.h"
#include "sw-figure-list.h"
#include "sw-practice-view.h"
#include "sw-setting-field.h"
#include "sw-strengths.h"

static SwWindow *
open_section (const UiPractice *practice, const char *section)
{
  SwWindow *window = ui_open (practice->folder, practice->clock);

  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "practice");
  sw_practice_view_show_section (SW_PRACTICE_VIEW (sw_window_get_practice_view (window)), section);
  ui_settle ();

  return window;
}

static const SwPractice *
practice_of (SwWindow *window)
{
  return sw_record_get_practice (sw_window_get_record (window));
}

static gboolean
no_dialog (gpointer window)
{
  return ui_dialog (window) == NULL;
}

/* The button of a document: named with its title. */
static GtkWidget *
document_button (GtkWidget *root, const char *name)
{
  g_autofree char *own = GTK_IS_BUTTON (root) ? ui_name (root) : NULL;

  if (g_strcmp0 (own, name) == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = document_button (child, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static guint
tick_all (GtkWidget *root)
{
  guint ticked = 0;

  if (GTK_IS_CHECK_BUTTON (root) && gtk_widget_get_ancestor (root, SW_TYPE_FIGURE_LIST) != NULL)
    {
      gtk_check_button_set_active (GTK_CHECK_BUTTON (root), TRUE);
      ticked++;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    ticked += tick_all (child);
  return ticked;
}

static GtkWidget *
open_adoption (SwWindow *window)
{
  ui_click (document_button (GTK_WIDGET (window), "Adopt… Tigilanol tiglate, canine mast cell tumour (EU, UK)"));
  ck_assert_ptr_nonnull (ui_dialog (window));
  return ui_dialog (window);
}

START_TEST (every_figure_is_confirmed)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = open_section (practice, "documents");
  GtkWidget *dialog = open_adoption (window);
  GtkWidget *list = ui_find_type (dialog, SW_TYPE_FIGURE_LIST);
  GtkWidget *last;

  tick_all (dialog);
  ck_assert_uint_gt (sw_figure_list_count_wanted (SW_FIGURE_LIST (list)), 10);
  last = ui_find_type (list, GTK_TYPE_CHECK_BUTTON);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (last), FALSE);
  ui_click (ui_find_button (dialog, "Adopt"));
  ui_settle ();
  ck_assert_ptr_eq (ui_dialog (window), dialog); /* one is missing: nothing is adopted, and it has the focus */
  ck_assert_ptr_eq (gtk_root_get_focus (GTK_ROOT (dialog)), last);
  ck_assert_ptr_null (sw_practice_adopted (practice_of (window), SW_DOCUMENT_PROTOCOL, "tigilanol-eu"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (last), TRUE);
  ui_click (ui_find_button (dialog, "Adopt"));
  ui_wait (no_dialog, window, "the adoption");
  ui_settle ();
  ck_assert_ptr_nonnull (sw_practice_adopted (practice_of (window), SW_DOCUMENT_PROTOCOL, "tigilanol-eu"));
  ck_assert_ptr_nonnull (sw_practice_adopted (practice_of (window), SW_DOCUMENT_INTERACTIONS, "interactions"));
  ck_assert_ptr_nonnull (sw_practice_adopted (practice_of (window), SW_DOCUMENT_MEDICINE, "prednisolone"));
  ck_assert_ptr_null (sw_practice_adopted (practice_of (window), SW_DOCUMENT_MEDICINE, "mavacoxib"));
  ui_close (window);
}
END_TEST

START_TEST (unconfirmed_figures_can_not_be_adopted)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = open_section (practice, "documents");

  ck_assert_ptr_null (document_button (GTK_WIDGET (window),
                                       "Adopt… Electrochemotherapy, bleomycin into the tumour, dog (unverified)"));
  ck_assert_ptr_nonnull (document_button (GTK_WIDGET (window),
                                          "Look Electrochemotherapy, bleomycin into the tumour, dog (unverified)"));
  ui_close (window);
}
END_TEST

static GtkWidget *
named_entry (GtkWidget *root, const char *name)
{
  g_autofree char *own = GTK_IS_ENTRY (root) ? ui_name (root) : NULL;

  if (g_strcmp0 (own, name) == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = named_entry (child, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
set_and_save (SwWindow *window, const char *name, const char *text)
{
  GtkWidget *entry = named_entry (GTK_WIDGET (window), name);

  ck_assert_msg (entry != NULL, "no field %s", name);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  ui_click (ui_find_button (GTK_WIDGET (window), "Save the Settings"));
  for (int i = 0; i < 3; i++)
    ui_settle ();
}

static void
adopt_meloxicam (const UiPractice *practice)
{
  SwWindow *window = open_section (practice, "documents");
  GtkWidget *dialog;

  ui_click (document_button (GTK_WIDGET (window), "Adopt… Meloxicam"));
  dialog = ui_dialog (window);
  tick_all (dialog);
  ui_click (ui_find_button (dialog, "Adopt"));
  ui_wait (no_dialog, window, "the adoption");
  ui_settle ();
  ui_close (window);
}

START_TEST (settings_are_kept_and_guard)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window;

  adopt_meloxicam (practice);
  window = open_section (practice, "settings");
  set_and_save (window, "morning hour", "07:30");
  ck_assert_int_eq (sw_practice_morning (practice_of (window)), 450);
  set_and_save (window, "morning hour", "25:00"); /* refused: the text stays, the setting too */
  ck_assert_int_eq (sw_practice_morning (practice_of (window)), 450);
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (named_entry (GTK_WIDGET (window), "morning hour"))), "25:00");
  set_and_save (window, "morning hour", "07:30");
  set_and_save (window, "meloxicam: washout, days", "4"); /* shorter than its document's 5 days */
  ck_assert_ptr_null (sw_practice_setting (practice_of (window), "washout.meloxicam"));
  set_and_save (window, "meloxicam: washout, days", "7");
  ck_assert_str_eq (sw_practice_setting (practice_of (window), "washout.meloxicam"), "7");
  set_and_save (window, "meloxicam: strengths on the shelf, mg", "2,5; 1.5 mg/mL");
  ck_assert_str_eq (sw_practice_setting (practice_of (window), "strengths.meloxicam"), "2500;1500/mL");
  ui_close (window);
}
END_TEST

START_TEST (strengths_as_typed_and_kept)
{
  static const char *const wrong[] = { "", "2.5;;5", "two", "-1", "0", "1.2345", "5 g" };
  g_autofree char *kept = sw_strengths_parse ("1; 2,5; 5 mg; 1.5 mg/mL", NULL);
  g_autofree char *shown = sw_strengths_format (kept);

  ck_assert_str_eq (kept, "1000;2500;5000;1500/mL");
  ck_assert_str_eq (shown, "1; 2.5; 5; 1.5 mg/mL");
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GError) error = NULL;

      ck_assert_ptr_null (sw_strengths_parse (wrong[i], &error));
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
    }
}
END_TEST

static gboolean
two_people (gpointer window)
{
  return sw_practice_person (practice_of (window), 2) != NULL;
}

START_TEST (a_person_joins)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window = open_section (practice, "people");
  GtkWidget *name = named_entry (GTK_WIDGET (window), "name: new person");

  gtk_editable_set_text (GTK_EDITABLE (name), "Tomas");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (ui_find_type (gtk_widget_get_parent (name), GTK_TYPE_CHECK_BUTTON)),
                               TRUE);
  ui_click (ui_find_button (GTK_WIDGET (window), "Add"));
  ui_wait (two_people, window, "the new person");
  ck_assert_str_eq (sw_practice_person_name (practice_of (window), 2), "Tomas");
  ck_assert_int_eq (sw_practice_roles (practice_of (window), 2), SW_ROLE_TECHNICIAN);
  sw_window_set_person (window, 2);
  ck_assert_int_eq (sw_window_get_person (window), 2);
  ui_close (window);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("practice");
  TCase *tcase = tcase_create ("practice");

  ui_init ();
  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, every_figure_is_confirmed);
  tcase_add_test (tcase, unconfirmed_figures_can_not_be_adopted);
  tcase_add_test (tcase, settings_are_kept_and_guard);
  tcase_add_test (tcase, strengths_as_typed_and_kept);
  tcase_add_test (tcase, a_person_joins);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
