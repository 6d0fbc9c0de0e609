/* walk.c: a person at the window, for the walks
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "walk.h"

#include "sw-practice-view.h"
#include "sw-step-page.h"

#include <string.h>

/* --- what is shown --- */

static GtkWidget *
root_of (Walk *walk)
{
  GtkWidget *dialog = ui_dialog (walk->window);

  return dialog != NULL && gtk_widget_get_mapped (dialog) ? dialog : GTK_WIDGET (walk->window);
}

typedef GtkWidget *(*Match) (GtkWidget *widget, const char *name);

static GtkWidget *
search (GtkWidget *root, Match match, const char *name)
{
  GtkWidget *found;

  if (!gtk_widget_get_mapped (root))
    return NULL;
  if ((found = match (root, name)) != NULL)
    return found;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    if ((found = search (child, match, name)) != NULL)
      return found;
  return NULL;
}

static const char *
words_on (GtkWidget *button)
{
  GtkWidget *label = ui_find_type (button, GTK_TYPE_LABEL);

  return label != NULL ? gtk_label_get_text (GTK_LABEL (label)) : NULL;
}

static GtkWidget *
is_called (GtkWidget *widget, const char *name)
{
  g_autofree char *own = NULL;

  if (!ui_takes_focus (widget) && !GTK_IS_ENTRY (widget))
    return NULL;
  own = ui_name (widget);
  return g_strcmp0 (own, name) == 0 || (GTK_IS_BUTTON (widget) && g_strcmp0 (words_on (widget), name) == 0) ? widget : NULL;
}

/* Fields of forms are called by the label beside them. */
static GtkWidget *
is_labelled (GtkWidget *widget, const char *name)
{
  if (!GTK_IS_LABEL (widget) || g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), name) != 0)
    return NULL;
  return gtk_label_get_mnemonic_widget (GTK_LABEL (widget));
}

static GtkWidget *
holds (GtkWidget *widget, const char *text)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL ? widget : NULL;
}

static void
describe (GtkWidget *widget, GString *text)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_LABEL (widget) && gtk_label_get_text (GTK_LABEL (widget))[0] != '\0')
    g_string_append_printf (text, "  %s\n", gtk_label_get_text (GTK_LABEL (widget)));
  else if (ui_takes_focus (widget) || GTK_IS_ENTRY (widget))
    {
      g_autofree char *name = ui_name (widget);

      g_string_append_printf (text, "  [%s] %s\n", G_OBJECT_TYPE_NAME (widget), name != NULL ? name : "");
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    describe (child, text);
}

static void G_GNUC_NORETURN
give_up (Walk *walk, const char *what, const char *name)
{
  g_autoptr (GString) shown = g_string_new (NULL);

  describe (root_of (walk), shown);
  g_error ("%s “%s”. Shown:\n%s", what, name, shown->str);
}

/* --- waiting --- */

typedef struct
{
  Walk *walk;
  const char *name;
  gconstpointer before;
  GtkWidget *found;
} Wish;

static void
wait_for (UiCondition condition, Wish *wish, const char *what)
{
  if (!ui_wait_or_give_up (condition, wish))
    give_up (wish->walk, what, wish->name);
}

static GtkWidget *
look_for (Walk *walk, const char *name)
{
  GtkWidget *found = search (root_of (walk), is_called, name);

  return found != NULL ? found : search (root_of (walk), is_labelled, name);
}

static gboolean
is_found (gpointer data)
{
  Wish *wish = data;

  wish->found = look_for (wish->walk, wish->name);
  return wish->found != NULL;
}

GtkWidget *
walk_find (Walk *walk, const char *name)
{
  Wish wish = { walk, name, NULL, NULL };

  wait_for (is_found, &wish, "nothing shown is called");
  return wish.found;
}

gboolean
walk_has (Walk *walk, const char *name)
{
  return look_for (walk, name) != NULL;
}

gboolean
walk_says (Walk *walk, const char *text)
{
  return search (root_of (walk), holds, text) != NULL;
}

static gboolean
is_said (gpointer data)
{
  Wish *wish = data;

  return walk_says (wish->walk, wish->name);
}

