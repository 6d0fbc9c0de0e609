/* sw-course-layout.c: where everything of a course line lies
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course-layout.h"

#include "sw-axis-labels-private.h"
#include "sw-quantity.h"

#include <math.h>

/* In heights of a line of text. */
#define LANE 1.30
#define BAND 1.90
#define NARROW_BAND 1.15 /* of several curves */
#define AXIS 2.40
#define GUTTER 8.8
#define MARGIN 0.5
#define RIGHT 1.2
#define RADIUS 0.46
#define LEAST_DAY 1.4
#define SLACK 0.4
#define BELOW 0.6
#define VALUE_DIGITS 6
#define MOST_WIDE_BANDS 2
#define APART 2.0 /* radii */

static void
label_clear (SwPlacedLabel *label)
{
  g_free (label->text);
}

static void
curve_clear (SwPlacedCurve *curve)
{
  g_array_unref (curve->points);
}

/* Each curve has a band of its own: labels of two tumours never meet. More than two are narrower, so that pages keep
 * their room. */
static guint
count_bands (const SwCourseLine *line)
{
  return line->sizes->len + line->wounds->len;
}

static double
band_height (const SwCourseLine *line)
{
  return count_bands (line) > MOST_WIDE_BANDS ? NARROW_BAND : BAND;
}

double
sw_course_layout_height (const SwCourseLine *line, const SwCourseStyle *style)
{
  return ceil (style->line_height * (AXIS + LANE * line->lanes->len + band_height (line) * count_bands (line)
                                     + MARGIN));
}

double
sw_course_layout_least_width (const SwCourseStyle *style)
{
  return ceil (style->line_height * (GUTTER + 10 * LEAST_DAY + RIGHT));
}

static const SwLineCourse *
last_course (const SwCourseLine *line)
{
  return line->courses->len > 0 ? line->courses->pdata[line->courses->len - 1] : NULL;
}

static void
stretch (SwDay *first, SwDay *last, SwDay day)
{
  *first = MIN (*first, day);
  *last = MAX (*last, day);
}

static void
stretch_over_curves (const GPtrArray *curves, SwDay *first, SwDay *last)
{
  for (guint i = 0; i < curves->len; i++)
    {
      const GPtrArray *points = ((const SwLineCurve *) curves->pdata[i])->points;

      for (guint j = 0; j < points->len; j++)
        stretch (first, last, ((const SwLinePoint *) points->pdata[j])->day);
    }
}

/* Every day that something lies on. A line with nothing on it shows today. */
static void
find_range (const SwCourseLine *line, SwDay *first, SwDay *last)
{
  *first = G_MAXINT64;
  *last = G_MININT64;
  for (guint i = 0; i < line->courses->len; i++)
    {
      const SwLineCourse *course = line->courses->pdata[i];

      if (course->treat_day == SW_NO_DAY)
        continue;
      stretch (first, last, course->first_day);
      stretch (first, last, course->last_day);
    }
  for (guint i = 0; i < line->lanes->len; i++)
    {
      const GPtrArray *marks = ((const SwLineLane *) line->lanes->pdata[i])->marks;

      for (guint j = 0; j < marks->len; j++)
        stretch (first, last, ((const SwLineMark *) marks->pdata[j])->day);
    }
  stretch_over_curves (line->sizes, first, last);
  stretch_over_curves (line->wounds, first, last);
  if (line->last_day != SW_NO_DAY)
    stretch (first, last, line->last_day);
  if (*first > *last)
    *first = *last = line->now.day;
}

static SwAxis *
make_axis (const SwCourseLine *line, SwCourseZoom zoom, double left, double right)
{
  const SwLineCourse *newest = last_course (line);
  SwDay first, last;
  SwAxis *axis;

  find_range (line, &first, &last);
  if (zoom == SW_COURSE_TEN_DAYS && newest != NULL && newest->treat_day != SW_NO_DAY)
    {
      first = newest->first_day;
      last = newest->last_day;
    }
  axis = sw_axis_new (first, last, left, right);
  for (guint i = 0; i < line->courses->len; i++)
    {
      const SwLineCourse *course = line->courses->pdata[i];

      if (course->treat_day != SW_NO_DAY)
        sw_axis_widen (axis, course->first_day, course->last_day);
    }

  return axis;
}

