/* walk-course.c: a whole course through the real widgets, day by day, and all of it still there at the end
 *
 * walk-course [--record DIR --at YYYY-MM-DDTHH:MM] [--pictures DIR]
 *
 * Without a record it makes one on the page of the first start and adopts the documents; with one (the demo practice) it begins by
 * registering the dog. The clock stands still and is moved from day to day.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "walk-steps.h"

#include "sw-check-record.h"

#include <stdlib.h>

#define TREAT 3         /* of the first injection */
#define SCORE 28        /* days after it */
#define AGAIN (TREAT + SCORE + 3)

static const char *const first_readings[2][3] = { { "21.4", "18,0", "8.9 mm" }, { "2.10 cm", "17.6", "9.1" } };
static const char *const partial[3] = { "13.9", "11.8", "5.2" };
static const char *const second_readings[2][3] = { { "13.9", "11.8", "5.2" }, { "13.7", "11.6", "5.0" } };

/* --- the first course --- */

static void
work_up (Walk *walk)
{
  walk_open_course (walk);
  walk_answer_work_up (walk);
  walk_measure_tumour (walk, "20.8", "17.9", "8.8");
  walk_consent (walk);
}

/* Told on the course line: the evening's dose was forgotten. It blocks, and a vet orders another. */
static void
lead_in (Walk *walk)
{
  walk_at (walk, TREAT - 2, 20, 40);
  walk_sit_down (walk, 2);
  walk_tell_on_line (walk, "prednisolone", TREAT - 2, 8, "Given");
  walk_tell_on_line (walk, "prednisolone", TREAT - 2, 20, "Missed");
  walk_foot (walk, "missed");
  walk_at (walk, TREAT - 1, 9, 10);
  walk_foot (walk, "missed");
  walk_picture (walk, "lead-in-missed");
  walk_sit_down (walk, 1);
  walk_see (walk, "Lost doses: the vet decides");
  walk_act (walk, "Order a Replacement");
  walk_picture (walk, "lead-in-replaced");
  walk_at (walk, TREAT - 1, 20, 30);
  walk_sit_down (walk, 2);
  g_assert_cmpuint (walk_tell_all (walk), ==, 3);
}

static void
treatment_day (Walk *walk)
{
  walk_at (walk, TREAT, 8, 50);
  g_assert_cmpuint (walk_tell_all (walk), ==, 3);
  walk_at (walk, TREAT, 9, 20);
  walk_prepare (walk, "24.6", first_readings);
  walk_sit_down (walk, 1);
  walk_at (walk, TREAT, 9, 40);
  walk_read_aloud (walk);
  walk_release (walk, "inject 0.85 mL");
  walk_at (walk, TREAT, 9, 55);
  walk_inject (walk, "0.85", "1.15", "09:50");
  walk_at (walk, TREAT, 10, 25);
  walk_look (walk, "10:20");
  walk_at (walk, TREAT, 10, 55);
  walk_look (walk, "10:50");
  walk_at (walk, TREAT, 11, 25);
  walk_look (walk, "11:20");
  walk_at (walk, TREAT, 11, 55);
  walk_look (walk, "11:50");
  walk_discharge (walk, "11:52");
}

static void
rechecks (Walk *walk)
{
  static const WalkVisit hour_8 = { "by phone", "2", NULL, NULL, NULL, NULL, "swollen and bruised, as expected; ate well" };
  static const WalkVisit day_4 = { "seen here", "2", "no wound yet", NULL, NULL, "left open", "black, firm" };
  static const WalkVisit day_7 = { "seen here", "1", "open", "28", "22", "covered loosely", "the mass came away on day 6" };
  static const WalkVisit day_14 = { "seen here", "0", "open", "16", "12", NULL, NULL };
  static const WalkVisit day_28 = { "seen here", "0", "closed", NULL, NULL, NULL, NULL };

  walk_at (walk, TREAT, 18, 0);
  walk_visit (walk, &hour_8);
  walk_at (walk, TREAT + 4, 10, 0);
  walk_visit (walk, &day_4);
  walk_at (walk, TREAT + 7, 21, 0);
  walk_visit (walk, &day_7);
  g_assert_cmpuint (walk_tell_all (walk), ==, 42);
  walk_at (walk, TREAT + 14, 10, 0);
  walk_visit (walk, &day_14);
  walk_at (walk, TREAT + SCORE, 10, 0);
  walk_measure_site (walk, 1, partial);
  walk_visit (walk, &day_28);
}

