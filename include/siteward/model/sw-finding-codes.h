/* sw-finding-codes.h: every code a rule can answer with; words and stable names stand in sw-finding-words.c
 *
 * Add a code at the end of its section here and its row there; a test holds the two together.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

typedef enum
{
  /* dose: refusals in the order of the command line's contract, then notes */
  SW_FINDING_VOLUME_LIMIT,    /* volume */
  SW_FINDING_WEIGHT_LIMIT,    /* weight-limit */
  SW_FINDING_TREATMENT_LIMIT, /* treatment-limit */
  SW_FINDING_TIER_EDGE,       /* tier-edge */
  SW_FINDING_ARITHMETIC,      /* overflow: can't be computed exactly, so refused */
  SW_FINDING_TINY_TUMOUR,     /* under 0.1 cm3: the true mL/cm3 is shown */
  SW_FINDING_AXIS_SPREAD,     /* readings of an axis differ by more than 10 % */
  SW_FINDING_TIER_CROSSING,   /* the interval of the volume crosses a tier's edge */
  SW_FINDING_GIVEN_LATELY,    /* given in the last 28 days counts into both mL limits */
  /* suitability */
  /* medicines and interactions */
  /* plan */
  /* gate A */
  /* gate B */
  /* response and course */

  SW_N_FINDINGS
} SwFindingCode;
