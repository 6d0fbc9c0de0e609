/* sw-response-series.c: the sizes of a tumour as the record holds them, and its score
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-response-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

static int
by_day (gconstpointer a, gconstpointer b)
{
  SwDay first = *(const SwDay *) a, second = *(const SwDay *) b;

  return (first > second) - (first < second);
}

static gboolean
has_day (const GArray *days, SwDay day)
{
  for (guint i = 0; i < days->len; i++)
    if (g_array_index (days, SwDay, i) == day)
      return TRUE;
  return FALSE;
}

static void
add_day (GArray *days, SwDay day)
{
  if (!has_day (days, day))
    g_array_append_val (days, day);
}

/* The injection of a course, if it put something into this tumour; NULL. */
static const SwInjection *
injection_into (const SwDossier *dossier, const SwInjectionTumour *row, gint64 tumour)
{
  const SwInjection *injection;

  if (row->tumour != tumour || row->given_nl <= 0)
    return NULL;
  injection = sw_facts_by_id (&dossier->facts, SW_FACT_INJECTION, row->injection);
  return injection != NULL && !injection->fact.withdrawn ? injection : NULL;
}

/* Treatment days on a tumour up to @day, rising. */
static GArray *
injection_days (const SwCase *c, gint64 tumour, SwDay day)
{
  GArray *days = g_array_new (FALSE, FALSE, sizeof (SwDay));
  const SwInjectionTumour *row;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    {
      const SwInjection *injection = injection_into (c->dossier, row, tumour);

      if (injection != NULL && injection->day <= day)
        add_day (days, injection->day);
    }
  g_array_sort (days, by_day);
  return days;
}

const SwRecurrence *
sw_response_recurrence (const SwCase *c, gint64 tumour, SwDay after, SwDay until)
{
  const SwRecurrence *row, *found = NULL;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    if (row->tumour == tumour && row->day > after && row->day <= until
        && (found == NULL || row->sampled > found->sampled))
      found = row;
  return found;
}

