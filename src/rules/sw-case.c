/* sw-case.c: what most rules ask a case first
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-case.h"

const SwCourseDetails *
sw_case_details (const SwCase *c)
{
  return c->course != 0 ? sw_facts_of_course (&c->dossier->facts, SW_FACT_COURSE_DETAILS, c->course) : NULL;
}

const SwProtocol *
sw_case_protocol (const SwCase *c)
{
  const SwCourseDetails *details = sw_case_details (c);

  return details != NULL ? sw_books_protocol (c->books, details->document) : NULL;
}

const SwPlan *
sw_case_plan (const SwCase *c)
{
  return c->course != 0 ? sw_dossier_plan (c->dossier, c->course) : NULL;
}

const SwRelease *
sw_case_release (const SwCase *c)
{
  const SwRelease *release = c->course != 0 ? sw_dossier_release (c->dossier, c->course) : NULL;

  return release != NULL && release->day >= c->now.day ? release : NULL;
}

const SwCourseEnd *
sw_case_end (const SwCase *c)
{
  return c->course != 0 ? sw_facts_of_course (&c->dossier->facts, SW_FACT_COURSE_END, c->course) : NULL;
}

char *
sw_case_letter (const SwCase *c, gint64 tumour)
{
  const SwTumourDetails *details = sw_dossier_tumour (c->dossier, tumour);

  return details != NULL ? sw_tumour_letter (details->letter) : g_strdup ("?");
}
