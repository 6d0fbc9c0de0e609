/* sw-lead-in.h: the doses that the adopted document asks for before the needle, each beside the plan's row that
 * answers it
 *
 * Gate B counts these, moving the day asks whether they can still hold for another day 0. They come from the
 * document: a plan without rows answers none of them.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dose-state.h"

G_BEGIN_DECLS

/**
 * SwLeadInSlot:
 * @group: id of the protocol's group, borrowed from the protocol
 * @day_number: relative to the day 0 asked about
 * @nth: which dose of that day, 0 the first
 * @minute: when it would be due by the practice's hours
 * @dose: the plan's row; NULL: not planned
 * @counted: the dose that counts: @dose or what the vet ordered in its place; NULL with @dose
 * @standing: of @counted
 */
typedef struct
{
  const char *group;
  gint64 day_number;
  guint nth;
  int minute;
  const SwDosePlan *dose;
  const SwDosePlan *counted;
  SwStanding standing;
} SwLeadInSlot;

/* The slots of the lead-in groups for a day 0, by day. Empty without a protocol. (transfer full) SwLeadInSlot */
GArray *sw_lead_in_slots (const SwCase *c, SwDay treat_day);

/* The first day number of the lead-in: -2 in the shipped documents; 0 when nothing leads in. */
gint64 sw_lead_in_first_day (const SwProtocol *protocol);

/* Whether any dose of a lead-in group was given or has come due. */
gboolean sw_lead_in_has_begun (const SwCase *c);

/* How many of the doses that gate B asks for with this day 0 are missed or vomited, replacements among them. */
guint sw_lead_in_lost (const SwCase *c, SwDay treat_day);

/* Whether a group's doses count before the needle from its first day on. */
gboolean sw_protocol_leads_in (const SwProtocol *protocol, const char *group);

/* The substance chosen for a group: what `choices` names, else the protocol's first; NULL: none of them is listed. */
const SwAlternative *sw_chosen_alternative (const SwMedicineGroup *group, const char *choices);

/* When the doses of one day are due, minutes since midnight, 1440 and more on the next day: once a day in the
 * morning, twice at both hours of the practice, else every so many hours from the morning on. (transfer full) of
 * gint64 */
GArray *sw_due_minutes (const SwPractice *practice, gint64 every_hours);

G_END_DECLS
