/* test-quantity.c: what the entry rules take and refuse (domain 2)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-error.h"
#include "sw-quantity.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

typedef gboolean (*ParseFunc) (const char *text, gint64 *value, GError **error);

typedef struct
{
  ParseFunc parse;
  const char *text;
  gint64 value;
} Good;

static const Good good[] = {
  { sw_length_parse, "21.4", 2140 },
  { sw_length_parse, "21,4", 2140 },
  { sw_length_parse, "21.4 mm", 2140 },
  { sw_length_parse, "21.4mm", 2140 },
  { sw_length_parse, "2.14 cm", 2140 },
  { sw_length_parse, "2.001 cm", 2001 },
  { sw_length_parse, " 21.43 ", 2143 },
  { sw_length_parse, "21.43\302\240MM", 2143 },
  { sw_length_parse, "0.5", 50 },
  { sw_length_parse, "300", 30000 },
  { sw_length_parse, "30 cm", 30000 },
  { sw_mass_parse, "24.6", 24600 },
  { sw_mass_parse, "24,6 kg", 24600 },
  { sw_mass_parse, "24600 g", 24600 },
  /* 54.2 * 0.45359237 = 24.584706454 kg, by hand; 54.2 lb is the row of domain 2. */
  { sw_mass_parse, "54.2 lb", 24584 },
  { sw_mass_parse, "1,234", 1234 },
  { sw_mass_parse, "26.666", 26666 },
  { sw_mass_parse, "0.5", 500 },
  { sw_mass_parse, "120", 120000 },
  { sw_mass_parse, "264.55 lb", 119997 },
  { sw_drug_volume_parse, "0.85 mL", 850000 },
  { sw_drug_volume_parse, "0,85 ml", 850000 },
  { sw_drug_volume_parse, "3.906250", 3906250 },
  { sw_drug_volume_parse, "100", 100000000 },
};

START_TEST (test_good)
{
  g_autoptr (GError) error = NULL;
  gint64 value = 0;

  ck_assert_msg (good[_i].parse (good[_i].text, &value, &error), "%s: %s", good[_i].text, error ? error->message : "");
  ck_assert_int_eq (value, good[_i].value);
}
END_TEST

/* A word of the sentence stands beside each, so that the right reason is given and not just any. */
typedef struct
{
  ParseFunc parse;
  const char *text;
  const char *word;
} Bad;

