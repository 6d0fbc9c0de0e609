/* test-lead-in.c: the lead-in page with its real widgets, on the invented practice
 *
 * The demo's dogs stand where they are needed: Fennel to be signed, Tansy with a missed dose, Nib of 3.5 kg for whom no
 * stocked tablet fits, Juno diabetic, Ember planned for next week, Rook with a dose that waits to be told.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-case.h"
#include "sw-course-view.h"
#include "sw-demo.h"
#include "sw-dose-state.h"
#include "sw-lead-in-page.h"
#include "sw-move.h"
#include "sw-patient-page.h"
#include "sw-quantity-entry.h"
#include "sw-schedule.h"

#include <string.h>

#define PERSON 1 /* Ines, who holds all roles */

typedef struct
{
  char *record;
  SwClock *clock;
  gint64 patient;
  SwWindow *window;
  GtkWidget *page;
} Desk;

static SwDay
today (void)
{
  return sw_day_from_ymd (2026, 5, 13);
}

static SwDesk *
open_desk (Desk *desk)
{
  g_autoptr (GError) error = NULL;
  SwDesk *opened = sw_desk_open (desk->record, desk->clock, &error);

  g_assert_no_error (error);
  return opened;
}

static gint64
find_patient (SwDesk *opened, const char *name)
{
  for (gint64 patient = 1; patient < 100; patient++)
    {
      g_autoptr (SwDossier) dossier = sw_desk_load_dossier (opened, patient, NULL);
      const SwPatientDetails *details = dossier != NULL ? sw_dossier_patient (dossier) : NULL;

      if (details != NULL && g_str_equal (details->name, name))
        return patient;
    }
  ck_abort_msg ("the demo has no %s", name);
  return 0;
}

/* The practice of the demo on its day, at this minute. */
static void
desk_init (Desk *desk, const char *name, int minute)
{
  SwDemoOptions options = { 24, 1, today (), NULL, NULL, NULL };
  g_autoptr (SwDesk) opened = NULL;

  *desk = (Desk){ .record = ui_demo (&options) };
  desk->clock = sw_clock_new_at ((SwMoment){ today (), minute });
  opened = open_desk (desk);
  desk->patient = find_patient (opened, name);
}

static void
show_page (Desk *desk)
{
  SwPatientPage *patient;

  desk->window = ui_open (desk->record, desk->clock);
  ui_show_patient (desk->window, desk->patient);
  patient = SW_PATIENT_PAGE (sw_window_get_patient_page (desk->window));
  ck_assert (sw_patient_page_show_step (patient, "lead-in"));
  ui_settle ();
  desk->page = ui_find_type (GTK_WIDGET (patient), SW_TYPE_LEAD_IN_PAGE);
}

static void
desk_clear (Desk *desk)
{
  if (desk->window != NULL)
    ui_close (desk->window);
  ui_forget (desk->record);
  sw_clock_unref (desk->clock);
  g_free (desk->record);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Desk, desk_clear)

/* --- looking at the page as a person does: only what can be seen --- */

typedef gboolean (*Wanted) (GtkWidget *widget, const char *words);

static GtkWidget *
find (GtkWidget *root, Wanted wanted, const char *words)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (wanted (root, words))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find (child, wanted, words);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
is_called (GtkWidget *widget, const char *words)
{
  gboolean takes
      = gtk_widget_get_focusable (widget) || GTK_IS_ENTRY (widget); /* the text inside an entry has the focus */
  g_autofree char *name = takes && !GTK_IS_TEXT (widget) ? ui_name (widget) : NULL;

  return name != NULL && g_str_has_prefix (name, words);
}

static gboolean
says (GtkWidget *widget, const char *words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words) != NULL;
}

static gboolean
is_button_saying (GtkWidget *widget, const char *words)
{
  return GTK_IS_BUTTON (widget) && find (widget, says, words) != NULL;
}

static GtkWidget *
button_called (Desk *desk, const char *name)
{
  GtkWidget *button = find (desk->page, is_called, name);

  if (button == NULL)
    button = find (desk->page, is_button_saying, name);
  ck_assert_msg (button != NULL, "no button is called %s", name);
  return button;
}

