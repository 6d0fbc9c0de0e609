/* test-outcomes.c: the outcomes page on the demo: the same figures as computed apart, what is behind them, files
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-chart-view.h"
#include "sw-demo.h"
#include "sw-outcome-filters.h"
#include "sw-outcome-section-view.h"
#include "sw-outcomes-view.h"
#include "sw-patient-page.h"
#include "sw-store.h"
#include "sw-treated-list.h"

#include <string.h>

#define TODAY 20782 /* 2026-11-25 */

static char *folder;
static SwClock *clock_of_demo;

static SwWindow *
open_outcomes (void)
{
  SwWindow *window = ui_open (folder, clock_of_demo);

  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "outcomes");
  return window;
}

static SwOutcomesView *
view_of (SwWindow *window)
{
  return SW_OUTCOMES_VIEW (ui_find_type (GTK_WIDGET (window), SW_TYPE_OUTCOMES_VIEW));
}

static gboolean
has_outcomes (gpointer view)
{
  return sw_outcomes_view_get_outcomes (view) != NULL;
}

static SwOutcomesView *
wait_for_figures (SwWindow *window)
{
  SwOutcomesView *view = view_of (window);

  ui_wait (has_outcomes, view, "the outcomes");
  ui_settle ();
  return view;
}

/* Computed apart from the window. */
static SwOutcomes *
compute (SwSplit split)
{
  g_autoptr (SwStore) store = sw_store_open (folder, SW_STORE_READ, NULL);
  g_autoptr (SwPractice) practice = sw_store_load_practice (store, NULL);
  g_autoptr (GArray) rows = sw_store_load_treated (store, 0, NULL);
  g_autoptr (SwOutcomeQuery) query = sw_outcome_query_new ();

  query->split = split;
  return sw_outcomes_compute (rows, practice, query, TODAY, NULL, NULL, NULL, NULL);
}

static guint
count_type (GtkWidget *root, GType type)
{
  guint count = g_type_is_a (G_OBJECT_TYPE (root), type);

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    count += count_type (child, type);
  return count;
}

/* Every text of every label, a line each. */
static void
collect_texts (GtkWidget *root, GString *texts)
{
  if (GTK_IS_LABEL (root))
    g_string_append_printf (texts, "%s\n", gtk_label_get_text (GTK_LABEL (root)));
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    collect_texts (child, texts);
}

static void
assert_shown (const char *texts, const char *wanted)
{
  g_autofree char *line = g_strdup_printf ("%s\n", wanted);

  ck_assert_msg (strstr (texts, line) != NULL, "“%s” is not shown", wanted);
}

static void
assert_all_shown (GtkWidget *view, const SwOutcomes *outcomes)
{
  g_autoptr (GString) texts = g_string_new ("\n");

  collect_texts (view, texts);
  for (guint s = 0; s < outcomes->sections->len; s++)
    {
      const SwOutcomeSection *section = outcomes->sections->pdata[s];

      assert_shown (texts->str, section->title);
      assert_shown (texts->str, section->definition);
      for (guint g = 0; section->empty == NULL && g < section->groups->len; g++)
        {
          const SwOutcomeGroup *group = section->groups->pdata[g];

          for (guint f = 0; f < group->figures->len; f++)
            {
              g_autofree char *text = sw_outcome_figure_text (group->figures->pdata[f]);

              assert_shown (texts->str, text);
            }
        }
    }
}

START_TEST (the_page_shows_what_was_computed_apart)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);
  g_autoptr (SwOutcomes) apart = compute (SW_SPLIT_NONE);

  ck_assert_uint_eq (count_type (GTK_WIDGET (view), SW_TYPE_OUTCOME_SECTION_VIEW), apart->sections->len);
  ck_assert_uint_ge (count_type (GTK_WIDGET (view), SW_TYPE_CHART_VIEW), 6);
  assert_all_shown (GTK_WIDGET (view), apart);
  ui_close (window);
}
END_TEST

START_TEST (everything_has_a_name_of_its_own)
{
  SwWindow *window = open_outcomes ();
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  wait_for_figures (window);
  ui_check_names (GTK_WIDGET (window), names);
  ui_close (window);
}
END_TEST

