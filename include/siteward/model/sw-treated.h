/* sw-treated.h: one tumour injected in one course, as the outcomes count it
 *
 * Derived: made by rules (sw-treated-rows.h) from a dossier, kept beside the facts so that the outcomes of a whole
 * practice are one short read, rewritten by every act that touches the dog, recomputed by record check. It holds facts
 * and dates, never "today": whether a score is still to come is asked when the figures are made.
 *
 * Units as in sw-fact.h. SW_UNKNOWN where there is nothing.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwTreated:
 * @tumours: injected in this course
 * @place: which of them this one is, from 1 by letter; what belongs to the course is counted on place 1
 * @injection: which injection into this tumour it is, from 1; a treated recurrence begins again at 1
 * @grade: answer to the question "grade" that held on the treatment day, NULL: not answered
 * @agent: of the protocol
 * @weight_g: of the release
 * @window_last: SwDay, the last on which a score counts as that of day 28 in this course's protocol
 * @category: SwCategory of the score that counts as day 28: the last that could judge, else the last
 * @scores: all scores of this tumour in this course
 * @best_num: the best change of the longest diameter against baseline is @best_num / @best_den
 * @end: SwEnd of this course, with @end_cause (SwDeathCause) and @end_day
 * @died_day: when the dog died, whichever course said so
 * @clear_day: of the first complete response in this course
 * @last_clear_day: the last day on or after it on which the site was examined and found clear, before a recurrence
 * @recurrence_day: mast cells again after @clear_day; @sampled 1: confirmed, 0: presumed
 * @wound_looks: visits at which the wound was judged
 * @wound_open_day: the last day on which it was not closed
 * @wound_closed_day: the first day after that on which it was closed
 * @reader_a: who read first on the treatment day, @longest_again that person's second reading; @reader_b: the first
 *   other person who read; each with the longest axis of that reading, 0.01 mm
 * @doses: lead-in doses that were due before the injection (of the course), of these @doses_on_time, @doses_late,
 *   @doses_lost (missed, vomited or stopped, no replacement given), @doses_replaced, @doses_untold
 * @released_nl: to draw; @drawn_nl, @given_nl: as it happened, of this tumour
 * @vials: opened in the course, with @left_nl left in them
 */
typedef struct
{
  gint64 course;
  gint64 tumour;
  gint64 patient;
  gint64 course_number;
  gint64 tumours;
  gint64 place;
  gint64 letter;
  gint64 day;
  gint64 minute;
  gint64 injection;
  const char *agent; /* interned, as the other text */
  const char *grade;
  gint64 region;
  gint64 side;
  gint64 depth;
  gint64 volume_mm3;
  gint64 weight_g;
  gint64 injector;
  gint64 outside;
  gint64 past_limit;
  gint64 window_last;
  gint64 category;
  gint64 scores;
  gint64 best_num;
  gint64 best_den;
  gint64 end;
  gint64 end_cause;
  gint64 end_day;
  gint64 died_day;
  gint64 clear_day;
  gint64 last_clear_day;
  gint64 recurrence_day;
  gint64 sampled;
  gint64 wound_looks;
  gint64 wound_open_day;
  gint64 wound_closed_day;
  gint64 reader_a;
  gint64 longest_a;
  gint64 longest_again;
  gint64 reader_b;
  gint64 longest_b;
  gint64 doses;
  gint64 doses_on_time;
  gint64 doses_late;
  gint64 doses_lost;
  gint64 doses_replaced;
  gint64 doses_untold;
  gint64 released_nl;
  gint64 drawn_nl;
  gint64 given_nl;
  gint64 vials;
  gint64 left_nl;
} SwTreated;

/* One column: drives the table, the check and the export, so that each is named once. */
typedef struct
{
  const char *column;
  gsize offset;
  gboolean text;     /* const char *, interned; else gint64 */
  gboolean nullable; /* NULL text, SW_UNKNOWN */
} SwTreatedField;

/* In the order of the table. */
const SwTreatedField *sw_treated_fields (guint *n);

gint64 sw_treated_int (const SwTreated *treated, const SwTreatedField *field);
const char *sw_treated_text (const SwTreated *treated, const SwTreatedField *field);
void sw_treated_set_int (SwTreated *treated, const SwTreatedField *field, gint64 value);
void sw_treated_set_text (SwTreated *treated, const SwTreatedField *field, const char *value);

gboolean sw_treated_equal (const SwTreated *a, const SwTreated *b);

G_END_DECLS
