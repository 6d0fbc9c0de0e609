/* sw-move-form.c: move the treatment day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-move-form-private.h"

#include "sw-dose-words-private.h"
#include "sw-expander-private.h"
#include "sw-replan-view-private.h"

#include "sw-form.h"
#include "sw-lead-in.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

struct _SwMoveForm
{
  GtkBox parent_instance;

  GtkWidget *expander;
  SwQuantityEntry *day;
  GtkWidget *take_first;
  GtkLabel *take_words;
  GtkLabel *nearer;
  GtkWidget *way_words;
  GtkWidget *way;
  GtkWidget *reason;
  GtkWidget *orders_words;
  GtkWidget *orders;
  SwReplanView *preview;
  SwFindingView *answer;
  GtkWidget *move;

  SwDay first;
};

G_DEFINE_FINAL_TYPE (SwMoveForm, sw_move_form, GTK_TYPE_BOX)

static SwStepPage *
page_of (SwMoveForm *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

static const SwPageContext *
context_of (SwMoveForm *self)
{
  return sw_step_page_get_context (page_of (self));
}

/* "not decided" is the choice without a number. */
static SwMoveWay
way_of (SwMoveForm *self)
{
  return (SwMoveWay) (sw_choice_get (self->way, TRUE) + 1);
}

/* --- showing --- */

static void
show_first (SwMoveForm *self, const SwCase *c)
{
  g_autoptr (GPtrArray) nearer = NULL;
  g_autofree char *day = NULL, *words = NULL;
  GString *reasons = g_string_new (NULL);

  self->first = sw_move_first_day (c, &nearer);
  day = sw_day_words (self->first);
  words = g_strdup_printf (_("Take %s, the First Possible"), day);
  gtk_label_set_text (self->take_words, words);
  for (guint i = 0; i < nearer->len; i++)
    {
      g_autofree char *sentence = sw_finding_sentence (nearer->pdata[i]);

      g_string_append_printf (reasons, "%s%s", i > 0 ? "\n" : "", sentence);
    }
  gtk_label_set_text (self->nearer, reasons->str);
  gtk_widget_set_visible (GTK_WIDGET (self->nearer), reasons->len > 0);
  g_string_free (reasons, TRUE);
}

static gboolean
has_code (const GPtrArray *findings, SwFindingCode code)
{
  for (guint i = 0; i < findings->len; i++)
    if (((const SwFinding *) findings->pdata[i])->code == code)
      return TRUE;
  return FALSE;
}

/* The field for the taper comes when it is needed, and stays while something is written in it. */
static void
show_orders (SwMoveForm *self, const SwReplan *replan)
{
  g_autofree char *orders = sw_field_dup_text (self->orders);
  gboolean needed = orders != NULL || (replan != NULL && has_code (replan->findings, SW_FINDING_TAPER_NEEDED));

  gtk_widget_set_visible (self->orders, needed);
  gtk_widget_set_visible (self->orders_words, needed);
}

static void
show_preview (SwMoveForm *self)
{
  const SwPageContext *context = context_of (self);
  SwCase c = sw_page_context_case (context);
  g_autofree char *reason = sw_field_dup_text (self->reason), *orders = sw_field_dup_text (self->orders);
  SwMoveOrder order = { SW_NO_DAY, way_of (self), reason, orders };
  g_autoptr (SwReplan) replan = NULL;
  gboolean begun = sw_lead_in_has_begun (&c);

  gtk_widget_set_visible (self->way, begun);
  gtk_widget_set_visible (self->way_words, begun);
  if (sw_quantity_entry_peek (self->day, &order.treat_day, NULL))
    replan = sw_move_preview (&c, &order);
  show_orders (self, replan);
  sw_replan_view_show (self->preview, replan, sw_page_context_roles (context));
}

static void
changed_cb (GtkWidget *widget, SwMoveForm *self)
{
  if (page_of (self) != NULL && gtk_expander_get_expanded (GTK_EXPANDER (self->expander)))
    show_preview (self);
}

static void
way_cb (GtkDropDown *way, GParamSpec *pspec, SwMoveForm *self)
{
  changed_cb (GTK_WIDGET (way), self);
}

static void
clear (SwMoveForm *self)
{
  sw_quantity_entry_set_value (self->day, SW_UNKNOWN);
  sw_choice_set (self->way, TRUE, -1);
  gtk_editable_set_text (GTK_EDITABLE (self->reason), "");
  gtk_editable_set_text (GTK_EDITABLE (self->orders), "");
  gtk_expander_set_expanded (GTK_EXPANDER (self->expander), FALSE);
  sw_replan_view_show (self->preview, NULL, 0);
}