static void
press_by_key (Desk *desk, const char *name)
{
  while (!ui_press_by_key (button_called (desk, name)))
    ;
}

/* Without the moment that a key holds it down. */
static void
press (Desk *desk, const char *name)
{
  GtkWidget *button = button_called (desk, name);

  ck_assert (gtk_widget_get_sensitive (button));
  ck_assert (gtk_widget_grab_focus (button));
  ui_click (button);
  ui_settle ();
}

static gboolean
is_label_of_field (GtkWidget *widget, const char *words)
{
  return GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), words)
         && gtk_label_get_mnemonic_widget (GTK_LABEL (widget)) != NULL;
}

static GtkWidget *
field (Desk *desk, const char *name)
{
  GtkWidget *entry = find (desk->page, is_called, name);
  GtkWidget *label = entry == NULL ? find (desk->page, is_label_of_field, name) : NULL;

  if (label != NULL)
    entry = gtk_label_get_mnemonic_widget (GTK_LABEL (label));
  ck_assert_msg (entry != NULL, "no field is called %s", name);
  return entry;
}

static void
type (Desk *desk, const char *name, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (field (desk, name)), text);
  ui_settle ();
}

static void
choose (Desk *desk, const char *name, guint nth)
{
  GtkWidget *choice = gtk_widget_get_ancestor (field (desk, name), GTK_TYPE_DROP_DOWN);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), nth);
  ui_settle ();
}

#define ck_assert_says(desk, words)                                                                                    \
  ck_assert_msg (find ((desk)->page, says, words) != NULL, "the page does not say: %s", words)
#define ck_assert_silent(desk, words)                                                                                  \
  ck_assert_msg (find ((desk)->page, says, words) == NULL, "the page says: %s", words)

/* --- what the record holds --- */

static SwDossier *
dossier_now (Desk *desk)
{
  g_autoptr (SwDesk) opened = open_desk (desk);
  g_autoptr (GError) error = NULL;
  SwDossier *dossier = sw_desk_load_dossier (opened, desk->patient, &error);

  g_assert_no_error (error);
  return dossier;
}

static const SwPlan *
plan_of (const SwDossier *dossier)
{
  return sw_dossier_plan (dossier, sw_dossier_last_course (dossier)->fact.id);
}

static const SwDosePlan *
dose_of (const SwDossier *dossier, const char *substance, SwDay day, int minute)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (dossier, sw_dossier_last_course (dossier)->fact.id);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (g_str_equal (dose->substance, substance) && dose->due_day == day && dose->due_minute == minute)
        return dose;
    }
  ck_abort_msg ("no %s is planned then", substance);
  return NULL;
}

static const SwDoseEvent *
event_of (const SwDossier *dossier, const char *substance, SwDay day, int minute)
{
  return sw_dossier_dose_event (dossier, dose_of (dossier, substance, day, minute)->dose);
}

/* The mark on the course line says the same as the record. */
static void
check_line (Desk *desk, gint64 dose, const char *state)
{
  GtkWidget *view = ui_find_type (sw_window_get_patient_page (desk->window), SW_TYPE_COURSE_VIEW);
  GtkWidget *mark = sw_course_view_find_mark (SW_COURSE_VIEW (view), SW_FACT_DOSE, dose);
  g_autofree char *name = mark != NULL ? ui_name (mark) : NULL;

  ck_assert_msg (name != NULL && g_str_has_suffix (name, state), "the course line says %s", name);
}

/* --- tests --- */

