/* sw-day.c: calendar days and local minutes
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-day.h"

#include "sw-error.h"
#include "sw-text.h"

#include <glib/gi18n-lib.h>

#define SECONDS_PER_DAY G_GINT64_CONSTANT (86400)

static gboolean
is_leap (int year)
{
  return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int
days_in_month (int year, int month)
{
  static const int days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };

  return month == 2 && is_leap (year) ? 29 : days[month - 1];
}

/* Days of the 400-year cycle are counted from 1 March, so that the leap day comes last. */
SwDay
sw_day_from_ymd (int year, int month, int day)
{
  int cycle, year_of_cycle, day_of_year, shifted;

  if (year < 1 || year > 9999 || month < 1 || month > 12 || day < 1 || day > days_in_month (year, month))
    return SW_NO_DAY;
  shifted = month <= 2 ? year - 1 : year;
  cycle = shifted / 400;
  year_of_cycle = shifted % 400;
  day_of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
  return (SwDay) cycle * 146097 + year_of_cycle * 365 + year_of_cycle / 4 - year_of_cycle / 100 + day_of_year - 719468;
}

void
sw_day_to_ymd (SwDay day, int *year, int *month, int *day_of_month)
{
  gint64 from_march = day + 719468;
  gint64 cycle = from_march / 146097;
  int day_of_cycle = (int) (from_march % 146097);
  int year_of_cycle = (day_of_cycle - day_of_cycle / 1460 + day_of_cycle / 36524 - day_of_cycle / 146096) / 365;
  int day_of_year = day_of_cycle - (365 * year_of_cycle + year_of_cycle / 4 - year_of_cycle / 100);
  int month_from_march = (5 * day_of_year + 2) / 153;

  *day_of_month = day_of_year - (153 * month_from_march + 2) / 5 + 1;
  *month = month_from_march < 10 ? month_from_march + 3 : month_from_march - 9;
  *year = (int) (cycle * 400) + year_of_cycle + (*month <= 2);
}

/* Matches @text against a pattern in which "0" stands for any digit. */
static gboolean
has_shape (const char *text, const char *pattern)
{
  for (; *pattern != '\0'; pattern++, text++)
    if (*pattern == '0' ? !g_ascii_isdigit (*text) : *text != *pattern)
      return FALSE;
  return *text == '\0';
}

static int
digits_at (const char *text, int count)
{
  int value = 0;

  for (int i = 0; i < count; i++)
    value = value * 10 + (text[i] - '0');
  return value;
}

gboolean
sw_day_parse (const char *text, SwDay *day, GError **error)
{
  g_autofree char *shown = sw_text_excerpt (text, 24);
  SwDay parsed;

  if (!has_shape (text, "0000-00-00"))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _ ("“%s” is not a date: type year, month and day, such as 2026-02-28."), shown);
      return FALSE;
    }
  parsed = sw_day_from_ymd (digits_at (text, 4), digits_at (text + 5, 2), digits_at (text + 8, 2));
  if (parsed == SW_NO_DAY)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _ ("The calendar has no day %s: check month and day."), shown);
      return FALSE;
    }
  *day = parsed;
  return TRUE;
}

char *
sw_day_format (SwDay day)
{
  int year, month, day_of_month;

  if (day == SW_NO_DAY)
    return g_strdup ("");
  sw_day_to_ymd (day, &year, &month, &day_of_month);
  return g_strdup_printf ("%04d-%02d-%02d", year, month, day_of_month);
}

SwDay
sw_day_add_days (SwDay day, gint64 days)
{
  return day == SW_NO_DAY ? SW_NO_DAY : day + days;
}

SwDay
sw_day_add_months (SwDay day, int months)
{
  int year, month, day_of_month, count;

  if (day == SW_NO_DAY)
    return SW_NO_DAY;
  sw_day_to_ymd (day, &year, &month, &day_of_month);
  count = year * 12 + month - 1 + months;
  if (count < 12)
    return SW_NO_DAY;
  year = count / 12;
  month = count % 12 + 1;
  return sw_day_from_ymd (year, month, MIN (day_of_month, days_in_month (year, month)));
}

int
sw_day_weekday (SwDay day)
{
  /* 1970-01-01 was a Thursday. */
  return (int) (((day + 3) % 7 + 7) % 7) + 1;
}

