/* sw-tumour-dialog.c: register a tumour, or correct where one lies
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tumour-dialog.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-quantity-entry.h"
#include "sw-region.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  /* owned */
  SwPageContext *context;

  /* borrowed: children of the window; `old` of the context's dossier */
  GtkWidget *window;
  GtkWidget *region;
  GtkWidget *side;
  GtkWidget *depth;
  SwQuantityEntry *found;
  GtkWidget *description;
  SwFindingView *answer;
  const SwTumourDetails *old;
} Placing;

static void
placing_free (Placing *placing)
{
  sw_page_context_unref (placing->context);
  g_free (placing);
}

typedef const char *(*Namer) (int value);

static GtkWidget *
names_choice (const char *name, Namer namer, int n)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (int i = 0; i < n; i++)
    g_ptr_array_add (names, (gpointer) namer (i));
  g_ptr_array_add (names, NULL);

  return sw_choice_new (name, _("choose…"), (const char *const *) names->pdata);
}

static const char *
region_name (int region)
{
  return sw_region_name (region);
}

static const char *
side_name (int side)
{
  return sw_side_name (side);
}

static const char *
depth_name (int depth)
{
  return sw_depth_name (depth);
}

static gint64
next_letter (const SwDossier *dossier)
{
  gint64 letter = 0;
  const SwTumourDetails *tumour;

  for (guint i = 0; (tumour = sw_facts_next (&dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    letter = MAX (letter, tumour->letter + 1);
  return letter;
}

static void
replied_cb (GtkWidget *window, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_window_destroy (GTK_WINDOW (window));
}

/* The first choice that was not made, in words; NULL: all are. */
static const char *
missing_choice (const Placing *placing)
{
  if (sw_choice_get (placing->region, TRUE) < 0)
    return _("Choose the region: where a tumour may be treated hangs on it.");
  if (sw_choice_get (placing->side, TRUE) < 0)
    return _("Choose the side: it is read aloud before the injection.");
  if (sw_choice_get (placing->depth, TRUE) < 0)
    return _("Choose the layer: a subcutaneous tumour may be treated in some regions only.");
  return NULL;
}

static SwTumourDetails *
make_details (const Placing *placing, SwRequest *request, gint64 found)
{
  SwTumourDetails *details;

  if (placing->old != NULL)
    details = sw_fact_correction (placing->old);
  else
    {
      details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);
      details->tumour = sw_request_add (request, sw_new (SW_FACT_TUMOUR, SwTumour));
      details->letter = next_letter (placing->context->dossier);
    }
  details->region = sw_choice_get (placing->region, TRUE);
  details->side = sw_choice_get (placing->side, TRUE);
  details->depth = sw_choice_get (placing->depth, TRUE);
  details->found = found;
  g_free (details->description);
  details->description = sw_field_dup_text (placing->description);

  return details;
}

static void
save_cb (GtkButton *button, Placing *placing)
{
  SwPageContext *context = placing->context;
  const char *missing = missing_choice (placing);
  SwRequest *request;
  gint64 found;

  if (missing != NULL)
    {
      sw_finding_view_set_sentence (placing->answer, SW_NOT_KNOWN, missing, NULL);
      return;
    }
  if (!sw_quantity_entry_take (placing->found, &found))
    {
      gtk_widget_grab_focus (GTK_WIDGET (placing->found));
      return;
    }
  request = sw_request_new (SW_ACT_REGISTER_TUMOUR, context->person, context->patient);
  sw_request_add (request, make_details (placing, request, found));
  sw_perform (placing->window, context->record, request, placing->answer, replied_cb, NULL);
}

static GtkWidget *
form_new (Placing *placing)
{
  GtkWidget *form = sw_form_new ();
  const SwTumourDetails *old = placing->old;

  placing->region = names_choice (_("region"), region_name, SW_N_REGIONS);
  placing->side = names_choice (_("side"), side_name, SW_N_SIDES);
  placing->depth = names_choice (_("layer"), depth_name, SW_N_DEPTHS);
  placing->found = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DAY, _("found on")));
  placing->description = sw_text_field_new (32);
  sw_quantity_entry_set_required (placing->found, TRUE);
  sw_quantity_entry_set_value (placing->found, old != NULL ? old->found : sw_page_context_now (placing->context).day);
  sw_choice_set (placing->region, TRUE, old != NULL ? (int) old->region : -1);
  sw_choice_set (placing->side, TRUE, old != NULL ? (int) old->side : -1);
  sw_choice_set (placing->depth, TRUE, old != NULL ? (int) old->depth : -1);
  if (old != NULL && old->description != NULL)
    gtk_editable_set_text (GTK_EDITABLE (placing->description), old->description);
  sw_form_add (GTK_GRID (form), _("_side"), placing->side);
  sw_form_add (GTK_GRID (form), _("_region"), placing->region);
  sw_form_add (GTK_GRID (form), _("_layer"), placing->depth);
  sw_form_add (GTK_GRID (form), _("_found on"), GTK_WIDGET (placing->found));
  sw_form_add (GTK_GRID (form), _("_description"), placing->description);

  return form;
}

void
sw_tumour_dialog_show (GtkWidget *parent, SwPageContext *context, const SwTumourDetails *old)
{
  Placing *placing = g_new0 (Placing, 1);
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  g_autofree char *letter = sw_tumour_letter (old != NULL ? old->letter : next_letter (context->dossier));
  g_autofree char *title = g_strdup_printf (_("Tumour %s"), letter);
  GtkWidget *save = sw_primary_button_new (old != NULL ? _("Record the _Correction") : _("_Register the Tumour"));

  placing->context = sw_page_context_ref (context);
  placing->old = old;
  placing->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (body), form_new (placing));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (placing->answer));
  placing->window = sw_dialog_form_new (parent, title, body, save);
  g_object_set_data_full (G_OBJECT (placing->window), "sw-placing", placing, (GDestroyNotify) placing_free);
  g_signal_connect (save, "clicked", G_CALLBACK (save_cb), placing);
  gtk_window_present (GTK_WINDOW (placing->window));
  gtk_widget_grab_focus (placing->side);
}
