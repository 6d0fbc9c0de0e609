/* sw-course-visits.c: the visits after an injection, and what is due next
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course.h"

#include "sw-definitions.h"
#include "sw-dose-state.h"

/* A part of a day number, rounded down. */
static gint64
share_of (gint64 number, SwDefinitionId id)
{
  gint64 days = 0;
  SwRatio share;

  if (!sw_ratio_mul (sw_ratio (number, 1), sw_definition_ratio (id), &share) || !sw_ratio_floor (share, &days))
    return 0;
  return days;
}

static void
add_slot (GArray *slots, SwDay zero, gint64 number)
{
  SwVisitSlot slot = { .number = number, .day = zero + number };

  slot.opens = slot.day - share_of (number, SW_DEF_VISIT_EARLY);
  slot.closes = slot.day + share_of (number, SW_DEF_VISIT_LATE);
  if (slots->len > 0)
    slot.opens = MAX (slot.opens, g_array_index (slots, SwVisitSlot, slots->len - 1).closes + 1);
  g_array_append_val (slots, slot);
}

static void
add_first_contact (GArray *slots, const SwInjection *injection, gint64 hours)
{
  SwMoment at = { injection->day, (int) injection->minute };
  SwVisitSlot slot = { .opens = injection->day };

  at = sw_moment_add_minutes (at, hours * SW_MINUTES_PER_HOUR);
  slot.day = slot.closes = at.day;
  slot.minute = at.minute;
  g_array_append_val (slots, slot);
}

static gboolean
all_complete (const SwCase *c)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);

  for (guint i = 0; i < tumours->len; i++)
    {
      const SwScore *score = sw_course_last_score (c->dossier, c->course, g_array_index (tumours, gint64, i));

      if (score == NULL || score->category != SW_CATEGORY_COMPLETE)
        return FALSE;
    }
  return tumours->len > 0;
}

/* Every three months for a year, counted from the last visit of the protocol. */
static void
add_watch (GArray *slots, SwDay zero, gint64 last)
{
  int every = (int) sw_definition_whole (SW_DEF_WATCH_EVERY_MONTHS);

  for (int months = every; months <= sw_definition_whole (SW_DEF_WATCH_MONTHS); months += every)
    add_slot (slots, zero, sw_day_add_months (zero + last, months) - zero);
}

/* The day 0 of the injected course that follows this one: from there on its visits are held instead. */
static SwDay
followed_on (const SwCase *c)
{
  const SwCourseDetails *details;

  for (guint i = 0; (details = sw_facts_next (&c->dossier->facts, SW_FACT_COURSE_DETAILS, &i)) != NULL;)
    if (details->follows == c->course && sw_dossier_injection (c->dossier, details->course) != NULL)
      return sw_course_day_zero (c->dossier, details->course);
  return SW_NO_DAY;
}

static gboolean
answers (const SwVisit *visit, const SwVisitSlot *slot)
{
  if (visit->planned_day != SW_UNKNOWN)
    return visit->planned_day == slot->number;
  return slot->opens <= visit->day && visit->day <= slot->closes;
}

/* The visit that answers a slot; `later` says whether anybody looked after its window. */
static const SwVisit *
visit_for (const SwCase *c, const SwVisitSlot *slot, gboolean *later)
{
  const SwVisit *visit, *found = NULL;

  *later = FALSE;
  for (guint i = 0; (visit = sw_facts_next (&c->dossier->facts, SW_FACT_VISIT, &i)) != NULL;)
    {
      if (visit->course != c->course)
        continue;
      if (found == NULL && answers (visit, slot))
        found = visit;
      *later = *later || visit->day > slot->closes;
    }
  return found;
}

static void
judge_slot (const SwCase *c, SwVisitSlot *slot, gboolean over)
{
  gboolean later;

  slot->visit = visit_for (c, slot, &later);
  if (slot->visit != NULL)
    slot->standing = SW_VISIT_DONE;
  else if (later || over)
    slot->standing = SW_VISIT_PASSED;
  else if (sw_moment_compare (c->now, (SwMoment) { slot->day, slot->minute }) < 0)
    slot->standing = SW_VISIT_COMING;
  else
    slot->standing = c->now.day <= slot->closes ? SW_VISIT_DUE : SW_VISIT_OVERDUE;
}

