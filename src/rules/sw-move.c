/* sw-move.c: moving the day of treatment
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-replan-private.h"

#include "sw-definitions.h"
#include "sw-lead-in.h"

#include <glib/gi18n-lib.h>

static SwMoment
slot_due (const SwLeadInSlot *slot, SwDay treat_day)
{
  return (SwMoment) { treat_day + slot->day_number, slot->minute };
}

/* The very first dose of the lead-in may still be given late on its day. */
static gboolean
is_in_time (const SwCase *c, SwMoment due, gboolean first_of_lead_in)
{
  const SwProtocol *protocol = sw_case_protocol (c);

  if (sw_moment_compare (due, c->now) >= 0)
    return TRUE;
  return first_of_lead_in && due.day == c->now.day && c->now.minute <= protocol->gate.first_until;
}

static gboolean
slot_can_hold (const SwCase *c, const SwLeadInSlot *slot, SwDay treat_day)
{
  if (slot->counted != NULL)
    return !sw_dose_is_lost (slot->standing);
  return is_in_time (c, slot_due (slot, treat_day),
                     slot->nth == 0 && slot->day_number == sw_lead_in_first_day (sw_case_protocol (c)));
}

/* Whether gate B's count can hold on that day 0; if not, the slot for which it can't. Replacing one lost dose is
 * open, replacing two is not: then the obstacle has no group. */
static gboolean
day_holds (const SwCase *c, SwDay treat_day, SwLeadInSlot *obstacle)
{
  g_autoptr (GArray) slots = sw_lead_in_slots (c, treat_day);

  *obstacle = (SwLeadInSlot) { .group = NULL };
  for (guint i = 0; i < slots->len; i++)
    {
      const SwLeadInSlot *slot = &g_array_index (slots, SwLeadInSlot, i);

      if (slot_can_hold (c, slot, treat_day))
        continue;
      *obstacle = *slot;
      return FALSE;
    }
  return sw_lead_in_lost (c, treat_day) < 2;
}

static SwFinding *
finding_too_late (const SwCase *c, SwDay treat_day, SwDay first)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  SwFinding *finding = sw_finding_new (SW_FINDING_LEAD_IN_TOO_LATE);

  sw_finding_day (finding, "date", treat_day);
  sw_finding_day (finding, "start", treat_day + sw_lead_in_first_day (protocol));
  sw_finding_minute (finding, "time", (int) protocol->gate.first_until);
  sw_finding_day (finding, "first", first);
  return finding;
}

static SwFinding *
finding_cannot_hold (const SwCase *c, SwDay treat_day, const SwLeadInSlot *obstacle, SwDay first)
{
  const SwMedicineGroup *group = sw_protocol_group (sw_case_protocol (c), obstacle->group);
  SwMoment due = slot_due (obstacle, treat_day);
  SwFinding *finding = sw_finding_new (SW_FINDING_COUNT_CANNOT_HOLD);

  sw_finding_day (finding, "date", treat_day);
  sw_finding_text (finding, "group", group->title);
  sw_finding_day (finding, "day", obstacle->counted != NULL ? obstacle->counted->due_day : due.day);
  sw_finding_minute (finding, "time", obstacle->counted != NULL ? (int) obstacle->counted->due_minute : due.minute);
  sw_finding_text (finding, "state",
                   obstacle->counted != NULL ? sw_standing_name (obstacle->standing) : _("past, and not in the plan"));
  sw_finding_day (finding, "first", first);
  return finding;
}

SwFinding *
sw_finding_of_lost (const SwCase *c, SwDay treat_day, SwDay first)
{
  SwFinding *finding = sw_finding_new (SW_FINDING_TWO_DOSES_LOST);

  sw_finding_count (finding, "value", sw_lead_in_lost (c, treat_day));
  sw_finding_count (finding, "limit", 1);
  sw_finding_day (finding, "first", first);
  return finding;
}

static SwDay
first_day (const SwCase *c)
{
  SwLeadInSlot obstacle;
  SwDay day = c->now.day;

  while (!day_holds (c, day, &obstacle))
    day++;
  return day;
}

SwFinding *
sw_move_day_refused (const SwCase *c, SwDay treat_day)
{
  SwLeadInSlot obstacle;

  if (treat_day < c->now.day)
    return finding_too_late (c, treat_day, first_day (c));
  if (day_holds (c, treat_day, &obstacle))
    return NULL;
  if (obstacle.group == NULL)
    return sw_finding_of_lost (c, treat_day, first_day (c));
  if (obstacle.counted == NULL && !sw_lead_in_has_begun (c))
    return finding_too_late (c, treat_day, first_day (c));
  return finding_cannot_hold (c, treat_day, &obstacle, first_day (c));
}

