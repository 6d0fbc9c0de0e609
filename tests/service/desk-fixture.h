/* desk-fixture.h: a practice of three dogs, and the requests that tests make at its desk
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-desk.h"

#include <check.h>

/* The day on which the script of the fixture ends, at 09:40. */
#define FIXTURE_TODAY 20587 /* 2026-05-14 */

/* People of the script, by their order. */
#define INES 1  /* all roles */
#define TOMAS 2 /* technician */
#define ODA 3   /* vet */
#define RUTH 4  /* manager */

typedef struct
{
  char *folder;
  SwClock *clock;
  SwDesk *desk;
  gint64 patient; /* Marlo */
  gint64 course;
  gint64 tansy;
  gint64 tansy_course;
  gint64 dusk;    /* no course yet */
} Fixture;

/* Makes the record in a temporary folder and opens it at 09:40 of that day. */
Fixture *fixture_new (void);
void fixture_free (Fixture *fixture);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Fixture, fixture_free)

/* Only the folder, with the record in it; the caller opens it. (transfer full) */
char *fixture_folder (void);
void fixture_remove (char *folder);

void fixture_at (Fixture *fixture, SwDay day, int hours, int minutes);
SwDossier *fixture_dossier (Fixture *fixture, gint64 patient);
/* Digest of the newest journal line. (transfer full) */
char *fixture_head (Fixture *fixture);

/* Takes the request. Done, or the test fails with what was found. */
SwReply *fixture_done (Fixture *fixture, SwRequest *request);
/* Takes the request. Refused with a finding of this code, and nothing was written. */
void fixture_refused (Fixture *fixture, SwRequest *request, const char *code);
/* Takes the request. Fails with this SwError, and nothing was written. */
void fixture_fails (Fixture *fixture, SwRequest *request, int code);

/* The dose of a substance due then. */
const SwDosePlan *fixture_dose (const SwDossier *dossier, SwDay day, int hours, const char *substance);
/* The injection of the standing release of Marlo at this time of today, as it should be. (transfer full) */
SwRequest *fixture_injection (Fixture *fixture, gint64 person, int hours, int minutes);
/* A correction of the newest reading: another length. (transfer full) */
SwRequest *fixture_correct_reading (Fixture *fixture, gint64 person);

/* The whole check finds nothing, or the test fails with what it found. */
void fixture_assert_sound (const char *folder);

/* Runs a suite as the environment says; what main returns. */
int fixture_run (Suite *suite);
