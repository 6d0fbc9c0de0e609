/* case-fixture.h: a dog that may be treated, with every question answered well: tests change one thing and look
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"

/* The fixture's today. */
#define TODAY 20583 /* 2026-05-10 */

typedef struct
{
  SwPractice *practice;
  SwDossier *dossier;
  SwBooks *books;
  GTimeZone *zone;
  SwCase c;
  gint64 tumour; /* A: left hock, cutaneous */
} Fixture;

/* A dog born five years ago, 24.6 kg, one measured tumour, a course with this protocol, no plan; the shipped
 * documents adopted. */
Fixture *fixture_new (const char *protocol);
void fixture_free (Fixture *fixture);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Fixture, fixture_free)

/* Puts a fact in the dossier or the practice as if it had been written, and returns it. (transfer none) */
gpointer fixture_put (Fixture *fixture, gpointer fact);

/* Answers a question today (again); with SW_UNKNOWN for no value. */
void fixture_answer (Fixture *fixture, const char *question, const char *answer, gint64 value);
/* Takes the answer back. */
void fixture_unanswer (Fixture *fixture, const char *question);

SwMedicineTaken *fixture_take (Fixture *fixture, const char *substance, SwDay first, SwDay last);
void fixture_setting (Fixture *fixture, const char *key, const char *value);
SwReading *fixture_read (Fixture *fixture, SwDay day, gint64 axis1, gint64 axis2, gint64 axis3);
SwPlan *fixture_plan (Fixture *fixture, SwDay treat_day, const char *choices);
SwPatientDetails *fixture_patient (Fixture *fixture);
SwTumourDetails *fixture_tumour (Fixture *fixture);

/* The first finding of this code, NULL: none; `about` NULL: any. */
const SwFinding *find_finding (const GPtrArray *findings, SwFindingCode code, const char *about);
/* The worst severity among findings about this. SW_N_SEVERITIES: none is about it. */
int severity_about (const GPtrArray *findings, const char *about);
/* Fails when a sentence has an open placeholder, or one that blocks offers nothing. */
void check_sentences (const GPtrArray *findings);
