/* bench-list.c: searching the patient list of a large practice, from the keystroke to items-changed
 *
 * Makes a record of SW_BENCH_PATIENTS (200,000) invented dogs in the folder of the build, types names letter by
 * letter, and reports each letter: milliseconds and how many patients match. Target: 16 ms.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-common.h"

#include "sw-patient-list.h"

#include <stdlib.h>
#include <string.h>

#define TIMES 5     /* each letter is typed so often; the median counts */
#define TARGET_MS 16.0

static void
keep_result (GObject *source, GAsyncResult *result, gpointer data)
{
  *(GAsyncResult **) data = g_object_ref (result);
}

static SwRecord *
open_record (const char *folder, SwClock *clock)
{
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  SwRecord *record;

  sw_record_open_async (folder, NULL, clock, NULL, keep_result, &result);
  while (result == NULL)
    g_main_context_iteration (NULL, TRUE);
  record = sw_record_open_finish (result, &error);
  if (record == NULL)
    g_error ("%s", error->message);
  return record;
}

static void
wait_loaded (SwPatientList *list)
{
  while (sw_patient_list_get_loading (list))
    g_main_context_iteration (NULL, TRUE);
}

static double
search_ms (SwPatientList *list, const char *text)
{
  gint64 start = g_get_monotonic_time ();

  sw_patient_list_set_search (list, text);
  wait_loaded (list);
  return bench_ms (start);
}

/* From the letters before it, as somebody types. */
static double
median_ms (SwPatientList *list, const char *before, const char *text)
{
  double ms[TIMES];

  for (guint i = 0; i < TIMES; i++)
    {
      search_ms (list, before);
      ms[i] = search_ms (list, text);
    }
  return bench_median (ms, TIMES);
}

static double
type_name (SwPatientList *list, const char *name)
{
  double worst = 0;

  for (guint n = 1; n <= strlen (name); n++)
    {
      g_autofree char *before = g_strndup (name, n - 1), *text = g_strndup (name, n);
      double ms = median_ms (list, before, text);

      search_ms (list, text);
      g_print ("# %-12s %7.2f ms %7u patients\n", text, ms, g_list_model_get_n_items (G_LIST_MODEL (list)));
      worst = MAX (worst, ms);
    }
  return worst;
}

int
main (void)
{
  static const char *const names[] = { "marlo", "aldford", "tillo wex", "p-000123", "zz" };
  const char *wanted = g_getenv ("SW_BENCH_PATIENTS");
  g_autofree char *folder = bench_record (wanted ? (guint) atoi (wanted) : 200000);
  g_autoptr (SwClock) clock = sw_clock_new_at (BENCH_NOW);
  g_autoptr (SwRecord) record = open_record (folder, clock);
  g_autoptr (SwPatientList) list = sw_patient_list_new (record);
  double worst = 0;

  wait_loaded (list);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    worst = MAX (worst, type_name (list, names[i]));
  g_print ("# worst letter %.2f ms, target %.0f ms\n", worst, TARGET_MS);
  return worst <= TARGET_MS ? EXIT_SUCCESS : EXIT_FAILURE;
}
