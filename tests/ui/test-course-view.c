/* test-course-view.c: the course line as a widget: marks that are named, found by arrows, activated, and keep the focus
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-course-mark.h"
#include "sw-course-view.h"

#define DAY_ZERO 20588

typedef struct
{
  GtkWidget *window;
  SwCourseView *view;
  GtkWidget *before; /* a button on either side, so that Tab comes from and goes to somewhere */
  GtkWidget *after;
  gint64 activated;
} Line;

static void
activated_cb (SwCourseView *view, GtkWidget *mark, const SwLineMark *value, Line *line)
{
  line->activated = value->id;
}

static void
add_mark (SwLineLane *lane, SwMarkState state, int day, int hour, gint64 id)
{
  g_autofree char *sentence = g_strdup_printf ("%s, day %d, %d:00: %s", lane->title, day, hour,
                                               sw_mark_state_name (state));
  SwLineMark *mark = sw_line_lane_add (lane, state, DAY_ZERO + day, hour * 60, sentence);

  mark->kind = SW_FACT_DOSE;
  mark->id = id;
}

/* Two lanes: 1 2 3 4 and 11 12, where 11 lies over 3. */
static SwCourseLine *
make_line (SwMarkState third)
{
  SwCourseLine *line = sw_course_line_new ();
  SwLineLane *lane;

  sw_course_line_add_course (line, 1, DAY_ZERO);
  lane = sw_course_line_add_lane (line, "prednisolone");
  add_mark (lane, SW_MARK_GIVEN, -2, 8, 1);
  add_mark (lane, SW_MARK_GIVEN, -2, 20, 2);
  add_mark (lane, third, 0, 8, 3);
  add_mark (lane, SW_MARK_PLANNED, 0, 20, 4);
  lane = sw_course_line_add_lane (line, "famotidine");
  add_mark (lane, SW_MARK_PLANNED, 0, 8, 11);
  add_mark (lane, SW_MARK_PLANNED, 0, 20, 12);
  line->last_day = DAY_ZERO + 84;
  line->now = (SwMoment){ DAY_ZERO, 8 * 60 };

  return line;
}

static Line *
line_new (void)
{
  Line *line = g_new0 (Line, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  line->window = gtk_window_new ();
  line->view = SW_COURSE_VIEW (sw_course_view_new ());
  line->before = gtk_button_new_with_label ("before");
  line->after = gtk_button_new_with_label ("after");
  gtk_box_append (GTK_BOX (box), line->before);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (line->view));
  gtk_box_append (GTK_BOX (box), line->after);
  gtk_window_set_default_size (GTK_WINDOW (line->window), 960, 400);
  gtk_window_set_child (GTK_WINDOW (line->window), box);
  sw_course_view_set_line (line->view, make_line (SW_MARK_DUE));
  gtk_window_present (GTK_WINDOW (line->window));
  gtk_test_widget_wait_for_draw (line->window);
  g_signal_connect (line->view, "mark-activated", G_CALLBACK (activated_cb), line);

  return line;
}

static void
line_free (Line *line)
{
  gtk_window_destroy (GTK_WINDOW (line->window));
  g_free (line);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Line, line_free)

static gint64
focused (const Line *line)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (line->window));

  return SW_IS_COURSE_MARK (focus) ? sw_course_mark_get_value (SW_COURSE_MARK (focus))->id : 0;
}

static void
move (const Line *line, GtkDirectionType direction)
{
  gtk_widget_child_focus (line->window, direction);
}

START_TEST (marks_are_named_buttons)
{
  g_autoptr (Line) line = line_new ();
  GtkWidget *mark = sw_course_view_find_mark (line->view, SW_FACT_DOSE, 3);

  ck_assert_ptr_nonnull (mark);
  gtk_test_accessible_assert_role (mark, GTK_ACCESSIBLE_ROLE_BUTTON);
  gtk_test_accessible_assert_property (mark, GTK_ACCESSIBLE_PROPERTY_LABEL, "prednisolone, day 0, 8:00: due");
  ck_assert (gtk_widget_get_focusable (mark));
}
END_TEST

