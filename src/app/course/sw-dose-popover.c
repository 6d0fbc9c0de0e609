/* sw-dose-popover.c: tell what became of a dose, right at its mark
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-popover.h"

#include "sw-course-mark.h"
#include "sw-dose-state.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  /* owned */
  SwPageContext *context;

  /* borrowed: children of the popover */
  GtkWidget *popover;
  SwQuantityEntry *time;
  GtkWidget *told_by;
  SwFindingView *answer;

  const SwDosePlan *dose; /* of the context's dossier */
  gint64 seen;            /* the event row that is corrected; 0: not told yet */
} Telling;

static void
telling_free (Telling *telling)
{
  sw_page_context_unref (telling->context);
  g_free (telling);
}

static Telling *
telling_of (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (gtk_widget_get_ancestor (widget, GTK_TYPE_POPOVER)), "sw-telling");
}

static void
replied_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_popover_popdown (GTK_POPOVER (owner));
  else
    gtk_popover_present (GTK_POPOVER (owner)); /* larger now, by the words */
}

static void
perform (Telling *telling, SwRequest *request)
{
  sw_perform (telling->popover, telling->context->record, request, telling->answer, replied_cb, NULL);
}

static void
state_clicked_cb (GtkButton *button, gpointer state_pointer)
{
  Telling *telling = telling_of (GTK_WIDGET (button));
  SwDoseState state = GPOINTER_TO_INT (state_pointer);
  g_autofree char *told_by = sw_field_dup_text (telling->told_by);
  SwMoment given = SW_NO_MOMENT;
  gint64 minute;

  sw_quantity_entry_set_required (telling->time, state == SW_DOSE_LATE);
  if (!sw_quantity_entry_take (telling->time, &minute))
    {
      gtk_widget_grab_focus (GTK_WIDGET (telling->time));
      gtk_popover_present (GTK_POPOVER (telling->popover));
      return;
    }
  if (minute != SW_UNKNOWN)
    given = sw_dose_moment_told (telling->dose, (int) minute, sw_page_context_now (telling->context));
  perform (telling,
           sw_request_tick (telling->context->person, telling->context->patient, telling->dose->dose, telling->seen,
                            state,
                                     given, told_by));
}

static void
take_back_cb (GtkButton *button, gpointer data)
{
  Telling *telling = telling_of (GTK_WIDGET (button));
  const SwDoseEvent *event = sw_dossier_dose_event (telling->context->dossier, telling->dose->dose);

  perform (telling, sw_request_untick (telling->context->person, telling->context->patient, event));
}

static GtkWidget *
buttons_new (void)
{
  static const struct
  {
    SwDoseState state;
    const char *label;
  } states[] = {
    { SW_DOSE_GIVEN, N_("_Given") },
    { SW_DOSE_LATE, N_("_Late") },
    { SW_DOSE_MISSED, N_("_Missed") },
    { SW_DOSE_VOMITED, N_("_Vomited") },
  };
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    {
      GtkWidget *button = sw_button_new (_(states[i].label));

      g_signal_connect (button, "clicked", G_CALLBACK (state_clicked_cb), GINT_TO_POINTER (states[i].state));
      gtk_box_append (GTK_BOX (row), button);
    }

  return row;
}

static GtkWidget *
form_new (Telling *telling, const SwDoseEvent *event)
{
  GtkWidget *form = sw_form_new ();

  telling->time = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_TIME, _("given at")));
  telling->told_by = sw_text_field_new (24);
  gtk_entry_set_placeholder_text (GTK_ENTRY (telling->told_by), _("the client, by phone"));
  if (event != NULL && event->minute != SW_UNKNOWN)
    sw_quantity_entry_set_value (telling->time, event->minute);
  if (event != NULL && event->told_by != NULL)
    gtk_editable_set_text (GTK_EDITABLE (telling->told_by), event->told_by);
  sw_form_add (GTK_GRID (form), _("given _at"), GTK_WIDGET (telling->time));
  sw_form_add (GTK_GRID (form), _("_told by"), telling->told_by);

  return form;
}

static GtkWidget *
body_new (Telling *telling, const char *sentence)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  const SwDoseEvent *event = sw_dossier_dose_event (telling->context->dossier, telling->dose->dose);
  GtkWidget *words = sw_heading_new (sentence);

  telling->seen = event != NULL ? event->fact.id : 0;
  telling->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 48);
  gtk_widget_add_css_class (body, "popover-body");
  gtk_box_append (GTK_BOX (body), words);
  gtk_box_append (GTK_BOX (body), form_new (telling, event));
  gtk_box_append (GTK_BOX (body), buttons_new ());
  if (event != NULL)
    {
      GtkWidget *take_back = sw_button_new (_("_Take Back: Not Known"));

      g_signal_connect (take_back, "clicked", G_CALLBACK (take_back_cb), NULL);
      gtk_box_append (GTK_BOX (body), take_back);
    }
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (telling->answer));

  return body;
}

static gboolean
unparent_later (gpointer popover)
{
  gtk_widget_unparent (popover);
  return G_SOURCE_REMOVE;
}

/* The focus goes back to the mark. The popover goes, but not at once: the button that was clicked is still at work. */
static void
closed_cb (GtkPopover *popover, gpointer data)
{
  GtkWidget *mark = gtk_widget_get_parent (GTK_WIDGET (popover));
  GtkRoot *root = gtk_widget_get_root (mark);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (popover)))
    gtk_widget_grab_focus (mark);
  g_idle_add_full (G_PRIORITY_DEFAULT, unparent_later, g_object_ref (popover), g_object_unref);
}

static const SwDosePlan *
find_dose (const SwPageContext *context, gint64 dose)
{
  const SwDosePlan *plan;

  for (guint i = 0; (plan = sw_facts_next (&context->dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (plan->dose == dose)
      return plan;
  return NULL;
}

void
sw_dose_popover_show (GtkWidget *mark, SwPageContext *context, gint64 dose)
{
  const SwDosePlan *plan = find_dose (context, dose);
  Telling *telling;

  if (plan == NULL)
    return; /* withdrawn since the line was drawn */
  telling = g_new0 (Telling, 1);
  telling->context = sw_page_context_ref (context);
  telling->dose = plan;
  telling->popover = gtk_popover_new ();
  g_object_set_data_full (G_OBJECT (telling->popover), "sw-telling", telling, (GDestroyNotify) telling_free);
  gtk_popover_set_child (GTK_POPOVER (telling->popover),
                         body_new (telling, sw_course_mark_get_value (SW_COURSE_MARK (mark))->sentence));
  gtk_accessible_update_property (GTK_ACCESSIBLE (telling->popover), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("What became of this dose"), -1);
  gtk_widget_set_parent (telling->popover, mark);
  g_signal_connect (telling->popover, "closed", G_CALLBACK (closed_cb), NULL);
  gtk_popover_popup (GTK_POPOVER (telling->popover));
}
