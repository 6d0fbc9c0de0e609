/* sw-demo-script.c: reads the script of the demo practice
 *
 * One line, one thing; words as a shell would split them, # begins a comment. See data/demo/README.md for the verbs.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-error.h"
#include "sw-quantity.h"

/* The practice works up to this minute of "today". */
#define NOW_MINUTE (9 * 60 + 40)

/* What is being read. */
typedef struct
{
  SwDemo *demo;
  int line;
  SwDemoDog *dog; /* the one that steps belong to */
} Reading;

static GHashTable *
args_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

static void
dog_free (gpointer data)
{
  SwDemoDog *dog = data;

  g_hash_table_unref (dog->args);
  g_free (dog);
}

static void
step_free (gpointer data)
{
  SwDemoStep *step = data;

  g_hash_table_unref (step->args);
  g_free (step);
}

static SwDemo *
demo_new (const char *file, SwDay today)
{
  SwDemo *demo = g_new0 (SwDemo, 1);

  demo->today = today;
  demo->now = (SwMoment){ today, NOW_MINUTE };
  demo->file = g_path_get_basename (file);
  demo->practice = args_new ();
  demo->people = g_ptr_array_new_with_free_func ((GDestroyNotify) g_hash_table_unref);
  demo->ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  demo->work_up = args_new ();
  demo->treatment = args_new ();
  demo->words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_strfreev);
  demo->dogs = g_ptr_array_new_with_free_func (dog_free);
  demo->steps = g_ptr_array_new_with_free_func (step_free);
  return demo;
}

void
sw_demo_free (SwDemo *demo)
{
  if (demo == NULL)
    return;
  g_free (demo->file);
  g_hash_table_unref (demo->practice);
  g_ptr_array_unref (demo->people);
  g_hash_table_unref (demo->ids);
  g_hash_table_unref (demo->work_up);
  g_hash_table_unref (demo->treatment);
  g_hash_table_unref (demo->words);
  g_ptr_array_unref (demo->steps);
  g_ptr_array_unref (demo->dogs);
  g_clear_pointer (&demo->shipped, sw_books_unref);
  sw_desk_free (demo->desk);
  g_clear_pointer (&demo->clock, sw_clock_unref);
  g_free (demo);
}

SwMoment
sw_demo_now (const SwDemoOptions *options)
{
  return (SwMoment){ options->today, NOW_MINUTE };
}

gboolean
sw_demo_day (const SwDemo *demo, const char *text, SwDay *day, GError **error)
{
  gint64 days;

  if (!sw_integer_parse (text, &days, error))
    return FALSE;
  *day = sw_day_add_days (demo->today, days);
  return TRUE;
}

/* --- lines --- */

static gboolean
fail (const Reading *reading, GError **error, const char *sentence, const char *word)
{
  g_set_error (error, SW_ERROR, SW_ERROR_DOCUMENT, "%s:%d: %s: %s", reading->demo->file, reading->line, word, sentence);
  return FALSE;
}

/* "name=value" words, from the n-th on. */
static gboolean
read_args (const Reading *reading, char **words, guint first, GHashTable *args, GError **error)
{
  for (guint i = first; words[i] != NULL; i++)
    {
      char *equals = strchr (words[i], '=');

      if (equals == NULL || equals == words[i])
        return fail (reading, error, "a word here is NAME=VALUE.", words[i]);
      g_hash_table_insert (args, g_strndup (words[i], (gsize) (equals - words[i])), g_strdup (equals + 1));
    }
  return TRUE;
}

static void
add_step (Reading *reading, SwDemoPerform perform, SwMoment when, GHashTable *args)
{
  SwDemoStep *step = g_new0 (SwDemoStep, 1);

  *step = (SwDemoStep){ reading->line, when, perform, reading->dog, g_hash_table_ref (args) };
  g_ptr_array_add (reading->demo->steps, step);
}

/* A macro line is its parts, each so many minutes after it. */
static gboolean
add_steps (Reading *reading, const char *verb, SwDay day, int minute, GHashTable *args, GError **error)
{
  const SwDemoPart *parts = sw_demo_macro (verb);
  int usual = 0;
  SwDemoPerform perform = parts ? NULL : sw_demo_verb (verb, &usual);

  if (perform == NULL && parts == NULL)
    return fail (reading, error, "no such verb.", verb);
  if (minute < 0)
    minute = parts ? parts[0].after : usual;
  if (parts == NULL)
    add_step (reading, perform, (SwMoment){ day, minute }, args);
  for (guint i = 1; parts != NULL && parts[i].verb != NULL; i++)
    {
      SwMoment when = sw_moment_add_minutes ((SwMoment){ day, minute }, parts[i].after);

      add_step (reading, sw_demo_verb (parts[i].verb, &usual), when, args);
    }
  return TRUE;
}

