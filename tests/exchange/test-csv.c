/* test-csv.c: tables from strangers: read exactly, or refused with the line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-csv.h"
#include "sw-error.h"

#include <check.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static SwCsv *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  SwCsv *csv = sw_csv_parse (text, strlen (text), ',', &error);

  ck_assert_msg (csv != NULL, "%s", error ? error->message : "");
  return csv;
}

static void
assert_refused (const char *data, gsize length, const char *begin)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwCsv) csv = sw_csv_parse (data, length, ',', &error);

  ck_assert_msg (csv == NULL, "taken: %s", data);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
  ck_assert_msg (g_str_has_prefix (error->message, begin), "%s", error->message);
}

START_TEST (test_reads)
{
  g_autoptr (SwCsv) csv = parse ("\xef\xbb\xbf# a word before\n\n#and another\r\nname,weight,note\r\n"
                                 "Bello,24.6,\"says \"\"wuff\"\",\nthen sleeps\"\r\n"
                                 "\r\n"
                                 "\"\",,\n"
                                 "Mira, 7 ,\xc3\xa4");

  ck_assert_uint_eq (sw_csv_n_columns (csv), 3);
  ck_assert_uint_eq (sw_csv_n_rows (csv), 3);
  ck_assert_str_eq (sw_csv_column_name (csv, 2), "note");
  ck_assert_int_eq (sw_csv_find_column (csv, "weight"), 1);
  ck_assert_int_eq (sw_csv_find_column (csv, "Weight"), -1);
  ck_assert_str_eq (sw_csv_text (csv, 0, 0), "Bello");
  ck_assert_str_eq (sw_csv_text (csv, 0, 2), "says \"wuff\",\nthen sleeps");
  ck_assert_str_eq (sw_csv_text (csv, 1, 0), "");
  ck_assert_str_eq (sw_csv_text (csv, 1, 2), "");
  ck_assert_str_eq (sw_csv_text (csv, 2, 1), " 7 ");
  ck_assert_str_eq (sw_csv_text (csv, 2, 2), "\xc3\xa4");
  ck_assert_uint_eq (sw_csv_line (csv, 0), 5);
  ck_assert_uint_eq (sw_csv_line (csv, 1), 8);
  ck_assert_uint_eq (sw_csv_line (csv, 2), 9);
}
END_TEST

START_TEST (test_separators)
{
  static const char *const texts[] = { "a,b\n1,\"x;y;z\"", "a;b\n1;\"x,y,z\"", "a\tb\n1\t\"x,y;z\"",
                                       "\"a,b\";c;d\n1;2;3" };
  static const guint columns[] = { 2, 2, 2, 3 };
  g_autoptr (SwCsv) csv = sw_csv_parse (texts[_i], strlen (texts[_i]), 0, NULL);

  ck_assert_uint_eq (sw_csv_n_columns (csv), columns[_i]);
  ck_assert_uint_eq (sw_csv_n_rows (csv), 1);
}
END_TEST

START_TEST (test_names_only)
{
  g_autoptr (SwCsv) csv = parse ("a,b");

  ck_assert_uint_eq (sw_csv_n_rows (csv), 0);
}
END_TEST

START_TEST (test_refusals)
{
  static const struct
  {
    const char *text;
    const char *begin;
  } rows[] = {
    { "", "Line 1: the file holds no table" },
    { "\n\n# nothing\n", "Line 1: the file holds no table" },
    { "a,b\n1,2\n3\n", "Line 3: there are 1 fields where the first line has 2 names" },
    { "a,b\n1,2,3\n", "Line 2: there are 3 fields" },
    { "a,b\n1,2\"3\n", "Line 2: a quote stands inside" },
    { "a,b\n1,\"2\"3\n", "Line 2: text follows a closing quote" },
    { "a,b\n\n\"1,2\n3,4\n", "Line 3: a quote is opened and never closed" },
    { "a,b\n1,\"", "Line 2: a quote is opened" },
    { "a,b\n1,2\r3,4\n", "Line 2: a carriage return stands alone" },
    { "a,b\n1,2\r", "Line 2: a carriage return stands alone" },
    { "a,a\n1,2\n", "Line 1: two columns are called \"a\"" },
    { "a,b\n1,\xff\n", "Line 2: this is not UTF-8" },
    { "\xff\xfe" "a", "Line 1: this is not UTF-8" },
    { "a,b\n1,\xe4hnlich\n", "Line 2: this is not UTF-8" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_refused (rows[i].text, strlen (rows[i].text), rows[i].begin);
  assert_refused ("a\n1\0002\n", 6, "Line 2: this is not UTF-8");
}
END_TEST

START_TEST (test_bounds)
{
  g_autoptr (GString) field = g_string_new ("a\n");
  g_autoptr (GString) names = g_string_new ("n0");

  for (guint i = 0; i < SW_CSV_MOST_FIELD_BYTES; i++)
    g_string_append_c (field, 'x');
  g_autoptr (SwCsv) csv = sw_csv_parse (field->str, field->len, ',', NULL);
  ck_assert_ptr_nonnull (csv);
  g_string_append_c (field, 'x');
  assert_refused (field->str, field->len, "Line 2: a field has 65537 bytes, more than 65536");

  for (guint i = 1; i < SW_CSV_MOST_COLUMNS; i++)
    g_string_append_printf (names, ",n%u", i);
  g_autoptr (SwCsv) wide = sw_csv_parse (names->str, names->len, ',', NULL);
  ck_assert_uint_eq (sw_csv_n_columns (wide), SW_CSV_MOST_COLUMNS);
  g_string_append (names, ",more");
  assert_refused (names->str, names->len, "Line 1: there are more than 256 fields");

  g_autofree char *large = g_malloc0 (SW_CSV_MOST_BYTES + 1);
  memset (large, '\n', SW_CSV_MOST_BYTES + 1);
  assert_refused (large, SW_CSV_MOST_BYTES + 1, "Line 1: the file is larger");
  memset (large, '1', 2 * (SW_CSV_MOST_ROWS + 2));
  for (guint i = 0; i < SW_CSV_MOST_ROWS + 2; i++)
    large[2 * i + 1] = '\n';
  assert_refused (large, 2 * (SW_CSV_MOST_ROWS + 2), "Line 2000002: there are more than 2000000 rows");
}
END_TEST

START_TEST (test_numbers)
{
  static const char *const bad[] = { "", "x", "1,5", "1.5.2", "0x10", "nan", "inf", "1e999",
                                      "1 2", "--1", "e", ".", "1e" };
  g_autoptr (SwCsv) csv = parse ("a,b\n 12.5 ,-3\n1e-3,9223372036854775807\n-.5,9223372036854775808");
  double number = 7;
  gint64 whole = 7;

  ck_assert (sw_csv_double (csv, 0, 0, &number, NULL) && number == 12.5);
  ck_assert (sw_csv_double (csv, 1, 0, &number, NULL) && number == 0.001);
  ck_assert (sw_csv_double (csv, 2, 0, &number, NULL) && number == -0.5);
  ck_assert (sw_csv_int (csv, 0, 1, -3, 3, &whole, NULL) && whole == -3);
  ck_assert (sw_csv_int (csv, 1, 1, 0, G_MAXINT64, &whole, NULL) && whole == G_MAXINT64);
  ck_assert (!sw_csv_int (csv, 2, 1, 0, G_MAXINT64, &whole, NULL) && whole == G_MAXINT64);
  ck_assert (!sw_csv_int (csv, 0, 0, -99, 99, &whole, NULL));
  ck_assert (!sw_csv_int (csv, 0, 1, 0, 3, &whole, NULL));

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *text = g_strdup_printf ("weight\n\"%s\"\n", bad[i]);
      g_autoptr (SwCsv) one = parse (text);
      g_autoptr (GError) error = NULL;
      ck_assert_msg (!sw_csv_double (one, 0, 0, &number, &error), "\"%s\" was taken", bad[i]);
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT) && number == -0.5);
      ck_assert (g_str_has_prefix (error->message, "Line 2, column \"weight\": "));
    }
}
END_TEST

START_TEST (test_missing_column)
{
  g_autoptr (SwCsv) csv = parse ("time,status\n1,1\n");
  g_autoptr (GError) error = NULL;
  gsize column = 7;

  ck_assert (sw_csv_need_column (csv, "status", &column, NULL) && column == 1);
  ck_assert (!sw_csv_need_column (csv, "group", &column, &error) && column == 1);
  ck_assert_str_eq (error->message, "Line 1: no column is called \"group\"; there are: time, status.");
}
END_TEST

START_TEST (test_files)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  int fd = g_file_open_tmp ("siteward-csv-XXXXXX", &path, NULL);

  ck_assert_int_ge (fd, 0);
  g_close (fd, NULL);
  ck_assert (g_file_set_contents (path, "a,b\n1,2\n", -1, NULL));
  g_autoptr (SwCsv) csv = sw_csv_read_file (path, ',', NULL);
  ck_assert_str_eq (sw_csv_text (csv, 0, 1), "2");
  ck_assert (g_file_set_contents (path, "", -1, NULL));
  ck_assert_ptr_null (sw_csv_read_file (path, ',', &error));
  g_clear_error (&error);
  g_unlink (path);
  ck_assert_ptr_null (sw_csv_read_file (path, ',', &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
  g_clear_error (&error);
  /* A file without an end is read up to the bound and refused. */
  ck_assert_ptr_null (sw_csv_read_file ("/dev/zero", ',', &error));
  ck_assert (g_str_has_prefix (error->message, "Line 1: the file is larger"));
}
END_TEST

