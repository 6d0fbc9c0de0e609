/* sw-adoption-together.c: which documents are offered for adoption together with one
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-adoption-together.h"

typedef struct
{
  const SwPractice *practice;
  const SwBooks *books;
  GPtrArray *heads;
} Together;

static gboolean
is_adopted (const Together *together, const SwDocumentHead *head)
{
  return sw_practice_adopted (together->practice, head->kind, head->id) != NULL;
}

static void
add (Together *together, const SwDocumentHead *head)
{
  if (!is_adopted (together, head) && !g_ptr_array_find (together->heads, head, NULL))
    g_ptr_array_add (together->heads, (gpointer) head);
}

static void
add_planned_medicines (Together *together, const SwProtocol *protocol)
{
  for (guint i = 0; i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = protocol->groups->pdata[i];

      for (guint j = 0; j < group->alternatives->len; j++)
        {
          const SwAlternative *alternative = group->alternatives->pdata[j];
          const SwMedicine *medicine = sw_books_medicine (together->books, alternative->substance);

          if (medicine != NULL)
            add (together, &medicine->head);
        }
    }
}

static gboolean
carries (const SwMedicine *medicine, SwParty is, const char *code)
{
  return is == SW_PARTY_CLASS ? sw_medicine_has_class (medicine, code) : g_str_equal (medicine->head.id, code);
}

static gboolean
is_listed (const SwInteractions *interactions, SwParty is, const char *code)
{
  for (guint i = 0; i < interactions->classes->len; i++)
    {
      const SwMedicineClass *class = interactions->classes->pdata[i];

      if (is == SW_PARTY_CLASS ? g_str_equal (class->id, code)
          : g_strv_contains ((const char *const *) class->substances, code))
        return TRUE;
    }
  return FALSE;
}

/* The interactions name a class or substance: somebody must say what that is. */
static void
add_who_says (Together *together, const SwInteractions *interactions, SwParty is, const char *code)
{
  const GPtrArray *medicines = sw_books_medicines (together->books);
  const SwMedicine *first = NULL;

  if ((is != SW_PARTY_CLASS && is != SW_PARTY_SUBSTANCE) || is_listed (interactions, is, code))
    return;
  for (guint i = 0; i < medicines->len; i++)
    {
      const SwMedicine *medicine = medicines->pdata[i];

      if (!carries (medicine, is, code))
        continue;
      if (is_adopted (together, &medicine->head) || g_ptr_array_find (together->heads, &medicine->head, NULL))
        return;
      first = first != NULL ? first : medicine;
    }
  if (first != NULL)
    add (together, &first->head);
}

static void
add_named_medicines (Together *together, const SwInteractions *interactions)
{
  for (guint i = 0; i < interactions->rows->len; i++)
    {
      const SwInteraction *row = interactions->rows->pdata[i];

      add_who_says (together, interactions, row->a_is, row->a);
      add_who_says (together, interactions, row->b_is, row->b);
    }
}

GPtrArray *
sw_adoption_together (const SwPractice *practice, const SwBooks *books, const SwDocumentHead *document)
{
  Together together = { practice, books, g_ptr_array_new () };
  const SwInteractions *interactions = sw_books_interactions (books);

  g_ptr_array_add (together.heads, (gpointer) document);
  if (document->kind == SW_DOCUMENT_PROTOCOL)
    {
      const SwProtocol *protocol = sw_books_protocol_named (books, document->id);

      if (interactions != NULL)
        add (&together, &interactions->head);
      if (protocol != NULL)
        add_planned_medicines (&together, protocol);
    }
  if (interactions != NULL && g_ptr_array_find (together.heads, &interactions->head, NULL))
    add_named_medicines (&together, interactions);

  return together.heads;
}
