/* test-treatment.c: the treatment day through its real widgets, on a real record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-treatment.h"

#include "sw-step-page.h"

static void
fill_injection (UiDay *day, const char *agent, const char *given)
{
  ui_fill (day->page, "vial 1: lot", "7K214");
  ui_fill (day->page, "vial 1: good until", "2027-03");
  ui_fill (day->page, "vial 1: agent", agent);
  ui_fill (day->page, "vial 1: strength", "1");
  ui_fill (day->page, "vial 1: left over", "1.15");
  ui_fill (day->page, "vial 1: disposal", "cytotoxic waste");
  ui_choose (day->page, "vial 1: witness of the disposal", "Tomas");
  ui_fill (day->page, "given into tumour A, left hock", given);
  ui_fill (day->page, "injected at", "10:41");
  ui_choose (day->page, "injected by", "Ines");
  ui_choose (day->page, "assisted by", "Tomas");
  ui_fill (day->page, "needle, its gauge", "23 G");
  ui_choose (day->page, "after drawing, read aloud by", "Tomas");
}

/* Beside the list of patients, in a window of 1280 x 720. */
static void
check_fits (UiDay *day)
{
  int width;

  gtk_widget_measure (GTK_WIDGET (day->window), GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  ck_assert_int_le (width, 1280);
}

static GtkWidget *
focus_of (UiDay *day)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (day->window));

  return GTK_IS_TEXT (focus) ? gtk_widget_get_parent (focus) : focus;
}

static const SwWeight *
last_weight (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_WEIGHT);
}

START_TEST (what_is_typed_is_recorded_as_typed)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);
  g_autoptr (SwDossier) dossier = NULL;
  const SwReading *reading;

  ck_assert (ui_shows (day->page, "There is no weight of the treatment day"));
  ui_day_weigh_and_measure (day);
  dossier = ui_dossier (day, MARLO);
  reading = sw_facts_last (&dossier->facts, SW_FACT_READING);
  ck_assert_int_eq (last_weight (dossier)->grams, 24600);
  ck_assert_int_eq (reading->axis1, 2100);
  ck_assert_str_eq (reading->typed, "2.10 cm x 17.6 x 9.1");
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (ui_named (day->page, "tumour A, reading 2, length in mm"))),
                    "21.0");
  ck_assert (ui_shows (day->page, "readings of an axis agree within 2.2 %"));
  ui_keep_picture (day, "treatment-dose", 0);
}
END_TEST

START_TEST (a_row_counts_when_its_third_axis_is_accepted)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);
  g_autoptr (SwDossier) before = NULL, after = NULL;
  guint readings;

  before = ui_dossier (day, MARLO);
  readings = before->facts.rows[SW_FACT_READING]->len;
  ui_enter (day->page, "weight today", "24.6");
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.4");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "18.0");
  ui_settle ();
  ck_assert (ui_shows (day->page, "Ines, not recorded"));
  ck_assert (sw_step_page_has_unsaved (SW_STEP_PAGE (day->page)));
  after = ui_dossier (day, MARLO);
  ck_assert_uint_eq (after->facts.rows[SW_FACT_READING]->len, readings);
  ui_enter (day->page, "tumour A, reading 1, height in mm", "8.9");
  ui_wait_shows (day->page, "1.71 cm³");
  ck_assert (!sw_step_page_has_unsaved (SW_STEP_PAGE (day->page)));
}
END_TEST

START_TEST (an_unlikely_length_is_asked_about_and_taken)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_fill (day->page, "tumour A, reading 1, length in mm", "2.08");
  ck_assert (ui_shows (day->page, "The last one was 20.8 mm: is the unit right?"));
  ui_fill (day->page, "tumour A, reading 1, length in mm", "20.9");
  ck_assert (!ui_shows (day->page, "is the unit right?"));
  ui_enter (day->page, "tumour A, reading 1, length in mm", "1.9");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "1.8");
  ui_enter (day->page, "tumour A, reading 1, height in mm", "0.9");
  ui_wait_shows (day->page, "mean");
  ui_fill (day->page, "weight today", "2.46");
  ck_assert (ui_shows (day->page, "is the unit right?"));
}
END_TEST

START_TEST (a_unit_behind_the_last_axis_holds_for_the_row)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_enter (day->page, "tumour A, reading 1, length in mm", "2.14");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "1.80");
  ui_enter (day->page, "tumour A, reading 1, height in mm", "0.89 cm");
  ui_wait_shows (day->page, "mean");
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (ui_named (day->page, "tumour A, reading 1, width in mm"))),
                    "18.0");
}
END_TEST