START_TEST (signs_and_ticks_by_keyboard)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) before = NULL, signed_now = NULL, told = NULL;
  const SwDoseEvent *event;

  desk_init (&desk, "Fennel", 9 * 60 + 40);
  before = dossier_now (&desk);
  ck_assert_ptr_null (plan_of (before));
  show_page (&desk);
  ck_assert_says (&desk, "the lead-in begins on Wed 2026-05-13");
  ck_assert_says (&desk, "12.0 kg");
  ck_assert_says (&desk, "24 mg: 1 x 25 mg = 25 mg (+4.2 %)");
  ck_assert_says (&desk, "diphenhydramine 25 mg: 16 for 16 doses");
  ck_assert_silent (&desk, "Missing before this plan can be signed");
  press_by_key (&desk, "Sign the Plan");
  signed_now = dossier_now (&desk);
  ck_assert_ptr_nonnull (plan_of (signed_now));
  ck_assert_int_eq (plan_of (signed_now)->treat_day, today () + 2);

  ck_assert_says (&desk, "Told today");
  type (&desk, "told by", "the client, by phone");
  press_by_key (&desk, "Given: prednisolone 6.25 mg, Wed 2026-05-13 08:00");
  told = dossier_now (&desk);
  event = event_of (told, "prednisolone", today (), 8 * 60);
  ck_assert_ptr_nonnull (event);
  ck_assert_int_eq (event->state, SW_DOSE_GIVEN);
  ck_assert_str_eq (event->told_by, "the client, by phone");
  ck_assert_says (&desk, "given 08:00, told by the client, by phone; recorded by Ines Marlow");
  check_line (&desk, event->dose, "given");
}
END_TEST

START_TEST (another_day_says_what_it_lacks)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) after = NULL;

  desk_init (&desk, "Fennel", 9 * 60 + 40);
  show_page (&desk);
  type (&desk, "treatment day", "2026-05-14");
  ck_assert_says (&desk, "Missing before this plan can be signed");
  ck_assert_says (&desk, "With 2026-05-14 as day 0 the lead-in begins on 2026-05-12");
  press (&desk, "Sign the Plan"); /* goes to the first act instead */
  ck_assert (is_button_saying (gtk_root_get_focus (GTK_ROOT (desk.window)), "Take Fri 2026-05-15"));
  after = dossier_now (&desk);
  ck_assert_ptr_null (plan_of (after));
  press (&desk, "Take Fri 2026-05-15");
  ck_assert_silent (&desk, "Missing before this plan can be signed");
  type (&desk, "treatment day", "15 May");
  press (&desk, "Sign the Plan");
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (field (&desk, "treatment day"))), "15 May");
  type (&desk, "treatment day", "2026-05-15"); /* else closing would ask about what is typed */
}
END_TEST

START_TEST (a_missed_dose_is_replaced)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL, told = NULL;
  const SwDosePlan *again;

  desk_init (&desk, "Tansy", 9 * 60 + 40);
  show_page (&desk);
  ck_assert_says (&desk, "Lost doses: the vet decides");
  ck_assert_says (&desk, "prednisolone 15 mg, Tue 2026-05-12 20:00: missed");
  type (&desk, "give again at", "09:30");
  press (&desk, "Order a Replacement");
  dossier = dossier_now (&desk);
  again = dose_of (dossier, "prednisolone", today (), 9 * 60 + 30);
  ck_assert_int_eq (again->instead_of, dose_of (dossier, "prednisolone", today () - 1, 20 * 60)->dose);
  ck_assert_silent (&desk, "Lost doses: the vet decides");
  ck_assert_says (&desk, "prednisolone, again");
  press (&desk, "Given: prednisolone 15 mg, Wed 2026-05-13 09:30");
  told = dossier_now (&desk);
  ck_assert_int_eq (event_of (told, "prednisolone", today (), 9 * 60 + 30)->state, SW_DOSE_GIVEN);
  check_line (&desk, again->dose, "given");
}
END_TEST

