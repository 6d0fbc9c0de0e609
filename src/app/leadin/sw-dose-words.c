/* sw-dose-words.c: days, amounts and doses in the words of this page
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-words-private.h"

#include "sw-quantity.h"
#include "sw-tablet.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const weekdays[] = { N_("Mon"), N_("Tue"), N_("Wed"), N_("Thu"), N_("Fri"), N_("Sat"), N_("Sun") };

static const char *const months[] = {
  N_("Jan"), N_("Feb"), N_("Mar"), N_("Apr"), N_("May"), N_("Jun"),
  N_("Jul"), N_("Aug"), N_("Sep"), N_("Oct"), N_("Nov"), N_("Dec"),
};

char *
sw_day_words (SwDay day)
{
  g_autofree char *date = sw_day_format (day);

  return g_strdup_printf ("%s %s", _(weekdays[sw_day_weekday (day) - 1]), date);
}

char *
sw_moment_words (SwMoment moment)
{
  g_autofree char *day = sw_day_words (moment.day);
  g_autofree char *time = sw_time_format (moment.minute);

  return g_strdup_printf ("%s %s", day, time);
}

char *
sw_short_moment_words (SwMoment moment)
{
  g_autofree char *time = sw_time_format (moment.minute);
  int year, month, day;

  sw_day_to_ymd (moment.day, &year, &month, &day);
  return g_strdup_printf ("%s %d %s %s", _(weekdays[sw_day_weekday (moment.day) - 1]), day, _(months[month - 1]), time);
}

char *
sw_age_words (SwDay day, SwDay today)
{
  int days = (int) (today - day);

  if (days == 0)
    return g_strdup (_("today"));
  if (days == 1)
    return g_strdup (_("yesterday"));
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d day old", "%d days old", (gulong) days), days);
}

char *
sw_milligrams (gint64 ug)
{
  SwRatio amount = sw_ratio (ug, SW_UG_PER_MG);
  g_autofree char *rounded = NULL;
  char *own = NULL;

  sw_ratio_format_beside (amount, amount, 0, &rounded, &own); /* all of its own digits */
  return own;
}

char *
sw_pieces_words (gint64 strength_ug, gint64 halves, gint64 volume_nl)
{
  SwTabletChoice choice = { .strength_ug = strength_ug, .halves = halves };

  if (strength_ug != SW_UNKNOWN && halves != SW_UNKNOWN)
    return sw_tablet_describe (&choice);
  if (volume_nl != SW_UNKNOWN)
    {
      g_autofree char *ml = sw_drug_volume_format (volume_nl);

      return g_strdup_printf (_("%s mL"), ml);
    }
  return g_strdup ("");
}

char *
sw_tablets_words (gint64 strength_ug, gint64 halves, gint64 volume_nl, gint64 dose_ug)
{
  g_autofree char *pieces = sw_pieces_words (strength_ug, halves, volume_nl);
  g_autofree char *mg = sw_milligrams (dose_ug);

  return g_strdup_printf (_("%s = %s mg"), pieces, mg);
}

char *
sw_interval_words (gint64 every_minutes)
{
  if (every_minutes == SW_MINUTES_PER_DAY)
    return g_strdup (_("every morning"));
  return g_strdup_printf (_("every %d h"), (int) (every_minutes / SW_MINUTES_PER_HOUR));
}

char *
sw_dose_words (const SwDosePlan *dose)
{
  g_autofree char *mg = sw_milligrams (dose->dose_ug);
  g_autofree char *when = sw_moment_words (sw_dose_due (dose));

  return g_strdup_printf (_("%s %s mg, %s"), dose->substance, mg, when);
}

static void
append_time (GString *words, const SwDosePlan *dose, const SwDoseEvent *event)
{
  g_autofree char *time = NULL;

  if (event->day == SW_UNKNOWN || event->minute == SW_UNKNOWN)
    return;
  time = event->day == dose->due_day ? sw_time_format ((int) event->minute)
                                     : sw_moment_words ((SwMoment){ event->day, (int) event->minute });
  g_string_append_printf (words, " %s", time);
}

static void
append_replacement (GString *words, const SwCase *c, const SwDosePlan *dose)
{
  const SwDosePlan *instead = sw_dose_replacement (c, dose->dose);
  g_autofree char *when = instead != NULL ? sw_moment_words (sw_dose_due (instead)) : NULL;

  if (when != NULL)
    g_string_append_printf (words, _("; ordered again for %s"), when);
}

char *
sw_dose_told_words (const SwCase *c, const SwDosePlan *dose)
{
  const SwDoseEvent *event = sw_dossier_dose_event (c->dossier, dose->dose);
  GString *words = g_string_new (sw_standing_name (sw_dose_state (c, dose)));

  if (event == NULL)
    return g_string_free (words, FALSE);
  append_time (words, dose, event);
  if (event->told_by != NULL)
    g_string_append_printf (words, _(", told by %s"), event->told_by);
  if (event->note != NULL)
    g_string_append_printf (words, ", %s", event->note);
  g_string_append_printf (words, _("; recorded by %s"), sw_practice_person_name (c->practice, event->fact.person));
  append_replacement (words, c, dose);

  return g_string_free (words, FALSE);
}

SwMarkState
sw_dose_mark (SwStanding standing)
{
  switch (standing)
    {
    case SW_STANDING_DUE:
      return SW_MARK_DUE;
    case SW_STANDING_NOT_KNOWN:
      return SW_MARK_NOT_KNOWN;
    case SW_STANDING_GIVEN:
      return SW_MARK_GIVEN;
    case SW_STANDING_LATE:
      return SW_MARK_LATE;
    case SW_STANDING_MISSED:
      return SW_MARK_MISSED;
    case SW_STANDING_VOMITED:
      return SW_MARK_VOMITED;
    case SW_STANDING_STOPPED:
      return SW_MARK_STOPPED;
    case SW_STANDING_PLANNED:
    case SW_N_STANDINGS:
      break;
    }
  return SW_MARK_PLANNED;
}

char *
sw_choices_words (const char *choices)
{
  g_auto (GStrv) pairs = g_strsplit (choices != NULL ? choices : "", ";", -1);
  GString *words = g_string_new (NULL);

  for (guint i = 0; pairs[i] != NULL; i++)
    {
      const char *substance = strchr (pairs[i], '=');

      if (substance != NULL)
        g_string_append_printf (words, "%s%s", words->len > 0 ? ", " : "", substance + 1);
    }

  return g_string_free (words, FALSE);
}
