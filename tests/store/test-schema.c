/* test-schema.c: descriptors of model and tables of data/schema say the same
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-stmt-private.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static char *folder;
static SwStore *store;

static void
set_up (void)
{
  folder = fixture_folder ();
  store = fixture_create (folder);
}

static void
tear_down (void)
{
  sw_store_close (store);
  fixture_remove (folder);
}

/* One line for each column: "name TYPE null|never reference". */
static void
add_column (GPtrArray *columns, const char *name, const char *type, gboolean nullable, const char *reference)
{
  g_ptr_array_add (
      columns, g_strdup_printf ("%s %s %s %s", name, type, nullable ? "null" : "never", reference ? reference : "-"));
}

static GPtrArray *
described_columns (SwFactKind kind)
{
  const SwFactType *type = sw_fact_type (kind);
  GPtrArray *columns = g_ptr_array_new_with_free_func (g_free);

  add_column (columns, "id", "INTEGER", TRUE, NULL); /* the primary key: SQLite calls it nullable */
  add_column (columns, "act", "INTEGER", FALSE, "act");
  if (type->scope == SW_SCOPE_PATIENT && kind != SW_FACT_PATIENT)
    add_column (columns, "patient", "INTEGER", FALSE, "patient");
  if (!type->entity)
    {
      add_column (columns, "replaces", "INTEGER", TRUE, type->table);
      add_column (columns, "withdrawn", "INTEGER", FALSE, NULL);
    }
  for (guint i = 0; i < type->n_fields; i++)
    {
      const SwField *field = &type->fields[i];
      static const char *const names[] = {
        [SW_FIELD_INT] = "INTEGER", [SW_FIELD_REF] = "INTEGER", [SW_FIELD_TEXT] = "TEXT", [SW_FIELD_BYTES] = "BLOB",
      };

      add_column (columns, field->column, names[field->type], field->nullable,
                  field->type == SW_FIELD_REF ? sw_fact_type (field->refers_to)->table : NULL);
    }
  return columns;
}

static GPtrArray *
table_columns (SwDb *db, const char *table)
{
  static const char sql[] = "SELECT c.name, c.type, c.\"notnull\", k.\"table\" FROM pragma_table_info (?1) AS c"
                            " LEFT JOIN pragma_foreign_key_list (?1) AS k ON k.\"from\" = c.name ORDER BY c.cid";
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, sql, NULL);
  GPtrArray *columns = g_ptr_array_new_with_free_func (g_free);
  gboolean row;

  ck_assert_ptr_nonnull (stmt);
  sw_stmt_bind_text (stmt, 1, table);
  while (sw_stmt_step (stmt, &row, NULL) && row)
    add_column (columns, sw_stmt_column_text (stmt, 0), sw_stmt_column_text (stmt, 1),
                sw_stmt_column_int (stmt, 2) == 0, sw_stmt_column_text (stmt, 3));
  return columns;
}

/* A connection without the authorizer: it may ask for the layout. */
static SwDb *
open_plain (void)
{
  g_autofree char *path = g_build_filename (folder, "record.sqlite", NULL);
  SwDb *db = sw_db_open (path, &(SwDbOptions) { .read_only = TRUE }, NULL);

  ck_assert_ptr_nonnull (db);
  return db;
}

START_TEST (tables_are_as_described)
{
  g_autoptr (SwDb) db = open_plain ();

  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      const char *table = sw_fact_type ((SwFactKind) kind)->table;
      g_autoptr (GPtrArray) described = described_columns ((SwFactKind) kind);
      g_autoptr (GPtrArray) found = table_columns (db, table);

      ck_assert_msg (described->len == found->len, "%s has %u columns, not %u", table, found->len, described->len);
      for (guint i = 0; i < described->len; i++)
        ck_assert_msg (g_str_equal (described->pdata[i], found->pdata[i]), "%s: “%s” is described as “%s”", table,
                       (char *) found->pdata[i], (char *) described->pdata[i]);
    }
}
END_TEST

START_TEST (treated_is_as_described)
{
  g_autoptr (SwDb) db = open_plain ();
  g_autoptr (GPtrArray) found = table_columns (db, "treated");
  const SwTreatedField *fields;
  guint n;

  fields = sw_treated_fields (&n);
  ck_assert_uint_eq (found->len, n);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *wanted = g_strdup_printf ("%s %s %s ", fields[i].column, fields[i].text ? "TEXT" : "INTEGER",
                                                 fields[i].nullable ? "null" : "never");

      ck_assert_msg (g_str_has_prefix (found->pdata[i], wanted), "“%s” is described as “%s”",
                     (char *) found->pdata[i], wanted);
    }
}
END_TEST

static gint64
ask (SwDb *db, const char *sql)
{
  gint64 value = -1;
  g_autoptr (GError) error = NULL;

  ck_assert_msg (sw_db_read_int (db, sql, &value, &error), "%s: %s", sql, error ? error->message : "");
  return value;
}

