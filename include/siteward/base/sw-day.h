/* sw-day.h: calendar days and local minutes.
 *
 * A day is a number, so that days of a course add and subtract. A clinical event is a local day and minute in the
 * record's zone; daylight saving moves no wall-clock time (domain 5), and elapsed time across it is true time.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-unknown.h"

G_BEGIN_DECLS

/* Days since 1970-01-01 in the proleptic Gregorian calendar; years 1 to 9999. */
typedef gint64 SwDay;

#define SW_NO_DAY SW_UNKNOWN
#define SW_MINUTES_PER_HOUR 60
#define SW_MINUTES_PER_DAY (24 * SW_MINUTES_PER_HOUR)

/**
 * SwMoment:
 * @day: the local calendar day, or SW_NO_DAY for no moment
 * @minute: minutes since local midnight on the clock face, 0 to 1439
 */
typedef struct
{
  SwDay day;
  int minute;
} SwMoment;

#define SW_NO_MOMENT ((SwMoment){ SW_NO_DAY, 0 })

/* SW_NO_DAY when there is no such day (month 13, 29 February of a common year). */
SwDay sw_day_from_ymd (int year, int month, int day);
void sw_day_to_ymd (SwDay day, int *year, int *month, int *day_of_month);

/* "2026-02-28"; refuses anything else with SW_ERROR_INPUT and a sentence. */
gboolean sw_day_parse (const char *text, SwDay *day, GError **error);

/* "2026-02-28"; "" for SW_NO_DAY. */
char *sw_day_format (SwDay day);

/* SW_NO_DAY stays SW_NO_DAY. A month later than 31 January is the last day of February. */
SwDay sw_day_add_days (SwDay day, gint64 days);
SwDay sw_day_add_months (SwDay day, int months);

/* 1 Monday ... 7 Sunday. */
int sw_day_weekday (SwDay day);

/* Whole months lived on @today; at least 0. */
int sw_day_months_between (SwDay birth, SwDay today);

/* "08:05" is 485; only HH:MM on a 24-hour face. */
gboolean sw_time_parse (const char *text, int *minute, GError **error);
char *sw_time_format (int minute);

/* "2026-02-28T08:05". */
gboolean sw_moment_parse (const char *text, SwMoment *moment, GError **error);
char *sw_moment_format (SwMoment moment);

gboolean sw_moment_is_set (SwMoment moment);

/* On the clock face: below 0, 0, over 0. */
int sw_moment_compare (SwMoment a, SwMoment b);

/* Moves the clock face, not true time: the same hour tomorrow is 1440 minutes on, daylight saving or not. */
SwMoment sw_moment_add_minutes (SwMoment moment, gint64 minutes);

/* The local day and minute (floored) of an instant given in microseconds since 1970-01-01 UTC. */
SwMoment sw_moment_from_utc (GTimeZone *zone, gint64 utc_us);

/* The instant. An hour that the clock shows twice means the first; one that it skips lies as far after the change. */
gint64 sw_moment_to_utc (GTimeZone *zone, SwMoment moment);

/* True minutes from @a to @b, across changes of the clock. */
gint64 sw_moment_minutes_between (GTimeZone *zone, SwMoment a, SwMoment b);

G_END_DECLS