GArray *
sw_course_visits (const SwCase *c)
{
  GArray *slots = g_array_new (FALSE, FALSE, sizeof (SwVisitSlot));
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  const SwProtocol *protocol = sw_case_protocol (c);
  SwDay followed = followed_on (c);
  gint64 last = 0;

  if (injection == NULL || protocol == NULL)
    return slots;
  if (protocol->first_contact_hours != SW_UNKNOWN)
    add_first_contact (slots, injection, protocol->first_contact_hours);
  for (guint i = 0; i < protocol->visit_days->len; i++)
    {
      last = g_array_index (protocol->visit_days, int, i);
      add_slot (slots, injection->day, last);
    }
  if (all_complete (c))
    add_watch (slots, injection->day, last);
  for (guint i = 0; i < slots->len; i++)
    {
      SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);

      judge_slot (c, slot, sw_case_end (c) != NULL || (followed != SW_NO_DAY && slot->day >= followed));
    }
  return slots;
}

/* What is due next */

static SwMoment
earlier (SwMoment a, SwMoment b)
{
  if (!sw_moment_is_set (a))
    return b;
  return !sw_moment_is_set (b) || sw_moment_compare (a, b) <= 0 ? a : b;
}

/* The day of the last contact: what was not told before it won't be any more. */
static SwDay
last_visit_day (const SwCase *c)
{
  const SwVisit *visit;
  SwDay last = SW_NO_DAY;

  for (guint i = 0; (visit = sw_facts_next (&c->dossier->facts, SW_FACT_VISIT, &i)) != NULL;)
    if (visit->course == c->course)
      last = MAX (last, visit->day);
  return last;
}

static SwMoment
first_untold (const SwCase *c)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  SwDay since = last_visit_day (c);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (dose->due_day >= since && sw_dossier_dose_event (c->dossier, dose->dose) == NULL)
        return sw_dose_due (dose);
    }
  return SW_NO_MOMENT;
}

/* A tumour without a score, or with one that says nothing and is to be looked at again. */
static SwMoment
next_score (const SwCase *c, SwDay zero)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);
  SwMoment due = SW_NO_MOMENT;

  for (guint i = 0; i < tumours->len; i++)
    {
      const SwScore *score = sw_course_last_score (c->dossier, c->course, g_array_index (tumours, gint64, i));

      if (score == NULL)
        due = earlier (due, (SwMoment) { zero + protocol->score_day, 0 });
      else if (score->category == SW_CATEGORY_NOT_EVALUABLE)
        due = earlier (due, (SwMoment) { score->day + sw_definition_whole (SW_DEF_LOOK_AGAIN_FIRST), 0 });
    }
  return due;
}

static SwMoment
next_after_injection (const SwCase *c, SwDay zero)
{
  g_autoptr (GArray) slots = sw_course_visits (c);
  SwMoment due = followed_on (c) == SW_NO_DAY ? earlier (first_untold (c), next_score (c, zero)) : SW_NO_MOMENT;

  for (guint i = 0; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);

      if (slot->standing != SW_VISIT_DONE && slot->standing != SW_VISIT_PASSED)
        due = earlier (due, (SwMoment) { slot->day, slot->minute });
    }
  return due;
}

SwMoment
sw_course_next_due (const SwCase *c)
{
  SwDay zero = c->course != 0 ? sw_course_day_zero (c->dossier, c->course) : SW_NO_DAY;

  if (zero == SW_NO_DAY || sw_case_end (c) != NULL || sw_case_protocol (c) == NULL)
    return SW_NO_MOMENT;
  if (sw_dossier_injection (c->dossier, c->course) != NULL)
    return next_after_injection (c, zero);
  return earlier (first_untold (c), (SwMoment) { zero, 0 }); /* the practice's hours may change; the day stays */
}
