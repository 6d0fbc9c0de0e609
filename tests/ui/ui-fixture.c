/* ui-fixture.c: what the tests of the window share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-application.h"
#include "sw-patient-page.h"
#include "sw-style.h"

#include <glib/gstdio.h>
#include <stdlib.h>

static GHashTable *demos; /* of this process: what it was made of -> folder */

void
ui_init (void)
{
  g_log_set_always_fatal (G_LOG_LEVEL_CRITICAL | G_LOG_LEVEL_WARNING);
  if (!gtk_init_check ())
    exit (77);
  sw_application_register_resources ();
  sw_style_install (gdk_display_get_default ());
}

int
ui_run (Suite *suite)
{
  SRunner *runner = srunner_create (suite);
  int failed;

  srunner_set_fork_status (runner, CK_NOFORK);
  srunner_run_all (runner, CK_ENV);
  failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  g_clear_pointer (&demos, g_hash_table_unref);

  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

char *
ui_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("siteward-ui-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

void
ui_forget (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        ui_forget (path);
      else
        g_remove (path);
    }
  g_rmdir (folder);
}

static void
forget_demo (gpointer folder)
{
  ui_forget (folder);
  g_free (folder);
}

static const char *
demo_made (const SwDemoOptions *options)
{
  g_autofree char *key = g_strdup_printf ("%u %d %s", options->patients, (int) options->today,
                                            options->script != NULL ? options->script : "");
  g_autoptr (GError) error = NULL;
  char *folder;

  if (demos == NULL)
    demos = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, forget_demo);
  folder = g_hash_table_lookup (demos, key);
  if (folder != NULL)
    return folder;
  folder = ui_folder ();
  sw_demo_make (folder, options, &error);
  g_assert_no_error (error);
  g_hash_table_insert (demos, g_steal_pointer (&key), folder);
  return folder;
}

static void
copy_file (const char *from, const char *to)
{
  g_autofree char *bytes = NULL;
  g_autoptr (GError) error = NULL;
  gsize size;

  g_file_get_contents (from, &bytes, &size, &error);
  g_assert_no_error (error);
  g_file_set_contents_full (to, bytes, (gssize) size, G_FILE_SET_CONTENTS_NONE, 0600, &error);
  g_assert_no_error (error);
}

static void
copy_folder (const char *from, const char *to)
{
  g_autoptr (GDir) dir = g_dir_open (from, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  g_mkdir_with_parents (to, 0700);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *source = g_build_filename (from, name, NULL), *copy = g_build_filename (to, name, NULL);

      if (g_file_test (source, G_FILE_TEST_IS_DIR))
        copy_folder (source, copy);
      else
        copy_file (source, copy);
    }
}

char *
ui_demo (const SwDemoOptions *options)
{
  char *folder = ui_folder ();

  copy_folder (demo_made (options), folder);
  return folder;
}

SwMoment
ui_begin (void)
{
  return (SwMoment){ sw_day_from_ymd (2026, 5, 13), 9 * 60 };
}

SwReply *
ui_perform (SwDesk *desk, SwRequest *request)
{
  g_autoptr (SwRequest) owned = request;
  g_autoptr (GError) error = NULL;
  SwReply *reply = sw_desk_perform (desk, owned, &error);

  g_assert_no_error (error);
  if (!reply->done)
    {
      g_autofree char *sentence = sw_finding_sentence (reply->findings->pdata[0]);

      g_error ("refused: %s", sentence);
    }
  return reply;
}

