/* sw-protocol-medicines.c: the medicines around an injection, and what the gate counts of them
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-protocol-private.h"

#include "sw-day.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <string.h>

#define UG_DIGITS 3 /* mg in documents, ug inside */
#define MINUTES_PER_HOUR 60

static void
alternative_free (SwAlternative *alternative)
{
  g_free (alternative->substance);
  g_ptr_array_unref (alternative->phases);
  g_free (alternative);
}

void
sw_medicine_group_free (SwMedicineGroup *group)
{
  g_free (group->id);
  g_free (group->title);
  g_ptr_array_unref (group->alternatives);
  g_free (group);
}

static void
check_days (SwReader *reader, const SwProtocol *protocol, const SwAlternative *alternative, const SwPhase *phase)
{
  const SwPhase *before =
      alternative->phases->len > 0 ? g_ptr_array_index (alternative->phases, alternative->phases->len - 1) : NULL;

  if (phase->first_day < protocol->medicine_first_day || phase->last_day > protocol->medicine_last_day)
    sw_reader_refuse_figure (reader, phase->days, SW_CONTRADICTION_DAY_OUTSIDE_COURSE,
                             _ ("days %d to %d do not lie within the days of the course's medicines, %d to %d"),
                             phase->first_day, phase->last_day, protocol->medicine_first_day,
                             protocol->medicine_last_day);
  if (before != NULL && phase->first_day <= before->last_day)
    sw_reader_refuse_figure (reader, phase->days, SW_CONTRADICTION_PHASES_OVERLAP,
                             _ ("the phase begins on day %d, and the one before it ends on day %d"), phase->first_day,
                             before->last_day);
}

static void
check_against_medicine (SwReader *reader, const SwPhase *phase, const SwMedicine *medicine)
{
  gboolean has_range = medicine->low_ug_per_kg != SW_UNKNOWN && medicine->high_ug_per_kg != SW_UNKNOWN;
  gboolean has_hours = medicine->least_hours != SW_UNKNOWN;

  if (has_range && phase->ug_per_kg != SW_UNKNOWN &&
      (phase->ug_per_kg < medicine->low_ug_per_kg || phase->ug_per_kg > medicine->high_ug_per_kg))
    sw_reader_refuse_figure (reader, phase->dose, SW_CONTRADICTION_OUT_OF_RANGE,
                             _ ("%s lies outside the range that the document of %s gives, "
                                "%" PRId64 " to %" PRId64 " ug/kg"),
                             phase->dose->value, medicine->head.id, medicine->low_ug_per_kg, medicine->high_ug_per_kg);
  if (has_hours && phase->every_hours != SW_UNKNOWN &&
      (phase->every_hours < medicine->least_hours || phase->every_hours > medicine->most_hours))
    sw_reader_refuse_figure (reader, phase->every, SW_CONTRADICTION_INTERVAL_MISMATCH,
                             _ ("every %s is not an interval that the document of %s gives, "
                                "%" PRId64 " to %" PRId64 " h"),
                             phase->every->value, medicine->head.id, medicine->least_hours, medicine->most_hours);
}

/* A day's doses are at equal intervals from the morning hour on, so the interval must part the day. */
static void
check_interval (SwReader *reader, const SwPhase *phase)
{
  const gint64 day = SW_MINUTES_PER_DAY / MINUTES_PER_HOUR;

  if (phase->every_hours != SW_UNKNOWN && (phase->every_hours == 0 || day % phase->every_hours != 0))
    sw_reader_refuse_figure (reader, phase->every, SW_CONTRADICTION_BAD_VALUE,
                             _ ("every %s does not part a day into equal intervals"), phase->every->value);
}

