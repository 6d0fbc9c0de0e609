/* test-dose.c: doses, limits, syringes and tiers against rows computed elsewhere
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose.h"

#include "check-values.h"
#include "shelf.h"
#include "sw-error.h"
#include "sw-quantity.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A dose of tumours given as text: readings of one parted by "|", tumours by ";". */
static SwDoseResult *
dose (const SwProtocol *protocol, const char *tumours_text, const char *unit, gint64 grams, gint64 given_nl,
      GError **error)
{
  g_auto (GStrv) texts = g_strsplit (tumours_text, ";", -1);
  SwDoseTumour tumours[16] = { 0 };
  SwAxes axes[16][16];
  SwDoseInput input = { .protocol = protocol, .weight_g = grams, .tumours = tumours, .given_before_nl = given_nl,
                        .free_day = SW_NO_DAY, .today = SW_NO_DAY };

  for (; texts[input.n_tumours] != NULL; input.n_tumours++)
    {
      SwDoseTumour *tumour = &tumours[input.n_tumours];
      g_auto (GStrv) readings = g_strsplit (texts[input.n_tumours], "|", -1);

      tumour->letter = input.n_tumours;
      tumour->readings = axes[input.n_tumours];
      for (; readings[tumour->n_readings] != NULL; tumour->n_readings++)
        {
          g_autofree char *reading = g_strdup_printf ("%s %s", g_strstrip (readings[tumour->n_readings]), unit);

          ck_assert_msg (sw_reading_parse (reading, axes[input.n_tumours][tumour->n_readings].axis, NULL), "%s",
                         reading);
        }
    }
  return sw_dose_compute (&input, error);
}

static SwDoseResult *
must_dose (const SwProtocol *protocol, const char *tumours, gint64 grams)
{
  g_autoptr (GError) error = NULL;
  SwDoseResult *result = dose (protocol, tumours, "cm", grams, 0, &error);

  ck_assert_msg (result != NULL, "%s", error ? error->message : "");
  return result;
}

static SwRatio
decimal (const char *text)
{
  gint64 billionths;

  ck_assert_msg (sw_decimal_parse (text, 9, &billionths, NULL), "%s", text);
  return sw_ratio (billionths, 1000000000);
}

static void
assert_equal (SwRatio value, const char *expected, const char *what)
{
  int order = 1;

  ck_assert (sw_ratio_compare (value, decimal (expected), &order));
  ck_assert_msg (order == 0, "%s: %.9g, not %s", what, sw_ratio_to_double (value), expected);
}

static const SwTumourDose *
tumour_at (const SwDoseResult *result, guint i)
{
  return &g_array_index (result->tumours, SwTumourDose, i);
}

/* "refuse:volume 8 + weight-limit 4.50": every refusal in order, with its limit. */
static void
assert_refused (const SwDoseResult *result, const char *expected)
{
  g_auto (GStrv) parts = g_strsplit (expected + strlen ("refuse:"), " + ", -1);

  ck_assert (result->refused);
  ck_assert_uint_eq (result->refusals->len, g_strv_length (parts));
  for (guint i = 0; parts[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (parts[i], " ", 2);
      const SwFinding *finding = result->refusals->pdata[i];
      const SwArg *limit = sw_finding_arg (finding, "limit");
      g_autofree char *sentence = sw_finding_sentence (finding), *next = sw_finding_next (finding);

      ck_assert_str_eq (sw_finding_code (finding->code), words[0]);
      assert_equal ((SwRatio){ limit->num, limit->den }, words[1], words[0]);
      ck_assert_msg (strpbrk (sentence, "{}") == NULL && strpbrk (next, "{}") == NULL, "%s %s", sentence, next);
    }
  for (guint i = 0; i < result->tumours->len; i++)
    ck_assert_int_eq (tumour_at (result, i)->drawn_nl, SW_UNKNOWN);
  ck_assert_int_eq (result->total_nl, SW_UNKNOWN);
}

static void
check_cell (const SwProtocol *protocol, char **row, const char *cell)
{
  g_autofree char *grams = g_strdup_printf ("%s kg", row[2]);
  g_auto (GStrv) volumes = g_strsplit (row[3], ";", -1), raws = g_strsplit (row[4], ";", -1);
  g_auto (GStrv) doses = g_strsplit (cell, ";", -1);
  g_autoptr (SwDoseResult) result = NULL;
  gint64 weight;

  ck_assert (sw_mass_parse (grams, &weight, NULL));
  result = must_dose (protocol, row[1], weight);
  for (guint i = 0; volumes[i] != NULL; i++)
    {
      assert_equal (tumour_at (result, i)->volume_cm3, volumes[i], "volume");
      assert_equal (tumour_at (result, i)->raw_ml, raws[i], "raw dose");
    }
  if (g_str_has_prefix (cell, "refuse:"))
    {
      assert_refused (result, cell);
      return;
    }
  ck_assert_msg (!result->refused, "row %s: refused", row[0]);
  for (guint i = 0; doses[i] != NULL; i++)
    assert_equal (tumour_at (result, i)->dose_ml, doses[i], "dose");
}

/* Source: tests/rules/values/dose.csv (computed, exact arithmetic on the limits of domain 3.1). */
START_TEST (test_check_rows)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  g_autoptr (GPtrArray) rows = check_values_read ("dose.csv");

  ck_assert_uint_eq (rows->len, 17);
  for (guint i = 1; i < rows->len; i++)
    {
      char **row = rows->pdata[i];

      /* The row's own cells part tumours with ";", and so does dose (). */
      check_cell (sw_books_protocol_named (books, "tigilanol-eu"), row, row[5]);
      check_cell (sw_books_protocol_named (books, "tigilanol-us"), row, row[6]);
    }
}
END_TEST

