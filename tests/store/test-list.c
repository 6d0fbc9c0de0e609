/* test-list.c: the id spine, rows of lists, the search for clients, summaries
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

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

/* "3 1" for dogs 3 and 1 in this order. */
static char *
spine_of (SwStore *from, const char *search, SwShow show, SwDay today)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_store_spine (from, &(SwSpineQuery) { search, show, today }, &error);
  GString *text = g_string_new (NULL);

  ck_assert_msg (ids != NULL, "%s", error ? error->message : "");
  for (guint i = 0; i < ids->len; i++)
    g_string_append_printf (text, "%s%" G_GINT64_FORMAT, i > 0 ? " " : "", g_array_index (ids, gint64, i));
  return g_string_free (text, FALSE);
}

static void
assert_spine (const char *search, const char *wanted)
{
  g_autofree char *found = spine_of (store, search, SW_SHOW_ALL, 0);

  ck_assert_msg (g_str_equal (found, wanted), "“%s” finds %s, not %s", search ? search : "(all)", found, wanted);
}

START_TEST (beginnings_of_words_find_dogs)
{
  static const struct { const char *search, *wanted; } table[] = {
    { NULL, "3 1 2" },          { "", "3 1 2" },         { "  ", "3 1 2" },
    { "marlo", "1 2" },         { "MARL", "1 2" },       { "arlo", "" },
    { "zo", "3" },              { "zoe", "3" },          { "zoë", "3" },
    { "smith", "1" },           { "jones", "1" },        { "smith-j", "1" },
    { "mar smi", "1" },         { "smi mar", "1" },      { "marlo zoe", "" },
    { "o'b", "2" },             { "brien", "2" },        { "p-000002", "2" },
    { "P-000002", "2" },        { "000003", "3" },       { "3", "3" },
    { "p-", "3 1 2" },          { "p", "" },             { "al", "3" },
    { "%", "" },                { "_", "" },             { "*", "" },
    { "\"", "" },               { "\xff", "" },          { "marlo marlo", "1 2" },
  };

  fixture_patient (store, "Marlo", "Ada Smith-Jones");
  fixture_patient (store, "Marlo II", "Cian O'Brien");
  fixture_patient (store, "Älfi Zoë", "Dora Alder");
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    assert_spine (table[i].search, table[i].wanted);
}
END_TEST

static gpointer
current (gint64 patient, SwFactKind kind)
{
  g_autoptr (SwDossier) dossier = sw_store_load_dossier (store, patient, NULL);

  return sw_fact_copy (sw_facts_last (&dossier->facts, kind));
}

static void
rename_to (gint64 patient, SwFactKind kind, const char *name)
{
  gpointer before = current (patient, kind), after = sw_fact_correction (before);
  SwActKind act = kind == SW_FACT_CLIENT_DETAILS ? SW_ACT_REGISTER_CLIENT : SW_ACT_REGISTER_PATIENT;
  char **slot = kind == SW_FACT_CLIENT_DETAILS ? &((SwClientDetails *)after)->name : &((SwPatientDetails *)after)->name;

  g_free (*slot);
  *slot = g_strdup (name);
  ck_assert (fixture_act (store, act, 1, fixture_facts (after, NULL), NULL) != 0);
  sw_fact_free (before);
}

START_TEST (corrected_names_are_found_and_old_ones_are_not)
{
  g_autoptr (SwStore) reader = sw_store_open (folder, SW_STORE_READ, NULL);
  g_autofree char *before = NULL, *after = NULL;

  fixture_patient (store, "Marlo", "Aldane");
  fixture_patient (store, "Quill", "Bisset");
  before = spine_of (reader, NULL, SW_SHOW_ALL, 0);
  ck_assert_str_eq (before, "1 2");
  rename_to (1, SW_FACT_PATIENT_DETAILS, "Tansy");
  rename_to (1, SW_FACT_CLIENT_DETAILS, "Corrie");
  assert_spine ("marlo", "");
  assert_spine ("aldane", "");
  assert_spine ("tansy corrie", "1");
  /* The other connection keeps its order until an act names a dog. */
  after = spine_of (reader, NULL, SW_SHOW_ALL, 0);
  ck_assert_str_eq (after, "2 1");
  fixture_assert_sound (store);
}
END_TEST

/* Words by hand: a dog matches if every term begins one of its words. */
static gboolean
matches (const char *text, const char *search)
{
  g_auto (GStrv) terms = g_strsplit (search, " ", -1);
  g_auto (GStrv) words = g_strsplit (text, " ", -1);

  for (guint i = 0; terms[i] != NULL; i++)
    {
      gboolean found = FALSE;

      for (guint j = 0; words[j] != NULL; j++)
        found = found || g_str_has_prefix (words[j], terms[i]);
      if (!found)
        return FALSE;
    }
  return TRUE;
}

START_TEST (search_agrees_with_looking_at_every_name)
{
  static const char *const parts[] = { "ma", "mar", "lo", "lot", "b", "ba", "bal", "o" };
  guint32 seed = g_random_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  g_print ("# seed %u\n", seed);
  for (int i = 1; i <= 60; i++)
    {
      g_autofree char *dog
          = g_strconcat (parts[g_rand_int_range (rand, 0, 8)], parts[g_rand_int_range (rand, 0, 8)], NULL);
      g_autofree char *client
          = g_strdup_printf ("%s %s%s", parts[g_rand_int_range (rand, 0, 8)], parts[g_rand_int_range (rand, 0, 8)],
                             parts[g_rand_int_range (rand, 0, 8)]);

      fixture_patient (store, dog, client);
      g_ptr_array_add (texts, g_strdup_printf ("%s %s %06d %d", dog, client, i, i));
    }
  for (int round = 0; round < 300; round++)
    {
      g_autofree char *search = g_strdup_printf ("%s %s", parts[g_rand_int_range (rand, 0, 8)],
                                                 g_rand_boolean (rand) ? parts[g_rand_int_range (rand, 0, 8)] : "1");
      g_autoptr (GArray) ids = sw_store_spine (store, &(SwSpineQuery) { search, SW_SHOW_ALL, 0 }, NULL);
      guint expected = 0;

      for (guint i = 0; i < texts->len; i++)
        expected += matches (texts->pdata[i], search) ? 1 : 0;
      ck_assert_uint_eq (ids->len, expected);
      for (guint i = 0; i < ids->len; i++)
        ck_assert (matches (texts->pdata[g_array_index (ids, gint64, i) - 1], search));
    }
}
END_TEST

