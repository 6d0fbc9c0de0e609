/* test-finding.c: the codes and the table of words hold together, and sentences say their numbers
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-finding.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static gboolean
is_name (const char *name)
{
  return name != NULL && *name != '\0' && strspn (name, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen (name);
}

/* Hand the finding a text for each placeholder that its sentence leaves open. */
static void
fill_placeholders (SwFinding *finding, const char *text)
{
  const char *open, *close;

  for (; text != NULL && (open = strchr (text, '{')) != NULL; text = close)
    {
      g_autofree char *name = NULL;

      close = strchr (open, '}');
      ck_assert_msg (close != NULL, "unclosed brace in: %s", text);
      name = g_strndup (open + 1, (gsize) (close - open - 1));
      ck_assert_msg (is_name (name), "odd placeholder {%s}", name);
      sw_finding_text (finding, name, "something");
    }
}

START_TEST (test_every_code_has_words)
{
  for (int code = 0; code < SW_N_FINDINGS; code++)
    {
      g_autoptr (SwFinding) finding = sw_finding_new (code);
      g_autofree char *bare = NULL, *bare_next = NULL, *sentence = NULL, *next = NULL;

      ck_assert_msg (is_name (sw_finding_code (code)), "code %d has no words", code);
      ck_assert_int_eq (sw_finding_from_code (sw_finding_code (code)), code);
      bare = sw_finding_sentence (finding);
      bare_next = sw_finding_next (finding);
      fill_placeholders (finding, bare);
      fill_placeholders (finding, bare_next);
      sentence = sw_finding_sentence (finding);
      next = sw_finding_next (finding);
      ck_assert_msg (strpbrk (sentence, "{}") == NULL && g_str_has_suffix (sentence, "."), "%s", sentence);
      ck_assert_msg (next == NULL || (strpbrk (next, "{}") == NULL && g_str_has_suffix (next, ".")), "%s", next);
      /* What blocks says what is open to the vet. */
      ck_assert_msg (finding->severity < SW_VET_DECIDES || next != NULL, "%s offers nothing", sw_finding_code (code));
    }
  ck_assert_int_eq (sw_finding_from_code ("no-such-finding"), -1);
}
END_TEST

static void
check_beside (SwWide value, SwWide value_den, SwWide limit, SwWide limit_den, const char *unit, const char *wanted)
{
  g_autoptr (SwFinding) finding = sw_finding_new (SW_FINDING_VOLUME_LIMIT);
  g_autofree char *sentence = NULL;

  sw_finding_text (finding, "tumour", "A");
  sw_finding_ratio (finding, "value", value, value_den, unit);
  sw_finding_ratio (finding, "limit", limit, limit_den, unit);
  sentence = sw_finding_sentence (finding);
  ck_assert_msg (g_str_has_prefix (sentence, wanted), "%s", sentence);
}

START_TEST (test_value_and_limit_differ)
{
  check_beside (8004, 1000, 8, 1, "cm3", "Tumour A measures 8.004 cm3; this protocol allows at most 8 cm3.");
  check_beside (80000001, 10000000, 8, 1, "cm3",
                "Tumour A measures 8.0000001 cm3; this protocol allows at most 8 cm3.");
  check_beside (1, 3, 15, 100, "mL/kg", "Tumour A measures 0.33 mL/kg; this protocol allows at most 0.15 mL/kg.");
}
END_TEST

