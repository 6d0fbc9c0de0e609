/* store-fixture.c: a record in a temporary folder, and facts to put into it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "store-fixture.h"

#include "sw-finding.h"
#include "sw-question.h"

#include <check.h>
#include <glib/gstdio.h>
#include <stdarg.h>

/* 14 May 2026, 09:12 in a zone two hours ahead. */
#define SOME_TIME_US G_GINT64_CONSTANT (1778742720000000)
#define SOME_OFFSET 120

char *
fixture_folder (void)
{
  g_autofree char *parent = g_dir_make_tmp ("siteward-XXXXXX", NULL);

  ck_assert_ptr_nonnull (parent);
  return g_build_filename (parent, "record", NULL);
}

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) folder = g_dir_open (path, 0, NULL);
  const char *name;

  while (folder != NULL && (name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      remove_tree (child);
    }
  g_remove (path);
}

void
fixture_remove (char *folder)
{
  g_autofree char *parent = g_path_get_dirname (folder);

  remove_tree (parent);
  g_free (folder);
}

SwStoreSetup
fixture_setup (void)
{
  return (SwStoreSetup) {
    .person = "Ines", .zone = "Europe/Vienna", .practice_only = TRUE, .seed = "7",
    .at_us = SOME_TIME_US, .offset_minutes = SOME_OFFSET,
  };
}

SwStore *
fixture_create (const char *folder)
{
  g_autoptr (GError) error = NULL;
  SwStoreSetup setup = fixture_setup ();
  SwStore *store = sw_store_create (folder, &setup, &error);

  ck_assert_msg (store != NULL, "%s", error ? error->message : "");
  return store;
}

GPtrArray *
fixture_facts (gpointer first, ...)
{
  GPtrArray *facts = g_ptr_array_new_with_free_func (sw_fact_free);
  va_list more;

  va_start (more, first);
  for (gpointer fact = first; fact != NULL; fact = va_arg (more, gpointer))
    g_ptr_array_add (facts, fact);
  va_end (more);
  return facts;
}

gint64
fixture_act (SwStore *store, SwActKind kind, gint64 person, GPtrArray *facts, GError **error)
{
  SwActHead head = { .kind = kind, .person = person, .at_us = SOME_TIME_US, .offset_minutes = SOME_OFFSET };
  gint64 act = 0;
  gboolean done = sw_store_begin (store, error) && sw_store_append (store, &head, facts, &act, error)
                  && sw_store_commit (store, error);

  sw_store_rollback (store);
  g_clear_pointer (&facts, g_ptr_array_unref);
  return done ? act : 0;
}

static gint64
must (SwStore *store, SwActKind kind, GPtrArray *facts)
{
  g_autoptr (GError) error = NULL;
  gint64 act = fixture_act (store, kind, 1, facts, &error);

  ck_assert_msg (act != 0, "%s", error ? error->message : "");
  return act;
}

gint64
fixture_person (SwStore *store, const char *name, gint64 roles)
{
  SwPersonDetails *details = sw_new (SW_FACT_PERSON_DETAILS, SwPersonDetails);
  GPtrArray *facts = fixture_facts (sw_fact_new (SW_FACT_PERSON), details, NULL);
  gint64 person;

  details->person = -1;
  details->name = g_strdup (name);
  details->roles = roles;
  details->active = 1;
  g_ptr_array_ref (facts);
  must (store, SW_ACT_MANAGE_PEOPLE, facts);
  person = details->person;
  g_ptr_array_unref (facts);
  return person;
}

gint64
fixture_patient (SwStore *store, const char *dog, const char *client)
{
  SwClientDetails *owner = sw_new (SW_FACT_CLIENT_DETAILS, SwClientDetails);
  SwPatientDetails *patient = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);
  GPtrArray *facts = fixture_facts (sw_fact_new (SW_FACT_CLIENT), owner, sw_fact_new (SW_FACT_PATIENT), patient, NULL);
  gint64 id;

  owner->client = -1;
  owner->name = g_strdup (client);
  owner->phone = g_strdup ("0555 0100");
  patient->fact.patient = -3;
  patient->client = -1;
  patient->name = g_strdup (dog);
  patient->species = g_strdup ("dog");
  g_ptr_array_ref (facts);
  must (store, SW_ACT_REGISTER_PATIENT, facts);
  id = patient->fact.patient;
  g_ptr_array_unref (facts);
  return id;
}

