/* sw-interaction-private.h: one check of the medicines, shared by the files that do it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-exposure-private.h"
#include "sw-finding.h"
#include "sw-question.h"

G_BEGIN_DECLS

typedef struct
{
  const SwCase *c;
  const SwInteractions *document;
  SwDay treat_day;
  GArray *exposures; /* SwExposure */
  GPtrArray *findings;
} SwCheck;

typedef enum { SW_FACT_ANSWER_OTHER, SW_FACT_ANSWER_HOLDS, SW_FACT_ANSWER_MISSING } SwFactHolds;

/* Whether a substance is one party of a row. */
gboolean sw_check_is_party (const SwCheck *check, SwParty is, const char *code, const char *substance);

/* Walk the exposures that are one party of a row:
 *   for (guint i = 0; (x = sw_check_next (check, is, code, &i)) != NULL;) ... */
const SwExposure *sw_check_next (const SwCheck *check, SwParty is, const char *code, guint *position);

/* Whether the party "question/answer" holds for the dog, or for any tumour of the course. `answer` (may be NULL): the
 * one that does. */
SwFactHolds sw_check_fact (const SwCheck *check, const char *party, const SwAnswer **answer);

/* The question of a party "question/answer". */
const SwQuestion *sw_party_question (const char *party);
/* "diabetes mellitus", "live vaccine, recent or planned: given". (transfer full) */
char *sw_party_words (const char *party);

/* Adds a finding of a row with its basis and {reason}, told apart by the substance; the row's level in place of the
 * code's own unless it is SW_NOT_KNOWN. NULL when the same is there already. */
SwFinding *sw_check_add (SwCheck *check, SwFindingCode code, const SwInteraction *row, const char *substance);

/* The same, told apart by a text of the caller's. */
SwFinding *sw_check_add_about (SwCheck *check, SwFindingCode code, const SwInteraction *row, const char *about);

/* "date": the first day 0 when the lead-in that began on `first` may not begin before `open`. */
void sw_check_set_day_zero (const SwCheck *check, SwFinding *finding, SwDay first, SwDay open);

/* A day, or the word for what goes on. */
void sw_check_set_last (SwFinding *finding, const char *name, SwDay last);

/* Rows of each kind. */
void sw_check_together (SwCheck *check, const SwInteraction *row);
void sw_check_washout (SwCheck *check, const SwInteraction *row);
void sw_check_within (SwCheck *check, const SwInteraction *row);
void sw_check_taken (SwCheck *check, const SwInteraction *row);
void sw_check_double (SwCheck *check, const SwInteraction *row);
void sw_check_mixed (SwCheck *check, const SwInteraction *row);
void sw_check_xylitol (SwCheck *check, const SwInteraction *row);

G_END_DECLS
