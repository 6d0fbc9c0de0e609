/* test-fact.c: descriptors, canonical text, and values that are not possible
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-fact.h"

#include "sw-error.h"
#include "sw-values.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

START_TEST (test_descriptors_fit_their_structs)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      const SwFactType *type = sw_fact_type (kind);

      ck_assert_int_eq (sw_fact_kind_from_table (type->table), kind);
      /* Every member is eight bytes, so a descriptor that forgot a member would leave a gap. */
      ck_assert_msg (type->size == sizeof (SwFact) + 8 * type->n_fields, "%s has a column too few or many",
                     type->table);
      for (guint i = 0; i < type->n_fields; i++)
        ck_assert_msg (type->fields[i].offset == sizeof (SwFact) + 8 * i, "%s.%s", type->table, type->fields[i].column);
    }
  ck_assert_int_eq (sw_fact_kind_from_table ("no_such_table"), -1);
}
END_TEST

/* One possible fact of each kind, set from text so that the table can be read. */
typedef struct
{
  SwFactKind kind;
  const char *values; /* column=value;... */
} Sample;

static const Sample samples[] = {
  { SW_FACT_PERSON, "" },
  { SW_FACT_PERSON_DETAILS, "person=1;name=Ines;roles=2;active=1" },
  { SW_FACT_CLIENT, "" },
  { SW_FACT_CLIENT_DETAILS, "client=1;name=Aldane" },
  { SW_FACT_SETTING, "key=hour-morning;value=480" },
  { SW_FACT_DOCUMENT, "doc_kind=0;doc_id=test;revision=1;digest=00;bytes=<x/>" },
  { SW_FACT_ADOPTION, "document=1;doc_kind=0;doc_id=test;ticks=" },
  { SW_FACT_PATIENT, "" },
  { SW_FACT_PATIENT_DETAILS, "client=1;name=Marlo;species=dog;born=18000;born_exact=0" },
  { SW_FACT_WEIGHT, "grams=24600;day=20000;minute=540;typed=24.6" },
  { SW_FACT_TUMOUR, "" },
  { SW_FACT_TUMOUR_DETAILS, "tumour=1;letter=0;region=21;side=0;depth=0;found=20000" },
  { SW_FACT_ANSWER, "question=node;answer=hn0;day=20000;minute=0" },
  { SW_FACT_REASON, "course=1;finding=tiny-tumour;reason=small and growing" },
  { SW_FACT_MEDICINE_TAKEN, "substance=meloxicam;first_day=19990;last_day=19995;form=0" },
  { SW_FACT_COURSE, "number=1" },
  { SW_FACT_COURSE_DETAILS, "course=1;document=1" },
  { SW_FACT_COURSE_TUMOUR, "course=1;tumour=1;treat=1" },
  { SW_FACT_CONSENT, "course=1;state=0;signer=Aldane;day=20000;minute=0;sheet_version=1;off_label=0;points=127" },
  { SW_FACT_PLAN, "course=1;treat_day=20002;weight=1;choices=;cause=0" },
  { SW_FACT_DOSE, "course=1" },
  { SW_FACT_DOSE_PLAN, "course=1;dose=1;plan=1;group=h1;substance=cetirizine;day_number=-2;due_day=20000;due_minute=480;"
                       "every_minutes=720;dose_ug=10000" },
  { SW_FACT_DOSE_EVENT, "course=1;dose=1;state=0;day=20000;minute=481" },
  { SW_FACT_READING, "tumour=1;day=20000;minute=540;axis1=2140;axis2=1800;axis3=890;typed=21.4" },
  { SW_FACT_READ_ALOUD, "course=1;stage=0;second=2;day=20000;minute=600;alone=0" },
  { SW_FACT_RELEASE, "course=1;day=20000;minute=601;weight=1;total_nl=850000;frozen=weight:1;gate=;outside=0" },
  { SW_FACT_RELEASE_TUMOUR, "course=1;release=1;tumour=1;readings=1;volume_mm3=1714;dose_nl=857000;drawn_nl=850000;"
                            "syringe_nl=1000000" },
  { SW_FACT_INJECTION, "course=1;release=1;day=20000;minute=641;injector=1;needle=23;outside=0;past_limit=0;gate=" },
  { SW_FACT_INJECTION_TUMOUR, "course=1;injection=1;tumour=1;drawn_nl=850000;given_nl=850000" },
  { SW_FACT_VIAL, "course=1;injection=1;lot=7K214;expiry=20500;agent=test;strength_ug_ml=1000;left_nl=1150000" },
  { SW_FACT_OBSERVATION, "course=1;day=20000;minute=700;heart_rate=110" },
  { SW_FACT_DISCHARGE, "course=1;day=20000;minute=800;night_number=0;eight_hour_contact=Ines" },
  { SW_FACT_VISIT, "course=1;day=20001;minute=600;mode=0;pain=2;cover=1;cover_until=20003" },
  { SW_FACT_WOUND, "course=1;tumour=1;visit=1;day=20007;state=1;length=3000;width=2500" },
  { SW_FACT_LOOK, "tumour=1;day=20028;state=0" },
  { SW_FACT_SCORE, "course=1;tumour=1;day=20028;category=0;baseline_sum=4240;baseline_count=2;smallest_sum=4240;"
                   "smallest_count=2;wound_open=0;counts_as_day_28=1;next_step=watch" },
  { SW_FACT_OVERALL, "course=1;day=20028;category=0;non_targets=0;new_tumour=0" },
  { SW_FACT_RECURRENCE, "course=1;tumour=1;day=20100;sampled=1" },
  { SW_FACT_COURSE_END, "course=1;end=0;day=20100;certain=1" },
  { SW_FACT_CONTACT, "course=1;day=20100;minute=600;reached=0" },
};

