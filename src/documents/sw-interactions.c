/* sw-interactions.c: reads and checks the document of what must not meet
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-interactions.h"
#include "sw-medicine.h"
#include "sw-reader-private.h"

#include "sw-question.h"
#include "sw-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const when_codes[] =
    { "together", "washout", "within", "taken", "double", "mixed", "xylitol", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (when_codes) == SW_N_WHENS + 1);

static void
class_free (SwMedicineClass *medicine_class)
{
  g_free (medicine_class->id);
  g_strfreev (medicine_class->substances);
  g_free (medicine_class);
}

static void
row_free (SwInteraction *row)
{
  g_free (row->id);
  g_free (row->a);
  g_free (row->b);
  g_free (row->reason);
  g_free (row);
}

static gboolean
is_class (const SwInteractions *interactions, const GPtrArray *medicines, const char *code)
{
  for (guint i = 0; i < interactions->classes->len; i++)
    if (g_str_equal (((const SwMedicineClass *) g_ptr_array_index (interactions->classes, i))->id, code))
      return TRUE;
  for (guint i = 0; i < medicines->len; i++)
    if (sw_medicine_has_class (g_ptr_array_index (medicines, i), code))
      return TRUE;
  return FALSE;
}

static gboolean
is_substance (const SwInteractions *interactions, const GPtrArray *medicines, const char *code)
{
  for (guint i = 0; i < interactions->classes->len; i++)
    {
      const SwMedicineClass *medicine_class = g_ptr_array_index (interactions->classes, i);

      if (medicine_class->substances != NULL &&
          g_strv_contains ((const char *const *) medicine_class->substances, code))
        return TRUE;
    }
  return sw_medicines_find (medicines, code) != NULL;
}

static gboolean
is_answer (const char *code)
{
  g_auto (GStrv) parts = g_strsplit (code, "/", 2);
  const SwQuestion *question = sw_question (parts[0]);

  return question != NULL && parts[1] != NULL && sw_question_choice (question, parts[1]) != NULL;
}

static void
check_party (SwReader *reader, const SwNode *node, const SwInteractions *interactions, const GPtrArray *medicines,
             SwParty is, const char *code)
{
  gboolean known = TRUE;

  if (is == SW_PARTY_CLASS && medicines != NULL)
    known = is_class (interactions, medicines, code);
  else if (is == SW_PARTY_SUBSTANCE && medicines != NULL)
    known = is_substance (interactions, medicines, code);
  else if (is == SW_PARTY_FACT && !is_answer (code))
    sw_reader_refuse (reader, node, code, SW_CONTRADICTION_UNKNOWN_QUESTION,
                      _ ("no question asked here has the answer %s"), code);
  if (!known)
    sw_reader_refuse (reader, node, code, SW_CONTRADICTION_UNKNOWN_CLASS,
                      _ ("%s is neither listed here nor in a medicine's document"), code);
}

/* "class:nsaid", "substance:tramadol", "fact:diabetes/yes"; (transfer full) the code, NULL for no party. */
static char *
read_party (SwReader *reader, const SwNode *node, const char *attribute, SwParty *is)
{
  static const char *const kinds[] = { "class", "substance", "fact", NULL };
  const char *value = sw_node_attribute (node, attribute);
  g_auto (GStrv) parts = NULL;
  int kind;

  *is = SW_PARTY_NOTHING;
  if (value == NULL)
    return NULL;
  parts = g_strsplit (value, ":", 2);
  kind = parts[0] != NULL && parts[1] != NULL ? sw_code_index (kinds, parts[0]) : -1;
  if (kind < 0)
    {
      sw_reader_refuse (reader, node, attribute, SW_CONTRADICTION_BAD_VALUE,
                        _ ("“%s” names no party: write class:, substance: or fact: and its code"), value);
      return NULL;
    }
  *is = (SwParty) kind;
  return g_strdup (parts[1]);
}

static void
read_class (SwReader *reader, SwInteractions *interactions, SwNode *node)
{
  SwMedicineClass *medicine_class = g_new0 (SwMedicineClass, 1);
  const char *id = sw_reader_id (reader, node, "id");

  sw_reader_only (reader, node, (const char *const[]){ "id", NULL });
  for (guint i = 0; i < interactions->classes->len; i++)
    if (g_str_equal (((const SwMedicineClass *) g_ptr_array_index (interactions->classes, i))->id, id))
      sw_reader_refuse (reader, node, id, SW_CONTRADICTION_DUPLICATE_ID, _ ("the class %s stands there twice"), id);
  medicine_class->id = g_strdup (id);
  medicine_class->figure = sw_reader_need (reader, node, "members");
  medicine_class->substances = sw_reader_list (reader, medicine_class->figure);
  g_ptr_array_add (interactions->classes, medicine_class);
}