static char *
random_text (GRand *rand)
{
  static const char *const pieces[] = {
    "", ",", "\"", "\n", "\r\n", "\r", ";", "\t", "#", " ", "a",
    "12.5", "\xc3\xa4", "\xf0\x9f\x90\x95", "=1+1", "-", "\"\"",
  };
  GString *text = g_string_new (NULL);

  for (int left = g_rand_int_range (rand, 0, 6); left > 0; left--)
    g_string_append (text, pieces[g_rand_int_range (rand, 0, G_N_ELEMENTS (pieces))]);
  return g_string_free (text, FALSE);
}

static void
write_random (GRand *rand, SwCsvWriter *writer, GPtrArray *texts, guint columns, guint rows)
{
  for (guint i = 0; i < columns; i++)
    {
      g_autofree char *name = random_text (rand);
      char *unique = g_strdup_printf ("%s%u", name, i);
      g_ptr_array_add (texts, unique);
      sw_csv_writer_text (writer, unique);
    }
  sw_csv_writer_end (writer);
  for (guint i = 0; i < columns * rows; i++)
    {
      g_ptr_array_add (texts, random_text (rand));
      sw_csv_writer_text (writer, g_ptr_array_index (texts, texts->len - 1));
      if (i % columns == columns - 1)
        sw_csv_writer_end (writer);
    }
}