static void
set_field (gpointer fact, const SwField *field, const char *value)
{
  if (field->type == SW_FIELD_TEXT)
    sw_fact_take_text (fact, field, g_strcmp0 (value, "NULL") ? g_strdup (value) : NULL);
  else if (field->type == SW_FIELD_BYTES)
    sw_fact_take_bytes (fact, field, g_bytes_new (value, strlen (value)));
  else
    sw_fact_set_int (fact, field, g_strcmp0 (value, "NULL") ? g_ascii_strtoll (value, NULL, 10) : SW_UNKNOWN);
}

static void
set_values (gpointer fact, const char *values)
{
  const SwFactType *type = sw_fact_type (((SwFact *) fact)->kind);
  g_auto (GStrv) pairs = g_strsplit (values, ";", -1);

  for (guint i = 0; pairs[i] != NULL && *pairs[i] != '\0'; i++)
    {
      g_auto (GStrv) pair = g_strsplit (pairs[i], "=", 2);
      gboolean found = FALSE;

      for (guint k = 0; k < type->n_fields; k++)
        if (g_str_equal (type->fields[k].column, pair[0]))
          {
            set_field (fact, &type->fields[k], pair[1]);
            found = TRUE;
          }
      ck_assert_msg (found, "%s has no column %s", type->table, pair[0]);
    }
}

static gpointer
make (SwFactKind kind, const char *changes)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++)
    if (samples[i].kind == kind)
      {
        SwFact *fact = sw_fact_new (kind);

        fact->patient = sw_fact_type (kind)->scope == SW_SCOPE_PATIENT ? 12 : 0;
        set_values (fact, samples[i].values);
        set_values (fact, changes);
        return fact;
      }
  ck_abort_msg ("no sample of kind %d", (int) kind);
  return NULL;
}

START_TEST (test_possible_facts)
{
  ck_assert_int_eq (G_N_ELEMENTS (samples), SW_N_FACTS);
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    {
      gpointer fact = make (kind, "");
      g_autoptr (GError) error = NULL;

      ck_assert_msg (sw_fact_validate (fact, &error), "%s: %s", sw_fact_type (kind)->table,
                     error ? error->message : "");
      sw_fact_free (fact);
    }
}
END_TEST

