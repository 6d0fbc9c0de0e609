/* test-work-up-course.c: opening a course, reasons, consent, what leads where, and that nothing typed is lost
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "work-up-ui.h"

#include "sw-decision-row.h"
#include "sw-demo.h"
#include "sw-patient-page.h"
#include "sw-quantity-entry.h"
#include "sw-workup-consent.h"
#include "sw-workup-course.h"
#include "sw-workup-dog.h"
#include "sw-workup-medicines.h"
#include "sw-workup-tumours.h"

#include <string.h>

static gboolean
shows (GtkWidget *widget, const char *words)
{
  if (!gtk_widget_get_visible (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (shows (child, words))
      return TRUE;
  return FALSE;
}

static GtkWidget *
section (UiWorkUp *work_up, const char *name)
{
  return GTK_WIDGET (sw_workup_page_get_section (work_up->page, name));
}

typedef struct
{
  GtkWidget *widget;
  const char *words;
} Showing;

static gboolean
is_showing (gpointer data)
{
  Showing *showing = data;

  return shows (showing->widget, showing->words);
}

static void
wait_for_words (GtkWidget *widget, const char *words)
{
  Showing showing = { widget, words };

  ui_wait (is_showing, &showing, words);
}

/* --- opening --- */

START_TEST (without_a_protocol_it_says_so)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new_bare ();
  GtkWidget *course = section (work_up, "course");

  ck_assert (gtk_widget_get_mapped (course)); /* a dog without a course begins here */
  ck_assert (shows (course, "This practice has adopted no protocol yet"));
  ck_assert (!shows (course, "Open the Course"));
  ck_assert_ptr_nonnull (gtk_actionable_get_action_name (GTK_ACTIONABLE (ui_find_button (course, "Go to Practice"))));
  ck_assert (gtk_widget_activate_action (course, "win.page", "s", "practice"));
  ui_settle ();
  ck_assert (gtk_widget_get_mapped (sw_window_get_practice_view (work_up->window)));
}
END_TEST

START_TEST (a_course_needs_protocol_and_tumours)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  SwWorkUpCourse *course = SW_WORKUP_COURSE (section (work_up, "course"));
  GtkWidget *tumour = sw_workup_course_get_tumour (course, work_up->practice->tumour);
  const SwCourseDetails *details;

  sw_workup_page_show_section (work_up->page, "open");
  ck_assert (shows (section (work_up, "open"), "No course is open."));
  ui_click (ui_find_button (section (work_up, "open"), "Go to Course"));
  ck_assert (gtk_widget_get_mapped (GTK_WIDGET (course)));
  ui_click (sw_workup_course_get_open (course));
  wait_for_words (GTK_WIDGET (course), "Choose the protocol");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (tumour), FALSE);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (sw_workup_course_get_protocol (course)), 1);
  ui_click (sw_workup_course_get_open (course));
  wait_for_words (GTK_WIDGET (course), "Tick the tumours");
  ck_assert_int_eq (ui_work_up_context (work_up)->course, 0);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (tumour), TRUE);
  gtk_editable_set_text (GTK_EDITABLE (sw_workup_course_get_purpose (course)), "first injection");
  ui_work_up_open_course (work_up, "tigilanol-us");
  wait_for_words (GTK_WIDGET (course), "Purpose: first injection.");
  details = sw_facts_last (&ui_work_up_context (work_up)->dossier->facts, SW_FACT_COURSE_DETAILS);
  ck_assert_int_eq (details->follows, 0);
  ck_assert (!gtk_widget_get_visible (sw_workup_course_get_open (course))); /* one treatment is prepared at a time */
}
END_TEST

static void
register_tumour_b (UiWorkUp *work_up)
{
  g_autoptr (SwDesk) desk = sw_desk_open (work_up->practice->folder, work_up->practice->clock, NULL);
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_TUMOUR, work_up->practice->person, work_up->practice->patient);
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);

  details->tumour = sw_request_add (request, sw_new (SW_FACT_TUMOUR, SwTumour));
  details->letter = 1;
  details->found = ui_work_up_today ();
  sw_request_add (request, details);
  sw_reply_free (ui_perform (desk, request));
}

