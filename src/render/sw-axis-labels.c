/* sw-axis-labels.c: the numbers and dates over the axis of a course line
 *
 * Days count from day 0 of the course they belong to. Day 0 is labelled first, then today, then the wide days from left
 * to right, then the days that have a visit, then the last day: what finds its place taken is left out.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-axis-labels-private.h"

#include <glib/gi18n-lib.h>

/* In heights of a line of text. */
#define NUMBER_ROW 0.75
#define DATE_ROW 1.75
#define DATE_DIGITS 6.5 /* "12 May" takes about as many digits */

typedef struct
{
  SwCourseLayout *layout;
  const SwCourseLine *line;
  const SwCourseStyle *style;
} Labels;

/* The course that a day counts from: the last one that begins on or before it, else the first. */
static const SwLineCourse *
course_of (const SwCourseLine *line, SwDay day)
{
  const SwLineCourse *course = NULL;

  for (guint i = 0; i < line->courses->len; i++)
    {
      const SwLineCourse *other = line->courses->pdata[i];

      if (other->treat_day != SW_NO_DAY && (course == NULL || day >= other->first_day))
        course = other;
    }
  return course;
}

static gboolean
is_free (const SwCourseLayout *layout, SwLabelKind kind, double x, double width, double gap)
{
  for (guint i = 0; i < layout->labels->len; i++)
    {
      const SwPlacedLabel *label = &g_array_index (layout->labels, SwPlacedLabel, i);

      if (label->kind == kind && ABS (label->x - x) < (label->width + width) / 2 + gap)
        return FALSE;
    }
  return TRUE;
}

static void
add_label (Labels *labels, SwLabelKind kind, double x, double row, double digits, gboolean strong, char *text)
{
  const SwCourseStyle *style = labels->style;
  double width = style->digit_width * digits;
  double at = MIN (x, labels->layout->width - width / 2); /* the last day's label keeps inside */
  SwPlacedLabel label = { kind, at, style->line_height * row, 0.5, width, strong, text };

  if (is_free (labels->layout, kind, at, width, style->digit_width / 2))
    g_array_append_val (labels->layout->labels, label);
  else
    g_free (text);
}

/* "12 May": the month's short name is the language's own. */
static char *
format_date (SwDay day)
{
  g_autoptr (GDateTime) date = NULL;
  int year, month, day_of_month;

  sw_day_to_ymd (day, &year, &month, &day_of_month);
  date = g_date_time_new_utc (year, month, day_of_month, 0, 0, 0);

  /* Translators: day and short month over the axis of the course line */
  return date != NULL ? g_date_time_format (date, _("%-d %b")) : g_strdup ("");
}

static void
label_day (Labels *labels, SwDay day)
{
  const SwLineCourse *course = course_of (labels->line, day);
  const SwAxis *axis = labels->layout->axis;
  gboolean zero = course != NULL && day == course->treat_day;
  double x;

  if (day < axis->first || day > axis->last) /* a day that is not known among them */
    return;
  x = sw_axis_x (axis, day, SW_MINUTES_PER_DAY / 2);
  if (course != NULL)
    {
      char *number = g_strdup_printf ("%" G_GINT64_FORMAT, day - course->treat_day);

      add_label (labels, SW_LABEL_DAY, x, NUMBER_ROW, g_utf8_strlen (number, -1) + 0.5, zero, number);
    }
  add_label (labels, SW_LABEL_DATE, x, DATE_ROW, DATE_DIGITS, day == labels->line->now.day, format_date (day));
}

static void
label_wide_days (Labels *labels)
{
  const SwAxis *axis = labels->layout->axis;

  for (guint i = 0; i < axis->spans->len; i++)
    {
      const SwAxisSpan *span = &g_array_index (axis->spans, SwAxisSpan, i);

      for (SwDay day = span->first; span->wide && day <= span->last; day++)
        label_day (labels, day);
    }
}

static void
label_visits (Labels *labels)
{
  for (guint i = 0; i < labels->line->lanes->len; i++)
    {
      const GPtrArray *marks = ((const SwLineLane *) labels->line->lanes->pdata[i])->marks;

      for (guint j = 0; j < marks->len; j++)
        {
          const SwLineMark *mark = marks->pdata[j];

          if (mark->state >= SW_MARK_VISIT_PLANNED)
            label_day (labels, mark->day);
        }
    }
}

void
sw_axis_labels_place (SwCourseLayout *layout, const SwCourseLine *line, const SwCourseStyle *style)
{
  Labels labels = { layout, line, style };

  for (guint i = 0; i < line->courses->len; i++)
    {
      const SwLineCourse *course = line->courses->pdata[i];

      if (course->treat_day != SW_NO_DAY)
        label_day (&labels, course->treat_day);
    }
  label_day (&labels, line->now.day);
  label_wide_days (&labels);
  label_visits (&labels);
  label_day (&labels, layout->axis->last);
  label_day (&labels, layout->axis->first);
}
