/* sw-fact.h: everything the record holds, as plain values
 *
 * A fact is a row that is written once and never changed. A correction is a new fact that names the row it replaces; taking something
 * back is a replacing row with `withdrawn` set. Entities (person, client, patient, tumour, course, dose, document) hold only number,
 * act and owner; all that can be corrected about them lies in facts that point at them.
 *
 * Units inside: lengths 0.01 mm, masses g (medicines ug), drug volumes nL, days SwDay, minutes of the local day 0-1439, all in
 * gint64; SW_UNKNOWN where a nullable number has no value, 0 where a nullable reference points nowhere, NULL for missing text.
 * One table of descriptors (sw_fact_type) drives storing, loading, the journal's payload and export, so a column is named once.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"
#include "sw-unknown.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_FACT_PERSON,
  SW_FACT_PERSON_DETAILS,
  SW_FACT_CLIENT,
  SW_FACT_CLIENT_DETAILS,
  SW_FACT_SETTING,
  SW_FACT_DOCUMENT,
  SW_FACT_ADOPTION,
  SW_FACT_PATIENT,
  SW_FACT_PATIENT_DETAILS,
  SW_FACT_WEIGHT,
  SW_FACT_TUMOUR,
  SW_FACT_TUMOUR_DETAILS,
  SW_FACT_ANSWER,
  SW_FACT_REASON,
  SW_FACT_MEDICINE_TAKEN,
  SW_FACT_COURSE,
  SW_FACT_COURSE_DETAILS,
  SW_FACT_COURSE_TUMOUR,
  SW_FACT_CONSENT,
  SW_FACT_PLAN,
  SW_FACT_DOSE,
  SW_FACT_DOSE_PLAN,
  SW_FACT_DOSE_EVENT,
  SW_FACT_READING,
  SW_FACT_READ_ALOUD,
  SW_FACT_RELEASE,
  SW_FACT_RELEASE_TUMOUR,
  SW_FACT_INJECTION,
  SW_FACT_INJECTION_TUMOUR,
  SW_FACT_VIAL,
  SW_FACT_OBSERVATION,
  SW_FACT_DISCHARGE,
  SW_FACT_VISIT,
  SW_FACT_WOUND,
  SW_FACT_LOOK,
  SW_FACT_SCORE,
  SW_FACT_OVERALL,
  SW_FACT_RECURRENCE,
  SW_FACT_COURSE_END,
  SW_FACT_CONTACT,
  SW_N_FACTS
} SwFactKind;

/* What a fact is about: loading a patient's dossier reads the facts of that patient. */
typedef enum { SW_SCOPE_PRACTICE, SW_SCOPE_CLIENT, SW_SCOPE_PATIENT } SwScope;

typedef enum
{
  SW_FIELD_INT,   /* gint64; nullable: SW_UNKNOWN */
  SW_FIELD_REF,   /* gint64 id of a row of `refers_to`; nullable: 0. Before writing, -n names the n-th fact of the same act */
  SW_FIELD_TEXT,  /* char *; nullable: NULL */
  SW_FIELD_BYTES, /* GBytes * */
} SwFieldType;

typedef struct
{
  const char *column;
  SwFieldType type;
  gsize offset;
  gboolean nullable;
  gboolean subject;     /* part of what the row is about: one current row for each subject */
  SwFactKind refers_to; /* SW_FIELD_REF only */
} SwField;

typedef struct
{
  const char *table; /* the SQL table and, with _now appended, the view of current rows */
  gsize size;
  SwScope scope;
  gboolean entity; /* never replaced; no columns `replaces` and `withdrawn` */
  const SwField *fields;
  guint n_fields;
} SwFactType;

/**
 * SwFact: the head that every fact begins with.
 *
 * `patient` is 0 outside SW_SCOPE_PATIENT. An entity patient has its own id as `patient`. The last four are filled when loading.
 */
typedef struct
{
  SwFactKind kind;
  gint64 id;          /* 0 = not written yet */
  gint64 patient;     /* -n while the patient is the n-th fact of the same act */
  gint64 replaces;    /* 0 = the first row of its subject */
  gboolean withdrawn; /* this row takes its subject back */
  gint64 act;
  gint64 person;      /* who recorded it */
  gint64 recorded_us; /* when, UTC microseconds */
  gint64 replaced_by; /* 0 = current */
} SwFact;

/* somebody who works here */
typedef struct
{
  SwFact fact;
} SwPerson;

/* name and roles of a person */
typedef struct
{
  SwFact fact;
  gint64 person;
  char *name;
  gint64 roles; /* SwRole bits */
  gint64 active; /* 1 while the person works here */
} SwPersonDetails;

/* an owner of dogs */
typedef struct
{
  SwFact fact;
} SwClient;