static gboolean
no_tumour_is_treated (gpointer work_up)
{
  return ui_work_up_severity (work_up, SW_FINDING_NO_TUMOUR, NULL) == SW_STOP;
}

START_TEST (tumours_of_a_course_change)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  SwWorkUpCourse *course = SW_WORKUP_COURSE (section (work_up, "course"));

  ui_work_up_open_course (work_up, "tigilanol-eu");
  register_tumour_b (work_up);
  wait_for_words (GTK_WIDGET (course), "tumour B");
  wait_for_words (section (work_up, "tumours"), "Tumour B");
  ck_assert (shows (section (work_up, "tumours"), "(not treated in this course)"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (sw_workup_course_get_tumour (course, work_up->practice->tumour)), FALSE);
  ck_assert (sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
  ck_assert (shows (GTK_WIDGET (course), "The change of tumours is not recorded yet."));
  ui_click (sw_workup_course_get_change (course));
  ui_wait (no_tumour_is_treated, work_up, "no tumour");
  ck_assert (!sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
}
END_TEST

/* The first dog of the demo whose last course is injected and scored, or 0. */
static gint64
scored_dog (SwDesk *desk)
{
  for (gint64 patient = 1;; patient++)
    {
      g_autoptr (SwDossier) dossier = sw_desk_load_dossier (desk, patient, NULL);
      const SwCourse *last = dossier != NULL ? sw_dossier_last_course (dossier) : NULL;

      if (dossier == NULL || sw_dossier_patient (dossier) == NULL)
        return 0;
      if (last != NULL && sw_dossier_injection (dossier, last->fact.id) != NULL
          && sw_facts_of_course (&dossier->facts, SW_FACT_SCORE, last->fact.id) != NULL)
        return patient;
    }
}

typedef struct
{
  UiWorkUp work_up;
  gint64 before; /* the course that was shown */
} Second;

static gboolean
has_second_course (gpointer data)
{
  Second *second = data;

  return ui_work_up_context (&second->work_up)->course != second->before;
}

START_TEST (a_second_course_follows)
{
  SwDemoOptions options = { .today = ui_begin ().day, .seed = 1 };
  g_autofree char *folder = ui_demo (&options);
  g_autoptr (SwClock) clock = sw_clock_new_at ((SwMoment){ ui_begin ().day, 11 * 60 });
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = NULL;
  Second second = { { NULL } };
  SwWorkUpCourse *course;
  const SwCourseDetails *details;
  gint64 patient;

  desk = sw_desk_open (folder, clock, &error);
  patient = scored_dog (desk);
  ck_assert_int_gt (patient, 0);
  second.work_up.window = ui_open (folder, clock);
  ui_show_patient (second.work_up.window, patient);
  sw_patient_page_show_step (SW_PATIENT_PAGE (sw_window_get_patient_page (second.work_up.window)), "work-up");
  second.work_up.page = SW_WORKUP_PAGE (ui_find_type (GTK_WIDGET (second.work_up.window), SW_TYPE_WORKUP_PAGE));
  second.before = ui_work_up_context (&second.work_up)->course;
  course = SW_WORKUP_COURSE (section (&second.work_up, "course"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (sw_workup_course_get_protocol (course)), 1);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (sw_workup_course_get_follows (course)), 1);
  ui_click (sw_workup_course_get_open (course));
  ui_wait (has_second_course, &second, "the second course");
  details = sw_facts_of_course (&ui_work_up_context (&second.work_up)->dossier->facts, SW_FACT_COURSE_DETAILS,
                                ui_work_up_context (&second.work_up)->course);
  ck_assert_int_gt (details->follows, 0);
  wait_for_words (GTK_WIDGET (course), "It follows course P-");
  ck_assert_int_eq (ui_work_up_severity (&second.work_up, SW_FINDING_NO_CONSENT, NULL), SW_STOP); /* each course its own */
  ui_close (second.work_up.window);
  ui_forget (folder);
}
END_TEST

/* --- reasons and ways --- */

static gboolean
nothing_blocks (gpointer work_up)
{
  return ui_work_up_blocks (work_up) == 0;
}

static SwDecisionRow *
grade_row (UiWorkUp *work_up)
{
  return SW_DECISION_ROW (ui_work_up_row (work_up, SW_FINDING_ANSWER_VET_DECIDES, "grade"));
}

static gboolean
says_who (gpointer work_up)
{
  return shows (GTK_WIDGET (grade_row (work_up)), "Given by Ines");
}

START_TEST (the_vet_gives_a_reason)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  GtkWidget *entry;

  ui_work_up_make_good (work_up);
  ck_assert (shows (section (work_up, "open"), "Nothing stands before the lead-in: a vet can sign the medicine plan."));
  ui_work_up_answer (work_up, "grade", "kiupel-high", NULL);
  ck_assert (shows (section (work_up, "open"), "1 point stands before the lead-in:"));
  sw_workup_page_show_section (work_up->page, "open");
  entry = sw_decision_row_get_entry (grade_row (work_up));
  ui_click (sw_decision_row_get_give (grade_row (work_up))); /* empty: nothing is recorded */
  gtk_editable_set_text (GTK_EDITABLE (entry), "The owner declines surgery");
  ck_assert (sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
  /* another fact comes in between: the text stays, in the same field */
  ui_work_up_answer (work_up, "node", "hn0", NULL);
  ck_assert_ptr_eq (sw_decision_row_get_entry (grade_row (work_up)), entry);
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (entry)), "The owner declines surgery");
  ui_click (sw_decision_row_get_give (grade_row (work_up)));
  ui_wait (nothing_blocks, work_up, "the reason to settle it");
  ui_wait (says_who, work_up, "who gave the reason");
  ck_assert (!sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
}
END_TEST

static GtkWidget *
focus_of (UiWorkUp *work_up)
{
  return gtk_root_get_focus (GTK_ROOT (work_up->window));
}

START_TEST (findings_lead_to_what_settles_them)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  SwWorkUpTumours *tumours = SW_WORKUP_TUMOURS (section (work_up, "tumours"));
  SwQuestionForm *form = sw_workup_dog_get_form (SW_WORKUP_DOG (section (work_up, "dog")));
  SwQuantityEntry *length;

  ui_work_up_open_course (work_up, "tigilanol-eu");
  sw_workup_page_show_section (work_up->page, "open");
  ui_click (sw_decision_row_get_go (SW_DECISION_ROW (ui_work_up_row (work_up, SW_FINDING_UNANSWERED, "node"))));
  ck_assert (gtk_widget_get_mapped (section (work_up, "dog")));
  ck_assert (gtk_widget_is_ancestor (focus_of (work_up), sw_question_form_get_choice (form, "node")));
  ui_click (sw_decision_row_get_go (SW_DECISION_ROW (ui_work_up_row (work_up, SW_FINDING_NOT_MEASURED, NULL))));
  ck_assert (gtk_widget_get_mapped (GTK_WIDGET (tumours)));
  length = sw_workup_readings_get_cell (sw_workup_tumours_get_readings (tumours, work_up->practice->tumour), 0);
  ck_assert (gtk_widget_is_ancestor (focus_of (work_up), GTK_WIDGET (length)));
  ck_assert_ptr_eq (sw_step_page_first_empty_cell (SW_STEP_PAGE (work_up->page)), GTK_WIDGET (length));
  ui_click (sw_decision_row_get_go (SW_DECISION_ROW (ui_work_up_row (work_up, SW_FINDING_HISTORY_INCOMPLETE, NULL))));
  ck_assert (gtk_widget_get_mapped (section (work_up, "medicines")));
  ui_click (sw_decision_row_get_go (SW_DECISION_ROW (ui_work_up_row (work_up, SW_FINDING_NO_CONSENT, NULL))));
  ck_assert (gtk_widget_get_mapped (section (work_up, "consent")));
  ui_click (ui_find_button (section (work_up, "open"), "Go to Lead-in"));
  ck_assert_str_eq (sw_patient_page_get_step (SW_PATIENT_PAGE (sw_window_get_patient_page (work_up->window))), "lead-in");
}
END_TEST

