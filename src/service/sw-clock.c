/* sw-clock.c: the machine's clock, one that stands where it was set, or one that runs on from there
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-clock.h"

struct _SwClock
{
  gatomicrefcount refs;
  gboolean scripted;
  GMutex mutex; /* guards moment */
  SwMoment moment;
  gboolean runs;     /* on from moment, since started_us */
  gint64 started_us; /* monotonic */
};

SwClock *
sw_clock_new (void)
{
  SwClock *clock = g_new0 (SwClock, 1);

  g_atomic_ref_count_init (&clock->refs);
  g_mutex_init (&clock->mutex);
  return clock;
}

SwClock *
sw_clock_new_at (SwMoment moment)
{
  SwClock *clock = sw_clock_new ();

  clock->scripted = TRUE;
  clock->moment = moment;
  return clock;
}

SwClock *
sw_clock_new_running_from (SwMoment moment)
{
  SwClock *clock = sw_clock_new_at (moment);

  clock->runs = TRUE;
  clock->started_us = g_get_monotonic_time ();
  return clock;
}

SwClock *
sw_clock_ref (SwClock *clock)
{
  g_atomic_ref_count_inc (&clock->refs);
  return clock;
}

void
sw_clock_unref (SwClock *clock)
{
  if (clock == NULL || !g_atomic_ref_count_dec (&clock->refs))
    return;
  g_mutex_clear (&clock->mutex);
  g_free (clock);
}

gboolean
sw_clock_is_scripted (const SwClock *clock)
{
  return clock->scripted;
}

void
sw_clock_set (SwClock *clock, SwMoment moment)
{
  g_return_if_fail (clock->scripted && !clock->runs);

  g_mutex_lock (&clock->mutex);
  clock->moment = moment;
  g_mutex_unlock (&clock->mutex);
}

static int
offset_at (GTimeZone *zone, gint64 utc_us)
{
  int interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, utc_us / G_USEC_PER_SEC);

  return g_time_zone_get_offset (zone, interval) / 60;
}

SwNow
sw_clock_now (SwClock *clock, GTimeZone *zone)
{
  SwNow now;

  if (clock->scripted)
    {
      g_mutex_lock (&clock->mutex);
      now.local = clock->moment;
      g_mutex_unlock (&clock->mutex);
      now.utc_us = sw_moment_to_utc (zone, now.local);
      if (clock->runs)
        {
          now.utc_us += g_get_monotonic_time () - clock->started_us;
          now.local = sw_moment_from_utc (zone, now.utc_us);
        }
    }
  else
    {
      now.utc_us = g_get_real_time ();
      now.local = sw_moment_from_utc (zone, now.utc_us);
    }
  now.offset_minutes = offset_at (zone, now.utc_us);
  return now;
}
