/* test-dose-random.c: doses of random treatments against a second computation, and what must hold of every one
 *
 * The second computation brings everything to one denominator, 4 x 10^9 x 27720^3 (27720 is the least common multiple
 * of 1 to 12 readings), and writes the figures of domain 3.1 down again. SW_TEST_SEED repeats a run; SW_TEST_LONG=1
 * makes it ten times longer.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose.h"

#include "shelf.h"
#include "sw-quantity.h"

#include <math.h>
#include <stdlib.h>

#define CASES 100000
#define MOST 12
#define COMMON 27720

/* The limits of domain 3.1 (sources there): cm3, hundredths of mL/kg, mL. Least dose 0.1 mL, 0.5 mL/cm3 in both. */
typedef struct
{
  const char *id;
  int largest_cm3;
  int hundredths_per_kg;
  int most_ml;
} Figures;

static const Figures documents[] = { { "tigilanol-eu", 8, 15, 4 }, { "tigilanol-us", 10, 25, 5 } };

typedef struct
{
  const Figures *figures;
  const SwProtocol *protocol;
  SwAxes readings[MOST][MOST];
  SwDoseTumour tumours[MOST];
  guint n;
  gint64 grams;
  gint64 given_nl;
} Case;

static SwBooks *books;
static GRand *rand_;
static guint cases;

/* One mL (and one cm3) in the second computation: a volume is half a product, a dose half a volume. */
static SwWide
one (void)
{
  return (SwWide) 4 * 1000000000 * COMMON * COMMON * COMMON;
}

/* A tumour whose axes multiply to about side^3, 0.01 mm, read up to 12 times. */
static void
random_tumour (Case *c, guint i, double side)
{
  double long_by = g_rand_double_range (rand_, 0.7, 1.6), wide_by = g_rand_double_range (rand_, 0.7, 1.3);
  double base[SW_N_AXES] = { side * long_by, side * wide_by, side / long_by / wide_by };
  int scatter = g_rand_boolean (rand_) ? 3 : 60;
  SwDoseTumour *tumour = &c->tumours[i];

  tumour->letter = i;
  tumour->n_readings = (guint) g_rand_int_range (rand_, 1, g_rand_int_range (rand_, 2, MOST + 2));
  tumour->readings = c->readings[i];
  for (guint k = 0; k < tumour->n_readings; k++)
    for (int a = 0; a < SW_N_AXES; a++)
      c->readings[i][k].axis[a] = CLAMP ((gint64) base[a] + g_rand_int_range (rand_, -scatter, scatter + 1), 50, 30000);
}

/* Half the treatments are anywhere, half close to the treatment limit; a third of them close to the weight limit too.
 */
static void
random_case (Case *c)
{
  double ml;

  c->figures = &documents[g_rand_int_range (rand_, 0, G_N_ELEMENTS (documents))];
  c->protocol = sw_books_protocol_named (books, c->figures->id);
  c->n = (guint) g_rand_int_range (rand_, 1, g_rand_boolean (rand_) ? 4 : MOST + 1);
  c->given_nl = g_rand_int_range (rand_, 0, 4) == 0 ? g_rand_int_range (rand_, 1, 1000000) : 0;
  ml = g_rand_boolean (rand_) ? g_rand_double_range (rand_, 0.05, c->figures->most_ml + 1)
                              : c->figures->most_ml * g_rand_double_range (rand_, 0.96, 1.01) - c->given_nl / 1e6;
  c->grams = g_rand_int_range (rand_, 500, 60000);
  if (g_rand_int_range (rand_, 0, 3) == 0)
    c->grams = CLAMP ((gint64) (ml * 100000 / c->figures->hundredths_per_kg * g_rand_double_range (rand_, 0.99, 1.03)),
                      500, 120000);
  for (guint i = 0; i < c->n; i++)
    random_tumour (c, i, 1000 * cbrt (4 * ml / c->n));
}