/* The days on which somebody measured or looked, rising. */
static GArray *
days_of_sizes (const SwCase *c, gint64 tumour, SwDay baseline, SwDay day)
{
  GArray *days = g_array_new (FALSE, FALSE, sizeof (SwDay));
  const SwReading *reading;
  const SwLook *look;

  for (guint i = 0; (reading = sw_facts_next (&c->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == tumour && reading->day >= baseline && reading->day <= day)
      add_day (days, reading->day);
  for (guint i = 0; (look = sw_facts_next (&c->dossier->facts, SW_FACT_LOOK, &i)) != NULL;)
    if (look->tumour == tumour && look->day > baseline && look->day <= day)
      add_day (days, look->day);
  g_array_sort (days, by_day);
  return days;
}

static const SwLook *
look_on (const SwCase *c, gint64 tumour, SwDay day)
{
  const SwLook *look, *newest = NULL;

  for (guint i = 0; (look = sw_facts_next (&c->dossier->facts, SW_FACT_LOOK, &i)) != NULL;)
    if (look->tumour == tumour && look->day == day)
      newest = look;
  return newest;
}

static SwSize
size_measured_on (const SwCase *c, gint64 tumour, SwDay day)
{
  g_autoptr (GPtrArray) rows = sw_dossier_readings (c->dossier, tumour, day);
  g_autofree SwAxes *axes = sw_axes_of_readings (rows);
  const SwProtocol *protocol = sw_case_protocol (c);
  SwMeasured measured;

  if (!sw_volume_measure (axes, rows->len, &measured))
    return sw_size_of_state (day, SW_SITE_NOT_EVALUABLE);
  return sw_size_measured (day, &measured, protocol ? protocol->volume_rule : SW_VOLUME_HALF_PRODUCT);
}

/* What somebody saw wins over calipers, except that nobody measured: readings say otherwise. */
static SwSize
size_on (const SwCase *c, gint64 tumour, SwDay day, gboolean is_baseline)
{
  const SwLook *look = is_baseline ? NULL : look_on (c, tumour, day);

  if (look != NULL)
    switch ((SwLookState) look->state)
      {
      case SW_LOOK_GONE:
        return sw_size_of_state (day, SW_SITE_GONE);
      case SW_LOOK_TOO_SMALL:
        return sw_size_of_state (day, SW_SITE_TOO_SMALL);
      case SW_LOOK_HIDDEN:
        return sw_size_of_state (day, SW_SITE_NOT_EVALUABLE);
      case SW_LOOK_NOT_MEASURED:
      case SW_N_LOOK_STATES:
        break;
      }
  return size_measured_on (c, tumour, day);
}

/* Sizes from a treatment day on; empty when nothing was measured on it. */
static GArray *
sizes_from (const SwCase *c, gint64 tumour, SwDay baseline, SwDay day)
{
  g_autoptr (GArray) days = days_of_sizes (c, tumour, baseline, day);
  GArray *sizes = g_array_new (FALSE, FALSE, sizeof (SwSize));

  if (!has_day (days, baseline))
    return sizes;
  for (guint i = 0; i < days->len; i++)
    {
      SwSize size = size_on (c, tumour, g_array_index (days, SwDay, i), i == 0);

      g_array_append_val (sizes, size);
    }
  return sizes;
}

static gboolean
has_recurred (const SwCase *c, gint64 tumour, SwDay baseline, SwDay day)
{
  g_autoptr (GArray) sizes = sizes_from (c, tumour, baseline, day);

  if (sw_response_recurrence (c, tumour, baseline, day) != NULL)
    return TRUE;
  return sizes->len > 1
         && sw_response_walk ((const SwSize *) (gpointer) sizes->data, sizes->len, SW_FAMILY_LONGEST).category
            == SW_CATEGORY_RECURRENCE;
}

/* The first treatment day, or that on which the latest recurrence was treated; SW_NO_DAY: never injected. */
static SwDay
baseline_day (const SwCase *c, gint64 tumour, const GArray *treated)
{
  SwDay baseline = treated->len > 0 ? g_array_index (treated, SwDay, 0) : SW_NO_DAY;

  for (guint i = 1; i < treated->len; i++)
    {
      SwDay next = g_array_index (treated, SwDay, i);

      if (has_recurred (c, tumour, baseline, next))
        baseline = next;
    }
  return baseline;
}

GArray *
sw_response_sizes (const SwCase *c, gint64 tumour, SwDay day)
{
  g_autoptr (GArray) treated = injection_days (c, tumour, day);
  SwDay baseline = baseline_day (c, tumour, treated);

  if (baseline == SW_NO_DAY)
    return g_array_new (FALSE, FALSE, sizeof (SwSize));
  return sizes_from (c, tumour, baseline, day);
}

/* Whether a size of this day speaks of this course. */
static gboolean
is_of_course (const SwCase *c, const SwInjection *injection, const GArray *tumours, gint64 tumour, SwDay day)
{
  g_autoptr (GArray) treated = NULL;
  gboolean is_target = FALSE;

  for (guint i = 0; i < tumours->len; i++)
    is_target = is_target || g_array_index (tumours, gint64, i) == tumour;
  if (!is_target || day <= injection->day || day > c->now.day)
    return FALSE;
  treated = injection_days (c, tumour, day);
  return treated->len > 0 && g_array_index (treated, SwDay, treated->len - 1) == injection->day;
}

static int
by_day_falling (gconstpointer a, gconstpointer b)
{
  return by_day (b, a);
}

GArray *
sw_response_days (const SwCase *c)
{
  GArray *days = g_array_new (FALSE, FALSE, sizeof (SwDay));
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);
  const SwReading *reading;
  const SwLook *look;
  const SwRecurrence *back;

  if (injection == NULL)
    return days;
  for (guint i = 0; (reading = sw_facts_next (&c->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (is_of_course (c, injection, tumours, reading->tumour, reading->day))
      add_day (days, reading->day);
  for (guint i = 0; (look = sw_facts_next (&c->dossier->facts, SW_FACT_LOOK, &i)) != NULL;)
    if (is_of_course (c, injection, tumours, look->tumour, look->day))
      add_day (days, look->day);
  for (guint i = 0; (back = sw_facts_next (&c->dossier->facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    if (is_of_course (c, injection, tumours, back->tumour, back->day))
      add_day (days, back->day);
  g_array_sort (days, by_day_falling);
  return days;
}

static gboolean
is_wound_open (const SwCase *c, gint64 tumour, SwDay day)
{
  const SwWound *row, *last = NULL;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_WOUND, &i)) != NULL;)
    if (row->tumour == tumour && row->day <= day && (last == NULL || row->day >= last->day))
      last = row;
  return last != NULL && last->state == SW_WOUND_OPEN;
}

static SwScoring
scoring_of (const SwCase *c, gint64 tumour, SwDay day)
{
  g_autoptr (GArray) treated = injection_days (c, tumour, day);
  SwDay baseline = baseline_day (c, tumour, treated);
  const SwRecurrence *recurrence = baseline == SW_NO_DAY ? NULL : sw_response_recurrence (c, tumour, baseline, day);
  SwScoring scoring = {
    .protocol = sw_case_protocol (c),
    .course_day = treated->len > 0 ? day - g_array_index (treated, SwDay, treated->len - 1) : SW_UNKNOWN,
    .score_day = day,
    .wound_open = is_wound_open (c, tumour, day),
    .recurrence = recurrence != NULL,
    .sampled = recurrence != NULL && recurrence->sampled == 1,
    .injections = treated->len,
    .reader_error = sw_practice_setting_int (c->practice, "reader-error", 0),
    .tumour = tumour,
  };

  return scoring;
}

static gboolean
check_sizes (GArray *sizes, const SwScoring *scoring, GError **error)
{
  g_autofree char *date = sw_day_format (scoring->score_day);

  if (scoring->injections == 0)
    g_set_error (
        error, SW_ERROR, SW_ERROR_INPUT,
        _("This tumour was not injected by %s, so there is no response to score; record the injection first."), date);
  else if (sizes->len == 0)
    g_set_error_literal (
        error, SW_ERROR, SW_ERROR_INPUT,
        _("This tumour was not measured on its treatment day, so there is no baseline; record those readings."));
  else if (g_array_index (sizes, SwSize, sizes->len - 1).day != scoring->score_day
           && !scoring->recurrence)
    g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                 _("Nothing was measured or looked at on %s; record what the site shows on that day."), date);
  else
    return TRUE;
  return FALSE;
}

SwResponse *
sw_response_of_tumour (const SwCase *c, gint64 tumour, SwDay day, GError **error)
{
  g_autoptr (GArray) sizes = sw_response_sizes (c, tumour, day);
  SwScoring scoring = scoring_of (c, tumour, day);

  if (!check_sizes (sizes, &scoring, error))
    return NULL;
  return sw_response_score ((const SwSize *) (gpointer) sizes->data, sizes->len, &scoring, error);
}
