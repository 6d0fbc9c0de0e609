/* sw-summary.h: what the patient list shows about a course, kept beside the facts so that lists need no rules
 *
 * Derived: made by rules from a dossier, rewritten by the act that touches the course, recomputed by record check.
 * Holds dates, never "today".
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  gint64 course;
  gint64 patient;
  const char *stage; /* stable code of the stage; static or interned, never freed */
  SwDay due_day;     /* the next thing due; SW_NO_DAY: nothing */
  gint64 due_minute; /* of the local day; SW_UNKNOWN: any time of it */
  gboolean open;     /* the course has not ended */
} SwCourseSummary;

G_END_DECLS