static SwDoseResult *
compute (const Case *c)
{
  SwDoseInput input = { .protocol = c->protocol, .weight_g = c->grams, .tumours = c->tumours, .n_tumours = c->n,
                        .given_before_nl = c->given_nl, .free_day = SW_NO_DAY, .today = SW_NO_DAY };
  g_autoptr (GError) error = NULL;
  SwDoseResult *result = sw_dose_compute (&input, &error);

  ck_assert_msg (result != NULL, "%s", error ? error->message : "");
  return result;
}

static const SwTumourDose *
tumour_at (const SwDoseResult *result, guint i)
{
  return &g_array_index (result->tumours, SwTumourDose, i);
}

/* 0.5 mL for each cm3 of L x W x H / 2. Sorted sums by the longest and the shortest of a reading; what remains is the
 * middle. */
static SwWide
raw_dose_again (const SwDoseTumour *tumour)
{
  SwWide longest = 0, middle = 0, shortest = 0, share = COMMON / tumour->n_readings;

  for (guint k = 0; k < tumour->n_readings; k++)
    {
      const gint64 *axis = tumour->readings[k].axis;
      gint64 most = MAX (MAX (axis[0], axis[1]), axis[2]), least = MIN (MIN (axis[0], axis[1]), axis[2]);

      longest += most;
      shortest += least;
      middle += axis[0] + axis[1] + axis[2] - most - least;
    }
  return longest * share * middle * share * shortest * share;
}

static void
assert_same (SwRatio value, SwWide again, const char *what)
{
  /* value = again / one, cross-multiplied; value is in lowest terms, so its denominator divides. */
  ck_assert_msg (one () % value.den == 0, "%s: denominator", what);
  ck_assert_msg (value.num * (one () / value.den) == again, "%s: %g", what, sw_ratio_to_double (value));
}

static gint64
step_again (SwWide dose)
{
  if (dose <= one ())
    return 10000;
  return dose <= 3 * one () ? 100000 : 200000;
}

/* Nearest step, a tie down; one nL is one () / 10^6. */
static gint64
nearest_again (SwWide dose)
{
  gint64 step = step_again (dose);
  SwWide unit = one () / 1000000 * step, whole = dose / unit, rest = dose % unit;

  return (gint64) (whole + (2 * rest > unit)) * step;
}

static gboolean
sum_fits (const Case *c, gint64 nl)
{
  SwWide counts = (SwWide) (nl + c->given_nl);

  return counts <= (SwWide) c->figures->most_ml * 1000000
         && counts * 1000 <= (SwWide) c->figures->hundredths_per_kg * 10000 * c->grams;
}

static void
check_drawn (const Case *c, const SwDoseResult *result, const SwWide *doses)
{
  gint64 drawn = 0, nearest = 0, stepped = 0;

  for (guint i = 0; i < c->n; i++)
    {
      const SwTumourDose *tumour = tumour_at (result, i);
      gint64 down = nearest_again (doses[i]) - tumour->drawn_nl;

      ck_assert_msg (down == 0 || down == step_again (doses[i]), "tumour %u steps down by %d nL", i, (int) down);
      /* Only what was rounded up steps down. */
      ck_assert (down == 0 || (SwWide) nearest_again (doses[i]) * (one () / 1000000) > doses[i]);
      ck_assert_int_ge (tumour->drawn_nl, 100000);
      ck_assert_int_ge (tumour->syringe_nl, tumour->drawn_nl);
      drawn += tumour->drawn_nl;
      nearest += nearest_again (doses[i]);
      stepped += down;
    }
  ck_assert_int_eq (result->total_nl, drawn);
  ck_assert (sum_fits (c, drawn));
  ck_assert (stepped == 0 || !sum_fits (c, nearest));
  ck_assert_int_eq (result->vials, (drawn + 1999999) / 2000000);
  ck_assert_int_eq (result->left_nl, (gint64) result->vials * 2000000 - drawn);
}

static guint
count_code (const SwDoseResult *result, SwFindingCode code)
{
  guint count = 0;

  for (guint i = 0; i < result->refusals->len; i++)
    count += ((const SwFinding *) result->refusals->pdata[i])->code == code;
  return count;
}

