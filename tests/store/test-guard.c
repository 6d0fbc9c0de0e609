/* test-guard.c: facts can't be changed, neither through the store's connection nor by another program; who is first
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-db-private.h"
#include "sw-files-private.h"

#include "sw-error.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static char *folder;
static SwStore *store;
static sqlite3 *foreign;

static void
set_up (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  g_autofree char *path = NULL;

  folder = fixture_folder ();
  store = fixture_create (folder);
  fixture_fill (store, rand);
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

/* --- changing what is recorded --- */

/* All columns of a table, with `id` in place of its id. */
static char *
columns_of (const char *table, const char *id)
{
  g_autofree char *sql = g_strdup_printf ("SELECT name FROM pragma_table_info ('%s')", table);
  GString *columns = g_string_new (NULL);
  sqlite3_stmt *stmt;

  ck_assert_int_eq (sqlite3_prepare_v2 (foreign, sql, -1, &stmt, NULL), SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    {
      const char *name = (const char *) sqlite3_column_text (stmt, 0);

      if (columns->len > 0)
        g_string_append (columns, ", ");
      if (g_str_equal (name, "id"))
        g_string_append (columns, id);
      else
        g_string_append_printf (columns, "\"%s\"", name);
    }
  sqlite3_finalize (stmt);
  return g_string_free (columns, FALSE);
}

/* Every way SQL has to change, remove or take the place of row 1 of a table, or of the row that corrects it. */
static GPtrArray *
attacks_on (const char *table)
{
  g_autofree char *same = columns_of (table, "id");
  g_autofree char *other = columns_of (table, "9999");
  GPtrArray *attacks = g_ptr_array_new_with_free_func (g_free);
  gboolean entity = sw_fact_type ((SwFactKind) sw_fact_kind_from_table (table))->entity;

  g_ptr_array_add (attacks, g_strdup_printf ("UPDATE \"%s\" SET act = act", table));
  g_ptr_array_add (attacks, g_strdup_printf ("UPDATE OR REPLACE \"%s\" SET id = 7 WHERE id = 1", table));
  g_ptr_array_add (attacks, g_strdup_printf ("DELETE FROM \"%s\"", table));
  g_ptr_array_add (attacks, g_strdup_printf ("INSERT OR REPLACE INTO \"%s\" SELECT %s FROM \"%s\" WHERE id = 1", table,
                                             same, table));
  g_ptr_array_add (attacks,
                   g_strdup_printf ("REPLACE INTO \"%s\" SELECT %s FROM \"%s\" WHERE id = 1", table, same, table));
  g_ptr_array_add (attacks, g_strdup_printf ("INSERT INTO \"%s\" SELECT %s FROM \"%s\" WHERE id = 1"
                                             " ON CONFLICT (id) DO UPDATE SET act = 1", table, same, table));
  if (!entity)
    g_ptr_array_add (attacks, g_strdup_printf ("INSERT OR REPLACE INTO \"%s\" SELECT %s FROM \"%s\" WHERE replaces = 1",
                                               table, other, table));
  return attacks;
}

static gboolean
try_store (const char *sql)
{
  return sw_db_exec (store->db, sql, NULL);
}

static gboolean
try_foreign (const char *sql)
{
  return sqlite3_exec (foreign, sql, NULL, NULL, NULL) == SQLITE_OK;
}

/* Every table has rows 1 and 2, and where rows can be corrected, one that replaces row 1. */
static void
correct_first_rows (void)
{
  g_autoptr (SwPractice) practice = sw_store_load_practice (store, NULL);
  g_autoptr (SwDossier) dossier = sw_store_load_dossier (store, 1, NULL);

  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      gpointer first = sw_facts_by_id (&practice->facts, (SwFactKind) kind, 1);

      if (first == NULL)
        first = sw_facts_by_id (&dossier->facts, (SwFactKind) kind, 1);
      if (!sw_fact_type ((SwFactKind) kind)->entity && first != NULL)
        {
          g_autoptr (GError) error = NULL;
          gint64 act
              = fixture_act (store, SW_ACT_KEEP_RECORD, 1, fixture_facts (sw_fact_correction (first), NULL), &error);

          ck_assert_msg (act != 0, "%s", error ? error->message : "");
        }
    }
}

static void
attack_all (gboolean (*try) (const char *sql))
{
  g_autoptr (GError) error = NULL;
  int tried = 0;

  correct_first_rows ();
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      g_autoptr (GPtrArray) attacks = attacks_on (sw_fact_type ((SwFactKind) kind)->table);

      for (guint i = 0; i < attacks->len; i++, tried++)
        ck_assert_msg (!try (attacks->pdata[i]), "went through: %s", (char *) attacks->pdata[i]);
    }
  ck_assert_int_gt (tried, 6 * SW_N_FACTS);
  fixture_assert_sound (store);
}

