/* sw-treated-private.h: the parts of a treated tumour's row
 *
 * Each part fills its columns of a row whose keys (course, tumour, day) are there already; `c` looks at that course.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treated-rows.h"

G_BEGIN_DECLS

/* Scores, best change, end of the course, death, time free of recurrence. */
void sw_treated_follow (const SwCase *c, SwTreated *row);
/* The wound's looks. */
void sw_treated_wound (const SwCase *c, SwTreated *row);
/* The lead-in's doses. */
void sw_treated_lead_in (const SwCase *c, SwTreated *row);

G_END_DECLS