static gint64
register_patient (SwDesk *desk, gint64 person)
{
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_PATIENT, person, 0);
  SwClientDetails *client = sw_new (SW_FACT_CLIENT_DETAILS, SwClientDetails);
  SwPatientDetails *dog = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);
  g_autoptr (SwReply) reply = NULL;

  client->client = sw_request_add (request, sw_new (SW_FACT_CLIENT, SwClient));
  client->name = g_strdup ("Aldane");
  client->phone = g_strdup ("555 0101");
  dog->client = client->client;
  dog->name = g_strdup ("Marlo");
  dog->species = g_strdup ("dog");
  dog->breed = g_strdup ("wire-haired vizsla");
  dog->sex = SW_SEX_MALE;
  dog->neutered = 1;
  dog->born = sw_day_from_ymd (2019, 3, 2);
  dog->born_exact = 1;
  sw_request_add (request, client);
  dog->fact.patient = sw_request_add (request, sw_new (SW_FACT_PATIENT, SwPatient));
  sw_request_add (request, dog);
  reply = ui_perform (desk, request);

  return sw_reply_id (reply, SW_FACT_PATIENT);
}

static void
weigh (SwDesk *desk, const UiPractice *practice)
{
  SwRequest *request = sw_request_new (SW_ACT_WEIGH, practice->person, practice->patient);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->grams = 24600;
  weight->day = ui_begin ().day;
  weight->minute = ui_begin ().minute;
  weight->typed = g_strdup ("24.6");
  sw_request_add (request, weight);
  sw_reply_free (ui_perform (desk, request));
}

static gint64
register_tumour (SwDesk *desk, const UiPractice *practice)
{
  SwRequest *request = sw_request_new (SW_ACT_REGISTER_TUMOUR, practice->person, practice->patient);
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);
  g_autoptr (SwReply) reply = NULL;

  details->tumour = sw_request_add (request, sw_new (SW_FACT_TUMOUR, SwTumour));
  details->region = SW_REGION_HOCK;
  details->side = SW_SIDE_LEFT;
  details->depth = SW_DEPTH_CUTANEOUS;
  details->found = ui_begin ().day - 20;
  sw_request_add (request, details);
  reply = ui_perform (desk, request);

  return sw_reply_id (reply, SW_FACT_TUMOUR);
}

UiPractice *
ui_practice_new (void)
{
  UiPractice *practice = g_new0 (UiPractice, 1);
  SwFounding founding = { "Ines", "Europe/Vienna", "Sample Practice", TRUE, "ui" };
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = NULL;

  practice->folder = ui_folder ();
  practice->clock = sw_clock_new_at (ui_begin ());
  desk = sw_desk_found (practice->folder, &founding, practice->clock, &error);
  g_assert_no_error (error);
  practice->person = 1;
  practice->patient = register_patient (desk, practice->person);
  weigh (desk, practice);
  practice->tumour = register_tumour (desk, practice);

  return practice;
}

void
ui_practice_free (UiPractice *practice)
{
  ui_forget (practice->folder);
  g_free (practice->folder);
  sw_clock_unref (practice->clock);
  g_free (practice);
}

static gboolean
record_is_open (gpointer window)
{
  return sw_window_get_record (window) != NULL;
}

SwWindow *
ui_open (const char *folder, SwClock *clock)
{
  GtkWidget *window = sw_window_new (NULL, folder, clock);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 720);
  gtk_window_present (GTK_WINDOW (window));
  ui_wait (record_is_open, window, "the record to open");

  return SW_WINDOW (window);
}

static gboolean
patient_is_shown (gpointer page)
{
  return sw_patient_page_get_foot (page) != NULL;
}

void
ui_show_patient (SwWindow *window, gint64 patient)
{
  sw_window_show_patient (window, patient);
  ui_wait (patient_is_shown, sw_window_get_patient_page (window), "the patient's page");
  ui_settle ();
}

static void
gone (gpointer data, GObject *window)
{
  *(gboolean *) data = TRUE;
}

static gboolean
is_true (gpointer data)
{
  return *(gboolean *) data;
}

void
ui_close (SwWindow *window)
{
  gboolean closed = FALSE;

  g_object_weak_ref (G_OBJECT (window), gone, &closed);
  gtk_window_close (GTK_WINDOW (window));
  ui_wait (is_true, &closed, "the window to close");
}

GtkWidget *
ui_dialog (SwWindow *window)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) other = g_list_model_get_item (windows, i);

      if (gtk_window_get_transient_for (other) == GTK_WINDOW (window))
        return GTK_WIDGET (other);
    }
  return NULL;
}

