/* sw-treated-rows.h: what the outcomes count of a dog, told from its facts
 *
 * The definitions, in words, stand in sw-outcome-definitions.c (service), which the outcomes page shows; this is where
 * they are carried out.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-treated.h"

G_BEGIN_DECLS

/* Every tumour of the dog injected in any of its courses, by course and letter. `c->course` does not matter. (transfer
 * full) SwTreated */
GArray *sw_treated_rows (const SwCase *c);

G_END_DECLS
