/* sw-clock.h: what time it is, as an argument
 *
 * The only clock of the program. A live record runs on the machine's; a record flagged practice-only may run on a
 * scripted one that stands still until it is set (--at, the demo practice, tests). Local time is always that of the
 * record's zone.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct _SwClock SwClock;

/* One moment, said three ways. */
typedef struct
{
  gint64 utc_us;      /* since 1970-01-01 UTC */
  int offset_minutes; /* local minus UTC */
  SwMoment local;     /* on the clock face of the zone */
} SwNow;

SwClock *sw_clock_new (void);
/* Stands at this moment of whatever zone it is asked for. */
SwClock *sw_clock_new_at (SwMoment moment);
/* Begins at this moment and runs on: what --at gives a window, where minutes must pass. */
SwClock *sw_clock_new_running_from (SwMoment moment);
SwClock *sw_clock_ref (SwClock *clock);
void sw_clock_unref (SwClock *clock);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwClock, sw_clock_unref)

gboolean sw_clock_is_scripted (const SwClock *clock);
/* Standing clocks only. Any thread. */
void sw_clock_set (SwClock *clock, SwMoment moment);
SwNow sw_clock_now (SwClock *clock, GTimeZone *zone);

G_END_DECLS