/* What each change makes impossible, and a word that the sentence must hold. */
static const struct
{
  SwFactKind kind;
  const char *changes;
  const char *word;
} impossible[] = {
  { SW_FACT_PERSON_DETAILS, "name=", "name" },
  { SW_FACT_PERSON_DETAILS, "name=NULL", "name" },
  { SW_FACT_PERSON_DETAILS, "roles=0", "roles" },
  { SW_FACT_PERSON_DETAILS, "roles=8", "roles" },
  { SW_FACT_PERSON_DETAILS, "active=2", "works here" },
  { SW_FACT_PERSON_DETAILS, "person=0", "person" },
  { SW_FACT_SETTING, "value=1440", "1440" },
  { SW_FACT_SETTING, "key=washout.meloxicam;value=-1", "-1" },
  { SW_FACT_DOCUMENT, "doc_kind=3", "kind of document" },
  { SW_FACT_PATIENT_DETAILS, "species=ferret", "ferret" },
  { SW_FACT_PATIENT_DETAILS, "sex=2", "sex" },
  { SW_FACT_PATIENT_DETAILS, "born=0", "1970-01-01" },
  { SW_FACT_WEIGHT, "grams=499", "0.499 kg" },
  { SW_FACT_WEIGHT, "grams=120001", "120.001 kg" },
  { SW_FACT_WEIGHT, "minute=1440", "1440" },
  { SW_FACT_WEIGHT, "day=99999", "2243-10-16" },
  { SW_FACT_TUMOUR_DETAILS, "region=25", "region" },
  { SW_FACT_TUMOUR_DETAILS, "depth=-1", "depth" },
  { SW_FACT_TUMOUR_DETAILS, "x=1001", "1001" },
  { SW_FACT_ANSWER, "question=colour", "colour" },
  { SW_FACT_ANSWER, "answer=hn9", "hn9" },
  { SW_FACT_ANSWER, "tumour=4", "not of a tumour" },
  { SW_FACT_ANSWER, "course=4", "work-up" },
  { SW_FACT_ANSWER, "question=grade;answer=none", "Choose the tumour" },
  { SW_FACT_ANSWER, "question=stool-today;answer=loose", "Open the course" },
  { SW_FACT_ANSWER, "question=live-vaccine;answer=given;value=3", "no possible day" },
  { SW_FACT_REASON, "finding=mood", "mood" },
  { SW_FACT_REASON, "reason=", "reason" },
  { SW_FACT_MEDICINE_TAKEN, "last_day=19989", "2024-09-24" },
  { SW_FACT_MEDICINE_TAKEN, "substance=", "substance" },
  { SW_FACT_MEDICINE_TAKEN, "form=7", "form" },
  { SW_FACT_CONSENT, "points=128", "points" },
  { SW_FACT_CONSENT, "signer=", "signer" },
  { SW_FACT_PLAN, "cause=1", "moved from" },
  { SW_FACT_DOSE_PLAN, "dose_ug=0", "dose" },
  { SW_FACT_DOSE_EVENT, "minute=NULL", "day and time" },
  { SW_FACT_DOSE_EVENT, "state=5", "state of the dose" },
  { SW_FACT_READING, "axis3=49", "0.49 mm" },
  { SW_FACT_READING, "axis1=30001", "300.01 mm" },
  { SW_FACT_RELEASE, "outside=1", "reason" },
  { SW_FACT_INJECTION, "past_limit=1", "reason" },
  { SW_FACT_INJECTION, "outside=1;reason=", "reason" },
  { SW_FACT_INJECTION_TUMOUR, "given_nl=860000", "more than" },
  { SW_FACT_INJECTION_TUMOUR, "given_nl=840000", "write why" },
  { SW_FACT_OBSERVATION, "vomiting=2", "vomiting" },
  { SW_FACT_VISIT, "pain=11", "11" },
  { SW_FACT_VISIT, "cover_until=20000", "last day of the cover" },
  { SW_FACT_WOUND, "width=NULL", "both" },
  { SW_FACT_WOUND, "state=2", "open wound" },
  { SW_FACT_COURSE_END, "end=1", "cause" },
  { SW_FACT_COURSE_END, "cause=0", "Only a death" },
};