/* --- the second --- */

static void
open_second (Walk *walk)
{
  g_autofree char *from = sw_day_format (walk_day (walk, TREAT + SCORE + 2));
  g_autofree char *again = g_strdup_printf ("Inject Again from %s", from);

  walk_press (walk, again);
  g_free (walk->step);
  walk->step = g_strdup ("Work-up");
  walk_see (walk, "Consent");
  ui_settle ();
  walk_picture (walk, "second-open");
  walk_weigh (walk, "24.4");
  walk_stage_again (walk);
  walk_consent (walk);
}

static void
inject_second (Walk *walk)
{
  walk_sign_plan (walk, AGAIN);
  walk_at (walk, AGAIN - 1, 20, 30);
  walk_sit_down (walk, 2);
  g_assert_cmpuint (walk_tell_all (walk), ==, 4);
  walk_at (walk, AGAIN, 9, 0);
  g_assert_cmpuint (walk_tell_all (walk), ==, 3);
  walk_at (walk, AGAIN, 9, 30);
  walk_prepare (walk, "24.4", second_readings);
  walk_sit_down (walk, 1);
  walk_at (walk, AGAIN, 9, 40);
  walk_read_aloud (walk);
  walk_release (walk, "inject 0.21 mL");
  walk_at (walk, AGAIN, 9, 55);
  walk_inject (walk, "0.21", "1.79", "09:50");
}

/* --- what is left at the end --- */

static guint
count (const SwDossier *dossier, SwFactKind kind)
{
  guint n = 0;

  for (guint i = 0; sw_facts_next (&dossier->facts, kind, &i) != NULL;)
    n++;
  return n;
}

static void
check_record (Walk *walk)
{
  g_autoptr (SwDossier) dossier = walk_dossier (walk);
  const SwScore *score = sw_facts_last (&dossier->facts, SW_FACT_SCORE);
  const SwCourseDetails *second = sw_facts_last (&dossier->facts, SW_FACT_COURSE_DETAILS);
  const SwInjection *injection;

  g_assert_cmpuint (count (dossier, SW_FACT_COURSE_DETAILS), ==, 2);
  g_assert_cmpuint (count (dossier, SW_FACT_PLAN), ==, 2);
  g_assert_cmpuint (count (dossier, SW_FACT_CONSENT), ==, 2);
  g_assert_cmpuint (count (dossier, SW_FACT_DOSE_EVENT), ==, 2 + 3 + 3 + 42 + 4 + 3);
  g_assert_cmpuint (count (dossier, SW_FACT_INJECTION), ==, 2);
  g_assert_cmpuint (count (dossier, SW_FACT_OBSERVATION), ==, 4);
  g_assert_cmpuint (count (dossier, SW_FACT_VISIT), ==, 5);
  g_assert_cmpuint (count (dossier, SW_FACT_WOUND), ==, 4);
  g_assert_cmpuint (count (dossier, SW_FACT_READING), ==, 1 + 2 + 1 + 2);
  g_assert_cmpint (score->category, ==, SW_CATEGORY_PARTIAL);
  g_assert_cmpint (second->follows, ==, score->course);
  for (guint i = 0; (injection = sw_facts_next (&dossier->facts, SW_FACT_INJECTION, &i)) != NULL;)
    g_assert_cmpint (injection->outside, ==, 0);
}