/* In the order of SwSeverity, from SW_NOTE on; an interaction is never "not known". */
static SwSeverity
read_level (SwReader *reader, const SwFigure *figure)
{
  static const char *const codes[] = { "note", "vet-decides", "stop", NULL };
  static const SwSeverity severities[] = { SW_NOTE, SW_VET_DECIDES, SW_STOP };
  int code = sw_reader_code (reader, figure, codes, SW_CONTRADICTION_BAD_VALUE);

  /* A level not filled in is the strictest. */
  return code < 0 ? SW_STOP : severities[code];
}

static SwWhen
read_when (SwReader *reader, const SwNode *node)
{
  const char *value = sw_node_attribute (node, "when");
  int when = sw_code_index (when_codes, value);

  if (value == NULL)
    sw_reader_refuse (reader, node, "when", SW_CONTRADICTION_MISSING_ATTRIBUTE,
                      _ ("<interaction> needs the attribute when"));
  else if (when < 0)
    sw_reader_refuse (reader, node, "when", SW_CONTRADICTION_UNKNOWN_RULE, _ ("“%s” is no time that is known here"),
                      value);
  return when < 0 ? SW_WHEN_TOGETHER : (SwWhen) when;
}

static gboolean
has_days (SwWhen when)
{
  return when == SW_WHEN_WASHOUT || when == SW_WHEN_WITHIN || when == SW_WHEN_TAKEN;
}

static void
read_row (SwReader *reader, SwInteractions *interactions, SwNode *node, const GPtrArray *medicines)
{
  SwInteraction *row = g_new0 (SwInteraction, 1);
  const char *reason = sw_node_attribute (node, "reason");
  const char *id = sw_reader_id (reader, node, "id");

  sw_reader_only (reader, node, (const char *const[]){ "id", "a", "b", "when", "reason", NULL });
  if (sw_interactions_row (interactions, id) != NULL)
    sw_reader_refuse (reader, node, id, SW_CONTRADICTION_DUPLICATE_ID, _ ("the interaction %s stands there twice"), id);
  row->id = g_strdup (id);
  row->a = read_party (reader, node, "a", &row->a_is);
  row->b = read_party (reader, node, "b", &row->b_is);
  row->when = read_when (reader, node);
  row->reason = g_strdup (reason != NULL ? reason : "");
  row->figure = sw_reader_need (reader, node, "level");
  row->level = read_level (reader, row->figure);
  row->days_figure = has_days (row->when) ? sw_reader_need (reader, node, "days") : NULL;
  row->days = sw_reader_whole (reader, row->days_figure, "d");
  g_ptr_array_add (interactions->rows, row);
  if (row->a == NULL && row->b == NULL && row->when != SW_WHEN_XYLITOL)
    sw_reader_refuse (reader, node, id, SW_CONTRADICTION_MISSING_ATTRIBUTE, _ ("an interaction needs a party: a or b"));
  if (row->a != NULL)
    check_party (reader, node, interactions, medicines, row->a_is, row->a);
  if (row->b != NULL)
    check_party (reader, node, interactions, medicines, row->b_is, row->b);
}

static void
read_body (SwReader *reader, SwInteractions *interactions, const GPtrArray *medicines)
{
  SwNode *classes = sw_reader_child (reader, reader->root, "classes");
  g_autoptr (GPtrArray) class_nodes = sw_reader_children (reader, classes, "class");
  g_autoptr (GPtrArray) rows = sw_reader_children (reader, reader->root, "interaction");

  for (guint i = 0; i < class_nodes->len; i++)
    read_class (reader, interactions, g_ptr_array_index (class_nodes, i));
  if (rows->len == 0)
    sw_reader_refuse (reader, reader->root, "interaction", SW_CONTRADICTION_MISSING_FIGURE,
                      _ ("the document lists no <interaction>"));
  for (guint i = 0; i < rows->len && reader->error == NULL; i++)
    read_row (reader, interactions, g_ptr_array_index (rows, i), medicines);
}

SwInteractions *
sw_interactions_parse (const char *name, GBytes *bytes, const GPtrArray *medicines, GError **error)
{
  g_autoptr (SwInteractions) interactions = g_new0 (SwInteractions, 1);
  SwReader reader;

  interactions->classes = g_ptr_array_new_with_free_func ((GDestroyNotify) class_free);
  interactions->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) row_free);
  sw_reader_init (&reader, &interactions->head, SW_DOCUMENT_INTERACTIONS, name, bytes, (const char *const[]){ NULL });
  if (reader.error == NULL)
    read_body (&reader, interactions, medicines);
  return sw_reader_finish (&reader, error) ? g_steal_pointer (&interactions) : NULL;
}

void
sw_interactions_free (SwInteractions *interactions)
{
  if (interactions == NULL)
    return;
  g_ptr_array_unref (interactions->classes);
  g_ptr_array_unref (interactions->rows);
  sw_document_head_clear (&interactions->head);
  g_free (interactions);
}

const SwInteraction *
sw_interactions_row (const SwInteractions *interactions, const char *id)
{
  for (guint i = 0; i < interactions->rows->len; i++)
    {
      const SwInteraction *row = g_ptr_array_index (interactions->rows, i);

      if (g_str_equal (row->id, id))
        return row;
    }
  return NULL;
}
