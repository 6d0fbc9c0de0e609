/* case-fixture.c
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "case-fixture.h"

#include "sw-question.h"

#include <check.h>
#include <string.h>

#define PATIENT 1

static gint64 next_id = 100;

gpointer
fixture_put (Fixture *fixture, gpointer fact)
{
  SwFact *head = fact;

  head->id = ++next_id;
  if (sw_fact_type (head->kind)->scope == SW_SCOPE_PRACTICE)
    {
      sw_facts_add (&fixture->practice->facts, fact);
      return fact;
    }
  head->patient = PATIENT;
  sw_facts_add (&fixture->dossier->facts, fact);
  return fact;
}

static SwDocument *
put_document (Fixture *fixture, SwDocumentKind kind, const char *folder, const char *id)
{
  g_autofree char *file = g_strconcat (id, ".xml", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", folder, file, NULL);
  SwDocument *document = sw_new (SW_FACT_DOCUMENT, SwDocument);
  SwAdoption *adoption = sw_new (SW_FACT_ADOPTION, SwAdoption);
  char *text;
  gsize size;

  ck_assert_msg (g_file_get_contents (path, &text, &size, NULL), "%s", path);
  document->doc_kind = adoption->doc_kind = kind;
  document->doc_id = g_strdup (id);
  adoption->doc_id = g_strdup (id);
  document->revision = g_strdup ("1");
  document->bytes = g_bytes_new_take (text, size);
  fixture_put (fixture, document);
  adoption->document = document->fact.id;
  fixture_put (fixture, adoption);
  return document;
}

/* The first answer of each question that the protocol and the interactions are content with. */
static void
answer_all (Fixture *fixture)
{
  static const char *const good[][2] = {
    { "sample", "cytology" }, { "grade", "kiupel-low" }, { "resectable", "no" }, { "reachable", "yes" },
    { "surface", "unbroken" }, { "surgical-bed", "no" }, { "function-site", "no" }, { "node", "hn0" },
    { "distant", "no" }, { "stage", "1" }, { "mediator-signs", "none" }, { "breeding", "none" }, { "diabetes", "no" },
    { "hyperadrenocorticism", "no" }, { "gastric-ulcer", "no" }, { "corneal-ulcer", "no" }, { "infection", "no" },
    { "heart-disease", "no" }, { "kidney-disease", "no" }, { "liver-disease", "no" },
    { "medicine-history", "complete" }, { "live-vaccine", "none" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    fixture_answer (fixture, good[i][0], good[i][1], SW_UNKNOWN);
}

static void
put_dog (Fixture *fixture)
{
  SwPatientDetails *patient = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);
  SwFact *tumour = fixture_put (fixture, sw_fact_new (SW_FACT_TUMOUR));
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);

  patient->species = g_strdup ("dog");
  patient->name = g_strdup ("Marlo");
  patient->born = TODAY - 5 * 365;
  fixture_put (fixture, patient);
  weight->grams = 24600;
  weight->day = TODAY;
  fixture_put (fixture, weight);
  details->tumour = fixture->tumour = tumour->id;
  details->region = SW_REGION_HOCK;
  details->depth = SW_DEPTH_CUTANEOUS;
  fixture_put (fixture, details);
  fixture_read (fixture, TODAY - 7, 2140, 1800, 890);
}

static void
put_course (Fixture *fixture, const SwDocument *protocol)
{
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  SwCourseDetails *details = sw_new (SW_FACT_COURSE_DETAILS, SwCourseDetails);
  SwCourseTumour *treated = sw_new (SW_FACT_COURSE_TUMOUR, SwCourseTumour);

  course->number = 1;
  fixture_put (fixture, course);
  details->course = treated->course = fixture->c.course = course->fact.id;
  details->document = protocol->fact.id;
  fixture_put (fixture, details);
  treated->tumour = fixture->tumour;
  treated->treat = 1;
  fixture_put (fixture, treated);
}

static SwDocument *
put_documents (Fixture *fixture, const char *protocol)
{
  static const char *const medicines[] = { "aspirin", "carprofen", "cetirizine", "chlorphenamine", "diphenhydramine",
                                           "famotidine", "gabapentin", "maropitant", "mavacoxib", "meloxicam",
                                           "methylprednisolone-acetate", "omeprazole", "prednisolone", "prednisone",
                                           "tramadol", "triamcinolone-acetonide" };

  for (guint i = 0; i < G_N_ELEMENTS (medicines); i++)
    put_document (fixture, SW_DOCUMENT_MEDICINE, "medicines", medicines[i]);
  put_document (fixture, SW_DOCUMENT_INTERACTIONS, "interactions", "interactions");
  return put_document (fixture, SW_DOCUMENT_PROTOCOL, "protocols", protocol);
}

