/* sw-suitability.h: may this tumour be treated this way? (domain 4)
 *
 * Each fact answers with one finding: SW_MEETS, SW_VET_DECIDES, SW_STOP (rules out) or SW_NOT_KNOWN, which blocks
 * like a stop until it is filled in. What an answer means stands in the protocol's document, with source and mark.
 * Facts of the dog block every tumour, facts of a tumour block that one. Questions of the treatment day are judged
 * once they are answered; that they are asked at all is gate B's to see.
 *
 * Without a course there is no protocol to judge by, and the answer is empty.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"

G_BEGIN_DECLS

/* The full list, satisfied rules among it. (transfer full) */
GPtrArray *sw_suitability_of_dog (const SwCase *c);
GPtrArray *sw_suitability_of_tumour (const SwCase *c, gint64 tumour);

/* Those that still block: stops, what is not known, and what the vet decides unless a vet's reason stands for the
 * same code, about and tumour in this course; in the order in which they are told. (transfer full) */
GPtrArray *sw_findings_open (const SwCase *c, GPtrArray *findings);

/* The vet's reason that settles a finding, or NULL. */
const SwReason *sw_finding_reason (const SwCase *c, const SwFinding *finding);

G_END_DECLS