START_TEST (test_kinds_of_arguments)
{
  g_autoptr (SwFinding) finding = sw_finding_new (SW_FINDING_TINY_TUMOUR);
  g_autofree char *mass = NULL, *length = NULL, *copied = NULL;
  g_autoptr (SwFinding) copy = NULL;

  sw_finding_count (finding, "tumour", 3);
  sw_finding_mass (finding, "value", 24600);
  sw_finding_mass (finding, "limit", 24604);
  sw_finding_day (finding, "ratio", sw_day_from_ymd (2026, 5, 14));
  mass = sw_finding_sentence (finding);
  ck_assert_str_eq (mass, "Tumour 3 measures 24.6 kg, under 24.604 kg: the least dose gives it 2026-05-14.");
  sw_finding_length (finding, "value", 2143);
  sw_finding_length (finding, "limit", 2100);
  sw_finding_minute (finding, "ratio", 14 * 60);
  length = sw_finding_sentence (finding);
  ck_assert_str_eq (length, "Tumour 3 measures 21.43 mm, under 21.0 mm: the least dose gives it 14:00.");
  finding->about = g_strdup ("meloxicam");
  copy = sw_finding_copy (finding);
  copied = sw_finding_sentence (copy);
  ck_assert_str_eq (copied, length);
  ck_assert_str_eq (copy->about, "meloxicam");
  ck_assert_ptr_ne (copy->about, finding->about);
}
END_TEST

START_TEST (test_lists)
{
  g_autoptr (GPtrArray) findings = sw_findings_new ();
  g_autofree char *none = sw_findings_codes (findings, SW_MEETS);
  g_autofree char *blocking = NULL;
  SwFinding *finding = sw_finding_new (SW_FINDING_AXIS_SPREAD);

  ck_assert_int_eq (sw_findings_worst (findings), SW_MEETS);
  ck_assert_str_eq (none, "");
  g_ptr_array_add (findings, finding);
  finding = sw_finding_new (SW_FINDING_VOLUME_LIMIT);
  finding->tumour = 17;
  g_ptr_array_add (findings, finding);
  finding = sw_finding_new (SW_FINDING_WEIGHT_LIMIT);
  finding->about = g_strdup ("today");
  g_ptr_array_add (findings, finding);
  blocking = sw_findings_codes (findings, SW_VET_DECIDES);
  ck_assert_int_eq (sw_findings_worst (findings), SW_STOP);
  ck_assert_str_eq (blocking, "volume@17;weight-limit:today");
}
END_TEST

START_TEST (test_order)
{
  static const SwFindingCode codes[] = {
    SW_FINDING_AXIS_SPREAD, SW_FINDING_NOT_READ_ALOUD, SW_FINDING_ONE_READING,      SW_FINDING_NOT_ASKED,
    SW_FINDING_NO_CONSENT,  SW_FINDING_NO_WEIGHT_TODAY, SW_FINDING_WEIGHT_LIMIT,
  };
  static const char *const told
      = "weight-limit;no-consent;no-weight-today;not-asked;one-reading;not-read-aloud;axis-spread";
  g_autoptr (GPtrArray) findings = sw_findings_new ();
  g_autofree char *order = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    g_ptr_array_add (findings, sw_finding_new (codes[i]));
  sw_findings_sort (findings);
  order = sw_findings_codes (findings, SW_NOTE);
  ck_assert_str_eq (order, told);
}
END_TEST

START_TEST (test_capital)
{
  g_autoptr (SwFinding) finding = sw_finding_new (SW_FINDING_MEDICINE_STOP);
  g_autofree char *sentence = NULL;

  sw_finding_text (finding, "what", "éxample");
  sentence = sw_finding_sentence (finding);
  ck_assert_msg (g_str_has_prefix (sentence, "Éxample"), "%s", sentence);
}
END_TEST

START_TEST (test_severities)
{
  static const char *const names[SW_N_SEVERITIES] = { "meets", "note", "vet decides", "not known", "stop" };

  for (int severity = 0; severity < SW_N_SEVERITIES; severity++)
    ck_assert_str_eq (sw_severity_name (severity), names[severity]);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("finding");
  TCase *tcase = tcase_create ("finding");
  SRunner *runner;

  tcase_add_test (tcase, test_every_code_has_words);
  tcase_add_test (tcase, test_value_and_limit_differ);
  tcase_add_test (tcase, test_kinds_of_arguments);
  tcase_add_test (tcase, test_lists);
  tcase_add_test (tcase, test_order);
  tcase_add_test (tcase, test_capital);
  tcase_add_test (tcase, test_severities);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