static void
check_against_second_computation (const Case *c, const SwDoseResult *result)
{
  SwWide doses[MOST], sum = (SwWide) c->given_nl * (one () / 1000000);
  guint too_large = 0, over_weight, over_treatment;

  for (guint i = 0; i < c->n; i++)
    {
      SwWide raw = raw_dose_again (&c->tumours[i]);

      doses[i] = MAX (raw, one () / 10);
      assert_same (tumour_at (result, i)->volume_cm3, 2 * raw, "volume");
      assert_same (tumour_at (result, i)->raw_ml, raw, "raw dose");
      assert_same (tumour_at (result, i)->dose_ml, doses[i], "dose");
      too_large += 2 * raw > c->figures->largest_cm3 * one ();
      sum += doses[i];
    }
  over_treatment = sum > c->figures->most_ml * one ();
  over_weight = sum * 100 * 1000 > one () * c->figures->hundredths_per_kg * c->grams;
  ck_assert_uint_eq (count_code (result, SW_FINDING_VOLUME_LIMIT), too_large);
  ck_assert_uint_eq (count_code (result, SW_FINDING_TREATMENT_LIMIT), over_treatment);
  ck_assert_uint_eq (count_code (result, SW_FINDING_WEIGHT_LIMIT), over_weight);
  ck_assert_uint_eq (result->refusals->len, too_large + over_weight + over_treatment);
  ck_assert_int_eq (result->refused, result->refusals->len > 0);
  if (!result->refused)
    check_drawn (c, result, doses);
}

static void
check_heavier (const Case *c, const SwDoseResult *result)
{
  Case heavier = *c;
  g_autoptr (SwDoseResult) again = NULL;

  if (result->refused)
    return;
  for (guint i = 0; i < c->n; i++)
    heavier.tumours[i].readings = heavier.readings[i];
  heavier.grams = MIN (c->grams + g_rand_int_range (rand_, 1, 20000), 120000);
  again = compute (&heavier);
  ck_assert_msg (!again->refused, "refused at %d g, not at %d g", (int) heavier.grams, (int) c->grams);
}

static void
swap_axes (gint64 *axis)
{
  int a = g_rand_int_range (rand_, 0, SW_N_AXES), b = g_rand_int_range (rand_, 0, SW_N_AXES);
  gint64 kept = axis[a];

  axis[a] = axis[b];
  axis[b] = kept;
}

/* The same treatment typed in another order: tumours (each keeps its letter), readings, and axes within a reading. */
static void
shuffle (const Case *c, Case *other, guint place[MOST])
{
  *other = *c;
  for (guint i = 0; i < c->n; i++)
    place[i] = i;
  for (guint i = c->n; i > 1; i--)
    {
      guint k = (guint) g_rand_int_range (rand_, 0, (gint32) i), kept = place[k];

      place[k] = place[i - 1];
      place[i - 1] = kept;
    }
  for (guint i = 0; i < c->n; i++)
    {
      guint n = c->tumours[place[i]].n_readings, turn = (guint) g_rand_int_range (rand_, 0, (gint32) n);

      other->tumours[i] = c->tumours[place[i]];
      other->tumours[i].readings = other->readings[i];
      for (guint k = 0; k < n; k++)
        {
          other->readings[i][k] = c->readings[place[i]][(k + turn) % n];
          swap_axes (other->readings[i][k].axis);
        }
    }
}

static void
check_order (const Case *c, const SwDoseResult *result)
{
  guint place[MOST];
  g_autoptr (SwDoseResult) again = NULL;
  Case other;

  shuffle (c, &other, place);
  again = compute (&other);
  for (guint i = 0; i < c->n; i++)
    {
      const SwTumourDose *a = tumour_at (again, i), *b = tumour_at (result, place[i]);

      ck_assert_int_eq (a->letter, b->letter);
      ck_assert (a->dose_ml.num == b->dose_ml.num && a->dose_ml.den == b->dose_ml.den);
      ck_assert_int_eq (a->drawn_nl, b->drawn_nl);
    }
  ck_assert_uint_eq (again->refusals->len, result->refusals->len);
  for (guint i = 0; i < again->refusals->len; i++)
    {
      g_autofree char *a = sw_finding_sentence (again->refusals->pdata[i]);
      g_autofree char *b = sw_finding_sentence (result->refusals->pdata[i]);

      ck_assert_str_eq (a, b);
    }
}

