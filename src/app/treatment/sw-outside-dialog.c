/* sw-outside-dialog.c: a vet writes down what happened outside the gate
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outside-dialog-private.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-quantity-entry.h"
#include "sw-treatment-section-private.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  /* owned */
  SwPageContext *context;
  GArray *tumours;
  GPtrArray *drawn; /* SwQuantityEntry, borrowed, by tumour */

  /* borrowed: children of the window */
  GtkWidget *window;
  SwQuantityEntry *day;
  SwQuantityEntry *time;
  GtkWidget *reason;
  SwFindingView *answer;
} Outside;

static void
outside_free (Outside *outside)
{
  sw_page_context_unref (outside->context);
  g_array_unref (outside->tumours);
  g_ptr_array_unref (outside->drawn);
  g_free (outside);
}

static void
replied_cb (GtkWidget *window, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_window_destroy (GTK_WINDOW (window));
}

/* FALSE with the focus in the field that is wrong. */
static gboolean
add_drawn (Outside *outside, SwRequest *request)
{
  for (guint i = 0; i < outside->tumours->len; i++)
    {
      SwReleaseTumour *row;
      gint64 nl;

      if (!sw_quantity_entry_take (outside->drawn->pdata[i], &nl))
        {
          gtk_widget_grab_focus (outside->drawn->pdata[i]);
          return FALSE;
        }
      row = sw_new (SW_FACT_RELEASE_TUMOUR, SwReleaseTumour);
      row->course = outside->context->course;
      row->tumour = g_array_index (outside->tumours, gint64, i);
      row->drawn_nl = nl;
      sw_request_add (request, row);
    }
  return TRUE;
}

static gboolean
take_moment (Outside *outside, SwMoment *when)
{
  gint64 minute;

  if (!sw_quantity_entry_take (outside->day, &when->day))
    {
      gtk_widget_grab_focus (GTK_WIDGET (outside->day));
      return FALSE;
    }
  if (!sw_quantity_entry_take (outside->time, &minute))
    {
      gtk_widget_grab_focus (GTK_WIDGET (outside->time));
      return FALSE;
    }
  when->minute = (int) minute;
  return TRUE;
}

static void
save_cb (GtkButton *button, Outside *outside)
{
  SwPageContext *context = outside->context;
  g_autoptr (SwRequest) request = sw_request_release (context->person, context->patient, context->course);
  g_autofree char *reason = sw_field_dup_text (outside->reason);

  if (!take_moment (outside, &request->when) || !add_drawn (outside, request))
    return;
  if (reason == NULL)
    {
      sw_finding_view_set_sentence (outside->answer, SW_NOT_KNOWN,
                                    _ ("Write why: what happened outside the gate needs the vet's reason."), NULL);
      gtk_widget_grab_focus (outside->reason);
      return;
    }
  sw_request_set_outside (request, reason);
  sw_perform (outside->window, context->record, g_steal_pointer (&request), outside->answer, replied_cb, NULL);
}

static SwQuantityEntry *
field (GtkWidget *form, SwQuantity quantity, const char *label)
{
  GtkWidget *entry = sw_quantity_entry_new (quantity, label);

  sw_quantity_entry_set_required (SW_QUANTITY_ENTRY (entry), TRUE);
  sw_form_add (GTK_GRID (form), label, entry);

  return SW_QUANTITY_ENTRY (entry);
}

static GtkWidget *
make_form (Outside *outside)
{
  GtkWidget *form = sw_form_new ();

  outside->day = field (form, SW_QUANTITY_DAY, _("day"));
  outside->time = field (form, SW_QUANTITY_TIME, _("time"));
  for (guint i = 0; i < outside->tumours->len; i++)
    {
      g_autofree char *name = sw_treatment_tumour_name (outside->context, g_array_index (outside->tumours, gint64, i));
      g_autofree char *label = g_strdup_printf (_("drawn for %s"), name);

      g_ptr_array_add (outside->drawn, field (form, SW_QUANTITY_DRUG, label));
    }
  outside->reason = sw_text_field_new (40);
  sw_form_add (GTK_GRID (form), _("_reason"), outside->reason);

  return form;
}

void
sw_outside_dialog_show (GtkWidget *parent, SwPageContext *context)
{
  Outside *outside = g_new0 (Outside, 1);
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *save = sw_primary_button_new (_("Record It _outside the Gate"));
  GtkWidget *words = sw_quiet_new (
      _ ("For a dose that was drawn already. It is recorded as it was, marked outside the gate, shown on "
         "the course line and counted in the outcomes. It is no way to release a dose that is refused."));

  outside->context = sw_page_context_ref (context);
  outside->tumours = sw_dossier_course_tumours (context->dossier, context->course);
  outside->drawn = g_ptr_array_new ();
  outside->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_label_set_max_width_chars (GTK_LABEL (words), 60);
  gtk_box_append (GTK_BOX (body), words);
  gtk_box_append (GTK_BOX (body), make_form (outside));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (outside->answer));
  outside->window = sw_dialog_form_new (parent, _("What happened outside the gate"), body, save);
  g_object_set_data_full (G_OBJECT (outside->window), "sw-outside", outside, (GDestroyNotify) outside_free);
  sw_quantity_entry_set_value (outside->day, sw_page_context_now (context).day);
  g_signal_connect (save, "clicked", G_CALLBACK (save_cb), outside);
  gtk_window_present (GTK_WINDOW (outside->window));
  gtk_widget_grab_focus (GTK_WIDGET (outside->time));
}
