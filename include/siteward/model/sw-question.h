/* sw-question.h: the questions of work-up and treatment day, with the answers each may have
 *
 * One vocabulary for the form, the record and the rules: a page builds its rows from it, rules say what an answer means
 * (sw-suitability, sw-gate), and an answer is stored as the two codes. Codes are stable.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum { SW_ASKED_OF_DOG, SW_ASKED_OF_TUMOUR } SwAskedOf;
typedef enum
{
  SW_ASKED_AT_WORK_UP,       /* answer.course NULL */
  SW_ASKED_ON_TREATMENT_DAY, /* answer.course set, answer.day = the day */
} SwAskedAt;

typedef enum { SW_EXTRA_NONE, SW_EXTRA_DATE, SW_EXTRA_NOTE } SwExtra; /* what `value` or `note` of the answer carries besides */

typedef struct
{
  const char *code;
  const char *name; /* untranslated; _() when shown */
} SwChoice;

typedef struct
{
  const char *code;
  SwAskedOf of;
  SwAskedAt at;
  const char *heading; /* group on the page */
  const char *name;    /* the question in few words */
  SwExtra extra;
  const char *extra_name; /* e.g. "vaccinated on", "edition of the staging" */
  const SwChoice *choices;
  guint n_choices;
} SwQuestion;

const SwQuestion *sw_questions (guint *n);
const SwQuestion *sw_question (const char *code); /* NULL: unknown */
const SwChoice *sw_question_choice (const SwQuestion *question, const char *answer); /* NULL: not one of them */

G_END_DECLS
