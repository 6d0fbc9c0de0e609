/* sw-lost-doses.c: missed and vomited doses, and what is open for each
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-lost-doses-private.h"

#include "sw-dose-shape-private.h"
#include "sw-dose-words-private.h"

#include "sw-definitions.h"
#include "sw-form.h"
#include "sw-lead-in.h"
#include "sw-move.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

#define DOSE "sw-dose"

struct _SwLostDoses
{
  GtkBox parent_instance;

  GtkWidget *list;
  GPtrArray *times;    /* borrowed: SwQuantityEntry of those that may be replaced */
  SwFindingView *answer;
  GtkWidget *move;

  char *shown;         /* what the list shows, so that a time typed stays while nothing changes */
};

G_DEFINE_FINAL_TYPE (SwLostDoses, sw_lost_doses, GTK_TYPE_BOX)

enum { MOVE, N_SIGNALS };

static guint signals[N_SIGNALS];

static SwStepPage *
page_of (SwLostDoses *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

/* Before the needle those that gate B counts; after it those of yesterday and today: older ones are history. */
static gboolean
is_open_loss (const SwCase *c, const SwDosePlan *dose)
{
  SwStanding standing = sw_dose_state (c, dose);
  gint64 number = sw_dose_day_number (sw_case_plan (c), dose);

  if ((standing != SW_STANDING_MISSED && standing != SW_STANDING_VOMITED)
      || sw_dose_replacement (c, dose->dose) != NULL)
    return FALSE;
  if (sw_dossier_injection (c->dossier, c->course) != NULL)
    return dose->due_day >= c->now.day - 1;
  return sw_lead_in_first_day (sw_case_protocol (c)) <= number && number <= 0;
}

/* A time that passed more than an hour ago means tomorrow. */
static SwMoment
replacement_at (const SwCase *c, gint64 minute)
{
  SwMoment at = { c->now.day, (int) minute };

  if (sw_moment_compare (sw_moment_add_minutes (at, SW_MINUTES_PER_HOUR), c->now) < 0)
    at.day++;
  return at;
}

/* --- acts --- */

static void
order_cb (GtkButton *button, SwQuantityEntry *time)
{
  SwLostDoses *self = SW_LOST_DOSES (gtk_widget_get_ancestor (GTK_WIDGET (button), SW_TYPE_LOST_DOSES));
  const SwPageContext *context = sw_step_page_get_context (page_of (self));
  SwCase c = sw_page_context_case (context);
  gint64 *dose = g_object_get_data (G_OBJECT (time), DOSE);
  gint64 minute;

  if (!sw_quantity_entry_take (time, &minute))
    {
      gtk_widget_grab_focus (GTK_WIDGET (time));
      return;
    }
  sw_step_page_perform (
      page_of (self),
      sw_request_order_replacement (context->person, context->patient, *dose, replacement_at (&c, minute)),
      self->answer, NULL, NULL);
}

static void
accepted_cb (SwQuantityEntry *time, gint64 value, GtkWidget *order)
{
  gtk_widget_grab_focus (order);
}

static void
move_cb (GtkButton *button, SwLostDoses *self)
{
  g_signal_emit (self, signals[MOVE], 0);
}

/* --- showing --- */

static void
append_order (SwLostDoses *self, const SwCase *c, const SwDosePlan *dose)
{
  g_autofree char *words = sw_dose_words (dose), *name = g_strdup_printf (_("give again at: %s"), words);
  g_autofree char *rule = g_strdup_printf (
      _("One lost dose may be given again; the injection is then at least %d minutes after it [ours]."),
      (int)sw_definition_whole (SW_DEF_REPLACEMENT_BEFORE));
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *time = sw_quantity_entry_new (SW_QUANTITY_TIME, name);
  GtkWidget *order = sw_button_new (_("Order a Replacement"));

  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (time), c->now.minute);
  sw_quantity_entry_set_required (SW_QUANTITY_ENTRY (time), TRUE);
  g_object_set_data_full (G_OBJECT (time), DOSE, g_memdup2 (&dose->dose, sizeof dose->dose), g_free);
  g_ptr_array_add (self->times, time);
  gtk_box_append (GTK_BOX (line), sw_quiet_new (_("give again at")));
  gtk_label_set_wrap (GTK_LABEL (gtk_widget_get_first_child (line)), FALSE);
  gtk_box_append (GTK_BOX (line), time);
  gtk_box_append (GTK_BOX (line), order);
  gtk_box_append (GTK_BOX (line), sw_quiet_new (rule));
  gtk_widget_add_css_class (line, "acts");
  g_signal_connect (time, "accepted", G_CALLBACK (accepted_cb), order);
  g_signal_connect (order, "clicked", G_CALLBACK (order_cb), time);
  gtk_box_append (GTK_BOX (self->list), line);
}