START_TEST (test_impossible_facts)
{
  for (guint i = 0; i < G_N_ELEMENTS (impossible); i++)
    {
      gpointer fact = make (impossible[i].kind, impossible[i].changes);
      g_autoptr (GError) error = NULL;

      ck_assert_msg (!sw_fact_validate (fact, &error), "%s: %s", sw_fact_type (impossible[i].kind)->table,
                     impossible[i].changes);
      ck_assert_ptr_nonnull (error);
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
      ck_assert_msg (strstr (error->message, impossible[i].word) != NULL, "no “%s” in: %s", impossible[i].word,
                     error->message);
      sw_fact_free (fact);
    }
}
END_TEST

START_TEST (test_owners_and_replacing)
{
  SwFact *weight = make (SW_FACT_WEIGHT, ""), *person = make (SW_FACT_PERSON_DETAILS, "");
  SwFact *dose = make (SW_FACT_DOSE, "");

  weight->patient = -2; /* registered in the same act */
  ck_assert (sw_fact_validate (weight, NULL));
  weight->patient = 0;
  ck_assert (!sw_fact_validate (weight, NULL));
  weight->patient = 12;
  weight->withdrawn = TRUE;
  ck_assert (!sw_fact_validate (weight, NULL));
  weight->replaces = 3;
  ck_assert (sw_fact_validate (weight, NULL));
  person->patient = 12;
  ck_assert (!sw_fact_validate (person, NULL));
  dose->replaces = 3;
  ck_assert (!sw_fact_validate (dose, NULL));
  sw_fact_free (weight);
  sw_fact_free (person);
  sw_fact_free (dose);
}
END_TEST

static char *
payload_of (gconstpointer fact)
{
  GString *payload = g_string_new (NULL);

  sw_fact_append_payload (fact, payload);
  return g_string_free (payload, FALSE);
}

START_TEST (test_payload)
{
  SwFact *weight = make (SW_FACT_WEIGHT, "");
  g_autofree char *text = NULL;

  weight->id = 7;
  text = payload_of (weight);
  /* table, id, patient, replaces, withdrawn, then the columns in order; the scale has no value */
  ck_assert_str_eq (text, "6:weight,1:7,2:12,1:0,1:0,5:24600,5:20000,3:540,4:24.6,-,");
  sw_fact_free (weight);
}
END_TEST

/* Two rows that differ in any column differ in their text, also where a boundary between two texts moves. */
START_TEST (test_payload_tells_rows_apart)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    for (guint i = 0; i < sw_fact_type (kind)->n_fields; i++)
      {
        const SwField *field = &sw_fact_type (kind)->fields[i];
        gpointer one = make (kind, ""), two = sw_fact_copy (one);
        g_autofree char *before = payload_of (one), *same = payload_of (two), *after = NULL;

        ck_assert_str_eq (before, same);
        set_field (two, field, "31");
        after = payload_of (two);
        ck_assert_msg (strcmp (before, after) != 0, "%s.%s", sw_fact_type (kind)->table, field->column);
        sw_fact_free (one);
        sw_fact_free (two);
      }
}
END_TEST

START_TEST (test_subjects)
{
  SwDoseEvent *one = make (SW_FACT_DOSE_EVENT, ""), *two = make (SW_FACT_DOSE_EVENT, "state=2");
  SwWeight *weight = make (SW_FACT_WEIGHT, ""), *other = make (SW_FACT_WEIGHT, "");

  ck_assert (sw_fact_same_subject (one, two));
  two->dose = 2;
  ck_assert (!sw_fact_same_subject (one, two));
  two->dose = 1;
  two->fact.patient = 13;
  ck_assert (!sw_fact_same_subject (one, two));
  ck_assert (!sw_fact_same_subject (weight, other)); /* two weighings are two things */
  ck_assert (!sw_fact_same_subject (weight, one));
  sw_fact_free (one);
  sw_fact_free (two);
  sw_fact_free (weight);
  sw_fact_free (other);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("fact");
  TCase *tcase = tcase_create ("fact");
  SRunner *runner;

  tcase_add_test (tcase, test_descriptors_fit_their_structs);
  tcase_add_test (tcase, test_possible_facts);
  tcase_add_test (tcase, test_impossible_facts);
  tcase_add_test (tcase, test_owners_and_replacing);
  tcase_add_test (tcase, test_payload);
  tcase_add_test (tcase, test_payload_tells_rows_apart);
  tcase_add_test (tcase, test_subjects);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
