/* sw-operate-course.c: opening a course, planning its medicines, moving its day, ending it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-course.h"
#include "sw-error.h"
#include "sw-gate.h"

#include <glib/gi18n-lib.h>

/* --- open --- */

static const SwDocument *
adopted_protocol (SwOperation *op, GError **error)
{
  const SwDocument *document = sw_facts_by_id (&op->c.practice->facts, SW_FACT_DOCUMENT, op->request->row);

  if (document == NULL || document->doc_kind != SW_DOCUMENT_PROTOCOL)
    g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Choose a protocol that this practice has adopted."));
  else if (sw_practice_adopted (op->c.practice, SW_DOCUMENT_PROTOCOL, document->doc_id) != document)
    g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                 _("%s, revision %s, is not adopted: a vet adopts it on the practice page."), document->doc_id,
                 document->revision);
  else
    return document;
  return NULL;
}

static gboolean
tumours_are_the_dogs (SwOperation *op, GError **error)
{
  const GPtrArray *facts = op->request->facts;

  for (guint i = 0; i < facts->len; i++)
    {
      const SwCourseTumour *row = facts->pdata[i];

      if (sw_dossier_tumour (op->dossier, row->tumour) == NULL)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("This dog has no such tumour."));
          return FALSE;
        }
    }
  if (facts->len > 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Choose at least one tumour."));
  return FALSE;
}

/* One treatment is prepared at a time: its day, its doses and its release would otherwise be told of two courses at
 * once. */
static gboolean
no_other_before_its_needle (SwOperation *op, GError **error)
{
  const SwCourse *course;

  for (guint i = 0; (course = sw_facts_next (&op->dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    if (sw_dossier_injection (op->dossier, course->fact.id) == NULL
        && sw_facts_of_course (&op->dossier->facts, SW_FACT_COURSE_END, course->fact.id) == NULL)
      {
        g_autofree char *number = sw_course_number (op->dossier, course->fact.id);

        g_set_error (error, SW_ERROR, SW_ERROR_CONFLICT,
                     _("Course %s is open and not treated yet: treat or end it first."), number);
        return FALSE;
      }
  return TRUE;
}

static gint64
next_number (const SwDossier *dossier)
{
  const SwCourse *last = sw_dossier_last_course (dossier);

  return last ? last->number + 1 : 1;
}

gboolean
sw_operate_open_course (SwOperation *op, GError **error)
{
  const SwDocument *document = adopted_protocol (op, error);
  SwCourse *course;
  SwCourseDetails *details;
  gint64 made;

  if (document == NULL || !tumours_are_the_dogs (op, error) || !no_other_before_its_needle (op, error))
    return FALSE;
  course = sw_new (SW_FACT_COURSE, SwCourse);
  course->number = next_number (op->dossier);
  made = sw_operation_add (op, course);
  details = sw_new (SW_FACT_COURSE_DETAILS, SwCourseDetails);
  details->course = made;
  details->document = document->fact.id;
  details->follows = op->request->choice;
  details->purpose = g_strdup (op->request->text);
  sw_operation_add (op, details);
  for (guint i = 0; i < op->request->facts->len; i++)
    {
      SwCourseTumour *row = sw_fact_copy (op->request->facts->pdata[i]);

      row->course = made;
      sw_operation_add (op, row);
    }
  return TRUE;
}

/* --- plan --- */

static SwPlan *
first_plan (const SwRequest *request)
{
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);

  plan->course = request->course;
  plan->treat_day = request->when.day;
  plan->weight = request->row;
  plan->choices = g_strdup (request->text ? request->text : "");
  plan->cause = SW_PLAN_FIRST;
  plan->reason = g_strdup (request->reason);
  plan->vet_orders = g_strdup (request->vet_orders);
  return plan;
}

static gboolean
change_choices (SwOperation *op, const SwPlan *plan, GError **error)
{
  if (plan->treat_day != op->request->when.day)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("The plan is signed for another day: move the day first."));
      return FALSE;
    }
  sw_operation_take_replan (op, sw_replan_choices (&op->c, op->request->text, op->request->reason));
  return TRUE;
}

gboolean
sw_operate_sign_plan (SwOperation *op, GError **error)
{
  const SwRequest *request = op->request;
  g_autoptr (SwSchedule) schedule = NULL;
  g_autoptr (SwPlan) plan = NULL;
  const SwWeight *weight;
  SwScheduleOrder order;

  if (!sw_operation_has_course (op, error))
    return FALSE;
  if (sw_dossier_plan (op->dossier, request->course) != NULL)
    return change_choices (op, sw_dossier_plan (op->dossier, request->course), error);
  weight = sw_facts_by_id (&op->dossier->facts, SW_FACT_WEIGHT, request->row);
  if (weight == NULL || !sw_fact_is_current (weight))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Choose the weight that the plan is computed on."));
      return FALSE;
    }
  plan = first_plan (request);
  order = sw_schedule_order (&op->c, request->when.day, weight->grams, request->text);
  schedule = sw_schedule_new (&order);
  if (sw_operation_passes (op, sw_gate_a (&op->c, plan)))
    sw_operation_add_all (op, sw_schedule_facts (schedule, g_steal_pointer (&plan)));
  return TRUE;
}

gboolean
sw_operate_move_day (SwOperation *op, GError **error)
{
  const SwRequest *request = op->request;
  SwMoveOrder order = { request->when.day, (SwMoveWay) request->choice, request->reason, request->vet_orders };
  SwReplan *replan;

  if (!sw_operation_has_course (op, error))
    return FALSE;
  replan = sw_move_preview (&op->c, &order);
  if (replan->vet_only)
    op->act = SW_ACT_SIGN_PLAN;
  sw_operation_take_replan (op, replan);
  return TRUE;
}

gboolean
sw_operate_reweigh_plan (SwOperation *op, GError **error)
{
  const SwWeight *weight;

  if (!sw_operation_has_course (op, error))
    return FALSE;
  weight = sw_facts_by_id (&op->dossier->facts, SW_FACT_WEIGHT, op->request->row);
  if (weight == NULL || !sw_fact_is_current (weight))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Choose the weight that the plan is computed on."));
      return FALSE;
    }
  sw_operation_take_replan (op, sw_replan_weight (&op->c, weight));
  return TRUE;
}

/* --- end --- */

gboolean
sw_operate_end_course (SwOperation *op, GError **error)
{
  g_autoptr (SwCourseEnd) end = NULL;

  if (!sw_operation_has_course (op, error))
    return FALSE;
  end = sw_fact_copy (op->request->facts->pdata[0]);
  end->vet_orders = g_strdup (op->request->vet_orders);
  end->note = g_strdup (op->request->reason);
  if (!sw_operation_passes (op, sw_course_end_findings (&op->c, end)))
    return TRUE;
  sw_operation_take_replan (op, sw_cancel_course (&op->c, g_steal_pointer (&end)));
  return TRUE;
}