/* Source: the edges named at the end of dose.csv. */
START_TEST (test_edges)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");
  g_autoptr (SwDoseResult) heavy = must_dose (eu, "4x2x2", 26667), light = must_dose (eu, "4x2x2", 26666);
  g_autoptr (SwDoseResult) exactly = must_dose (eu, "4x2x2", 40000), more = must_dose (eu, "4.001x2x2", 40000);

  ck_assert (!heavy->refused && !exactly->refused);
  assert_refused (light, "refuse:weight-limit 3.9999");
  assert_refused (more, "refuse:volume 8 + treatment-limit 4");
}
END_TEST

/* Value and limit differ in print, and the sentence says by how much. */
START_TEST (test_sentences)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");
  g_autoptr (SwDoseResult) result = must_dose (eu, "4x2x2.001", 40000), two = must_dose (eu, "3x2x1;3x2x2", 35000);
  g_autofree char *volume = sw_finding_sentence (result->refusals->pdata[0]);
  g_autofree char *sum = sw_finding_sentence (two->refusals->pdata[0]),
                  *next = sw_finding_next (two->refusals->pdata[0]);
  g_autofree char *alone = sw_finding_next (result->refusals->pdata[1]);

  ck_assert_str_eq (
      volume, "Tumour A measures 8.004 cm3; this protocol allows at most 8 cm3. It is 0.004 cm3 over, so the dose "
              "is refused, never capped.");
  ck_assert_str_eq (
      sum, "The treatment comes to 4.5 mL; this protocol allows at most 4 mL in one treatment. It is 0.5 mL over, "
           "so the dose is refused, never capped.");
  ck_assert_str_eq (
      next,
      "Treat fewer tumours now and the others not before 28 days after this treatment, treat another way, or refer.");
  ck_assert_str_eq (alone, "Treat it another way, or refer.");
}
END_TEST

static void
assert_drawn (const SwProtocol *protocol, const char *tumours, gint64 grams, const char *drawn)
{
  g_autoptr (SwDoseResult) result = must_dose (protocol, tumours, grams);
  g_auto (GStrv) parts = g_strsplit (drawn, ";", -1);

  ck_assert_msg (!result->refused, "%s", tumours);
  for (guint i = 0; parts[i] != NULL; i++)
    assert_equal (sw_ratio (tumour_at (result, i)->drawn_nl, 1000000), parts[i], tumours);
}

/* Source: the line "syringe" at the end of dose.csv. Volumes are twice the doses. */
START_TEST (test_syringes)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");
  const SwProtocol *us = sw_books_protocol_named (books, "tigilanol-us");
  g_autoptr (SwDoseResult) result = NULL;

  assert_drawn (eu, "3.2x1.061x1", 40000, "0.85");                 /* 0.8488 mL */
  assert_drawn (eu, "2.5x2x1;2.7x2x1;2.76x2x1", 40000, "1.2;1.3;1.4"); /* 1.25; 1.35; 1.38: the sum is 3.98 of 4 */
  assert_drawn (us, "2.5x2.5x2.5", 20000, "4");                    /* 3.90625 */
  assert_drawn (us, "4x2x2.001", 40000, "4");                      /* 4.002 */
  result = must_dose (us, "2.5x2.5x2.5", 20000);
  ck_assert_int_eq (tumour_at (result, 0)->syringe_nl, 5000000);
  ck_assert_uint_eq (result->vials, 2);
  ck_assert_int_eq (result->left_nl, 0);
  ck_assert_int_eq (result->total_nl, 4000000);
}
END_TEST