static const Bad bad[] = {
  { sw_length_parse, "", "Nothing was typed" },
  { sw_length_parse, "   ", "Nothing was typed" },
  { sw_length_parse, "\t\n", "Nothing was typed" },
  { sw_length_parse, "abc", "not a number" },
  { sw_length_parse, "mm", "not a number" },
  { sw_length_parse, "?", "not a number" },
  { sw_length_parse, "½", "not a number" },
  { sw_length_parse, "٢١", "not a number" },
  { sw_length_parse, "²", "not a number" },
  { sw_length_parse, ".", "not a number" },
  { sw_length_parse, "-", "not a number" },
  { sw_length_parse, "gone", "not a number" },
  { sw_length_parse, "-5", "negative" },
  { sw_length_parse, "−5", "negative" },
  { sw_length_parse, "- 5 mm", "negative" },
  { sw_length_parse, "-0", "negative" },
  { sw_length_parse, "+5", "sign" },
  { sw_length_parse, "0", "0 is no size" },
  { sw_length_parse, "0.00", "0 is no size" },
  { sw_length_parse, "0 mm", "0 is no size" },
  { sw_length_parse, "nan", "not a finite" },
  { sw_length_parse, "NaN", "not a finite" },
  { sw_length_parse, "inf", "not a finite" },
  { sw_length_parse, "Infinity", "not a finite" },
  { sw_length_parse, "∞", "not a finite" },
  { sw_length_parse, "21.4 in", "not a unit" },
  { sw_length_parse, "21.4 \"", "not a unit" },
  { sw_length_parse, "21.4 kg", "not a unit" },
  { sw_length_parse, "2 m", "not a unit" },
  { sw_length_parse, "21.4 mm mm", "not a unit" },
  { sw_length_parse, "21.4;", "not a unit" },
  { sw_length_parse, "0x15", "more than one number" },
  { sw_length_parse, "21.4 18.0", "more than one number" },
  { sw_length_parse, "21.4; 18.0", "more than one number" },
  { sw_length_parse, "21.4 mm 18", "more than one number" },
  { sw_length_parse, "21/2", "more than one number" },
  { sw_length_parse, "20-22", "more than one number" },
  { sw_length_parse, "1 000", "gap" },
  { sw_length_parse, "1\302\240000", "gap" },
  { sw_length_parse, "1,000.0", "thousands" },
  { sw_length_parse, "1.000,0", "thousands" },
  { sw_length_parse, "1.2.3", "thousands" },
  { sw_length_parse, "1'000", "thousands" },
  { sw_length_parse, "1’000", "thousands" },
  { sw_length_parse, "1_000", "thousands" },
  { sw_length_parse, "2e1", "exponent" },
  { sw_length_parse, "2E+1", "exponent" },
  { sw_length_parse, "2e-1", "exponent" },
  { sw_length_parse, "21.413", "more than 2 digits" },
  { sw_length_parse, "1,000", "more than 2 digits" },
  { sw_length_parse, "2.1413 cm", "more than 3 digits" },
  { sw_length_parse, ".5", "no digit before" },
  { sw_length_parse, ",5", "no digit before" },
  { sw_length_parse, "5.", "no digit after" },
  { sw_length_parse, "5. mm", "no digit after" },
  { sw_length_parse, "0.49", "under 0.5 mm" },
  { sw_length_parse, "300.01", "over 300 mm" },
  { sw_length_parse, "31 cm", "over 300 mm" },
  { sw_length_parse, "999999999999999", "over 300 mm" },
  { sw_length_parse, "9999999999999999999999999", "too many digits" },
  { sw_length_parse, "0.0000000000000000000001", "too many digits" },
  { sw_length_parse, "21\0014", "can't be read" },
  { sw_length_parse, "21.4\377", "can't be read" },
  { sw_length_parse, "111111111111111111111111111111111111111111111111111111111111111111111111111111111", "can't be" },
  { sw_mass_parse, "", "Nothing was typed" },
  { sw_mass_parse, "0", "0 is no weight" },
  { sw_mass_parse, "-24.6", "negative" },
  { sw_mass_parse, "24.6001", "more than 3 digits" },
  { sw_mass_parse, "24600.5 g", "more than 0 digits" },
  { sw_mass_parse, "24,600 g", "more than 0 digits" },
  { sw_mass_parse, "0.499", "under 0.5 kg" },
  { sw_mass_parse, "1.1 lb", "under 0.5 kg" },
  { sw_mass_parse, "120.001", "over 120 kg" },
  { sw_mass_parse, "24600", "over 120 kg" },
  { sw_mass_parse, "264.56 lb", "over 120 kg" },
  { sw_mass_parse, "24.6 st", "not a unit" },
  { sw_mass_parse, "24.6 mm", "not a unit" },
  { sw_mass_parse, "54 lb 3", "more than one number" },
  { sw_drug_volume_parse, "0", "0 is no volume" },
  { sw_drug_volume_parse, "0.85 L", "not a unit" },
  { sw_drug_volume_parse, "0.85 IU", "not a unit" },
  { sw_drug_volume_parse, "0.8500001", "more than 6 digits" },
  { sw_drug_volume_parse, "100.01", "over 100 mL" },
  { sw_drug_volume_parse, "0.5 + 0.5", "more than one number" },
};

