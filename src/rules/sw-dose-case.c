/* sw-dose-case.c: the dose of a course, from what the record holds on the treatment day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

static gboolean
is_same_agent (const SwCase *c, gint64 course, const char *agent)
{
  const SwCourseDetails *details = sw_facts_of_course (&c->dossier->facts, SW_FACT_COURSE_DETAILS, course);
  const SwProtocol *protocol = details ? sw_books_protocol (c->books, details->document) : NULL;

  return protocol != NULL && g_strcmp0 (protocol->agent, agent) == 0;
}

/* The injection of another course with the same agent that still counts on @today; NULL: it does not. */
static const SwInjection *
injection_that_counts (const SwCase *c, const SwInjectionTumour *row, const SwProtocol *protocol, SwDay today)
{
  const SwInjection *injection = sw_facts_by_id (&c->dossier->facts, SW_FACT_INJECTION, row->injection);

  if (row->course == c->course || injection == NULL || injection->fact.withdrawn
      || injection->day <= today - protocol->look_back_days || injection->day > today)
    return NULL;
  return is_same_agent (c, row->course, protocol->agent) ? injection : NULL;
}

gint64
sw_dose_given_before (const SwCase *c, SwDay today, SwDay *free_day)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  const SwInjectionTumour *row;
  SwDay free = SW_NO_DAY;
  gint64 given = 0;

  for (guint i = 0; protocol != NULL && protocol->look_back_days != SW_UNKNOWN
                    && (row = sw_facts_next (&c->dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    {
      const SwInjection *injection = injection_that_counts (c, row, protocol, today);

      if (injection == NULL)
        continue;
      given += row->given_nl;
      free = MAX (free, injection->day + protocol->look_back_days);
    }
  if (free_day != NULL)
    *free_day = free;
  return given;
}

static const SwWeight *
weight_on (const SwCase *c, SwDay day)
{
  const SwWeight *row, *last = NULL;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;)
    if (row->day == day && (last == NULL || row->minute >= last->minute))
      last = row;
  return last;
}

static void
tumour_clear (gpointer data)
{
  SwDoseTumour *tumour = data;

  g_free ((gpointer) tumour->readings);
}

/* The tumours of the course with their readings of the day. */
static GArray *
tumours_of_case (const SwCase *c)
{
  g_autoptr (GArray) ids = sw_dossier_course_tumours (c->dossier, c->course);
  GArray *tumours = g_array_new (FALSE, FALSE, sizeof (SwDoseTumour));

  g_array_set_clear_func (tumours, tumour_clear);
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      const SwTumourDetails *details = sw_dossier_tumour (c->dossier, id);
      g_autoptr (GPtrArray) rows = sw_dossier_readings (c->dossier, id, c->now.day);
      SwDoseTumour tumour = { id, details ? details->letter : i, sw_axes_of_readings (rows), rows->len };

      g_array_append_val (tumours, tumour);
    }
  return tumours;
}

SwDoseResult *
sw_dose_of_case (const SwCase *c, GError **error)
{
  g_autoptr (GArray) tumours = tumours_of_case (c);
  const SwWeight *weight = weight_on (c, c->now.day);
  SwDoseInput input = {
    .protocol = sw_case_protocol (c),
    .tumours = (const SwDoseTumour *) (gpointer) tumours->data,
    .n_tumours = tumours->len,
    .today = c->now.day,
    .reader_error = sw_practice_setting_int (c->practice, "reader-error", 0),
  };

  if (input.protocol == NULL || weight == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT,
                           weight == NULL ? _("There is no weight of the treatment day; weigh the dog.")
                                          : _("No course is open; open one with an adopted protocol."));
      return NULL;
    }
  input.weight_g = weight->grams;
  input.given_before_nl = sw_dose_given_before (c, c->now.day, &input.free_day);
  return sw_dose_compute (&input, error);
}
