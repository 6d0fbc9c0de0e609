/* sw-log-page.c: what was done for this dog, when and by whom
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-log-page.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>

#define LINES 50
#define DIGEST_SHOWN 8

struct _SwLogPage
{
  SwStepPage parent_instance;

  /* template children */
  GtkListBox *lines;
  GtkWidget *more;

  gint64 last; /* the oldest line shown */
  guint generation;
};

G_DEFINE_FINAL_TYPE (SwLogPage, sw_log_page, SW_TYPE_STEP_PAGE)

typedef struct
{
  SwLogPage *page;
  guint generation;
} Loading;

static void
clear_lines (SwLogPage *self)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (self->lines))) != NULL)
    gtk_list_box_remove (self->lines, row);
  self->last = 0;
}

/* The local time at which it was done, as the clock of that place showed it. */
static char *
format_time (const SwJournalLine *line)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_offset (line->offset_minutes * 60);
  SwMoment moment = sw_moment_from_utc (zone, line->at_us);
  g_autofree char *day = sw_day_format (moment.day);
  g_autofree char *time = sw_time_format (moment.minute);

  return g_strdup_printf ("%s %s", day, time);
}

/* "dose_event 12 in place of 7": rows by their tables, as record check and export name them. */
static char *
format_rows (const SwJournalLine *line)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < line->rows->len; i++)
    {
      const SwJournalRow *row = &g_array_index (line->rows, SwJournalRow, i);
      g_autofree char *table = g_strdelimit (g_strdup (sw_fact_type (row->kind)->table), "_", ' ');

      g_string_append_printf (text, "%s%s %" G_GINT64_FORMAT, i > 0 ? ", " : "", table, row->id);
      if (row->withdrawn)
        g_string_append_printf (text, _(" (takes back %" PRId64 ")"), row->replaces);
      else if (row->replaces != 0)
        g_string_append_printf (text, _(" (corrects %" PRId64 ")"), row->replaces);
    }

  return g_string_free (text, FALSE);
}

static GtkWidget *
column (const char *text, int width_chars, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), width_chars);
  gtk_label_set_max_width_chars (GTK_LABEL (label), width_chars);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);

  return label;
}

static void
add_line (SwLogPage *self, const SwJournalLine *line)
{
  g_autofree char *time = format_time (line);
  g_autofree char *roles = sw_roles_names (line->roles);
  g_autofree char *who = g_strdup_printf ("%s (%s)", line->person_name, roles);
  g_autofree char *rows = format_rows (line);
  g_autofree char *digest = g_strndup (line->digest, DIGEST_SHOWN);
  g_autofree char *name = g_strdup_printf ("%s, %s, %s: %s", time, sw_act_name (line->kind), who, rows);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *words = sw_quiet_new (rows);

  gtk_box_append (GTK_BOX (box), column (time, 17, "figure"));
  gtk_box_append (GTK_BOX (box), column (sw_act_name (line->kind), 30, NULL));
  gtk_box_append (GTK_BOX (box), column (who, 36, NULL));
  gtk_label_set_wrap (GTK_LABEL (words), FALSE);
  gtk_label_set_ellipsize (GTK_LABEL (words), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_tooltip_text (words, rows);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), column (digest, DIGEST_SHOWN + 1, "digest"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_list_box_append (self->lines, row);
  self->last = line->id;
}

static void
loaded_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Loading *loading = data;
  g_autoptr (SwLogPage) self = loading->page;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) lines = sw_record_load_log_finish (SW_RECORD (source), result, &error);

  if (loading->generation != self->generation || gtk_widget_get_root (GTK_WIDGET (self)) == NULL)
    return;
  if (lines == NULL)
    {
      sw_trouble_error (GTK_WIDGET (self), error);
      return;
    }
  if (self->last == 0)
    clear_lines (self);
  for (guint i = 0; i < lines->len; i++)
    add_line (self, lines->pdata[i]);
  gtk_widget_set_visible (self->more, lines->len == LINES);
}

static void
load (SwLogPage *self)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  Loading *loading = g_new0 (Loading, 1);

  loading->page = g_object_ref (self);
  loading->generation = ++self->generation;
  sw_record_load_log_async (context->record, context->patient, self->last, LINES, NULL, loaded_cb, loading);
}

static void
more_cb (GtkButton *button, SwLogPage *self)
{
  load (self);
}

static void
sw_log_page_update (SwStepPage *page, const SwPageContext *context, SwPageChanges changes)
{
  SwLogPage *self = SW_LOG_PAGE (page);

  if ((changes & (SW_CHANGED_PATIENT | SW_CHANGED_FACTS)) == 0)
    return;
  if (changes & SW_CHANGED_PATIENT)
    clear_lines (self);
  self->last = 0;
  load (self);
}

static void
sw_log_page_class_init (SwLogPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  SW_STEP_PAGE_CLASS (class)->update = sw_log_page_update;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-log-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwLogPage, lines);
  gtk_widget_class_bind_template_child (widget_class, SwLogPage, more);
  gtk_widget_class_bind_template_callback (widget_class, more_cb);
}

static void
sw_log_page_init (SwLogPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