static void
assert_refused (gboolean taken, const char *text, const char *word, GError **refusal)
{
  GError *error = *refusal;

  ck_assert_msg (!taken, "“%s” was taken", text);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
  ck_assert_msg (strstr (error->message, word) != NULL, "“%s”: %s", text, error->message);
  ck_assert_msg (g_str_has_suffix (error->message, "."), "no sentence: %s", error->message);
  ck_assert (g_utf8_validate (error->message, -1, NULL));
}

START_TEST (test_bad)
{
  g_autoptr (GError) error = NULL;
  gint64 value = 77;

  assert_refused (bad[_i].parse (bad[_i].text, &value, &error), bad[_i].text, bad[_i].word, &error);
  ck_assert_int_eq (value, 77);
  ck_assert (!bad[_i].parse (bad[_i].text, &value, NULL));
}
END_TEST

START_TEST (test_enough_bad_strings)
{
  ck_assert_uint_ge (G_N_ELEMENTS (bad), 60);
}
END_TEST

static const struct
{
  const char *text;
  gint64 axes[3];
} good_readings[] = {
  { "21.4x18.0x8.9 mm", { 2140, 1800, 890 } },
  { "21.4x18.0x8.9", { 2140, 1800, 890 } },
  { "21,4 X 18,0 X 8,9", { 2140, 1800, 890 } },
  { "2x2x2.001 cm", { 2000, 2000, 2001 } },
  { "2.14 × 1.8 × 0.89 cm", { 2140, 1800, 890 } },
  { "8.9*18*21.4", { 890, 1800, 2140 } },
  { "21.4 mm x 18.0 mm x 8.9 mm", { 2140, 1800, 890 } },
};

START_TEST (test_good_reading)
{
  g_autoptr (GError) error = NULL;
  gint64 axes[3] = { 0 };

  ck_assert_msg (sw_reading_parse (good_readings[_i].text, axes, &error), "%s", error ? error->message : "");
  for (int i = 0; i < 3; i++)
    ck_assert_int_eq (axes[i], good_readings[_i].axes[i]);
}
END_TEST

static const struct
{
  const char *text, *word;
} bad_readings[] = {
  { "", "Nothing was typed" },
  { "21.4", "not a reading" },
  { "21.4x18.0", "not a reading" },
  { "1x2x3x4", "not a reading" },
  { "21.4 18.0 8.9", "not a reading" },
  { "21.4;18.0;8.9", "not a reading" },
  { "21.4xx8.9", "Axis 2: Nothing" },
  { "x18x8.9", "Axis 1: Nothing" },
  { "21.4x18x", "Axis 3: Nothing" },
  { "2.14 cm x 18 x 8.9", "another unit" },
  { "2.14 cm x 18 x 8.9 mm", "another unit" },
  { "21.4x-18x8.9", "Axis 2: “-18” is negative" },
  { "21.4x0x8.9", "Axis 2: 0 is no size" },
  { "21.4x18.0x8.9 in", "Axis 3" },
  { "21.4x18.0x301", "Axis 3" },
  { "21.4x18.0x8.901", "Axis 3" },
  { "21.4x18.0x8.9 mm 3", "more than one number" },
};

START_TEST (test_bad_reading)
{
  g_autoptr (GError) error = NULL;
  gint64 axes[3] = { 1, 2, 3 };

  assert_refused (sw_reading_parse (bad_readings[_i].text, axes, &error), bad_readings[_i].text, bad_readings[_i].word,
                  &error);
  ck_assert (axes[0] == 1 && axes[1] == 2 && axes[2] == 3);
}
END_TEST

/* Each length and each mass that can be entered comes back from its standard form (a length shows all its digits). */
START_TEST (test_round_trips)
{
  for (gint64 length = 50; length <= 30000; length++)
    {
      g_autofree char *text = sw_length_format (length);
      gint64 back = 0;

      ck_assert (sw_length_parse (text, &back, NULL));
      ck_assert_int_eq (back, length);
    }
  for (gint64 mass = 500; mass <= 120000; mass += 10)
    {
      g_autofree char *text = sw_mass_format (mass);
      gint64 back = 0;

      ck_assert (sw_mass_parse (text, &back, NULL));
      ck_assert_int_eq (back, mass);
    }
}
END_TEST

