/* sw-operate-adopt.c: a vet takes documents into use
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

/* A document handed in, parsed: exactly one of the three. */
typedef struct
{
  const SwDocument *document;
  const SwAdoption *adoption;
  SwProtocol *protocol;
  SwMedicine *medicine;
  SwInteractions *interactions;
  const SwDocumentHead *head;
} Handed;

static void
handed_free (gpointer data)
{
  Handed *handed = data;

  g_clear_pointer (&handed->protocol, sw_protocol_free);
  g_clear_pointer (&handed->medicine, sw_medicine_free);
  g_clear_pointer (&handed->interactions, sw_interactions_free);
  g_free (handed);
}

static gboolean
parse (Handed *handed, const GPtrArray *medicines, GError **error)
{
  GBytes *bytes = handed->document->bytes;
  const char *name = sw_document_kind_code ((SwDocumentKind) handed->document->doc_kind);

  switch ((SwDocumentKind) handed->document->doc_kind)
    {
    case SW_DOCUMENT_PROTOCOL:
      handed->protocol = sw_protocol_parse (name, bytes, medicines, error);
      handed->head = handed->protocol ? &handed->protocol->head : NULL;
      break;
    case SW_DOCUMENT_MEDICINE:
      handed->medicine = sw_medicine_parse (name, bytes, error);
      handed->head = handed->medicine ? &handed->medicine->head : NULL;
      break;
    case SW_DOCUMENT_INTERACTIONS:
      handed->interactions = sw_interactions_parse (name, bytes, medicines, error);
      handed->head = handed->interactions ? &handed->interactions->head : NULL;
      break;
    case SW_N_DOCUMENT_KINDS:
      g_assert_not_reached ();
    }
  return handed->head != NULL;
}

/* In pairs, as sw_request_adopt_document() made them. */
static GPtrArray *
take_handed (const SwRequest *request)
{
  GPtrArray *all = g_ptr_array_new_with_free_func (handed_free);

  for (guint i = 0; i + 1 < request->facts->len; i += 2)
    {
      Handed *handed = g_new0 (Handed, 1);

      handed->document = request->facts->pdata[i];
      handed->adoption = request->facts->pdata[i + 1];
      g_ptr_array_add (all, handed);
    }
  return all;
}

/* Medicines first: what the others may name is then known. */
static gboolean
parse_all (SwOperation *op, GPtrArray *all, GError **error)
{
  const GPtrArray *known = sw_books_medicines (op->c.books);
  g_autoptr (GPtrArray) medicines = g_ptr_array_new ();

  for (guint i = 0; i < known->len; i++)
    g_ptr_array_add (medicines, known->pdata[i]);
  for (guint i = 0; i < all->len; i++)
    {
      Handed *handed = all->pdata[i];

      if (handed->document->doc_kind != SW_DOCUMENT_MEDICINE)
        continue;
      if (!parse (handed, NULL, error))
        return FALSE;
      g_ptr_array_add (medicines, handed->medicine);
    }
  for (guint i = 0; i < all->len; i++)
    {
      Handed *handed = all->pdata[i];

      if (handed->document->doc_kind != SW_DOCUMENT_MEDICINE && !parse (handed, medicines, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_filled_in (const SwDocumentHead *head, GError **error)
{
  g_autoptr (GPtrArray) empty = sw_document_figures_to_fill (head);

  if (empty->len == 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_REFUSED,
               _("%s can't be adopted: %u of its figures have no value, the first of them %s. Fill them in as a "
                  "revision of your "
                  "own."),
               head->id, empty->len, ((const SwFigure *)empty->pdata[0])->name);
  return FALSE;
}

static gboolean
is_ticked (const SwDocumentHead *head, const char *ticks, GError **error)
{
  g_autoptr (GPtrArray) wanted = sw_document_figures_to_tick (head);
  g_auto (GStrv) ticked = g_strsplit (ticks, ";", -1);

  for (guint i = 0; i < wanted->len; i++)
    {
      const SwFigure *figure = wanted->pdata[i];

      if (g_strv_contains ((const char *const *) ticked, figure->name))
        continue;
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("Confirm the figure %s of %s first: it was not read in its source, so a vet checks it against "
                      "the approved "
                      "product information."),
                   figure->name, head->id);
      return FALSE;
    }
  return TRUE;
}

static const SwDocument *
same_bytes (const SwPractice *practice, const SwDocumentHead *head)
{
  const SwDocument *document;

  for (guint i = 0; (document = sw_facts_next (&practice->facts, SW_FACT_DOCUMENT, &i)) != NULL;)
    if (document->doc_kind == (gint64) head->kind && g_str_equal (document->digest, head->digest))
      return document;
  return NULL;
}

static gint64
add_document (SwOperation *op, const SwDocumentHead *head)
{
  const SwDocument *kept = same_bytes (op->c.practice, head);
  SwDocument *document;

  if (kept != NULL)
    return kept->fact.id;
  document = sw_new (SW_FACT_DOCUMENT, SwDocument);
  document->doc_kind = head->kind;
  document->doc_id = g_strdup (head->id);
  document->revision = g_strdup (head->revision);
  document->digest = g_strdup (head->digest);
  document->bytes = g_bytes_ref (head->bytes);
  return sw_operation_add (op, document);
}

static void
add_adoption (SwOperation *op, const Handed *handed)
{
  SwAdoption *adoption = sw_new (SW_FACT_ADOPTION, SwAdoption);
  const SwFact *before;

  adoption->doc_kind = handed->head->kind;
  adoption->doc_id = g_strdup (handed->head->id);
  adoption->ticks = g_strdup (handed->adoption->ticks);
  adoption->document = add_document (op, handed->head);
  before = sw_facts_tip_like (&op->c.practice->facts, adoption);
  adoption->fact.replaces = before ? before->id : 0;
  sw_operation_add (op, adoption);
}

gboolean
sw_operate_adopt (SwOperation *op, GError **error)
{
  g_autoptr (GPtrArray) all = take_handed (op->request);

  if (!parse_all (op, all, error))
    return FALSE;
  for (guint i = 0; i < all->len; i++)
    {
      const Handed *handed = all->pdata[i];

      if (!is_filled_in (handed->head, error) || !is_ticked (handed->head, handed->adoption->ticks, error))
        return FALSE;
      add_adoption (op, handed);
    }
  return TRUE;
}
