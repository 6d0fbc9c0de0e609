/* sw-case.h: everything a rule about one course may look at
 *
 * Rules have no clock, no locale and no I/O: "now" is in here. All pointers are borrowed and outlive the call.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-books.h"
#include "sw-dossier.h"

G_BEGIN_DECLS

typedef struct
{
  const SwDossier *dossier;
  const SwPractice *practice;
  const SwBooks *books; /* the parsed documents of the record: protocols, medicines, interactions */
  gint64 course;        /* 0 while no course is open: work-up only */
  SwMoment now;         /* local time of the record's zone */
  GTimeZone *zone;      /* the record's zone: true minutes across daylight saving */
} SwCase;

/* The protocol document the course was made with, parsed; NULL without a course. */
const SwProtocol *sw_case_protocol (const SwCase *c);

/* What the course was made with; NULL without a course. */
const SwCourseDetails *sw_case_details (const SwCase *c);
/* The signed plan, NULL: none. */
const SwPlan *sw_case_plan (const SwCase *c);
/* The release that stands: it ends with the day it was made on. NULL: none, or it has ended. */
const SwRelease *sw_case_release (const SwCase *c);
/* Whether the course has been ended. NULL: it runs. */
const SwCourseEnd *sw_case_end (const SwCase *c);
/* The letter of a tumour, "?" if it has no details. (transfer full) */
char *sw_case_letter (const SwCase *c, gint64 tumour);

G_END_DECLS
