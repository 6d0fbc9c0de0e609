/* sw-settings-page.c: the clinical settings
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-settings-page.h"

#include "sw-error.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-quantity.h"
#include "sw-setting-field.h"
#include "sw-strengths.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>

struct _SwSettingsPage
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *scrolled;
  GtkWidget *hours;
  GtkWidget *medicines;
  GtkWidget *none_words;
  SwFindingView *answer;

  /* owned */
  SwRecord *record;
  GPtrArray *fields;   /* SwSettingField, borrowed from the tree */
  GHashTable *offered; /* substances that have their fields already */

  gint64 person;
};

G_DEFINE_FINAL_TYPE (SwSettingsPage, sw_settings_page, GTK_TYPE_WIDGET)

static char *
parse_hour (const char *text, gint64 limit, GError **error)
{
  int minute;

  return sw_time_parse (text, &minute, error) ? g_strdup_printf ("%d", minute) : NULL;
}

static char *
format_hour (const char *kept)
{
  return sw_time_format ((int) g_ascii_strtoll (kept, NULL, 10));
}

static char *
parse_zone (const char *text, gint64 limit, GError **error)
{
  g_autofree char *zone = g_strstrip (g_strdup (text));
  g_autoptr (GTimeZone) known = g_time_zone_new_identifier (zone);

  if (known != NULL && zone[0] != '\0')
    return g_steal_pointer (&zone);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("The time zone “%s” is not known. Enter a name such as Europe/Vienna."), zone);
  return NULL;
}

/* A washout may be lengthened only: `least` is what the medicine's document says. */
static char *
parse_washout (const char *text, gint64 least, GError **error)
{
  gint64 days;

  if (!sw_integer_parse (text, &days, error))
    return NULL;
  if (days >= least)
    return g_strdup_printf ("%" G_GINT64_FORMAT, days);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
               _("%" PRId64 " days are shorter than the %" PRId64 " of the medicine's document: it may be "
                 "lengthened only."),
               days, least);
  return NULL;
}

static char *
parse_strengths (const char *text, gint64 limit, GError **error)
{
  return sw_strengths_parse (text, error);
}

static char *
format_plain (const char *kept)
{
  return g_strdup (kept);
}

static GtkWidget *
add_field (SwSettingsPage *self, GtkWidget *field)
{
  g_ptr_array_add (self->fields, field);
  return field;
}

static void
add_hours (SwSettingsPage *self)
{
  GtkGrid *form = GTK_GRID (self->hours);

  sw_form_add_heading (form, _("Hours of medicines"));
  sw_form_add (form, _("_morning"),
               add_field (self,
                          sw_setting_field_new ("hour-morning", _("morning hour"), "480", 0, parse_hour, format_hour,
                                                6)));
  sw_form_add (form, _("_evening"),
               add_field (self,
                          sw_setting_field_new ("hour-evening", _("evening hour"), "1200", 0, parse_hour, format_hour,
                                                6)));
  sw_form_add (form, _("time _zone"),
               add_field (self, sw_setting_field_new ("zone", _("time zone"), "UTC", 0, parse_zone, format_plain, 24)));
  sw_form_add_wide (form, sw_quiet_new (_("A changed hour holds for plans that are signed from then on.")));
}

/* What the document itself says, as the setting would keep it. */
static char *
document_strengths (const SwMedicine *medicine)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < medicine->strengths->len; i++)
    {
      const SwStrength *strength = medicine->strengths->pdata[i];

      g_string_append_printf (text, "%s%" G_GINT64_FORMAT "%s", i > 0 ? ";" : "", strength->ug,
                              strength->form == SW_FORM_LIQUID ? "/mL" : "");
    }
  return g_string_free (text, FALSE);
}

static void
add_strengths (SwSettingsPage *self, const SwMedicine *medicine)
{
  g_autofree char *key = g_strconcat ("strengths.", medicine->head.id, NULL);
  g_autofree char *own = document_strengths (medicine);
  g_autofree char *name = g_strdup_printf (_("%s: strengths on the shelf, mg"), medicine->head.id);

  sw_form_add (GTK_GRID (self->medicines), name,
               add_field (self, sw_setting_field_new (key, name, own, 0, parse_strengths, sw_strengths_format, 32)));
}

