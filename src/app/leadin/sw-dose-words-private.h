/* sw-dose-words-private.h: days, amounts and doses in the words of this page
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-line.h"
#include "sw-dose-state.h"

G_BEGIN_DECLS

/* "Wed 2026-05-13", "Wed 2026-05-13 08:00". (transfer full) */
char *sw_day_words (SwDay day);
char *sw_moment_words (SwMoment moment);
/* "Tue 12 May 08:00", for a table whose year is said above it. (transfer full) */
char *sw_short_moment_words (SwMoment moment);
/* "today", "yesterday", "12 days old". (transfer full) */
char *sw_age_words (SwDay day, SwDay today);

/* "12.5": all digits that the amount has. (transfer full) */
char *sw_milligrams (gint64 ug);
/* "1/2 x 25 mg = 12.5 mg", "0.7 mL = 7 mg". (transfer full) */
char *sw_tablets_words (gint64 strength_ug, gint64 halves, gint64 volume_nl, gint64 dose_ug);
/* "1/2 x 25 mg", "0.7 mL". (transfer full) */
char *sw_pieces_words (gint64 strength_ug, gint64 halves, gint64 volume_nl);
/* "every 12 h", "every morning". */
char *sw_interval_words (gint64 every_minutes);

/* "prednisolone 12.5 mg, Wed 2026-05-13 08:00". (transfer full) */
char *sw_dose_words (const SwDosePlan *dose);
/* "given 08:05, told by the client, by phone; recorded by Tomas". (transfer full) */
char *sw_dose_told_words (const SwCase *c, const SwDosePlan *dose);

/* The mark that stands for it on the course line and here. */
SwMarkState sw_dose_mark (SwStanding standing);

/* Substances of a choice text ("h1=chlorphenamine;..."), as words. (transfer full) */
char *sw_choices_words (const char *choices);

G_END_DECLS
