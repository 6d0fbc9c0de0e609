/* test-course.c: the course line, by numbers and on an image
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course-draw.h"
#include "sw-course-layout.h"
#include "sw-mark-shape.h"

#include <cairo.h>
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DAY_ZERO 20588 /* 2026-05-15 */
#define WIDTH 930.0    /* beside the patient list at 1280 px */
#define MORNING (8 * 60)
#define EVENING (20 * 60)

static SwCourseStyle *
make_style (void)
{
  SwCourseStyle *style = sw_course_style_new_paper ("DejaVu Sans 9");

  style->line_height = 14;
  style->digit_width = 7;
  return style;
}

static void
add_doses (SwCourseLine *line, const char *title, int first, int last)
{
  SwLineLane *lane = sw_course_line_add_lane (line, title);

  for (int day = first; day <= last; day++)
    {
      sw_line_lane_add (lane, SW_MARK_GIVEN, DAY_ZERO + day, MORNING, "morning dose");
      sw_line_lane_add (lane, SW_MARK_PLANNED, DAY_ZERO + day, EVENING, "evening dose");
    }
}

static SwCourseLine *
make_line (int last_visit)
{
  static const int visits[] = { 1, 4, 7, 14, 28, 56, 84, 175, 365 };
  SwCourseLine *line = sw_course_line_new ();
  SwLineLane *lane;

  sw_course_line_add_course (line, 1, DAY_ZERO);
  add_doses (line, "prednisolone", -2, 7);
  add_doses (line, "diphenhydramine", 0, 7);
  add_doses (line, "famotidine", 0, 7);
  lane = sw_course_line_add_lane (line, "visits");
  sw_line_lane_add (lane, SW_MARK_INJECTED, DAY_ZERO, 641, "injected");
  for (guint i = 0; i < G_N_ELEMENTS (visits) && visits[i] <= last_visit; i++)
    sw_line_lane_add (lane, SW_MARK_VISIT_PLANNED, DAY_ZERO + visits[i], 720, "visit");
  line->last_day = DAY_ZERO + last_visit;
  line->now = (SwMoment){ DAY_ZERO + 2, 600 };

  return line;
}

/* The box that a label may fill when it is drawn. */
typedef struct
{
  double left, right, top, bottom;
} Box;

static Box
box_of (const SwPlacedLabel *label, const SwCourseStyle *style)
{
  double left = label->x - label->align * label->width;

  return (Box){ left, left + label->width, label->y - style->line_height / 2, label->y + style->line_height / 2 };
}

static gboolean
overlap (Box a, Box b)
{
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

static void
check_labels (const SwCourseLayout *layout, const SwCourseStyle *style)
{
  guint axis_labels = 0;

  for (guint i = 0; i < layout->labels->len; i++)
    {
      const SwPlacedLabel *a = &g_array_index (layout->labels, SwPlacedLabel, i);

      axis_labels += a->kind == SW_LABEL_DAY || a->kind == SW_LABEL_DATE;
      ck_assert_double_ge (box_of (a, style).left, 0);
      ck_assert_double_le (box_of (a, style).right, layout->width);
      for (guint j = i + 1; j < layout->labels->len; j++)
        {
          const SwPlacedLabel *b = &g_array_index (layout->labels, SwPlacedLabel, j);

          ck_assert_msg (!overlap (box_of (a, style), box_of (b, style)), "%s overlaps %s", a->text, b->text);
        }
    }
  ck_assert_uint_gt (axis_labels, 0);
}

/* A later moment never lies left of an earlier one, and each day has an x of its own. */
static void
check_axis (const SwAxis *axis)
{
  for (SwDay day = axis->first; day < axis->last; day++)
    {
      ck_assert_double_lt (sw_axis_x (axis, day, 0), sw_axis_x (axis, day + 1, 0));
      ck_assert_double_le (sw_axis_x (axis, day, SW_MINUTES_PER_DAY - 1), sw_axis_x (axis, day + 1, 0));
    }
}

static void
check_layout (const SwCourseLine *line, SwCourseZoom zoom, double width)
{
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = sw_course_layout_new (line, zoom, width, style);

  check_labels (layout, style);
  check_axis (layout->axis);
  for (guint i = 0; i < layout->marks->len; i++)
    {
      const SwPlacedMark *mark = &g_array_index (layout->marks, SwPlacedMark, i);
      const SwPlacedLane *lane = &g_array_index (layout->lanes, SwPlacedLane, mark->lane);
      const SwPlacedMark *hit = sw_course_layout_hit (layout, mark->x, mark->y);

      ck_assert_double_ge (mark->x, layout->gutter);
      ck_assert_double_le (mark->x, width);
      ck_assert_double_ge (mark->y - mark->radius, lane->top);
      ck_assert_double_le (mark->y + mark->radius, lane->top + lane->height);
      ck_assert_ptr_nonnull (hit);
      ck_assert_double_eq_tol (hit->x, mark->x, 1e-9);
    }
  ck_assert_ptr_null (sw_course_layout_hit (layout, 1, 1));
}

START_TEST (courses_of_many_lengths)
{
  static const int lengths[] = { 0, 7, 28, 84, 400 };

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      g_autoptr (SwCourseLine) line = make_line (lengths[i]);

      check_layout (line, SW_COURSE_WHOLE, WIDTH);
      check_layout (line, SW_COURSE_WHOLE, 1600);
      check_layout (line, SW_COURSE_TEN_DAYS, 500);
    }
}
END_TEST

