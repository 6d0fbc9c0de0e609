/* sw-request.c: makes what a person at the desk wants done
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-request.h"

SwRequest *
sw_request_new (SwActKind act, gint64 person, gint64 patient)
{
  SwRequest *request = g_new0 (SwRequest, 1);

  request->kind = SW_REQUEST_ACT;
  request->act = act;
  request->person = person;
  request->patient = patient;
  request->when = SW_NO_MOMENT;
  request->facts = g_ptr_array_new_with_free_func (sw_fact_free);
  return request;
}

SwRequest *
sw_request_copy (const SwRequest *request)
{
  SwRequest *copy = g_memdup2 (request, sizeof *request);

  copy->facts = g_ptr_array_new_with_free_func (sw_fact_free);
  for (guint i = 0; i < request->facts->len; i++)
    g_ptr_array_add (copy->facts, sw_fact_copy (request->facts->pdata[i]));
  copy->text = g_strdup (request->text);
  copy->vet_orders = g_strdup (request->vet_orders);
  copy->reason = g_strdup (request->reason);
  return copy;
}

void
sw_request_free (SwRequest *request)
{
  if (request == NULL)
    return;
  g_ptr_array_unref (request->facts);
  g_free (request->text);
  g_free (request->vet_orders);
  g_free (request->reason);
  g_free (request);
}

gint64
sw_request_add (SwRequest *request, gpointer fact)
{
  g_ptr_array_add (request->facts, fact);
  return -(gint64) request->facts->len;
}

void
sw_request_set_reason (SwRequest *request, const char *reason)
{
  char *copy = g_strdup (reason);

  g_free (request->reason);
  request->reason = copy;
}

void
sw_request_set_vet_orders (SwRequest *request, const char *orders)
{
  char *copy = g_strdup (orders);

  g_free (request->vet_orders);
  request->vet_orders = copy;
}

void
sw_request_set_outside (SwRequest *request, const char *reason)
{
  request->outside = TRUE;
  sw_request_set_reason (request, reason);
}

static SwRequest *
guarded (SwRequestKind kind, SwActKind act, gint64 person, gint64 patient, gint64 course)
{
  SwRequest *request = sw_request_new (act, person, patient);

  request->kind = kind;
  request->course = course;
  return request;
}

SwRequest *
sw_request_tick (gint64 person, gint64 patient, gint64 dose, gint64 seen, SwDoseState pressed, SwMoment given,
                 const char *told_by)
{
  SwRequest *request = guarded (SW_REQUEST_TICK, SW_ACT_RECORD_DOSE, person, patient, 0);

  request->row = dose;
  request->seen = seen;
  request->choice = pressed;
  request->when = given;
  request->text = g_strdup (told_by);
  return request;
}

SwRequest *
sw_request_untick (gint64 person, gint64 patient, const SwDoseEvent *event)
{
  SwRequest *request = sw_request_new (SW_ACT_RECORD_DOSE, person, patient);

  sw_request_add (request, sw_fact_withdrawal (event));
  return request;
}

SwRequest *
sw_request_open_course (gint64 person,
                        gint64 patient,
                        gint64 document,
                        const gint64 *tumours,
                        guint n_tumours,
                        gint64 follows,
                        const char *purpose)
{
  SwRequest *request = guarded (SW_REQUEST_OPEN_COURSE, SW_ACT_OPEN_COURSE, person, patient, 0);

  request->row = document;
  request->choice = follows;
  request->text = g_strdup (purpose);
  for (guint i = 0; i < n_tumours; i++)
    {
      SwCourseTumour *treated = sw_new (SW_FACT_COURSE_TUMOUR, SwCourseTumour);

      treated->tumour = tumours[i];
      treated->treat = 1;
      sw_request_add (request, treated);
    }
  return request;
}

SwRequest *
sw_request_sign_plan (gint64 person, gint64 patient, gint64 course, SwDay treat_day, gint64 weight, const char *choices)
{
  SwRequest *request = guarded (SW_REQUEST_SIGN_PLAN, SW_ACT_SIGN_PLAN, person, patient, course);

  request->when.day = treat_day;
  request->row = weight;
  request->text = g_strdup (choices);
  return request;
}

SwRequest *
sw_request_move_day (gint64 person, gint64 patient, gint64 course, SwDay treat_day, int way)
{
  SwRequest *request = guarded (SW_REQUEST_MOVE_DAY, SW_ACT_MOVE_DAY, person, patient, course);

  request->when.day = treat_day;
  request->choice = way;
  return request;
}

SwRequest *
sw_request_reweigh_plan (gint64 person, gint64 patient, gint64 course, gint64 weight)
{
  SwRequest *request = guarded (SW_REQUEST_REWEIGH_PLAN, SW_ACT_SIGN_PLAN, person, patient, course);

  request->row = weight;
  return request;
}

SwRequest *
sw_request_order_replacement (gint64 person, gint64 patient, gint64 dose, SwMoment due)
{
  SwRequest *request = guarded (SW_REQUEST_ORDER_REPLACEMENT, SW_ACT_ORDER_REPLACEMENT, person, patient, 0);

  request->row = dose;
  request->when = due;
  return request;
}

SwRequest *
sw_request_stop_dose (gint64 person, gint64 patient, gint64 dose, const char *reason)
{
  SwRequest *request = guarded (SW_REQUEST_STOP_DOSE, SW_ACT_STOP_DOSE, person, patient, 0);

  request->row = dose;
  sw_request_set_reason (request, reason);
  return request;
}

SwRequest *
sw_request_release (gint64 person, gint64 patient, gint64 course)
{
  return guarded (SW_REQUEST_RELEASE, SW_ACT_RELEASE_DOSE, person, patient, course);
}

SwRequest *
sw_request_injection (gint64 person, gint64 patient, gint64 course)
{
  return guarded (SW_REQUEST_INJECTION, SW_ACT_RECORD_INJECTION, person, patient, course);
}

SwRequest *
sw_request_adopt (gint64 person)
{
  return guarded (SW_REQUEST_ADOPT, SW_ACT_ADOPT_DOCUMENT, person, 0, 0);
}

void
sw_request_adopt_document (SwRequest *request, SwDocumentKind kind, GBytes *bytes, const char *ticks)
{
  SwDocument *document = sw_new (SW_FACT_DOCUMENT, SwDocument);
  SwAdoption *adoption = sw_new (SW_FACT_ADOPTION, SwAdoption);

  document->doc_kind = kind;
  document->bytes = g_bytes_ref (bytes);
  adoption->document = sw_request_add (request, document);
  adoption->doc_kind = kind;
  adoption->ticks = g_strdup (ticks ? ticks : "");
  sw_request_add (request, adoption);
}

SwRequest *
sw_request_score (
    gint64 person, gint64 patient, gint64 course, SwDay day, SwNonTargets non_targets, gboolean new_tumour)
{
  SwRequest *request = guarded (SW_REQUEST_SCORE, SW_ACT_SCORE, person, patient, course);
  SwOverall *overall = sw_new (SW_FACT_OVERALL, SwOverall);

  overall->course = course;
  overall->day = day;
  overall->non_targets = non_targets;
  overall->new_tumour = !!new_tumour;
  sw_request_add (request, overall);
  request->when.day = day;
  return request;
}

SwRequest *
sw_request_end_course (
    gint64 person, gint64 patient, gint64 course, SwEnd end, gint64 cause, SwDay day, gboolean certain)
{
  SwRequest *request = guarded (SW_REQUEST_END_COURSE, SW_ACT_END_COURSE, person, patient, course);
  SwCourseEnd *row = sw_new (SW_FACT_COURSE_END, SwCourseEnd);

  row->course = course;
  row->end = end;
  row->cause = cause;
  row->day = day;
  row->certain = !!certain;
  sw_request_add (request, row);
  request->when.day = day;
  return request;
}
