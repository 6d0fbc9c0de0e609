/* sw-course-words.c: how pages name tumours, days of a course and who recorded something
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course-words.h"

#include "sw-course.h"
#include "sw-region.h"

#include <glib/gi18n-lib.h>

char *
sw_words_tumour (const SwDossier *dossier, gint64 tumour)
{
  const SwTumourDetails *details = sw_dossier_tumour (dossier, tumour);
  g_autofree char *letter = sw_tumour_letter (details != NULL ? details->letter : 0);

  g_return_val_if_fail (details != NULL, NULL);
  /* Translators: "Tumour A, left hock" */
  return g_strdup_printf (_("Tumour %s, %s %s"), letter, sw_side_name (details->side),
                          sw_region_name (details->region));
}

char *
sw_words_day (const SwCase *c, SwDay day)
{
  SwDay zero = c->course != 0 ? sw_course_day_zero (c->dossier, c->course) : SW_NO_DAY;
  g_autofree char *date = sw_day_format (day);

  if (zero == SW_NO_DAY)
    return g_steal_pointer (&date);
  return g_strdup_printf (_("day %d, %s"), (int) (day - zero), date);
}

char *
sw_words_recorded (const SwPageContext *context, const SwFact *fact)
{
  SwCase c = sw_page_context_case (context);
  SwMoment moment = sw_moment_from_utc (c.zone, fact->recorded_us);
  g_autofree char *day = sw_day_format (moment.day), *time = sw_time_format (moment.minute);

  return g_strdup_printf ("%s, %s %s", sw_practice_person_name (c.practice, fact->person), day, time);
}