START_TEST (every_table_is_strict_and_nothing_is_left_over)
{
  g_autoptr (SwDb) db = open_plain ();

  ck_assert_int_eq (
      ask (db, "SELECT count (*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0"
               " AND name NOT LIKE 'sqlite_%'"),
      0);
  /* All facts, founding, act and six derived ones. */
  ck_assert_int_eq (ask (db, "SELECT count (*) FROM sqlite_schema WHERE type = 'table'"), SW_N_FACTS + 8);
  ck_assert_int_eq (ask (db, "SELECT count (*) FROM sqlite_schema WHERE type = 'view'"), SW_N_FACTS);
  ck_assert_int_eq (ask (db, "SELECT count (*) FROM sqlite_schema WHERE type = 'trigger'"), 3 * (SW_N_FACTS + 2));
}
END_TEST

START_TEST (no_injection_without_a_release)
{
  g_autoptr (SwDb) db = open_plain ();

  ck_assert_int_eq (ask (db, "SELECT \"notnull\" FROM pragma_table_info ('injection') WHERE name = 'release'"), 1);
}
END_TEST

START_TEST (the_file_and_its_connection_are_set_up)
{
  static const struct { const char *sql; gint64 wanted; } settings[] = {
    { "PRAGMA application_id", SW_DB_APPLICATION_ID }, { "PRAGMA user_version", 1 }, { "PRAGMA synchronous", 2 },
    { "PRAGMA foreign_keys", 1 }, { "PRAGMA recursive_triggers", 1 }, { "PRAGMA trusted_schema", 0 },
    { "SELECT journal_mode = 'wal' FROM pragma_journal_mode", 1 },
  };

  /* Asked behind the authorizer, which would refuse. */
  sqlite3_set_authorizer (store->db->handle, NULL, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    ck_assert_msg (ask (store->db, settings[i].sql) == settings[i].wanted, "%s", settings[i].sql);
}
END_TEST

/* Questions asked at every keystroke and click go through an index. */
START_TEST (frequent_questions_scan_no_table)
{
  static const char *const questions[] = {
    "SELECT patient FROM patient_word WHERE word >= 'a' AND word < 'b'",
    "SELECT patient FROM patient_list ORDER BY sort_key, patient",
    "SELECT patient FROM course_summary WHERE open = 1 AND due_day <= 5",
    "SELECT * FROM course_summary WHERE patient = 1",
    "SELECT * FROM weight WHERE patient = 1 ORDER BY id",
    "SELECT * FROM weight_now WHERE patient = 1",
    "SELECT * FROM client_details WHERE client = 1 ORDER BY id",
    "SELECT * FROM act WHERE patient = 1 AND id < 100 ORDER BY id DESC",
  };
  g_autoptr (SwDb) db = open_plain ();

  for (gsize i = 0; i < G_N_ELEMENTS (questions); i++)
    {
      g_autofree char *sql = g_strconcat ("EXPLAIN QUERY PLAN ", questions[i], NULL);
      g_autoptr (SwStmt) stmt = sw_stmt_get (db, sql, NULL);
      gboolean row;

      ck_assert_ptr_nonnull (stmt);
      while (sw_stmt_step (stmt, &row, NULL) && row)
        {
          const char *step = sw_stmt_column_text (stmt, 3);

          ck_assert_msg (strstr (step, "INDEX") != NULL || strstr (step, "PRIMARY KEY") != NULL
                           || strstr (step, "SUBQUERY") != NULL,
                         "%s: %s", questions[i], step);
          ck_assert_msg (strstr (step, "TEMP B-TREE") == NULL, "%s: %s", questions[i], step);
        }
    }
}
END_TEST

/* Every table and every column is explained in the SQL, as sqlite_schema keeps it. */
START_TEST (every_column_has_a_comment)
{
  g_autoptr (SwDb) db = open_plain ();
  g_autoptr (SwStmt) stmt = sw_stmt_get (db, "SELECT name, sql FROM sqlite_schema WHERE type = 'table'", NULL);
  gboolean row;

  while (sw_stmt_step (stmt, &row, NULL) && row)
    {
      g_auto (GStrv) lines = g_strsplit (sw_stmt_column_text (stmt, 1), "\n", -1);

      for (guint i = 1; lines[i + 1] != NULL; i++)
        {
          const char *line = g_strstrip (lines[i]);

          ck_assert_msg (strstr (line, "--") != NULL || strstr (lines[i - 1], "--") == lines[i - 1]
                           || g_str_has_prefix (line, "PRIMARY KEY"),
                         "%s: no comment at “%s”", sw_stmt_column_text (stmt, 0), line);
        }
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("schema");
  TCase *tcase = tcase_create ("schema");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_add_test (tcase, tables_are_as_described);
  tcase_add_test (tcase, treated_is_as_described);
  tcase_add_test (tcase, every_table_is_strict_and_nothing_is_left_over);
  tcase_add_test (tcase, no_injection_without_a_release);
  tcase_add_test (tcase, the_file_and_its_connection_are_set_up);
  tcase_add_test (tcase, frequent_questions_scan_no_table);
  tcase_add_test (tcase, every_column_has_a_comment);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