void
sw_move_form_update (SwMoveForm *self, const SwPageContext *context, SwPageChanges changes)
{
  SwCase c = sw_page_context_case (context);

  if (changes & SW_CHANGED_SUBJECT)
    {
      clear (self);
      sw_finding_view_clear (self->answer);
    }
  show_first (self, &c);
  if (gtk_expander_get_expanded (GTK_EXPANDER (self->expander)))
    show_preview (self);
}

gboolean
sw_move_form_has_unsaved (SwMoveForm *self)
{
  g_autofree char *reason = sw_field_dup_text (self->reason), *orders = sw_field_dup_text (self->orders);

  return sw_quantity_entry_is_edited (self->day) || reason != NULL || orders != NULL;
}

/* --- acts --- */

static void
take_first (SwMoveForm *self)
{
  sw_quantity_entry_set_value (self->day, self->first);
  show_preview (self);
}

void
sw_move_form_suggest (SwMoveForm *self)
{
  gtk_expander_set_expanded (GTK_EXPANDER (self->expander), TRUE);
  take_first (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->day));
}

static void
take_first_cb (GtkButton *button, SwMoveForm *self)
{
  take_first (self);
}

static void
moved_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    clear (data);
}

static void
move_cb (GtkButton *button, SwMoveForm *self)
{
  const SwPageContext *context = context_of (self);
  g_autofree char *reason = sw_field_dup_text (self->reason), *orders = sw_field_dup_text (self->orders);
  SwRequest *request;
  gint64 day;

  if (!sw_quantity_entry_take (self->day, &day))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->day));
      return;
    }
  request = sw_request_move_day (context->person, context->patient, context->course, day, way_of (self));
  sw_request_set_reason (request, reason);
  sw_request_set_vet_orders (request, orders);
  sw_replan_view_show (self->preview, NULL, 0); /* the answer says it from here on */
  sw_step_page_perform (page_of (self), request, self->answer, moved_cb, self);
}

static void
expanded_cb (GtkExpander *expander, GParamSpec *pspec, SwMoveForm *self)
{
  sw_finding_view_clear (self->answer);
  changed_cb (NULL, self);
}

/* --- making --- */

static GtkWidget *
day_line_new (SwMoveForm *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->take_first = sw_button_new ("");
  self->take_words = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->take_first)));
  gtk_widget_set_valign (self->take_first, GTK_ALIGN_START);
  g_signal_connect (self->take_first, "clicked", G_CALLBACK (take_first_cb), self);
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->day));
  gtk_box_append (GTK_BOX (line), self->take_first);

  return line;
}

static GtkWidget *
form_new (SwMoveForm *self)
{
  const char *ways[] = { _("the corticosteroid goes on without a gap"), _("stop now, and lead in anew"), NULL };
  GtkWidget *form = sw_form_new ();

  self->day = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DAY, _("new treatment day")));
  sw_quantity_entry_set_required (self->day, TRUE);
  self->way = sw_choice_new (_("what the corticosteroid does until then"), _("as the rule says"), ways);
  self->reason = sw_text_field_new (40);
  self->orders = sw_text_field_new (40);
  sw_form_add (GTK_GRID (form), _("new treatment day"), day_line_new (self));
  self->way_words = sw_form_add (GTK_GRID (form), _("until then"), self->way);
  sw_form_add (GTK_GRID (form), _("reason for the move"), self->reason);
  self->orders_words = sw_form_add (GTK_GRID (form), _("vet's order (taper)"), self->orders);
  g_signal_connect (self->day, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect (self->orders, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect (self->way, "notify::selected", G_CALLBACK (way_cb), self);

  return form;
}

static void
sw_move_form_class_init (SwMoveFormClass *class)
{
}

static void
sw_move_form_init (SwMoveForm *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->expander = sw_expander_new (_("Move the treatment day"));
  self->preview = SW_REPLAN_VIEW (sw_replan_view_new ());
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->nearer = GTK_LABEL (sw_quiet_new (NULL));
  self->move = sw_button_new (_("Move the Day"));
  gtk_widget_set_halign (self->move, GTK_ALIGN_END);
  gtk_widget_add_css_class (body, "expanded");
  gtk_box_append (GTK_BOX (body), form_new (self));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->nearer));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->preview));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (body), self->move);
  gtk_expander_set_child (GTK_EXPANDER (self->expander), body);
  gtk_box_append (GTK_BOX (self), self->expander);
  g_signal_connect (self->move, "clicked", G_CALLBACK (move_cb), self);
  g_signal_connect (self->expander, "notify::expanded", G_CALLBACK (expanded_cb), self);
}

GtkWidget *
sw_move_form_new (void)
{
  return g_object_new (SW_TYPE_MOVE_FORM, NULL);
}
