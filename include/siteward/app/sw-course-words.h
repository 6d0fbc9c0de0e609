/* sw-course-words.h: how pages name tumours, days of a course and who recorded something
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

G_BEGIN_DECLS

/* "Tumour A, left hock". (transfer full) */
char *sw_words_tumour (const SwDossier *dossier, gint64 tumour);
/* "day 28, 2026-06-11"; without a day 0 only the date. (transfer full) */
char *sw_words_day (const SwCase *c, SwDay day);
/* "Ines, 2026-06-11 11:15": who recorded it and when. (transfer full) */
char *sw_words_recorded (const SwPageContext *context, const SwFact *fact);

G_END_DECLS
