/* sw-dossier.h: everything the record holds about one dog, and about the practice, as values that rules read
 *
 * Store fills a dossier in one short read; rules, pictures and pages read it and never ask the database. It holds replaced and
 * withdrawn rows too, so that history and amendments can be shown; the accessors that say "current" leave them out.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"
#include "sw-values.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  GPtrArray *rows[SW_N_FACTS]; /* facts in the order they were written, owned */
} SwFacts;

/* One dog: patient-scope facts, and the client-scope facts of its present client. */
typedef struct
{
  gint64 patient;
  SwFacts facts;
} SwDossier;

/* The practice: people, settings, documents and adoptions. */
typedef struct
{
  SwFacts facts;
  gboolean practice_only; /* flagged at its making: for trying out, scripted clock allowed */
} SwPractice;

SwDossier *sw_dossier_new (gint64 patient);
void sw_dossier_free (SwDossier *dossier);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDossier, sw_dossier_free)

SwPractice *sw_practice_new (void);
void sw_practice_free (SwPractice *practice);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPractice, sw_practice_free)

/* Add a fact (transfer full). Marks the row it replaces. Rows must come in the order of their ids within a kind. */
void sw_facts_add (SwFacts *facts, gpointer fact);

/* Current rows only: neither replaced nor withdrawn. Entities are always current. */
gboolean sw_fact_is_current (gconstpointer fact);

/* Walk current rows of a kind:
 *   for (guint i = 0; (weight = sw_facts_next (&dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;) ... */
gpointer sw_facts_next (const SwFacts *facts, SwFactKind kind, guint *position);
/* The row with this id, current or not; NULL if there is none. */
gpointer sw_facts_by_id (const SwFacts *facts, SwFactKind kind, gint64 id);
/* The newest current row of a kind, or NULL. */
gpointer sw_facts_last (const SwFacts *facts, SwFactKind kind);
/* The current row about the same subject as `like` (its subject fields are read), or NULL. */
gpointer sw_facts_current_like (const SwFacts *facts, gconstpointer like);
/* The newest row about the same subject as `like`, current or withdrawn: what a new row must replace; NULL if there is none. */
gpointer sw_facts_tip_like (const SwFacts *facts, gconstpointer like);

/* The current row of a kind that belongs to a course (its field `course`), the newest if several; NULL. */
gpointer sw_facts_of_course (const SwFacts *facts, SwFactKind kind, gint64 course);

const SwPatientDetails *sw_dossier_patient (const SwDossier *dossier);
const SwClientDetails *sw_dossier_client (const SwDossier *dossier);
const SwTumourDetails *sw_dossier_tumour (const SwDossier *dossier, gint64 tumour);
const SwCourse *sw_dossier_course (const SwDossier *dossier, gint64 course);
/* The newest course, or NULL. */
const SwCourse *sw_dossier_last_course (const SwDossier *dossier);
/* Ids of the tumours treated in a course, by letter. (transfer full) */
GArray *sw_dossier_course_tumours (const SwDossier *dossier, gint64 course);
/* The plan row in force and its current dose rows (by due time). */
const SwPlan *sw_dossier_plan (const SwDossier *dossier, gint64 course);
GPtrArray *sw_dossier_doses (const SwDossier *dossier, gint64 course); /* (transfer container) SwDosePlan */
const SwDoseEvent *sw_dossier_dose_event (const SwDossier *dossier, gint64 dose);
const SwRelease *sw_dossier_release (const SwDossier *dossier, gint64 course);
const SwInjection *sw_dossier_injection (const SwDossier *dossier, gint64 course);
/* Readings of a tumour on a day, in order. (transfer container) SwReading */
GPtrArray *sw_dossier_readings (const SwDossier *dossier, gint64 tumour, SwDay day);
/* Current answer to a question: newest day on or before `day`; course and tumour 0 for the dog. NULL: not answered. */
const SwAnswer *sw_dossier_answer (const SwDossier *dossier, gint64 course, gint64 tumour, const char *question, SwDay day);

/* "P-000123", "P-000123/2", "A". (transfer full) */
char *sw_patient_number (gint64 patient);
char *sw_course_number (const SwDossier *dossier, gint64 course);
char *sw_tumour_letter (gint64 letter);

/* Practice: settings have defaults, so a missing row is no error. Keys: zone, hour-morning, hour-evening (minutes), name, address,
 * telephone, strengths.SUBSTANCE ("ug;ug"), washout.SUBSTANCE (days), reader-error (technical error in thousandths of an axis). */
const char *sw_practice_setting (const SwPractice *practice, const char *key); /* NULL: not set */
gint64 sw_practice_setting_int (const SwPractice *practice, const char *key, gint64 otherwise);
int sw_practice_morning (const SwPractice *practice); /* default 08:00 [ours] */
int sw_practice_evening (const SwPractice *practice); /* default 20:00 [ours] */
const char *sw_practice_zone (const SwPractice *practice);
const SwPersonDetails *sw_practice_person (const SwPractice *practice, gint64 person);
const char *sw_practice_person_name (const SwPractice *practice, gint64 person); /* "?" if unknown */
gint64 sw_practice_roles (const SwPractice *practice, gint64 person);
/* The document row adopted under this id, or NULL. */
const SwDocument *sw_practice_adopted (const SwPractice *practice, SwDocumentKind kind, const char *doc_id);

G_END_DECLS