/* --- consent --- */

static const SwConsentFields *
fields_of (UiWorkUp *work_up)
{
  return sw_workup_consent_get_fields (SW_WORKUP_CONSENT (section (work_up, "consent")));
}

START_TEST (consent_is_recorded_and_withdrawn)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  GtkWidget *consent = section (work_up, "consent");
  const SwConsentFields *fields = fields_of (work_up);

  ck_assert (shows (consent, "Open the course first."));
  ck_assert (!gtk_widget_get_visible (fields->record));
  ui_work_up_open_course (work_up, "tigilanol-eu");
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (fields->signer)), "Aldane");
  ui_click (fields->record);
  wait_for_words (consent, "Which version of the sheet was signed?");
  gtk_editable_set_text (GTK_EDITABLE (fields->sheet_version), "3");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->points[0]), TRUE);
  ui_click (fields->record);
  wait_for_words (consent, "The consent does not cover:");
  ck_assert (!shows (consent, "The consent does not cover: the alternatives"));
  ck_assert (ui_work_up_severity (work_up, SW_FINDING_CONSENT_OFF_LABEL, NULL) == SW_STOP);
  ui_work_up_consent (work_up);
  wait_for_words (consent, "Vera Aldane signed sheet version 1 on 2026-05-13.");
  ck_assert (!sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
  ck_assert_ptr_null (ui_work_up_row (work_up, SW_FINDING_CONSENT_INCOMPLETE, NULL));
  ui_click (fields->withdraw);
  gtk_editable_set_text (GTK_EDITABLE (ui_find_type (ui_dialog (work_up->window), GTK_TYPE_ENTRY)), "they want surgery");
  ui_dialog_press (work_up, "Record the Withdrawal");
  wait_for_words (consent, "Vera Aldane withdrew the consent on 2026-05-13: they want surgery.");
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_FINDING_CONSENT_WITHDRAWN, NULL), SW_STOP);
  ck_assert (!gtk_check_button_get_active (GTK_CHECK_BUTTON (fields->points[0]))); /* a new one begins with nothing explained */
  ui_work_up_consent (work_up);
  wait_for_words (consent, "Vera Aldane signed sheet version 1");
  ck_assert_ptr_null (ui_work_up_row (work_up, SW_FINDING_CONSENT_WITHDRAWN, NULL));
}
END_TEST