START_TEST (two_lost_doses_move_the_day)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;

  desk_init (&desk, "Tansy", 9 * 60 + 40);
  show_page (&desk);
  press (&desk, "Correct…: prednisolone 15 mg, Wed 2026-05-13 08:00");
  press (&desk, "Vomited: prednisolone 15 mg, Wed 2026-05-13 08:00");
  ck_assert_says (&desk, "2 doses of the lead-in are missed or vomited; a replacement is possible for 1 only.");
  ck_assert_ptr_null (find (desk.page, is_button_saying, "Order a Replacement"));
  press (&desk, "Move the Treatment Day…");
  ck_assert_says (&desk, "Day 0 moves from 2026-05-14 to 2026-05-16.");
  ck_assert_says (&desk, "With 2026-05-15 as day 0 the count before the needle can't hold");
  type (&desk, "new treatment day", "2026-05-15");
  press (&desk, "Move the Day");
  dossier = dossier_now (&desk);
  ck_assert_int_eq (plan_of (dossier)->treat_day, today () + 1); /* refused */
  g_clear_pointer (&dossier, sw_dossier_free);
  press (&desk, "Take Sat 2026-05-16, the First Possible");
  type (&desk, "reason for the move", "vomited, and one forgotten");
  press (&desk, "Move the Day");
  dossier = dossier_now (&desk);
  ck_assert_int_eq (plan_of (dossier)->treat_day, today () + 3);
  ck_assert_str_eq (plan_of (dossier)->reason, "vomited, and one forgotten");
  ck_assert_says (&desk, "Day 0 is Sat 2026-05-16.");
  ck_assert_silent (&desk, "Lost doses: the vet decides");
  check_line (&desk, dose_of (dossier, "prednisolone", today () + 3, 8 * 60)->dose, "planned");
}
END_TEST

START_TEST (a_long_delay_is_the_vets_choice)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;

  desk_init (&desk, "Tansy", 9 * 60 + 40);
  show_page (&desk);
  press (&desk, "Move the Treatment Day…");
  type (&desk, "new treatment day", "2026-05-24");
  ck_assert_says (&desk, "over 3 days a vet chooses");
  choose (&desk, "until then", SW_MOVE_GO_ON);
  ck_assert_says (&desk, "The corticosteroid would run for");
  type (&desk, "vet's order (taper)", "0.25 mg/kg on alternate days for a week after day 7");
  ck_assert_says (&desk, "Day 0 moves from 2026-05-14 to 2026-05-24.");
  press (&desk, "Move the Day");
  dossier = dossier_now (&desk);
  ck_assert_int_eq (plan_of (dossier)->treat_day, today () + 11);
  ck_assert_says (&desk, "The vet's order: 0.25 mg/kg on alternate days for a week after day 7");
}
END_TEST

START_TEST (no_tablet_fits_a_small_dog)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;

  desk_init (&desk, "Nib", 9 * 60 + 40);
  show_page (&desk);
  ck_assert_says (&desk, "no stocked strength makes this dose");
  ck_assert_says (&desk, "No stocked strength of diphenhydramine makes a dose of 7 mg");
  ck_assert_says (&desk, "choose a listed substance that fits: none of those listed");
  press (&desk, "Sign the Plan");
  dossier = dossier_now (&desk);
  ck_assert_ptr_null (plan_of (dossier));
  g_clear_pointer (&dossier, sw_dossier_free);

  press (&desk, "Stock Another Strength of diphenhydramine…");
  type (&desk, "The practice also stocks diphenhydramine of", "much");
  press (&desk, "Add to the Stock");
  ck_assert_str_eq (gtk_editable_get_text (GTK_EDITABLE (field (&desk, "The practice also stocks"))), "much");
  type (&desk, "The practice also stocks diphenhydramine of", "2,5");
  choose (&desk, "form and unit of the strength", 1);
  press (&desk, "Add to the Stock");
  ck_assert_says (&desk, "2.80 mL = 7 mg");
  press (&desk, "The Labels Were Read: No Xylitol");
  press (&desk, "Stock Another Strength of famotidine…");
  choose (&desk, "form and unit of the strength", 0);
  type (&desk, "The practice also stocks famotidine of", "2");
  press (&desk, "Add to the Stock");
  ck_assert_silent (&desk, "Missing before this plan can be signed");
  press (&desk, "Sign the Plan");
  dossier = dossier_now (&desk);
  ck_assert_ptr_nonnull (plan_of (dossier));
  ck_assert_int_eq (dose_of (dossier, "diphenhydramine", today () + 2, 8 * 60)->volume_nl, 2800000);
}
END_TEST

