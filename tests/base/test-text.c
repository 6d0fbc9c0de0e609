/* test-text.c: folding, canonical text, codes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-text.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static const struct
{
  const char *text, *folded;
} folds[] = {
  { "", "" },
  { "Äpfel", "apfel" },
  { "A\314\210pfel", "apfel" },
  { "Søren", "soren" },
  { "SØREN", "soren" },
  { "Łódź", "lodz" },
  { "Straße", "strasse" },
  { "  Mary \t Ann ", "mary ann" },
  { "ÆGIR", "aegir" },
  { "ﬁn", "fin" },
  { "Ωμέγα", "ωμεγα" },
  { "犬", "犬" },
};

START_TEST (test_fold)
{
  g_autofree char *folded = sw_text_fold (folds[_i].text);
  g_autofree char *again = sw_text_fold (folded);

  ck_assert_str_eq (folded, folds[_i].folded);
  ck_assert_str_eq (again, folded);
}
END_TEST

START_TEST (test_excerpt)
{
  g_autofree char *whole = sw_text_excerpt ("short", 5), *cut = sw_text_excerpt ("längere", 4);
  g_autofree char *clean = sw_text_excerpt ("a\nb\001\377", 9);

  ck_assert_str_eq (whole, "short");
  ck_assert_str_eq (cut, "läng…");
  ck_assert (g_utf8_validate (clean, -1, NULL));
  ck_assert (g_str_has_prefix (clean, "a b "));
}
END_TEST

START_TEST (test_canonical_text)
{
  g_autoptr (GString) one = g_string_new (NULL), two = g_string_new (NULL);

  sw_text_append_field (one, "ab");
  sw_text_append_field (one, NULL);
  sw_text_append_field (one, "");
  sw_text_append_int (one, G_MININT64);
  sw_text_append_bytes (one, "\0x", 2);
  ck_assert_uint_eq (one->len, 5 + 2 + 3 + 24 + 5);
  ck_assert (memcmp (one->str, "2:ab,-,0:,20:-9223372036854775808,2:\0x,", one->len) == 0);

  /* Fields that hold the marks of the format stay apart from several fields. */
  g_string_truncate (one, 0);
  sw_text_append_field (one, "a,1:b");
  sw_text_append_field (two, "a");
  sw_text_append_field (two, "b");
  ck_assert_str_ne (one->str, two->str);
}
END_TEST

START_TEST (test_codes)
{
  static const char *const codes[] = { "seen", "second-hand", NULL };

  ck_assert_int_eq (sw_code_index (codes, "second-hand"), 1);
  ck_assert_int_eq (sw_code_index (codes, "Seen"), -1);
  ck_assert_int_eq (sw_code_index (codes, ""), -1);
  ck_assert_int_eq (sw_code_index (codes, NULL), -1);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("text");
  TCase *text = tcase_create ("text");
  SRunner *runner;

  tcase_add_loop_test (text, test_fold, 0, G_N_ELEMENTS (folds));
  tcase_add_test (text, test_excerpt);
  tcase_add_test (text, test_canonical_text);
  tcase_add_test (text, test_codes);
  suite_add_tcase (suite, text);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
