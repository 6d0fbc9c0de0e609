/* sw-gate-private.h: the parts that the two gates are put together from
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-gate.h"

G_BEGIN_DECLS

/* One asking of a gate: every part adds what it found. */
typedef struct
{
  const SwCase *c;
  const SwProtocol *protocol;
  const SwPlan *plan; /* NULL: none */
  GPtrArray *findings;
} SwGateAsk;

/* Adds a finding and returns it for its arguments. */
SwFinding *sw_gate_find (SwGateAsk *ask, SwFindingCode code);
SwFinding *sw_gate_find_tumour (SwGateAsk *ask, SwFindingCode code, gint64 tumour);
/* Takes over all of these but the satisfied ones. `findings` (transfer full) */
void sw_gate_take (SwGateAsk *ask, GPtrArray *findings);

/* Suitability of the dog and of every tumour of the course. */
void sw_gate_suitability (SwGateAsk *ask);
/* Given, not withdrawn, complete. */
void sw_gate_consent (SwGateAsk *ask);

/* The count: lead-in doses, day doses, replacements, lost doses. */
void sw_gate_doses (SwGateAsk *ask);
/* Today's weight, readings and remaining medicines. */
void sw_gate_measures (SwGateAsk *ask);
/* Today's questions are all answered, and what must be at hand is. */
void sw_gate_questions (SwGateAsk *ask);
/* The reading aloud before the release. */
void sw_gate_read_aloud (SwGateAsk *ask);

G_END_DECLS
