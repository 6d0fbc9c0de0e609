/* sw-plan-in-force.c: the signed plan
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-plan-in-force-private.h"

#include "sw-cancel-form-private.h"
#include "sw-change-form-private.h"
#include "sw-dose-list-private.h"
#include "sw-dose-words-private.h"
#include "sw-expander-private.h"
#include "sw-lost-doses-private.h"
#include "sw-move-form-private.h"
#include "sw-plan-rows-private.h"
#include "sw-plan-table-private.h"

#include "sw-dose-state.h"
#include "sw-form.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

struct _SwPlanInForce
{
  GtkBox parent_instance;

  GtkLabel *summary;
  GtkLabel *orders;
  SwLostDoses *lost;
  GtkWidget *told_by;
  GtkLabel *nothing_today;
  SwDoseList *today;
  SwPlanTable *table;
  GtkLabel *dispense;
  GtkWidget *all_expander;
  SwDoseList *all;
  GtkWidget *changes; /* the three below: only before the needle */
  SwMoveForm *move;
  SwChangeForm *change;
  SwCancelForm *cancel;
};

G_DEFINE_FINAL_TYPE (SwPlanInForce, sw_plan_in_force, GTK_TYPE_BOX)

/* --- what is shown --- */

static void
show_summary (SwPlanInForce *self, const SwCase *c, const SwPlan *plan)
{
  const SwWeight *weight = sw_facts_by_id (&c->dossier->facts, SW_FACT_WEIGHT, plan->weight);
  g_autofree char *day = sw_day_words (plan->treat_day);
  g_autofree char *kg = weight != NULL ? sw_mass_format (weight->grams) : g_strdup ("?");
  g_autofree char *weighed = weight != NULL ? sw_day_words (weight->day) : g_strdup ("?");
  g_autofree char *words = g_strdup_printf (_("Day 0 is %s. Planned on %s kg of %s (%s), signed by %s."), day, kg,
                                            weighed, sw_plan_cause_name ((SwPlanCause)plan->cause),
                                            sw_practice_person_name (c->practice, plan->fact.person));
  g_autofree char *orders
      = plan->vet_orders != NULL ? g_strdup_printf (_("The vet's order: %s"), plan->vet_orders) : NULL;

  gtk_label_set_text (self->summary, words);
  gtk_label_set_text (self->orders, orders != NULL ? orders : "");
  gtk_widget_set_visible (GTK_WIDGET (self->orders), orders != NULL);
}

/* Those of today, and those from before that nobody has told of yet. */
static gboolean
belongs_to_today (const SwCase *c, const SwDosePlan *dose)
{
  SwStanding standing = sw_dose_state (c, dose);

  return dose->due_day == c->now.day || standing == SW_STANDING_DUE || standing == SW_STANDING_NOT_KNOWN;
}

static void
show_doses (SwPlanInForce *self, const SwPageContext *context, const SwCase *c, const GPtrArray *doses)
{
  g_autoptr (GPtrArray) today = g_ptr_array_new ();
  g_autoptr (GHashTable) shown = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < doses->len; i++)
    {
      SwDosePlan *dose = doses->pdata[i];

      if (!belongs_to_today (c, dose))
        continue;
      g_ptr_array_add (today, dose);
      g_hash_table_add (shown, &dose->dose);
    }
  sw_dose_list_show (self->today, context, today, NULL);
  sw_dose_list_show (self->all, context, doses, shown);
  gtk_widget_set_visible (GTK_WIDGET (self->nothing_today), today->len == 0);
}

static void
show_plan (SwPlanInForce *self, const SwCase *c, const SwPlan *plan, const GPtrArray *doses)
{
  g_autoptr (GPtrArray) rows = sw_plan_rows_of_doses (c, doses);
  g_autoptr (GPtrArray) lines = sw_dispense_lines (doses);
  GString *text = g_string_new (NULL);

  sw_plan_table_set_groups (self->table, sw_case_protocol (c), plan->choices);
  sw_plan_table_show (self->table, rows);
  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", (const char *) lines->pdata[i]);
  gtk_label_set_text (self->dispense, text->str);
  g_string_free (text, TRUE);
}

static void
update_changes (SwPlanInForce *self, const SwPageContext *context, const SwCase *c, SwPageChanges changes)
{
  gboolean open = sw_dossier_injection (c->dossier, c->course) == NULL && sw_case_end (c) == NULL;

  gtk_widget_set_visible (self->changes, open);
  if (!open)
    return;
  sw_move_form_update (self->move, context, changes);
  sw_change_form_update (self->change, context, changes);
  sw_cancel_form_update (self->cancel, context, changes);
}

void
sw_plan_in_force_update (SwPlanInForce *self, const SwPageContext *context, SwPageChanges changes)
{
  SwCase c = sw_page_context_case (context);
  const SwPlan *plan = sw_case_plan (&c);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c.dossier, c.course);

  if (changes & SW_CHANGED_SUBJECT)
    gtk_editable_set_text (GTK_EDITABLE (self->told_by), "");
  show_summary (self, &c, plan);
  show_doses (self, context, &c, doses);
  show_plan (self, &c, plan, doses);
  sw_lost_doses_update (self->lost, context, changes);
  update_changes (self, context, &c, changes);
}

