/* test-chart.c: charts: where things lie, that they are drawn, and that grey tells them apart
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-chart-draw.h"
#include "sw-outcome-paper.h"

#include <check.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define WIDTH 700.0

static SwCourseStyle *style;

static void
set_up (void)
{
  style = sw_course_style_new_paper ("DejaVu Sans 9");
}

static void
tear_down (void)
{
  sw_course_style_free (style);
}

static gboolean
near (double a, double b)
{
  return fabs (a - b) < 1e-9;
}

static SwChart *
bars (void)
{
  SwChart *chart = sw_chart_new (SW_CHART_BARS, "bars", "Bars");

  chart->percent = TRUE;
  chart->y_hi = 1;
  sw_chart_series_point (sw_chart_add_series (chart, "all", 32), 0, .8125, .6469, .9111);
  sw_chart_series_point (sw_chart_add_series (chart, "none", 0), 0, NAN, NAN, NAN);
  return chart;
}

static SwChart *
curves (guint n)
{
  SwChart *chart = sw_chart_new (SW_CHART_STEPS, "curves", "Curves");

  chart->percent = TRUE;
  chart->y_hi = 1;
  chart->x_hi = 90;
  chart->x_title = g_strdup ("days");
  for (guint i = 0; i < n; i++)
    {
      SwChartSeries *series = sw_chart_add_series (chart, i == 0 ? "low" : "high", 10);

      sw_chart_series_point (series, 0, 1, 1, 1);
      sw_chart_series_point (series, 30, .8, .5, .95);
      sw_chart_series_step (series, 50, 70, .2 + .01 * i, .1, .4);
      sw_chart_series_mark (series, 40, .8);
      for (double t = 0; t <= 90; t += 30)
        sw_chart_series_count (series, t, 10 - (gint64) (t / 10));
    }
  for (double t = 0; t <= 90; t += 30)
    sw_chart_add_tick (chart, t);
  return chart;
}

static SwChart *
with_line (SwChartKind kind)
{
  SwChart *chart = sw_chart_new (kind, "line", "Line");
  SwChartSeries *series = sw_chart_add_series (chart, "", 3);

  for (int i = 0; i < 3; i++)
    sw_chart_series_point (series, i, i - 1.5, NAN, NAN);
  chart->x_hi = 3;
  chart->y_lo = -1.5;
  chart->y_hi = .5;
  sw_chart_add_line (chart, "limit", 2.7, 2.5, 2.9);
  return chart;
}

START_TEST (steps_of_ticks)
{
  ck_assert (near (sw_chart_nice_step (1, 6), .2));
  ck_assert (near (sw_chart_nice_step (100, 5), 20));
  ck_assert (near (sw_chart_nice_step (0.3, 6), .05));
  ck_assert (near (sw_chart_nice_step (7, 8), 1));
  ck_assert (near (sw_chart_nice_step (90, 8), 20));
}
END_TEST

START_TEST (bars_lie_in_rows)
{
  g_autoptr (SwChart) chart = bars ();
  double height = sw_chart_height (chart, style);
  g_autoptr (SwChartLayout) layout = sw_chart_layout_new (chart, style, WIDTH, height);

  ck_assert (layout->rows && near (layout->x_lo, 0) && near (layout->x_hi, 1));
  ck_assert (near (sw_chart_x (layout, 0), layout->left) && near (sw_chart_x (layout, 1), layout->right));
  ck_assert (near (sw_chart_x (layout, .5), (layout->left + layout->right) / 2));
  ck_assert (near (sw_chart_row_y (layout, 1) - sw_chart_row_y (layout, 0), layout->row_height));
  ck_assert (layout->top < sw_chart_row_y (layout, 0) && sw_chart_row_y (layout, 1) < layout->bottom);
  ck_assert_str_eq (g_array_index (layout->x_ticks, SwChartTick, layout->x_ticks->len - 1).text, "100");
}
END_TEST

START_TEST (curves_have_their_ticks_and_counts)
{
  g_autoptr (SwChart) chart = curves (2);
  double height = sw_chart_height (chart, style);
  g_autoptr (SwChartLayout) layout = sw_chart_layout_new (chart, style, WIDTH, height);
  const SwChartLabel *first, *second;

  ck_assert_uint_eq (layout->x_ticks->len, 4);
  ck_assert (near (g_array_index (layout->x_ticks, SwChartTick, 1).at, sw_chart_x (layout, 30)));
  ck_assert_uint_eq (layout->n_count_rows, 2);
  ck_assert (layout->bottom < layout->count_top && layout->count_top + 1.1 * style->line_height < height);
  /* labels of curves that end side by side do not cover each other, and stay beside the plot */
  ck_assert_uint_eq (layout->labels->len, 2);
  first = &g_array_index (layout->labels, SwChartLabel, 0);
  second = &g_array_index (layout->labels, SwChartLabel, 1);
  ck_assert (second->y - first->y >= style->line_height - 1e-9);
  ck_assert (first->x > layout->right && second->y <= layout->bottom + 1e-9);
}
END_TEST

