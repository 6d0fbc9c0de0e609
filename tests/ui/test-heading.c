/* test-heading.c: the line over a dog's pages holds what it must, however many tumours the dog has
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-patient-heading.h"
#include "sw-region.h"

#include <string.h>

static void
add_tumours (const UiPractice *practice, int from, int to)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (practice->folder, practice->clock, &error);

  for (int letter = from; letter <= to; letter++)
    {
      SwRequest *request = sw_request_new (SW_ACT_REGISTER_TUMOUR, practice->person, practice->patient);
      SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);

      details->tumour = sw_request_add (request, sw_new (SW_FACT_TUMOUR, SwTumour));
      details->letter = letter;
      details->region = SW_REGION_FORELIMB_DISTAL;
      details->side = SW_SIDE_RIGHT;
      details->depth = SW_DEPTH_SUBCUTANEOUS;
      details->found = ui_begin ().day;
      sw_request_add (request, details);
      sw_reply_free (ui_perform (desk, request));
    }
}

/* Whole, as its parents and the heading show it. */
static void
check_whole (GtkWidget *button, GtkWidget *heading)
{
  for (GtkWidget *around = gtk_widget_get_parent (button); around != gtk_widget_get_parent (heading);
       around = gtk_widget_get_parent (around))
    {
      graphene_rect_t bounds;
      g_autofree char *name = ui_name (button);

      ck_assert (gtk_widget_compute_bounds (button, around, &bounds));
      ck_assert_msg (bounds.origin.x >= -0.5
                         && bounds.origin.x + bounds.size.width <= gtk_widget_get_width (around) + 0.5,
                     "“%s” is clipped by its %s", name, G_OBJECT_TYPE_NAME (around));
    }
}

static guint
check_buttons (GtkWidget *widget, GtkWidget *heading)
{
  guint n = GTK_IS_BUTTON (widget);

  if (n > 0)
    check_whole (widget, heading);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += check_buttons (child, heading);
  return n;
}

START_TEST (nothing_is_clipped)
{
  static const int last[] = { 0, 1, 4 }; /* A; A and B; A to E */
  g_autoptr (UiPractice) practice = ui_practice_new ();

  for (guint i = 0; i < G_N_ELEMENTS (last); i++)
    {
      SwWindow *window;
      GtkWidget *heading;

      add_tumours (practice, i > 0 ? last[i - 1] + 1 : 1, last[i]);
      window = ui_open (practice->folder, practice->clock);
      ui_show_patient (window, practice->patient);
      ui_settle ();
      heading = ui_find_type (GTK_WIDGET (window), SW_TYPE_PATIENT_HEADING);
      ck_assert_int_le (gtk_widget_get_width (GTK_WIDGET (window)), 1280);
      ck_assert_uint_eq (check_buttons (heading, heading), (guint) last[i] + 1 + 3); /* correct, weigh, add */
      if (g_getenv ("SW_PHOTOGRAPHS") != NULL)
        {
          g_autofree char *file = g_strdup_printf ("%s/heading-%d.png", g_getenv ("SW_PHOTOGRAPHS"), last[i] + 1);

          ui_photograph (GTK_WIDGET (window), file);
        }
      ui_close (window);
    }
}
END_TEST

START_TEST (a_shortened_tumour_is_named_in_full)
{
  g_autoptr (UiPractice) practice = ui_practice_new ();
  SwWindow *window;
  GtkWidget *heading, *chip;

  add_tumours (practice, 1, 4);
  window = ui_open (practice->folder, practice->clock);
  ui_show_patient (window, practice->patient);
  heading = ui_find_type (GTK_WIDGET (window), SW_TYPE_PATIENT_HEADING);
  chip = ui_find_button (heading, "E  right forelimb below the elbow, subcutaneous");
  ck_assert_ptr_nonnull (chip);
  ck_assert (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (chip))))));
  ck_assert_str_eq (gtk_widget_get_tooltip_text (chip), "E  right forelimb below the elbow, subcutaneous");
  ui_close (window);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("heading");
  TCase *tcase = tcase_create ("heading");

  ui_init ();
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, nothing_is_clipped);
  tcase_add_test (tcase, a_shortened_tumour_is_named_in_full);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
