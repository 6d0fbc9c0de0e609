/* course-fixture.c
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "course-fixture.h"

#include "sw-gate.h"
#include "sw-question.h"
#include "sw-schedule.h"
#include "sw-suitability.h"

#include <check.h>

/* The scripted clock of what is recorded: a minute for every fact. */
static gint64 recorded_us = G_TIME_SPAN_DAY;

static gpointer
put (Fixture *fixture, gpointer fact)
{
  SwFact *head = fixture_put (fixture, fact);

  recorded_us += G_TIME_SPAN_MINUTE;
  head->recorded_us = recorded_us;
  head->person = TECHNICIAN;
  return fact;
}

void
course_at (Fixture *fixture, SwDay day, int minute)
{
  fixture->c.now = (SwMoment){ day, minute };
}

static void
resolve (gpointer fact, const GPtrArray *written)
{
  const SwFactType *type = sw_fact_type (((SwFact *) fact)->kind);

  for (guint i = 0; i < type->n_fields; i++)
    {
      gint64 value = type->fields[i].type == SW_FIELD_REF ? sw_fact_get_int (fact, &type->fields[i]) : 0;

      if (value >= 0)
        continue;
      ck_assert_uint_le (-value, written->len);
      sw_fact_set_int (fact, &type->fields[i], ((SwFact *) written->pdata[-value - 1])->id);
    }
}

void
course_write (Fixture *fixture, const GPtrArray *facts)
{
  g_autoptr (GPtrArray) written = g_ptr_array_new ();

  for (guint i = 0; i < facts->len; i++)
    {
      gpointer fact = sw_fact_copy (facts->pdata[i]);

      resolve (fact, written);
      g_ptr_array_add (written, put (fixture, fact));
    }
}

SwConsent *
course_consent (Fixture *fixture)
{
  SwConsent *consent = sw_new (SW_FACT_CONSENT, SwConsent);

  consent->course = fixture->c.course;
  consent->signer = g_strdup ("Aldane");
  consent->day = fixture->c.now.day;
  consent->minute = fixture->c.now.minute;
  consent->sheet_version = g_strdup ("1");
  consent->off_label = 1;
  consent->points = SW_CONSENT_ALL_POINTS;
  return put (fixture, consent);
}

SwPlan *
course_sign (Fixture *fixture, SwDay treat_day, const char *choices)
{
  const SwWeight *weight = sw_facts_last (&fixture->dossier->facts, SW_FACT_WEIGHT);
  SwScheduleOrder order = sw_schedule_order (&fixture->c, treat_day, weight->grams, choices);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&order);
  g_autoptr (GPtrArray) facts = NULL;
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);

  plan->course = fixture->c.course;
  plan->treat_day = treat_day;
  plan->weight = weight->fact.id;
  plan->choices = g_strdup (schedule->choices);
  facts = sw_schedule_facts (schedule, plan);
  course_write (fixture, facts);
  return (SwPlan *) sw_case_plan (&fixture->c);
}

void
course_lead_in (Fixture *fixture)
{
  course_at (fixture, TODAY, 7 * 60);
  course_consent (fixture);
  course_sign (fixture, TREAT, NULL);
}

const SwDosePlan *
course_dose (Fixture *fixture, const char *group, SwDay day, guint nth)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (g_str_equal (dose->group, group) && dose->due_day == day && nth-- == 0)
        return dose;
    }
  return NULL;
}

SwDoseEvent *
course_tell (Fixture *fixture, const SwDosePlan *dose, SwDoseState state, SwDay day, gint64 minute)
{
  SwDoseEvent *old, *event;

  ck_assert_ptr_nonnull (dose);
  old = (SwDoseEvent *) sw_dossier_dose_event (fixture->dossier, dose->dose);
  event = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_DOSE_EVENT, SwDoseEvent);
  event->course = fixture->c.course;
  event->dose = dose->dose;
  event->state = state;
  event->day = day;
  event->minute = minute;
  return put (fixture, event);
}