START_TEST (a_late_dose_needs_its_time)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;
  const SwDoseEvent *event;

  desk_init (&desk, "Rook", 22 * 60);
  show_page (&desk);
  ck_assert_says (&desk, "not known");
  press (&desk, "Late…: prednisolone");
  press (&desk, "Record as Late: prednisolone"); /* without a time: says so */
  dossier = dossier_now (&desk);
  ck_assert_ptr_null (event_of (dossier, "prednisolone", today (), 20 * 60));
  g_clear_pointer (&dossier, sw_dossier_free);
  type (&desk, "given at: prednisolone", "21:45");
  press (&desk, "Record as Late: prednisolone");
  dossier = dossier_now (&desk);
  event = event_of (dossier, "prednisolone", today (), 20 * 60);
  ck_assert_ptr_nonnull (event);
  ck_assert_int_eq (event->state, SW_DOSE_LATE);
  ck_assert_int_eq (event->minute, 21 * 60 + 45);
  check_line (&desk, event->dose, "late");
  g_clear_pointer (&dossier, sw_dossier_free);

  press (&desk, "Take Back: prednisolone 15 mg, Wed 2026-05-13 20:00");
  dossier = dossier_now (&desk);
  ck_assert_ptr_null (event_of (dossier, "prednisolone", today (), 20 * 60));
  g_clear_pointer (&dossier, sw_dossier_free);
  press (&desk, "Missed: prednisolone 15 mg, Wed 2026-05-13 20:00");
  dossier = dossier_now (&desk);
  ck_assert_int_eq (event_of (dossier, "prednisolone", today (), 20 * 60)->state, SW_DOSE_MISSED);
}
END_TEST

static GtkWidget *
top_dialog (Desk *desk)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) other = g_list_model_get_item (windows, i);

      if (gtk_window_get_transient_for (other) == GTK_WINDOW (desk->window))
        return GTK_WIDGET (other);
    }
  ck_abort_msg ("no dialog is open");
  return NULL;
}

START_TEST (a_vet_stops_a_dose)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;
  GtkWidget *dialog;

  desk_init (&desk, "Tansy", 9 * 60 + 40);
  show_page (&desk);
  press (&desk, "Stop…: prednisolone 15 mg, Wed 2026-05-13 20:00");
  dialog = top_dialog (&desk);
  gtk_editable_set_text (GTK_EDITABLE (ui_find_type (dialog, GTK_TYPE_ENTRY)), "black stool");
  gtk_dialog_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  ui_settle ();
  dossier = dossier_now (&desk);
  ck_assert_int_eq (event_of (dossier, "prednisolone", today (), 20 * 60)->state, SW_DOSE_STOPPED);
  ck_assert_says (&desk, "stopped, black stool");
  check_line (&desk, event_of (dossier, "prednisolone", today (), 20 * 60)->dose, "stopped");
}
END_TEST

static void
weigh (Desk *desk, gint64 grams)
{
  g_autoptr (SwDesk) opened = open_desk (desk);
  SwRequest *request = sw_request_new (SW_ACT_WEIGH, PERSON, desk->patient);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->grams = grams;
  weight->day = today ();
  weight->minute = 9 * 60;
  weight->typed = g_strdup ("");
  sw_request_add (request, weight);
  sw_reply_free (ui_perform (opened, request));
}

