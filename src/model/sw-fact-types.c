/* sw-fact-types.c: the descriptor of every fact: column, type, place in the struct
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-fact.h"

#define INT(T, member) { #member, SW_FIELD_INT, G_STRUCT_OFFSET (T, member), FALSE, FALSE, 0 }
#define INT_OR_NONE(T, member) { #member, SW_FIELD_INT, G_STRUCT_OFFSET (T, member), TRUE, FALSE, 0 }
#define INT_SUBJECT(T, member) { #member, SW_FIELD_INT, G_STRUCT_OFFSET (T, member), FALSE, TRUE, 0 }
#define TEXT(T, member) { #member, SW_FIELD_TEXT, G_STRUCT_OFFSET (T, member), FALSE, FALSE, 0 }
#define TEXT_OR_NONE(T, member) { #member, SW_FIELD_TEXT, G_STRUCT_OFFSET (T, member), TRUE, FALSE, 0 }
#define TEXT_SUBJECT(T, member) { #member, SW_FIELD_TEXT, G_STRUCT_OFFSET (T, member), FALSE, TRUE, 0 }
#define TEXT_OR_NONE_SUBJECT(T, member) { #member, SW_FIELD_TEXT, G_STRUCT_OFFSET (T, member), TRUE, TRUE, 0 }
#define BYTES(T, member) { #member, SW_FIELD_BYTES, G_STRUCT_OFFSET (T, member), FALSE, FALSE, 0 }
#define REF(T, member, KIND) { #member, SW_FIELD_REF, G_STRUCT_OFFSET (T, member), FALSE, FALSE, SW_FACT_##KIND }
#define REF_OR_NONE(T, member, KIND) { #member, SW_FIELD_REF, G_STRUCT_OFFSET (T, member), TRUE, FALSE, SW_FACT_##KIND }
#define REF_SUBJECT(T, member, KIND) { #member, SW_FIELD_REF, G_STRUCT_OFFSET (T, member), FALSE, TRUE, SW_FACT_##KIND }
#define REF_OR_NONE_SUBJECT(T, member, KIND) { #member, SW_FIELD_REF, G_STRUCT_OFFSET (T, member), TRUE, TRUE, SW_FACT_##KIND }

static const SwField person_details_fields[] = {
  REF_SUBJECT (SwPersonDetails, person, PERSON),
  TEXT (SwPersonDetails, name),
  INT (SwPersonDetails, roles),
  INT (SwPersonDetails, active),
};

static const SwField client_details_fields[] = {
  REF_SUBJECT (SwClientDetails, client, CLIENT),
  TEXT (SwClientDetails, name),
  TEXT_OR_NONE (SwClientDetails, phone),
  TEXT_OR_NONE (SwClientDetails, other_phone),
  TEXT_OR_NONE (SwClientDetails, address),
  TEXT_OR_NONE (SwClientDetails, note),
};

static const SwField setting_fields[] = {
  TEXT_SUBJECT (SwSetting, key),
  TEXT (SwSetting, value),
};

static const SwField document_fields[] = {
  INT (SwDocument, doc_kind),
  TEXT (SwDocument, doc_id),
  TEXT (SwDocument, revision),
  TEXT (SwDocument, digest),
  BYTES (SwDocument, bytes),
};

static const SwField adoption_fields[] = {
  REF (SwAdoption, document, DOCUMENT),
  INT_SUBJECT (SwAdoption, doc_kind),
  TEXT_SUBJECT (SwAdoption, doc_id),
  TEXT (SwAdoption, ticks),
};

static const SwField patient_details_fields[] = {
  REF (SwPatientDetails, client, CLIENT),
  TEXT (SwPatientDetails, name),
  TEXT (SwPatientDetails, species),
  TEXT_OR_NONE (SwPatientDetails, breed),
  INT_OR_NONE (SwPatientDetails, sex),
  INT_OR_NONE (SwPatientDetails, neutered),
  INT_OR_NONE (SwPatientDetails, born),
  INT (SwPatientDetails, born_exact),
  TEXT_OR_NONE (SwPatientDetails, markings),
};

static const SwField weight_fields[] = {
  INT (SwWeight, grams),
  INT (SwWeight, day),
  INT (SwWeight, minute),
  TEXT (SwWeight, typed),
  TEXT_OR_NONE (SwWeight, scale),
};

static const SwField tumour_details_fields[] = {
  REF_SUBJECT (SwTumourDetails, tumour, TUMOUR),
  INT (SwTumourDetails, letter),
  INT (SwTumourDetails, region),
  INT (SwTumourDetails, side),
  INT (SwTumourDetails, depth),
  INT_OR_NONE (SwTumourDetails, view),
  INT_OR_NONE (SwTumourDetails, x),
  INT_OR_NONE (SwTumourDetails, y),
  INT (SwTumourDetails, found),
  TEXT_OR_NONE (SwTumourDetails, description),
};

static const SwField answer_fields[] = {
  REF_OR_NONE_SUBJECT (SwAnswer, course, COURSE),
  REF_OR_NONE_SUBJECT (SwAnswer, tumour, TUMOUR),
  TEXT_SUBJECT (SwAnswer, question),
  TEXT (SwAnswer, answer),
  INT_SUBJECT (SwAnswer, day),
  INT (SwAnswer, minute),
  INT_OR_NONE (SwAnswer, value),
  TEXT_OR_NONE (SwAnswer, note),
};

static const SwField reason_fields[] = {
  REF_SUBJECT (SwReason, course, COURSE),
  REF_OR_NONE_SUBJECT (SwReason, tumour, TUMOUR),
  TEXT_SUBJECT (SwReason, finding),
  TEXT_OR_NONE_SUBJECT (SwReason, about),
  TEXT (SwReason, reason),
};

static const SwField medicine_taken_fields[] = {
  TEXT (SwMedicineTaken, substance),
  TEXT_OR_NONE (SwMedicineTaken, product),
  INT_OR_NONE (SwMedicineTaken, dose_ug),
  INT_OR_NONE (SwMedicineTaken, per_day_milli),
  INT_OR_NONE (SwMedicineTaken, first_day),
  INT_OR_NONE (SwMedicineTaken, last_day),
  INT (SwMedicineTaken, form),
  INT_OR_NONE (SwMedicineTaken, single_substance),
  INT_OR_NONE (SwMedicineTaken, xylitol_free),
  TEXT_OR_NONE (SwMedicineTaken, note),
};

static const SwField course_fields[] = {
  INT (SwCourse, number),
};

static const SwField course_details_fields[] = {
  REF_SUBJECT (SwCourseDetails, course, COURSE),
  REF (SwCourseDetails, document, DOCUMENT),
  REF_OR_NONE (SwCourseDetails, follows, COURSE),
  TEXT_OR_NONE (SwCourseDetails, purpose),
};

static const SwField course_tumour_fields[] = {
  REF_SUBJECT (SwCourseTumour, course, COURSE),
  REF_SUBJECT (SwCourseTumour, tumour, TUMOUR),
  INT (SwCourseTumour, treat),
};

static const SwField consent_fields[] = {
  REF_SUBJECT (SwConsent, course, COURSE),
  INT (SwConsent, state),
  TEXT (SwConsent, signer),
  INT (SwConsent, day),
  INT (SwConsent, minute),
  TEXT (SwConsent, sheet_version),
  INT (SwConsent, off_label),
  INT (SwConsent, points),
  TEXT_OR_NONE (SwConsent, note),
};

static const SwField plan_fields[] = {
  REF_SUBJECT (SwPlan, course, COURSE),
  INT (SwPlan, treat_day),
  REF (SwPlan, weight, WEIGHT),
  TEXT (SwPlan, choices),
  INT (SwPlan, cause),
  INT_OR_NONE (SwPlan, moved_from),
  TEXT_OR_NONE (SwPlan, reason),
  TEXT_OR_NONE (SwPlan, vet_orders),
};

static const SwField dose_fields[] = {
  REF (SwDose, course, COURSE),
};

static const SwField dose_plan_fields[] = {
  REF (SwDosePlan, course, COURSE),
  REF_SUBJECT (SwDosePlan, dose, DOSE),
  REF (SwDosePlan, plan, PLAN),
  TEXT (SwDosePlan, group),
  TEXT (SwDosePlan, substance),
  INT (SwDosePlan, day_number),
  INT (SwDosePlan, due_day),
  INT (SwDosePlan, due_minute),
  INT (SwDosePlan, every_minutes),
  INT (SwDosePlan, dose_ug),
  INT_OR_NONE (SwDosePlan, strength_ug),
  INT_OR_NONE (SwDosePlan, halves),
  INT_OR_NONE (SwDosePlan, volume_nl),
  REF_OR_NONE (SwDosePlan, instead_of, DOSE),
};

static const SwField dose_event_fields[] = {
  REF (SwDoseEvent, course, COURSE),
  REF_SUBJECT (SwDoseEvent, dose, DOSE),
  INT (SwDoseEvent, state),
  INT_OR_NONE (SwDoseEvent, day),
  INT_OR_NONE (SwDoseEvent, minute),
  TEXT_OR_NONE (SwDoseEvent, told_by),
  TEXT_OR_NONE (SwDoseEvent, note),
};

static const SwField reading_fields[] = {
  REF_OR_NONE (SwReading, course, COURSE),
  REF (SwReading, tumour, TUMOUR),
  INT (SwReading, day),
  INT (SwReading, minute),
  INT (SwReading, axis1),
  INT (SwReading, axis2),
  INT (SwReading, axis3),
  TEXT (SwReading, typed),
};

static const SwField read_aloud_fields[] = {
  REF (SwReadAloud, course, COURSE),
  INT (SwReadAloud, stage),
  REF (SwReadAloud, second, PERSON),
  INT (SwReadAloud, day),
  INT (SwReadAloud, minute),
  INT (SwReadAloud, alone),
};

static const SwField release_fields[] = {
  REF_SUBJECT (SwRelease, course, COURSE),
  INT (SwRelease, day),
  INT (SwRelease, minute),
  REF (SwRelease, weight, WEIGHT),
  REF_OR_NONE (SwRelease, plan, PLAN),
  REF_OR_NONE (SwRelease, read_aloud, READ_ALOUD),
  INT (SwRelease, total_nl),
  TEXT (SwRelease, frozen),
  TEXT (SwRelease, gate),
  INT (SwRelease, outside),
  TEXT_OR_NONE (SwRelease, reason),
};

static const SwField release_tumour_fields[] = {
  REF (SwReleaseTumour, course, COURSE),
  REF_SUBJECT (SwReleaseTumour, release, RELEASE),
  REF_SUBJECT (SwReleaseTumour, tumour, TUMOUR),
  TEXT (SwReleaseTumour, readings),
  INT (SwReleaseTumour, volume_mm3),
  INT (SwReleaseTumour, dose_nl),
  INT (SwReleaseTumour, drawn_nl),
  INT (SwReleaseTumour, syringe_nl),
};

static const SwField injection_fields[] = {
  REF_SUBJECT (SwInjection, course, COURSE),
  REF (SwInjection, release, RELEASE),
  INT (SwInjection, day),
  INT (SwInjection, minute),
  REF_OR_NONE (SwInjection, read_aloud, READ_ALOUD),
  REF (SwInjection, injector, PERSON),
  REF_OR_NONE (SwInjection, assistant, PERSON),
  TEXT (SwInjection, needle),
  TEXT_OR_NONE (SwInjection, unexpected),
  INT (SwInjection, outside),
  INT (SwInjection, past_limit),
  TEXT (SwInjection, gate),
  TEXT_OR_NONE (SwInjection, reason),
};

static const SwField injection_tumour_fields[] = {
  REF (SwInjectionTumour, course, COURSE),
  REF_SUBJECT (SwInjectionTumour, injection, INJECTION),
  REF_SUBJECT (SwInjectionTumour, tumour, TUMOUR),
  INT (SwInjectionTumour, drawn_nl),
  INT (SwInjectionTumour, given_nl),
  TEXT_OR_NONE (SwInjectionTumour, reason),
};

static const SwField vial_fields[] = {
  REF (SwVial, course, COURSE),
  REF (SwVial, injection, INJECTION),
  TEXT (SwVial, lot),
  INT (SwVial, expiry),
  TEXT (SwVial, agent),
  INT (SwVial, strength_ug_ml),
  INT (SwVial, left_nl),
  TEXT_OR_NONE (SwVial, disposal),
  REF_OR_NONE (SwVial, witness, PERSON),
};

static const SwField observation_fields[] = {
  REF (SwObservation, course, COURSE),
  INT (SwObservation, day),
  INT (SwObservation, minute),
  INT_OR_NONE (SwObservation, heart_rate),
  TEXT_OR_NONE (SwObservation, gums),
  TEXT_OR_NONE (SwObservation, breathing),
  INT_OR_NONE (SwObservation, vomiting),
  TEXT_OR_NONE (SwObservation, site),
  TEXT_OR_NONE (SwObservation, note),
};

static const SwField discharge_fields[] = {
  REF_SUBJECT (SwDischarge, course, COURSE),
  INT (SwDischarge, day),
  INT (SwDischarge, minute),
  TEXT (SwDischarge, night_number),
  TEXT (SwDischarge, eight_hour_contact),
  TEXT_OR_NONE (SwDischarge, note),
};

static const SwField visit_fields[] = {
  REF (SwVisit, course, COURSE),
  INT_OR_NONE (SwVisit, planned_day),
  INT (SwVisit, day),
  INT (SwVisit, minute),
  INT (SwVisit, mode),
  INT_OR_NONE (SwVisit, pain),
  INT_OR_NONE (SwVisit, cover),
  INT_OR_NONE (SwVisit, cover_until),
  TEXT_OR_NONE (SwVisit, note),
};

static const SwField wound_fields[] = {
  REF (SwWound, course, COURSE),
  REF_SUBJECT (SwWound, tumour, TUMOUR),
  REF_SUBJECT (SwWound, visit, VISIT),
  INT (SwWound, day),
  INT (SwWound, state),
  INT_OR_NONE (SwWound, length),
  INT_OR_NONE (SwWound, width),
  TEXT_OR_NONE (SwWound, note),
};

static const SwField look_fields[] = {
  REF_OR_NONE_SUBJECT (SwLook, course, COURSE),
  REF_SUBJECT (SwLook, tumour, TUMOUR),
  INT_SUBJECT (SwLook, day),
  INT (SwLook, state),
  TEXT_OR_NONE (SwLook, note),
};

static const SwField score_fields[] = {
  REF_SUBJECT (SwScore, course, COURSE),
  REF_SUBJECT (SwScore, tumour, TUMOUR),
  INT_SUBJECT (SwScore, day),
  INT (SwScore, category),
  INT (SwScore, baseline_sum),
  INT (SwScore, baseline_count),
  INT (SwScore, smallest_sum),
  INT (SwScore, smallest_count),
  INT_OR_NONE (SwScore, now_sum),
  INT_OR_NONE (SwScore, now_count),
  INT (SwScore, wound_open),
  INT (SwScore, counts_as_day_28),
  TEXT (SwScore, next_step),
  TEXT_OR_NONE (SwScore, note),
};

static const SwField overall_fields[] = {
  REF_SUBJECT (SwOverall, course, COURSE),
  INT_SUBJECT (SwOverall, day),
  INT (SwOverall, category),
  INT (SwOverall, non_targets),
  INT (SwOverall, new_tumour),
};

static const SwField recurrence_fields[] = {
  REF_SUBJECT (SwRecurrence, course, COURSE),
  REF_SUBJECT (SwRecurrence, tumour, TUMOUR),
  INT (SwRecurrence, day),
  INT (SwRecurrence, sampled),
  INT_OR_NONE (SwRecurrence, distance),
  TEXT_OR_NONE (SwRecurrence, note),
};

static const SwField course_end_fields[] = {
  REF_SUBJECT (SwCourseEnd, course, COURSE),
  INT (SwCourseEnd, end),
  INT_OR_NONE (SwCourseEnd, cause),
  INT (SwCourseEnd, day),
  INT (SwCourseEnd, certain),
  TEXT_OR_NONE (SwCourseEnd, vet_orders),
  TEXT_OR_NONE (SwCourseEnd, note),
};

static const SwField contact_fields[] = {
  REF (SwContact, course, COURSE),
  INT (SwContact, day),
  INT (SwContact, minute),
  INT (SwContact, reached),
  TEXT_OR_NONE (SwContact, note),
};

static const SwFactType types[SW_N_FACTS] = {
  [SW_FACT_PERSON] = { "person", sizeof (SwPerson), SW_SCOPE_PRACTICE, TRUE, NULL, 0 },
  [SW_FACT_PERSON_DETAILS] = { "person_details", sizeof (SwPersonDetails), SW_SCOPE_PRACTICE, FALSE, person_details_fields, G_N_ELEMENTS (person_details_fields) },
  [SW_FACT_CLIENT] = { "client", sizeof (SwClient), SW_SCOPE_CLIENT, TRUE, NULL, 0 },
  [SW_FACT_CLIENT_DETAILS] = { "client_details", sizeof (SwClientDetails), SW_SCOPE_CLIENT, FALSE, client_details_fields, G_N_ELEMENTS (client_details_fields) },
  [SW_FACT_SETTING] = { "setting", sizeof (SwSetting), SW_SCOPE_PRACTICE, FALSE, setting_fields, G_N_ELEMENTS (setting_fields) },
  [SW_FACT_DOCUMENT] = { "document", sizeof (SwDocument), SW_SCOPE_PRACTICE, TRUE, document_fields, G_N_ELEMENTS (document_fields) },
  [SW_FACT_ADOPTION] = { "adoption", sizeof (SwAdoption), SW_SCOPE_PRACTICE, FALSE, adoption_fields, G_N_ELEMENTS (adoption_fields) },
  [SW_FACT_PATIENT] = { "patient", sizeof (SwPatient), SW_SCOPE_PATIENT, TRUE, NULL, 0 },
  [SW_FACT_PATIENT_DETAILS] = { "patient_details", sizeof (SwPatientDetails), SW_SCOPE_PATIENT, FALSE, patient_details_fields, G_N_ELEMENTS (patient_details_fields) },
  [SW_FACT_WEIGHT] = { "weight", sizeof (SwWeight), SW_SCOPE_PATIENT, FALSE, weight_fields, G_N_ELEMENTS (weight_fields) },
  [SW_FACT_TUMOUR] = { "tumour", sizeof (SwTumour), SW_SCOPE_PATIENT, TRUE, NULL, 0 },
  [SW_FACT_TUMOUR_DETAILS] = { "tumour_details", sizeof (SwTumourDetails), SW_SCOPE_PATIENT, FALSE, tumour_details_fields, G_N_ELEMENTS (tumour_details_fields) },
  [SW_FACT_ANSWER] = { "answer", sizeof (SwAnswer), SW_SCOPE_PATIENT, FALSE, answer_fields, G_N_ELEMENTS (answer_fields) },
  [SW_FACT_REASON] = { "reason", sizeof (SwReason), SW_SCOPE_PATIENT, FALSE, reason_fields, G_N_ELEMENTS (reason_fields) },
  [SW_FACT_MEDICINE_TAKEN] = { "medicine_taken", sizeof (SwMedicineTaken), SW_SCOPE_PATIENT, FALSE, medicine_taken_fields, G_N_ELEMENTS (medicine_taken_fields) },
  [SW_FACT_COURSE] = { "course", sizeof (SwCourse), SW_SCOPE_PATIENT, TRUE, course_fields, G_N_ELEMENTS (course_fields) },
  [SW_FACT_COURSE_DETAILS] = { "course_details", sizeof (SwCourseDetails), SW_SCOPE_PATIENT, FALSE, course_details_fields, G_N_ELEMENTS (course_details_fields) },
  [SW_FACT_COURSE_TUMOUR] = { "course_tumour", sizeof (SwCourseTumour), SW_SCOPE_PATIENT, FALSE, course_tumour_fields, G_N_ELEMENTS (course_tumour_fields) },
  [SW_FACT_CONSENT] = { "consent", sizeof (SwConsent), SW_SCOPE_PATIENT, FALSE, consent_fields, G_N_ELEMENTS (consent_fields) },
  [SW_FACT_PLAN] = { "plan", sizeof (SwPlan), SW_SCOPE_PATIENT, FALSE, plan_fields, G_N_ELEMENTS (plan_fields) },
  [SW_FACT_DOSE] = { "dose", sizeof (SwDose), SW_SCOPE_PATIENT, TRUE, dose_fields, G_N_ELEMENTS (dose_fields) },
  [SW_FACT_DOSE_PLAN] = { "dose_plan", sizeof (SwDosePlan), SW_SCOPE_PATIENT, FALSE, dose_plan_fields, G_N_ELEMENTS (dose_plan_fields) },
  [SW_FACT_DOSE_EVENT] = { "dose_event", sizeof (SwDoseEvent), SW_SCOPE_PATIENT, FALSE, dose_event_fields, G_N_ELEMENTS (dose_event_fields) },
  [SW_FACT_READING] = { "reading", sizeof (SwReading), SW_SCOPE_PATIENT, FALSE, reading_fields, G_N_ELEMENTS (reading_fields) },
  [SW_FACT_READ_ALOUD] = { "read_aloud", sizeof (SwReadAloud), SW_SCOPE_PATIENT, FALSE, read_aloud_fields, G_N_ELEMENTS (read_aloud_fields) },
  [SW_FACT_RELEASE] = { "release", sizeof (SwRelease), SW_SCOPE_PATIENT, FALSE, release_fields, G_N_ELEMENTS (release_fields) },
  [SW_FACT_RELEASE_TUMOUR] = { "release_tumour", sizeof (SwReleaseTumour), SW_SCOPE_PATIENT, FALSE, release_tumour_fields, G_N_ELEMENTS (release_tumour_fields) },
  [SW_FACT_INJECTION] = { "injection", sizeof (SwInjection), SW_SCOPE_PATIENT, FALSE, injection_fields, G_N_ELEMENTS (injection_fields) },
  [SW_FACT_INJECTION_TUMOUR] = { "injection_tumour", sizeof (SwInjectionTumour), SW_SCOPE_PATIENT, FALSE, injection_tumour_fields, G_N_ELEMENTS (injection_tumour_fields) },
  [SW_FACT_VIAL] = { "vial", sizeof (SwVial), SW_SCOPE_PATIENT, FALSE, vial_fields, G_N_ELEMENTS (vial_fields) },
  [SW_FACT_OBSERVATION] = { "observation", sizeof (SwObservation), SW_SCOPE_PATIENT, FALSE, observation_fields, G_N_ELEMENTS (observation_fields) },
  [SW_FACT_DISCHARGE] = { "discharge", sizeof (SwDischarge), SW_SCOPE_PATIENT, FALSE, discharge_fields, G_N_ELEMENTS (discharge_fields) },
  [SW_FACT_VISIT] = { "visit", sizeof (SwVisit), SW_SCOPE_PATIENT, FALSE, visit_fields, G_N_ELEMENTS (visit_fields) },
  [SW_FACT_WOUND] = { "wound", sizeof (SwWound), SW_SCOPE_PATIENT, FALSE, wound_fields, G_N_ELEMENTS (wound_fields) },
  [SW_FACT_LOOK] = { "look", sizeof (SwLook), SW_SCOPE_PATIENT, FALSE, look_fields, G_N_ELEMENTS (look_fields) },
  [SW_FACT_SCORE] = { "score", sizeof (SwScore), SW_SCOPE_PATIENT, FALSE, score_fields, G_N_ELEMENTS (score_fields) },
  [SW_FACT_OVERALL] = { "overall", sizeof (SwOverall), SW_SCOPE_PATIENT, FALSE, overall_fields, G_N_ELEMENTS (overall_fields) },
  [SW_FACT_RECURRENCE] = { "recurrence", sizeof (SwRecurrence), SW_SCOPE_PATIENT, FALSE, recurrence_fields, G_N_ELEMENTS (recurrence_fields) },
  [SW_FACT_COURSE_END] = { "course_end", sizeof (SwCourseEnd), SW_SCOPE_PATIENT, FALSE, course_end_fields, G_N_ELEMENTS (course_end_fields) },
  [SW_FACT_CONTACT] = { "contact", sizeof (SwContact), SW_SCOPE_PATIENT, FALSE, contact_fields, G_N_ELEMENTS (contact_fields) },
};

const SwFactType *
sw_fact_type (SwFactKind kind)
{
  g_return_val_if_fail ((guint) kind < SW_N_FACTS, NULL);
  return &types[kind];
}

int
sw_fact_kind_from_table (const char *table)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    if (g_strcmp0 (types[kind].table, table) == 0)
      return kind;
  return -1;
}