static void
check_chain (Walk *walk)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = sw_store_open (walk->folder, SW_STORE_READ, &error);
  g_autoptr (SwCheckReport) report = NULL;

  g_assert_no_error (error);
  report = sw_check_record (store, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (report->troubles->len, ==, 0);
}

static void
check_window (Walk *walk)
{
  g_autofree char *number = sw_patient_number (walk->patient);
  g_autofree char *first = g_strdup_printf ("Course %s/1", number);

  walk_see (walk, "Example, Vera");
  walk_step (walk, "Treatment day");
  walk_see (walk, "Injected on");
  walk_step (walk, "Log");
  walk_see (walk, walk->technician);
  walk_picture (walk, "log");
  walk_choose (walk, "Course shown", first);
  walk_step (walk, "Rechecks");
  walk_see (walk, "the mass came away on day 6");
  walk_step (walk, "Response");
  walk_see (walk, "partial response");
}

/* The practice of a record that was there before. */
static void
look_at_practice (Walk *walk)
{
  walk_page (walk, "practice", "people");
  walk_picture (walk, "practice-people");
  walk_page (walk, "practice", "settings");
  walk_picture (walk, "practice-settings");
  walk_page (walk, "practice", "documents");
  walk_picture (walk, "practice-documents");
}

/* --- all of it --- */

static void
course (Walk *walk)
{
  walk_register (walk);
  walk_weigh (walk, "24.9 kg");
  walk_add_tumour (walk);
  work_up (walk);
  walk_sign_plan (walk, TREAT);
  lead_in (walk);
  treatment_day (walk);
  rechecks (walk);
  walk_score (walk, "partial response");
  open_second (walk);
  inject_second (walk);
}

static void
walk_all (Walk *walk, gboolean new_record)
{
  walk_open (walk);
  if (new_record)
    {
      walk_make_record (walk);
      walk_add_technician (walk);
      walk_adopt (walk);
    }
  else
    look_at_practice (walk);
  course (walk);
  walk_close (walk);
  check_record (walk);
  check_chain (walk);
  walk_open (walk);
  check_window (walk);
  walk_close (walk);
}

static SwMoment
read_moment (const char *at)
{
  g_autoptr (GError) error = NULL;
  SwMoment moment = ui_begin ();

  if (at != NULL && !sw_moment_parse (at, &moment, &error))
    g_error ("%s", error->message);
  return moment;
}

int
main (int argc, char **argv)
{
  g_autofree char *record = NULL, *at = NULL, *pictures = NULL, *folder = NULL;
  const GOptionEntry entries[] = {
    { "record", 0, 0, G_OPTION_ARG_FILENAME, &record, "the demo practice's record", "DIR" },
    { "at", 0, 0, G_OPTION_ARG_STRING, &at, "where the clock begins", "MOMENT" },
    { "pictures", 0, 0, G_OPTION_ARG_FILENAME, &pictures, "leave pictures of every page there", "DIR" },
    { NULL },
  };
  g_autoptr (GOptionContext) options = g_option_context_new (NULL);
  g_autoptr (GError) error = NULL;
  SwMoment moment;
  Walk walk = { 0 };

  g_option_context_add_main_entries (options, entries, NULL);
  if (!g_option_context_parse (options, &argc, &argv, &error))
    g_error ("%s", error->message);
  ui_init ();
  moment = read_moment (at);
  folder = record == NULL ? ui_folder () : NULL;
  walk.folder = record != NULL ? record : folder;
  walk.clock = sw_clock_new_at (moment);
  walk.first_day = moment.day;
  walk.pictures = pictures;
  walk.vet = record != NULL ? "Ines Marlow" : "Ines";
  walk.technician = record != NULL ? "Tomas Reed" : "Tomas";
  walk_all (&walk, record == NULL);
  if (folder != NULL)
    ui_forget (folder);
  g_free (walk.step);
  sw_clock_unref (walk.clock);

  return EXIT_SUCCESS;
}
