/* test-check.c: what another program did to the record is found, and named
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-files-private.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static char *folder;
static SwStore *store;
static sqlite3 *foreign;

static void
set_up (void)
{
  g_autofree char *path = NULL;

  folder = fixture_folder ();
  store = fixture_create (folder);
  fixture_patient (store, "Marlo", "Aldane");
  fixture_weigh (store, 1, 24600);
  fixture_weigh (store, 1, 24700);
  path = sw_files_database (folder);
  ck_assert_int_eq (sqlite3_open (path, &foreign), SQLITE_OK);
}

static void
tear_down (void)
{
  sqlite3_close (foreign);
  sw_store_close (store);
  fixture_remove (folder);
}

static SwCheckReport *
check_with (const SwCheckOptions *options)
{
  g_autoptr (GError) error = NULL;
  SwCheckReport *report = sw_store_check (store, options, NULL, &error);

  ck_assert_msg (report != NULL, "%s", error ? error->message : "");
  return report;
}

static void
assert_found (const SwCheckReport *report, const char *words)
{
  for (guint i = 0; i < report->troubles->len; i++)
    if (strstr (report->troubles->pdata[i], words) != NULL)
      return;
  ck_abort_msg ("“%s” is not among %u troubles, the first: %s", words, report->troubles->len,
                report->troubles->len > 0 ? (char *) report->troubles->pdata[0] : "none");
}

/* What someone can do who knows SQL: away with the guard, do it, and put the guard back word for word. */
static const struct
{
  const char *table, *guard, *attack, *wanted;
} attacks[] = {
  { "weight", "update", "UPDATE weight SET grams = 12300 WHERE id = 1", "Row 1 of “weight” is not what act 3 wrote" },
  { "weight", "update", "UPDATE weight SET act = 2 WHERE id = 2", "Row 2 of “weight” is not what act 4 wrote" },
  { "weight", "update", "UPDATE weight SET scale = 'x' WHERE id = 2", "Row 2 of “weight” is not what act 4 wrote" },
  { "weight", "delete", "DELETE FROM weight WHERE id = 2", "Row 2 of “weight”, written by act 4, is gone" },
  { "weight", "insert",
    "INSERT INTO weight SELECT 3, 4, 1, NULL, 0, 99999, day, minute, typed, scale FROM weight WHERE id = 1",
    "Row 3 of “weight” was written by no act" },
  { "act", "update", "UPDATE act SET at_us = at_us + 1 WHERE id = 3", "Line 3 of the journal was changed" },
  { "act", "update", "UPDATE act SET person = 1, roles = 1 WHERE id = 4", "Line 4 of the journal was changed" },
  { "act", "update", "UPDATE act SET payload = replace (payload, '24700', '24800') WHERE id = 4",
    "Line 4 of the journal was changed" },
  { "act", "update", "UPDATE act SET payload = 'x' WHERE id = 4", "What act 4 wrote can't be read" },
  { "act", "update", "UPDATE act SET kind = 'score' WHERE id = 2", "Line 2 of the journal was changed" },
  { "act", "delete", "DELETE FROM act WHERE id = 3", "no line between 2 and 4" },
  { "founding", "update", "UPDATE founding SET practice_only = 0", "Line 1 of the journal was changed" },
  { "founding", "update", "UPDATE founding SET record = '00000000000000000000000000000000'",
    "Line 1 of the journal was changed" },
};

static void
run_foreign (const char *sql)
{
  ck_assert_msg (sqlite3_exec (foreign, sql, NULL, NULL, NULL) == SQLITE_OK, "%s: %s", sql, sqlite3_errmsg (foreign));
}

static void
run_without_guard (const char *table, const char *guard, const char *attack)
{
  g_autofree char *ask = g_strdup_printf ("SELECT sql FROM sqlite_schema WHERE name = '%s_kept_%s'", table, guard);
  g_autofree char *drop = g_strdup_printf ("DROP TRIGGER %s_kept_%s", table, guard);
  g_autofree char *text = NULL;
  sqlite3_stmt *stmt;

  ck_assert_int_eq (sqlite3_prepare_v2 (foreign, ask, -1, &stmt, NULL), SQLITE_OK);
  ck_assert_int_eq (sqlite3_step (stmt), SQLITE_ROW);
  text = g_strdup ((const char *) sqlite3_column_text (stmt, 0));
  sqlite3_finalize (stmt);
  run_foreign (drop);
  run_foreign (attack);
  run_foreign (text);
}