void
course_tell_all (Fixture *fixture)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (fixture->dossier, fixture->c.course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      SwMoment due = { dose->due_day, (int) dose->due_minute };

      if (sw_moment_compare (due, fixture->c.now) <= 0 && sw_dossier_dose_event (fixture->dossier, dose->dose) == NULL)
        course_tell (fixture, dose, SW_DOSE_GIVEN, dose->due_day, dose->due_minute);
    }
}

void
course_answer (Fixture *fixture, const char *question, const char *answer, SwDay day)
{
  SwAnswer *row;

  fixture_answer (fixture, question, answer, SW_UNKNOWN);
  row = sw_facts_last (&fixture->dossier->facts, SW_FACT_ANSWER);
  row->day = day;
}

SwWeight *
course_weigh (Fixture *fixture, SwDay day, gint64 grams)
{
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->grams = grams;
  weight->day = day;
  return put (fixture, weight);
}

SwReadAloud *
course_read_aloud (Fixture *fixture, SwReadAloudStage stage)
{
  SwReadAloud *row = sw_new (SW_FACT_READ_ALOUD, SwReadAloud);

  row->course = fixture->c.course;
  row->stage = stage;
  row->second = VET;
  row->day = fixture->c.now.day;
  row->minute = fixture->c.now.minute;
  return put (fixture, row);
}

