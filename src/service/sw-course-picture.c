/* sw-course-picture.c: the course line of a dog, made of its dossier
 *
 * Lanes: one for each medicine that is or was planned, in the protocol's order, then what happens on visits: the
 * injection, visits, scores, recurrence, the end.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course-picture.h"

#include "sw-course.h"
#include "sw-dose-state.h"
#include "sw-quantity.h"
#include "sw-tablet.h"
#include "sw-volume.h"
#include "sw-wound.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>

#define NOON (12 * 60)

/* --- doses --- */

static SwMarkState
mark_of_standing (SwStanding standing)
{
  switch (standing)
    {
    case SW_STANDING_DUE:
      return SW_MARK_DUE;
    case SW_STANDING_NOT_KNOWN:
      return SW_MARK_NOT_KNOWN;
    case SW_STANDING_GIVEN:
      return SW_MARK_GIVEN;
    case SW_STANDING_LATE:
      return SW_MARK_LATE;
    case SW_STANDING_MISSED:
      return SW_MARK_MISSED;
    case SW_STANDING_VOMITED:
      return SW_MARK_VOMITED;
    case SW_STANDING_STOPPED:
      return SW_MARK_STOPPED;
    case SW_STANDING_PLANNED:
    case SW_N_STANDINGS:
      break;
    }
  return SW_MARK_PLANNED;
}

static SwLineLane *
lane_of_substance (SwCourseLine *line, const char *substance)
{
  for (guint i = 0; i < line->lanes->len; i++)
    {
      SwLineLane *lane = line->lanes->pdata[i];

      if (g_str_equal (lane->title, substance))
        return lane;
    }
  return sw_course_line_add_lane (line, substance);
}

static char *
dose_sentence (const SwDosePlan *dose, SwMarkState state)
{
  g_autofree char *rounded = NULL, *mg = NULL;
  g_autofree char *day = sw_day_format (dose->due_day), *time = sw_time_format ((int) dose->due_minute);
  SwRatio amount = sw_ratio (dose->dose_ug, SW_UG_PER_MG);

  sw_ratio_format_beside (amount, amount, 0, &rounded, &mg); /* all of its own digits */
  return g_strdup_printf (_("%s %s mg, %s %s: %s"), dose->substance, mg, day, time, sw_mark_state_name (state));
}

static void
add_dose (SwCourseLine *line, const SwCase *c, const SwDosePlan *dose)
{
  SwMarkState state = mark_of_standing (sw_dose_state (c, dose));
  g_autofree char *sentence = dose_sentence (dose, state);
  SwLineMark *mark = sw_line_lane_add (lane_of_substance (line, dose->substance), state, dose->due_day,
                                       (int) dose->due_minute, sentence);

  mark->kind = SW_FACT_DOSE;
  mark->id = dose->dose;
  mark->course = dose->course;
}

static void
add_doses (SwCourseLine *line, SwLineCourse *course, const SwCase *c)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  const SwProtocol *protocol = sw_case_protocol (c);

  for (guint i = 0; protocol != NULL && i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = protocol->groups->pdata[i];

      for (guint k = 0; k < doses->len; k++)
        {
          const SwDosePlan *dose = doses->pdata[k];

          if (!g_str_equal (dose->group, group->id))
            continue;
          add_dose (line, c, dose);
          course->first_day = MIN (course->first_day, dose->due_day);
          course->last_day = MAX (course->last_day, dose->due_day);
        }
    }
}

/* --- visits and what happened on them --- */

static SwLineMark *
add_event (SwLineLane *lane, const SwCase *c, SwMarkState state, const SwFact *fact, SwMoment when, const char *words)
{
  g_autofree char *day = sw_day_format (when.day);
  g_autofree char *sentence = words ? g_strdup_printf (_("%s: %s, %s"), day, sw_mark_state_name (state), words)
                                    : g_strdup_printf (_("%s: %s"), day, sw_mark_state_name (state));
  SwLineMark *mark = sw_line_lane_add (lane, state, when.day, when.minute, sentence);

  mark->kind = fact->kind;
  mark->id = fact->id;
  mark->course = c->course;
  return mark;
}

static void
add_injection (SwLineLane *lane, const SwCase *c)
{
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  const SwPlan *plan = sw_dossier_plan (c->dossier, c->course);
  const char *words;

  if (injection == NULL)
    {
      if (plan != NULL)
        add_event (lane, c, SW_MARK_INJECTION_PLANNED, &plan->fact, (SwMoment){ plan->treat_day, NOON }, NULL);
      return;
    }
  words = injection->past_limit ? _("past the limit") : injection->outside ? _("outside the gate") : NULL;
  add_event (lane, c, SW_MARK_INJECTED, &injection->fact, (SwMoment){ injection->day, (int) injection->minute }, words)
      ->outside
      = injection->outside || injection->past_limit;
}