/* how to reach a client */
typedef struct
{
  SwFact fact;
  gint64 client;
  char *name;
  char *phone; /* nullable */
  char *other_phone; /* nullable */
  char *address; /* nullable */
  char *note; /* nullable */
} SwClientDetails;

/* one clinical or practice setting; keys in sw-practice.h */
typedef struct
{
  SwFact fact;
  char *key;
  char *value;
} SwSetting;

/* the exact bytes of a document, copied in at adoption */
typedef struct
{
  SwFact fact;
  gint64 doc_kind; /* SwDocumentKind */
  char *doc_id; /* e.g. tigilanol-eu, prednisolone */
  char *revision;
  char *digest; /* SHA-256 of bytes, hex */
  GBytes *bytes;
} SwDocument;

/* a vet took a document into use; withdrawn = no longer used for new courses */
typedef struct
{
  SwFact fact;
  gint64 document;
  gint64 doc_kind; /* SwDocumentKind */
  char *doc_id;
  char *ticks; /* names of the figures confirmed one by one, separated by ; */
} SwAdoption;

/* a dog */
typedef struct
{
  SwFact fact;
} SwPatient;

/* who the dog is */
typedef struct
{
  SwFact fact;
  gint64 client;
  char *name;
  char *species; /* dog, cat, horse, other */
  char *breed; /* nullable */
  gint64 sex; /* SwSex; nullable */
  gint64 neutered; /* 0 or 1; nullable */
  gint64 born; /* SwDay; nullable */
  gint64 born_exact; /* 0 = estimated */
  char *markings; /* colour, chip, marks; nullable */
} SwPatientDetails;

/* one weighing */
typedef struct
{
  SwFact fact;
  gint64 grams;
  gint64 day; /* SwDay */
  gint64 minute; /* of the local day */
  char *typed; /* as it was typed */
  char *scale; /* which scale; nullable */
} SwWeight;

/* a tumour; belongs to the dog and lives through courses */
typedef struct
{
  SwFact fact;
} SwTumour;

/* where a tumour lies */
typedef struct
{
  SwFact fact;
  gint64 tumour;
  gint64 letter; /* 0 = A */
  gint64 region; /* SwRegion */
  gint64 side; /* SwSide */
  gint64 depth; /* SwDepth */
  gint64 view; /* SwBodyView of the point; nullable */
  gint64 x; /* point on the outline, per mille of its width; nullable */
  gint64 y; /* per mille of its height; nullable */
  gint64 found; /* SwDay it was found */
  char *description; /* nullable */
} SwTumourDetails;

/* an answer to one question of sw-question.h */
typedef struct
{
  SwFact fact;
  gint64 course; /* NULL: work-up of the dog, holds for all courses; nullable */
  gint64 tumour; /* NULL: of the dog; nullable */
  char *question; /* code */
  char *answer; /* code among that question's answers */
  gint64 day; /* SwDay it was found or asked */
  gint64 minute;
  gint64 value; /* date or number where the question asks one; nullable */
  char *note; /* nullable */
} SwAnswer;

/* a vet's written reason for a finding that the vet decides */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 tumour; /* NULL: of the dog; nullable */
  char *finding; /* code of the finding */
  char *about; /* what distinguishes two findings of one code: a substance, a question; nullable */
  char *reason;
} SwReason;

/* The substance of an NSAID whose name nobody knows. */
#define SW_UNKNOWN_NSAID "unknown-nsaid"

/* a medicine the dog takes or took from elsewhere */
typedef struct
{
  SwFact fact;
  char *substance; /* lower-case active substance, or SW_UNKNOWN_NSAID */
  char *product; /* what the pack says it is, no brand needed; nullable */
  gint64 dose_ug; /* per dose; nullable */
  gint64 per_day_milli; /* doses a day, thousandths; nullable */
  gint64 first_day; /* SwDay; nullable */
  gint64 last_day; /* SwDay of the last dose; NULL = goes on; nullable */
  gint64 form; /* SwMedicineForm */
  gint64 single_substance; /* 1: nothing else in it; nullable */
  gint64 xylitol_free; /* 1: no xylitol ticked for this pack; nullable */
  char *note; /* nullable */
} SwMedicineTaken;

/* one treatment day with its lead-in and visits */
typedef struct
{
  SwFact fact;
  gint64 number; /* 1, 2, ... within the patient */
} SwCourse;

/* what a course is made with */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 document; /* the protocol's exact bytes */
  gint64 follows; /* course; a second injection names the course it follows; nullable */
  char *purpose; /* nullable */
} SwCourseDetails;

/* whether a tumour is treated in a course */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 tumour;
  gint64 treat; /* 1 treated here, 0 left for later */
} SwCourseTumour;