void
walk_see (Walk *walk, const char *text)
{
  Wish wish = { walk, text, NULL, NULL };

  wait_for (is_said, &wish, "nothing shown says");
}

static SwPatientPage *
patient_page (Walk *walk)
{
  return SW_PATIENT_PAGE (sw_window_get_patient_page (walk->window));
}

static gboolean
is_at_the_foot (gpointer data)
{
  Wish *wish = data;
  const char *foot = sw_patient_page_get_foot (patient_page (wish->walk));

  return foot != NULL && strstr (foot, wish->name) != NULL;
}

void
walk_foot (Walk *walk, const char *text)
{
  Wish wish = { walk, text, NULL, NULL };

  wait_for (is_at_the_foot, &wish, "the foot line does not say");
}

/* The dossier that the pages show. */
static gconstpointer
loaded (Walk *walk)
{
  GtkWidget *page = ui_find_type (GTK_WIDGET (patient_page (walk)), SW_TYPE_STEP_PAGE);
  const SwPageContext *context = page != NULL ? sw_step_page_get_context (SW_STEP_PAGE (page)) : NULL;

  return context != NULL ? context->dossier : NULL;
}

static gboolean
is_loaded_again (gpointer data)
{
  Wish *wish = data;
  gconstpointer now = loaded (wish->walk);

  return now != NULL && now != wish->before;
}

static gboolean
no_dialog (gpointer data)
{
  return ui_dialog (((Wish *) data)->walk->window) == NULL;
}

/* --- doing --- */

void
walk_press (Walk *walk, const char *name)
{
  GtkWidget *button = walk_find (walk, name);

  if (!GTK_IS_BUTTON (button) || !gtk_widget_is_sensitive (button))
    give_up (walk, "this can't be pressed:", name);
  ui_click (button);
}

void
walk_act (Walk *walk, const char *name)
{
  Wish wish = { walk, name, loaded (walk), NULL };

  walk_press (walk, name);
  wait_for (is_loaded_again, &wish, "nothing was recorded by");
  ui_settle ();
}

void
walk_answer (Walk *walk, const char *name)
{
  Wish wish = { walk, name, NULL, NULL };

  walk_press (walk, name);
  wait_for (no_dialog, &wish, "the dialog is still open after");
  ui_settle ();
}

static GtkWidget *
field (Walk *walk, const char *name)
{
  GtkWidget *found = ui_find_type (walk_find (walk, name), GTK_TYPE_EDITABLE);

  if (found == NULL)
    give_up (walk, "nothing can be typed into", name);
  return found;
}

void
walk_type (Walk *walk, const char *name, const char *text)
{
  GtkWidget *entry = field (walk, name);

  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

void
walk_enter (Walk *walk, const char *name, const char *text)
{
  walk_type (walk, name, text);
  g_signal_emit_by_name (field (walk, name), "activate");
}

void
walk_choose (Walk *walk, const char *name, const char *choice)
{
  GtkWidget *drop_down = gtk_widget_get_ancestor (walk_find (walk, name), GTK_TYPE_DROP_DOWN);
  GListModel *choices = drop_down != NULL ? gtk_drop_down_get_model (GTK_DROP_DOWN (drop_down)) : NULL;

  for (guint i = 0; choices != NULL && i < g_list_model_get_n_items (choices); i++)
    if (g_strcmp0 (gtk_string_list_get_string (GTK_STRING_LIST (choices), i), choice) == 0)
      {
        gtk_drop_down_set_selected (GTK_DROP_DOWN (drop_down), i);
        return;
      }
  give_up (walk, name, choice);
}

void
walk_tick (Walk *walk, const char *name)
{
  GtkWidget *check = walk_find (walk, name);

  if (!GTK_IS_CHECK_BUTTON (check))
    give_up (walk, "this can't be ticked:", name);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
}

static guint
tick_below (GtkWidget *widget)
{
  guint n = GTK_IS_CHECK_BUTTON (widget) ? 1 : 0;

  if (n > 0)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (widget), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    n += tick_below (child);
  return n;
}

guint
walk_tick_all (Walk *walk)
{
  return tick_below (root_of (walk));
}

/* --- going --- */

static gboolean
record_is_open (gpointer data)
{
  return sw_window_get_record (((Wish *) data)->walk->window) != NULL;
}

static void
show_dog (Walk *walk)
{
  Wish wish = { walk, "the dog's page", NULL, NULL };

  sw_window_show_patient (walk->window, 0);
  sw_window_show_patient (walk->window, walk->patient);
  wish.before = loaded (walk);
  wait_for (is_loaded_again, &wish, "waited in vain for");
  if (walk->step != NULL)
    walk_press (walk, walk->step);
  ui_settle ();
}

void
walk_open (Walk *walk)
{
  GtkWidget *window = sw_window_new (NULL, walk->folder, walk->clock);
  g_autofree char *file = g_build_filename (walk->folder, "record.sqlite", NULL);
  Wish wish = { walk, "the record", NULL, NULL };

  walk->window = SW_WINDOW (window);
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 720);
  gtk_window_present (GTK_WINDOW (window));
  if (!g_file_test (file, G_FILE_TEST_EXISTS))
    return;
  wait_for (record_is_open, &wish, "waited in vain for");
  if (walk->person != 0)
    walk_sit_down (walk, walk->person);
  if (walk->patient != 0)
    show_dog (walk);
}

