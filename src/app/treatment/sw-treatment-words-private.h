/* sw-treatment-words-private.h: what is read aloud and read back, and how a release is told
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include "sw-dose.h"

G_BEGIN_DECLS

/* Dog, weight, and for each tumour its side, readings and what is to be injected: one line each. `dose` NULL: no dose
 * yet.
 * (transfer full) */
char *sw_words_to_read_aloud (const SwPageContext *context, const SwDoseResult *dose);

/* "Released by Ines, 09:35: tumour A, left hock: draw 0.85 mL in a 1 mL syringe." and whether it is outside the gate.
 * (transfer full) */
char *sw_words_of_release (const SwPageContext *context, const SwRelease *release);

/* What became of releases of this course: void, over with its day; after the injection: amended. NULL: nothing to
 * say. (transfer full) */
char *sw_words_of_standing (const SwPageContext *context);

/* "0.85 mL drawn, 0.85 mL given ..." and what is marked. (transfer full) */
char *sw_words_of_injection (const SwPageContext *context, const SwInjection *injection);

G_END_DECLS