START_TEST (tampering_is_found)
{
  g_autoptr (SwCheckReport) report = NULL;

  fixture_assert_sound (store);
  run_without_guard (attacks[_i].table, attacks[_i].guard, attacks[_i].attack);
  /* The founding is read when a record is opened. */
  sw_store_close (store);
  store = sw_store_open (folder, SW_STORE_READ, NULL);
  report = check_with (&(SwCheckOptions) { NULL });
  assert_found (report, attacks[_i].wanted);
}
END_TEST

static const struct { const char *attack, *wanted; } layouts[] = {
  { "DROP TRIGGER weight_kept_update", "“weight_kept_update” is missing" },
  { "DROP VIEW weight_now", "“weight_now” is missing" },
  { "DROP INDEX weight_patient", "“weight_patient” is missing" },
  { "ALTER TABLE weight ADD COLUMN more TEXT", "“weight” in the record's layout was altered" },
  { "CREATE TABLE more (a)", "“more” in the record's layout was added" },
  { "DROP TABLE course_summary", "“course_summary” is missing" },
  { "DROP TABLE patient_list", "“patient_list” is missing" },
  { "DROP TABLE act", "“act” is missing" },
  { "DROP TABLE founding", "“founding” is missing" },
};

START_TEST (altered_layout_is_found)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwCheckReport) report = NULL;

  run_foreign (layouts[_i].attack);
  report = check_with (&(SwCheckOptions) { NULL });
  assert_found (report, layouts[_i].wanted);
}
END_TEST

START_TEST (derived_tables_are_compared)
{
  static const char *const derived[] = {
    "UPDATE patient_list SET name = 'x'", "DELETE FROM patient_word WHERE word = 'marlo'",
    "INSERT INTO patient_word VALUES ('more', 1)", "UPDATE client_list SET phone = NULL", "DELETE FROM client_word",
  };
  g_autoptr (SwCheckReport) report = NULL;

  run_foreign (derived[_i]);
  report = check_with (&(SwCheckOptions) { NULL });
  assert_found (report, "derived table");
}
END_TEST

/* The newest line with its row removed: sound in itself, and found only by who kept the digest. */
START_TEST (a_cut_tail_needs_a_kept_digest)
{
  g_autofree char *kept = sw_store_head_digest (store, NULL);
  g_autoptr (SwCheckReport) whole = check_with (&(SwCheckOptions) { .digest = kept });
  g_autoptr (SwCheckReport) alone = NULL, against = NULL;

  ck_assert_uint_eq (whole->troubles->len, 0);
  ck_assert_str_eq (whole->digest, kept);
  run_without_guard ("weight", "delete", "DELETE FROM weight WHERE act = 4");
  run_without_guard ("act", "delete", "DELETE FROM act WHERE id = 4");
  alone = check_with (&(SwCheckOptions) { NULL });
  ck_assert_uint_eq (alone->troubles->len, 0);
  against = check_with (&(SwCheckOptions) { .digest = kept });
  assert_found (against, kept);
}
END_TEST

START_TEST (broken_references_are_found)
{
  g_autoptr (SwCheckReport) report = NULL;

  run_without_guard ("patient", "delete", "DELETE FROM patient");
  report = check_with (&(SwCheckOptions) { NULL });
  assert_found (report, "refers to a row of “patient”");
  assert_found (report, "Row 1 of “patient”, written by act 2, is gone");
}
END_TEST

/* --- summaries, by a rule of the test: a course is due on the day of its number --- */

