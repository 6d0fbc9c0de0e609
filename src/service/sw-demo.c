/* sw-demo.c: performs the script of the demo practice in the order of time
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-error.h"

/* --- for the steps --- */

gboolean
sw_demo_fail (const SwDemo *demo, const SwDemoStep *step, GError **error, const char *format, ...)
{
  g_autofree char *sentence = NULL;
  va_list args;

  va_start (args, format);
  sentence = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, SW_ERROR, SW_ERROR_DOCUMENT, "%s:%d: %s", demo->file, step->line, sentence);
  return FALSE;
}

const char *
sw_demo_arg (const SwDemoStep *step, const char *name)
{
  const char *value = g_hash_table_lookup (step->args, name);

  if (value == NULL && step->dog != NULL)
    value = g_hash_table_lookup (step->dog->args, name);
  return value;
}

gboolean
sw_demo_need_day (SwDemo *demo, const SwDemoStep *step, const char *name, SwDay *day, GError **error)
{
  const char *text = sw_demo_arg (step, name);

  if (text == NULL || !sw_demo_day (demo, text, day, NULL))
    return sw_demo_fail (demo, step, error, "%s=DAY is missing.", name);
  return TRUE;
}

SwDay
sw_demo_day_if_said (SwDemo *demo, const SwDemoStep *step, const char *name)
{
  const char *text = sw_demo_arg (step, name);
  SwDay day;

  return text != NULL && sw_demo_day (demo, text, &day, NULL) ? day : SW_NO_DAY;
}

char *
sw_demo_dup_arg (const SwDemoStep *step, const char *name)
{
  return g_strdup (sw_demo_arg (step, name));
}

gint64
sw_demo_tumour (const SwDemoStep *step, const char *letter)
{
  guint index = letter && *letter >= 'A' ? (guint) (*letter - 'A') : SW_DEMO_MOST_TUMOURS;

  return index < step->dog->n_tumours ? step->dog->tumours[index] : 0;
}

static gint64
id_of (SwDemo *demo, const char *name)
{
  const gint64 *id = name ? g_hash_table_lookup (demo->ids, name) : NULL;

  return id ? *id : 0;
}

/* The people in the order of the script, whoever they are: the first who may. */
static gint64
first_who_may (SwDemo *demo, SwActKind act, gint64 but)
{
  const SwPractice *practice = sw_desk_practice (demo->desk, NULL);

  for (guint i = 0; practice != NULL && i < demo->people->len; i++)
    {
      gint64 person = id_of (demo, g_hash_table_lookup (demo->people->pdata[i], "name"));

      if (person != but && sw_act_allowed (act, sw_practice_roles (practice, person)))
        return person;
    }
  return 1; /* the founder holds all roles */
}

gint64
sw_demo_person (SwDemo *demo, const SwDemoStep *step, SwActKind act)
{
  gint64 named = id_of (demo, sw_demo_arg (step, "by"));
  const SwPractice *practice = sw_desk_practice (demo->desk, NULL);

  if (named != 0 && practice != NULL && sw_act_allowed (act, sw_practice_roles (practice, named)))
    return named;
  return first_who_may (demo, act, 0);
}

gint64
sw_demo_other_person (SwDemo *demo, gint64 person, SwActKind act)
{
  return first_who_may (demo, act, person);
}

SwRequest *
sw_demo_request (SwDemo *demo, const SwDemoStep *step, SwActKind act)
{
  return sw_request_new (act, sw_demo_person (demo, step, act), step->dog ? step->dog->patient : 0);
}

static void
say_findings (const SwDemo *demo, const SwDemoStep *step, const SwReply *reply, GError **error)
{
  g_autoptr (GString) all = g_string_new ("refused:");

  for (guint i = 0; i < reply->findings->len; i++)
    {
      const SwFinding *finding = reply->findings->pdata[i];
      g_autofree char *sentence = sw_finding_sentence (finding);

      if (finding->severity >= SW_VET_DECIDES)
        g_string_append_printf (all, "\n  %s (%s%s%s)", sentence, sw_finding_code (finding->code),
                                finding->about ? ":" : "", finding->about ? finding->about : "");
    }
  sw_demo_fail (demo, step, error, "%s", all->str);
}

SwReply *
sw_demo_perform (SwDemo *demo, const SwDemoStep *step, SwRequest *request, GError **error)
{
  g_autoptr (SwRequest) taken = request;
  g_autoptr (SwReply) reply = sw_desk_perform (demo->desk, taken, error);

  if (reply == NULL)
    {
      g_prefix_error (error, "%s:%d: ", demo->file, step->line);
      return NULL;
    }
  if (reply->done)
    return g_steal_pointer (&reply);
  say_findings (demo, step, reply, error);
  return NULL;
}

gboolean
sw_demo_do (SwDemo *demo, const SwDemoStep *step, SwRequest *request, GError **error)
{
  g_autoptr (SwReply) reply = sw_demo_perform (demo, step, request, error);

  return reply != NULL;
}

/* --- the practice --- */

static gint64
roles_of (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text ? text : "", ",", -1);
  gint64 roles = 0;

  for (guint i = 0; words[i] != NULL; i++)
    roles |= g_str_equal (words[i], "vet")       ? SW_ROLE_VET
             : g_str_equal (words[i], "manager") ? SW_ROLE_MANAGER
                                                 : SW_ROLE_TECHNICIAN;
  return roles;
}