/* Somebody takes the reader's role away in another program. */
static void
set_roles (UiDay *day, gint64 person, gint64 roles)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (day->folder, day->clock, &error);
  const SwPractice *practice = sw_desk_practice (desk, &error);
  SwPersonDetails *details = sw_fact_correction (sw_practice_person (practice, person));
  SwRequest *request = sw_request_new (SW_ACT_MANAGE_PEOPLE, INES, 0);

  details->roles = roles;
  sw_request_add (request, details);
  sw_reply_free (ui_perform (desk, request));
}

START_TEST (what_could_not_be_saved_stays_with_a_retry)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_choose (day->page, "next reading by", "Tomas");
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.4");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "18.0");
  set_roles (day, TOMAS, SW_ROLE_MANAGER);
  ui_enter (day->page, "tumour A, reading 1, height in mm", "8.9");
  ui_wait_shows (day->page, "Tomas, not saved");
  ck_assert (sw_step_page_has_unsaved (SW_STEP_PAGE (day->page)));
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (ui_named (day->page, "tumour A, reading 1, height in mm"))),
                    "8.9");
  ui_keep_picture (day, "treatment-not-saved", 0);
  set_roles (day, TOMAS, SW_ROLE_TECHNICIAN);
  ui_click (ui_named (day->page, "Retry reading 1 of tumour A"));
  ui_wait_shows (day->page, "mean");
  ck_assert (!ui_shows (day->page, "not saved"));
}
END_TEST

START_TEST (a_release_goes_to_what_blocks_first)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_press (day->page, "Release the Dose");
  ck_assert_ptr_eq (focus_of (day), ui_named (day->page, "weight today"));
  ui_enter (day->page, "weight today", "24.6");
  ui_wait_shows (day->page, "Ines, 09:40");
  ui_settle ();
  ui_press (day->page, "Release the Dose");
  ck_assert_ptr_eq (focus_of (day), ui_named (day->page, "tumour A, reading 1, length in mm"));
  ck_assert_ptr_null (ui_dialog (day->window));
}
END_TEST

START_TEST (one_reading_needs_the_vets_reason)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_enter (day->page, "weight today", "24.6");
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.4");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "18.0");
  ui_enter (day->page, "tumour A, reading 1, height in mm", "8.9");
  ui_wait_shows (day->page, "1.71 cm³");
  ui_day_answer_all (day);
  ui_day_read_aloud (day);
  ui_wait_shows (day->page, "Write the Reason…");
  ui_press (day->page, "Write the Reason…");
  ui_wait_shows (ui_dialog (day->window), "The vet decides");
  ui_fill (ui_dialog (day->window), "Reason", "The dog won't bear a second one");
  ui_answer (day, "Record the Reason");
  ui_wait_shows (sw_window_get_patient_page (day->window), "tumour A");
  for (int i = 0; i < 3; i++)
    ui_settle ();
  ck_assert (!ui_shows (day->page, "What still blocks the release"));
}
END_TEST

START_TEST (what_is_not_ticked_in_a_group_is_a_no)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);
  g_autoptr (SwDossier) dossier = NULL;

  ui_tick (day->page, "adrenaline");
  ui_press (day->page, "Record Today's Answers");
  ui_wait_shows (day->page, "5 of 23 answers on record");
  dossier = ui_dossier (day, MARLO);
  ck_assert_str_eq (sw_dossier_answer (dossier, 1, 0, "oxygen-today", last_weight (dossier)->day + 9)->answer, "no");
  ck_assert_ptr_null (sw_dossier_answer (dossier, 1, 0, "gloves-today", last_weight (dossier)->day + 9));
  ck_assert (ui_shows (day->page, "oxygen"));
}
END_TEST

START_TEST (restraint_has_a_reason)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_choose (day->page, "restraint", "sedation");
  ui_press (day->page, "Record Today's Answers");
  ck_assert (ui_shows (day->page, "Restraint has a reason"));
  ui_fill (day->page, "restraint: because (temperament, site)", "temperament");
  ui_press (day->page, "Record Today's Answers");
  ui_wait_shows (day->page, "1 of 23 answers on record");
}
END_TEST

START_TEST (a_correction_voids_the_release)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_day_release (day);
  ui_keep_picture (day, "treatment-released", 900);
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.5");
  ui_answer (day, "Cancel");
  ui_wait_shows (day->page, "not saved");
  ck_assert (ui_shows (day->page, "Released by Ines"));
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.5");
  ui_answer (day, "Correct It");
  ui_wait_shows (day->page, "is void");
  ck_assert (!ui_shows (day->page, "Released by Ines"));
  ui_day_read_aloud (day);
  ck_assert (ui_shows (day->page, "21.5 × 18.0 × 8.9"));
}
END_TEST