START_TEST (nothing_planned)
{
  g_autoptr (SwCourseLine) line = sw_course_line_new ();
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = NULL;

  sw_course_line_add_course (line, 1, SW_NO_DAY);
  line->now = (SwMoment){ DAY_ZERO, 600 };
  layout = sw_course_layout_new (line, SW_COURSE_TEN_DAYS, WIDTH, style);
  ck_assert_uint_eq (layout->marks->len, 0);
  ck_assert_int_eq (layout->axis->first, DAY_ZERO);
  ck_assert_double_gt (layout->now_x, layout->gutter);
}
END_TEST

START_TEST (ten_days_leave_the_rest_out)
{
  g_autoptr (SwCourseLine) line = make_line (84);
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = sw_course_layout_new (line, SW_COURSE_TEN_DAYS, WIDTH, style);

  ck_assert_int_eq (layout->axis->first, DAY_ZERO - 2);
  ck_assert_int_eq (layout->axis->last, DAY_ZERO + 7);
  for (guint i = 0; i < layout->marks->len; i++)
    ck_assert_int_le (g_array_index (layout->marks, SwPlacedMark, i).mark->day, DAY_ZERO + 7);
}
END_TEST

START_TEST (days_that_matter_are_labelled)
{
  static const char *const wanted[] = { "-2", "-1", "0", "1", "7", "14", "28", "56", "84" };
  g_autoptr (SwCourseLine) line = make_line (84);
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = sw_course_layout_new (line, SW_COURSE_WHOLE, WIDTH, style);

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      gboolean found = FALSE;

      for (guint j = 0; j < layout->labels->len; j++)
        {
          const SwPlacedLabel *label = &g_array_index (layout->labels, SwPlacedLabel, j);

          found = found || (label->kind == SW_LABEL_DAY && g_str_equal (label->text, wanted[i]));
        }
      ck_assert_msg (found, "day %s has no label", wanted[i]);
    }
}
END_TEST

START_TEST (curves_lie_in_their_bands)
{
  g_autoptr (SwCourseLine) line = make_line (84);
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = NULL;
  SwLineCurve *size = sw_course_line_add_size (line, 1, "size");
  SwLineCurve *wound = sw_course_line_add_wound (line, 1, "wound");

  sw_line_curve_add (size, DAY_ZERO, 600, 2140, "21.4 mm");
  sw_line_curve_add (size, DAY_ZERO, 620, 2100, "21.0 mm"); /* two on one day */
  sw_line_curve_add (size, DAY_ZERO + 28, 600, 0, "gone");
  sw_line_curve_add (wound, DAY_ZERO + 9, 600, 520, "5.2 cm2");
  layout = sw_course_layout_new (line, SW_COURSE_WHOLE, WIDTH, style);
  ck_assert_uint_eq (layout->lanes->len, 6);
  ck_assert_uint_eq (layout->curves->len, 2);
  for (guint i = 0; i < 2; i++)
    {
      const SwPlacedCurve *curve = &g_array_index (layout->curves, SwPlacedCurve, i);
      const SwPlacedLane *band = &g_array_index (layout->lanes, SwPlacedLane, 4 + i);

      for (guint j = 0; j < curve->points->len; j++)
        {
          double y = g_array_index (curve->points, SwPlacedPoint, j).y;

          ck_assert_double_ge (y, band->top);
          ck_assert_double_le (y, band->top + band->height);
        }
    }
  ck_assert_double_eq (layout->height, sw_course_layout_height (line, style));
}
END_TEST