START_TEST (tab_enters_at_what_is_due_and_leaves)
{
  g_autoptr (Line) line = line_new ();

  gtk_widget_grab_focus (line->before);
  move (line, GTK_DIR_TAB_FORWARD);
  ck_assert_int_eq (focused (line), 3);
  move (line, GTK_DIR_TAB_FORWARD);
  ck_assert_ptr_eq (gtk_root_get_focus (GTK_ROOT (line->window)), line->after);
  move (line, GTK_DIR_TAB_BACKWARD);
  ck_assert_int_eq (focused (line), 3);
}
END_TEST

START_TEST (arrows_walk_lanes)
{
  g_autoptr (Line) line = line_new ();

  gtk_widget_grab_focus (sw_course_view_find_mark (line->view, SW_FACT_DOSE, 2));
  move (line, GTK_DIR_RIGHT);
  ck_assert_int_eq (focused (line), 3);
  move (line, GTK_DIR_DOWN);
  ck_assert_int_eq (focused (line), 11);
  move (line, GTK_DIR_RIGHT);
  ck_assert_int_eq (focused (line), 12);
  move (line, GTK_DIR_UP);
  ck_assert_int_eq (focused (line), 4);
  move (line, GTK_DIR_LEFT);
  ck_assert_int_eq (focused (line), 3);
}
END_TEST

START_TEST (activating_says_which)
{
  g_autoptr (Line) line = line_new ();

  ck_assert (gtk_widget_activate (sw_course_view_find_mark (line->view, SW_FACT_DOSE, 12)));
  ck_assert_int_eq (line->activated, 12);
}
END_TEST

START_TEST (a_newer_line_keeps_the_focus)
{
  g_autoptr (Line) line = line_new ();
  GtkWidget *mark = sw_course_view_find_mark (line->view, SW_FACT_DOSE, 3);

  gtk_widget_grab_focus (mark);
  sw_course_view_set_line (line->view, make_line (SW_MARK_GIVEN));
  ck_assert_ptr_eq (sw_course_view_find_mark (line->view, SW_FACT_DOSE, 3), mark);
  ck_assert_int_eq (focused (line), 3);
  gtk_test_accessible_assert_property (mark, GTK_ACCESSIBLE_PROPERTY_LABEL, "prednisolone, day 0, 8:00: given");
  gtk_test_widget_wait_for_draw (line->window);
}
END_TEST

START_TEST (narrow_windows_show_ten_days)
{
  g_autoptr (Line) line = line_new ();
  int minimum, natural;

  gtk_widget_measure (GTK_WIDGET (line->view), GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  ck_assert_int_gt (minimum, 0);
  ck_assert_int_lt (minimum, 700);
}
END_TEST

START_TEST (nothing_to_show)
{
  g_autoptr (Line) line = line_new ();

  sw_course_view_set_line (line->view, NULL);
  ck_assert_ptr_null (sw_course_view_find_mark (line->view, SW_FACT_DOSE, 3));
  ck_assert (!gtk_widget_get_visible (GTK_WIDGET (line->view)));
  gtk_test_widget_wait_for_draw (line->window);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("course-view");
  TCase *tcase = tcase_create ("course-view");

  ui_init ();
  tcase_add_test (tcase, marks_are_named_buttons);
  tcase_add_test (tcase, tab_enters_at_what_is_due_and_leaves);
  tcase_add_test (tcase, arrows_walk_lanes);
  tcase_add_test (tcase, activating_says_which);
  tcase_add_test (tcase, a_newer_line_keeps_the_focus);
  tcase_add_test (tcase, narrow_windows_show_ten_days);
  tcase_add_test (tcase, nothing_to_show);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
