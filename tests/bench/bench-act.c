/* bench-act.c: one durable act through the desk beside a bare SQLite commit on the same disk, and a dossier read
 *
 * Both write alternately, so that whatever else the disk does hits both. Prints medians and their ratio (target 2). The
 * folder is made in the build directory: a temporary one may lie in memory.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-common.h"

#include "sw-desk.h"

#include <sqlite3.h>
#include <stdlib.h>

#define ROUNDS 500
#define PERSON 1

static void
perform (SwDesk *desk, SwRequest *request)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwReply) reply = sw_desk_perform (desk, request, &error);

  if (reply == NULL || !reply->done)
    g_error ("%s", reply == NULL ? error->message : "refused");
  sw_request_free (request);
}

static void
register_dog (SwDesk *desk)
{
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_PATIENT, PERSON, 0);

  sw_request_add (request, sw_new (SW_FACT_PATIENT, SwPatient));
  perform (desk, request);
}

static void
weigh (SwDesk *desk)
{
  SwRequest *request = sw_request_new (SW_ACT_WEIGH, PERSON, 1);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->grams = 24600;
  weight->day = BENCH_TODAY;
  weight->typed = g_strdup ("24.6");
  sw_request_add (request, weight);
  perform (desk, request);
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
measure_acts (SwDesk *desk, sqlite3_stmt *bare)
{
  double acts[ROUNDS], commits[ROUNDS];
  double act_ms, commit_ms;

  for (int i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time (), between;

      weigh (desk);
      between = g_get_monotonic_time ();
      sqlite3_step (bare);
      sqlite3_reset (bare);
      commits[i] = bench_ms (between);
      acts[i] = (double) (between - start) / 1000;
    }
  act_ms = bench_median (acts, ROUNDS);
  commit_ms = bench_median (commits, ROUNDS);
  g_print ("# durable act %.3f ms, bare commit %.3f ms\n", act_ms, commit_ms);
  bench_report ("durable act beside a bare commit", act_ms / commit_ms, "x", 2);
}

/* The dog has as many rows as acts were measured: more than a long course. */
static void
measure_dossier (SwDesk *desk)
{
  double times[ROUNDS];

  for (int i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time ();

      sw_dossier_free (sw_desk_load_dossier (desk, 1, NULL));
      times[i] = bench_ms (start);
    }
  bench_report ("dossier of 500 rows", bench_median (times, ROUNDS), "ms", 1);
}

int
main (void)
{
  g_autofree char *template = g_build_filename (bench_folder (), "bench-act-XXXXXX", NULL);
  const char *folder = g_mkdtemp (template);
  g_autofree char *record = g_build_filename (folder, "record", NULL);
  SwFounding founding = { .first_name = "Ines", .zone = "UTC", .practice_only = TRUE };
  g_autoptr (SwClock) clock = sw_clock_new_at (BENCH_NOW);
  SwDesk *desk = sw_desk_found (record, &founding, clock, NULL);
  sqlite3 *db = NULL;
  sqlite3_stmt *bare = prepare_bare (folder, &db);
  const char *const remove[] = { "rm", "-r", folder, NULL };

  register_dog (desk);
  measure_acts (desk, bare);
  measure_dossier (desk);
  sw_desk_free (desk);
  sqlite3_finalize (bare);
  sqlite3_close (db);
  return g_spawn_sync (NULL, (char **) remove, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL) ? 0 : 1;
}