static gboolean
mark_of_visit (SwVisitStanding standing, SwMarkState *state)
{
  switch (standing)
    {
    case SW_VISIT_COMING:
      *state = SW_MARK_VISIT_PLANNED;
      return TRUE;
    case SW_VISIT_DUE:
      *state = SW_MARK_VISIT_DUE;
      return TRUE;
    case SW_VISIT_OVERDUE:
      *state = SW_MARK_VISIT_OVERDUE;
      return TRUE;
    case SW_VISIT_DONE:   /* drawn as the visit that was held */
    case SW_VISIT_PASSED: /* not held; the later one tells */
      break;
    }
  return FALSE;
}

static void
add_planned_visits (SwCourseLine *line, SwLineLane *lane, const SwCase *c)
{
  g_autoptr (GArray) slots = sw_course_visits (c);
  const SwCourse *course = sw_dossier_course (c->dossier, c->course);

  for (guint i = 0; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);
      g_autofree char *words = g_strdup_printf (_("day %" PRId64), slot->number);
      SwMoment when = { slot->day, slot->minute > 0 ? slot->minute : NOON };
      SwMarkState state;

      line->last_day = MAX (line->last_day, slot->day);
      if (mark_of_visit (slot->standing, &state))
        add_event (lane, c, state, &course->fact, when, words);
    }
}

/* The time tells two visits of one day apart. */
static void
add_held_visits (SwLineLane *lane, const SwCase *c)
{
  const SwVisit *visit;

  for (guint i = 0; (visit = sw_facts_next (&c->dossier->facts, SW_FACT_VISIT, &i)) != NULL;)
    if (visit->course == c->course)
      {
        SwMoment when = { visit->day, (int) visit->minute };
        g_autofree char *time = sw_time_format (when.minute);
        g_autofree char *words = g_strdup_printf ("%s, %s", sw_visit_mode_name ((SwVisitMode) visit->mode), time);

        add_event (lane, c, SW_MARK_VISIT_DONE, &visit->fact, when, words);
      }
}