int
sw_day_months_between (SwDay birth, SwDay today)
{
  int year, month, day, this_year, this_month, this_day, months;

  sw_day_to_ymd (birth, &year, &month, &day);
  sw_day_to_ymd (today, &this_year, &this_month, &this_day);
  months = (this_year - year) * 12 + this_month - month;
  /* Born on the 31st, a month is full on the last day of a shorter one. */
  if (this_day < MIN (day, days_in_month (this_year, this_month)))
    months--;
  return MAX (months, 0);
}

gboolean
sw_time_parse (const char *text, int *minute, GError **error)
{
  if (!has_shape (text, "00:00") || digits_at (text, 2) > 23 || digits_at (text + 3, 2) > 59)
    {
      g_autofree char *shown = sw_text_excerpt (text, 24);

      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _ ("“%s” is not a time of day: type hours and minutes from 00:00 to 23:59, such as 08:05."), shown);
      return FALSE;
    }
  *minute = digits_at (text, 2) * 60 + digits_at (text + 3, 2);
  return TRUE;
}

char *
sw_time_format (int minute)
{
  return g_strdup_printf ("%02d:%02d", minute / 60, minute % 60);
}

gboolean
sw_moment_parse (const char *text, SwMoment *moment, GError **error)
{
  g_autofree char *date = NULL;
  SwMoment parsed;

  if (!has_shape (text, "0000-00-00T00:00"))
    {
      g_autofree char *shown = sw_text_excerpt (text, 24);

      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _ ("“%s” is not a date with a time: type both with a T between, such as 2026-02-28T08:05."), shown);
      return FALSE;
    }
  date = g_strndup (text, 10);
  if (!sw_day_parse (date, &parsed.day, error) || !sw_time_parse (text + 11, &parsed.minute, error))
    return FALSE;
  *moment = parsed;
  return TRUE;
}

char *
sw_moment_format (SwMoment moment)
{
  g_autofree char *date = NULL, *time = NULL;

  if (!sw_moment_is_set (moment))
    return g_strdup ("");
  date = sw_day_format (moment.day);
  time = sw_time_format (moment.minute);
  return g_strconcat (date, "T", time, NULL);
}

gboolean
sw_moment_is_set (SwMoment moment)
{
  return moment.day != SW_NO_DAY;
}

int
sw_moment_compare (SwMoment a, SwMoment b)
{
  if (a.day != b.day)
    return a.day < b.day ? -1 : 1;
  return (a.minute > b.minute) - (a.minute < b.minute);
}

static gint64
floor_div (gint64 a, gint64 b)
{
  return a / b - (a % b < 0);
}

SwMoment
sw_moment_add_minutes (SwMoment moment, gint64 minutes)
{
  gint64 total = moment.minute + minutes;
  gint64 days = floor_div (total, SW_MINUTES_PER_DAY);

  if (!sw_moment_is_set (moment))
    return moment;
  return (SwMoment){ moment.day + days, (int) (total - days * SW_MINUTES_PER_DAY) };
}

static gint64
offset_at (GTimeZone *zone, gint64 utc_seconds)
{
  return g_time_zone_get_offset (zone, g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, utc_seconds));
}

SwMoment
sw_moment_from_utc (GTimeZone *zone, gint64 utc_us)
{
  gint64 utc = floor_div (utc_us, G_USEC_PER_SEC);
  gint64 local = utc + offset_at (zone, utc);
  SwDay day = floor_div (local, SECONDS_PER_DAY);

  return (SwMoment){ day, (int) ((local - day * SECONDS_PER_DAY) / 60) };
}

gint64
sw_moment_to_utc (GTimeZone *zone, SwMoment moment)
{
  gint64 local = moment.day * SECONDS_PER_DAY + moment.minute * 60;
  gint64 before = offset_at (zone, local - SECONDS_PER_DAY);
  gint64 after = offset_at (zone, local + SECONDS_PER_DAY);
  gint64 offset = before;

  /* Until the clock has changed the offset of the day before holds; a skipped hour has neither and keeps it too. */
  if (offset_at (zone, local - before) != before && offset_at (zone, local - after) == after)
    offset = after;
  return (local - offset) * G_USEC_PER_SEC;
}

gint64
sw_moment_minutes_between (GTimeZone *zone, SwMoment a, SwMoment b)
{
  return (sw_moment_to_utc (zone, b) - sw_moment_to_utc (zone, a)) / G_TIME_SPAN_MINUTE;
}