gboolean
sw_plan_in_force_has_unsaved (SwPlanInForce *self)
{
  if (sw_dose_list_has_unsaved (self->today) || sw_dose_list_has_unsaved (self->all)
      || sw_lost_doses_has_unsaved (self->lost))
    return TRUE;
  return gtk_widget_get_visible (self->changes)
         && (sw_move_form_has_unsaved (self->move) || sw_change_form_has_unsaved (self->change)
             || sw_cancel_form_has_unsaved (self->cancel));
}

void
sw_plan_in_force_focus (SwPlanInForce *self, gint64 dose)
{
  GtkWidget *row = sw_dose_list_find (self->today, dose);

  if (dose == 0 && gtk_widget_get_visible (self->changes))
    sw_move_form_suggest (self->move);
  if (row == NULL && (row = sw_dose_list_find (self->all, dose)) != NULL)
    gtk_expander_set_expanded (GTK_EXPANDER (self->all_expander), TRUE);
  if (row != NULL)
    gtk_widget_child_focus (row, GTK_DIR_TAB_FORWARD);
}

/* --- making --- */

static GtkWidget *
append_label (SwPlanInForce *self, GtkLabel **label)
{
  GtkWidget *widget = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (widget), 0);
  gtk_label_set_wrap (GTK_LABEL (widget), TRUE);
  gtk_box_append (GTK_BOX (self), widget);
  *label = GTK_LABEL (widget);
  return widget;
}

static void
add_told (SwPlanInForce *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = sw_quiet_new (_("told by"));

  self->told_by = sw_text_field_new (28);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->told_by), _("the client, by phone"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->told_by), GTK_ACCESSIBLE_PROPERTY_LABEL, _("told by"), -1);
  gtk_label_set_wrap (GTK_LABEL (words), FALSE);
  gtk_widget_set_valign (words, GTK_ALIGN_BASELINE);
  gtk_widget_set_valign (self->told_by, GTK_ALIGN_BASELINE);
  gtk_box_append (GTK_BOX (line), sw_heading_new (_("Told today")));
  gtk_widget_set_hexpand (gtk_widget_get_first_child (line), TRUE);
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), self->told_by);
  gtk_box_append (GTK_BOX (self), line);
  append_label (self, &self->nothing_today);
  gtk_label_set_text (self->nothing_today, _("No dose is due today, and none is waiting to be told."));
  gtk_widget_add_css_class (GTK_WIDGET (self->nothing_today), "quiet");
  self->today = SW_DOSE_LIST (sw_dose_list_new (self->told_by));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->today));
}

static void
add_plan (SwPlanInForce *self)
{
  gtk_box_append (GTK_BOX (self), sw_heading_new (_("Plan of medicines")));
  self->table = SW_PLAN_TABLE (sw_plan_table_new (FALSE));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->table));
  gtk_box_append (GTK_BOX (self), sw_quiet_new (_("Dispensed for the whole course")));
  append_label (self, &self->dispense);
  gtk_widget_add_css_class (GTK_WIDGET (self->dispense), "figure");
}

static void
add_all (SwPlanInForce *self)
{
  self->all_expander = sw_expander_new (_("All doses by day"));
  self->all = SW_DOSE_LIST (sw_dose_list_new (self->told_by));
  gtk_expander_set_child (GTK_EXPANDER (self->all_expander), GTK_WIDGET (self->all));
  gtk_box_append (GTK_BOX (self), self->all_expander);
}

static void
move_cb (SwLostDoses *lost, SwPlanInForce *self)
{
  sw_move_form_suggest (self->move);
}

static void
add_changes (SwPlanInForce *self)
{
  self->changes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->move = SW_MOVE_FORM (sw_move_form_new ());
  self->change = SW_CHANGE_FORM (sw_change_form_new ());
  self->cancel = SW_CANCEL_FORM (sw_cancel_form_new ());
  gtk_box_append (GTK_BOX (self->changes), sw_heading_new (_("Change the plan")));
  gtk_box_append (GTK_BOX (self->changes), GTK_WIDGET (self->change));
  gtk_box_append (GTK_BOX (self->changes), GTK_WIDGET (self->move));
  gtk_box_append (GTK_BOX (self->changes), GTK_WIDGET (self->cancel));
  gtk_box_append (GTK_BOX (self), self->changes);
}

static void
add_lost (SwPlanInForce *self)
{
  self->lost = SW_LOST_DOSES (sw_lost_doses_new ());
  g_signal_connect (self->lost, "move", G_CALLBACK (move_cb), self);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->lost));
}

static void
sw_plan_in_force_class_init (SwPlanInForceClass *class)
{
}

static void
sw_plan_in_force_init (SwPlanInForce *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 12);
  append_label (self, &self->summary);
  append_label (self, &self->orders);
  add_lost (self);
  add_told (self);
  add_plan (self);
  add_all (self);
  add_changes (self);
}

GtkWidget *
sw_plan_in_force_new (void)
{
  return g_object_new (SW_TYPE_PLAN_IN_FORCE, NULL);
}