GtkWidget *
ui_find_type (GtkWidget *root, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (root), type))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = ui_find_type (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
has_words (GtkWidget *widget, const char *words)
{
  GtkWidget *label = ui_find_type (widget, GTK_TYPE_LABEL);

  return label != NULL && g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), words) == 0;
}

GtkWidget *
ui_find_button (GtkWidget *root, const char *words)
{
  if (GTK_IS_BUTTON (root) && has_words (root, words))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = ui_find_button (child, words);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* The one way GTK 4.8 offers: the answer of its own check when it is asked for a name that can't be. */
char *
ui_name (GtkWidget *widget)
{
  GtkWidget *label;

  if (gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    return gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, "\001");
  if (!gtk_test_accessible_has_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY))
    return NULL;
  label = GTK_IS_BUTTON (widget) || GTK_IS_CHECK_BUTTON (widget) ? ui_find_type (widget, GTK_TYPE_LABEL) : NULL;

  return label != NULL ? g_strdup (gtk_label_get_text (GTK_LABEL (label)))
                       : g_strdup_printf ("labelled %s %p", G_OBJECT_TYPE_NAME (widget), widget);
}

/* The text inside an entry is read out by the entry's name, and what is inside a button never gets the focus. */
gboolean
ui_takes_focus (GtkWidget *widget)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);

  return gtk_widget_get_focusable (widget) && gtk_widget_get_sensitive (widget) && !GTK_IS_WINDOW (widget) && !GTK_IS_TEXT (widget)
         && (parent == NULL || gtk_widget_get_ancestor (parent, GTK_TYPE_BUTTON) == NULL);
}

/* Every widget that can be focused and is shown has a name of its own on its page. */
void
ui_check_names (GtkWidget *widget, GHashTable *names)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (ui_takes_focus (widget))
    {
      g_autofree char *name = ui_name (widget);

      ck_assert_msg (name != NULL, "%s has no name", G_OBJECT_TYPE_NAME (widget));
      ck_assert_msg (!g_hash_table_contains (names, name), "two widgets are called %s", name);
      g_hash_table_add (names, g_steal_pointer (&name));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    ui_check_names (child, names);
}

void
ui_click (GtkWidget *button)
{
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
}

typedef struct
{
  GtkWidget *button;
  gboolean clicked;
} Press;

static void
clicked_cb (GtkButton *button, gpointer press)
{
  ((Press *) press)->clicked = TRUE;
}

static gboolean
is_over (gpointer press)
{
  return ((Press *) press)->clicked || !gtk_widget_get_mapped (((Press *) press)->button);
}

/* What it does may take it away. */
static gboolean
hold_until_clicked (GtkWidget *button)
{
  g_autoptr (GtkWidget) held = g_object_ref (button);
  Press press = { button, FALSE };
  gulong handler = g_signal_connect (button, "clicked", G_CALLBACK (clicked_cb), &press);

  g_assert_true (gtk_widget_activate (button));
  ui_wait (is_over, &press, "the button to be clicked");
  g_signal_handler_disconnect (button, handler);
  return press.clicked;
}

gboolean
ui_press_by_key (GtkWidget *button)
{
  gboolean done;

  g_assert_true (gtk_widget_get_sensitive (button));
  g_assert_true (gtk_widget_grab_focus (button));
  done = GTK_IS_BUTTON (button) ? hold_until_clicked (button) : gtk_widget_activate (button);
  ui_settle ();
  return done;
}

void
ui_photograph (GtkWidget *widget, const char *file)
{
  GtkNative *native = gtk_widget_get_native (widget);
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (GTK_WIDGET (native));
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;

  gdk_paintable_snapshot (paintable, GDK_SNAPSHOT (snapshot), gdk_paintable_get_intrinsic_width (paintable),
                          gdk_paintable_get_intrinsic_height (paintable));
  node = gtk_snapshot_to_node (snapshot);
  texture = gsk_renderer_render_texture (gtk_native_get_renderer (native), node, NULL);
  g_assert_true (gdk_texture_save_to_png (texture, file));
}
