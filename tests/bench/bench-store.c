/* bench-store.c: one durable act beside a bare SQLite commit on the same disk, and a dossier read
 *
 * Both write alternately, so that whatever else the disk does hits both. Prints medians and their ratio (target 2). The
 * folder is made in the build directory: a temporary one may lie in memory.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store.h"

#include <sqlite3.h>
#include <stdlib.h>

#define ROUNDS 500

static int
by_value (const void *a, const void *b)
{
  gint64 first = *(const gint64 *) a, second = *(const gint64 *) b;

  return (first > second) - (first < second);
}

static double
median_ms (gint64 *times)
{
  qsort (times, ROUNDS, sizeof *times, by_value);
  return (double) times[ROUNDS / 2] / 1000;
}

static SwActHead
head_of (SwActKind kind)
{
  return (SwActHead) { .kind = kind, .person = 1, .at_us = G_USEC_PER_SEC };
}

static void
act (SwStore *store, SwActKind kind, GPtrArray *facts)
{
  SwActHead head = head_of (kind);
  g_autoptr (GError) error = NULL;

  if (!sw_store_begin (store, &error) || !sw_store_append (store, &head, facts, NULL, &error)
      || !sw_store_commit (store, &error))
    g_error ("%s", error->message);
}

static void
register_dog (SwStore *store)
{
  g_autoptr (GPtrArray) facts = g_ptr_array_new_with_free_func (sw_fact_free);

  g_ptr_array_add (facts, sw_fact_new (SW_FACT_PATIENT));
  act (store, SW_ACT_REGISTER_PATIENT, facts);
}

static void
weigh (SwStore *store)
{
  g_autoptr (GPtrArray) facts = g_ptr_array_new_with_free_func (sw_fact_free);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->fact.patient = 1;
  weight->grams = 24600;
  weight->day = 20587;
  weight->typed = g_strdup ("24.6");
  g_ptr_array_add (facts, weight);
  act (store, SW_ACT_WEIGH, facts);
}

static sqlite3_stmt *
prepare_bare (const char *folder, sqlite3 **db)
{
  g_autofree char *path = g_build_filename (folder, "bare.sqlite", NULL);
  sqlite3_stmt *stmt = NULL;

  if (sqlite3_open (path, db) != SQLITE_OK
      || sqlite3_exec (*db,
                       "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE bare (a INTEGER, b TEXT)",
                       NULL, NULL, NULL)
             != SQLITE_OK
      || sqlite3_prepare_v2 (*db, "INSERT INTO bare VALUES (24600, '24.6')", -1, &stmt, NULL) != SQLITE_OK)
    g_error ("%s", sqlite3_errmsg (*db));
  return stmt;
}

static void
measure_acts (SwStore *store, sqlite3_stmt *bare)
{
  gint64 acts[ROUNDS], commits[ROUNDS];
  double act_ms, commit_ms;

  for (int i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time (), between;

      weigh (store);
      between = g_get_monotonic_time ();
      sqlite3_step (bare);
      sqlite3_reset (bare);
      acts[i] = between - start;
      commits[i] = g_get_monotonic_time () - between;
    }
  act_ms = median_ms (acts);
  commit_ms = median_ms (commits);
  g_print ("durable act %.3f ms, bare commit %.3f ms, ratio %.2f (target 2)\n", act_ms, commit_ms, act_ms / commit_ms);
}

/* The dog has as many rows as acts were measured: more than a long course. */
static void
measure_dossier (SwStore *store)
{
  gint64 times[ROUNDS];

  for (int i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time ();

      sw_dossier_free (sw_store_load_dossier (store, 1, NULL));
      times[i] = g_get_monotonic_time () - start;
    }
  g_print ("dossier of %d rows %.3f ms (target 1)\n", ROUNDS, median_ms (times));
}

int
main (void)
{
  g_autofree char *template = g_build_filename (g_getenv ("SW_BUILD_DIR") ? g_getenv ("SW_BUILD_DIR") : ".",
                                                "bench-store-XXXXXX", NULL);
  const char *folder = g_mkdtemp (template);
  g_autofree char *record = g_build_filename (folder, "record", NULL);
  SwStoreSetup setup = { .person = "Ines", .zone = "UTC", .practice_only = TRUE };
  SwStore *store = sw_store_create (record, &setup, NULL);
  sqlite3 *db = NULL;
  sqlite3_stmt *bare = prepare_bare (folder, &db);
  const char *const remove[] = { "rm", "-r", folder, NULL };

  register_dog (store);
  measure_acts (store, bare);
  measure_dossier (store);
  sw_store_close (store);
  sqlite3_finalize (bare);
  sqlite3_close (db);
  return g_spawn_sync (NULL, (char **) remove, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL) ? 0 : 1;
}