static void
add_outcomes (SwLineLane *lane, const SwCase *c)
{
  const SwFacts *facts = &c->dossier->facts;
  const SwOverall *overall;
  const SwRecurrence *recurrence;
  const SwCourseEnd *end = sw_facts_of_course (facts, SW_FACT_COURSE_END, c->course);

  for (guint i = 0; (overall = sw_facts_next (facts, SW_FACT_OVERALL, &i)) != NULL;)
    if (overall->course == c->course)
      add_event (lane, c, SW_MARK_SCORED, &overall->fact, (SwMoment){ overall->day, NOON },
                 sw_category_name ((SwCategory) overall->category));
  for (guint i = 0; (recurrence = sw_facts_next (facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    if (recurrence->course == c->course)
      add_event (lane, c, SW_MARK_RECURRENCE, &recurrence->fact, (SwMoment){ recurrence->day, NOON },
                 recurrence->sampled ? _("confirmed") : _("presumed"));
  if (end != NULL)
    add_event (lane, c, SW_MARK_ENDED, &end->fact, (SwMoment){ end->day, NOON }, sw_end_name ((SwEnd) end->end));
}

static int
by_time (gconstpointer a, gconstpointer b)
{
  const SwLineMark *first = *(const SwLineMark *const *) a, *second = *(const SwLineMark *const *) b;

  return sw_moment_compare ((SwMoment){ first->day, first->minute }, (SwMoment){ second->day, second->minute });
}

/* --- sizes and wounds --- */

static void
add_size (SwLineCurve *curve, const SwCase *c, SwDay day)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (c->dossier, curve->tumour, day);
  g_autofree SwAxes *axes = g_new0 (SwAxes, readings->len);
  g_autofree char *date = sw_day_format (day), *mm = NULL, *sentence = NULL;
  SwMeasured measured;
  gint64 longest;

  for (guint i = 0; i < readings->len; i++)
    {
      const SwReading *reading = readings->pdata[i];

      axes[i] = (SwAxes){ { reading->axis1, reading->axis2, reading->axis3 } };
    }
  if (!sw_volume_measure (axes, readings->len, &measured) || !sw_ratio_round (sw_volume_longest (&measured), &longest))
    return;
  mm = sw_length_format (longest);
  sentence = g_strdup_printf (_("%s: %s mm"), date, mm);
  sw_line_curve_add (curve, day, NOON, longest, sentence);
}

static void
add_look (SwLineCurve *curve, const SwLook *look)
{
  g_autofree char *date = sw_day_format (look->day);
  g_autofree char *sentence = g_strdup_printf (_("%s: %s"), date, sw_look_state_name ((SwLookState) look->state));

  if (look->state == SW_LOOK_GONE)
    sw_line_curve_add (curve, look->day, NOON, 0, sentence);
}

static int
by_day (gconstpointer a, gconstpointer b)
{
  const SwLinePoint *first = *(const SwLinePoint *const *) a, *second = *(const SwLinePoint *const *) b;

  return (first->day > second->day) - (first->day < second->day);
}

static void
add_sizes (SwCourseLine *line, const SwCase *c, const SwTumourDetails *tumour, const char *letter)
{
  g_autofree char *title = g_strdup_printf (_("%s, longest, mm"), letter);
  SwLineCurve *curve = sw_course_line_add_size (line, tumour->tumour, title);
  const SwReading *reading;
  const SwLook *look;
  SwDay last = SW_NO_DAY;

  for (guint i = 0; (reading = sw_facts_next (&c->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == tumour->tumour && reading->day != last)
      {
        last = reading->day;
        add_size (curve, c, last);
      }
  for (guint i = 0; (look = sw_facts_next (&c->dossier->facts, SW_FACT_LOOK, &i)) != NULL;)
    if (look->tumour == tumour->tumour)
      add_look (curve, look);
  g_ptr_array_sort (curve->points, by_day);
}

/* A tumour that is neither treated nor measured has nothing to show. */
static gboolean
has_size (const SwCase *c, gint64 tumour)
{
  const SwReading *reading;
  const SwCourseTumour *treated;

  for (guint i = 0; (treated = sw_facts_next (&c->dossier->facts, SW_FACT_COURSE_TUMOUR, &i)) != NULL;)
    if (treated->tumour == tumour)
      return TRUE;
  for (guint i = 0; (reading = sw_facts_next (&c->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == tumour)
      return TRUE;
  return FALSE;
}

static void
add_wound (SwLineCurve *curve, const SwWound *wound)
{
  g_autofree char *date = sw_day_format (wound->day), *sentence = NULL;
  SwRatio area = sw_ratio (0, 1);
  gint64 mm2;

  if (wound->state == SW_WOUND_OPEN
      && (wound->length == SW_UNKNOWN || wound->width == SW_UNKNOWN
          || !sw_wound_area (wound->length, wound->width, &area)))
    return;
  if (!sw_ratio_round (area, &mm2))
    return;
  sentence = wound->state == SW_WOUND_OPEN
                 ? g_strdup_printf (_("%s: wound %" PRId64 " mm²"), date, mm2)
                 : g_strdup_printf (_("%s: %s"), date, sw_wound_state_name ((SwWoundState) wound->state));
  sw_line_curve_add (curve, wound->day, NOON, mm2, sentence);
}

static void
add_wounds (SwCourseLine *line, const SwCase *c, const SwTumourDetails *tumour, const char *letter)
{
  g_autofree char *title = g_strdup_printf (_("%s, wound, mm²"), letter);
  SwLineCurve *curve = NULL;
  const SwWound *wound;

  for (guint i = 0; (wound = sw_facts_next (&c->dossier->facts, SW_FACT_WOUND, &i)) != NULL;)
    {
      if (wound->tumour != tumour->tumour)
        continue;
      if (curve == NULL)
        curve = sw_course_line_add_wound (line, tumour->tumour, title);
      add_wound (curve, wound);
    }
  if (curve != NULL)
    g_ptr_array_sort (curve->points, by_day);
}

/* --- the whole --- */

static void
add_course (SwCourseLine *line, SwLineLane *events, const SwCase *c)
{
  SwDay zero = sw_course_day_zero (c->dossier, c->course);
  SwLineCourse *course = sw_course_line_add_course (line, c->course, zero);

  course->treated = sw_dossier_injection (c->dossier, c->course) != NULL;
  if (zero != SW_NO_DAY)
    line->last_day = MAX (line->last_day, course->last_day);
  add_doses (line, course, c);
  add_injection (events, c);
  add_planned_visits (line, events, c);
  add_held_visits (events, c);
  add_outcomes (events, c);
}

static void
add_curves (SwCourseLine *line, const SwCase *c)
{
  const SwTumourDetails *tumour;

  for (guint i = 0; (tumour = sw_facts_next (&c->dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    {
      g_autofree char *letter = sw_tumour_letter (tumour->letter);

      if (has_size (c, tumour->tumour))
        add_sizes (line, c, tumour, letter);
      add_wounds (line, c, tumour, letter);
    }
}

/* Scores, recurrences and ends come on days of visits: a lane of their own keeps them apart. */
static void
part_outcomes (SwCourseLine *line, SwLineLane *events)
{
  SwLineLane *outcomes = NULL;

  for (guint i = 0; i < events->marks->len;)
    {
      if (((const SwLineMark *) events->marks->pdata[i])->state < SW_MARK_SCORED)
        {
          i++;
          continue;
        }
      if (outcomes == NULL)
        outcomes = sw_course_line_add_lane (line, _("response"));
      g_ptr_array_add (outcomes->marks, g_ptr_array_steal_index (events->marks, i));
    }
}

SwCourseLine *
sw_course_picture (const SwCase *c)
{
  SwCourseLine *line = sw_course_line_new ();
  SwLineLane *events = sw_course_line_add_lane (line, _("visits"));
  const SwCourse *course;
  SwCase each = *c;

  line->now = c->now;
  for (guint i = 0; (course = sw_facts_next (&c->dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    {
      each.course = course->fact.id;
      add_course (line, events, &each);
    }
  g_ptr_array_sort (events->marks, by_time);
  g_ptr_array_add (line->lanes, g_ptr_array_steal_index (line->lanes, 0)); /* below the medicines */
  part_outcomes (line, events);
  add_curves (line, c);
  return line;
}
