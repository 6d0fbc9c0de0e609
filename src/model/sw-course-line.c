/* sw-course-line.c: the picture of a dog's courses as values
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course-line.h"

#include <glib/gi18n-lib.h>

#define DAYS_BEFORE 2 /* a course is drawn wide from here ... */
#define DAYS_AFTER 7  /* ... to here at least */

static const char *const state_names[SW_N_MARK_STATES] = {
  [SW_MARK_PLANNED] = N_("planned"),
  [SW_MARK_DUE] = N_("due"),
  [SW_MARK_GIVEN] = N_("given"),
  [SW_MARK_LATE] = N_("late"),
  [SW_MARK_NOT_KNOWN] = N_("not known"),
  [SW_MARK_MISSED] = N_("missed"),
  [SW_MARK_VOMITED] = N_("vomited"),
  [SW_MARK_STOPPED] = N_("stopped"),
  [SW_MARK_VISIT_PLANNED] = N_("visit planned"),
  [SW_MARK_VISIT_DUE] = N_("visit due"),
  [SW_MARK_VISIT_DONE] = N_("visit done"),
  [SW_MARK_VISIT_OVERDUE] = N_("visit overdue"),
  [SW_MARK_INJECTION_PLANNED] = N_("injection planned"),
  [SW_MARK_INJECTED] = N_("injected"),
  [SW_MARK_SCORED] = N_("scored"),
  [SW_MARK_RECURRENCE] = N_("recurrence"),
  [SW_MARK_ENDED] = N_("course ended"),
};

static void
mark_free (SwLineMark *mark)
{
  g_free (mark->sentence);
  g_free (mark);
}

static void
lane_free (SwLineLane *lane)
{
  g_free (lane->title);
  g_ptr_array_unref (lane->marks);
  g_free (lane);
}

static void
point_free (SwLinePoint *point)
{
  g_free (point->sentence);
  g_free (point);
}

static void
curve_free (SwLineCurve *curve)
{
  g_free (curve->title);
  g_ptr_array_unref (curve->points);
  g_free (curve);
}

SwCourseLine *
sw_course_line_new (void)
{
  SwCourseLine *line = g_new0 (SwCourseLine, 1);

  line->courses = g_ptr_array_new_with_free_func (g_free);
  line->last_day = SW_NO_DAY;
  line->now = SW_NO_MOMENT;
  line->lanes = g_ptr_array_new_with_free_func ((GDestroyNotify) lane_free);
  line->sizes = g_ptr_array_new_with_free_func ((GDestroyNotify) curve_free);
  line->wounds = g_ptr_array_new_with_free_func ((GDestroyNotify) curve_free);

  return line;
}

void
sw_course_line_free (SwCourseLine *line)
{
  if (line == NULL)
    return;
  g_ptr_array_unref (line->courses);
  g_ptr_array_unref (line->lanes);
  g_ptr_array_unref (line->sizes);
  g_ptr_array_unref (line->wounds);
  g_free (line);
}

SwLineCourse *
sw_course_line_add_course (SwCourseLine *line, gint64 course, SwDay treat_day)
{
  SwLineCourse *added = g_new0 (SwLineCourse, 1);

  added->course = course;
  added->treat_day = treat_day;
  added->first_day = treat_day == SW_NO_DAY ? SW_NO_DAY : treat_day - DAYS_BEFORE;
  added->last_day = treat_day == SW_NO_DAY ? SW_NO_DAY : treat_day + DAYS_AFTER;
  g_ptr_array_add (line->courses, added);

  return added;
}

SwLineLane *
sw_course_line_add_lane (SwCourseLine *line, const char *title)
{
  SwLineLane *lane = g_new0 (SwLineLane, 1);

  lane->title = g_strdup (title);
  lane->marks = g_ptr_array_new_with_free_func ((GDestroyNotify) mark_free);
  g_ptr_array_add (line->lanes, lane);

  return lane;
}

SwLineMark *
sw_line_lane_add (SwLineLane *lane, SwMarkState state, SwDay day, int minute, const char *sentence)
{
  SwLineMark *mark = g_new0 (SwLineMark, 1);

  mark->state = state;
  mark->day = day;
  mark->minute = minute;
  mark->sentence = g_strdup (sentence);
  g_ptr_array_add (lane->marks, mark);

  return mark;
}

static SwLineCurve *
add_curve (GPtrArray *curves, gint64 tumour, const char *title)
{
  SwLineCurve *curve = g_new0 (SwLineCurve, 1);

  curve->title = g_strdup (title);
  curve->tumour = tumour;
  curve->points = g_ptr_array_new_with_free_func ((GDestroyNotify) point_free);
  g_ptr_array_add (curves, curve);

  return curve;
}

SwLineCurve *
sw_course_line_add_size (SwCourseLine *line, gint64 tumour, const char *title)
{
  return add_curve (line->sizes, tumour, title);
}

SwLineCurve *
sw_course_line_add_wound (SwCourseLine *line, gint64 tumour, const char *title)
{
  return add_curve (line->wounds, tumour, title);
}

SwLinePoint *
sw_line_curve_add (SwLineCurve *curve, SwDay day, int minute, gint64 value, const char *sentence)
{
  SwLinePoint *point = g_new0 (SwLinePoint, 1);

  point->day = day;
  point->minute = minute;
  point->value = value;
  point->sentence = g_strdup (sentence);
  g_ptr_array_add (curve->points, point);

  return point;
}

const char *
sw_mark_state_name (SwMarkState state)
{
  g_return_val_if_fail (state < SW_N_MARK_STATES, NULL);
  return _(state_names[state]);
}

static void
append_lane (GString *text, const SwLineLane *lane)
{
  if (lane->marks->len == 0)
    return;
  g_string_append_printf (text, "%s:\n", lane->title);
  for (guint i = 0; i < lane->marks->len; i++)
    g_string_append_printf (text, "  %s\n", ((const SwLineMark *) lane->marks->pdata[i])->sentence);
}

static void
append_curves (GString *text, const GPtrArray *curves)
{
  for (guint i = 0; i < curves->len; i++)
    {
      const SwLineCurve *curve = curves->pdata[i];

      g_string_append_printf (text, "%s:\n", curve->title);
      for (guint j = 0; j < curve->points->len; j++)
        g_string_append_printf (text, "  %s\n", ((const SwLinePoint *) curve->points->pdata[j])->sentence);
    }
}

char *
sw_course_line_text (const SwCourseLine *line)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < line->lanes->len; i++)
    append_lane (text, line->lanes->pdata[i]);
  append_curves (text, line->sizes);
  append_curves (text, line->wounds);

  return g_string_free (text, FALSE);
}