/* --- summaries --- */

static gint64
make_course (gint64 patient, gint64 number)
{
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  g_autoptr (GPtrArray) facts = g_ptr_array_ref (fixture_facts (course, NULL));

  course->fact.patient = patient;
  course->number = number;
  ck_assert (fixture_act (store, SW_ACT_OPEN_COURSE, 1, facts, NULL) != 0);
  return course->fact.id;
}

static void
put (gint64 course, gint64 patient, const char *stage, SwDay due, gboolean open)
{
  SwCourseSummary summary = { course, patient, stage, due, SW_UNKNOWN, open };

  ck_assert (sw_store_begin (store, NULL));
  ck_assert (sw_store_put_summary (store, &summary, NULL));
  ck_assert (sw_store_commit (store, NULL));
}

START_TEST (open_and_due_follow_the_summaries)
{
  g_autofree char *open = NULL, *due = NULL, *nothing = NULL;
  g_autofree char *both = NULL;

  for (int i = 0; i < 4; i++)
    fixture_patient (store, "Marlo", "Aldane");
  put (make_course (1, 1), 1, "lead-in", 20000, TRUE);
  put (make_course (2, 1), 2, "recheck", 20005, TRUE);
  put (make_course (3, 1), 3, "ended", SW_NO_DAY, FALSE);
  put (make_course (1, 2), 1, "work-up", SW_NO_DAY, TRUE);
  open = spine_of (store, NULL, SW_SHOW_OPEN, 20000);
  ck_assert_str_eq (open, "1 2");
  due = spine_of (store, NULL, SW_SHOW_DUE, 20000);
  ck_assert_str_eq (due, "1");
  both = spine_of (store, "marlo 2", SW_SHOW_OPEN, 20000);
  ck_assert_str_eq (both, "2");
  nothing = spine_of (store, NULL, SW_SHOW_DUE, 19999);
  ck_assert_str_eq (nothing, "");
}
END_TEST

START_TEST (a_row_says_the_open_course_else_the_newest)
{
  g_autoptr (GPtrArray) rows = NULL;
  const gint64 ids[] = { 2, 99, 1, 3 };
  const SwListRow *first, *second, *third;

  for (int i = 0; i < 3; i++)
    fixture_patient (store, "Marlo", "Aldane");
  put (make_course (1, 1), 1, "ended", SW_NO_DAY, FALSE);
  put (make_course (1, 2), 1, "recheck", 20005, TRUE);
  put (make_course (1, 3), 1, "ended", SW_NO_DAY, FALSE);
  put (make_course (3, 1), 3, "ended", SW_NO_DAY, FALSE);
  rows = sw_store_list_rows (store, ids, G_N_ELEMENTS (ids), NULL);
  ck_assert_uint_eq (rows->len, 3);
  first = rows->pdata[0];
  second = rows->pdata[1];
  third = rows->pdata[2];
  ck_assert (first->patient == 2 && g_str_equal (first->stage, "") && first->due_day == SW_NO_DAY && !first->open);
  ck_assert (second->patient == 1 && g_str_equal (second->stage, "recheck") && second->due_day == 20005
             && second->open);
  ck_assert (third->patient == 3 && g_str_equal (third->stage, "ended"));
  ck_assert_str_eq (second->name, "Marlo");
  ck_assert_str_eq (second->client, "Aldane");
}
END_TEST

/* --- clients --- */

static void
assert_clients (const char *search, guint most, const char *wanted)
{
  g_autoptr (GPtrArray) clients = sw_store_find_clients (store, search, most, NULL);
  g_autoptr (GString) found = g_string_new (NULL);

  for (guint i = 0; i < clients->len; i++)
    g_string_append_printf (found, "%s;", ((SwClientRow *) clients->pdata[i])->name);
  ck_assert_str_eq (found->str, wanted);
}

START_TEST (clients_are_found_by_name)
{
  fixture_patient (store, "Marlo", "Dora Alder");
  fixture_patient (store, "Quill", "Ada Smith-Jones");
  fixture_patient (store, "Tansy", "Ada Corrie");
  assert_clients (NULL, 10, "Ada Corrie;Ada Smith-Jones;Dora Alder;");
  assert_clients ("ada", 10, "Ada Corrie;Ada Smith-Jones;");
  assert_clients ("ada jo", 10, "Ada Smith-Jones;");
  assert_clients ("a", 2, "Ada Corrie;Ada Smith-Jones;");
  assert_clients ("marlo", 10, "");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("list");
  TCase *tcase = tcase_create ("list");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, beginnings_of_words_find_dogs);
  tcase_add_test (tcase, corrected_names_are_found_and_old_ones_are_not);
  tcase_add_test (tcase, search_agrees_with_looking_at_every_name);
  tcase_add_test (tcase, open_and_due_follow_the_summaries);
  tcase_add_test (tcase, a_row_says_the_open_course_else_the_newest);
  tcase_add_test (tcase, clients_are_found_by_name);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