START_TEST (another_weight_and_another_medicine)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;

  desk_init (&desk, "Ember", 9 * 60 + 40);
  weigh (&desk, 21000);
  show_page (&desk);
  ck_assert_says (&desk, "Weighed since: 21.0 kg, today; the plan was computed on 36.1 kg.");
  ck_assert_says (&desk, "prednisolone leaves its range at this weight");
  press (&desk, "Compute the Plan on This Weight");
  dossier = dossier_now (&desk);
  ck_assert_int_eq (plan_of (dossier)->cause, SW_PLAN_REWEIGHED);
  ck_assert_int_eq (dose_of (dossier, "prednisolone", today () + 6, 8 * 60)->dose_ug, 10000);
  g_clear_pointer (&dossier, sw_dossier_free);
  ck_assert_silent (&desk, "Weighed since");

  gtk_expander_set_expanded (GTK_EXPANDER (field (&desk, "Change a medicine")), TRUE);
  ui_settle ();
  press (&desk, "Change the Medicine"); /* nothing is chosen yet */
  ck_assert_says (&desk, "Choose another medicine in the table first.");
  choose (&desk, "medicine for H2 blocker", 1);
  ck_assert_says (&desk, "From now on:");
  press (&desk, "Change the Medicine");
  dossier = dossier_now (&desk);
  ck_assert_int_eq (plan_of (dossier)->cause, SW_PLAN_CHANGED);
  ck_assert_ptr_nonnull (
      dose_of (dossier, "omeprazole", today () + 4, 8 * 60)); /* from day -2 on: it needs days to work */
}
END_TEST

START_TEST (a_cancelled_course_needs_the_vets_order)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;
  gint64 course;

  desk_init (&desk, "Tansy", 9 * 60 + 40);
  show_page (&desk);
  gtk_expander_set_expanded (GTK_EXPANDER (field (&desk, "End this course before the injection")), TRUE);
  ui_settle ();
  press (&desk, "End the Course"); /* how? */
  ck_assert_says (&desk, "Choose how the course ends.");
  choose (&desk, "how the course ends", 1);
  ck_assert_says (&desk, "A vet writes whether the corticosteroid is tapered or stopped.");
  press (&desk, "End the Course");
  dossier = dossier_now (&desk);
  course = sw_dossier_last_course (dossier)->fact.id;
  ck_assert_ptr_null (sw_facts_of_course (&dossier->facts, SW_FACT_COURSE_END, course));
  g_clear_pointer (&dossier, sw_dossier_free);
  type (&desk, "vet's order (taper or stop)", "stop: three doses only");
  ck_assert_says (&desk, "not yet due are withdrawn");
  press (&desk, "End the Course");
  dossier = dossier_now (&desk);
  ck_assert_str_eq (((const SwCourseEnd *)sw_facts_of_course (&dossier->facts, SW_FACT_COURSE_END, course))->vet_orders,
                    "stop: three doses only");
  ck_assert_silent (&desk, "Change the plan");
}
END_TEST

/* What the demo leaves open for Juno: the vet's reason, and the consent. */
static void
prepare_diabetic (Desk *desk)
{
  g_autoptr (SwDesk) opened = open_desk (desk);
  g_autoptr (SwDossier) dossier = dossier_now (desk);
  SwRequest *request = sw_request_new (SW_ACT_GIVE_REASON, PERSON, desk->patient);
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);
  SwConsent *consent = sw_new (SW_FACT_CONSENT, SwConsent);

  reason->course = consent->course = sw_dossier_last_course (dossier)->fact.id;
  reason->finding = g_strdup ("medicine-vet-decides");
  reason->about = g_strdup ("corticosteroid-with-diabetes/prednisolone");
  reason->reason = g_strdup ("glucose curve twice a day");
  sw_request_add (request, reason);
  sw_reply_free (ui_perform (opened, request));
  request = sw_request_new (SW_ACT_RECORD_CONSENT, PERSON, desk->patient);
  consent->signer = g_strdup ("Petra Ingle");
  consent->day = today ();
  consent->minute = 9 * 60;
  consent->sheet_version = g_strdup ("1");
  consent->off_label = 1;
  consent->points = SW_CONSENT_ALL_POINTS;
  sw_request_add (request, consent);
  sw_reply_free (ui_perform (opened, request));
}

START_TEST (a_diabetics_insulin_is_the_vets_order)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;

  desk_init (&desk, "Juno", 9 * 60 + 40);
  prepare_diabetic (&desk);
  show_page (&desk);
  ck_assert_silent (&desk, "Missing before this plan can be signed");
  press (&desk, "Sign the Plan");
  ck_assert_says (&desk, "insulin and food need the vet's written order");
  dossier = dossier_now (&desk);
  ck_assert_ptr_null (plan_of (dossier));
  g_clear_pointer (&dossier, sw_dossier_free);
  type (&desk, "insulin and food (vet's order)", "half the insulin with a third of the food at 07:00");
  press (&desk, "Sign the Plan");
  dossier = dossier_now (&desk);
  ck_assert_str_eq (plan_of (dossier)->vet_orders, "half the insulin with a third of the food at 07:00");
  ck_assert_says (&desk, "The vet's order: half the insulin with a third of the food at 07:00");
}
END_TEST