static void
add_lane (SwCourseLayout *layout, const char *title, double height, const SwCourseStyle *style)
{
  SwPlacedLane lane = { layout->height, height };
  SwPlacedLabel label = { SW_LABEL_LANE, style->line_height * MARGIN, lane.top + height / 2, 0,
                          layout->gutter - 2 * MARGIN * style->line_height, FALSE, g_strdup (title) };

  g_array_append_val (layout->lanes, lane);
  g_array_append_val (layout->labels, label);
  layout->height += height;
}

static gboolean
is_shown (const SwCourseLayout *layout, SwDay day)
{
  return day >= layout->axis->first && day <= layout->axis->last;
}

/* On a wide day two marks of a lane stand apart, though a replacement follows its dose by two hours only: the later one
 * moves to the right inside its day. Compressed days have no room for that. */
static double
apart_from_last (const SwCourseLayout *layout, const SwPlacedMark *at)
{
  const SwPlacedMark *last;
  double end = sw_axis_x (layout->axis, at->mark->day, SW_MINUTES_PER_DAY - 1) - at->radius;

  if (layout->marks->len == 0 || !sw_axis_is_wide (layout->axis, at->mark->day))
    return at->x;
  last = &g_array_index (layout->marks, SwPlacedMark, layout->marks->len - 1);
  if (last->lane != at->lane || at->x - last->x >= APART * at->radius)
    return at->x;

  return MAX (at->x, MIN (last->x + APART * at->radius, end));
}

static void
place_marks (SwCourseLayout *layout, const SwLineLane *lane, const SwCourseStyle *style)
{
  guint number = layout->lanes->len;

  add_lane (layout, lane->title, LANE * style->line_height, style);
  for (guint i = 0; i < lane->marks->len; i++)
    {
      const SwLineMark *mark = lane->marks->pdata[i];
      const SwPlacedLane *placed = &g_array_index (layout->lanes, SwPlacedLane, number);
      SwPlacedMark at = { sw_axis_x (layout->axis, mark->day, mark->minute), placed->top + placed->height / 2,
                          style->line_height * RADIUS, number, mark };

      at.x = apart_from_last (layout, &at);
      if (is_shown (layout, mark->day))
        g_array_append_val (layout->marks, at);
    }
}

static gint64
largest (const SwLineCurve *curve)
{
  gint64 most = 1;

  for (guint i = 0; i < curve->points->len; i++)
    most = MAX (most, ((const SwLinePoint *) curve->points->pdata[i])->value);
  return most;
}

static char *
format_value (gint64 value, gboolean wound)
{
  return wound || value == 0 ? g_strdup_printf ("%" G_GINT64_FORMAT, value) : sw_length_format (value);
}

static double
left_of (const SwPlacedLabel *label)
{
  return label->x - label->align * label->width;
}

/* Whether a value stands in the picture and clear of the others of its band. */
static gboolean
has_room (const SwCourseLayout *layout, const SwPlacedLabel *label, const SwCourseStyle *style)
{
  double left = left_of (label);

  if (left < layout->gutter || left + label->width > layout->width)
    return FALSE;
  for (guint i = 0; i < layout->labels->len; i++)
    {
      const SwPlacedLabel *other = &g_array_index (layout->labels, SwPlacedLabel, i);

      if (other->kind == SW_LABEL_VALUE && ABS (other->y - label->y) < style->line_height
          && left < left_of (other) + other->width && left_of (other) < left + label->width)
        return FALSE;
    }
  return TRUE;
}

/* A value stands right of its point or left of it, and inside its band. */
static gboolean
try_label (SwCourseLayout *layout, const SwPlacedCurve *curve, guint i, gboolean right, const SwCourseStyle *style)
{
  const SwPlacedLane *band = &g_array_index (layout->lanes, SwPlacedLane, layout->lanes->len - 1);
  const SwPlacedPoint *at = &g_array_index (curve->points, SwPlacedPoint, i);
  double gap = style->line_height * RADIUS, half = style->line_height / 2;
  double y = right && i + 1 < curve->points->len ? at->y + style->line_height * BELOW : at->y; /* beside the curve */
  SwPlacedLabel label = { SW_LABEL_VALUE, right ? at->x + gap : at->x - gap,
                          CLAMP (y, band->top + half, band->top + band->height - half), right ? 0 : 1,
                          style->digit_width * VALUE_DIGITS, FALSE, NULL };

  if (!has_room (layout, &label, style))
    return FALSE;
  label.text = format_value (at->point->value, curve->wound);
  g_array_append_val (layout->labels, label);
  return TRUE;
}