START_TEST (level_lines_widen_the_axis)
{
  g_autoptr (SwChart) chart = with_line (SW_CHART_LINE);
  g_autoptr (SwChartLayout) layout = sw_chart_layout_new (chart, style, WIDTH, 200);

  ck_assert (layout->y_hi >= 2.9 && layout->y_lo <= -1.5);
  ck_assert (sw_chart_y (layout, 2.7) > layout->top && sw_chart_y (layout, 2.7) < sw_chart_y (layout, 0));
  /* what lies beside the axes is drawn at their ends */
  ck_assert (near (sw_chart_y (layout, 99), layout->top) && near (sw_chart_x (layout, -5), layout->left));
}
END_TEST

START_TEST (any_size_makes_a_layout)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);

  for (int i = 0; i < 500; i++)
    {
      g_autoptr (SwChart) chart = i % 3 == 0 ? bars () : i % 3 == 1 ? curves (1 + i % 7) : with_line (SW_CHART_POINTS);
      double width = g_rand_double_range (rand, 1, 2000), height = g_rand_double_range (rand, 1, 900);
      g_autoptr (SwChartLayout) layout = sw_chart_layout_new (chart, style, width, height);

      ck_assert (layout->left < layout->right && layout->top < layout->bottom);
      for (guint k = 0; k < layout->x_ticks->len; k++)
        ck_assert (isfinite (g_array_index (layout->x_ticks, SwChartTick, k).at));
    }
}
END_TEST

/* How many pixels are not white, and how many of these are a colour rather than a grey tone far from white. */
static guint
count_dark (cairo_surface_t *surface)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  guint dark = 0;

  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      {
        const guint8 *pixel = data + y * stride + 4 * x;

        dark += (pixel[0] * 11 + pixel[1] * 59 + pixel[2] * 30) / 100 < 128;
      }
  return dark;
}

START_TEST (each_kind_is_drawn_in_grey_too)
{
  SwChart *charts[] = { bars (), curves (3), with_line (SW_CHART_POINTS), with_line (SW_CHART_LINE),
                        with_line (SW_CHART_COLUMNS) };
  g_autoptr (SwChart) chart = charts[_i];
  double height = sw_chart_height (chart, style);
  g_autoptr (SwChartLayout) layout = sw_chart_layout_new (chart, style, WIDTH, height);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) WIDTH, (int) height);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  sw_chart_draw (cr, chart, layout, style);
  cairo_surface_flush (surface);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  ck_assert_uint_gt (count_dark (surface), 200);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  for (int i = 0; i < (int) G_N_ELEMENTS (charts); i++)
    if (i != _i)
      sw_chart_free (charts[i]);
}
END_TEST

static char *
temporary (const char *name)
{
  return g_strdup_printf ("%s/siteward-%d-%s", g_get_tmp_dir (), (int) g_get_real_time (), name);
}

START_TEST (a_picture_is_written)
{
  g_autoptr (SwChart) chart = curves (2);
  g_autofree char *path = temporary ("chart.png"), *content = NULL;
  gsize length;

  chart->words = g_strdup ("two curves");
  ck_assert (sw_chart_write_png (chart, path, NULL));
  ck_assert (g_file_get_contents (path, &content, &length, NULL));
  ck_assert (length > 1000 && memcmp (content, "\x89PNG", 4) == 0);
  g_unlink (path);
  ck_assert (!sw_chart_write_png (chart, "/no/such/folder/chart.png", NULL));
}
END_TEST

START_TEST (a_report_is_written)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  g_autoptr (SwOutcomes) outcomes = sw_outcomes_new (rows);
  g_autofree char *path = temporary ("report.pdf"), *content = NULL;
  gsize length;

  for (int i = 0; i < 8; i++)
    {
      SwOutcomeSection *section = sw_outcome_section_new ("s", "A section", "How it is counted.");
      SwOutcomeGroup *group = sw_outcome_section_add_group (section, "all", "all");
      SwOutcomeFigure *figure = sw_outcome_group_take (group, sw_outcome_figure_new (SW_FIGURE_SHARE, "f", "a share"));

      figure->x = 3;
      figure->n = 4;
      figure->value = .75;
      g_ptr_array_add (section->charts, curves (2));
      g_ptr_array_add (outcomes->sections, section);
    }
  ck_assert (sw_outcome_paper_write (outcomes, path, NULL));
  ck_assert (g_file_get_contents (path, &content, &length, NULL));
  ck_assert (length > 1000 && memcmp (content, "%PDF", 4) == 0);
  g_unlink (path);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("chart");
  TCase *tcase = tcase_create ("chart");
  SRunner *runner = srunner_create (suite);
  int failed;

  suite_add_tcase (suite, tcase);
  tcase_add_checked_fixture (tcase, set_up, tear_down);
  tcase_add_test (tcase, steps_of_ticks);
  tcase_add_test (tcase, bars_lie_in_rows);
  tcase_add_test (tcase, curves_have_their_ticks_and_counts);
  tcase_add_test (tcase, level_lines_widen_the_axis);
  tcase_add_test (tcase, any_size_makes_a_layout);
  tcase_add_loop_test (tcase, each_kind_is_drawn_in_grey_too, 0, 5);
  tcase_add_test (tcase, a_picture_is_written);
  tcase_add_test (tcase, a_report_is_written);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
