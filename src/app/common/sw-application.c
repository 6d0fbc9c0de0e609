/* sw-application.c: the program
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-application.h"

#include "sw-app-resources.h"
#include "sw-clock.h"
#include "sw-style.h"
#include "sw-window.h"

#include <glib/gi18n-lib.h>

#define APPLICATION_ID "org.siteward.Siteward"

struct _SwApplication
{
  GtkApplication parent_instance;

  /* owned */
  GSettings *settings; /* NULL where the schema is not installed: then nothing is remembered */
  char *directory;     /* --record; NULL */
  SwClock *clock;
};

G_DEFINE_FINAL_TYPE (SwApplication, sw_application, GTK_TYPE_APPLICATION)

void
sw_application_register_resources (void)
{
  g_resources_register (sw_app_get_resource ());
}

static GSettings *
open_settings (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = NULL;

  if (source == NULL)
    return NULL;
  schema = g_settings_schema_source_lookup (source, APPLICATION_ID, TRUE);
  return schema != NULL ? g_settings_new_full (schema, NULL, NULL) : NULL;
}

static char *
record_directory (SwApplication *self)
{
  g_autofree char *kept = self->settings != NULL ? g_settings_get_string (self->settings, "record-path") : NULL;

  if (self->directory != NULL)
    return g_strdup (self->directory);
  if (kept != NULL && kept[0] != '\0')
    return g_steal_pointer (&kept);
  return g_build_filename (g_get_user_data_dir (), "siteward", "record", NULL);
}

static void
bind_window (SwApplication *self, GtkWindow *window)
{
  if (self->settings == NULL)
    return;
  g_settings_bind (self->settings, "window-width", window, "default-width", G_SETTINGS_BIND_DEFAULT);
  g_settings_bind (self->settings, "window-height", window, "default-height", G_SETTINGS_BIND_DEFAULT);
  g_settings_bind (self->settings, "window-maximized", window, "maximized", G_SETTINGS_BIND_DEFAULT);
}

/* Only a place chosen in the window is remembered; --record is for once. */
static void
remember_place (SwApplication *self, SwWindow *window)
{
  SwRecord *record = sw_window_get_record (window);

  if (self->settings != NULL && self->directory == NULL && record != NULL)
    g_settings_set_string (self->settings, "record-path", sw_record_get_directory (record));
}

static gboolean
closing_cb (GtkWindow *window, SwApplication *self)
{
  remember_place (self, SW_WINDOW (window));
  return FALSE;
}

static void
sw_application_activate (GApplication *application)
{
  SwApplication *self = SW_APPLICATION (application);
  g_autofree char *directory = record_directory (self);
  GtkWidget *window = sw_window_new (GTK_APPLICATION (self), directory, self->clock);

  bind_window (self, GTK_WINDOW (window));
  g_signal_connect_object (window, "close-request", G_CALLBACK (closing_cb), self, 0);
  gtk_window_present (GTK_WINDOW (window));
}

static void
quit_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWindow *window = gtk_application_get_active_window (data);

  if (window != NULL)
    gtk_window_close (window);
}

static void
sw_application_startup (GApplication *application)
{
  static const GActionEntry entries[] = { { "quit", quit_action } };
  static const struct
  {
    const char *action;
    const char *keys[2];
  } accels[] = {
    { "app.quit", { "<Control>q" } },
    { "win.find", { "<Control>f" } },
    { "win.new-patient", { "<Control>n" } },
    { "win.page::patients", { "<Alt>1" } },
    { "win.page::practice", { "<Alt>2" } },
  };

  G_APPLICATION_CLASS (sw_application_parent_class)->startup (application);
  sw_style_install (gdk_display_get_default ());
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  for (guint i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (application), accels[i].action,
                                           (const char *const *) accels[i].keys);
}

static int
refuse (const char *sentence)
{
  g_printerr ("siteward: %s\n", sentence);
  return 2;
}

static int
sw_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  SwApplication *self = SW_APPLICATION (application);
  const char *at = NULL;
  g_autoptr (GError) error = NULL;
  SwMoment moment;

  g_variant_dict_lookup (options, "record", "^ay", &self->directory);
  if (!g_variant_dict_lookup (options, "at", "&s", &at))
    return -1;
  if (!sw_moment_parse (at, &moment, &error))
    return refuse (error->message);
  sw_clock_unref (self->clock);
  self->clock = sw_clock_new_running_from (moment);

  return -1;
}

static void
sw_application_finalize (GObject *object)
{
  SwApplication *self = SW_APPLICATION (object);

  g_clear_object (&self->settings);
  sw_clock_unref (self->clock);
  g_free (self->directory);
  G_OBJECT_CLASS (sw_application_parent_class)->finalize (object);
}

static void
sw_application_class_init (SwApplicationClass *class)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_application_finalize;
  application_class->activate = sw_application_activate;
  application_class->startup = sw_application_startup;
  application_class->handle_local_options = sw_application_handle_local_options;
}

static void
sw_application_init (SwApplication *self)
{
  static const GOptionEntry options[] = {
    { "record", 0, 0, G_OPTION_ARG_FILENAME, NULL, N_("Open or make the record in this folder"), N_("DIR") },
    { "at", 0, 0, G_OPTION_ARG_STRING, NULL, N_("Let it be this moment (records for practising only)"),
      N_("YYYY-MM-DDTHH:MM") },
    { NULL },
  };

  self->clock = sw_clock_new ();
  self->settings = open_settings ();
  g_application_add_main_option_entries (G_APPLICATION (self), options);
}

SwApplication *
sw_application_new (void)
{
  sw_application_register_resources ();
  return g_object_new (SW_TYPE_APPLICATION, "application-id", APPLICATION_ID, "flags", G_APPLICATION_NON_UNIQUE, NULL);
}
