/* sw-roles.c: who may write what
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-roles-private.h"

#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

/* Rows that can't be had under a lesser act than the one that makes them. Other rows come under acts with different
 * roles. */
static const struct
{
  SwFactKind row;
  SwActKind act;
} guarded_rows[] = {
  { SW_FACT_PERSON, SW_ACT_MANAGE_PEOPLE },
  { SW_FACT_PERSON_DETAILS, SW_ACT_MANAGE_PEOPLE },
  { SW_FACT_DOCUMENT, SW_ACT_ADOPT_DOCUMENT },
  { SW_FACT_ADOPTION, SW_ACT_ADOPT_DOCUMENT },
  { SW_FACT_REASON, SW_ACT_GIVE_REASON },
  { SW_FACT_COURSE, SW_ACT_OPEN_COURSE },
  { SW_FACT_COURSE_DETAILS, SW_ACT_OPEN_COURSE },
  { SW_FACT_COURSE_TUMOUR, SW_ACT_OPEN_COURSE },
  { SW_FACT_PLAN, SW_ACT_MOVE_DAY },
  { SW_FACT_DOSE, SW_ACT_MOVE_DAY },
  { SW_FACT_DOSE_PLAN, SW_ACT_MOVE_DAY },
  { SW_FACT_RELEASE, SW_ACT_RELEASE_DOSE },
  { SW_FACT_RELEASE_TUMOUR, SW_ACT_RELEASE_DOSE },
  { SW_FACT_INJECTION, SW_ACT_RECORD_INJECTION },
  { SW_FACT_INJECTION_TUMOUR, SW_ACT_RECORD_INJECTION },
  { SW_FACT_VIAL, SW_ACT_RECORD_INJECTION },
  { SW_FACT_DISCHARGE, SW_ACT_DISCHARGE },
  { SW_FACT_SCORE, SW_ACT_SCORE },
  { SW_FACT_OVERALL, SW_ACT_SCORE },
  { SW_FACT_RECURRENCE, SW_ACT_RECORD_RECURRENCE },
  { SW_FACT_COURSE_END, SW_ACT_END_COURSE },
};

gboolean
sw_roles_of (SwStore *store, gint64 person, gint64 *roles, char **name, GError **error)
{
  g_autoptr (SwStmt) stmt
    = sw_stmt_get (store->db, "SELECT roles * active, name FROM person_details_now WHERE person = ?1", error);
  gboolean row;

  if (stmt == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, person);
  if (!sw_stmt_step (stmt, &row, error))
    return FALSE;
  if (!row)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_ROLE, _("Person %d is not in this record: choose who is at the desk."),
                   (int) person);
      return FALSE;
    }
  *roles = sw_stmt_column_int (stmt, 0);
  *name = g_strdup (sw_stmt_column_text (stmt, 1));
  return TRUE;
}

static gboolean
require_role (SwActKind act, gint64 roles, const char *name, GError **error)
{
  g_autofree char *needed = NULL;

  if (sw_act_allowed (act, roles))
    return TRUE;
  needed = sw_roles_names (sw_act_roles (act));
  g_set_error (error, SW_ERROR, SW_ERROR_ROLE, _("%s may not %s: that needs the role %s. Change who is at the desk."),
               name, sw_act_name (act), needed);
  return FALSE;
}

static gboolean
require_role_for_row (const SwFact *fact, gint64 roles, const char *name, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (guarded_rows); i++)
    if (guarded_rows[i].row == fact->kind && !fact->withdrawn)
      return require_role (guarded_rows[i].act, roles, name, error);
  return TRUE;
}

static gboolean
require_unfounded (SwStore *store, gint64 *roles, GError **error)
{
  *roles = SW_ALL_ROLES;
  if (store->next_act == 1)
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_ROLE, _("This record has been founded already."));
  return FALSE;
}

gboolean
sw_roles_require (SwStore *store, const SwActHead *head, const GPtrArray *facts, gint64 *roles, GError **error)
{
  g_autofree char *name = NULL;

  if (head->kind == SW_ACT_FOUND_RECORD)
    return require_unfounded (store, roles, error);
  if (!sw_roles_of (store, head->person, roles, &name, error) || !require_role (head->kind, *roles, name, error))
    return FALSE;
  for (guint i = 0; facts != NULL && i < facts->len; i++)
    if (!require_role_for_row (facts->pdata[i], *roles, name, error))
      return FALSE;
  return TRUE;
}
