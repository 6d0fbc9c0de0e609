/* sw-conflict.c: who was first
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-conflict-private.h"

#include "sw-roles-private.h"
#include "sw-row-private.h"
#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  const SwFact *mine;
  SwFact *first; /* owned */
} Search;

static void
look_at (gpointer row, gpointer data)
{
  Search *search = data;
  SwFact *other = row;
  gboolean in_its_place = search->mine->replaces != 0
                            ? other->replaces == search->mine->replaces
                            : other->replaces == 0 && sw_fact_same_subject (other, search->mine);

  if (in_its_place && search->first == NULL)
    search->first = other;
  else
    sw_fact_free (other);
}

/* "2026-05-14 09:12", on the clock face of the one who wrote it. */
static char *
written_at (SwStore *store, const SwFact *fact)
{
  g_autoptr (SwStmt) stmt = sw_stmt_get (store->db, "SELECT offset_minutes FROM act WHERE id = ?1", NULL);
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (fact->recorded_us / G_USEC_PER_SEC);
  g_autoptr (GDateTime) local = NULL;
  gboolean row = FALSE;

  if (stmt == NULL || utc == NULL)
    return g_strdup ("?");
  sw_stmt_bind_int (stmt, 1, fact->act);
  if (sw_stmt_step (stmt, &row, NULL) && row)
    local = g_date_time_add_minutes (utc, (int) sw_stmt_column_int (stmt, 0));
  return g_date_time_format (local ? local : utc, "%Y-%m-%d %H:%M");
}

static void
say_who (SwStore *store, const SwFact *first, GError **error)
{
  g_autofree char *name = NULL;
  g_autofree char *when = written_at (store, first);
  gint64 roles;

  sw_roles_of (store, first->person, &roles, &name, NULL);
  g_clear_error (error);
  g_set_error (
      error, SW_ERROR, SW_ERROR_CONFLICT,
      _("%s changed the same entry first, on %s. Nothing was saved: look at the entry as it is now, then decide."),
      name ? name : "?", when);
}

void
sw_conflict_explain (SwStore *store, gconstpointer fact, GError **error)
{
  const SwFact *mine = fact;
  Search search = { mine, NULL };
  SwRows rows = mine->patient != 0 ? SW_ROWS_OF_PATIENT : SW_ROWS_ALL;

  if (sw_fact_type (mine->kind)->entity)
    return;
  if (sw_row_each (store->db, mine->kind, rows, mine->patient, look_at, &search, NULL) && search.first != NULL)
    say_who (store, search.first, error);
  sw_fact_free (search.first);
}
