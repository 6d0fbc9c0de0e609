/* sw-gate-doses.c: gate B's count of doses, against the document
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-gate-private.h"

#include "sw-definitions.h"
#include "sw-lead-in.h"
#include "sw-move.h"
#include "sw-replan-private.h"

#include <glib/gi18n-lib.h>

/* Confirmed, and at a time that has passed: what is told ahead of its time counts for nothing. */
static gboolean
is_confirmed_before (const SwCase *c, const SwDosePlan *dose, SwMoment before)
{
  SwMoment actual = sw_dose_actual (c, dose);

  return sw_moment_is_set (actual) && sw_moment_compare (actual, before) <= 0;
}

static gboolean
slot_is_confirmed (const SwCase *c, const SwLeadInSlot *slot)
{
  return slot->counted != NULL && is_confirmed_before (c, slot->counted, c->now);
}

/* True minutes from a confirmed dose to now. */
static gint64
minutes_since (const SwCase *c, const SwDosePlan *dose)
{
  return sw_moment_minutes_between (c->zone, sw_dose_actual (c, dose), c->now);
}

/* The dose of a day group that counts: confirmed today, long enough and not too long before. `recent`: one that was
 * given too shortly before, or NULL. */
static const SwDosePlan *
day_dose (const SwCase *c, const SwProtocol *protocol, const char *group, const SwDosePlan **recent)
{
  const SwMedicineGroup *listed = sw_protocol_group (protocol, group);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  const SwDosePlan *found = NULL;

  *recent = NULL;
  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      gint64 since;

      if (!g_str_equal (dose->group, group) || sw_group_alternative (listed, dose->substance) == NULL
          || !is_confirmed_before (c, dose, c->now) || sw_dose_actual (c, dose).day != c->now.day)
        continue;
      since = minutes_since (c, dose);
      if (since < protocol->gate.least_minutes)
        *recent = dose;
      else if (since <= protocol->gate.most_minutes)
        found = dose;
    }
  return found;
}

/* Findings */

static void
find_unconfirmed (SwGateAsk *ask, const SwLeadInSlot *slot)
{
  SwFindingCode code = SW_FINDING_DOSE_NOT_YET;

  if (sw_dose_is_lost (slot->standing))
    code = SW_FINDING_DOSE_LOST;
  else if (slot->standing == SW_STANDING_NOT_KNOWN)
    code = SW_FINDING_DOSE_NOT_KNOWN;
  sw_finding_of_dose (sw_gate_find (ask, code), ask->c, slot->counted);
}

/* Slots of one group and day that the plan has no row for, said once for the day. */
static void
find_unplanned (SwGateAsk *ask, const GArray *slots, const SwLeadInSlot *missing)
{
  const SwMedicineGroup *group = sw_protocol_group (ask->protocol, missing->group);
  SwFinding *finding;
  guint needed = 0, planned = 0;

  for (guint i = 0; i < slots->len; i++)
    {
      const SwLeadInSlot *slot = &g_array_index (slots, SwLeadInSlot, i);

      if (slot->group != missing->group || slot->day_number != missing->day_number)
        continue;
      if (slot->dose == NULL && slot->nth < missing->nth)
        return;
      needed++;
      planned += slot->dose != NULL;
    }
  finding = sw_gate_find (ask, SW_FINDING_DOSE_NOT_PLANNED);
  finding->about = g_strdup_printf ("%s/%" G_GINT64_FORMAT, missing->group, missing->day_number);
  sw_finding_text (finding, "group", group->title);
  sw_finding_count (finding, "day", missing->day_number);
  sw_finding_count (finding, "value", planned);
  sw_finding_count (finding, "limit", needed);
}

static void
check_lead_in (SwGateAsk *ask)
{
  g_autoptr (GArray) slots = sw_lead_in_slots (ask->c, ask->plan != NULL ? ask->plan->treat_day : ask->c->now.day);

  for (guint i = 0; i < slots->len; i++)
    {
      const SwLeadInSlot *slot = &g_array_index (slots, SwLeadInSlot, i);

      if (slot->counted == NULL)
        find_unplanned (ask, slots, slot);
      else if (!slot_is_confirmed (ask->c, slot))
        find_unconfirmed (ask, slot);
    }
}

/* "The injection may follow from": so long after a dose was given. */
static SwFinding *
find_recent (SwGateAsk *ask, SwFindingCode code, const SwDosePlan *dose, gint64 minutes)
{
  SwMoment actual = sw_dose_actual (ask->c, dose);
  SwMoment until = sw_moment_add_minutes (actual, minutes);
  SwFinding *finding = sw_gate_find (ask, code);

  finding->dose = dose->dose;
  sw_finding_text (finding, "substance", dose->substance);
  sw_finding_minute (finding, "time", actual.minute);
  sw_finding_count (finding, "limit", minutes);
  sw_finding_minute (finding, "until", until.minute);
  return finding;
}