void
walk_close (Walk *walk)
{
  ui_close (walk->window);
  walk->window = NULL;
}

SwDay
walk_day (const Walk *walk, int day)
{
  return walk->first_day + day;
}

void
walk_at (Walk *walk, int day, int hour, int minute)
{
  SwMoment now = { walk_day (walk, day), hour * SW_MINUTES_PER_HOUR + minute };
  gboolean night = now.day != sw_record_get_now (sw_window_get_record (walk->window)).local.day;

  if (night)
    walk_close (walk);
  sw_clock_set (walk->clock, now);
  if (night)
    walk_open (walk);
  else if (walk->patient != 0)
    show_dog (walk);
}

void
walk_sit_down (Walk *walk, gint64 person)
{
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, person);

  walk->person = person;
  gtk_widget_activate_action (GTK_WIDGET (walk->window), "win.person", "s", id);
  ui_settle ();
}

void
walk_step (Walk *walk, const char *title)
{
  g_free (walk->step);
  walk->step = g_strdup (title);
  walk_press (walk, title);
  ui_settle ();
}

void
walk_page (Walk *walk, const char *page, const char *section)
{
  gtk_widget_activate_action (GTK_WIDGET (walk->window), "win.page", "s", page);
  if (section != NULL)
    sw_practice_view_show_section (SW_PRACTICE_VIEW (sw_window_get_practice_view (walk->window)), section);
  ui_settle ();
}

/* --- looking --- */

SwDossier *
walk_dossier (Walk *walk)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (walk->folder, walk->clock, &error);
  SwDossier *dossier;

  g_assert_no_error (error);
  dossier = sw_desk_load_dossier (desk, walk->patient, &error);
  g_assert_no_error (error);

  return dossier;
}

static void
take (Walk *walk, const char *name, gboolean dark)
{
  g_autofree char *file = g_strdup_printf ("%s/%s-%s.png", walk->pictures, name, dark ? "dark" : "light");

  g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", dark, NULL);
  gtk_test_widget_wait_for_draw (root_of (walk));
  ui_settle ();
  ui_photograph (root_of (walk), file);
}

void
walk_picture (Walk *walk, const char *name)
{
  if (walk->pictures == NULL)
    return;
  take (walk, name, TRUE);
  take (walk, name, FALSE);
}

void
walk_scroll_to (Walk *walk, const char *name)
{
  GtkWidget *widget = walk_find (walk, name);
  GtkWidget *scrolled = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *at = scrolled != NULL ? gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled)) : NULL;
  double x, y;

  if (at == NULL || !gtk_widget_translate_coordinates (widget, scrolled, 0, 0, &x, &y))
    return;
  gtk_adjustment_set_value (at, gtk_adjustment_get_value (at) + y - gtk_adjustment_get_page_size (at) / 2);
  ui_settle ();
}
