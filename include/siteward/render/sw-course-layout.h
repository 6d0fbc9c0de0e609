/* sw-course-layout.h: where everything of a course line lies, in numbers
 *
 *   gutter  | day numbers and dates        (wide days, then compressed ones: one axis)
 *   --------+------------------------------------------------
 *   lane    | marks
 *   ...     |
 *   size    | a band for each curve, its largest value at the top
 *   wound   | the same, if there is any
 *
 * A layout borrows the line it was made of: keep the line as long as the layout. Pure: no font is asked, no clock, no
 * display.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-axis.h"
#include "sw-course-line.h"
#include "sw-course-style.h"

G_BEGIN_DECLS

/* What of the line is shown. */
typedef enum
{
  SW_COURSE_WHOLE,    /* from the first day to the last planned visit */
  SW_COURSE_TEN_DAYS, /* the days of the newest course's medicines only */
} SwCourseZoom;

typedef enum
{
  SW_LABEL_DAY,   /* "-2", "0", "28" */
  SW_LABEL_DATE,  /* "12 May" */
  SW_LABEL_LANE,  /* in the gutter */
  SW_LABEL_VALUE, /* beside a point of a curve */
} SwLabelKind;

typedef struct
{
  SwLabelKind kind;
  double x; /* where `align` of its width lies */
  double y; /* its middle */
  double align;
  double width; /* the most it may take */
  gboolean strong;
  char *text;
} SwPlacedLabel;

typedef struct
{
  double top;
  double height;
} SwPlacedLane;

typedef struct
{
  double x;
  double y;
  double radius;
  guint lane;
  const SwLineMark *mark;
} SwPlacedMark;

typedef struct
{
  double x;
  double y;
  const SwLinePoint *point;
} SwPlacedPoint;

typedef struct
{
  const SwLineCurve *curve;
  gboolean wound;
  GArray *points; /* SwPlacedPoint */
} SwPlacedCurve;

typedef struct
{
  double width;
  double height;
  double gutter; /* x where the axis begins */
  double top;    /* y where the lanes begin */
  SwAxis *axis;
  GArray *lanes;  /* SwPlacedLane: those of the line, then the bands of size and wound */
  GArray *marks;  /* SwPlacedMark, in lane order, then by time */
  GArray *curves; /* SwPlacedCurve */
  GArray *labels; /* SwPlacedLabel; no two overlap */
  double now_x;   /* today's line; below 0 where now lies outside */
} SwCourseLayout;

SwCourseLayout *sw_course_layout_new (const SwCourseLine *line, SwCourseZoom zoom, double width,
                                      const SwCourseStyle *style);
void sw_course_layout_free (SwCourseLayout *layout);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCourseLayout, sw_course_layout_free)

/* The height that a line takes, whatever its width. */
double sw_course_layout_height (const SwCourseLine *line, const SwCourseStyle *style);

/* The least width at which ten days can be told apart. */
double sw_course_layout_least_width (const SwCourseStyle *style);

/* The mark nearest to a point and no farther than its radius and a finger's slack; NULL: none. */
const SwPlacedMark *sw_course_layout_hit (const SwCourseLayout *layout, double x, double y);

G_END_DECLS
