/* test-wedge.c: the burst of a caliper presses nothing: each key press against each kind of widget that may have the
 * focus
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-quantity-entry.h"
#include "sw-wedge-guard.h"

static GtkWidget *
text_of (GtkWidget *widget)
{
  return ui_find_type (widget, GTK_TYPE_TEXT);
}

static SwWedgeAnswer
enter_after_digit (guint32 pause, GtkWidget *focus)
{
  SwWedge wedge = { 0 };

  sw_wedge_key (&wedge, GDK_KEY_4, 0, 1000, focus);
  return sw_wedge_key (&wedge, GDK_KEY_Return, 0, 1000 + pause, focus);
}

START_TEST (enter_after_a_digit)
{
  GtkWidget *button = g_object_ref_sink (gtk_button_new_with_label ("Release the Dose"));
  GtkWidget *search = g_object_ref_sink (gtk_search_entry_new ());
  GtkWidget *entry = g_object_ref_sink (gtk_entry_new ());
  GtkWidget *cell = g_object_ref_sink (sw_quantity_entry_new (SW_QUANTITY_LENGTH, "length"));
  GtkWidget *lines = g_object_ref_sink (gtk_text_view_new ());

  ck_assert_int_eq (enter_after_digit (0, button), SW_WEDGE_SWALLOW);
  ck_assert_int_eq (enter_after_digit (500, button), SW_WEDGE_SWALLOW);
  ck_assert_int_eq (enter_after_digit (501, button), SW_WEDGE_PASS);
  ck_assert_int_eq (enter_after_digit (10, text_of (search)), SW_WEDGE_SWALLOW);
  ck_assert_int_eq (enter_after_digit (10, text_of (entry)), SW_WEDGE_SWALLOW);
  ck_assert_int_eq (enter_after_digit (10, NULL), SW_WEDGE_SWALLOW);
  ck_assert_int_eq (enter_after_digit (10, text_of (cell)), SW_WEDGE_PASS);
  ck_assert_int_eq (enter_after_digit (10, lines), SW_WEDGE_PASS);
  g_object_unref (button);
  g_object_unref (search);
  g_object_unref (entry);
  g_object_unref (cell);
  g_object_unref (lines);
}
END_TEST

START_TEST (enter_alone_is_the_persons)
{
  SwWedge wedge = { 0 };

  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_Return, 0, 5, NULL), SW_WEDGE_PASS);
  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_a, 0, 10, NULL), SW_WEDGE_PASS);
  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_KP_Enter, 0, 20, NULL), SW_WEDGE_PASS);
}
END_TEST

START_TEST (the_clock_of_events_wraps)
{
  SwWedge wedge = { 0 };

  sw_wedge_key (&wedge, GDK_KEY_9, 0, G_MAXUINT32 - 10, NULL);
  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_Return, 0, 20, NULL), SW_WEDGE_SWALLOW);
}
END_TEST

START_TEST (digits_outside_entries_point_to_a_cell)
{
  GtkWidget *button = g_object_ref_sink (gtk_button_new ());
  GtkWidget *entry = g_object_ref_sink (gtk_entry_new ());
  SwWedge wedge = { 0 };

  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_2, 0, 1, button), SW_WEDGE_POINT);
  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_KP_2, 0, 1, NULL), SW_WEDGE_POINT);
  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_2, 0, 1, text_of (entry)), SW_WEDGE_PASS);
  ck_assert_int_eq (sw_wedge_key (&wedge, GDK_KEY_1, GDK_ALT_MASK, 1, button), SW_WEDGE_PASS);
  g_object_unref (button);
  g_object_unref (entry);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("wedge");
  TCase *tcase = tcase_create ("wedge");

  ui_init ();
  tcase_add_test (tcase, enter_after_a_digit);
  tcase_add_test (tcase, enter_alone_is_the_persons);
  tcase_add_test (tcase, the_clock_of_events_wraps);
  tcase_add_test (tcase, digits_outside_entries_point_to_a_cell);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