Fixture *
fixture_new (const char *protocol)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  g_autoptr (GError) error = NULL;
  const SwDocument *document;

  fixture->practice = sw_practice_new ();
  fixture->dossier = sw_dossier_new (PATIENT);
  fixture->zone = g_time_zone_new_utc ();
  document = put_documents (fixture, protocol);
  fixture->books = sw_books_new (fixture->practice, &error);
  ck_assert_msg (fixture->books != NULL, "%s", error ? error->message : "");
  put_dog (fixture);
  put_course (fixture, document);
  answer_all (fixture);
  fixture->c.dossier = fixture->dossier;
  fixture->c.practice = fixture->practice;
  fixture->c.books = fixture->books;
  fixture->c.zone = fixture->zone;
  fixture->c.now = (SwMoment){ TODAY, 600 };
  return fixture;
}

void
fixture_free (Fixture *fixture)
{
  sw_books_unref (fixture->books);
  sw_dossier_free (fixture->dossier);
  sw_practice_free (fixture->practice);
  g_time_zone_unref (fixture->zone);
  g_free (fixture);
}

void
fixture_answer (Fixture *fixture, const char *code, const char *text, gint64 value)
{
  const SwQuestion *question = sw_question (code);
  SwAnswer *answer = sw_new (SW_FACT_ANSWER, SwAnswer);

  ck_assert_msg (question != NULL && sw_question_choice (question, text) != NULL, "%s: %s", code, text);
  answer->course = question->at == SW_ASKED_ON_TREATMENT_DAY ? fixture->c.course : 0;
  answer->tumour = question->of == SW_ASKED_OF_TUMOUR ? fixture->tumour : 0;
  answer->question = g_strdup (code);
  answer->answer = g_strdup (text);
  answer->day = TODAY;
  answer->value = value;
  fixture_put (fixture, answer);
}

void
fixture_unanswer (Fixture *fixture, const char *code)
{
  SwAnswer *answer;

  for (guint i = 0; (answer = sw_facts_next (&fixture->dossier->facts, SW_FACT_ANSWER, &i)) != NULL;)
    if (g_str_equal (answer->question, code))
      fixture_put (fixture, sw_fact_withdrawal (answer));
}

SwMedicineTaken *
fixture_take (Fixture *fixture, const char *substance, SwDay first, SwDay last)
{
  SwMedicineTaken *taken = sw_new (SW_FACT_MEDICINE_TAKEN, SwMedicineTaken);

  taken->substance = g_strdup (substance);
  taken->first_day = first;
  taken->last_day = last;
  taken->single_substance = 1;
  return fixture_put (fixture, taken);
}

void
fixture_setting (Fixture *fixture, const char *key, const char *value)
{
  SwSetting *setting = sw_new (SW_FACT_SETTING, SwSetting);

  setting->key = g_strdup (key);
  setting->value = g_strdup (value);
  fixture_put (fixture, setting);
}

SwReading *
fixture_read (Fixture *fixture, SwDay day, gint64 axis1, gint64 axis2, gint64 axis3)
{
  SwReading *reading = sw_new (SW_FACT_READING, SwReading);

  reading->tumour = fixture->tumour;
  reading->day = day;
  reading->axis1 = axis1;
  reading->axis2 = axis2;
  reading->axis3 = axis3;
  return fixture_put (fixture, reading);
}

SwPlan *
fixture_plan (Fixture *fixture, SwDay treat_day, const char *choices)
{
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);

  plan->course = fixture->c.course;
  plan->treat_day = treat_day;
  plan->choices = g_strdup (choices);
  return fixture_put (fixture, plan);
}

SwPatientDetails *
fixture_patient (Fixture *fixture)
{
  return sw_facts_last (&fixture->dossier->facts, SW_FACT_PATIENT_DETAILS);
}

SwTumourDetails *
fixture_tumour (Fixture *fixture)
{
  return sw_facts_last (&fixture->dossier->facts, SW_FACT_TUMOUR_DETAILS);
}

const SwFinding *
find_finding (const GPtrArray *findings, SwFindingCode code, const char *about)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (finding->code == code && (about == NULL || g_strcmp0 (finding->about, about) == 0))
        return finding;
    }
  return NULL;
}

int
severity_about (const GPtrArray *findings, const char *about)
{
  int worst = SW_N_SEVERITIES;

  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (g_strcmp0 (finding->about, about) == 0)
        worst = worst == SW_N_SEVERITIES ? (int) finding->severity : MAX (worst, (int) finding->severity);
    }
  return worst;
}

void
check_sentences (const GPtrArray *findings)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];
      g_autofree char *sentence = sw_finding_sentence (finding), *next = sw_finding_next (finding);

      ck_assert_msg (strpbrk (sentence, "{}") == NULL, "%s", sentence);
      ck_assert_msg (next == NULL || strpbrk (next, "{}") == NULL, "%s", next);
      ck_assert_msg (finding->severity < SW_VET_DECIDES || next != NULL, "%s offers nothing", sentence);
    }
}
