/* test-shelf.c: clinical commands on a record: the adopted document and the practice's own settings decide
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#define FOUNDER 1
#define NOON G_GINT64_CONSTANT (1772452800000000) /* 2026-03-02 12:00 UTC */

static char *
make_record (void)
{
  g_autofree char *parent = g_dir_make_tmp ("siteward-XXXXXX", NULL);
  char *dir = g_build_filename (parent, "record", NULL);
  const SwStoreSetup setup = { .person = "Ada", .zone = "UTC", .practice_only = TRUE, .seed = "1", .at_us = NOON };
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = sw_store_create (dir, &setup, &error);

  ck_assert_msg (store != NULL, "%s", error ? error->message : "");
  return dir;
}

static void
append (const char *dir, SwActKind kind, GPtrArray *facts)
{
  const SwActHead head = { .kind = kind, .person = FOUNDER, .at_us = NOON };
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = sw_store_open (dir, SW_STORE_WRITE, &error);

  ck_assert_msg (store != NULL && sw_store_begin (store, &error) && sw_store_append (store, &head, facts, NULL, &error)
                   && sw_store_commit (store, &error),
                 "%s", error ? error->message : "");
}

/* The shipped document with one figure of the practice's own. */
static void
adopt_with (const char *dir, const char *from, const char *to)
{
  g_autoptr (GPtrArray) facts = g_ptr_array_new_with_free_func (sw_fact_free);
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", "protocols", "tigilanol-eu.xml", NULL);
  g_autofree char *text = NULL;
  SwDocument *document = sw_new (SW_FACT_DOCUMENT, SwDocument);
  SwAdoption *adoption = sw_new (SW_FACT_ADOPTION, SwAdoption);
  g_autoptr (GString) changed = NULL;

  ck_assert (g_file_get_contents (path, &text, NULL, NULL));
  changed = g_string_new (text);
  ck_assert_uint_eq (g_string_replace (changed, from, to, 0), 1);
  document->doc_id = g_strdup ("tigilanol-eu");
  document->revision = g_strdup ("1");
  document->bytes = g_bytes_new (changed->str, changed->len);
  document->digest = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, document->bytes);
  adoption->document = -1;
  adoption->doc_id = g_strdup ("tigilanol-eu");
  adoption->ticks = g_strdup ("");
  g_ptr_array_add (facts, document);
  g_ptr_array_add (facts, adoption);
  append (dir, SW_ACT_ADOPT_DOCUMENT, facts);
}

/* Exit status and what stands on stdout. */
static int
run (const char *const *arguments, char **out)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  int status = 0;

  g_ptr_array_add (argv, (gpointer) g_getenv ("SW_SITEWARDCTL"));
  for (guint i = 0; arguments[i] != NULL; i++)
    g_ptr_array_add (argv, (gpointer) arguments[i]);
  g_ptr_array_add (argv, NULL);
  ck_assert_msg (g_spawn_sync (NULL, (char **) argv->pdata, NULL, G_SPAWN_DEFAULT, NULL, NULL, out, NULL, &status,
                               &error),
                 "%s", error ? error->message : "");
  ck_assert (WIFEXITED (status));
  return WEXITSTATUS (status);
}

static int
dose_in (const char *dir, char **out)
{
  const char *arguments[] = { "dose",     "--json", "--record", dir,           "--protocol", "tigilanol-eu",
                              "--weight", "40 kg",  "--tumour", "40x20x20 mm", NULL };

  return run (arguments, out);
}

static void
assert_holds (const char *out, const char *part)
{
  ck_assert_msg (strstr (out, part) != NULL, "no %s in %s", part, out);
}

START_TEST (test_record_decides)
{
  g_autofree char *dir = make_record (), *none = NULL, *adopted = NULL, *absent = NULL;

  ck_assert_int_eq (dose_in (dir, &none), 2);
  assert_holds (none, "\"field\":\"protocol\"");
  assert_holds (none, "no vet adopted one yet");
  /* The shipped document allows this tumour, exactly; the practice's own is stricter. */
  adopt_with (dir, "name=\"largest-tumour\" value=\"8 cm3\"", "name=\"largest-tumour\" value=\"7.999 cm3\"");
  ck_assert_int_eq (dose_in (dir, &adopted), 3);
  assert_holds (adopted, "\"adopted\":true,\"note\":null");
  assert_holds (adopted, "\"limit\":\"volume\",\"tumour\":1,\"value\":8,\"most\":7.999");
  ck_assert_int_eq (dose_in ("/no/such/record", &absent), 4);
  assert_holds (absent, "\"code\":\"record\"");
  assert_holds (absent, "\"field\":\"record\"");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("shelf");
  TCase *tests = tcase_create ("shelf");
  SRunner *runner;

  tcase_add_test (tests, test_record_decides);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