static gboolean
add_days (Reading *reading, const char *verb, SwDay first, int minute, GHashTable *args, GError **error)
{
  const char *to = g_hash_table_lookup (args, "to");
  SwDay last = first;

  if (to != NULL && (!sw_demo_day (reading->demo, to, &last, NULL) || last < first))
    return fail (reading, error, "to=DAY is a later day.", to);
  for (SwDay day = first; day <= last; day++)
    if (!add_steps (reading, verb, day, minute, args, error))
      return FALSE;
  return TRUE;
}

/* VERB DAY [HH:MM] NAME=VALUE ...; with to=DAY it is done on each day up to that one. */
static gboolean
read_step (Reading *reading, char **words, GError **error)
{
  g_autoptr (GHashTable) args = args_new ();
  guint first = 2;
  int minute = -1;
  SwDay day;

  if (words[1] == NULL)
    return fail (reading, error, "say on which day.", words[0]);
  if (!sw_demo_day (reading->demo, words[1], &day, NULL))
    return fail (reading, error, "a day is a number of days from today, like -3 or +2.", words[1]);
  if (words[2] != NULL && strchr (words[2], '=') == NULL)
    {
      if (!sw_time_parse (words[2], &minute, NULL))
        return fail (reading, error, "a time is HH:MM.", words[2]);
      first = 3;
    }
  return read_args (reading, words, first, args, error) && add_days (reading, words[0], day, minute, args, error);
}

static gboolean
read_dog (Reading *reading, char **words, GError **error)
{
  SwDemoDog *dog = g_new0 (SwDemoDog, 1);

  dog->args = args_new ();
  g_ptr_array_add (reading->demo->dogs, dog);
  reading->dog = dog;
  return read_args (reading, words, 1, dog->args, error);
}

static gboolean
read_person (Reading *reading, char **words, GError **error)
{
  GHashTable *args = args_new ();

  g_ptr_array_add (reading->demo->people, args);
  return read_args (reading, words, 1, args, error);
}

/* words LIST WORD ... */
static gboolean
read_words (Reading *reading, char **words, GError **error)
{
  if (words[1] == NULL || words[2] == NULL)
    return fail (reading, error, "name the list, then its words.", words[0]);
  g_hash_table_insert (reading->demo->words, g_strdup (words[1]), g_strdupv (words + 2));
  return TRUE;
}

static gboolean
read_line (Reading *reading, char **words, GError **error)
{
  if (g_str_equal (words[0], "practice"))
    return read_args (reading, words, 1, reading->demo->practice, error);
  if (g_str_equal (words[0], "person"))
    return read_person (reading, words, error);
  if (g_str_equal (words[0], "usual-work-up"))
    return read_args (reading, words, 1, reading->demo->work_up, error);
  if (g_str_equal (words[0], "usual-treatment-day"))
    return read_args (reading, words, 1, reading->demo->treatment, error);
  if (g_str_equal (words[0], "words"))
    return read_words (reading, words, error);
  if (g_str_equal (words[0], "dog"))
    return read_dog (reading, words, error);
  return read_step (reading, words, error);
}

static int
by_time (gconstpointer a, gconstpointer b)
{
  const SwDemoStep *first = *(const SwDemoStep *const *) a, *second = *(const SwDemoStep *const *) b;
  int order = sw_moment_compare (first->when, second->when);

  return order != 0 ? order : (first->line > second->line) - (first->line < second->line);
}

SwDemo *
sw_demo_read (const char *file, SwDay today, GError **error)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  g_autoptr (SwDemo) demo = demo_new (file, today);
  Reading reading = { demo, 0, NULL };

  if (!g_file_get_contents (file, &text, NULL, error))
    return NULL;
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = NULL;
      g_autoptr (GError) split = NULL;

      reading.line = (int) i + 1;
      if (g_shell_parse_argv (lines[i], NULL, &words, &split))
        {
          if (!read_line (&reading, words, error))
            return NULL;
        }
      else if (!g_error_matches (split, G_SHELL_ERROR, G_SHELL_ERROR_EMPTY_STRING))
        {
          fail (&reading, error, split->message, lines[i]);
          return NULL;
        }
    }
  g_ptr_array_sort (demo->steps, by_time); /* a merge sort: steps of one line and minute stay in order */
  return g_steal_pointer (&demo);
}
