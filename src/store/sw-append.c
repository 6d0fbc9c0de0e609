/* sw-append.c: one act: asked, validated, numbered, written, and a line in the journal
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-store-private.h"

#include "sw-conflict-private.h"
#include "sw-journal-private.h"
#include "sw-roles-private.h"
#include "sw-row-private.h"
#include "sw-stmt-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
next_row (SwStore *store, SwFactKind kind, gint64 *id, GError **error)
{
  if (store->next_row[kind] == 0)
    {
      g_autofree char *sql
          = g_strdup_printf ("SELECT ifnull (max (id), 0) + 1 FROM \"%s\"", sw_fact_type (kind)->table);

      if (!sw_db_read_int (store->db, sql, &store->next_row[kind], error))
        return FALSE;
    }
  *id = store->next_row[kind]++;
  return TRUE;
}

/* -n is the n-th fact of the act, of the right kind and, so that the row is there already, before this one. */
static gboolean
resolve (gint64 *reference, SwFactKind kind, const GPtrArray *facts, guint before, GError **error)
{
  const SwFact *target;

  if (*reference >= 0)
    return TRUE;
  target = -*reference <= (gint64) before ? facts->pdata[-*reference - 1] : NULL;
  if (target == NULL || target->kind != kind)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("Row %u of the act names row %d of it, which is no %s written before it."), before + 1,
                   (int) -*reference, sw_fact_type (kind)->table);
      return FALSE;
    }
  *reference = target->id;
  return TRUE;
}

static gboolean
resolve_fields (gpointer fact, const GPtrArray *facts, guint position, GError **error)
{
  const SwFactType *type = sw_fact_type (((SwFact *) fact)->kind);

  for (guint i = 0; i < type->n_fields; i++)
    if (type->fields[i].type == SW_FIELD_REF)
      {
        gint64 reference = sw_fact_get_int (fact, &type->fields[i]);

        if (!resolve (&reference, type->fields[i].refers_to, facts, position, error))
          return FALSE;
        sw_fact_set_int (fact, &type->fields[i], reference);
      }
  return TRUE;
}

static gboolean
number_fact (SwStore *store, const SwActHead *head, const GPtrArray *facts, guint position, GError **error)
{
  SwFact *fact = facts->pdata[position];

  if (!next_row (store, fact->kind, &fact->id, error))
    return FALSE;
  if (fact->kind == SW_FACT_PATIENT)
    fact->patient = fact->id;
  fact->act = store->next_act;
  fact->recorded_us = head->at_us;
  fact->replaced_by = 0;
  return resolve (&fact->patient, SW_FACT_PATIENT, facts, position, error)
         && resolve_fields (fact, facts, position, error);
}

/* One act is about one dog, so that the journal and the change signals can say which. */
static gboolean
find_patient (const SwActHead *head, const GPtrArray *facts, gint64 *patient, GError **error)
{
  *patient = head->patient;
  if (!resolve (patient, SW_FACT_PATIENT, facts, facts->len, error))
    return FALSE;
  for (guint i = 0; i < facts->len; i++)
    {
      const SwFact *fact = facts->pdata[i];

      if (*patient == 0)
        *patient = fact->patient;
      if (fact->patient != 0 && fact->patient != *patient)
        {
          g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT,
                               _("One act can't write about two dogs: record them one by one."));
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
prepare_facts (SwStore *store, const SwActHead *head, GPtrArray *facts, SwJournalHead *line, GError **error)
{
  line->person = head->person;
  for (guint i = 0; i < facts->len; i++)
    if (!number_fact (store, head, facts, i, error) || !sw_fact_validate (facts->pdata[i], error))
      return FALSE;
  if (!resolve (&line->person, SW_FACT_PERSON, facts, facts->len, error)
      || !find_patient (head, facts, &line->patient, error))
    return FALSE;
  for (guint i = 0; i < facts->len; i++)
    ((SwFact *) facts->pdata[i])->person = line->person;
  return TRUE;
}

static gboolean
insert_fact (SwStore *store, gconstpointer fact, GError **error)
{
  if (sw_row_insert (store->db, fact, error))
    return sw_search_keep (store, fact, error);
  sw_conflict_explain (store, fact, error);
  return FALSE;
}

static gboolean
write_act (SwStore *store, const SwJournalHead *line, GPtrArray *facts, GError **error)
{
  g_autoptr (GString) payload = sw_journal_payload (facts);

  if (!sw_journal_write (store, line, payload->str, error))
    return FALSE;
  for (guint i = 0; i < facts->len; i++)
    if (!insert_fact (store, facts->pdata[i], error))
      return FALSE;
  return TRUE;
}

/* All that can be refused is refused before the first row is written, so that a refused act leaves the transaction as
 * it was. */
static gboolean
prepare_act (SwStore *store, const SwActHead *head, GPtrArray *facts, SwJournalHead *line, GError **error)
{
  if (!sw_journal_read_head (store, error) || !sw_roles_require (store, head, facts, &line->roles, error))
    return FALSE;
  line->id = store->next_act;
  if (prepare_facts (store, head, facts, line, error))
    return TRUE;
  memset (store->next_row, 0, sizeof store->next_row);
  return FALSE;
}

gboolean
sw_store_append (SwStore *store, const SwActHead *head, GPtrArray *facts, gint64 *act, GError **error)
{
  g_autoptr (GPtrArray) none = facts ? NULL : g_ptr_array_new ();
  SwJournalHead line = {
    .kind = sw_act_code (head->kind),
    .at_us = head->at_us,
    .offset_minutes = head->offset_minutes,
    .batch = head->batch,
  };

  if (facts == NULL)
    facts = none;
  if (!sw_txn_require_write (store, error) || !prepare_act (store, head, facts, &line, error))
    return FALSE;
  if (!write_act (store, &line, facts, error))
    {
      store->broken = TRUE;
      return FALSE;
    }
  if (act != NULL)
    *act = line.id;
  return TRUE;
}

gint64
sw_store_new_batch (SwStore *store, GError **error)
{
  /* The number of its first line. */
  if (!sw_txn_require_write (store, error) || !sw_journal_read_head (store, error))
    return 0;
  return store->next_act;
}
