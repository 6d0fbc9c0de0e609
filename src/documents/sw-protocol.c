/* sw-protocol.c: a protocol's document as a whole, and what is looked up in it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-protocol.h"
#include "sw-protocol-private.h"

#include <glib/gi18n-lib.h>

static SwProtocol *
protocol_new (void)
{
  SwProtocol *protocol = g_new0 (SwProtocol, 1);

  protocol->strength = protocol->least_dose_nl = protocol->largest_tumour = SW_UNKNOWN;
  protocol->most_nl_per_kg = protocol->most_nl_per_treatment = protocol->vial_nl = SW_UNKNOWN;
  protocol->look_back_days = protocol->least_age_months = protocol->stage_days = SW_UNKNOWN;
  protocol->growth_permille = protocol->first_contact_hours = SW_UNKNOWN;
  protocol->retreat_day = protocol->retreat_after_score_days = SW_UNKNOWN;
  protocol->gate.least_minutes = protocol->gate.most_minutes = protocol->gate.first_until = SW_UNKNOWN;
  protocol->tiers = g_ptr_array_new_with_free_func (g_free);
  protocol->rulings = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_ruling_free);
  protocol->groups = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_medicine_group_free);
  protocol->visit_days = g_array_new (FALSE, FALSE, sizeof (int));
  return protocol;
}

void
sw_protocol_free (SwProtocol *protocol)
{
  if (protocol == NULL)
    return;
  g_free (protocol->species);
  g_free (protocol->agent);
  g_free (protocol->strength_unit);
  g_ptr_array_unref (protocol->tiers);
  g_ptr_array_unref (protocol->rulings);
  g_ptr_array_unref (protocol->groups);
  g_strfreev (protocol->gate.lead_in_groups);
  g_strfreev (protocol->gate.day_groups);
  g_array_unref (protocol->visit_days);
  g_clear_pointer (&protocol->handler_rules, g_ptr_array_unref);
  g_clear_pointer (&protocol->cautions, g_ptr_array_unref);
  sw_document_head_clear (&protocol->head);
  g_free (protocol);
}

static char *
read_text_attribute (SwReader *reader, const char *name)
{
  const char *value = sw_node_attribute (reader->root, name);

  if (value == NULL || *value == '\0')
    sw_reader_refuse (reader, reader->root, name, SW_CONTRADICTION_MISSING_ATTRIBUTE,
                      _ ("<%s> needs the attribute %s"), reader->root->name, name);
  return g_strdup (value != NULL ? value : "");
}

static void
read_body (SwReader *reader, SwProtocol *protocol, const GPtrArray *medicines)
{
  protocol->species = read_text_attribute (reader, "species");
  protocol->agent = read_text_attribute (reader, "agent");
  sw_protocol_read_dose (reader, protocol);
  sw_protocol_read_selection (reader, protocol);
  sw_protocol_read_medicines (reader, protocol, medicines);
  sw_protocol_read_gate (reader, protocol);
  sw_protocol_read_after (reader, protocol);
  protocol->handler_rules = sw_reader_texts (reader, sw_reader_child (reader, reader->root, "handler"));
  protocol->cautions = sw_reader_texts (reader, sw_reader_child (reader, reader->root, "cautions"));
  if (protocol->handler_rules->len == 0)
    sw_reader_refuse (reader, reader->root, "handler", SW_CONTRADICTION_MISSING_FIGURE,
                      _ ("a protocol says how people are kept safe: write <handler> with at least one rule"));
}

SwProtocol *
sw_protocol_parse (const char *name, GBytes *bytes, const GPtrArray *medicines, GError **error)
{
  g_autoptr (SwProtocol) protocol = protocol_new ();
  SwReader reader;

  sw_reader_init (&reader, &protocol->head, SW_DOCUMENT_PROTOCOL, name, bytes,
                  (const char *const[]){ "species", "agent", NULL });
  if (reader.error == NULL)
    read_body (&reader, protocol, medicines);
  return sw_reader_finish (&reader, error) ? g_steal_pointer (&protocol) : NULL;
}

const SwFigure *
sw_protocol_figure (const SwProtocol *protocol, const char *name)
{
  return sw_document_figure (&protocol->head, name);
}

const SwRuling *
sw_protocol_ruling (const SwProtocol *protocol, const char *question, const char *answer)
{
  for (guint i = 0; i < protocol->rulings->len; i++)
    {
      const SwRuling *ruling = g_ptr_array_index (protocol->rulings, i);

      if (g_str_equal (ruling->question, question) && g_str_equal (ruling->answer, answer))
        return ruling;
    }
  return NULL;
}

const SwMedicineGroup *
sw_protocol_group (const SwProtocol *protocol, const char *id)
{
  for (guint i = 0; i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = g_ptr_array_index (protocol->groups, i);

      if (g_str_equal (group->id, id))
        return group;
    }
  return NULL;
}

const SwAlternative *
sw_group_alternative (const SwMedicineGroup *group, const char *substance)
{
  for (guint i = 0; i < group->alternatives->len; i++)
    {
      const SwAlternative *alternative = g_ptr_array_index (group->alternatives, i);

      if (g_str_equal (alternative->substance, substance))
        return alternative;
    }
  return NULL;
}
