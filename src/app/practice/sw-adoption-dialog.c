/* sw-adoption-dialog.c: look at a document, and adopt it together with those it needs
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-adoption-dialog.h"

#include "sw-dialogs.h"
#include "sw-figure-list.h"
#include "sw-form.h"
#include "sw-perform.h"

#include <glib/gi18n-lib.h>

#define WIDTH 1080
#define HEIGHT 640

/* One document in the dialog. */
typedef struct
{
  const SwDocumentHead *head;
  GtkWidget *with; /* the tick that it is adopted too; NULL for the first */
  SwFigureList *list;
} Part;

typedef struct
{
  /* owned */
  SwRecord *record;
  SwBooks *books; /* the heads are its */
  GArray *parts;  /* Part */

  /* borrowed: children of the window */
  GtkWidget *window;
  GtkWidget *count;
  SwFindingView *answer;

  gint64 person;
} Adopting;

static void
adopting_free (Adopting *adopting)
{
  g_clear_object (&adopting->record);
  sw_books_unref (adopting->books);
  g_array_unref (adopting->parts);
  g_free (adopting);
}

static gboolean
is_taken (const Part *part)
{
  return part->with == NULL || gtk_check_button_get_active (GTK_CHECK_BUTTON (part->with));
}

static void
show_count (Adopting *adopting)
{
  guint wanted = 0, ticked = 0;
  g_autofree char *words = NULL;

  for (guint i = 0; i < adopting->parts->len; i++)
    {
      const Part *part = &g_array_index (adopting->parts, Part, i);

      gtk_widget_set_visible (GTK_WIDGET (part->list), is_taken (part));
      if (!is_taken (part))
        continue;
      wanted += sw_figure_list_count_wanted (part->list);
      ticked += sw_figure_list_count_ticked (part->list);
    }
  words = g_strdup_printf (_("%u of %u figures confirmed"), ticked, wanted);
  gtk_label_set_text (GTK_LABEL (adopting->count), words);
}

static void
changed_cb (GtkWidget *widget, Adopting *adopting)
{
  show_count (adopting);
}

static void
replied_cb (GtkWidget *window, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_window_destroy (GTK_WINDOW (window));
}

/* The first figure that still wants a tick gets the focus. */
static gboolean
all_confirmed (Adopting *adopting)
{
  for (guint i = 0; i < adopting->parts->len; i++)
    {
      const Part *part = &g_array_index (adopting->parts, Part, i);

      if (is_taken (part) && sw_figure_list_focus_first (part->list))
        {
          sw_finding_view_set_sentence (adopting->answer, SW_NOT_KNOWN,
                                        _("A figure that was not read in its source is confirmed one by one against "
                                          "the approved "
                                          "product information."),
                                        _("The first that is not confirmed yet is marked."));
          return FALSE;
        }
    }
  return TRUE;
}

static void
adopt_cb (GtkButton *button, Adopting *adopting)
{
  SwRequest *request;

  if (!all_confirmed (adopting))
    return;
  request = sw_request_adopt (adopting->person);
  for (guint i = 0; i < adopting->parts->len; i++)
    {
      const Part *part = &g_array_index (adopting->parts, Part, i);
      g_autofree char *ticks = sw_figure_list_ticks (part->list);

      if (is_taken (part))
        sw_request_adopt_document (request, part->head->kind, part->head->bytes, ticks);
    }
  sw_perform (adopting->window, adopting->record, request, adopting->answer, replied_cb, NULL);
}

static GtkWidget *
part_heading (const SwDocumentHead *head)
{
  g_autofree char *words = g_strdup_printf (_("%s, revision %s"), head->title, head->revision);

  return sw_heading_new (words);
}

static void
add_part (Adopting *adopting, GtkWidget *body, const SwDocumentHead *head, gboolean adopts)
{
  Part part = { head, NULL, SW_FIGURE_LIST (sw_figure_list_new (head, adopts)) };
  g_autofree char *words = g_strdup_printf (_("Adopt together: %s, revision %s"), head->title, head->revision);

  if (adopts && adopting->parts->len > 0)
    {
      part.with = sw_check_new (words);
      gtk_check_button_set_active (GTK_CHECK_BUTTON (part.with), TRUE);
      gtk_widget_add_css_class (part.with, "heading");
      g_signal_connect (part.with, "toggled", G_CALLBACK (changed_cb), adopting);
      gtk_box_append (GTK_BOX (body), part.with);
    }
  else
    gtk_box_append (GTK_BOX (body), part_heading (head));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (part.list));
  g_signal_connect (part.list, "changed", G_CALLBACK (changed_cb), adopting);
  g_array_append_val (adopting->parts, part);
}

static Adopting *
adopting_new (SwBooks *books)
{
  Adopting *adopting = g_new0 (Adopting, 1);

  adopting->books = sw_books_ref (books);
  adopting->parts = g_array_new (FALSE, FALSE, sizeof (Part));
  adopting->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  adopting->count = sw_quiet_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (adopting->count), FALSE);

  return adopting;
}

static void
show (Adopting *adopting, GtkWidget *parent, const char *title, GtkWidget *list, GtkWidget *buttons)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  gtk_box_append (GTK_BOX (body), sw_scrolled_new (list));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (adopting->answer));
  adopting->window = sw_dialog_form_new (parent, title, body, buttons);
  gtk_window_set_default_size (GTK_WINDOW (adopting->window), WIDTH, HEIGHT);
  g_object_set_data_full (G_OBJECT (adopting->window), "sw-adopting", adopting, (GDestroyNotify) adopting_free);
  gtk_window_present (GTK_WINDOW (adopting->window));
}

void
sw_adoption_dialog_adopt (GtkWidget *parent, SwRecord *record, gint64 person, SwBooks *books,
                          const GPtrArray *documents)
{
  Adopting *adopting = adopting_new (books);
  GtkWidget *list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *adopt = sw_primary_button_new (_("_Adopt"));

  adopting->record = g_object_ref (record);
  adopting->person = person;
  for (guint i = 0; i < documents->len; i++)
    add_part (adopting, list, documents->pdata[i], TRUE);
  gtk_box_append (GTK_BOX (buttons), adopting->count);
  gtk_box_append (GTK_BOX (buttons), adopt);
  g_signal_connect (adopt, "clicked", G_CALLBACK (adopt_cb), adopting);
  show_count (adopting);
  show (adopting, parent, _("Adopt documents"), list, buttons);
  sw_figure_list_focus_first (g_array_index (adopting->parts, Part, 0).list);
}

static void
close_cb (GtkButton *button, gpointer data)
{
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (button))));
}

void
sw_adoption_dialog_look (GtkWidget *parent, SwBooks *books, const SwDocumentHead *document)
{
  Adopting *adopting = adopting_new (books);
  GtkWidget *list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *close = sw_button_new (_("_Close"));

  add_part (adopting, list, document, FALSE);
  g_signal_connect (close, "clicked", G_CALLBACK (close_cb), NULL);
  show (adopting, parent, document->title, list, close);
  gtk_widget_grab_focus (close);
}