START_TEST (store_connection_changes_no_fact)
{
  attack_all (try_store);
}
END_TEST

START_TEST (foreign_connection_changes_no_fact)
{
  attack_all (try_foreign);
}
END_TEST

/* REPLACE with a new id but the subject of another row would remove that row. */
START_TEST (foreign_connection_replaces_no_subject)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      const SwFactType *type = sw_fact_type ((SwFactKind) kind);
      gboolean subject = kind == SW_FACT_PATIENT_DETAILS;

      for (guint i = 0; i < type->n_fields; i++)
        subject = subject || type->fields[i].subject;
      if (subject)
        {
          g_autofree char *other = columns_of (type->table, "9999");
          g_autofree char *sql = g_strdup_printf ("INSERT OR REPLACE INTO \"%s\" SELECT %s FROM \"%s\" WHERE id = 1",
                                                  type->table, other, type->table);

          ck_assert_msg (!try_foreign (sql), "went through: %s", sql);
        }
    }
  fixture_assert_sound (store);
}
END_TEST

START_TEST (journal_and_founding_are_kept_too)
{
  static const char *const attacks[] = {
    "UPDATE act SET at_us = 0", "DELETE FROM act", "REPLACE INTO act SELECT * FROM act WHERE id = 1",
    "UPDATE founding SET practice_only = 0", "DELETE FROM founding", "REPLACE INTO founding SELECT * FROM founding",
    "INSERT INTO founding VALUES (2, 'x', 0)",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (attacks); i++)
    {
      ck_assert_msg (!try_store (attacks[i]), "went through: %s", attacks[i]);
      ck_assert_msg (!try_foreign (attacks[i]), "went through: %s", attacks[i]);
    }
  fixture_assert_sound (store);
}
END_TEST

START_TEST (store_connection_changes_no_layout_or_setting)
{
  static const char *const attacks[] = {
    "DROP TRIGGER weight_kept_update",
    "DROP VIEW weight_now",
    "DROP INDEX weight_patient",
    "ALTER TABLE weight ADD COLUMN x",
    "CREATE TABLE x (y)",
    "CREATE TEMP TABLE x (y)",
    "CREATE TRIGGER x AFTER INSERT ON act BEGIN SELECT 1; END",
    "PRAGMA foreign_keys = OFF",
    "PRAGMA recursive_triggers = OFF",
    "PRAGMA writable_schema = ON",
    "PRAGMA user_version = 9",
    "PRAGMA synchronous = OFF",
    "PRAGMA journal_mode = DELETE",
    "ATTACH ':memory:' AS x",
    "VACUUM",
    "REINDEX",
    "ANALYZE",
    "DELETE FROM sqlite_schema",
    "SELECT load_extension ('x')",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (attacks); i++)
    ck_assert_msg (!try_store (attacks[i]), "went through: %s", attacks[i]);
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      g_autofree char *drop = g_strdup_printf ("DROP TABLE \"%s\"", sw_fact_type ((SwFactKind) kind)->table);

      ck_assert_msg (!try_store (drop), "went through: %s", drop);
    }
  fixture_assert_sound (store);
}
END_TEST

static SwCheckReport *
check_now (void)
{
  g_autoptr (GError) error = NULL;
  SwCheckReport *report = sw_store_check (store, &(SwCheckOptions) { NULL }, NULL, &error);

  ck_assert_msg (report != NULL, "%s", error ? error->message : "");
  return report;
}

static gboolean
names (const SwCheckReport *report, const char *word)
{
  for (guint i = 0; i < report->troubles->len; i++)
    if (strstr (report->troubles->pdata[i], word) != NULL)
      return TRUE;
  return FALSE;
}

START_TEST (drop_is_found)
{
  const char *table = sw_fact_type ((SwFactKind) _i)->table;
  g_autofree char *drop = g_strdup_printf ("DROP TABLE \"%s\"", table);
  g_autofree char *quoted = g_strdup_printf ("“%s”", table);
  g_autoptr (SwCheckReport) report = NULL;

  ck_assert_msg (try_foreign (drop), "%s: %s", drop, sqlite3_errmsg (foreign));
  report = check_now ();
  ck_assert_msg (names (report, quoted), "the loss of %s was not found", table);
}
END_TEST

/* --- who is first --- */

static SwDoseEvent *
tick (gint64 dose, SwDoseState state)
{
  SwDoseEvent *event = sw_new (SW_FACT_DOSE_EVENT, SwDoseEvent);

  event->fact.patient = 1;
  event->course = 1;
  event->dose = dose;
  event->state = state;
  return event;
}

static gint64
make_dose (void)
{
  SwDose *dose = sw_new (SW_FACT_DOSE, SwDose);
  g_autoptr (GPtrArray) facts = g_ptr_array_ref (fixture_facts (dose, NULL));

  dose->fact.patient = 1;
  dose->course = 1;
  ck_assert (fixture_act (store, SW_ACT_SIGN_PLAN, 1, facts, NULL) != 0);
  return dose->fact.id;
}

