/* test-outcomes-record.c: random dogs treated through the desk, and the outcomes counted by what the script decided
 *
 * The expected numbers are kept while the script is written, apart from everything that reads the record.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-demo.h"
#include "sw-outcomes.h"
#include "sw-store.h"

#include <math.h>
#include <string.h>

#define TODAY 20783
#define FEW_DOGS 30
#define MANY_DOGS 150
#define TREATED 400 /* days ago, the first of them */

typedef struct
{
  gint64 dogs, scored, complete, low_scored, low_complete, came_back, followed, wounds, late, hundredths_ml;
} Expected;

static GRand *rand_of_test;

static int
pick (int least, int most)
{
  return g_rand_int_range (rand_of_test, least, most + 1);
}

/* The practice, its people and their usual answers, as the shipped script has them. */
static void
write_head (GString *script)
{
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", "demo", "practice.txt", NULL);
  g_autofree char *text = NULL;
  const char *end;

  ck_assert (g_file_get_contents (path, &text, NULL, NULL));
  end = strstr (text, "\ndog ");
  ck_assert_ptr_nonnull (end);
  g_string_append_len (script, text, end - text + 1);
}

static void
write_lead_in (GString *script, Expected *expected, int day)
{
  g_string_append_printf (script, "come %d weight=\"24.0 kg\"\ntumour %d region=thorax side=left size=\"14 x 12 x 7 mm\"\n",
                          day - 12, day - 12);
  g_string_append_printf (script, "work-up %d grade=%s\nprepare %d treat=%d\n", day - 12,
                          pick (0, 1) ? "cytology-low" : "patnaik-2", day - 6, day);
  if (pick (0, 2) == 0)
    {
      expected->late++;
      g_string_append_printf (script,
                              "dose %d 12:30 was=late due=08:00 given=10:30 substance=prednisolone told-by=phone\n"
                              "tell %d\ntold %d to=%d\n",
                              day - 2, day - 2, day - 1, day);
    }
  else
    g_string_append_printf (script, "told %d to=%d\n", day - 2, day);
}

/* Twice the same reading, L x 10 x 8 mm: half of that in cm3, and half a mL of drug for each, is 0.02 mL for each mm. */
static void
write_treatment (GString *script, Expected *expected, int day)
{
  int longest = pick (10, 16), width = 10, height = 8;

  expected->hundredths_ml += 2 * longest;
  g_string_append_printf (script, "treat %d weight=\"24.1 kg\" A=\"%dx%dx%d; %dx%dx%d mm\" lot=6F733\n", day, longest, width,
                          height, longest, width, height);
}

static void
write_wound (GString *script, Expected *expected, int day)
{
  expected->wounds++;
  g_string_append_printf (script, "visit %d 18:00 mode=phone A=none pain=2\nvisit %d A=\"9x7\" pain=0\n", day, day + 14);
  g_string_append_printf (script, "visit %d A=%s pain=0\n", day + 28, pick (0, 1) ? "closed" : "\"4x3\"");
}

static void
write_watch (GString *script, Expected *expected, int day)
{
  expected->followed++;
  g_string_append_printf (script, "visit %d A=closed pain=0\nsize %d A=gone\n", day + 56, day + 56);
  if (pick (0, 2) != 0)
    return;
  expected->came_back++;
  g_string_append_printf (script, "recur %d tumour=A sampled=%s distance=\"8 mm\"\n", day + pick (60, 90),
                          pick (0, 1) ? "yes" : "no");
}

static void
write_response (GString *script, Expected *expected, int day, gboolean low)
{
  gboolean gone = pick (0, 3) != 0;

  if (pick (0, 4) == 0)
    return; /* never scored */
  expected->scored++;
  expected->low_scored += low;
  g_string_append_printf (script, "size %d A=%s\nscore %d\n", day + 28, gone ? "gone" : "\"7 x 5 x 3 mm\"", day + 28);
  if (!gone)
    return;
  expected->complete++;
  expected->low_complete += low;
  write_watch (script, expected, day);
}

static void
write_dog (GString *script, Expected *expected, int number)
{
  int day = -pick (100, TREATED);
  gsize before;
  gboolean low;

  g_string_append_printf (script,
                          "\ndog name=Random%d client=\"Client, %d\" phone=\"555 %04d\" breed=boxer sex=male neutered=yes"
                          " born=-2650 protocol=tigilanol-eu\n",
                          number, number, number);
  before = script->len;
  write_lead_in (script, expected, day);
  low = strstr (script->str + before, "cytology-low") != NULL;
  write_treatment (script, expected, day);
  write_wound (script, expected, day);
  write_response (script, expected, day, low);
  expected->dogs++;
}