SwDay
sw_move_first_day (const SwCase *c, GPtrArray **nearer)
{
  SwDay first;

  if (nearer != NULL)
    *nearer = sw_findings_new ();
  if (sw_case_protocol (c) == NULL)
    return SW_NO_DAY;
  first = first_day (c);
  for (SwDay day = c->now.day; nearer != NULL && day < first; day++)
    g_ptr_array_add (*nearer, sw_move_day_refused (c, day));
  return first;
}

/* The last day number of the corticosteroid in the plan: where a group leads in and how far it runs. */
static gint64
last_lead_in_number (const SwSchedule *schedule, const SwProtocol *protocol)
{
  gint64 last = 0;

  for (guint i = 0; i < schedule->lines->len; i++)
    {
      const SwScheduleLine *line = schedule->lines->pdata[i];

      if (sw_protocol_leads_in (protocol, line->group))
        last = MAX (last, line->last_number);
    }
  return last;
}

/* The day on which the corticosteroid that goes on began. */
static SwDay
run_began (const SwCase *c, SwDay otherwise)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (sw_protocol_leads_in (protocol, dose->group) && !sw_dose_is_open (c, dose)
          && !sw_dose_is_lost (sw_dose_state (c, dose)))
        return MIN (dose->due_day, otherwise);
    }
  return otherwise;
}

typedef struct
{
  SwReplan *replan;
  const SwCase *c;
  const SwMoveOrder *order;
  const SwPlan *plan;
  gboolean begun;
  gboolean anew; /* stop and lead in again, not go on */
  SwSchedule *schedule;
  GPtrArray *doses; /* to plan anew, owned */
} Move;

static void
check_delay (Move *move)
{
  gint64 delay = move->order->treat_day - move->plan->treat_day;
  gint64 limit = sw_definition_whole (SW_DEF_DELAY);
  SwFinding *finding;

  if (!move->begun || delay <= limit)
    return;
  move->replan->vet_only = TRUE;
  if (move->order->way != SW_MOVE_UNDECIDED)
    return;
  finding = sw_replan_find (move->replan, SW_FINDING_LONG_DELAY);
  sw_finding_day (finding, "date", move->order->treat_day);
  sw_finding_count (finding, "value", delay);
  sw_finding_count (finding, "limit", limit);
}

static void
check_run (Move *move)
{
  const SwProtocol *protocol = sw_case_protocol (move->c);
  SwDay lead_in = move->order->treat_day + sw_lead_in_first_day (protocol);
  SwDay from = move->anew ? lead_in : run_began (move->c, lead_in);
  gint64 days = move->order->treat_day + last_lead_in_number (move->schedule, protocol) - from + 1;
  gint64 limit = sw_definition_whole (SW_DEF_CORTICOSTEROID_RUN);
  SwFinding *finding;

  if (days <= limit)
    return;
  move->replan->vet_only = TRUE;
  if (move->order->vet_orders != NULL && *move->order->vet_orders != '\0')
    return;
  finding = sw_replan_find (move->replan, SW_FINDING_TAPER_NEEDED);
  sw_finding_count (finding, "value", days);
  sw_finding_count (finding, "limit", limit);
}

/* Whether a dose that stays in the plan stands at this group and time already. */
static gboolean
is_kept (const Move *move, const SwDosePlan *wanted)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (move->c->dossier, move->c->course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (!sw_dose_is_open (move->c, dose) && g_str_equal (dose->group, wanted->group)
          && dose->due_day == wanted->due_day && dose->due_minute == wanted->due_minute)
        return TRUE;
    }
  return FALSE;
}

static void
plan_dose (Move *move, const SwDosePlan *dose)
{
  gboolean first = dose->day_number == sw_lead_in_first_day (sw_case_protocol (move->c));

  if (is_in_time (move->c, sw_dose_due (dose), first) && !is_kept (move, dose))
    g_ptr_array_add (move->doses, sw_fact_copy (dose));
}

static gboolean
group_has_begun (const Move *move, const char *group)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (move->c->dossier, move->c->course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (g_str_equal (dose->group, group) && !sw_dose_is_open (move->c, dose))
        return TRUE;
    }
  return FALSE;
}

/* The doses between today and the first day of a group that goes on, made up as its first ones. */
static guint
fill_gap (Move *move, const SwScheduleLine *line)
{
  g_autoptr (GArray) minutes = sw_due_minutes (move->c->practice, line->every_minutes / SW_MINUTES_PER_HOUR);
  guint before = move->doses->len;

  for (SwDay day = move->c->now.day; day < move->order->treat_day + line->first_number; day++)
    for (guint i = 0; i < minutes->len; i++)
      {
        SwDosePlan *dose = sw_schedule_dose (line, move->order->treat_day, day - move->order->treat_day,
                                             g_array_index (minutes, gint64, i));

        plan_dose (move, dose);
        sw_fact_free (dose);
      }
  return move->doses->len - before;
}