/* the client's consent for one course; a withdrawal is a row with state withdrawn */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 state; /* SwConsentState */
  char *signer;
  gint64 day; /* SwDay */
  gint64 minute;
  char *sheet_version;
  gint64 off_label; /* 1: off-label parts agreed */
  gint64 points; /* SwConsentPoint bits explained */
  char *note; /* nullable */
} SwConsent;

/* the medicine plan a vet signed; a moved day or a changed weight is a new row in its place */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 treat_day; /* SwDay planned as day 0 */
  gint64 weight;
  char *choices; /* group=substance pairs separated by ; */
  gint64 cause; /* SwPlanCause */
  gint64 moved_from; /* SwDay before the move; nullable */
  char *reason; /* nullable */
  char *vet_orders; /* taper, insulin, food: the vet's written order; nullable */
} SwPlan;

/* one planned dose of one medicine */
typedef struct
{
  SwFact fact;
  gint64 course;
} SwDose;

/* what is to be given and when; withdrawn = no longer planned */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 dose;
  gint64 plan;
  char *group; /* the protocol's group: corticosteroid, h1, h2, ... */
  char *substance;
  gint64 day_number; /* 0 = day of injection */
  gint64 due_day; /* SwDay */
  gint64 due_minute;
  gint64 every_minutes; /* interval of this medicine at this time */
  gint64 dose_ug; /* given dose */
  gint64 strength_ug; /* tablet strength; nullable */
  gint64 halves; /* half tablets per dose; nullable */
  gint64 volume_nl; /* liquids; nullable */
  gint64 instead_of; /* dose; the missed or vomited dose this one replaces; nullable */
} SwDosePlan;

/* what became of a planned dose */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 dose;
  gint64 state; /* SwDoseState */
  gint64 day; /* SwDay it was given; nullable */
  gint64 minute; /* nullable */
  char *told_by; /* client by phone, seen here, ...; nullable */
  char *note; /* nullable */
} SwDoseEvent;

/* one caliper reading of one tumour */
typedef struct
{
  SwFact fact;
  gint64 course; /* nullable */
  gint64 tumour;
  gint64 day; /* SwDay */
  gint64 minute;
  gint64 axis1; /* 0.01 mm as typed: length */
  gint64 axis2; /* width */
  gint64 axis3; /* height */
  char *typed; /* as it was typed */
} SwReading;

/* a second person read the particulars aloud */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 stage; /* SwReadAloudStage */
  gint64 second; /* person */
  gint64 day; /* SwDay */
  gint64 minute;
  gint64 alone; /* 1: one person on duty, second look after two minutes */
} SwReadAloud;

/* a vet released the dose; withdrawn = void because something it froze was corrected */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 day; /* SwDay, becomes day 0 */
  gint64 minute;
  gint64 weight;
  gint64 plan; /* nullable */
  gint64 read_aloud; /* nullable */
  gint64 total_nl; /* sum to draw */
  char *frozen; /* ids of all rows the release rests on: kind:id separated by ; */
  char *gate; /* codes of what the gate found, separated by ; */
  gint64 outside; /* 1: outside the gate or past a limit, written by a vet with a reason */
  char *reason; /* nullable */
} SwRelease;

/* what was released for one tumour */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 release;
  gint64 tumour;
  char *readings; /* ids separated by ; */
  gint64 volume_mm3; /* rounded, for show */
  gint64 dose_nl; /* before syringe rounding */
  gint64 drawn_nl; /* to draw */
  gint64 syringe_nl;
} SwReleaseTumour;

/* the injection as it happened */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 release;
  gint64 day; /* SwDay */
  gint64 minute;
  gint64 read_aloud; /* after drawing; nullable */
  gint64 injector; /* person */
  gint64 assistant; /* person; nullable */
  char *needle; /* gauge */
  char *unexpected; /* nullable */
  gint64 outside; /* 1: outside the gate */
  gint64 past_limit; /* 1: past a limit */
  char *gate; /* codes of what the gate found */
  char *reason; /* nullable */
} SwInjection;

/* what one tumour got */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 injection;
  gint64 tumour;
  gint64 drawn_nl;
  gint64 given_nl;
  char *reason; /* why less than drawn; nullable */
} SwInjectionTumour;

/* one vial opened */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 injection;
  char *lot;
  gint64 expiry; /* SwDay, its last day */
  char *agent; /* read from the vial */
  gint64 strength_ug_ml; /* read from the vial */
  gint64 left_nl;
  char *disposal; /* nullable */
  gint64 witness; /* person; nullable */
} SwVial;

/* one look at the dog after the injection */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 day; /* SwDay */
  gint64 minute;
  gint64 heart_rate; /* a minute; nullable */
  char *gums; /* nullable */
  char *breathing; /* nullable */
  gint64 vomiting; /* 0 or 1; nullable */
  char *site; /* nullable */
  char *note; /* nullable */
} SwObservation;

