/* sw-start-page.c: the first start
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-start-page.h"

#include "sw-dialogs.h"
#include "sw-finding-view.h"
#include "sw-form.h"

#include <glib/gi18n-lib.h>

struct _SwStartPage
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *box;
  GtkBox *form_place;
  SwFindingView *answer;
  GtkWidget *make;

  /* children */
  GtkWidget *name;
  GtkWidget *practice;
  GtkWidget *zone;
  GtkWidget *place;

  /* owned */
  SwClock *clock;
  char *directory;
};

G_DEFINE_FINAL_TYPE (SwStartPage, sw_start_page, GTK_TYPE_WIDGET)

enum { OPENED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
opened_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwStartPage) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwRecord) record = sw_record_open_finish (result, &error);

  gtk_widget_set_sensitive (self->make, TRUE);
  gtk_widget_set_visible (self->box, record == NULL);
  if (record == NULL)
    sw_finding_view_set_error (self->answer, error);
  else
    g_signal_emit (self, signals[OPENED], 0, record);
}

static void
open_record (SwStartPage *self, const char *directory, const SwFounding *founding)
{
  sw_finding_view_clear (self->answer);
  gtk_widget_set_sensitive (self->make, FALSE);
  sw_record_open_async (directory, founding, self->clock, NULL, opened_cb, g_object_ref (self));
}

static gboolean
is_zone (const char *zone)
{
  g_autoptr (GTimeZone) known = zone != NULL ? g_time_zone_new_identifier (zone) : NULL;

  return known != NULL;
}

static void
make_cb (GtkButton *button, SwStartPage *self)
{
  g_autofree char *name = sw_field_dup_text (self->name);
  g_autofree char *practice = sw_field_dup_text (self->practice);
  g_autofree char *zone = sw_field_dup_text (self->zone);
  SwFounding founding = { 0 };

  if (name == NULL)
    {
      sw_finding_view_set_sentence (self->answer, SW_NOT_KNOWN,
                                    _("Enter your name: every act is recorded with the name of who did it."),
                                    NULL);
      gtk_widget_grab_focus (self->name);
      return;
    }
  if (!is_zone (zone))
    {
      sw_finding_view_set_sentence (self->answer, SW_NOT_KNOWN,
                                    _("This time zone is not known. Enter a name such as Europe/Vienna."), NULL);
      gtk_widget_grab_focus (self->zone);
      return;
    }
  founding.first_name = name;
  founding.zone = zone;
  founding.practice = practice;
  founding.practice_only = sw_clock_is_scripted (self->clock);
  open_record (self, self->directory, &founding);
}

static void
folder_chosen_cb (GFile *folder, gpointer data)
{
  SwStartPage *self = data;
  g_autofree char *directory = folder != NULL ? g_file_get_path (folder) : NULL;

  if (directory != NULL)
    sw_start_page_open (self, directory);
}

static void
other_cb (GtkButton *button, SwStartPage *self)
{
  sw_dialog_folder (GTK_WIDGET (self), _("Open a record"), _("_Open"), folder_chosen_cb, self);
}

static void
sw_start_page_dispose (GObject *object)
{
  SwStartPage *self = SW_START_PAGE (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->clock, sw_clock_unref);
  g_clear_pointer (&self->directory, g_free);
  G_OBJECT_CLASS (sw_start_page_parent_class)->dispose (object);
}

static void
sw_start_page_class_init (SwStartPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_start_page_dispose;
  signals[OPENED] = g_signal_new ("opened", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1,
                                  SW_TYPE_RECORD);
  g_type_ensure (SW_TYPE_FINDING_VIEW);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, box);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, form_place);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, answer);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, make);
  gtk_widget_class_bind_template_callback (widget_class, make_cb);
  gtk_widget_class_bind_template_callback (widget_class, other_cb);
}

static void
sw_start_page_init (SwStartPage *self)
{
  g_autoptr (GTimeZone) local = g_time_zone_new_local ();
  const char *zone = g_time_zone_get_identifier (local);
  GtkWidget *form = sw_form_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  self->name = sw_text_field_new (32);
  self->practice = sw_text_field_new (32);
  self->zone = sw_text_field_new (32);
  self->place = sw_quiet_new (NULL);
  gtk_editable_set_text (GTK_EDITABLE (self->zone), zone != NULL ? zone : "UTC");
  sw_form_add (GTK_GRID (form), _("your _name"), self->name);
  sw_form_add (GTK_GRID (form), _("the _practice"), self->practice);
  sw_form_add (GTK_GRID (form), _("time _zone"), self->zone);
  sw_form_add (GTK_GRID (form), _("folder"), self->place);
  sw_form_add_wide (GTK_GRID (form),
                    sw_quiet_new (_("You become its first person, with the roles of technician, vet and manager.")));
  gtk_box_append (self->form_place, form);
}

void
sw_start_page_set_place (SwStartPage *self, const char *directory, SwClock *clock)
{
  g_free (self->directory);
  self->directory = g_strdup (directory);
  g_clear_pointer (&self->clock, sw_clock_unref);
  self->clock = sw_clock_ref (clock);
  gtk_label_set_text (GTK_LABEL (self->place), directory);
}

void
sw_start_page_open (SwStartPage *self, const char *directory)
{
  gtk_widget_set_visible (self->box, FALSE); /* unless it can't be opened, no form is needed */
  open_record (self, directory, NULL);
}