static void
read_phase (SwReader *reader, const SwProtocol *protocol, SwNode *node, SwAlternative *alternative,
            const SwMedicine *medicine)
{
  SwPhase *phase = g_new0 (SwPhase, 1);

  sw_reader_only (reader, node, (const char *const[]){ NULL });
  phase->dose = sw_reader_need (reader, node, "dose");
  phase->every = sw_reader_need (reader, node, "every");
  phase->days = sw_reader_need (reader, node, "days");
  phase->ug_per_kg = sw_reader_amount (reader, phase->dose, "mg/kg", UG_DIGITS);
  phase->every_hours = sw_reader_whole (reader, phase->every, "h");
  if (sw_reader_days (reader, phase->days, &phase->first_day, &phase->last_day))
    check_days (reader, protocol, alternative, phase);
  else if (reader->error == NULL)
    sw_reader_refuse_figure (reader, phase->days, SW_CONTRADICTION_BAD_VALUE, _ ("the days of a phase need a value"));
  if (reader->error == NULL)
    check_interval (reader, phase);
  if (reader->error == NULL && medicine != NULL)
    check_against_medicine (reader, phase, medicine);
  g_ptr_array_add (alternative->phases, phase);
}

static void
read_alternative (SwReader *reader, const SwProtocol *protocol, SwNode *node, SwMedicineGroup *group,
                  const GPtrArray *medicines)
{
  const char *substance = sw_reader_id (reader, node, "substance");
  const SwMedicine *medicine = medicines != NULL ? sw_medicines_find (medicines, substance) : NULL;
  g_autoptr (GPtrArray) phases = sw_reader_children (reader, node, "phase");
  SwAlternative *alternative;

  sw_reader_only (reader, node, (const char *const[]){ "substance", NULL });
  if (medicines != NULL && medicine == NULL)
    sw_reader_refuse (reader, node, substance, SW_CONTRADICTION_UNKNOWN_MEDICINE,
                      _ ("no document describes the medicine %s"), substance);
  if (sw_group_alternative (group, substance) != NULL)
    sw_reader_refuse (reader, node, substance, SW_CONTRADICTION_DUPLICATE_ID, _ ("the group lists %s twice"),
                      substance);
  if (phases->len == 0)
    sw_reader_refuse (reader, node, substance, SW_CONTRADICTION_EMPTY_GROUP, _ ("%s has no <phase>"), substance);
  alternative = g_new0 (SwAlternative, 1);
  alternative->substance = g_strdup (substance);
  alternative->phases = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (group->alternatives, alternative);
  for (guint i = 0; i < phases->len && reader->error == NULL; i++)
    read_phase (reader, protocol, g_ptr_array_index (phases, i), alternative, medicine);
}

static void
read_group (SwReader *reader, SwProtocol *protocol, SwNode *node, const GPtrArray *medicines)
{
  g_autoptr (GPtrArray) alternatives = sw_reader_children (reader, node, "alternative");
  const char *id = sw_reader_id (reader, node, "id"), *title = sw_node_attribute (node, "title");
  SwMedicineGroup *group;

  sw_reader_only (reader, node, (const char *const[]){ "id", "title", "optional", NULL });
  if (sw_protocol_group (protocol, id) != NULL)
    sw_reader_refuse (reader, node, id, SW_CONTRADICTION_DUPLICATE_ID, _ ("the group %s stands there twice"), id);
  if (alternatives->len == 0)
    sw_reader_refuse (reader, node, id, SW_CONTRADICTION_EMPTY_GROUP, _ ("the group %s lists no medicine"), id);
  group = g_new0 (SwMedicineGroup, 1);
  group->id = g_strdup (id);
  group->title = g_strdup (title != NULL ? title : id);
  group->optional = sw_reader_flag (reader, node, "optional");
  group->alternatives = g_ptr_array_new_with_free_func ((GDestroyNotify) alternative_free);
  g_ptr_array_add (protocol->groups, group);
  for (guint i = 0; i < alternatives->len && reader->error == NULL; i++)
    read_alternative (reader, protocol, g_ptr_array_index (alternatives, i), group, medicines);
}