START_TEST (a_whole_day)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);
  g_autoptr (SwDossier) dossier = NULL;
  const SwVial *vial;

  ui_day_release (day);
  ui_day_at (day, 10, 45);
  fill_injection (day, "another agent", "0.85");
  check_fits (day);
  ui_press (day->page, "Record the Injection");
  ui_wait_shows (day->page, "Record the Injection outside the Gate…");
  ui_keep_picture (day, "treatment-refused-vial", 1100);
  ui_keep_picture (day, "treatment-drawing", 900);
  ui_fill (day->page, "vial 1: agent", "tigilanol tiglate");
  ui_press (day->page, "Record the Injection");
  ui_wait_shows (day->page, "Injected on 2026-05-14 at 10:41 by Ines");
  ck_assert (ui_shows (day->page, "The next look is due at 11:11; the dog is watched until 12:41."));
  ui_fill (day->page, "time of the look", "11:10");
  ui_fill (day->page, "heart rate a minute", "96");
  ui_choose (day->page, "gums", "pink");
  ui_choose (day->page, "breathing", "easy");
  ui_choose (day->page, "vomiting", "no");
  ui_fill (day->page, "the site at this look", "swollen, warm");
  ui_day_at (day, 11, 15);
  ui_press (day->page, "Record the Look");
  ui_wait_shows (day->page, "The next look is due at 11:40");
  ui_day_at (day, 12, 45);
  ui_fill (day->page, "goes home at", "12:00");
  ui_fill (day->page, "number out of hours", "555 0199");
  ui_fill (day->page, "contact at hour eight by", "Tomas");
  ui_press (day->page, "Discharge the Dog");
  ui_answer (day, "Cancel"); /* before the time of observation is over: asked */
  ui_fill (day->page, "goes home at", "12:41");
  ui_press (day->page, "Discharge the Dog");
  ui_wait_shows (day->page, "Discharged by Ines");
  check_fits (day);
  ui_keep_picture (day, "treatment-done", 1100);
  dossier = ui_dossier (day, MARLO);
  vial = sw_facts_last (&dossier->facts, SW_FACT_VIAL);
  ck_assert_int_eq (vial->expiry, sw_day_from_ymd (2027, 3, 31));
  ck_assert_int_eq (vial->strength_ug_ml, 1000);
  ck_assert_int_eq (sw_dossier_injection (dossier, 1)->outside, 0);
}
END_TEST

START_TEST (a_correction_after_the_injection_amends)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_day_release (day);
  ui_day_at (day, 10, 45);
  fill_injection (day, "tigilanol tiglate", "0.85");
  ui_press (day->page, "Record the Injection");
  ui_wait_shows (day->page, "Injected on");
  ui_settle ();
  ui_enter (day->page, "tumour A, reading 2, length in mm", "21.1");
  ui_wait_shows (ui_dialog (day->window), "Only a vet may correct what it rests on");
  ui_answer (day, "Correct It");
  ui_wait_shows (day->page, "Amended:");
  ck_assert (ui_shows (day->page, "Released by Ines"));
  ui_keep_picture (day, "treatment-amended", 900);
}
END_TEST

START_TEST (the_derivation_is_laid_out)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_day_weigh_and_measure (day);
  gtk_expander_set_expanded (GTK_EXPANDER (ui_named (day->page, "Why these numbers")), TRUE);
  ui_settle ();
  ck_assert (ui_shows (day->page, "L x W x H / 2"));
  ck_assert (ui_shows (day->page, "21.2"));
  ck_assert (ui_shows (day->page, "at most 8 cm3"));
  ck_assert (ui_shows (day->page, "[second-hand]"));
  check_fits (day);
  ui_keep_picture (day, "treatment-why", 330);
}
END_TEST

START_TEST (what_happened_outside_the_gate_is_marked)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_enter (day->page, "weight today", "24.6");
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.4");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "18.0");
  ui_enter (day->page, "tumour A, reading 1, height in mm", "8.9");
  ui_wait_shows (day->page, "1.71 cm³");
  ui_press (day->page, "Record What Happened outside the Gate…");
  ui_fill (ui_dialog (day->window), "time", "09:30");
  ui_fill (ui_dialog (day->window), "drawn for tumour A, left hock", "0.85");
  ui_press (ui_dialog (day->window), "Record It outside the Gate");
  ck_assert (ui_shows (ui_dialog (day->window), "needs the vet's reason"));
  ui_fill (ui_dialog (day->window), "reason", "Drawn before anybody looked");
  ui_press (ui_dialog (day->window), "Record It outside the Gate");
  ui_wait_shows (day->page, "Outside the gate. Reason: Drawn before anybody looked");
}
END_TEST