static void
answer_today (Fixture *fixture)
{
  static const char *const good[][2] = {
    { "vomiting-today", "none" }, { "stool-today", "normal" }, { "appetite-today", "normal" }, { "nsaid-today", "no" },
    { "nodes-today", "unchanged" }, { "new-lumps-today", "no" }, { "suitability-today", "stands" },
    { "surface-today", "unbroken" }, { "marked-today", "skin" },
    { "adrenaline-today", "yes" }, { "fluids-today", "yes" },
    { "antihistamine-today", "yes" }, { "corticosteroid-today", "yes" }, { "oxygen-today", "yes" },
    { "vein-access-today", "placed" }, { "eye-protection-today", "yes" }, { "gloves-today", "yes" },
    { "luer-lock-today", "yes" }, { "sharps-box-today", "yes" }, { "restraint-today", "none" },
    { "emetic-sedative-today", "no" }, { "food-today", "mouthful" }, { "water-today", "free" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    course_answer (fixture, good[i][0], good[i][1], fixture->c.now.day);
}

void
course_treatment_day (Fixture *fixture)
{
  const SwPlan *plan = sw_case_plan (&fixture->c);

  course_at (fixture, plan->treat_day, 9 * 60 + 30);
  course_tell_all (fixture);
  course_weigh (fixture, fixture->c.now.day, 24600);
  fixture_read (fixture, fixture->c.now.day, 2140, 1800, 890);
  fixture_read (fixture, fixture->c.now.day, 2100, 1760, 910);
  answer_today (fixture);
  course_read_aloud (fixture, SW_READ_ALOUD_BEFORE_RELEASE);
}

SwRelease *
course_release (Fixture *fixture)
{
  SwRelease *release = sw_new (SW_FACT_RELEASE, SwRelease);
  SwReleaseTumour *row = sw_new (SW_FACT_RELEASE_TUMOUR, SwReleaseTumour);

  release->course = row->course = fixture->c.course;
  release->day = fixture->c.now.day;
  release->minute = fixture->c.now.minute;
  release->total_nl = 850000;
  put (fixture, release);
  row->release = release->fact.id;
  row->tumour = fixture->tumour;
  row->drawn_nl = 850000;
  put (fixture, row);
  return release;
}

SwInjection *
course_inject (Fixture *fixture)
{
  SwInjection *injection = sw_new (SW_FACT_INJECTION, SwInjection);
  SwInjectionTumour *row = sw_new (SW_FACT_INJECTION_TUMOUR, SwInjectionTumour);

  injection->course = row->course = fixture->c.course;
  injection->release = sw_dossier_release (fixture->dossier, fixture->c.course)->fact.id;
  injection->day = fixture->c.now.day;
  injection->minute = fixture->c.now.minute;
  injection->injector = VET;
  put (fixture, injection);
  row->injection = injection->fact.id;
  row->tumour = fixture->tumour;
  row->drawn_nl = row->given_nl = 850000;
  put (fixture, row);
  return injection;
}

void
course_discharge (Fixture *fixture)
{
  SwDischarge *discharge = sw_new (SW_FACT_DISCHARGE, SwDischarge);

  discharge->course = fixture->c.course;
  discharge->day = fixture->c.now.day;
  put (fixture, discharge);
}

SwVisit *
course_visit (Fixture *fixture, SwDay day)
{
  SwVisit *visit = sw_new (SW_FACT_VISIT, SwVisit);

  visit->course = fixture->c.course;
  visit->day = day;
  return put (fixture, visit);
}

SwScore *
course_score (Fixture *fixture, SwDay day, SwCategory category)
{
  SwScore *score = sw_new (SW_FACT_SCORE, SwScore);

  score->course = fixture->c.course;
  score->tumour = fixture->tumour;
  score->day = day;
  score->category = category;
  return put (fixture, score);
}

void
course_follow (Fixture *fixture)
{
  const SwCourseDetails *before = sw_case_details (&fixture->c);
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  SwCourseDetails *details = sw_new (SW_FACT_COURSE_DETAILS, SwCourseDetails);
  SwCourseTumour *treated = sw_new (SW_FACT_COURSE_TUMOUR, SwCourseTumour);

  details->document = before->document;
  details->follows = fixture->c.course;
  put (fixture, course);
  details->course = treated->course = fixture->c.course = course->fact.id;
  treated->tumour = fixture->tumour;
  treated->treat = 1;
  put (fixture, details);
  put (fixture, treated);
}

void
course_reason (Fixture *fixture, const SwFinding *finding)
{
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);

  reason->course = fixture->c.course;
  reason->tumour = finding->tumour;
  reason->finding = g_strdup (sw_finding_code (finding->code));
  reason->about = g_strdup (finding->about);
  reason->reason = g_strdup ("as the vet decided");
  put (fixture, reason);
}

void
course_check_only (Fixture *fixture, GPtrArray *findings, SwFindingCode code, const char *about)
{
  g_autoptr (GPtrArray) open = sw_findings_open (&fixture->c, findings);

  check_sentences (findings);
  ck_assert_msg (find_finding (open, code, about) != NULL, "%s is not among %u", sw_finding_code (code), open->len);
  for (guint i = 0; i < open->len; i++)
    {
      const SwFinding *finding = open->pdata[i];
      g_autofree char *sentence = sw_finding_sentence (finding);

      ck_assert_msg (finding->code == code, "%s: %s", sw_finding_code (finding->code), sentence);
    }
  ck_assert (!sw_gate_passes (&fixture->c, findings));
}

void
course_check_passes (Fixture *fixture, GPtrArray *findings)
{
  g_autoptr (GPtrArray) open = sw_findings_open (&fixture->c, findings);
  g_autofree char *sentence = open->len > 0 ? sw_finding_sentence (open->pdata[0]) : NULL;

  ck_assert_msg (open->len == 0, "%s", sentence);
  ck_assert (sw_gate_passes (&fixture->c, findings));
}

void
course_withdraw_all (Fixture *fixture, SwFactKind kind)
{
  gpointer fact;

  for (guint i = 0; (fact = sw_facts_next (&fixture->dossier->facts, kind, &i)) != NULL;)
    fixture_put (fixture, sw_fact_withdrawal (fact));
}

void
course_lose_consent (Fixture *fixture)
{
  course_withdraw_all (fixture, SW_FACT_CONSENT);
}

void
course_take_back_consent (Fixture *fixture)
{
  ((SwConsent *) sw_facts_last (&fixture->dossier->facts, SW_FACT_CONSENT))->state = SW_CONSENT_WITHDRAWN;
}
