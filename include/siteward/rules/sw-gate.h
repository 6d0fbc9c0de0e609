/* sw-gate.h: the two gates, before a lead-in medicine is signed and before the needle (domain 5)
 *
 * Each condition answers with a finding: code, what, the number, the limit, what is open. Doses are counted against
 * the adopted document, never against the plan's own rows, so an empty plan cannot pass. Gates refuse intentions;
 * what has happened is recorded as it was by a vet with a reason, and keeps the codes found here.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"

G_BEGIN_DECLS

typedef enum { SW_GATE_AT_RELEASE, SW_GATE_AT_INJECTION } SwGateMoment;

/* Gate A on the plan about to be signed: `plan` need not be recorded yet (treat_day, weight and choices are read).
 * (transfer full) */
GPtrArray *sw_gate_a (const SwCase *c, const SwPlan *plan);

/* Gate B at c->now, which is the minute of the release or that of the injection. (transfer full) */
GPtrArray *sw_gate_b (const SwCase *c, SwGateMoment moment);

/* Whether a gate with these findings stands open: none of them blocks, vet-decides findings count unless a reason
 * stands. */
gboolean sw_gate_passes (const SwCase *c, GPtrArray *findings);

/* One group of the count: doses needed by the document and those confirmed. */
typedef struct
{
  char *group;
  char *name; /* as the document calls it */
  guint needed;
  guint confirmed;
} SwGateGroup;

/* "7 of 7 confirmed (5 corticosteroid, 1 H1, 1 H2)" */
typedef struct
{
  guint needed;
  guint confirmed;
  GArray *groups; /* SwGateGroup */
} SwGateCount;

SwGateCount *sw_gate_count (const SwCase *c);
void sw_gate_count_free (SwGateCount *count);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwGateCount, sw_gate_count_free)
char *sw_gate_count_words (const SwGateCount *count); /* (transfer full) */

/* What the injection brings to the gate besides the record: vials, amounts, the second reading aloud. */
typedef struct
{
  const SwInjection *injection; /* day and minute are read */
  const GPtrArray *tumours;     /* SwInjectionTumour */
  const GPtrArray *vials;       /* SwVial */
  const SwReadAloud *read_aloud; /* after drawing; NULL: none */
} SwInjectionRecord;

/* Vials against the document and their dates; given <= drawn <= released, less needs a reason; the day of the
 * release. (transfer full) */
GPtrArray *sw_gate_injection (const SwCase *c, const SwInjectionRecord *record);

G_END_DECLS
