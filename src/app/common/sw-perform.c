/* sw-perform.c: the one way from a widget to the record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-perform.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  GtkWidget *owner;
  SwFindingView *beside; /* nullable */
  SwReplied replied;     /* nullable */
  gpointer data;         /* nullable GObject */
} Waiting;

static void
waiting_free (Waiting *waiting)
{
  g_object_unref (waiting->owner);
  g_clear_object (&waiting->beside);
  g_clear_object (&waiting->data);
  g_free (waiting);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Waiting, waiting_free)

/* A dialog hands it to the window it stands over. A widget whose window has gone has nobody left to tell. */
void
sw_trouble (GtkWidget *widget, const char *sentence)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  while (GTK_IS_WINDOW (root) && !gtk_widget_activate_action (GTK_WIDGET (root), "win.trouble", "s", sentence))
    root = GTK_ROOT (gtk_window_get_transient_for (GTK_WINDOW (root)));
}

void
sw_trouble_error (GtkWidget *widget, const GError *error)
{
  if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    sw_trouble (widget, error->message);
}

/* Nothing beside a field can cure these. */
static gboolean
is_page_wide (const GError *error)
{
  return g_error_matches (error, SW_ERROR, SW_ERROR_DISK) || g_error_matches (error, SW_ERROR, SW_ERROR_RECORD)
         || g_error_matches (error, SW_ERROR, SW_ERROR_BUSY);
}

static void
show_error (const Waiting *waiting, const GError *error)
{
  if (waiting->beside != NULL)
    sw_finding_view_set_error (waiting->beside, error);
  if (waiting->beside == NULL || is_page_wide (error))
    sw_trouble_error (waiting->owner, error);
}

static void
show_refusal (const Waiting *waiting, const SwReply *reply)
{
  g_autofree char *sentence = NULL;

  if (waiting->beside != NULL || reply->findings->len == 0)
    return;
  sentence = sw_finding_sentence (reply->findings->pdata[0]);
  sw_trouble (waiting->owner, sentence);
}

static void
replied_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Waiting) waiting = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwReply) reply = sw_record_perform_finish (SW_RECORD (source), result, &error);

  if (gtk_widget_get_root (waiting->owner) == NULL)
    return;
  if (reply == NULL)
    show_error (waiting, error);
  else if (waiting->beside != NULL)
    sw_finding_view_set_findings (waiting->beside, reply->findings, FALSE);
  if (reply != NULL && !reply->done)
    show_refusal (waiting, reply);
  if (waiting->replied != NULL)
    waiting->replied (waiting->owner, reply, waiting->data);
}

void
sw_perform (GtkWidget *owner, SwRecord *record, SwRequest *request, SwFindingView *beside, SwReplied replied,
            gpointer data)
{
  Waiting *waiting = g_new0 (Waiting, 1);

  waiting->owner = g_object_ref (owner);
  g_set_object (&waiting->beside, beside);
  waiting->replied = replied;
  waiting->data = data != NULL ? g_object_ref (data) : NULL;
  sw_record_perform_async (record, request, NULL, replied_cb, waiting);
}