/* Rounding that carries the sum past 4 mL: the one rounded up most steps down; ties go to the larger, then the later
 * letter. */
START_TEST (test_stepping_down)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");

  /* 1.98 + 1.97 = 3.95 -> 2.0 + 2.0 = 4.0 fits */
  assert_drawn (eu, "3.96x2x1;3.94x2x1", 40000, "2;2");
  /* 1.26 + 1.36 + 1.38 = 4.00 -> 1.3 + 1.4 + 1.4 = 4.1: up by 0.04, 0.04, 0.02; the larger of the first two steps down
   */
  assert_drawn (eu, "2.52x2x1;2.72x2x1;2.76x2x1", 40000, "1.3;1.3;1.4");
  /* 1.36 + 1.36 + 1.28: all up by 0.04 or 0.02; of the two equal ones the later letter */
  assert_drawn (eu, "2.72x2x1;2.72x2x1;2.56x2x1", 40000, "1.4;1.3;1.3");
  assert_drawn (eu, "2.72x2x1;2.56x2x1;2.72x2x1", 40000, "1.4;1.3;1.3");
  /* The weight limit counts as well: 0.15 x 13.34 = 2.001 mL, and 1.97 mL would be drawn as 2.0; at 13.32 kg 1.998
   * mL: 1.9. */
  assert_drawn (eu, "3.94x2x1", 13340, "2");
  assert_drawn (eu, "3.94x2x1", 13320, "1.9");
}
END_TEST

START_TEST (test_given_before)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDoseResult) fits = dose (eu, "2x2x2", "cm", 40000, 2000000, &error);
  g_autoptr (SwDoseResult) over = dose (eu, "2x2x2", "cm", 40000, 2000001, &error);
  const SwFinding *note;

  ck_assert (fits != NULL && over != NULL);
  ck_assert (!fits->refused);
  ck_assert_uint_eq (fits->notes->len, 1);
  note = fits->notes->pdata[0];
  ck_assert_int_eq (note->code, SW_FINDING_GIVEN_LATELY);
  assert_refused (over, "refuse:treatment-limit 4");
}
END_TEST

/* Under 0.1 cm3 a vet decides and the true mL/cm3 is shown: 0.0625 cm3 gets 0.1 mL, 1.6 mL/cm3. */
START_TEST (test_tiny)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");
  g_autoptr (SwDoseResult) tiny = must_dose (eu, "0.5x0.5x0.5", 20000), exactly = must_dose (eu, "1x0.5x0.4", 20000);
  const SwFinding *finding;
  const SwArg *ratio;

  ck_assert_uint_eq (tiny->notes->len, 1);
  finding = tiny->notes->pdata[0];
  ratio = sw_finding_arg (finding, "ratio");
  ck_assert_int_eq (finding->code, SW_FINDING_TINY_TUMOUR);
  ck_assert_int_eq (finding->severity, SW_VET_DECIDES);
  assert_equal ((SwRatio){ ratio->num, ratio->den }, "1.6", "mL/cm3");
  ck_assert_uint_eq (exactly->notes->len, 0);
}
END_TEST

/* Source: tests/documents/half-product-tiers.xml, whose edge at 0.5 cm3 is open and that at 1 cm3 belongs to the lower
 * tier. */
START_TEST (test_tiers)
{
  g_autoptr (SwProtocol) tiers = shelf_protocol ("tests/documents", "half-product-tiers.xml");
  g_autoptr (SwDoseResult) edge = must_dose (tiers, "1x1x1", 20000), under = must_dose (tiers, "1x1x0.999", 20000);
  g_autoptr (SwDoseResult) over = must_dose (tiers, "1x1x1.001", 20000), owned = must_dose (tiers, "2x1x1", 20000);
  g_autoptr (SwDoseResult) third = must_dose (tiers, "2x1x1.001", 20000), far = must_dose (tiers, "3x2x2", 20000);
  g_autoptr (SwDoseResult) both = must_dose (tiers, "1x1x1;4x2x2.001", 20000);
  g_autofree char *sentence = sw_finding_sentence (edge->refusals->pdata[0]);

  assert_refused (edge, "refuse:tier-edge 0.5");
  ck_assert_msg (strstr (sentence, "exactly 0.5 cm3") != NULL, "%s", sentence);
  assert_refused (both, "refuse:volume 8 + tier-edge 0.5");
  assert_equal (tumour_at (under, 0)->dose_ml, "0.4995", "first tier");
  assert_equal (tumour_at (over, 0)->dose_ml, "0.25025", "second tier");
  assert_equal (tumour_at (owned, 0)->dose_ml, "0.5", "second tier at its end");
  assert_equal (tumour_at (third, 0)->dose_ml, "0.25025", "third tier");
  ck_assert_int_eq (((const SwFinding *) under->notes->pdata[0])->code, SW_FINDING_TIER_CROSSING);
  ck_assert_uint_eq (far->notes->len, 0);
}
END_TEST

