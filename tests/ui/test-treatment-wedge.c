/* test-treatment-wedge.c: a caliper that types, through the X server: real key presses, counted
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-treatment.h"

#include "sw-patient-page.h"
#include "sw-quantity-entry.h"
#include "sw-step-page.h"

#define MOST_ENTERS 9

static guint enters;

static gboolean
count_enter_cb (GtkEventController *controller, guint keyval, guint keycode, GdkModifierType modifiers, gpointer data)
{
  enters += keyval == GDK_KEY_Return;
  return GDK_EVENT_PROPAGATE;
}

static void
count_enters (UiDay *day)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  enters = 0;
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (count_enter_cb), NULL);
  gtk_widget_add_controller (GTK_WIDGET (day->window), keys);
}

static void
ended_cb (GPid pid, int status, gpointer running)
{
  g_spawn_close_pid (pid);
  *(gboolean *) running = FALSE;
}

/* A number and Enter, as fast as a caliper sends them. */
static void
burst (const char *number)
{
  g_autoptr (GPtrArray) args = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  gboolean running = TRUE;
  GPid pid;

  for (const char *const *word = (const char *const[]){ "xdotool", "key", "--delay", "2", NULL }; *word != NULL; word++)
    g_ptr_array_add (args, g_strdup (*word));
  for (; *number != '\0'; number++)
    g_ptr_array_add (args, *number == '.' ? g_strdup ("period") : g_strndup (number, 1));
  g_ptr_array_add (args, g_strdup ("Return"));
  g_ptr_array_add (args, NULL);
  g_spawn_async (NULL, (char **)args->pdata, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pid,
                 &error);
  g_assert_no_error (error);
  g_child_watch_add (pid, ended_cb, &running);
  while (running)
    g_main_context_iteration (NULL, TRUE);
  ui_settle ();
}

/* From the open patient, without a mouse: weight, two readings, the dose. */
START_TEST (seven_enters_to_the_dose)
{
  static const char *const numbers[] = { "24.6", "21.4", "18.0", "8.9", "21.0", "17.6", "9.1" };
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  gtk_widget_grab_focus (ui_find_button (sw_window_get_patient_page (day->window), "Treatment day"));
  count_enters (day);
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    burst (numbers[i]);
  ui_wait_shows (day->page, "0.85 mL");
  ck_assert (ui_shows (day->page, "in a 1 mL syringe"));
  ck_assert_uint_eq (enters, G_N_ELEMENTS (numbers));
  ck_assert_uint_le (enters, MOST_ENTERS);
}
END_TEST

/* --- a burst anywhere --- */

static void
collect (GtkWidget *widget, GPtrArray *widgets)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (ui_takes_focus (widget) || GTK_IS_ENTRY (widget))
    g_ptr_array_add (widgets, g_object_ref (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect (child, widgets);
}

/* Everything on record but weights and readings, which a number and Enter in their cells may write. */
static guint
other_rows (UiDay *day)
{
  g_autoptr (SwDossier) dossier = ui_dossier (day, MARLO);
  guint rows = 0;

  for (int kind = 0; kind < SW_N_FACTS; kind++)
    if (kind != SW_FACT_WEIGHT && kind != SW_FACT_READING && dossier->facts.rows[kind] != NULL)
      rows += dossier->facts.rows[kind]->len;
  return rows;
}

static void
append_state (GtkWidget *widget, GString *state)
{
  if (GTK_IS_CHECK_BUTTON (widget))
    g_string_append_printf (state, "%d", gtk_check_button_get_active (GTK_CHECK_BUTTON (widget)));
  else if (GTK_IS_TOGGLE_BUTTON (widget))
    g_string_append_printf (state, "t%d", gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (widget)));
  else if (GTK_IS_DROP_DOWN (widget))
    g_string_append_printf (state, "d%u", gtk_drop_down_get_selected (GTK_DROP_DOWN (widget)));
  else if (GTK_IS_EXPANDER (widget))
    g_string_append_printf (state, "e%d", gtk_expander_get_expanded (GTK_EXPANDER (widget)));
  else if (GTK_IS_POPOVER (widget))
    g_string_append_printf (state, "p%d", gtk_widget_get_mapped (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    append_state (child, state);
}

/* What is ticked, chosen, opened on the page. */
static char *
state_of (UiDay *day)
{
  GString *state = g_string_new (NULL);

  append_state (day->page, state);
  return g_string_free (state, FALSE);
}

static guint
count_windows (void)
{
  return g_list_model_get_n_items (gtk_window_get_toplevels ());
}

static void
check_bursts (UiDay *day)
{
  g_autoptr (GPtrArray) widgets = g_ptr_array_new_with_free_func (g_object_unref);
  guint rows = other_rows (day), windows = count_windows (), tried = 0;
  g_autofree char *state = state_of (day);

  collect (day->page, widgets);
  for (guint i = 0; i < widgets->len; i++)
    {
      GtkWidget *widget = widgets->pdata[i];
      g_autofree char *name = gtk_widget_get_mapped (widget) ? ui_name (widget) : NULL;
      g_autofree char *now = NULL;

      /* The cells themselves may take it: that is what they are for. */
      if (name == NULL || sw_quantity_entry_around (widget) != NULL || !gtk_widget_grab_focus (widget))
        continue;
      burst ("2.1");
      tried++;
      now = state_of (day);
      ck_assert_msg (g_str_equal (now, state), "a burst at “%s” changed what is ticked, chosen or open", name);
      ck_assert_msg (count_windows () == windows, "a burst at “%s” opened a window", name);
    }
  ck_assert_uint_gt (tried, 20);
  ck_assert_uint_eq (other_rows (day), rows);
}

START_TEST (a_burst_anywhere_signs_nothing)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  check_bursts (day);
}
END_TEST

/* The drawing and injecting form, and no cell that a digit could point to. */
START_TEST (a_burst_after_the_release_signs_nothing)
{
  g_autoptr (UiDay) day = ui_day_new (MARLO);

  ui_day_release (day);
  ck_assert_ptr_null (sw_step_page_first_empty_cell (SW_STEP_PAGE (day->page)));
  check_bursts (day);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("treatment-wedge");
  TCase *tcase = tcase_create ("treatment-wedge");

  ui_init ();
  tcase_set_timeout (tcase, 110);
  tcase_add_test (tcase, seven_enters_to_the_dose);
  tcase_add_test (tcase, a_burst_anywhere_signs_nothing);
  tcase_add_test (tcase, a_burst_after_the_release_signs_nothing);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
