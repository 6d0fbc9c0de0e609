/* course-fixture.h: the dog of case-fixture.h taken on from stage to stage, each as clean as it can be
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "case-fixture.h"

/* Day 0 of the fixture's plan: the lead-in begins today. */
#define TREAT (TODAY + 2)

/* People: who enters, who reads aloud. */
#define VET 1
#define TECHNICIAN 2

void course_at (Fixture *fixture, SwDay day, int minute);

/* Writes facts as store does: rows of the same act that are named by -n get their ids. The facts are copied. */
void course_write (Fixture *fixture, const GPtrArray *facts);

/* Stages, each on top of the one before. */
SwConsent *course_consent (Fixture *fixture);
SwPlan *course_sign (Fixture *fixture, SwDay treat_day, const char *choices);
void course_lead_in (Fixture *fixture);       /* consent and plan for TREAT, signed today 07:00 */
void course_treatment_day (Fixture *fixture); /* doses told as given, measured, asked, read aloud; 09:30 of day 0 */
SwRelease *course_release (Fixture *fixture); /* 0.85 mL */
SwInjection *course_inject (Fixture *fixture);
void course_discharge (Fixture *fixture);
SwVisit *course_visit (Fixture *fixture, SwDay day);
SwScore *course_score (Fixture *fixture, SwDay day, SwCategory category);
/* Another course on the same tumour that follows the present one, and the case looks at it. */
void course_follow (Fixture *fixture);

/* Pieces */
void course_answer (Fixture *fixture, const char *question, const char *answer, SwDay day);
SwWeight *course_weigh (Fixture *fixture, SwDay day, gint64 grams);
const SwDosePlan *course_dose (Fixture *fixture, const char *group, SwDay day, guint nth);
SwDoseEvent *course_tell (Fixture *fixture, const SwDosePlan *dose, SwDoseState state, SwDay day, gint64 minute);
/* Every dose due up to now as given at its time, unless told already. */
void course_tell_all (Fixture *fixture);
SwReadAloud *course_read_aloud (Fixture *fixture, SwReadAloudStage stage);
void course_reason (Fixture *fixture, const SwFinding *finding);
/* All current rows of a kind, taken back. */
void course_withdraw_all (Fixture *fixture, SwFactKind kind);
void course_lose_consent (Fixture *fixture);
void course_take_back_consent (Fixture *fixture);

/* What blocks, and nothing else: fails when anything but this code (and about, if not NULL) blocks. */
void course_check_only (Fixture *fixture, GPtrArray *findings, SwFindingCode code, const char *about);
void course_check_passes (Fixture *fixture, GPtrArray *findings);