/* --- nothing typed is lost --- */

START_TEST (what_is_chosen_waits)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  SwQuestionForm *form = sw_workup_dog_get_form (SW_WORKUP_DOG (section (work_up, "dog")));
  GtkWidget *node = sw_question_form_get_choice (form, "node");
  SwPatientPage *patient_page = SW_PATIENT_PAGE (sw_window_get_patient_page (work_up->window));

  ui_work_up_open_course (work_up, "tigilanol-eu");
  ui_work_up_choose (work_up, "node", "hn2");
  ck_assert (shows (section (work_up, "dog"), "1 answer is not recorded yet."));
  ck_assert (shows (section (work_up, "dog"), "not recorded"));
  register_tumour_b (work_up); /* by another program, meanwhile */
  wait_for_words (section (work_up, "tumours"), "Tumour B");
  ck_assert_uint_eq (gtk_drop_down_get_selected (GTK_DROP_DOWN (node)), 6);
  ck_assert_int_eq (ui_work_up_severity (work_up, SW_N_FINDINGS, "node"), SW_NOT_KNOWN); /* not recorded: counts for nothing */
  sw_patient_page_show_step (patient_page, "log");
  ck_assert_str_eq (sw_patient_page_get_step (patient_page), "work-up");
  ck_assert_ptr_nonnull (ui_dialog (work_up->window));
  ui_dialog_press (work_up, "Cancel");
  ui_work_up_choose (work_up, "node", NULL);
  ck_assert (!sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
}
END_TEST