static void
assert_conflict (GError *error)
{
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_CONFLICT));
  /* Who, and when on the clock of that place. */
  ck_assert_ptr_nonnull (strstr (error->message, "Ines"));
  ck_assert_msg (strstr (error->message, "2026-05-14 09:12") != NULL, "%s", error->message);
}

START_TEST (two_first_ticks_conflict)
{
  g_autoptr (SwStore) second = sw_store_open (folder, SW_STORE_WRITE, NULL);
  g_autoptr (GError) error = NULL;
  gint64 dose = make_dose ();

  ck_assert (fixture_act (store, SW_ACT_RECORD_DOSE, 1, fixture_facts (tick (dose, SW_DOSE_MISSED), NULL), NULL) != 0);
  ck_assert (fixture_act (second, SW_ACT_RECORD_DOSE, 1, fixture_facts (tick (dose, SW_DOSE_VOMITED), NULL), &error)
             == 0);
  assert_conflict (error);
  fixture_assert_sound (store);
}
END_TEST

START_TEST (two_corrections_of_one_row_conflict)
{
  g_autoptr (SwStore) second = sw_store_open (folder, SW_STORE_WRITE, NULL);
  g_autoptr (SwDossier) dossier = sw_store_load_dossier (store, 1, NULL);
  g_autoptr (GError) error = NULL;
  gpointer weight = sw_facts_last (&dossier->facts, SW_FACT_WEIGHT);

  ck_assert (fixture_act (second, SW_ACT_WEIGH, 1, fixture_facts (sw_fact_correction (weight), NULL), NULL) != 0);
  ck_assert (fixture_act (store, SW_ACT_WEIGH, 1, fixture_facts (sw_fact_withdrawal (weight), NULL), &error) == 0);
  assert_conflict (error);
  fixture_assert_sound (store);
}
END_TEST

START_TEST (correction_stays_with_its_subject)
{
  g_autoptr (GError) error = NULL;
  gint64 first = make_dose (), other = make_dose ();
  SwDoseEvent *event = tick (first, SW_DOSE_MISSED);
  g_autoptr (GPtrArray) facts = g_ptr_array_ref (fixture_facts (event, NULL));
  SwDoseEvent *moved;

  ck_assert (fixture_act (store, SW_ACT_RECORD_DOSE, 1, facts, NULL) != 0);
  moved = sw_fact_correction (event);
  moved->dose = other;
  ck_assert (fixture_act (store, SW_ACT_RECORD_DOSE, 1, fixture_facts (moved, NULL), &error) == 0);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
}
END_TEST

START_TEST (after_a_withdrawal_the_next_row_replaces_it)
{
  gint64 dose = make_dose ();
  SwDoseEvent *event = tick (dose, SW_DOSE_MISSED), *back, *again;
  g_autoptr (GPtrArray) facts = g_ptr_array_ref (fixture_facts (event, NULL));
  g_autoptr (GPtrArray) withdrawn = NULL;
  g_autoptr (SwDossier) dossier = NULL;

  ck_assert (fixture_act (store, SW_ACT_RECORD_DOSE, 1, facts, NULL) != 0);
  back = sw_fact_withdrawal (event);
  withdrawn = g_ptr_array_ref (fixture_facts (back, NULL));
  ck_assert (fixture_act (store, SW_ACT_RECORD_DOSE, 1, withdrawn, NULL) != 0);
  again = tick (dose, SW_DOSE_VOMITED);
  again->fact.replaces = back->fact.id;
  ck_assert (fixture_act (store, SW_ACT_RECORD_DOSE, 1, fixture_facts (again, NULL), NULL) != 0);
  dossier = sw_store_load_dossier (store, 1, NULL);
  ck_assert_int_eq (sw_dossier_dose_event (dossier, dose)->state, SW_DOSE_VOMITED);
  fixture_assert_sound (store);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("guard");
  TCase *tcase = tcase_create ("guard");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, store_connection_changes_no_fact);
  tcase_add_test (tcase, foreign_connection_changes_no_fact);
  tcase_add_test (tcase, foreign_connection_replaces_no_subject);
  tcase_add_test (tcase, journal_and_founding_are_kept_too);
  tcase_add_test (tcase, store_connection_changes_no_layout_or_setting);
  tcase_add_loop_test (tcase, drop_is_found, 0, SW_N_FACTS);
  tcase_add_test (tcase, two_first_ticks_conflict);
  tcase_add_test (tcase, two_corrections_of_one_row_conflict);
  tcase_add_test (tcase, correction_stays_with_its_subject);
  tcase_add_test (tcase, after_a_withdrawal_the_next_row_replaces_it);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
