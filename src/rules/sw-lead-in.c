/* sw-lead-in.c: the doses the document asks for before the needle
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-lead-in.h"

#include "sw-schedule.h"

gboolean
sw_protocol_leads_in (const SwProtocol *protocol, const char *group)
{
  return protocol->gate.lead_in_groups != NULL
         && g_strv_contains ((const char *const *) protocol->gate.lead_in_groups, group);
}

const SwAlternative *
sw_chosen_alternative (const SwMedicineGroup *group, const char *choices)
{
  g_autofree char *substance = sw_choices_get (choices, group->id);

  if (substance != NULL)
    return sw_group_alternative (group, substance);
  return group->optional || group->alternatives->len == 0 ? NULL : group->alternatives->pdata[0];
}

gint64
sw_lead_in_first_day (const SwProtocol *protocol)
{
  gint64 first = 0;

  for (guint i = 0; i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = protocol->groups->pdata[i];
      const SwAlternative *own = sw_chosen_alternative (group, NULL);

      if (own != NULL && own->phases->len > 0 && sw_protocol_leads_in (protocol, group->id))
        first = MIN (first, ((const SwPhase *) own->phases->pdata[0])->first_day);
    }
  return first;
}

GArray *
sw_due_minutes (const SwPractice *practice, gint64 every_hours)
{
  GArray *minutes = g_array_new (FALSE, FALSE, sizeof (gint64));
  gint64 morning = sw_practice_morning (practice), evening = sw_practice_evening (practice);
  gint64 n = MAX (SW_MINUTES_PER_DAY / (every_hours * SW_MINUTES_PER_HOUR), 1);

  for (gint64 i = 0; i < n; i++)
    {
      gint64 minute = morning + i * SW_MINUTES_PER_DAY / n;

      if (n == 2 && i == 1)
        minute = evening;
      g_array_append_val (minutes, minute);
    }
  return minutes;
}

/* The plan's row for the nth dose of a group on a day: a substance that the document doesn't list answers nothing. */
static const SwDosePlan *
nth_dose (const GPtrArray *doses, const SwMedicineGroup *group, SwDay day, guint nth)
{
  guint seen = 0;

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (dose->due_day == day && dose->instead_of == 0 && g_str_equal (dose->group, group->id)
          && sw_group_alternative (group, dose->substance) != NULL && seen++ == nth)
        return dose;
    }
  return NULL;
}

/* A replacement stands for its dose, and its own replacement for it. */
static const SwDosePlan *
counted_dose (const SwCase *c, const SwDosePlan *dose)
{
  const SwDosePlan *instead;

  while (dose != NULL && (instead = sw_dose_replacement (c, dose->dose)) != NULL)
    dose = instead;
  return dose;
}

typedef struct
{
  const SwCase *c;
  SwDay treat_day;
  const GPtrArray *doses;
  GArray *slots;
} SlotBuild;

static void
add_slot (SlotBuild *build, const SwMedicineGroup *group, gint64 day_number, guint nth, int minute)
{
  SwLeadInSlot slot = { .group = group->id, .day_number = day_number, .nth = nth, .minute = minute };

  slot.dose = nth_dose (build->doses, group, build->treat_day + day_number, nth);
  slot.counted = counted_dose (build->c, slot.dose);
  slot.standing = slot.counted != NULL ? sw_dose_state (build->c, slot.counted) : SW_STANDING_PLANNED;
  g_array_append_val (build->slots, slot);
}

/* Every dose of the days before day 0, and the first of day 0. */
static void
add_phase (SlotBuild *build, const SwMedicineGroup *group, const SwPhase *phase)
{
  g_autoptr (GArray) minutes = sw_due_minutes (build->c->practice, phase->every_hours);

  for (gint64 day = phase->first_day; day <= MIN (phase->last_day, 0); day++)
    for (guint i = 0; i < (day < 0 ? minutes->len : 1); i++)
      add_slot (build, group, day, i, (int) g_array_index (minutes, gint64, i));
}

GArray *
sw_lead_in_slots (const SwCase *c, SwDay treat_day)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  const SwPlan *plan = sw_case_plan (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  SlotBuild build = { c, treat_day, doses, g_array_new (FALSE, FALSE, sizeof (SwLeadInSlot)) };

  for (guint i = 0; protocol != NULL && i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = protocol->groups->pdata[i];
      const SwAlternative *chosen = sw_chosen_alternative (group, plan != NULL ? plan->choices : NULL);

      if (!sw_protocol_leads_in (protocol, group->id))
        continue;
      if (chosen == NULL)
        chosen = sw_chosen_alternative (group, NULL);
      for (guint p = 0; chosen != NULL && p < chosen->phases->len; p++)
        add_phase (&build, group, chosen->phases->pdata[p]);
    }
  return build.slots;
}

gboolean
sw_lead_in_has_begun (const SwCase *c)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);

  for (guint i = 0; protocol != NULL && i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      SwStanding standing = sw_dose_state (c, dose);

      if (sw_protocol_leads_in (protocol, dose->group) && standing != SW_STANDING_PLANNED
          && (sw_dose_is_confirmed (standing) || sw_moment_compare (sw_dose_due (dose), c->now) <= 0))
        return TRUE;
    }
  return FALSE;
}

/* Whether gate B asks for doses of this group on this day. */
static gboolean
is_asked_for (const SwProtocol *protocol, const char *group, gint64 day_number)
{
  if (sw_protocol_leads_in (protocol, group))
    return sw_lead_in_first_day (protocol) <= day_number && day_number <= 0;
  return day_number == 0 && protocol->gate.day_groups != NULL
         && g_strv_contains ((const char *const *) protocol->gate.day_groups, group);
}

guint
sw_lead_in_lost (const SwCase *c, SwDay treat_day)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  guint lost = 0;

  for (guint i = 0; protocol != NULL && i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      SwStanding standing = sw_dose_state (c, dose);

      if ((standing == SW_STANDING_MISSED || standing == SW_STANDING_VOMITED)
          && is_asked_for (protocol, dose->group, dose->due_day - treat_day))
        lost++;
    }
  return lost;
}