static void
assert_text (char *text, const char *expected)
{
  ck_assert_str_eq (text, expected);
  g_free (text);
}

START_TEST (test_formats)
{
  assert_text (sw_length_format (2140), "21.4");
  assert_text (sw_length_format (2143), "21.43");
  assert_text (sw_length_format (2100), "21.0");
  assert_text (sw_mass_format (24600), "24.6");
  assert_text (sw_mass_format (24584), "24.58");
  assert_text (sw_mass_format (24000), "24.0");
  assert_text (sw_drug_volume_format (850000), "0.85");
  assert_text (sw_drug_volume_format (31250), "0.03");
  assert_text (sw_drug_volume_format (4000000), "4.00");
  assert_text (sw_reading_format ((gint64[]){ 2140, 1800, 890 }), "21.4 × 18.0 × 8.9");
  /* 21.4 x 18.0 x 8.9 / 2 mm3 = 1714.14 mm3 */
  assert_text (sw_volume_format (sw_ratio (G_GINT64_CONSTANT (2140) * 1800 * 890, 2 * SW_VOLUME_UNITS_PER_CM3)),
               "1.71");
  assert_text (sw_volume_format (sw_ratio (1, 16)), "0.0625");
  assert_text (sw_volume_format (sw_ratio (196, 1000)), "0.196");
}
END_TEST

START_TEST (test_decimals)
{
  gint64 value = 0;

  ck_assert (sw_decimal_parse ("0.15", 6, &value, NULL) && value == 150000);
  ck_assert (sw_decimal_parse ("0", 6, &value, NULL) && value == 0);
  ck_assert (sw_decimal_parse ("8", 9, &value, NULL) && value == G_GINT64_CONSTANT (8000000000));
  ck_assert (sw_integer_parse ("-2", &value, NULL) && value == -2);
  ck_assert (sw_integer_parse ("+4", &value, NULL) && value == 4);
  ck_assert (sw_integer_parse ("7", &value, NULL) && value == 7);
}
END_TEST

START_TEST (test_bad_decimals)
{
  static const char *const bad_decimals[] = { "",   " 1",  "1 ",    "1,5",       "-1",  "+1",   ".5",
                                              "5.", "1e3", "1.2.3", "0.1234567", "abc", "0x10", "999999999999999" };
  static const char *const bad_integers[] = { "", "-", "1.0", "--1", "1 ", "two", "9999999999999999" };

  for (guint i = 0; i < G_N_ELEMENTS (bad_decimals); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 value = 77;

      assert_refused (sw_decimal_parse (bad_decimals[i], 6, &value, &error), bad_decimals[i], "“", &error);
      ck_assert_int_eq (value, 77);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad_integers); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 value = 77;

      assert_refused (sw_integer_parse (bad_integers[i], &value, &error), bad_integers[i], "“", &error);
      ck_assert_int_eq (value, 77);
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("quantity");
  TCase *entry = tcase_create ("entry"), *show = tcase_create ("show");
  SRunner *runner;

  tcase_add_loop_test (entry, test_good, 0, G_N_ELEMENTS (good));
  tcase_add_loop_test (entry, test_bad, 0, G_N_ELEMENTS (bad));
  tcase_add_test (entry, test_enough_bad_strings);
  tcase_add_loop_test (entry, test_good_reading, 0, G_N_ELEMENTS (good_readings));
  tcase_add_loop_test (entry, test_bad_reading, 0, G_N_ELEMENTS (bad_readings));
  tcase_add_test (entry, test_decimals);
  tcase_add_test (entry, test_bad_decimals);
  tcase_add_test (show, test_round_trips);
  tcase_add_test (show, test_formats);
  suite_add_tcase (suite, entry);
  suite_add_tcase (suite, show);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