static SwLineCurve *
add_tumour (SwCourseLine *line, int number, gboolean wound)
{
  g_autofree char *title = g_strdup_printf ("%c, longest, mm", 'A' + number);

  return (wound ? sw_course_line_add_wound : sw_course_line_add_size) (line, number + 1, title);
}

/* Courses of 1, 10 and 400 days, with no reading, one, two on one day, and as many as a course may have; of one tumour
 * and of five that lie close to one another. */
START_TEST (values_never_meet)
{
  static const int lengths[] = { 0, 9, 399 };
  static const int tumours[] = { 1, 2, 5 };
  static const int readings[] = { 0, 1, 2, 6 };

  for (guint i = 0; i < G_N_ELEMENTS (lengths) * G_N_ELEMENTS (tumours) * G_N_ELEMENTS (readings); i++)
    {
      g_autoptr (SwCourseLine) line = make_line (lengths[i % 3]);

      for (int tumour = 0; tumour < tumours[i / 3 % 3]; tumour++)
        {
          SwLineCurve *size = add_tumour (line, tumour, FALSE), *wound = add_tumour (line, tumour, TRUE);

          for (int reading = 0; reading < readings[i / 9]; reading++)
            {
              int day = DAY_ZERO + (readings[i / 9] > 2 ? reading * lengths[i % 3] / 5 : -2); /* at the gutter */

              sw_line_curve_add (size, day, 600 + 20 * reading, 1700 + tumour - 30 * reading, "size");
              sw_line_curve_add (wound, day, 600 + 20 * reading, 500 + tumour - 30 * reading, "wound");
            }
        }
      check_layout (line, SW_COURSE_WHOLE, WIDTH);
      check_layout (line, SW_COURSE_TEN_DAYS, 500);
    }
}
END_TEST

/* Two tumours of nearly one size: both ends are told, each in its own band. */
START_TEST (each_tumour_has_its_band)
{
  g_autoptr (SwCourseLine) line = make_line (84);
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = NULL;
  guint values = 0;

  for (int tumour = 0; tumour < 2; tumour++)
    {
      SwLineCurve *size = add_tumour (line, tumour, FALSE);

      sw_line_curve_add (size, DAY_ZERO - 12, 600, 1720 - tumour, "before");
      sw_line_curve_add (size, DAY_ZERO, 600, 1730 - tumour, "today");
    }
  layout = sw_course_layout_new (line, SW_COURSE_WHOLE, WIDTH, style);
  for (guint i = 0; i < layout->labels->len; i++)
    values += g_array_index (layout->labels, SwPlacedLabel, i).kind == SW_LABEL_VALUE;
  ck_assert_uint_eq (values, 4);
  ck_assert_uint_eq (layout->lanes->len, line->lanes->len + 2);
}
END_TEST

START_TEST (a_replacement_stands_beside_its_dose)
{
  g_autoptr (SwCourseLine) line = sw_course_line_new ();
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = NULL;
  SwLineLane *lane;
  const SwPlacedMark *marks;

  sw_course_line_add_course (line, 1, DAY_ZERO);
  lane = sw_course_line_add_lane (line, "prednisolone");
  sw_line_lane_add (lane, SW_MARK_VOMITED, DAY_ZERO - 2, MORNING, "vomited");
  sw_line_lane_add (lane, SW_MARK_GIVEN, DAY_ZERO - 2, MORNING + 120, "given in its place");
  sw_line_lane_add (lane, SW_MARK_GIVEN, DAY_ZERO - 2, EVENING, "given");
  line->last_day = DAY_ZERO + 84;
  layout = sw_course_layout_new (line, SW_COURSE_WHOLE, WIDTH, style);
  marks = (const SwPlacedMark *) layout->marks->data;
  ck_assert_double_ge (marks[1].x - marks[0].x, 2 * marks[0].radius - 0.1);
  ck_assert_double_gt (marks[2].x, marks[1].x);
  ck_assert_int_eq (sw_axis_day_at (layout->axis, marks[1].x), DAY_ZERO - 2);
}
END_TEST