static void
check_same (const SwCsv *csv, const GPtrArray *texts, guint columns, guint rows)
{
  ck_assert_uint_eq (sw_csv_n_columns (csv), columns);
  ck_assert_uint_eq (sw_csv_n_rows (csv), rows);
  for (guint i = 0; i < texts->len; i++)
    ck_assert_str_eq (i < columns ? sw_csv_column_name (csv, i) : sw_csv_text (csv, i / columns - 1, i % columns),
                      g_ptr_array_index (texts, i));
}

static guint32
seed_of_run (void)
{
  const char *text = g_getenv ("SW_TEST_SEED");
  guint32 seed = text ? strtoul (text, NULL, 10) : 20260705;

  g_print ("# seed %u\n", seed);
  return seed;
}

static guint
count_of_run (void)
{
  return g_strcmp0 (g_getenv ("SW_TEST_LONG"), "1") == 0 ? 200000 : 2000;
}

/* Whatever is written reads back the same; with bytes changed it is read or refused, and a refusal names a line. */
START_TEST (test_round_trip_and_damage)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed_of_run ());

  for (guint run = 0; run < count_of_run (); run++)
    {
      g_autoptr (SwCsvWriter) writer = sw_csv_writer_new ();
      g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
      g_autoptr (GError) error = NULL;
      guint columns = g_rand_int_range (rand, 1, 5), rows = g_rand_int_range (rand, 0, 5);
      gsize length;
      write_random (rand, writer, texts, columns, rows);
      g_autofree char *text = sw_csv_writer_steal (writer, &length);
      g_autoptr (SwCsv) csv = sw_csv_parse (text, length, ',', &error);
      ck_assert_msg (csv != NULL, "%s in %s", error ? error->message : "", text);
      check_same (csv, texts, columns, rows);

      for (guint change = g_rand_int_range (rand, 1, 4); change > 0; change--)
        text[g_rand_int_range (rand, 0, length)] = "\",\r\n\0x;\xff"[g_rand_int_range (rand, 0, 8)];
      g_autoptr (SwCsv) damaged = sw_csv_parse (text, g_rand_int_range (rand, 0, length + 1), 0, &error);
      ck_assert (damaged || g_str_has_prefix (error->message, "Line "));
    }
}
END_TEST

START_TEST (test_writer_numbers)
{
  g_autoptr (SwCsvWriter) writer = sw_csv_writer_new ();
  gsize length;

  sw_csv_writer_double (writer, 0.1);
  sw_csv_writer_double (writer, 1.0 / 3);
  sw_csv_writer_double (writer, NAN);
  sw_csv_writer_double (writer, -0.0);
  sw_csv_writer_int (writer, G_MININT64);
  sw_csv_writer_text (writer, NULL);
  sw_csv_writer_end (writer);
  g_autofree char *text = sw_csv_writer_steal (writer, &length);
  ck_assert_str_eq (text, "0.1,0.3333333333333333,,0,-9223372036854775808,\r\n");
  ck_assert_uint_eq (length, strlen (text));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("csv");
  TCase *tables = tcase_create ("tables");

  tcase_set_timeout (tables, 110);
  tcase_add_test (tables, test_reads);
  tcase_add_loop_test (tables, test_separators, 0, 4);
  tcase_add_test (tables, test_names_only);
  tcase_add_test (tables, test_refusals);
  tcase_add_test (tables, test_bounds);
  tcase_add_test (tables, test_numbers);
  tcase_add_test (tables, test_missing_column);
  tcase_add_test (tables, test_files);
  tcase_add_test (tables, test_round_trip_and_damage);
  tcase_add_test (tables, test_writer_numbers);
  suite_add_tcase (suite, tables);
  SRunner *runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  int failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