gint64
fixture_weigh (SwStore *store, gint64 patient, gint64 grams)
{
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->fact.patient = patient;
  weight->grams = grams;
  weight->day = 20587;
  weight->minute = 552;
  weight->typed = g_strdup ("24.6");
  return must (store, SW_ACT_WEIGH, fixture_facts (weight, NULL));
}

/* --- random facts --- */

/* Columns whose least possible value is over 1. */
static const struct
{
  const char *column;
  gint64 least, most;
} ranges[] = {
  { "grams", 500, 120000 },
  { "axis1", 50, 30000 },
  { "axis2", 50, 30000 },
  { "axis3", 50, 30000 },
  { "day", 3652, 84005 },
  { "born", 3652, 84005 },
  { "found", 3652, 84005 },
  { "first_day", 3652, 40000 },
  { "last_day", 40000, 84005 },
  { "treat_day", 3652, 84005 },
  { "moved_from", 3652, 84005 },
  { "due_day", 3652, 84005 },
  { "expiry", 3652, 84005 },
  { "cover_until", 84005, 84005 },
  { "minute", 0, 1439 },
  { "due_minute", 0, 1439 },
  { "every_minutes", 60, 10080 },
  { "heart_rate", 20, 400 },
  { "length", 50, 30000 },
  { "width", 50, 30000 },
  { "drawn_nl", 700000, 90000000 },
  { "given_nl", 0, 600000 },
  { "dose_nl", 0, 99000000 },
  { "volume_nl", 0, 99000000 },
  { "total_nl", 0, 99000000 },
  { "strength_ug", 1, 90000000 },
  { "dose_ug", 1, 90000000 },
  { "roles", 1, 7 },
  { "strength_ug_ml", 1, 1000000 },
  { "per_day_milli", 1, 24000 },
  { "halves", 1, 40 },
  { "now_count", 1, 12 },
};

static gint64
random_int (const SwField *field, GRand *rand)
{
  if (field->nullable && g_rand_boolean (rand))
    return SW_UNKNOWN;
  for (gsize i = 0; i < G_N_ELEMENTS (ranges); i++)
    if (g_str_equal (ranges[i].column, field->column))
      return g_rand_int_range (rand, (gint32) ranges[i].least, (gint32) ranges[i].most + 1);
  return g_str_equal (field->column, "number") ? 1 : g_rand_int_range (rand, 0, 2);
}

static char *
random_text (const SwField *field, GRand *rand)
{
  static const char *const pieces[] = { "a", "Ö", "ß", "7:", ",", "'", "\"", " ", "-", "\n", "漢", ";", "x'00'", "--" };
  GString *text = g_string_new ("t");

  if (field->nullable && g_rand_boolean (rand))
    return g_string_free (text, TRUE);
  for (int n = g_rand_int_range (rand, 0, 30); n > 0; n--)
    g_string_append (text, pieces[g_rand_int_range (rand, 0, G_N_ELEMENTS (pieces))]);
  return g_string_free (text, FALSE);
}

static void
random_field (gpointer fact, const SwField *field, GRand *rand)
{
  switch (field->type)
    {
    case SW_FIELD_INT:
      sw_fact_set_int (fact, field, random_int (field, rand));
      break;
    case SW_FIELD_REF:
      sw_fact_set_int (fact, field, field->nullable && g_rand_boolean (rand) ? 0 : 1);
      break;
    case SW_FIELD_TEXT:
      sw_fact_take_text (fact, field, random_text (field, rand));
      break;
    case SW_FIELD_BYTES:
      sw_fact_take_bytes (fact, field, g_bytes_new ("<a\0b>", (gsize) g_rand_int_range (rand, 0, 6)));
      break;
    }
}

static void
set_text (char **slot, const char *text)
{
  g_free (*slot);
  *slot = g_strdup (text);
}