/* The first button below that opens what is behind a figure. */
static GtkWidget *
first_figure (GtkWidget *root)
{
  if (GTK_IS_BUTTON (root) && gtk_widget_has_css_class (root, "figure-row"))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = first_figure (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

START_TEST (a_figure_opens_its_tumours_and_these_their_dog)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);
  g_autoptr (SwOutcomes) apart = compute (SW_SPLIT_NONE);
  const SwOutcomeGroup *all = ((const SwOutcomeSection *) apart->sections->pdata[0])->groups->pdata[0];
  const SwOutcomeFigure *figure = all->figures->pdata[0];
  const SwTreated *row = &g_array_index (apart->rows, SwTreated, g_array_index (figure->rows, guint, 1));
  GtkWidget *list = ui_find_type (GTK_WIDGET (view), SW_TYPE_TREATED_LIST);
  GtkListView *rows;

  ui_click (first_figure (GTK_WIDGET (view)));
  ui_settle ();
  ck_assert (gtk_widget_get_mapped (list));
  rows = GTK_LIST_VIEW (ui_find_type (list, GTK_TYPE_LIST_VIEW));
  ck_assert_uint_eq (g_list_model_get_n_items (G_LIST_MODEL (gtk_list_view_get_model (rows))), figure->rows->len);
  ui_click (ui_find_button (list, "Back to the figures"));
  ui_settle ();
  ck_assert (!gtk_widget_get_mapped (list));
  ui_click (first_figure (GTK_WIDGET (view)));
  g_signal_emit_by_name (rows, "activate", 1);
  ui_settle ();
  ck_assert_int_eq (sw_patient_page_get_patient (SW_PATIENT_PAGE (sw_window_get_patient_page (window))), row->patient);
  ck_assert (gtk_widget_get_mapped (sw_window_get_patient_page (window)));
  ui_close (window);
}
END_TEST

/* The drop-downs of the filters in their order on the page. */
static GtkDropDown *
filter (GtkWidget *root, guint *skip)
{
  if (GTK_IS_DROP_DOWN (root))
    return (*skip)-- == 0 ? GTK_DROP_DOWN (root) : NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkDropDown *found = filter (child, skip);

      if (found != NULL)
        return found;
    }
  return NULL;
}

enum
{
  PERIOD,
  SPLIT,
  ONLY,
  VALUE
};

static void
choose (SwOutcomesView *view, guint which, guint selected)
{
  gtk_drop_down_set_selected (filter (ui_find_type (GTK_WIDGET (view), SW_TYPE_OUTCOME_FILTERS), &which), selected);
}

START_TEST (split_and_filter)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);
  g_autoptr (SwOutcomes) apart = compute (SW_SPLIT_SITE);
  const SwOutcomeSection *section;
  guint all;

  choose (view, SPLIT, SW_SPLIT_SITE);
  wait_for_figures (window);
  assert_all_shown (GTK_WIDGET (view), apart);
  section = sw_outcomes_view_get_outcomes (view)->sections->pdata[0];
  all = (guint) ((const SwOutcomeGroup *) section->groups->pdata[0])->n;
  choose (view, SPLIT, SW_SPLIT_NONE);
  choose (view, ONLY, SW_SPLIT_SITE); /* its first value is taken at once */
  wait_for_figures (window);
  section = sw_outcomes_view_get_outcomes (view)->sections->pdata[0];
  ck_assert_uint_lt ((guint) ((const SwOutcomeGroup *) section->groups->pdata[0])->n, all);
  ui_close (window);
}
END_TEST

START_TEST (days_that_are_typed)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);
  GtkWidget *filters = ui_find_type (GTK_WIDGET (view), SW_TYPE_OUTCOME_FILTERS);
  GtkWidget *from;
  g_autoptr (GString) texts = g_string_new (NULL);

  choose (view, PERIOD, 3);
  from = ui_find_type (filters, GTK_TYPE_ENTRY);
  gtk_editable_set_text (GTK_EDITABLE (from), "2026-13-01");
  collect_texts (filters, texts);
  ck_assert_ptr_nonnull (strstr (texts->str, "2026-13-01"));
  gtk_editable_set_text (GTK_EDITABLE (from), "2026-11-24");
  wait_for_figures (window);
  g_string_truncate (texts, 0);
  collect_texts (GTK_WIDGET (view), texts);
  ck_assert_ptr_nonnull (strstr (texts->str, "treated from 2026-11-24 to 2026-11-25"));
  ui_close (window);
}
END_TEST