/* The last value right of the curve's end, the first left of its beginning, each on the other side where there is no
 * room, and left out where there is none at all: the text of the line tells it. */
static void
label_curve (SwCourseLayout *layout, const SwPlacedCurve *curve, const SwCourseStyle *style)
{
  guint last = curve->points->len - 1;

  if (!try_label (layout, curve, last, TRUE, style))
    try_label (layout, curve, last, FALSE, style);
  if (last > 0 && !try_label (layout, curve, 0, FALSE, style))
    try_label (layout, curve, 0, TRUE, style);
}

static void
place_curve (SwCourseLayout *layout, const SwLineCurve *curve, gboolean wound, const SwCourseStyle *style)
{
  const SwPlacedLane *band = &g_array_index (layout->lanes, SwPlacedLane, layout->lanes->len - 1);
  double margin = style->line_height * RADIUS;
  double reach = band->height - 2 * margin;
  gint64 most = largest (curve);
  SwPlacedCurve placed = { curve, wound, g_array_new (FALSE, FALSE, sizeof (SwPlacedPoint)) };

  for (guint i = 0; i < curve->points->len; i++)
    {
      const SwLinePoint *point = curve->points->pdata[i];
      SwPlacedPoint at = { sw_axis_x (layout->axis, point->day, point->minute),
                           band->top + margin + reach * (1 - (double) point->value / most), point };

      if (is_shown (layout, point->day))
        g_array_append_val (placed.points, at);
    }
  g_array_append_val (layout->curves, placed);
  if (placed.points->len > 0)
    label_curve (layout, &placed, style);
}

static void
place_bands (SwCourseLayout *layout, const GPtrArray *curves, gboolean wound, double height,
             const SwCourseStyle *style)
{
  for (guint i = 0; i < curves->len; i++)
    {
      const SwLineCurve *curve = curves->pdata[i];

      add_lane (layout, curve->title, height, style);
      place_curve (layout, curve, wound, style);
    }
}

SwCourseLayout *
sw_course_layout_new (const SwCourseLine *line, SwCourseZoom zoom, double width, const SwCourseStyle *style)
{
  SwCourseLayout *layout = g_new0 (SwCourseLayout, 1);

  layout->width = width;
  layout->gutter = MIN (style->line_height * GUTTER, width / 2);
  layout->top = layout->height = style->line_height * AXIS;
  layout->axis = make_axis (line, zoom, layout->gutter, MAX (layout->gutter, width - style->line_height * RIGHT));
  layout->lanes = g_array_new (FALSE, FALSE, sizeof (SwPlacedLane));
  layout->marks = g_array_new (FALSE, FALSE, sizeof (SwPlacedMark));
  layout->curves = g_array_new (FALSE, FALSE, sizeof (SwPlacedCurve));
  layout->labels = g_array_new (FALSE, FALSE, sizeof (SwPlacedLabel));
  g_array_set_clear_func (layout->curves, (GDestroyNotify) curve_clear);
  g_array_set_clear_func (layout->labels, (GDestroyNotify) label_clear);

  sw_axis_labels_place (layout, line, style);
  for (guint i = 0; i < line->lanes->len; i++)
    place_marks (layout, line->lanes->pdata[i], style);
  place_bands (layout, line->sizes, FALSE, band_height (line) * style->line_height, style);
  place_bands (layout, line->wounds, TRUE, band_height (line) * style->line_height, style);
  layout->height = sw_course_layout_height (line, style);
  layout->now_x = is_shown (layout, line->now.day) ? sw_axis_x (layout->axis, line->now.day, line->now.minute) : -1;

  return layout;
}

void
sw_course_layout_free (SwCourseLayout *layout)
{
  if (layout == NULL)
    return;
  sw_axis_free (layout->axis);
  g_array_unref (layout->lanes);
  g_array_unref (layout->marks);
  g_array_unref (layout->curves);
  g_array_unref (layout->labels);
  g_free (layout);
}

const SwPlacedMark *
sw_course_layout_hit (const SwCourseLayout *layout, double x, double y)
{
  const SwPlacedMark *nearest = NULL;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < layout->marks->len; i++)
    {
      const SwPlacedMark *mark = &g_array_index (layout->marks, SwPlacedMark, i);
      double away = hypot (mark->x - x, mark->y - y);

      if (away <= mark->radius * (1 + SLACK) && away < least)
        {
          least = away;
          nearest = mark;
        }
    }
  return nearest;
}
