/* sw-demo-crowd.c: many more dogs, so that lists and searches can be tried at the size of a large practice
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-error.h"

#define BATCH 2000      /* dogs in one transaction */
#define WITH_COURSE 100 /* one dog in so many is in a lead-in */
#define DAYS_BACK 1400  /* they came over so many days */

typedef struct
{
  SwDemo *demo;
  const SwDemoOptions *options;
  GRand *rand;
  guint n;
} Crowd;

static const char *
pick (Crowd *crowd, const char *list)
{
  char **words = g_hash_table_lookup (crowd->demo->words, list);

  return words ? words[g_rand_int_range (crowd->rand, 0, (int) g_strv_length (words))] : "?";
}

static void
set (GHashTable *args, const char *name, char *value)
{
  g_hash_table_insert (args, g_strdup (name), value);
}

/* A dog as a line of the script would describe it. */
static void
invent (Crowd *crowd, GHashTable *args)
{
  set (args, "name", g_strconcat (pick (crowd, "dog-beginnings"), pick (crowd, "dog-endings"), NULL));
  set (args, "client", g_strconcat (pick (crowd, "client-beginnings"), pick (crowd, "client-endings"), NULL));
  set (args, "phone", g_strdup_printf ("555 %04d", g_rand_int_range (crowd->rand, 0, 10000)));
  set (args, "breed", g_strdup (pick (crowd, "breeds")));
  set (args, "sex", g_strdup (g_rand_boolean (crowd->rand) ? "male" : "female"));
  set (args, "neutered", g_strdup (g_rand_boolean (crowd->rand) ? "yes" : "no"));
  set (args, "born", g_strdup_printf ("-%d", g_rand_int_range (crowd->rand, 2000, 5000)));
  set (args, "weight",
       g_strdup_printf ("%d.%d kg", g_rand_int_range (crowd->rand, 9, 45), g_rand_int_range (crowd->rand, 0, 10)));
  set (args, "region", g_strdup (pick (crowd, "regions")));
  set (args, "side", g_strdup (g_rand_boolean (crowd->rand) ? "left" : "right"));
  set (args, "size", g_strdup_printf ("%d x %d x %d mm", g_rand_int_range (crowd->rand, 10, 14),
                                      g_rand_int_range (crowd->rand, 8, 12), g_rand_int_range (crowd->rand, 4, 8)));
  set (args, "protocol", g_strdup ("tigilanol-eu"));
}

static gboolean
perform (Crowd *crowd, SwDemoStep *step, const char *verb, GError **error)
{
  SwDemoPerform function = sw_demo_verb (verb, &step->when.minute);

  sw_clock_set (crowd->demo->clock, step->when);
  return function (crowd->demo, step, error);
}

/* Planned today, treated in the days to come. */
static gboolean
lead_in (Crowd *crowd, SwDemoStep *step, GError **error)
{
  static const char *const verbs[] = { "weigh", "tumour", "work-up", "open", "consent", "sign" };

  set (step->args, "treat", g_strdup_printf ("+%d", g_rand_int_range (crowd->rand, 3, 20)));
  step->when.day = crowd->demo->today;
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (!perform (crowd, step, verbs[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
add_dog (Crowd *crowd, guint number, GError **error)
{
  SwDemoDog dog = { .args = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free) };
  g_autoptr (GHashTable) args = dog.args;
  SwDemoStep step = { .dog = &dog, .args = args };

  step.when.day
      = sw_day_add_days (crowd->demo->today, -1 - (gint64) (DAYS_BACK * (guint64) (crowd->n - number) / crowd->n));
  invent (crowd, args);
  return perform (crowd, &step, "register", error)
         && (number % WITH_COURSE != 0 || lead_in (crowd, &step, error));
}

static gboolean
add_batch (Crowd *crowd, guint first, guint last, GError **error)
{
  gboolean done = TRUE;

  if (!sw_desk_begin_batch (crowd->demo->desk, error))
    return FALSE;
  for (guint i = first; done && i < last; i++)
    done = add_dog (crowd, i, error);
  return sw_desk_end_batch (crowd->demo->desk, done, done ? error : NULL) && done;
}

gboolean
sw_demo_crowd (SwDemo *demo, const SwDemoOptions *options, guint n, GError **error)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (options->seed);
  Crowd crowd = { demo, options, rand, n };

  for (guint first = 0; first < n; first += BATCH)
    {
      if (!add_batch (&crowd, first, MIN (first + BATCH, n), error))
        return FALSE;
      if (options->progress != NULL)
        options->progress (MIN (first + BATCH, n), n, options->data);
    }
  return TRUE;
}
