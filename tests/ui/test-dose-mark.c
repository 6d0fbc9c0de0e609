/* test-dose-mark.c: a dose is told at its mark on the course line: late without its time refused, given, corrected,
 * taken back
 *
 * On the invented practice of the demo, in the evening of its day: the dog Clove has a dose due at 20:00.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-course-mark.h"
#include "sw-course-view.h"
#include "sw-demo.h"
#include "sw-quantity-entry.h"

#define TODAY sw_day_from_ymd (2026, 5, 14)

static char *folder;
static SwClock *evening;

static void
make_demo (void)
{
  SwDemoOptions options = { .seed = 1, .today = TODAY };

  folder = ui_demo (&options);
  evening = sw_clock_new_at ((SwMoment){ TODAY, 20 * 60 + 5 });
}

static void
forget_demo (void)
{
  ui_forget (folder);
  g_clear_pointer (&folder, g_free);
  g_clear_pointer (&evening, sw_clock_unref);
}

/* The first mark in this state; NULL: none. */
static GtkWidget *
find_mark (GtkWidget *view, SwMarkState state)
{
  for (GtkWidget *child = gtk_widget_get_first_child (view); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (sw_course_mark_get_value (SW_COURSE_MARK (child))->state == state)
      return child;
  return NULL;
}

/* A dog that has a dose due now. */
static GtkWidget *
open_due (SwWindow **window)
{
  GtkWidget *view;

  *window = ui_open (folder, evening);
  view = ui_find_type (GTK_WIDGET (*window), SW_TYPE_COURSE_VIEW);
  for (gint64 patient = 1; patient <= 31; patient++)
    {
      ui_show_patient (*window, patient);
      if (find_mark (view, SW_MARK_DUE) != NULL)
        return find_mark (view, SW_MARK_DUE);
    }
  g_error ("no dose of the demo is due at this time");
}

static GtkWidget *
open_popover (GtkWidget *mark)
{
  GtkWidget *popover;

  gtk_widget_grab_focus (mark);
  gtk_widget_activate (mark);
  ui_settle ();
  popover = ui_find_type (mark, GTK_TYPE_POPOVER);
  ck_assert_ptr_nonnull (popover);

  return popover;
}

static gboolean
popover_is_gone (gpointer mark)
{
  return ui_find_type (mark, GTK_TYPE_POPOVER) == NULL;
}

static gboolean
is_given (gpointer mark)
{
  return sw_course_mark_get_value (mark)->state == SW_MARK_GIVEN;
}

static gboolean
is_missed (gpointer mark)
{
  return sw_course_mark_get_value (mark)->state == SW_MARK_MISSED;
}

static gboolean
is_due (gpointer mark)
{
  return sw_course_mark_get_value (mark)->state == SW_MARK_DUE;
}

START_TEST (told_corrected_and_taken_back)
{
  SwWindow *window;
  GtkWidget *mark = open_due (&window);

  ui_click (ui_find_button (open_popover (mark), "Given"));
  ui_wait (is_given, mark, "the dose to be given");
  ui_wait (popover_is_gone, mark, "the popover to close");
  ck_assert_ptr_eq (gtk_root_get_focus (GTK_ROOT (window)), mark);
  ui_click (ui_find_button (open_popover (mark), "Missed"));
  ui_wait (is_missed, mark, "the correction");
  ui_wait (popover_is_gone, mark, "the popover to close");
  ui_click (ui_find_button (open_popover (mark), "Take Back: Not Known"));
  ui_wait (is_due, mark, "the tick to be taken back");
  ui_close (window);
}
END_TEST

START_TEST (late_asks_for_its_time)
{
  SwWindow *window;
  GtkWidget *mark = open_due (&window);
  GtkWidget *popover = open_popover (mark);
  GtkWidget *time = ui_find_type (popover, SW_TYPE_QUANTITY_ENTRY);

  ui_click (ui_find_button (popover, "Late"));
  ui_settle ();
  ck_assert (is_due (mark));
  gtk_test_accessible_assert_state (ui_find_type (time, GTK_TYPE_ENTRY), GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);
  sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (time), "20:05");
  ui_click (ui_find_button (popover, "Late"));
  ui_wait (is_given, mark, "the dose to count by its time"); /* within the hour it is on time, whatever the button */
  ui_close (window);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("dose-mark");
  TCase *tcase = tcase_create ("dose-mark");

  ui_init ();
  tcase_add_checked_fixture (tcase, make_demo, forget_demo);
  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, told_corrected_and_taken_back);
  tcase_add_test (tcase, late_asks_for_its_time);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