static void
check_day_group (SwGateAsk *ask, const char *group)
{
  const SwMedicineGroup *listed = sw_protocol_group (ask->protocol, group);
  gint64 least = ask->protocol->gate.least_minutes;
  const SwDosePlan *recent;
  SwFinding *finding;

  if (day_dose (ask->c, ask->protocol, group, &recent) != NULL)
    return;
  if (recent != NULL)
    {
      find_recent (ask, SW_FINDING_DAY_DOSE_RECENT, recent, least)->about = g_strdup (group);
      return;
    }
  finding = sw_gate_find (ask, SW_FINDING_DAY_DOSE_MISSING);
  finding->about = g_strdup (group);
  sw_finding_text (finding, "group", listed->title);
  sw_finding_count (finding, "least", least);
  sw_finding_count (finding, "most", ask->protocol->gate.most_minutes / SW_MINUTES_PER_HOUR);
}

static void
check_replacements (SwGateAsk *ask)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (ask->c->dossier, ask->c->course);
  gint64 minutes = sw_definition_whole (SW_DEF_REPLACEMENT_BEFORE);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (dose->instead_of != 0 && is_confirmed_before (ask->c, dose, ask->c->now)
          && minutes_since (ask->c, dose) < minutes)
        find_recent (ask, SW_FINDING_REPLACEMENT_RECENT, dose, minutes);
    }
}

static void
check_lost (SwGateAsk *ask)
{
  if (ask->plan != NULL && sw_lead_in_lost (ask->c, ask->plan->treat_day) >= 2)
    g_ptr_array_add (ask->findings,
                     sw_finding_of_lost (ask->c, ask->plan->treat_day, sw_move_first_day (ask->c, NULL)));
}

void
sw_gate_doses (SwGateAsk *ask)
{
  check_lead_in (ask);
  for (guint i = 0; ask->protocol->gate.day_groups != NULL && ask->protocol->gate.day_groups[i] != NULL; i++)
    check_day_group (ask, ask->protocol->gate.day_groups[i]);
  check_replacements (ask);
  check_lost (ask);
}

/* The summary for the page */

static void
group_clear (gpointer data)
{
  SwGateGroup *group = data;

  g_free (group->group);
  g_free (group->name);
}

static SwGateGroup *
last_group (SwGateCount *count)
{
  return count->groups->len > 0 ? &g_array_index (count->groups, SwGateGroup, count->groups->len - 1) : NULL;
}

static void
count_slot (SwGateCount *count, const SwProtocol *protocol, const char *group, gboolean confirmed)
{
  const SwMedicineGroup *listed = sw_protocol_group (protocol, group);
  SwGateGroup *last = last_group (count);

  if (last == NULL || !g_str_equal (last->group, group))
    {
      SwGateGroup fresh = { g_strdup (group), g_strdup (listed != NULL ? listed->title : group), 0, 0 };

      g_array_append_val (count->groups, fresh);
      last = last_group (count);
    }
  last->needed++;
  last->confirmed += confirmed;
  count->needed++;
  count->confirmed += confirmed;
}

SwGateCount *
sw_gate_count (const SwCase *c)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  const SwPlan *plan = sw_case_plan (c);
  g_autoptr (GArray) slots = sw_lead_in_slots (c, plan != NULL ? plan->treat_day : c->now.day);
  SwGateCount *count = g_new0 (SwGateCount, 1);
  const SwDosePlan *recent;

  count->groups = g_array_new (FALSE, FALSE, sizeof (SwGateGroup));
  g_array_set_clear_func (count->groups, group_clear);
  for (guint i = 0; i < slots->len; i++)
    {
      const SwLeadInSlot *slot = &g_array_index (slots, SwLeadInSlot, i);

      count_slot (count, protocol, slot->group, slot_is_confirmed (c, slot));
    }
  for (guint i = 0; protocol != NULL && protocol->gate.day_groups != NULL && protocol->gate.day_groups[i] != NULL; i++)
    count_slot (count, protocol, protocol->gate.day_groups[i],
                day_dose (c, protocol, protocol->gate.day_groups[i], &recent) != NULL);
  return count;
}

void
sw_gate_count_free (SwGateCount *count)
{
  if (count == NULL)
    return;
  g_array_unref (count->groups);
  g_free (count);
}

char *
sw_gate_count_words (const SwGateCount *count)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("%u of %u confirmed"), count->confirmed, count->needed);
  for (guint i = 0; i < count->groups->len; i++)
    {
      const SwGateGroup *group = &g_array_index (count->groups, SwGateGroup, i);

      g_string_append_printf (text, "%s%u %s", i == 0 ? " (" : ", ", group->confirmed, group->name);
    }
  if (count->groups->len > 0)
    g_string_append_c (text, ')');
  return g_string_free (text, FALSE);
}
