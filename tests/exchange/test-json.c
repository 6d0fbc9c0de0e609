/* test-json.c: what is written is JSON, whatever goes in
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-json.h"

#include <check.h>
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

START_TEST (test_shape)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_int (json, "n", -32);
  sw_json_begin_array (json, "steps");
  sw_json_begin_object (json, NULL);
  sw_json_double (json, "t", 1.5);
  sw_json_null (json, "lo");
  sw_json_end (json);
  sw_json_begin_array (json, NULL);
  sw_json_end (json);
  sw_json_bool (json, NULL, TRUE);
  sw_json_string (json, NULL, NULL);
  sw_json_end (json);
  sw_json_begin_object (json, "none");
  sw_json_end (json);
  sw_json_bool (json, "last", FALSE);
  sw_json_end (json);
  g_autofree char *text = sw_json_steal (json);
  ck_assert_str_eq (text, "{\"n\":-32,\"steps\":[{\"t\":1.5,\"lo\":null},[],true,null],\"none\":{},\"last\":false}");

  sw_json_string (json, NULL, "again");
  g_autofree char *second = sw_json_steal (json);
  ck_assert_str_eq (second, "\"again\"");
}
END_TEST

START_TEST (test_strings)
{
  static const struct
  {
    const char *value;
    const char *written;
  } rows[] = {
    { "", "\"\"" },
    { "say \"no\" \\ /", "\"say \\\"no\\\" \\\\ /\"" },
    { "a\b\f\n\r\tz", "\"a\\b\\f\\n\\r\\tz\"" },
    { "\x01\x1f\x7f", "\"\\u0001\\u001f\\u007f\"" },
    { "\xc3\xa4\xf0\x9f\x90\x95", "\"\xc3\xa4\xf0\x9f\x90\x95\"" },
    { "broken\xff\xc3", "\"broken\xef\xbf\xbd\xef\xbf\xbd\"" },
    { "\xed\xa0\x80", "\"\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd\"" }, /* half of a surrogate pair */
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (SwJson) json = sw_json_new ();
      sw_json_string (json, NULL, rows[i].value);
      g_autofree char *text = sw_json_steal (json);
      ck_assert_str_eq (text, rows[i].written);
    }
}
END_TEST

START_TEST (test_hostile_keys)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_int (json, "\"},{\"x\":\n", 1);
  sw_json_int (json, "", 2);
  sw_json_end (json);
  g_autofree char *text = sw_json_steal (json);
  ck_assert_str_eq (text, "{\"\\\"},{\\\"x\\\":\\n\":1,\"\":2}");
}
END_TEST

static char *
written (double value)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_double (json, NULL, value);
  return sw_json_steal (json);
}

START_TEST (test_numbers)
{
  static const struct
  {
    double value;
    const char *text;
  } rows[] = {
    { 0, "0" },         { -0.0, "0" },         { 0.1, "0.1" },           { 1e22, "1e+22" },
    { 1.0 / 3, "0.3333333333333333" },         { 100, "100" },           { NAN, "null" },
    { INFINITY, "null" },                      { -INFINITY, "null" },    { 5e-324, "4.94065645841247e-324" },
    { 0.1 + 0.2, "0.30000000000000004" },      { -2.5e-7, "-2.5e-07" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = written (rows[i].value);
      ck_assert_str_eq (text, rows[i].text);
    }
}
END_TEST

/* Every double reads back as itself: random bits, so all magnitudes. */
START_TEST (test_round_trip)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260706);

  g_print ("# seed 20260706\n");
  for (guint run = 0; run < 100000; run++)
    {
      guint64 bits = (guint64) g_rand_int (rand) << 32 | g_rand_int (rand);
      double value;
      memcpy (&value, &bits, sizeof value);
      g_autofree char *text = written (value);
      if (isfinite (value))
        ck_assert_msg (g_ascii_strtod (text, NULL) == value, "%s", text);
      else
        ck_assert_str_eq (text, "null");
    }
}
END_TEST

START_TEST (test_deep)
{
  g_autoptr (SwJson) json = sw_json_new ();

  for (guint i = 0; i < 100000; i++)
    sw_json_begin_array (json, NULL);
  for (guint i = 0; i < 100000; i++)
    sw_json_end (json);
  g_autofree char *text = sw_json_steal (json);
  ck_assert_uint_eq (strlen (text), 200000);
}
END_TEST

/* Programming errors end in a critical warning, which is deadly in tests. */
START_TEST (test_misuse)
{
  g_autoptr (SwJson) json = sw_json_new ();

  if (_i == 0)
    sw_json_end (json);
  else if (_i == 1)
    sw_json_int (json, "key", 1);
  else if (_i == 2)
    {
      sw_json_begin_object (json, NULL);
      sw_json_int (json, NULL, 1);
    }
  else if (_i == 3)
    {
      sw_json_null (json, NULL);
      sw_json_null (json, NULL);
    }
  else if (_i == 4)
    sw_json_steal (json);
  else
    {
      sw_json_begin_array (json, NULL);
      sw_json_steal (json);
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("json");
  TCase *writer = tcase_create ("writer");

  tcase_set_timeout (writer, 60);
  tcase_add_test (writer, test_shape);
  tcase_add_test (writer, test_strings);
  tcase_add_test (writer, test_hostile_keys);
  tcase_add_test (writer, test_numbers);
  tcase_add_test (writer, test_round_trip);
  tcase_add_test (writer, test_deep);
  if (g_strcmp0 (g_getenv ("CK_FORK"), "no") != 0) /* it must die in a process of its own */
    tcase_add_loop_test_raise_signal (writer, test_misuse, SIGTRAP, 0, 6);
  suite_add_tcase (suite, writer);
  SRunner *runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  int failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