/* Opening a course is about the course: what is being told of the dog stays. */
START_TEST (a_course_opens_around_what_is_typed)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  SwQuestionForm *form = sw_workup_dog_get_form (SW_WORKUP_DOG (section (work_up, "dog")));

  ui_work_up_choose (work_up, "node", "hn2");
  ui_work_up_open_course (work_up, "tigilanol-eu");
  ui_settle ();
  ck_assert_uint_eq (gtk_drop_down_get_selected (GTK_DROP_DOWN (sw_question_form_get_choice (form, "node"))), 6);
  ck_assert (shows (section (work_up, "dog"), "1 answer is not recorded yet."));
  ui_work_up_choose (work_up, "node", NULL);
}
END_TEST

static void
add_technician (UiWorkUp *work_up)
{
  g_autoptr (SwDesk) desk = sw_desk_open (work_up->practice->folder, work_up->practice->clock, NULL);
  SwRequest *request = sw_request_new (SW_ACT_MANAGE_PEOPLE, work_up->practice->person, 0);
  SwPersonDetails *details = sw_new (SW_FACT_PERSON_DETAILS, SwPersonDetails);

  details->person = sw_request_add (request, sw_new (SW_FACT_PERSON, SwPerson));
  details->name = g_strdup ("Tomas");
  details->roles = SW_ROLE_TECHNICIAN;
  details->active = 1;
  sw_request_add (request, details);
  sw_reply_free (ui_perform (desk, request));
}

static gboolean
has_technician (gpointer work_up)
{
  return sw_practice_roles (sw_record_get_practice (sw_window_get_record (((UiWorkUp *) work_up)->window)), 2)
         == SW_ROLE_TECHNICIAN;
}

static gboolean
technician_sits (gpointer work_up)
{
  return ui_work_up_context (work_up)->person == 2;
}

/* Work-up facts are the vet's. Medicines, readings and the consent a technician records too. */
START_TEST (a_technician_is_told)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  GtkWidget *dog = section (work_up, "dog");
  UiPack pack = { "carprofen", -3, SW_NO_DAY, SW_FORM_TABLET, 1 };

  ui_work_up_open_course (work_up, "tigilanol-eu");
  add_technician (work_up);
  ui_wait (has_technician, work_up, "the technician");
  sw_window_set_person (work_up->window, 2);
  ui_wait (technician_sits, work_up, "the technician at the desk");
  ui_settle ();
  ui_work_up_choose (work_up, "node", "hn0");
  ui_click (sw_workup_dog_get_record (SW_WORKUP_DOG (dog)));
  wait_for_words (dog, "vet");
  ck_assert (shows (dog, "1 answer is not recorded yet.")); /* and the choice is still there */
  ui_work_up_choose (work_up, "node", NULL);
  ui_work_up_take (work_up, &pack);
  ui_work_up_measure (work_up, "21,4", "1.8 cm", "8.9 mm");
  ui_work_up_consent (work_up);
}
END_TEST