/* Mir 2006 [memory]: 0.49 cm3 gives 490 IU, 0.51 cm3 gives 255 IU of 1,000 IU/mL (domain 3.3); no ceiling is filled in.
 */
START_TEST (test_unverified_tiers)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  const SwProtocol *ect = sw_books_protocol_named (books, "ect-bleomycin-dog");
  g_autoptr (SwDoseResult) result = must_dose (ect, "1x0.9x0.5", 20000);

  ck_assert (!result->refused);
  /* pi/6 x 1 x 0.81 cm3 = 0.42411... and 1 mL/cm3 */
  ck_assert (fabs (sw_ratio_to_double (tumour_at (result, 0)->dose_ml) - 3.14159265 / 6 * 0.81) < 1e-9);
  ck_assert_int_eq (tumour_at (result, 0)->drawn_nl, 420000);
  ck_assert_uint_eq (result->vials, 0);
  ck_assert_int_eq (result->left_nl, SW_UNKNOWN);
  ck_assert (tumour_at (result, 0)->chance_over < 0);
}
END_TEST

START_TEST (test_bad_input)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  SwDoseInput input = { .protocol = sw_books_protocol_named (books, "tigilanol-eu"), .weight_g = 20000 };
  SwDoseTumour tumours[13] = { 0 };
  SwAxes axes[13] = { 0 };
  g_autoptr (GError) error = NULL;

  ck_assert_ptr_null (sw_dose_compute (&input, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
  g_clear_error (&error);
  input.tumours = tumours;
  input.n_tumours = 13;
  ck_assert_ptr_null (sw_dose_compute (&input, &error));
  ck_assert_msg (strstr (error->message, "13") != NULL, "%s", error->message);
  g_clear_error (&error);
  input.n_tumours = 1;
  ck_assert_ptr_null (sw_dose_compute (&input, &error));
  ck_assert_str_eq (error->message, "Tumour A has no reading; measure it.");
  g_clear_error (&error);
  for (guint i = 0; i < 13; i++)
    axes[i] = (SwAxes){ { 1000, 1000, 1000 } };
  tumours[0].readings = axes;
  tumours[0].n_readings = 13;
  ck_assert_ptr_null (sw_dose_compute (&input, &error));
  g_clear_error (&error);
  tumours[0].n_readings = 12;
  input.weight_g = 0;
  ck_assert_ptr_null (sw_dose_compute (&input, &error));
  ck_assert_str_eq (error->message, "There is no weight; weigh the dog.");
}
END_TEST

/* Every line of the derivation has a value, and the figures behind it their marks. */
START_TEST (test_why)
{
  g_autoptr (SwBooks) books = shelf_shipped ();
  g_autoptr (SwDoseResult) result =
      must_dose (sw_books_protocol_named (books, "tigilanol-eu"), "2.14x1.8x0.89|2.1x1.76x0.91", 24600);
  gboolean has_dose = FALSE;

  ck_assert_uint_ge (result->why->len, 7);
  for (guint i = 0; i < result->why->len; i++)
    {
      const SwWhy *line = result->why->pdata[i];

      ck_assert (line->label != NULL && line->value != NULL);
      ck_assert_msg (line->mark != NULL, "%s", line->label);
      has_dose = has_dose || g_str_equal (line->value, "0.84906 mL");
    }
  ck_assert (has_dose);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("dose");
  TCase *tests = tcase_create ("dose");
  SRunner *runner;

  tcase_add_test (tests, test_check_rows);
  tcase_add_test (tests, test_edges);
  tcase_add_test (tests, test_sentences);
  tcase_add_test (tests, test_syringes);
  tcase_add_test (tests, test_stepping_down);
  tcase_add_test (tests, test_given_before);
  tcase_add_test (tests, test_tiny);
  tcase_add_test (tests, test_tiers);
  tcase_add_test (tests, test_unverified_tiers);
  tcase_add_test (tests, test_bad_input);
  tcase_add_test (tests, test_why);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