/* The text of an entry and the parts of a choice are read out by the name of the whole. */
static gboolean
takes_focus (GtkWidget *widget)
{
  return gtk_widget_get_focusable (widget) && gtk_widget_get_sensitive (widget) && !GTK_IS_TEXT (widget)
         && gtk_widget_get_ancestor (gtk_widget_get_parent (widget), GTK_TYPE_TOGGLE_BUTTON) == NULL;
}

static void
check_names (GtkWidget *widget, GHashTable *names)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (takes_focus (widget))
    {
      g_autofree char *name = ui_name (widget);

      ck_assert_msg (name != NULL, "%s has no name", G_OBJECT_TYPE_NAME (widget));
      ck_assert_msg (!g_hash_table_contains (names, name), "two widgets are called %s", name);
      g_hash_table_add (names, g_steal_pointer (&name));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_names (child, names);
}

static void
expand_all (GtkWidget *widget)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    expand_all (child);
}

START_TEST (everything_has_a_name_of_its_own)
{
  static const char *const dogs[] = { "Tansy", "Nib", "Lark" };

  for (guint i = 0; i < G_N_ELEMENTS (dogs); i++)
    {
      g_auto (Desk) desk = { 0 };
      g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

      desk_init (&desk, dogs[i], 20 * 60);
      weigh (&desk, 20000);
      show_page (&desk);
      expand_all (desk.page);
      ui_settle ();
      check_names (desk.page, names);
      ck_assert_uint_gt (g_hash_table_size (names), 5);
    }
}
END_TEST

START_TEST (a_mark_leads_to_its_row)
{
  g_auto (Desk) desk = { 0 };
  g_autoptr (SwDossier) dossier = NULL;
  GtkWidget *focus;
  g_autofree char *name = NULL;
  gint64 dose;

  desk_init (&desk, "Tansy", 9 * 60 + 40);
  show_page (&desk);
  dossier = dossier_now (&desk);
  dose = dose_of (dossier, "prednisolone", today () + 4, 8 * 60)->dose;
  ck_assert (!sw_step_page_show_row (SW_STEP_PAGE (desk.page), SW_FACT_DOSE, dose + 100000));
  ck_assert (sw_step_page_show_row (SW_STEP_PAGE (desk.page), SW_FACT_DOSE, dose));
  ui_settle ();
  focus = gtk_root_get_focus (GTK_ROOT (desk.window));
  name = focus != NULL ? ui_name (focus) : NULL;
  ck_assert_msg (name != NULL && strstr (name, "prednisolone 15 mg, Sun 2026-05-17 08:00") != NULL,
                 "the focus is on %s", name);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("lead-in");
  TCase *tcase = tcase_create ("lead-in");

  ui_init ();
  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, signs_and_ticks_by_keyboard);
  tcase_add_test (tcase, another_day_says_what_it_lacks);
  tcase_add_test (tcase, a_missed_dose_is_replaced);
  tcase_add_test (tcase, two_lost_doses_move_the_day);
  tcase_add_test (tcase, a_long_delay_is_the_vets_choice);
  tcase_add_test (tcase, no_tablet_fits_a_small_dog);
  tcase_add_test (tcase, a_late_dose_needs_its_time);
  tcase_add_test (tcase, a_vet_stops_a_dose);
  tcase_add_test (tcase, another_weight_and_another_medicine);
  tcase_add_test (tcase, a_cancelled_course_needs_the_vets_order);
  tcase_add_test (tcase, a_diabetics_insulin_is_the_vets_order);
  tcase_add_test (tcase, everything_has_a_name_of_its_own);
  tcase_add_test (tcase, a_mark_leads_to_its_row);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
