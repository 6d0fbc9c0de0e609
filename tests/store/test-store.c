/* test-store.c: a record is made, closed, opened; acts go in and come out; what is refused
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-error.h"

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

static void
reopen (SwStoreMode mode)
{
  g_autoptr (GError) error = NULL;

  sw_store_close (store);
  store = sw_store_open (folder, mode, &error);
  ck_assert_msg (store != NULL, "%s", error ? error->message : "");
}

START_TEST (founding_makes_one_person_and_the_zone)
{
  g_autoptr (SwPractice) practice = NULL;

  reopen (SW_STORE_READ);
  practice = sw_store_load_practice (store, NULL);
  ck_assert_ptr_nonnull (practice);
  ck_assert (practice->practice_only && sw_store_is_practice_only (store));
  ck_assert_str_eq (sw_practice_person_name (practice, 1), "Ines");
  ck_assert_int_eq (sw_practice_roles (practice, 1), SW_ALL_ROLES);
  ck_assert_str_eq (sw_practice_zone (practice), "Europe/Vienna");
  ck_assert_uint_eq (strlen (sw_store_id (store)), 32);
}
END_TEST

START_TEST (founding_happens_once)
{
  g_autoptr (GError) error = NULL;

  ck_assert_int_eq (fixture_act (store, SW_ACT_FOUND_RECORD, 1, NULL, &error), 0);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_ROLE));
}
END_TEST

static void
assert_same_rows (SwFactKind kind, gpointer written, gpointer read)
{
  g_autoptr (GString) before = g_string_new (NULL);
  g_autoptr (GString) after = g_string_new (NULL);

  sw_fact_append_payload (written, before);
  sw_fact_append_payload (read, after);
  ck_assert_msg (g_string_equal (before, after), "%s: %s came back as %s", sw_fact_type (kind)->table, before->str,
                 after->str);
}

static gpointer
find_loaded (const SwPractice *practice, const SwDossier *dossier, SwFact *fact)
{
  gpointer found = sw_facts_by_id (&practice->facts, fact->kind, fact->id);

  return found ? found : sw_facts_by_id (&dossier->facts, fact->kind, fact->id);
}

/* Every column of every table, with values the model takes; written, then read by a second connection. */
START_TEST (every_kind_of_fact_comes_back)
{
  guint32 seed = g_random_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int rounds = g_getenv ("SW_TEST_LONG") ? 200 : 20;

  g_print ("# seed %u\n", seed);
  fixture_fill (store, rand);
  for (int round = 0; round < rounds; round++)
    for (int kind = 0; kind < SW_N_FACTS; kind++)
      {
        const SwFactType *type = sw_fact_type ((SwFactKind) kind);
        g_autoptr (GPtrArray) facts
            = g_ptr_array_ref (fixture_facts (fixture_random_fact ((SwFactKind) kind, rand), NULL));
        g_autoptr (GError) error = NULL;
        g_autoptr (SwPractice) practice = NULL;
        g_autoptr (SwDossier) dossier = NULL;
        gpointer found;

        if (fixture_act (store, SW_ACT_KEEP_RECORD, 1, facts, &error) == 0)
          {
            /* The same subject came twice: the only way a possible fact is refused. */
            ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_CONFLICT), "%s: %s", type->table, error->message);
            continue;
          }
        practice = sw_store_load_practice (store, NULL);
        dossier = sw_store_load_dossier (
            store, type->scope == SW_SCOPE_PATIENT ? ((SwFact *) facts->pdata[0])->patient : 1, NULL);
        found = find_loaded (practice, dossier, facts->pdata[0]);
        if (type->scope != SW_SCOPE_CLIENT)
          {
            ck_assert_ptr_nonnull (found);
            assert_same_rows ((SwFactKind) kind, facts->pdata[0], found);
          }
      }
  /* What was written under client scope is compared here, by the check, as all else is once more. */
  fixture_assert_sound (store);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("store");
  TCase *tcase = tcase_create ("store");
  SRunner *runner = srunner_create (suite);
  int failed;

  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, founding_makes_one_person_and_the_zone);
  tcase_add_test (tcase, founding_happens_once);
  tcase_add_test (tcase, every_kind_of_fact_comes_back);
  suite_add_tcase (suite, tcase);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