static gint64
add_person (SwDemo *demo, const SwDemoStep *step, GHashTable *args, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_MANAGE_PEOPLE);
  SwPersonDetails *details = sw_new (SW_FACT_PERSON_DETAILS, SwPersonDetails);
  g_autoptr (SwReply) reply = NULL;

  details->person = sw_request_add (request, sw_new (SW_FACT_PERSON, SwPerson));
  details->name = g_strdup (g_hash_table_lookup (args, "name"));
  details->roles = roles_of (g_hash_table_lookup (args, "roles"));
  details->active = 1;
  sw_request_add (request, details);
  reply = sw_demo_perform (demo, step, request, error);
  return reply ? sw_reply_id (reply, SW_FACT_PERSON) : 0;
}

/* The first person founded the record. */
static gboolean
add_people (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  for (guint i = 0; i < demo->people->len; i++)
    {
      GHashTable *args = demo->people->pdata[i];
      gint64 *id = g_new0 (gint64, 1);

      *id = i == 0 ? 1 : add_person (demo, step, args, error);
      g_hash_table_insert (demo->ids, g_strdup (g_hash_table_lookup (args, "name")), id);
      if (*id == 0)
        return FALSE;
    }
  return TRUE;
}

static gboolean
add_address (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_MANAGE_PEOPLE);

  for (guint i = 0; i < 2; i++)
    {
      const char *key = i == 0 ? "address" : "telephone", *value = g_hash_table_lookup (demo->practice, key);
      SwSetting *setting;

      if (value == NULL)
        continue;
      setting = sw_new (SW_FACT_SETTING, SwSetting);
      setting->key = g_strdup (key);
      setting->value = g_strdup (value);
      sw_request_add (request, setting);
    }
  return sw_demo_do (demo, step, request, error);
}

/* Every document that can be adopted is, all its figures ticked, but for those that the line "practice" leaves out. */
static gboolean
adopt (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (GPtrArray) heads = sw_books_heads (demo->shipped);
  SwRequest *request = sw_request_adopt (sw_demo_person (demo, step, SW_ACT_ADOPT_DOCUMENT));
  const char *without = g_hash_table_lookup (demo->practice, "not-adopted");
  g_auto (GStrv) left_out = g_strsplit (without ? without : "", ",", -1);

  for (guint i = 0; i < heads->len; i++)
    {
      const SwDocumentHead *head = heads->pdata[i];
      g_autoptr (GPtrArray) figures = sw_document_figures_to_tick (head);
      g_autoptr (GString) ticks = g_string_new (NULL);

      if (!sw_document_adoptable (head) || g_strv_contains ((const char *const *) left_out, head->id))
        continue;
      for (guint k = 0; k < figures->len; k++)
        g_string_append_printf (ticks, "%s%s", k > 0 ? ";" : "", ((const SwFigure *) figures->pdata[k])->name);
      sw_request_adopt_document (request, head->kind, head->bytes, ticks->str);
    }
  return sw_demo_do (demo, step, request, error);
}

/* --- the whole --- */

static gboolean
found (SwDemo *demo, const char *directory, const SwDemoOptions *options, GError **error)
{
  g_autofree char *day = sw_day_format (options->today);
  g_autofree char *seed = g_strdup_printf ("demo %u %s", options->seed, day);
  SwFounding founding = { .zone = g_hash_table_lookup (demo->practice, "zone"),
                          .practice = g_hash_table_lookup (demo->practice, "name"),
                          .practice_only = TRUE,
                          .seed = seed };

  if (demo->people->len > 0)
    founding.first_name = g_hash_table_lookup (demo->people->pdata[0], "name");
  if (founding.first_name == NULL || founding.zone == NULL || founding.practice == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_DOCUMENT, "%s: the script names no practice, zone or person.", demo->file);
      return FALSE;
    }
  demo->desk = sw_desk_found (directory, &founding, demo->clock, error);
  return demo->desk != NULL;
}

static gboolean
run_steps (SwDemo *demo, const SwDemoOptions *options, GError **error)
{
  for (guint i = 0; i < demo->steps->len; i++)
    {
      const SwDemoStep *step = demo->steps->pdata[i];

      if (sw_moment_compare (step->when, demo->now) > 0)
        break;
      sw_clock_set (demo->clock, step->when);
      if (!step->perform (demo, step, error))
        return FALSE;
      if (options->progress != NULL)
        options->progress (i, demo->steps->len, options->data);
    }
  return TRUE;
}

static gboolean
fill (SwDemo *demo, const SwDemoOptions *options, GError **error)
{
  SwDemoStep step = { .args = demo->practice };

  return add_people (demo, &step, error) && add_address (demo, &step, error) && adopt (demo, &step, error)
         && run_steps (demo, options, error);
}

static SwMoment
first_moment (const SwDemo *demo)
{
  SwMoment first = demo->steps->len > 0 ? ((const SwDemoStep *) demo->steps->pdata[0])->when : demo->now;

  return (SwMoment){ sw_day_add_days (first.day, -1), first.minute };
}

gboolean
sw_demo_make (const char *directory, const SwDemoOptions *options, GError **error)
{
  g_autofree char *shipped = sw_books_shipped_dir ();
  g_autofree char *file = options->script ? g_strdup (options->script)
                                          : g_build_filename (shipped, "demo", "practice.txt", NULL);
  g_autoptr (SwDemo) demo = sw_demo_read (file, options->today, error);
  gboolean done;

  if (demo == NULL)
    return FALSE;
  demo->shipped = sw_books_new_shipped (NULL, error);
  demo->clock = sw_clock_new_at (first_moment (demo));
  if (demo->shipped == NULL || !found (demo, directory, options, error) || !sw_desk_begin_batch (demo->desk, error))
    return FALSE;
  done = fill (demo, options, error);
  if (!sw_desk_end_batch (demo->desk, done, done ? error : NULL) || !done)
    return FALSE;
  return options->patients <= demo->dogs->len
         || sw_demo_crowd (demo, options, options->patients - demo->dogs->len, error);
}