static void
random_question (SwAnswer *answer, GRand *rand)
{
  guint n;
  const SwQuestion *question = sw_questions (&n) + g_rand_int_range (rand, 0, 5);

  set_text (&answer->question, question->code);
  set_text (&answer->answer, question->choices[g_rand_int_range (rand, 0, (gint32) question->n_choices)].code);
  answer->course = question->at == SW_ASKED_AT_WORK_UP ? 0 : 1;
  answer->tumour = question->of == SW_ASKED_OF_DOG ? 0 : 1;
  answer->value = SW_UNKNOWN;
}

/* What model asks of several fields together. */
static void
make_possible (gpointer fact, GRand *rand)
{
  switch ((guint) ((SwFact *) fact)->kind)
    {
    case SW_FACT_PATIENT_DETAILS:
      set_text (&((SwPatientDetails *) fact)->species, "dog");
      break;
    case SW_FACT_DOCUMENT:
      g_free (((SwDocument *) fact)->digest);
      ((SwDocument *) fact)->digest = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, ((SwDocument *) fact)->bytes);
      break;
    case SW_FACT_ANSWER:
      random_question (fact, rand);
      break;
    case SW_FACT_REASON:
      set_text (&((SwReason *) fact)->finding, sw_finding_code ((SwFindingCode) 0));
      break;
    case SW_FACT_PLAN:
      ((SwPlan *) fact)->cause = SW_PLAN_FIRST;
      break;
    case SW_FACT_DOSE_EVENT:
      ((SwDoseEvent *) fact)->state = SW_DOSE_MISSED;
      break;
    case SW_FACT_RELEASE:
      set_text (&((SwRelease *) fact)->reason, "it was so");
      break;
    case SW_FACT_INJECTION:
      set_text (&((SwInjection *) fact)->reason, "it was so");
      break;
    case SW_FACT_INJECTION_TUMOUR:
      set_text (&((SwInjectionTumour *) fact)->reason, "it ran out");
      break;
    case SW_FACT_WOUND:
      ((SwWound *) fact)->state = SW_WOUND_OPEN;
      ((SwWound *) fact)->length = ((SwWound *) fact)->width;
      break;
    case SW_FACT_COURSE_END:
      ((SwCourseEnd *) fact)->cause = ((SwCourseEnd *) fact)->end == SW_END_DIED ? SW_DEATH_OTHER : SW_UNKNOWN;
      break;
    default:
      break;
    }
}

gpointer
fixture_random_fact (SwFactKind kind, GRand *rand)
{
  const SwFactType *type = sw_fact_type (kind);
  SwFact *fact = sw_fact_new (kind);

  if (type->scope == SW_SCOPE_PATIENT && kind != SW_FACT_PATIENT)
    fact->patient = 1;
  for (guint i = 0; i < type->n_fields; i++)
    random_field (fact, &type->fields[i], rand);
  make_possible (fact, rand);
  return fact;
}

void
fixture_fill (SwStore *store, GRand *rand)
{
  /* Rows that others refer to before those; a course before the answers that may name it. */
  static const SwFactKind first[] = { SW_FACT_CLIENT, SW_FACT_PATIENT, SW_FACT_TUMOUR, SW_FACT_COURSE };

  for (gsize i = 0; i < G_N_ELEMENTS (first); i++)
    must (store, SW_ACT_KEEP_RECORD, fixture_facts (fixture_random_fact (first[i], rand), NULL));
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      gpointer fact = fixture_random_fact ((SwFactKind) kind, rand);

      if (kind == SW_FACT_PERSON_DETAILS) /* person 1 has them: the next person */
        ((SwPersonDetails *) fact)->person = 2;
      must (store, SW_ACT_KEEP_RECORD, fixture_facts (fact, NULL));
    }
}

void
fixture_assert_sound (SwStore *store)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwCheckReport) report = sw_store_check (store, &(SwCheckOptions) { NULL }, NULL, &error);

  ck_assert_msg (report != NULL, "%s", error ? error->message : "");
  ck_assert_msg (report->troubles->len == 0, "%s",
                 report->troubles->len > 0 ? (char *) report->troubles->pdata[0] : "");
}
