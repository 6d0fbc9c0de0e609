/* sw-suitability-private.h: one judging of a dog or a tumour, shared by the files that do it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"
#include "sw-question.h"

G_BEGIN_DECLS

#define SW_CLASS_CORTICOSTEROID "corticosteroid"

typedef struct
{
  const SwCase *c;
  const SwProtocol *protocol;
  gint64 tumour;      /* 0: the dog */
  const char *letter; /* NULL: the dog */
  GPtrArray *findings;
} SwJudging;

/* Adds a finding about one fact, with the document's figure as its basis (NULL: none), and returns it for its
 * arguments. */
SwFinding *sw_judging_add (SwJudging *j, SwFindingCode code, const char *about, const SwFigure *figure);
void sw_judging_meets (SwJudging *j, const char *about, const char *fact, const char *value, const SwFigure *figure);

/* Measured, not over the protocol's limit, not grown since the work-up. */
void sw_judge_size (SwJudging *j);

/* The answer in force: of the work-up, or of this course for a question of the treatment day. NULL: not answered. */
const SwAnswer *sw_case_answer (const SwCase *c, gint64 tumour, const SwQuestion *question);

G_END_DECLS