static void
append_dose (SwLostDoses *self, const SwCase *c, const SwDosePlan *dose)
{
  g_autofree char *words = sw_dose_words (dose), *told = sw_dose_told_words (c, dose);
  g_autofree char *text = g_strdup_printf ("%s: %s", words, told);
  g_autoptr (SwReplan) replan = sw_replace_dose (c, dose->dose, c->now);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *shape = sw_dose_shape_new (), *label = gtk_label_new (text);

  sw_dose_shape_set (shape, sw_dose_mark (sw_dose_state (c, dose)));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_box_append (GTK_BOX (line), shape);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (self->list), line);
  if (replan->facts->len > 0)
    append_order (self, c, dose);
  else
    {
      GtkWidget *why = sw_finding_view_new ();

      sw_finding_view_set_findings (SW_FINDING_VIEW (why), replan->findings, FALSE);
      gtk_box_append (GTK_BOX (self->list), why);
    }
}

static GPtrArray *
lost_doses (const SwCase *c)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  GPtrArray *lost = g_ptr_array_new ();

  for (guint i = 0; sw_case_end (c) == NULL && i < doses->len; i++)
    if (is_open_loss (c, doses->pdata[i]))
      g_ptr_array_add (lost, doses->pdata[i]);

  return lost;
}

static char *
signature (const SwCase *c, const GPtrArray *lost)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < lost->len; i++)
    {
      g_autofree char *told = sw_dose_told_words (c, lost->pdata[i]);

      g_string_append_printf (text, "%" G_GINT64_FORMAT " %s\n", ((const SwDosePlan *) lost->pdata[i])->dose, told);
    }
  return g_string_free (text, FALSE);
}

static void
rebuild (SwLostDoses *self, const SwCase *c, const GPtrArray *lost)
{
  GtkWidget *child;

  g_ptr_array_set_size (self->times, 0);
  while ((child = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_box_remove (GTK_BOX (self->list), child);
  for (guint i = 0; i < lost->len; i++)
    append_dose (self, c, lost->pdata[i]);
}

void
sw_lost_doses_update (SwLostDoses *self, const SwPageContext *context, SwPageChanges changes)
{
  SwCase c = sw_page_context_case (context);
  g_autoptr (GPtrArray) lost = lost_doses (&c);
  g_autofree char *now = signature (&c, lost);

  if (changes & SW_CHANGED_SUBJECT)
    {
      g_clear_pointer (&self->shown, g_free);
      sw_finding_view_clear (self->answer);
    }
  if (g_strcmp0 (now, self->shown) != 0)
    rebuild (self, &c, lost);
  g_free (self->shown);
  self->shown = g_steal_pointer (&now);
  gtk_widget_set_visible (self->move, sw_dossier_injection (c.dossier, c.course) == NULL);
  gtk_widget_set_visible (GTK_WIDGET (self), lost->len > 0);
}

gboolean
sw_lost_doses_has_unsaved (SwLostDoses *self)
{
  for (guint i = 0; gtk_widget_get_visible (GTK_WIDGET (self)) && i < self->times->len; i++)
    if (sw_quantity_entry_is_edited (self->times->pdata[i]))
      return TRUE;
  return FALSE;
}

static void
sw_lost_doses_finalize (GObject *object)
{
  SwLostDoses *self = SW_LOST_DOSES (object);

  g_ptr_array_unref (self->times);
  g_free (self->shown);
  G_OBJECT_CLASS (sw_lost_doses_parent_class)->finalize (object);
}

static void
sw_lost_doses_class_init (SwLostDosesClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_lost_doses_finalize;
  signals[MOVE]
      = g_signal_new ("move", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
sw_lost_doses_init (SwLostDoses *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->times = g_ptr_array_new ();
  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  self->move = sw_button_new (_("Move the Treatment Day…"));
  gtk_widget_set_halign (self->move, GTK_ALIGN_START);
  gtk_widget_add_css_class (self->move, "acts");
  g_signal_connect (self->move, "clicked", G_CALLBACK (move_cb), self);
  gtk_box_append (GTK_BOX (self), sw_heading_new (_("Lost doses: the vet decides")));
  gtk_box_append (GTK_BOX (self), self->list);
  gtk_box_append (GTK_BOX (self), self->move);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
}

GtkWidget *
sw_lost_doses_new (void)
{
  return g_object_new (SW_TYPE_LOST_DOSES, NULL);
}