void
sw_protocol_read_medicines (SwReader *reader, SwProtocol *protocol, const GPtrArray *medicines)
{
  SwNode *list = sw_reader_child (reader, reader->root, "medicines");
  g_autoptr (GPtrArray) groups = sw_reader_children (reader, list, "group");

  if (list == NULL)
    return;
  if (!sw_reader_days (reader, sw_reader_need (reader, list, "medicine-days"), &protocol->medicine_first_day,
                       &protocol->medicine_last_day) &&
      reader->error == NULL)
    sw_reader_refuse (reader, list, "medicine-days", SW_CONTRADICTION_BAD_VALUE,
                      _ ("the days of the course's medicines need a value"));
  for (guint i = 0; i < groups->len && reader->error == NULL; i++)
    read_group (reader, protocol, g_ptr_array_index (groups, i), medicines);
}

static gboolean
covers (const SwAlternative *alternative, int day)
{
  for (guint i = 0; i < alternative->phases->len; i++)
    {
      const SwPhase *phase = g_ptr_array_index (alternative->phases, i);

      if (phase->first_day <= day && day <= phase->last_day)
        return TRUE;
    }
  return FALSE;
}

/* Each group that the gate counts must be there, planned by itself, and have doses on the days that are counted. */
static char **
read_counted (SwReader *reader, SwNode *gate, const char *name, const SwProtocol *protocol, gboolean lead_in)
{
  const SwFigure *figure = sw_reader_need (reader, gate, name);
  char **ids = sw_reader_list (reader, figure);

  for (guint i = 0; ids != NULL && ids[i] != NULL; i++)
    {
      const SwMedicineGroup *group = sw_protocol_group (protocol, ids[i]);

      if (group == NULL || group->optional)
        {
          sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_ABSENT_GROUP,
                                   _ ("the gate counts doses of %s, which is no group that is always planned"), ids[i]);
          continue;
        }
      for (guint j = 0; j < group->alternatives->len; j++)
        {
          const SwAlternative *alternative = g_ptr_array_index (group->alternatives, j);

          if (!covers (alternative, 0) || (lead_in && !covers (alternative, -1)))
            sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_GATE_UNREACHABLE,
                                     _ ("the gate counts doses of %s, but %s has none on the days counted"), ids[i],
                                     alternative->substance);
        }
    }
  return ids;
}

static void
read_window (SwReader *reader, SwNode *gate, SwGateRule *rule)
{
  const SwFigure *most = sw_reader_need (reader, gate, "most-before");
  const SwFigure *until = sw_reader_figure (reader, gate, "first-until");
  gint64 hours = sw_reader_whole (reader, most, "h");
  int minute = 0;

  rule->least_minutes = sw_reader_whole (reader, sw_reader_need (reader, gate, "least-before"), "min");
  rule->most_minutes = hours == SW_UNKNOWN ? SW_UNKNOWN : MIN (hours, G_MAXINT) * MINUTES_PER_HOUR;
  if (rule->least_minutes != SW_UNKNOWN && rule->most_minutes != SW_UNKNOWN && rule->least_minutes > rule->most_minutes)
    sw_reader_refuse_figure (reader, most, SW_CONTRADICTION_LEAST_OVER_MOST,
                             _ ("a dose counts from %" PRId64 " minutes before the injection, "
                                "and at most %" PRId64 " minutes before it"),
                             rule->least_minutes, rule->most_minutes);
  if (until != NULL && *until->value != '\0' && !sw_time_parse (until->value, &minute, NULL))
    sw_reader_refuse_figure (reader, until, SW_CONTRADICTION_BAD_VALUE, _ ("“%s” is no time of day"), until->value);
  else if (until != NULL && *until->value != '\0')
    rule->first_until = minute;
}

void
sw_protocol_read_gate (SwReader *reader, SwProtocol *protocol)
{
  SwNode *gate = sw_reader_child (reader, reader->root, "gate");

  if (gate == NULL)
    {
      if (protocol->groups->len > 0)
        sw_reader_refuse (reader, reader->root, "gate", SW_CONTRADICTION_MISSING_FIGURE,
                          _ ("a protocol with medicines needs a <gate> that counts them"));
      return;
    }
  protocol->gate.lead_in_groups = read_counted (reader, gate, "lead-in-groups", protocol, TRUE);
  protocol->gate.day_groups = read_counted (reader, gate, "day-groups", protocol, FALSE);
  read_window (reader, gate, &protocol->gate);
}