START_TEST (several_tumours_share_the_limits)
{
  g_autoptr (UiDay) day = ui_day_new (TANSY);

  ck_assert (ui_has_named (day->page, "Readings of tumour B, right flank"));
  ck_assert (ui_shows (day->page, "of the treatment limit, 4.00 mL"));
  ck_assert (ui_shows (day->page, "115.5 %, over"));
  ck_assert (ui_shows (day->page, "Treat fewer tumours now"));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (ui_named (day->page, "Readings of tumour B, right flank")), TRUE);
  ui_settle ();
  ck_assert (ui_has_named (day->page, "tumour B, reading 1, length in mm"));
  ui_keep_picture (day, "treatment-refused", 0);
}
END_TEST

START_TEST (without_a_course_it_says_what_belongs_here)
{
  g_autoptr (UiDay) day = ui_day_new (DUSK);

  ck_assert (ui_shows (day->page, "The treatment day belongs to a course."));
  ck_assert_ptr_null (sw_step_page_first_empty_cell (SW_STEP_PAGE (day->page)));
}
END_TEST

START_TEST (an_unfinished_row_waits_for_its_dog)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_choose (day->page, "next reading by", "Tomas");
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.4");
  sw_window_show_patient (day->window, TANSY);
  ui_answer (day, "Open the Other Patient");
  ui_wait_shows (day->page, "tumour B, right flank");
  ck_assert (!ui_shows (day->page, "Tomas, not recorded"));
  ui_day_show (day, MARLO);
  ck_assert (ui_shows (day->page, "Tomas, not recorded"));
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (ui_named (day->page, "tumour A, reading 1, length in mm"))),
                    "21.4");
}
END_TEST

START_TEST (a_reading_and_a_weight_are_taken_back)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);
  g_autoptr (SwDossier) dossier = NULL;

  ui_day_weigh_and_measure (day);
  ui_settle ();
  ui_click (ui_named (day->page, "Take back reading 2 of tumour A"));
  ui_wait_shows (day->page, "1.71 cm³");
  ui_press (day->page, "Take Back the Weight");
  ui_wait_shows (day->page, "There is no weight of the treatment day");
  ui_enter (day->page, "weight today", "24.5");
  ui_wait_shows (day->page, "Ines, 09:40");
  ui_press (day->page, "Weigh Again");
  ui_enter (day->page, "weight today", "24.7");
  ui_wait_shows (day->page, "Ines, 09:40");
  ui_settle ();
  dossier = ui_dossier (day, MARLO);
  ck_assert_int_eq (last_weight (dossier)->grams, 24700);
  ck_assert_int_eq (last_weight (dossier)->fact.replaces, 0);
}
END_TEST

START_TEST (everything_has_a_name_and_fits)
{
  static const gint64 dogs[] = { MARLO, TANSY, DUSK };
  g_autoptr (UiDay) day = ui_day_new (MARLO);
  g_autoptr (GHashTable) names = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (dogs); i++)
    {
      g_clear_pointer (&names, g_hash_table_unref);
      names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

      ui_day_show (day, dogs[i]);
      ui_check_names (day->page, names);
      check_fits (day);
    }
  ui_day_show (day, MARLO);
  ui_day_release (day);
  ui_press (day->page, "Another Vial");
  ui_settle ();
  g_hash_table_remove_all (names);
  ui_check_names (day->page, names);
  check_fits (day);
  ck_assert_uint_gt (g_hash_table_size (names), 30);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("treatment");
  TCase *tcase = tcase_create ("treatment");

  ui_init ();
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, what_is_typed_is_recorded_as_typed);
  tcase_add_test (tcase, a_row_counts_when_its_third_axis_is_accepted);
  tcase_add_test (tcase, an_unlikely_length_is_asked_about_and_taken);
  tcase_add_test (tcase, a_unit_behind_the_last_axis_holds_for_the_row);
  tcase_add_test (tcase, what_could_not_be_saved_stays_with_a_retry);
  tcase_add_test (tcase, a_release_goes_to_what_blocks_first);
  tcase_add_test (tcase, one_reading_needs_the_vets_reason);
  tcase_add_test (tcase, what_is_not_ticked_in_a_group_is_a_no);
  tcase_add_test (tcase, restraint_has_a_reason);
  tcase_add_test (tcase, a_correction_voids_the_release);
  tcase_add_test (tcase, a_whole_day);
  tcase_add_test (tcase, a_correction_after_the_injection_amends);
  tcase_add_test (tcase, the_derivation_is_laid_out);
  tcase_add_test (tcase, what_happened_outside_the_gate_is_marked);
  tcase_add_test (tcase, several_tumours_share_the_limits);
  tcase_add_test (tcase, without_a_course_it_says_what_belongs_here);
  tcase_add_test (tcase, an_unfinished_row_waits_for_its_dog);
  tcase_add_test (tcase, a_reading_and_a_weight_are_taken_back);
  tcase_add_test (tcase, everything_has_a_name_and_fits);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