/* A mistyped reading is refused beside its cell; one that was recorded can be taken back. */
START_TEST (readings_are_typed_and_taken_back)
{
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  SwWorkUpTumours *tumours = SW_WORKUP_TUMOURS (section (work_up, "tumours"));
  SwWorkUpReadings *readings = sw_workup_tumours_get_readings (tumours, work_up->practice->tumour);

  sw_workup_page_show_section (work_up->page, "tumours");
  sw_quantity_entry_set_text (sw_workup_readings_get_cell (readings, 0), "400");
  ui_click (sw_workup_readings_get_record (readings));
  ck_assert (shows (GTK_WIDGET (readings), "300"));
  ck_assert (sw_step_page_has_unsaved (SW_STEP_PAGE (work_up->page)));
  ui_work_up_measure (work_up, "21,4", "1.8 cm", "8.9 mm");
  wait_for_words (GTK_WIDGET (readings), "21.4 × 18.0 × 8.9 mm");
  ck_assert_str_eq (sw_quantity_entry_get_text (sw_workup_readings_get_cell (readings, 0)), "");
  sw_quantity_entry_set_text (sw_workup_readings_get_cell (readings, 0), "2.14");
  ck_assert (shows (GTK_WIDGET (readings), "is the unit right?"));
  sw_quantity_entry_set_text (sw_workup_readings_get_cell (readings, 0), "");
  ui_click (ui_find_button (GTK_WIDGET (readings), "Take Back"));
  wait_for_words (GTK_WIDGET (readings), "Not measured yet.");
}
END_TEST

/* --- names --- */

static gboolean
takes_focus (GtkWidget *widget)
{
  return gtk_widget_get_focusable (widget) && gtk_widget_get_sensitive (widget) && !GTK_IS_TEXT (widget);
}

static void
check_names (GtkWidget *widget, GHashTable *names)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (takes_focus (widget))
    {
      g_autofree char *name = ui_name (widget);

      ck_assert_msg (name != NULL && name[0] != '\0', "%s has no name", G_OBJECT_TYPE_NAME (widget));
      ck_assert_msg (!g_hash_table_contains (names, name), "two widgets are called %s", name);
      g_hash_table_add (names, g_steal_pointer (&name));
    }
  if (GTK_IS_BUTTON (widget))
    return; /* the focus never goes inside one */
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    check_names (child, names);
}

/* Each part with everything it can hold: findings, two tumours, medicines, a consent. Nothing is wider than its room. */
START_TEST (everything_has_a_name_and_fits)
{
  static const char *const parts[] = { "open", "course", "dog", "tumours", "medicines", "consent" };
  g_autoptr (UiWorkUp) work_up = ui_work_up_new ();
  UiPack carprofen = { "carprofen", -30, SW_NO_DAY, SW_FORM_TABLET, 1 };

  ui_work_up_make_good (work_up);
  register_tumour_b (work_up);
  ui_work_up_answer (work_up, "grade", "kiupel-high", NULL);
  ui_work_up_answer (work_up, "breeding", "pregnant", NULL);
  ui_work_up_take (work_up, &carprofen);
  ui_work_up_take (work_up, &carprofen);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      int least;

      sw_workup_page_show_section (work_up->page, parts[i]);
      ui_settle ();
      check_names (GTK_WIDGET (work_up->page), names);
      ck_assert_uint_gt (g_hash_table_size (names), 6);
      gtk_widget_measure (section (work_up, parts[i]), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      ck_assert_int_le (least, 960);
    }
  ck_assert_int_le (gtk_widget_get_width (GTK_WIDGET (work_up->window)), 1280);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("work-up-course");
  TCase *tcase = tcase_create ("work-up-course");

  ui_init ();
  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, without_a_protocol_it_says_so);
  tcase_add_test (tcase, a_course_needs_protocol_and_tumours);
  tcase_add_test (tcase, tumours_of_a_course_change);
  tcase_add_test (tcase, a_second_course_follows);
  tcase_add_test (tcase, a_course_opens_around_what_is_typed);
  tcase_add_test (tcase, the_vet_gives_a_reason);
  tcase_add_test (tcase, findings_lead_to_what_settles_them);
  tcase_add_test (tcase, consent_is_recorded_and_withdrawn);
  tcase_add_test (tcase, what_is_chosen_waits);
  tcase_add_test (tcase, a_technician_is_told);
  tcase_add_test (tcase, readings_are_typed_and_taken_back);
  tcase_add_test (tcase, everything_has_a_name_and_fits);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