static cairo_surface_t *
draw_state (SwMarkState state, gboolean outside, const SwCourseStyle *style)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 40, 40);
  cairo_t *cr = cairo_create (surface);

  sw_mark_shape_draw (cr, state, outside, 20, 20, 16, style);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);

  return surface;
}

static guint
differing_pixels (cairo_surface_t *a, cairo_surface_t *b)
{
  const guint8 *left = cairo_image_surface_get_data (a);
  const guint8 *right = cairo_image_surface_get_data (b);
  guint differing = 0;

  for (int i = 0; i < cairo_image_surface_get_stride (a) * 40; i++)
    differing += ABS (left[i] - right[i]) > 64;
  return differing;
}

/* Without colour: the alpha channel alone must tell every state from every other. The ground is made clear for that, so
 * that an open shape differs from a filled one. */
START_TEST (each_state_has_its_own_shape)
{
  g_autoptr (SwCourseStyle) style = make_style ();
  cairo_surface_t *shapes[2 * SW_N_MARK_STATES];

  style->ground.alpha = 0;
  for (int i = 0; i < 2 * SW_N_MARK_STATES; i++)
    shapes[i] = draw_state (i / 2, i % 2, style);
  for (int i = 0; i < 2 * SW_N_MARK_STATES; i++)
    for (int j = i + 1; j < 2 * SW_N_MARK_STATES; j++)
      ck_assert_msg (differing_pixels (shapes[i], shapes[j]) >= 30, "%s%s looks like %s%s", sw_mark_state_name (i / 2),
                     i % 2 ? " outside" : "", sw_mark_state_name (j / 2), j % 2 ? " outside" : "");
  for (int i = 0; i < 2 * SW_N_MARK_STATES; i++)
    cairo_surface_destroy (shapes[i]);
}
END_TEST

START_TEST (draws_on_any_surface)
{
  g_autoptr (SwCourseLine) line = make_line (84);
  g_autoptr (SwCourseStyle) style = make_style ();
  g_autoptr (SwCourseLayout) layout = sw_course_layout_new (line, SW_COURSE_WHOLE, WIDTH, style);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) WIDTH, (int) layout->height);
  cairo_t *cr = cairo_create (surface);
  guint painted = 0;

  sw_course_draw (cr, layout, style);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_surface_flush (surface);
  for (int i = 0; i < cairo_image_surface_get_stride (surface) * (int) layout->height; i++)
    painted += cairo_image_surface_get_data (surface)[i] != 0;
  ck_assert_uint_gt (painted, 1000);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (words_for_those_who_do_not_see)
{
  g_autoptr (SwCourseLine) line = make_line (7);
  g_autofree char *text = sw_course_line_text (line);

  ck_assert_ptr_nonnull (strstr (text, "prednisolone:\n  morning dose\n  evening dose\n"));
  ck_assert_ptr_nonnull (strstr (text, "visits:\n  injected\n"));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("course");
  TCase *tcase = tcase_create ("course");
  SRunner *runner;
  int failed;

  tcase_add_test (tcase, courses_of_many_lengths);
  tcase_add_test (tcase, nothing_planned);
  tcase_add_test (tcase, ten_days_leave_the_rest_out);
  tcase_add_test (tcase, days_that_matter_are_labelled);
  tcase_add_test (tcase, curves_lie_in_their_bands);
  tcase_add_test (tcase, values_never_meet);
  tcase_add_test (tcase, each_tumour_has_its_band);
  tcase_add_test (tcase, a_replacement_stands_beside_its_dose);
  tcase_add_test (tcase, each_state_has_its_own_shape);
  tcase_add_test (tcase, draws_on_any_surface);
  tcase_add_test (tcase, words_for_those_who_do_not_see);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);

  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