START_TEST (test_random_treatments)
{
  guint refused = 0, stepped = 0;

  for (guint n = 0; n < cases; n++)
    {
      g_autoptr (SwDoseResult) result = NULL;
      Case c = { 0 };

      random_case (&c);
      result = compute (&c);
      check_against_second_computation (&c, result);
      check_heavier (&c, result);
      check_order (&c, result);
      refused += result->refused;
      for (guint i = 0; i < c.n && !result->refused; i++)
        stepped += tumour_at (result, i)->drawn_nl < nearest_again (MAX (raw_dose_again (&c.tumours[i]), one () / 10));
    }
  g_print ("# %u of %u refused, %u steps down\n", refused, cases, stepped);
  /* A run in which nothing is refused, or nothing steps down, tests nothing. */
  ck_assert_uint_gt (refused, cases / 10);
  ck_assert_uint_lt (refused, cases - cases / 10);
  ck_assert_uint_gt (stepped, cases / 1000);
}
END_TEST

/* An edge of tiers is refused exactly there and nowhere else. Source: tests/documents/half-product-tiers.xml. */
START_TEST (test_random_tier_edges)
{
  g_autoptr (SwProtocol) tiers = shelf_protocol ("tests/documents", "half-product-tiers.xml");

  for (guint n = 0; n < cases / 10; n++)
    {
      gint64 length = g_rand_int_range (rand_, 50, 3000), width = g_rand_int_range (rand_, 50, 3000);
      gint64 box = G_GINT64_CONSTANT (1000000000),
             height = CLAMP (box / (length * width) + g_rand_int_range (rand_, 0, 2), 50, 30000);
      SwAxes axes = { { length, width, height } };
      SwDoseTumour tumour = { 0, 0, &axes, 1 };
      SwDoseInput input = { .protocol = tiers, .weight_g = 20000, .tumours = &tumour, .n_tumours = 1,
                            .free_day = SW_NO_DAY, .today = SW_NO_DAY };
      g_autoptr (SwDoseResult) result = sw_dose_compute (&input, NULL);
      gint64 product = length * width * height;
      /* mL x 10^9: half the product, times 1 under 0.5 cm3, 1/2 up to 1 cm3 (included), else 1/4 */
      gint64 quarters = product < box ? 4 : product <= 2 * box ? 2 : 1;
      SwRatio ml = sw_ratio (product * quarters, 8 * box);

      ck_assert_uint_eq (count_code (result, SW_FINDING_TIER_EDGE), product == box);
      ck_assert_int_eq (tumour_at (result, 0)->has_dose, product != box);
      if (product != box)
        ck_assert (tumour_at (result, 0)->dose_ml.num == ml.num && tumour_at (result, 0)->dose_ml.den == ml.den);
    }
}
END_TEST

static void
set_up (void)
{
  books = shelf_shipped ();
}

static void
tear_down (void)
{
  sw_books_unref (books);
}

int
main (void)
{
  Suite *suite = suite_create ("dose-random");
  TCase *tests = tcase_create ("dose-random");
  const char *seed_text = g_getenv ("SW_TEST_SEED");
  guint32 seed = seed_text ? (guint32) g_ascii_strtoull (seed_text, NULL, 10) : g_random_int ();
  SRunner *runner;
  int failed;

  cases = g_getenv ("SW_TEST_LONG") ? 10 * CASES : CASES;
  if (g_getenv ("SW_TEST_CASES"))
    cases = (guint) atoi (g_getenv ("SW_TEST_CASES"));
  rand_ = g_rand_new_with_seed (seed);
  g_print ("# seed %u\n", seed);
  tcase_set_timeout (tests, 900);
  tcase_add_checked_fixture (tests, set_up, tear_down);
  tcase_add_test (tests, test_random_treatments);
  tcase_add_test (tests, test_random_tier_edges);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  g_rand_free (rand_);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