START_TEST (stopped_and_computed_again)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);

  choose (view, SPLIT, SW_SPLIT_GRADE);
  choose (view, SPLIT, SW_SPLIT_DEPTH); /* the first is dropped */
  ck_assert_ptr_null (sw_outcomes_view_get_outcomes (view));
  ui_click (ui_find_button (GTK_WIDGET (view), "Stop computing"));
  for (int i = 0; i < 20; i++)
    ui_settle ();
  ck_assert_ptr_null (sw_outcomes_view_get_outcomes (view));
  ui_click (ui_find_button (GTK_WIDGET (view), "Compute again: the record has changed"));
  wait_for_figures (window);
  ui_close (window);
}
END_TEST

/* The widest choices at once still fit the smallest window. */
START_TEST (fits_the_window)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);
  int least;

  choose (view, PERIOD, 3);
  choose (view, SPLIT, SW_SPLIT_REPEAT);
  choose (view, ONLY, SW_SPLIT_REPEAT);
  choose (view, VALUE, 1);
  wait_for_figures (window);
  gtk_widget_measure (GTK_WIDGET (view), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  ck_assert_int_le (least, 1280);
  gtk_widget_measure (GTK_WIDGET (view), GTK_ORIENTATION_VERTICAL, 1280, &least, NULL, NULL, NULL);
  ck_assert_int_le (least, 720 - 60); /* less the title bar */
  ui_close (window);
}
END_TEST

static char *
content_of (const char *path)
{
  char *content = NULL;

  ck_assert_msg (g_file_get_contents (path, &content, NULL, NULL), "%s was not written", path);
  return content;
}

START_TEST (files_say_the_same)
{
  SwWindow *window = open_outcomes ();
  SwOutcomesView *view = wait_for_figures (window);
  g_autoptr (SwOutcomes) apart = compute (SW_SPLIT_NONE);
  g_autofree char *table = g_build_filename (folder, "..", "outcomes-test.csv", NULL);
  g_autofree char *paper = g_build_filename (folder, "..", "outcomes-test.pdf", NULL);
  g_autoptr (GFile) table_file = g_file_new_for_path (table), paper_file = g_file_new_for_path (paper);
  g_autofree char *wanted = sw_outcomes_figures_csv (apart), *written = NULL, *report = NULL;

  ck_assert (sw_outcomes_view_save_tables (view, table_file));
  written = content_of (table);
  ck_assert_str_eq (written, wanted);
  ck_assert (sw_outcomes_view_save_report (view, paper_file));
  report = content_of (paper);
  ck_assert (g_str_has_prefix (report, "%PDF"));
  ui_close (window);
}
END_TEST

int
main (void)
{
  SwDemoOptions options = { .seed = 1, .today = TODAY };
  Suite *suite = suite_create ("outcomes");
  TCase *tcase = tcase_create ("outcomes");
  g_autofree char *place = NULL;
  int result;

  ui_init ();
  place = ui_folder ();
  folder = g_build_filename (place, "demo", NULL);
  if (!sw_demo_make (folder, &options, NULL))
    return 1;
  clock_of_demo = sw_clock_new_at (sw_demo_now (&options));
  suite_add_tcase (suite, tcase);
  tcase_set_timeout (tcase, 60);
  tcase_add_test (tcase, the_page_shows_what_was_computed_apart);
  tcase_add_test (tcase, everything_has_a_name_of_its_own);
  tcase_add_test (tcase, a_figure_opens_its_tumours_and_these_their_dog);
  tcase_add_test (tcase, split_and_filter);
  tcase_add_test (tcase, days_that_are_typed);
  tcase_add_test (tcase, stopped_and_computed_again);
  tcase_add_test (tcase, fits_the_window);
  tcase_add_test (tcase, files_say_the_same);
  result = ui_run (suite);
  sw_clock_unref (clock_of_demo);
  g_free (folder);
  ui_forget (place);
  return result;
}
