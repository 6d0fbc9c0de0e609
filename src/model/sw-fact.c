/* sw-fact.c: making, copying, correcting and spelling out facts, all driven by the descriptors
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-fact.h"

#include "sw-text.h"

#include <string.h>

static const SwFactType *
type_of (gconstpointer fact)
{
  return sw_fact_type (((const SwFact *) fact)->kind);
}

gint64
sw_fact_get_int (gconstpointer fact, const SwField *field)
{
  return G_STRUCT_MEMBER (gint64, fact, field->offset);
}

const char *
sw_fact_get_text (gconstpointer fact, const SwField *field)
{
  return G_STRUCT_MEMBER (char *, fact, field->offset);
}

GBytes *
sw_fact_get_bytes (gconstpointer fact, const SwField *field)
{
  return G_STRUCT_MEMBER (GBytes *, fact, field->offset);
}

void
sw_fact_set_int (gpointer fact, const SwField *field, gint64 value)
{
  G_STRUCT_MEMBER (gint64, fact, field->offset) = value;
}

void
sw_fact_take_text (gpointer fact, const SwField *field, char *value)
{
  char **slot = G_STRUCT_MEMBER_P (fact, field->offset);

  g_free (*slot);
  *slot = value;
}

void
sw_fact_take_bytes (gpointer fact, const SwField *field, GBytes *value)
{
  GBytes **slot = G_STRUCT_MEMBER_P (fact, field->offset);

  g_clear_pointer (slot, g_bytes_unref);
  *slot = value;
}

gpointer
sw_fact_new (SwFactKind kind)
{
  const SwFactType *type = sw_fact_type (kind);
  SwFact *fact = g_malloc0 (type->size);

  fact->kind = kind;
  for (guint i = 0; i < type->n_fields; i++)
    if (type->fields[i].type == SW_FIELD_INT && type->fields[i].nullable)
      sw_fact_set_int (fact, &type->fields[i], SW_UNKNOWN);
  return fact;
}

static void
copy_field (gpointer to, gconstpointer from, const SwField *field)
{
  switch (field->type)
    {
    case SW_FIELD_INT:
    case SW_FIELD_REF:
      sw_fact_set_int (to, field, sw_fact_get_int (from, field));
      break;
    case SW_FIELD_TEXT:
      sw_fact_take_text (to, field, g_strdup (sw_fact_get_text (from, field)));
      break;
    case SW_FIELD_BYTES:
      sw_fact_take_bytes (to, field, sw_fact_get_bytes (from, field) ? g_bytes_ref (sw_fact_get_bytes (from, field)) : NULL);
      break;
    }
}

gpointer
sw_fact_copy (gconstpointer fact)
{
  const SwFactType *type = type_of (fact);
  SwFact *copy = sw_fact_new (((const SwFact *) fact)->kind);

  *copy = *(const SwFact *) fact;
  for (guint i = 0; i < type->n_fields; i++)
    copy_field (copy, fact, &type->fields[i]);
  return copy;
}

void
sw_fact_free (gpointer fact)
{
  const SwFactType *type;

  if (fact == NULL)
    return;
  type = type_of (fact);
  for (guint i = 0; i < type->n_fields; i++)
    if (type->fields[i].type == SW_FIELD_TEXT)
      sw_fact_take_text (fact, &type->fields[i], NULL);
    else if (type->fields[i].type == SW_FIELD_BYTES)
      sw_fact_take_bytes (fact, &type->fields[i], NULL);
  g_free (fact);
}

gpointer
sw_fact_correction (gconstpointer old)
{
  const SwFact *before = old;
  SwFact *fact;

  g_return_val_if_fail (!type_of (old)->entity, NULL);

  fact = sw_fact_copy (old);
  *fact = (SwFact) { .kind = before->kind, .patient = before->patient, .replaces = before->id };
  return fact;
}

gpointer
sw_fact_withdrawal (gconstpointer old)
{
  SwFact *fact = sw_fact_correction (old);

  fact->withdrawn = TRUE;
  return fact;
}

static gboolean
same_value (gconstpointer a, gconstpointer b, const SwField *field)
{
  if (field->type == SW_FIELD_TEXT)
    return g_strcmp0 (sw_fact_get_text (a, field), sw_fact_get_text (b, field)) == 0;
  return sw_fact_get_int (a, field) == sw_fact_get_int (b, field);
}

gboolean
sw_fact_same_subject (gconstpointer a, gconstpointer b)
{
  const SwFactType *type = type_of (a);
  gboolean has_subject = FALSE;

  if (type != type_of (b) || ((const SwFact *) a)->patient != ((const SwFact *) b)->patient)
    return FALSE;
  for (guint i = 0; i < type->n_fields; i++)
    if (type->fields[i].subject)
      {
        has_subject = TRUE;
        if (!same_value (a, b, &type->fields[i]))
          return FALSE;
      }
  return has_subject || ((const SwFact *) a)->kind == SW_FACT_PATIENT_DETAILS;
}

static void
append_field (GString *payload, gconstpointer fact, const SwField *field)
{
  gboolean none;

  switch (field->type)
    {
    case SW_FIELD_INT:
    case SW_FIELD_REF:
      none = field->nullable && sw_fact_get_int (fact, field) == (field->type == SW_FIELD_INT ? SW_UNKNOWN : 0);
      if (none)
        sw_text_append_field (payload, NULL);
      else
        sw_text_append_int (payload, sw_fact_get_int (fact, field));
      break;
    case SW_FIELD_TEXT:
      sw_text_append_field (payload, sw_fact_get_text (fact, field));
      break;
    case SW_FIELD_BYTES:
      {
        /* Bytes stand in the payload by their digest, as photographs do. */
        g_autofree char *digest = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, sw_fact_get_bytes (fact, field));

        sw_text_append_field (payload, digest);
        break;
      }
    }
}

void
sw_fact_append_payload (gconstpointer fact, GString *payload)
{
  const SwFact *head = fact;
  const SwFactType *type = type_of (fact);

  sw_text_append_field (payload, type->table);
  sw_text_append_int (payload, head->id);
  sw_text_append_int (payload, head->patient);
  sw_text_append_int (payload, head->replaces);
  sw_text_append_int (payload, head->withdrawn);
  for (guint i = 0; i < type->n_fields; i++)
    append_field (payload, fact, &type->fields[i]);
}
