/* photograph.c: pictures of the window on a record, for looking at them
 *
 * photograph RECORD AT OUT.png [patient=N] [step=NAME] [page=practice] [section=NAME] [part=NAME] [width=W] [height=H]
 *            [scroll=PERCENT]
 *
 * A program beside the product: the window itself has no such option. Run it with tests/ui/with-display;
 * GTK_THEME=Adwaita:dark makes it dark.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-outcomes-view.h"
#include "sw-patient-page.h"
#include "sw-practice-view.h"
#include "sw-workup-page.h"

#include <stdlib.h>
#include <string.h>

static const char *
option (int argc, char **argv, const char *name)
{
  gsize length = strlen (name);

  for (int i = 4; i < argc; i++)
    if (strncmp (argv[i], name, length) == 0 && argv[i][length] == '=')
      return argv[i] + length + 1;
  return NULL;
}

/* What scrolls: the outcomes where they are shown, else the step page. */
static GtkWidget *
scrolling_page (SwWindow *window)
{
  GtkWidget *outcomes = ui_find_type (GTK_WIDGET (window), SW_TYPE_OUTCOMES_VIEW);
  GtkWidget *page = sw_window_get_patient_page (window);
  GObject *stack = gtk_widget_get_mapped (outcomes)
                     ? gtk_widget_get_template_child (outcomes, SW_TYPE_OUTCOMES_VIEW, "stack")
                     : gtk_widget_get_template_child (page, SW_TYPE_PATIENT_PAGE, "steps");

  return gtk_stack_get_visible_child (GTK_STACK (stack));
}

/* The first part of the page that scrolls. */
static void
scroll (SwWindow *window, double percent)
{
  GtkWidget *scrolled = ui_find_type (scrolling_page (window), GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *at = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));

  gtk_adjustment_set_value (at, (gtk_adjustment_get_upper (at) - gtk_adjustment_get_page_size (at)) * percent / 100);
  ui_settle ();
}

static gboolean
has_outcomes (gpointer view)
{
  return sw_outcomes_view_get_outcomes (view) != NULL;
}

static void
arrange (SwWindow *window, int argc, char **argv)
{
  const char *patient = option (argc, argv, "patient");
  const char *step = option (argc, argv, "step");
  const char *page = option (argc, argv, "page");
  const char *section = option (argc, argv, "section");
  const char *part = option (argc, argv, "part"); /* of the work-up */

  if (patient != NULL)
    ui_show_patient (window, atoll (patient));
  if (step != NULL)
    g_assert_true (sw_patient_page_show_step (SW_PATIENT_PAGE (sw_window_get_patient_page (window)), step));
  if (part != NULL)
    sw_workup_page_show_section (SW_WORKUP_PAGE (ui_find_type (GTK_WIDGET (window), SW_TYPE_WORKUP_PAGE)), part);
  if (page != NULL)
    gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", page);
  if (g_strcmp0 (page, "outcomes") == 0)
    ui_wait (has_outcomes, ui_find_type (GTK_WIDGET (window), SW_TYPE_OUTCOMES_VIEW), "the outcomes");
  if (section != NULL)
    sw_practice_view_show_section (SW_PRACTICE_VIEW (sw_window_get_practice_view (window)), section);
  for (int i = 0; i < 5; i++)
    ui_settle ();
  if (option (argc, argv, "scroll") != NULL)
    scroll (window, g_ascii_strtod (option (argc, argv, "scroll"), NULL));
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwClock) clock = NULL;
  SwMoment at;
  SwWindow *window;

  if (argc < 4 || !sw_moment_parse (argv[2], &at, &error))
    {
      g_printerr ("photograph RECORD AT OUT.png [patient=N] [step=NAME] [page=practice] [section=NAME]\n");
      return 2;
    }
  ui_init ();
  clock = sw_clock_new_at (at);
  window = ui_open (argv[1], clock);
  if (option (argc, argv, "width") != NULL)
    gtk_window_set_default_size (GTK_WINDOW (window), atoi (option (argc, argv, "width")),
                                 atoi (option (argc, argv, "height")));
  arrange (window, argc, argv);
  ui_photograph (GTK_WIDGET (window), argv[3]);
  ui_close (window);

  return EXIT_SUCCESS;
}