static void
add_washout (SwSettingsPage *self, const SwMedicine *medicine)
{
  g_autofree char *key = g_strconcat ("washout.", medicine->head.id, NULL);
  g_autofree char *own = g_strdup_printf ("%" G_GINT64_FORMAT, medicine->washout_days);
  g_autofree char *name = g_strdup_printf (_("%s: washout, days"), medicine->head.id);

  sw_form_add (GTK_GRID (self->medicines), name,
               add_field (self,
                          sw_setting_field_new (key, name, own, medicine->washout_days, parse_washout, format_plain,
                                                6)));
}

/* Medicines appear once their document is in the record; they never go again. */
static void
add_medicines (SwSettingsPage *self)
{
  const GPtrArray *medicines = sw_books_medicines (sw_record_get_books (self->record));

  for (guint i = 0; i < medicines->len; i++)
    {
      const SwMedicine *medicine = medicines->pdata[i];

      if (!g_hash_table_add (self->offered, g_strdup (medicine->head.id)))
        continue;
      if (medicine->strengths->len > 0)
        add_strengths (self, medicine);
      if (medicine->washout_days != SW_UNKNOWN)
        add_washout (self, medicine);
    }
  gtk_widget_set_visible (self->none_words, medicines->len == 0);
}

static void
replied_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwSettingsPage *self = SW_SETTINGS_PAGE (page);

  for (guint i = 0; reply != NULL && reply->done && i < self->fields->len; i++)
    sw_setting_field_taken (self->fields->pdata[i]);
}

static void
save_cb (GtkButton *button, SwSettingsPage *self)
{
  g_autoptr (SwRequest) request = sw_request_new (SW_ACT_CHANGE_SETTING, self->person, 0);
  const SwPractice *practice = sw_record_get_practice (self->record);

  for (guint i = 0; i < self->fields->len; i++)
    if (!sw_setting_field_add (self->fields->pdata[i], practice, request))
      return;
  if (request->facts->len == 0)
    sw_finding_view_set_sentence (self->answer, SW_NOTE, _("Nothing was changed."), NULL);
  else
    sw_perform (GTK_WIDGET (self), self->record, g_steal_pointer (&request), self->answer, replied_cb, NULL);
}

static void
sw_settings_page_dispose (GObject *object)
{
  SwSettingsPage *self = SW_SETTINGS_PAGE (object);

  g_clear_pointer (&self->scrolled, gtk_widget_unparent);
  g_clear_object (&self->record);
  G_OBJECT_CLASS (sw_settings_page_parent_class)->dispose (object);
}

static void
sw_settings_page_finalize (GObject *object)
{
  SwSettingsPage *self = SW_SETTINGS_PAGE (object);

  g_ptr_array_unref (self->fields);
  g_hash_table_unref (self->offered);
  G_OBJECT_CLASS (sw_settings_page_parent_class)->finalize (object);
}

static void
sw_settings_page_class_init (SwSettingsPageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_settings_page_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_settings_page_finalize;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_settings_page_init (SwSettingsPage *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *save = sw_primary_button_new (_("_Save the Settings"));

  self->fields = g_ptr_array_new ();
  self->offered = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->hours = sw_form_new ();
  self->medicines = sw_form_new ();
  self->none_words = sw_quiet_new (_("Strengths on the shelf and washouts appear here once documents of medicines "
                                     "are adopted."));
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  add_hours (self);
  sw_form_add_heading (GTK_GRID (self->medicines), _("Medicines"));
  gtk_widget_set_halign (save, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (body), self->hours);
  gtk_box_append (GTK_BOX (body), self->medicines);
  gtk_box_append (GTK_BOX (body), self->none_words);
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (body), save);
  self->scrolled = sw_scrolled_new (body);
  gtk_widget_set_parent (self->scrolled, GTK_WIDGET (self));
  g_signal_connect (save, "clicked", G_CALLBACK (save_cb), self);
}

void
sw_settings_page_show (SwSettingsPage *self, SwRecord *record, gint64 person)
{
  const SwPractice *practice = sw_record_get_practice (record);

  g_set_object (&self->record, record);
  self->person = person;
  add_medicines (self);
  for (guint i = 0; i < self->fields->len; i++)
    sw_setting_field_show (self->fields->pdata[i], practice);
}
