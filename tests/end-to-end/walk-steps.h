/* walk-steps.h: the parts of a course, each as a person does it in the window
 *
 * Days are counted from the first day of the walk, and so is the day of treatment.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "walk.h"

G_BEGIN_DECLS

/* --- walk-practice.c --- */

/* From the page of the first start: a record, a technician, the documents that a course needs. */
void walk_make_record (Walk *walk);
void walk_add_technician (Walk *walk);
void walk_adopt (Walk *walk);
/* A client with a dog, its weight and its tumour. */
void walk_register (Walk *walk);
void walk_weigh (Walk *walk, const char *weight);
void walk_add_tumour (Walk *walk);

/* --- walk-plan.c --- */

void walk_open_course (Walk *walk);
/* All questions of the work-up, for a dog that may be treated. */
void walk_answer_work_up (Walk *walk);
/* A stage that is too old by the second course. */
void walk_stage_again (Walk *walk);
void walk_measure_tumour (Walk *walk, const char *length, const char *width, const char *height);
void walk_consent (Walk *walk);
void walk_sign_plan (Walk *walk, int treat);
/* The mark of a dose on the course line, and a button of what opens there. */
void walk_tell_on_line (Walk *walk, const char *substance, int day, int hour, const char *button);
/* Every dose that is due and not told: given. How many there were. */
guint walk_tell_all (Walk *walk);

/* --- walk-day.c --- */

/* Weight and two readings, and all that is asked again. */
void walk_prepare (Walk *walk, const char *weight, const char *const readings[2][3]);
void walk_read_aloud (Walk *walk);
void walk_release (Walk *walk, const char *inject);
void walk_inject (Walk *walk, const char *given, const char *left, const char *time);
/* A look at `time`. */
void walk_look (Walk *walk, const char *time);
void walk_discharge (Walk *walk, const char *time);

/* --- walk-after.c --- */

typedef struct
{
  const char *seen;     /* how */
  const char *pain;
  const char *wound;    /* NULL: not looked at */
  const char *length, *width;
  const char *cover;    /* NULL: not said */
  const char *note;
} WalkVisit;

void walk_visit (Walk *walk, const WalkVisit *visit);
/* A reading of the site on the recheck page. */
void walk_measure_site (Walk *walk, int number, const char *const axes[3]);
void walk_score (Walk *walk, const char *category);

G_END_DECLS