static GArray *
summarise (const SwDossier *dossier, const SwPractice *practice, gpointer data)
{
  GArray *summaries = g_array_new (FALSE, FALSE, sizeof (SwCourseSummary));
  const SwCourse *course;

  for (guint i = 0; (course = sw_facts_next (&dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    {
      SwCourseSummary summary = { course->fact.id, dossier->patient, "open", course->number, SW_UNKNOWN, TRUE };

      g_array_append_val (summaries, summary);
    }
  return summaries;
}

static void
open_course (gint64 number, SwDay due)
{
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  SwActHead head = { .kind = SW_ACT_OPEN_COURSE, .person = 1 };
  g_autoptr (GPtrArray) facts = fixture_facts (course, NULL);
  SwCourseSummary summary = { 0, 1, "open", due, SW_UNKNOWN, TRUE };

  course->fact.patient = 1;
  course->number = number;
  ck_assert (sw_store_begin (store, NULL) && sw_store_append (store, &head, facts, NULL, NULL));
  summary.course = course->fact.id;
  ck_assert (sw_store_put_summary (store, &summary, NULL) && sw_store_commit (store, NULL));
}

START_TEST (summaries_are_made_again)
{
  SwCheckOptions options = { .summarise = summarise };
  g_autoptr (SwCheckReport) sound = NULL, wrong = NULL, missing = NULL;

  open_course (1, 1);
  sound = check_with (&options);
  ck_assert_uint_eq (sound->troubles->len, 0);
  ck_assert_int_eq (sound->summaries, 1);
  open_course (2, 3);
  wrong = check_with (&options);
  assert_found (wrong, "course 2 of patient 1");
  run_foreign ("DELETE FROM course_summary WHERE course = 2");
  missing = check_with (&options);
  assert_found (missing, "The list holds 1 courses, the facts 2");
}
END_TEST

/* --- rows of the outcomes, by a rule of the test: each course treated tumour 1 with 1 mL --- */

static void
add_treated (GArray *rows, gint64 course)
{
  SwTreated row = { .course = course, .tumour = 1, .patient = 1, .injector = 1, .given_nl = 1000000 };
  const SwTreatedField *fields;
  guint n;

  row.agent = g_intern_string ("an agent");
  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].nullable && !fields[i].text)
      sw_treated_set_int (&row, &fields[i], SW_UNKNOWN);
  g_array_append_val (rows, row);
}

static GArray *
count_treated (const SwDossier *dossier, const SwPractice *practice, gpointer data)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  const SwCourse *course;

  for (guint i = 0; (course = sw_facts_next (&dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    add_treated (rows, course->fact.id);
  return rows;
}

static void
add_tumour (void)
{
  SwTumour *tumour = sw_new (SW_FACT_TUMOUR, SwTumour);

  tumour->fact.patient = 1;
  ck_assert_int_ne (fixture_act (store, SW_ACT_REGISTER_TUMOUR, 1, fixture_facts (tumour, NULL), NULL), 0);
}

START_TEST (rows_of_the_outcomes_are_made_again)
{
  SwCheckOptions options = { .summarise = summarise, .count_treated = count_treated };
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (SwTreated)), back = NULL;
  g_autoptr (SwCheckReport) sound = NULL, wrong = NULL, missing = NULL;

  open_course (1, 1);
  add_tumour ();
  add_treated (rows, 1);
  ck_assert (sw_store_begin (store, NULL) && sw_store_put_treated (store, 1, rows, NULL)
             && sw_store_put_treated (store, 1, rows, NULL) && sw_store_commit (store, NULL));
  back = sw_store_load_treated (store, 0, NULL);
  ck_assert_uint_eq (back->len, 1);
  ck_assert (sw_treated_equal (&g_array_index (back, SwTreated, 0), &g_array_index (rows, SwTreated, 0)));
  sound = check_with (&options);
  ck_assert_uint_eq (sound->troubles->len, 0);
  run_foreign ("UPDATE treated SET given_nl = 2");
  wrong = check_with (&options);
  assert_found (wrong, "The outcomes count patient 1 otherwise");
  run_foreign ("DELETE FROM treated");
  missing = check_with (&options);
  assert_found (missing, "The outcomes count 0 treated tumours, the facts 1");
}
END_TEST

static void
cancel (gint64 done, gint64 total, gpointer cancellable)
{
  g_cancellable_cancel (cancellable);
}

START_TEST (a_check_can_be_cancelled)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  SwCheckOptions options = { .progress = cancel, .data = cancellable };

  ck_assert (sw_store_begin (store, NULL));
  for (int i = 0; i < 3000; i++)
    {
      SwActHead head = { .kind = SW_ACT_KEEP_RECORD, .person = 1 };

      ck_assert (sw_store_append (store, &head, NULL, NULL, NULL));
    }
  ck_assert (sw_store_commit (store, NULL));
  ck_assert_ptr_null (sw_store_check (store, &options, cancellable, &error));
  ck_assert (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("check");
  TCase *tcase = tcase_create ("check");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_loop_test (tcase, tampering_is_found, 0, G_N_ELEMENTS (attacks));
  tcase_add_loop_test (tcase, altered_layout_is_found, 0, G_N_ELEMENTS (layouts));
  tcase_add_loop_test (tcase, derived_tables_are_compared, 0, 5);
  tcase_add_test (tcase, a_cut_tail_needs_a_kept_digest);
  tcase_add_test (tcase, broken_references_are_found);
  tcase_add_test (tcase, summaries_are_made_again);
  tcase_add_test (tcase, rows_of_the_outcomes_are_made_again);
  tcase_add_test (tcase, a_check_can_be_cancelled);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