/* Groups that have begun go on until the new plan takes over. */
static void
go_on (Move *move)
{
  const SwScheduleLine *before = NULL;

  for (guint i = 0; i < move->schedule->lines->len; i++)
    {
      const SwScheduleLine *line = move->schedule->lines->pdata[i];
      gboolean first = before == NULL || !g_str_equal (before->group, line->group);
      guint n = 0;

      before = line;
      if (first && group_has_begun (move, line->group))
        n = fill_gap (move, line);
      if (n > 0)
        sw_replan_say (move->replan,
                       g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s goes on without a gap: %u more dose.",
                                                     "%s goes on without a gap: %u more doses.", n),
                                        line->substance, n));
    }
}

static void
say_counts (Move *move, guint stay, guint withdrawn)
{
  g_autofree char *from = sw_day_format (move->plan->treat_day);
  g_autofree char *to = sw_day_format (move->order->treat_day);

  sw_replan_say (move->replan, g_strdup_printf (_("Day 0 moves from %s to %s."), from, to));
  sw_replan_say (move->replan, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u dose already due stays as recorded.",
                                                             "%u doses already due stay as recorded.", stay),
                                                stay));
  sw_replan_say (move->replan,
                 g_strdup_printf (_("Not yet due: %u withdrawn, %u planned anew."), withdrawn, move->doses->len));
  if (move->anew && move->begun)
    sw_replan_say (move->replan, g_strdup (_("The corticosteroid stops now and the lead-in begins anew.")));
}

static SwPlan *
moved_plan (const Move *move)
{
  SwPlan *row = sw_fact_correction (move->plan);

  row->treat_day = move->order->treat_day;
  row->moved_from = move->plan->treat_day;
  row->cause = move->replan->cause;
  sw_set_text (&row->choices, move->schedule->choices);
  sw_set_text (&row->reason, move->order->reason);
  if (move->order->vet_orders != NULL)
    sw_set_text (&row->vet_orders, move->order->vet_orders);
  return row;
}

static void
write_move (Move *move)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (move->c->dossier, move->c->course);
  guint withdrawn = 0;

  g_ptr_array_add (move->replan->facts, moved_plan (move));
  for (guint i = 0; i < doses->len; i++)
    if (sw_dose_is_open (move->c, doses->pdata[i]))
      {
        g_ptr_array_add (move->replan->facts, sw_fact_withdrawal (doses->pdata[i]));
        withdrawn++;
      }
  if (move->begun && !move->anew)
    go_on (move);
  for (guint i = 0; i < move->schedule->doses->len; i++)
    plan_dose (move, move->schedule->doses->pdata[i]);
  sw_schedule_append_doses (move->replan->facts, move->doses, move->c->dossier->patient, move->c->course, -1);
  say_counts (move, doses->len - withdrawn, withdrawn);
}

static void
check_day (Move *move)
{
  SwFinding *refused;

  if (move->order->treat_day == move->plan->treat_day)
    sw_finding_day (sw_replan_find (move->replan, SW_FINDING_SAME_DAY), "date", move->plan->treat_day);
  refused = sw_move_day_refused (move->c, move->order->treat_day);
  if (refused != NULL)
    g_ptr_array_add (move->replan->findings, refused);
}

SwReplan *
sw_move_preview (const SwCase *c, const SwMoveOrder *order)
{
  gboolean begun = sw_lead_in_has_begun (c), anew = begun && order->way == SW_MOVE_ANEW;
  Move move = { .c = c, .order = order, .plan = sw_case_plan (c), .begun = begun, .anew = anew };
  SwReplan *replan = sw_replan_alloc (order->treat_day, anew ? SW_PLAN_LED_IN_ANEW : SW_PLAN_MOVED);

  move.replan = replan;
  sw_replan_check_open (replan, c);
  if (!sw_replan_may (replan))
    return replan;
  check_day (&move);
  check_delay (&move);
  move.schedule = sw_replan_schedule (replan, c, order->treat_day, sw_plan_grams (c, move.plan), move.plan->choices);
  check_run (&move);
  move.doses = g_ptr_array_new_with_free_func (sw_fact_free);
  if (sw_replan_may (replan))
    write_move (&move);
  g_ptr_array_unref (move.doses);
  sw_schedule_free (move.schedule);
  return replan;
}
