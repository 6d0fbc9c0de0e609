/* sw-facts.c: collections of facts, and finding the current row of a subject in them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dossier.h"

static void
facts_init (SwFacts *facts)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    facts->rows[kind] = g_ptr_array_new_with_free_func (sw_fact_free);
}

static void
facts_clear (SwFacts *facts)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    g_clear_pointer (&facts->rows[kind], g_ptr_array_unref);
}

SwDossier *
sw_dossier_new (gint64 patient)
{
  SwDossier *dossier = g_new0 (SwDossier, 1);

  dossier->patient = patient;
  facts_init (&dossier->facts);
  return dossier;
}

void
sw_dossier_free (SwDossier *dossier)
{
  if (dossier == NULL)
    return;
  facts_clear (&dossier->facts);
  g_free (dossier);
}

SwPractice *
sw_practice_new (void)
{
  SwPractice *practice = g_new0 (SwPractice, 1);

  facts_init (&practice->facts);
  return practice;
}

void
sw_practice_free (SwPractice *practice)
{
  if (practice == NULL)
    return;
  facts_clear (&practice->facts);
  g_free (practice);
}

void
sw_facts_add (SwFacts *facts, gpointer fact)
{
  SwFact *head = fact;
  SwFact *before = head->replaces != 0 ? sw_facts_by_id (facts, head->kind, head->replaces) : NULL;

  if (before != NULL)
    before->replaced_by = head->id;
  g_ptr_array_add (facts->rows[head->kind], fact);
}

gboolean
sw_fact_is_current (gconstpointer fact)
{
  const SwFact *head = fact;

  return head->replaced_by == 0 && !head->withdrawn;
}

gpointer
sw_facts_next (const SwFacts *facts, SwFactKind kind, guint *position)
{
  const GPtrArray *rows = facts->rows[kind];

  while (*position < rows->len)
    {
      gpointer fact = rows->pdata[(*position)++];

      if (sw_fact_is_current (fact))
        return fact;
    }
  return NULL;
}

gpointer
sw_facts_by_id (const SwFacts *facts, SwFactKind kind, gint64 id)
{
  const GPtrArray *rows = facts->rows[kind];

  for (guint i = rows->len; i > 0; i--)
    if (((SwFact *) rows->pdata[i - 1])->id == id)
      return rows->pdata[i - 1];
  return NULL;
}

gpointer
sw_facts_last (const SwFacts *facts, SwFactKind kind)
{
  const GPtrArray *rows = facts->rows[kind];

  for (guint i = rows->len; i > 0; i--)
    if (sw_fact_is_current (rows->pdata[i - 1]))
      return rows->pdata[i - 1];
  return NULL;
}

gpointer
sw_facts_tip_like (const SwFacts *facts, gconstpointer like)
{
  const GPtrArray *rows = facts->rows[((const SwFact *) like)->kind];

  for (guint i = rows->len; i > 0; i--)
    {
      SwFact *fact = rows->pdata[i - 1];

      if (fact->replaced_by == 0 && sw_fact_same_subject (fact, like))
        return fact;
    }
  return NULL;
}

gpointer
sw_facts_current_like (const SwFacts *facts, gconstpointer like)
{
  SwFact *fact = sw_facts_tip_like (facts, like);

  return fact != NULL && !fact->withdrawn ? fact : NULL;
}

static const SwField *
course_field (SwFactKind kind)
{
  const SwFactType *type = sw_fact_type (kind);

  for (guint i = 0; i < type->n_fields; i++)
    if (g_str_equal (type->fields[i].column, "course"))
      return &type->fields[i];
  return NULL;
}

gpointer
sw_facts_of_course (const SwFacts *facts, SwFactKind kind, gint64 course)
{
  const SwField *field = course_field (kind);
  const GPtrArray *rows = facts->rows[kind];

  g_return_val_if_fail (field != NULL, NULL);

  for (guint i = rows->len; i > 0; i--)
    if (sw_fact_is_current (rows->pdata[i - 1]) && sw_fact_get_int (rows->pdata[i - 1], field) == course)
      return rows->pdata[i - 1];
  return NULL;
}