/* a vet let the dog go home */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 day; /* SwDay */
  gint64 minute;
  char *night_number; /* out-of-hours telephone */
  char *eight_hour_contact; /* who calls at hour 8 */
  char *note; /* nullable */
} SwDischarge;

/* one contact after the injection */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 planned_day; /* visit day of the protocol it answers; nullable */
  gint64 day; /* SwDay */
  gint64 minute;
  gint64 mode; /* SwVisitMode */
  gint64 pain; /* 0-10; nullable */
  gint64 cover; /* SwCover; nullable */
  gint64 cover_until; /* SwDay; nullable */
  char *note; /* nullable */
} SwVisit;

/* the wound of one tumour at a visit */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 tumour;
  gint64 visit;
  gint64 day; /* SwDay */
  gint64 state; /* SwWoundState */
  gint64 length; /* 0.01 mm; nullable */
  gint64 width; /* 0.01 mm; nullable */
  char *note; /* nullable */
} SwWound;

/* what is left of a tumour where calipers don't answer */
typedef struct
{
  SwFact fact;
  gint64 course; /* nullable */
  gint64 tumour;
  gint64 day; /* SwDay */
  gint64 state; /* SwLookState */
  char *note; /* nullable */
} SwLook;

/* the response of one tumour at one visit */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 tumour;
  gint64 day; /* SwDay */
  gint64 category; /* SwCategory */
  gint64 baseline_sum; /* longest diameters summed, 0.01 mm */
  gint64 baseline_count; /* readings */
  gint64 smallest_sum;
  gint64 smallest_count;
  gint64 now_sum; /* nullable */
  gint64 now_count; /* nullable */
  gint64 wound_open; /* flag */
  gint64 counts_as_day_28; /* 1: within the window */
  char *next_step; /* code of the next step */
  char *note; /* nullable */
} SwScore;

/* the dog's overall response at one visit */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 day; /* SwDay */
  gint64 category; /* SwCategory */
  gint64 non_targets; /* SwNonTargets */
  gint64 new_tumour; /* 0 or 1 */
} SwOverall;

/* mast cells again in or beside a scar */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 tumour;
  gint64 day; /* SwDay */
  gint64 sampled; /* 1 confirmed by cytology or histology, 0 presumed */
  gint64 distance; /* from the scar, 0.01 mm; nullable */
  char *note; /* nullable */
} SwRecurrence;

/* how a course ended */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 end; /* SwEnd */
  gint64 cause; /* SwDeathCause; nullable */
  gint64 day; /* SwDay */
  gint64 certain; /* 1: the day is certain */
  char *vet_orders; /* taper or stop after a cancelled lead-in; nullable */
  char *note; /* nullable */
} SwCourseEnd;

/* an attempt to reach the client */
typedef struct
{
  SwFact fact;
  gint64 course;
  gint64 day; /* SwDay */
  gint64 minute;
  gint64 reached; /* 0 or 1 */
  char *note; /* nullable */
} SwContact;

const SwFactType *sw_fact_type (SwFactKind kind);
int sw_fact_kind_from_table (const char *table);

/* (transfer full): all fields unset: numbers SW_UNKNOWN where nullable, else 0; use the typed macro: sw_new (SW_FACT_WEIGHT, SwWeight) */
gpointer sw_fact_new (SwFactKind kind);
#define sw_new(KIND, Type) ((Type *) sw_fact_new (KIND))
gpointer sw_fact_copy (gconstpointer fact);
void sw_fact_free (gpointer fact);

/* A new row with the same content that replaces `old`; the caller then changes what is corrected. (transfer full) */
gpointer sw_fact_correction (gconstpointer old);
/* A row that takes `old` back. (transfer full) */
gpointer sw_fact_withdrawal (gconstpointer old);

gint64 sw_fact_get_int (gconstpointer fact, const SwField *field);
const char *sw_fact_get_text (gconstpointer fact, const SwField *field);
GBytes *sw_fact_get_bytes (gconstpointer fact, const SwField *field);
void sw_fact_set_int (gpointer fact, const SwField *field, gint64 value);
void sw_fact_take_text (gpointer fact, const SwField *field, char *value);
void sw_fact_take_bytes (gpointer fact, const SwField *field, GBytes *value);

/* Whether two facts of one kind are about the same subject. */
gboolean sw_fact_same_subject (gconstpointer a, gconstpointer b);

/* Whether each value is possible (ranges, enumerations, required text), with a sentence if not: SW_ERROR_INPUT. */
gboolean sw_fact_validate (gconstpointer fact, GError **error);

/* The canonical text of a row, length-prefixed field by field: what the journal keeps and record check compares. */
void sw_fact_append_payload (gconstpointer fact, GString *payload);

G_END_DECLS
