/* sw-operation.c: what the operations share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-error.h"
#include "sw-gate.h"

#include <glib/gi18n-lib.h>

void
sw_operation_take_findings (SwOperation *op, GPtrArray *findings)
{
  g_ptr_array_extend_and_steal (op->reply->findings, findings);
}

gboolean
sw_operation_passes (SwOperation *op, GPtrArray *findings)
{
  gboolean passes = sw_gate_passes (&op->c, findings);

  sw_operation_take_findings (op, findings);
  if (!passes)
    op->refused = TRUE;
  return passes;
}

gint64
sw_operation_add (SwOperation *op, gpointer fact)
{
  g_ptr_array_add (op->facts, fact);
  return -(gint64) op->facts->len;
}

void
sw_operation_add_all (SwOperation *op, GPtrArray *facts)
{
  g_ptr_array_extend_and_steal (op->facts, facts);
}

gboolean
sw_operation_not_ahead (SwOperation *op, SwMoment when, GError **error)
{
  g_autofree char *day = sw_day_format (when.day), *time = sw_time_format (when.minute);

  if (sw_moment_compare (when, op->now.local) <= 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("%s %s has not come yet: only what has happened is recorded."), day,
               time);
  return FALSE;
}

gboolean
sw_operation_moment (SwOperation *op, SwMoment *moment, GError **error)
{
  *moment = sw_moment_is_set (op->request->when) ? op->request->when : op->now.local;
  return sw_operation_not_ahead (op, *moment, error);
}

gboolean
sw_operation_has_reason (SwOperation *op, GError **error)
{
  if (op->request->reason != NULL && *op->request->reason != '\0')
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Write the reason: it is kept with what is recorded."));
  return FALSE;
}

void
sw_operation_take_replan (SwOperation *op, SwReplan *replan)
{
  op->refused = replan->facts->len == 0;
  sw_operation_take_findings (op, g_ptr_array_ref (replan->findings));
  if (!op->refused)
    sw_operation_add_all (op, g_ptr_array_ref (replan->facts));
  sw_replan_free (replan);
}

gboolean
sw_operation_has_course (SwOperation *op, GError **error)
{
  if (op->dossier != NULL && sw_dossier_course (op->dossier, op->request->course) != NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("This dog has no such course."));
  return FALSE;
}