static char *
make_record (Expected *expected)
{
  g_autoptr (GString) script = g_string_new (NULL);
  g_autofree char *parent = g_dir_make_tmp ("siteward-random-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (parent, "script.txt", NULL);
  g_autofree char *data = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", NULL);
  SwDemoOptions options = { .seed = 1, .today = TODAY, .script = file };
  char *record = g_build_filename (parent, "record", NULL);
  g_autoptr (GError) error = NULL;

  g_setenv ("SW_DATA_DIR", data, TRUE);
  write_head (script);
  for (int i = 0; i < (g_getenv ("SW_TEST_LONG") ? MANY_DOGS : FEW_DOGS); i++)
    write_dog (script, expected, i);
  ck_assert (g_file_set_contents (file, script->str, -1, NULL));
  ck_assert_msg (sw_demo_make (record, &options, &error), "%s", error ? error->message : "");
  return record;
}

static const SwOutcomeFigure *
figure_of (const SwOutcomes *outcomes, const char *section_code, const char *group_code, const char *code)
{
  for (guint s = 0; s < outcomes->sections->len; s++)
    {
      const SwOutcomeSection *section = outcomes->sections->pdata[s];

      for (guint g = 0; g_str_equal (section->code, section_code) && g < section->groups->len; g++)
        {
          const SwOutcomeGroup *group = section->groups->pdata[g];

          for (guint f = 0; g_str_equal (group->code, group_code) && f < group->figures->len; f++)
            if (g_str_equal (((const SwOutcomeFigure *) group->figures->pdata[f])->code, code))
              return group->figures->pdata[f];
        }
    }
  return NULL;
}

static void
assert_share (const SwOutcomes *outcomes, const char *section, const char *group, const char *code, gint64 x, gint64 n)
{
  const SwOutcomeFigure *figure = figure_of (outcomes, section, group, code);

  if (figure == NULL && n == 0)
    return; /* no dog fell into that part */
  ck_assert_msg (figure != NULL && figure->x == x && figure->n == n, "%s %s %s is not %d of %d", section, group, code,
                 (int) x, (int) n);
}

START_TEST (outcomes_count_what_happened)
{
  guint seed = g_random_int ();
  Expected expected = { 0 };
  char *record;
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwPractice) practice = NULL;
  g_autoptr (GArray) rows = NULL;
  g_autoptr (SwOutcomeQuery) query = sw_outcome_query_new ();
  g_autoptr (SwOutcomes) outcomes = NULL;

  g_print ("# seed %u\n", seed);
  rand_of_test = g_rand_new_with_seed (seed);
  record = make_record (&expected);
  fixture_assert_sound (record);
  store = sw_store_open (record, SW_STORE_READ, NULL);
  practice = sw_store_load_practice (store, NULL);
  rows = sw_store_load_treated (store, 0, NULL);
  ck_assert_uint_eq (rows->len, expected.dogs);
  query->split = SW_SPLIT_GRADE;
  outcomes = sw_outcomes_compute (rows, practice, query, TODAY, NULL, NULL, NULL, NULL);
  assert_share (outcomes, "complete", "all", "of-scored", expected.complete, expected.scored);
  assert_share (outcomes, "complete", "all", "of-all", expected.complete, expected.dogs);
  assert_share (outcomes, "complete", "cytology-low", "of-scored", expected.low_complete, expected.low_scored);
  assert_share (outcomes, "complete-dog", "all", "of-scored", expected.complete, expected.scored);
  assert_share (outcomes, "recurrence", "all", "came-back", expected.came_back, expected.followed);
  assert_share (outcomes, "lead-in", "all", "doses-on-time", 5 * expected.dogs - expected.late, 5 * expected.dogs);
  ck_assert_int_eq (figure_of (outcomes, "healing", "all", "closed-28")->n, expected.wounds);
  ck_assert (fabs (figure_of (outcomes, "drug", "all", "given")->value - (double) expected.hundredths_ml / 100) < 1e-9);
  g_rand_free (rand_of_test);
  g_clear_pointer (&store, sw_store_close);
  fixture_remove (record);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("outcomes-record");
  TCase *tcase = tcase_create ("outcomes-record");

  suite_add_tcase (suite, tcase);
  tcase_set_timeout (tcase, 600);
  tcase_add_test (tcase, outcomes_count_what_happened);
  return fixture_run (suite);
}
