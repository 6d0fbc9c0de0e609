/* sw-weight-dialog.c: register a weighing
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-weight-dialog.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-plausible.h"
#include "sw-quantity-entry.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  /* owned */
  SwPageContext *context;

  /* borrowed: children of the window */
  GtkWidget *window;
  SwQuantityEntry *weight;
  GtkWidget *scale;
  SwFindingView *answer;
} Weighing;

static void
weighing_free (Weighing *weighing)
{
  sw_page_context_unref (weighing->context);
  g_free (weighing);
}

char *
sw_weight_question (const SwDossier *dossier, gint64 grams, SwDay day)
{
  const SwWeight *last = sw_facts_last (&dossier->facts, SW_FACT_WEIGHT);
  g_autofree char *kg = NULL;

  if (last == NULL)
    return NULL;
  kg = sw_mass_format (last->grams);
  switch (sw_plausible_weight (grams, day, last->grams, last->day))
    {
    case SW_PLAUSIBLE:
      break;
    case SW_PLAUSIBLE_UNIT_SLIP:
      return g_strdup_printf (_("The last weight was %s kg: is the unit right?"), kg);
    case SW_PLAUSIBLE_MOVED:
      return g_strdup_printf (_("The last weight was %s kg, within two weeks: more than 10 %% off. Weigh again?"), kg);
    }
  return NULL;
}

static void
changed_cb (SwQuantityEntry *entry, Weighing *weighing)
{
  g_autofree char *question = NULL;
  gint64 grams;

  if (!sw_quantity_entry_peek (entry, &grams, NULL))
    return;
  question = sw_weight_question (weighing->context->dossier, grams, sw_page_context_now (weighing->context).day);
  sw_quantity_entry_set_question (entry, question);
}

static void
replied_cb (GtkWidget *window, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_window_destroy (GTK_WINDOW (window));
}

static void
save_cb (GtkButton *button, Weighing *weighing)
{
  SwPageContext *context = weighing->context;
  SwMoment now = sw_page_context_now (context);
  SwWeight *weight;
  SwRequest *request;
  gint64 grams;

  if (!sw_quantity_entry_take (weighing->weight, &grams))
    {
      gtk_widget_grab_focus (GTK_WIDGET (weighing->weight));
      return;
    }
  weight = sw_new (SW_FACT_WEIGHT, SwWeight);
  weight->grams = grams;
  weight->day = now.day;
  weight->minute = now.minute;
  weight->typed = g_strdup (sw_quantity_entry_get_text (weighing->weight));
  weight->scale = sw_field_dup_text (weighing->scale);
  request = sw_request_new (SW_ACT_WEIGH, context->person, context->patient);
  sw_request_add (request, weight);
  sw_perform (weighing->window, context->record, request, weighing->answer, replied_cb, NULL);
}

static void
accepted_cb (SwQuantityEntry *entry, gint64 value, GtkWidget *next)
{
  gtk_widget_grab_focus (next);
}

void
sw_weight_dialog_show (GtkWidget *parent, SwPageContext *context)
{
  Weighing *weighing = g_new0 (Weighing, 1);
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *form = sw_form_new ();
  GtkWidget *save = sw_primary_button_new (_("_Record the Weight"));

  weighing->context = sw_page_context_ref (context);
  weighing->weight = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_MASS, _("weight")));
  weighing->scale = sw_text_field_new (16);
  weighing->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  sw_quantity_entry_set_required (weighing->weight, TRUE);
  sw_form_add (GTK_GRID (form), _("_weight"), GTK_WIDGET (weighing->weight));
  sw_form_add (GTK_GRID (form), _("on _scale"), weighing->scale);
  gtk_box_append (GTK_BOX (body), form);
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (weighing->answer));
  weighing->window = sw_dialog_form_new (parent, _("Weigh the dog"), body, save);
  g_object_set_data_full (G_OBJECT (weighing->window), "sw-weighing", weighing, (GDestroyNotify) weighing_free);
  g_signal_connect (weighing->weight, "changed", G_CALLBACK (changed_cb), weighing);
  g_signal_connect (weighing->weight, "accepted", G_CALLBACK (accepted_cb), save);
  g_signal_connect (save, "clicked", G_CALLBACK (save_cb), weighing);
  gtk_window_present (GTK_WINDOW (weighing->window));
  gtk_widget_grab_focus (GTK_WIDGET (weighing->weight));
}
