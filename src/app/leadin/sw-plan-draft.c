/* sw-plan-draft.c: the plan before it is signed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-plan-draft-private.h"

#include "sw-block-list-private.h"
#include "sw-dose-words-private.h"
#include "sw-plan-rows-private.h"
#include "sw-plan-table-private.h"
#include "sw-stock-form-private.h"

#include "sw-course.h"
#include "sw-form.h"
#include "sw-gate.h"
#include "sw-move.h"
#include "sw-quantity-entry.h"
#include "sw-quantity.h"
#include "sw-suitability.h"

#include <glib/gi18n-lib.h>

struct _SwPlanDraft
{
  GtkBox parent_instance;

  SwQuantityEntry *day;
  GtkLabel *days;      /* what the day means */
  GtkLabel *weight;
  GtkWidget *orders_row;
  GtkWidget *orders;
  SwPlanTable *table;
  GtkLabel *dispense;
  GtkWidget *dispense_heading;
  SwFindingView *notes;
  SwStockForm *stock;
  GtkWidget *blocks_heading;
  SwBlockList *blocks;
  SwFindingView *answer;

  gint64 protocol;     /* document row whose groups the table has */
  char *shown_blocks;  /* so that the list, and the focus in it, stays while nothing changes */
};

G_DEFINE_FINAL_TYPE (SwPlanDraft, sw_plan_draft, GTK_TYPE_BOX)

static SwStepPage *
page_of (SwPlanDraft *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

static const SwPageContext *
context_of (SwPlanDraft *self)
{
  return sw_step_page_get_context (page_of (self));
}

/* --- what the plan would be --- */

static const SwWeight *
planning_weight (const SwCase *c)
{
  return sw_facts_last (&c->dossier->facts, SW_FACT_WEIGHT);
}

/* The plan as it would be signed now; treat_day SW_NO_DAY while the field holds none. */
static SwPlan *
draft_plan (SwPlanDraft *self, const SwCase *c)
{
  const SwWeight *weight = planning_weight (c);
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);

  plan->course = c->course;
  plan->weight = weight != NULL ? weight->fact.id : 0;
  plan->choices = sw_plan_table_get_choices (self->table);
  if (!sw_quantity_entry_peek (self->day, &plan->treat_day, NULL))
    plan->treat_day = SW_NO_DAY;
  return plan;
}

/* The first day that both the lead-in and the course before allow. */
static SwDay
first_day (const SwCase *c)
{
  SwDay day = sw_move_first_day (c, NULL);
  g_autoptr (GPtrArray) follow = sw_course_follow_findings (c, day);

  for (guint i = 0; i < follow->len; i++)
    {
      const SwArg *limit = sw_finding_arg (follow->pdata[i], "limit");

      if (limit != NULL && limit->type == SW_ARG_DAY)
        day = MAX (day, (SwDay) limit->num);
    }
  return day;
}

/* --- showing --- */

static void
show_weight (SwPlanDraft *self, const SwCase *c)
{
  const SwWeight *weight = planning_weight (c);
  g_autofree char *kg = NULL, *age = NULL, *words = NULL;

  if (weight == NULL)
    {
      gtk_label_set_text (self->weight, _("none yet"));
      return;
    }
  kg = sw_mass_format (weight->grams);
  age = sw_age_words (weight->day, c->now.day);
  words = g_strdup_printf (_("%s kg, %s, by %s"), kg, age, sw_practice_person_name (c->practice, weight->fact.person));
  gtk_label_set_text (self->weight, words);
}

static void
show_days (SwPlanDraft *self, const SwSchedule *schedule, SwDay treat_day)
{
  SwDay first = treat_day, last = treat_day;
  g_autofree char *day = NULL, *begins = NULL, *ends = NULL, *words = NULL;

  for (guint i = 0; schedule != NULL && i < schedule->lines->len; i++)
    {
      const SwScheduleLine *line = schedule->lines->pdata[i];

      first = MIN (first, treat_day + line->first_number);
      last = MAX (last, treat_day + line->last_number);
    }
  if (schedule == NULL)
    {
      gtk_label_set_text (self->days, "");
      return;
    }
  day = sw_day_words (treat_day);
  begins = sw_day_words (first);
  ends = sw_day_words (last);
  words = g_strdup_printf (_("Day 0 is %s: the lead-in begins on %s, the last medicine is on %s."), day, begins, ends);
  gtk_label_set_text (self->days, words);
}

static void
show_dispense (SwPlanDraft *self, const SwSchedule *schedule)
{
  g_autoptr (GPtrArray) lines = schedule != NULL ? sw_dispense_lines (schedule->doses) : NULL;
  GString *text = g_string_new (NULL);
  gboolean any = lines != NULL && lines->len > 0;

  for (guint i = 0; any && i < lines->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", (const char *) lines->pdata[i]);
  gtk_label_set_text (self->dispense, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->dispense), any);
  gtk_widget_set_visible (self->dispense_heading, any);
  g_string_free (text, TRUE);
}

static gboolean
is_noted (const GPtrArray *notes, const SwFinding *finding)
{
  for (guint i = 0; i < notes->len; i++)
    if (((const SwFinding *) notes->pdata[i])->code == finding->code
        && g_strcmp0 (((const SwFinding *) notes->pdata[i])->about, finding->about) == 0)
      return TRUE;
  return FALSE;
}

/* Notes say something about the plan, once for each medicine; what stops stands in the list below. */
static void
show_notes (SwPlanDraft *self, const SwSchedule *schedule)
{
  g_autoptr (GPtrArray) notes = sw_findings_new ();

  for (guint i = 0; schedule != NULL && i < schedule->findings->len; i++)
    {
      const SwFinding *finding = schedule->findings->pdata[i];

      if (finding->severity == SW_NOTE && !is_noted (notes, finding))
        g_ptr_array_add (notes, sw_finding_copy (finding));
    }
  sw_finding_view_set_findings (self->notes, notes, FALSE);
}

static gboolean
alternative_fits (const SwCase *c, const SwPlan *plan, gint64 grams, const char *group, const char *substance)
{
  g_autofree char *choices = sw_choices_set (plan->choices, group, substance);
  SwScheduleOrder order = sw_schedule_order (c, plan->treat_day, grams, choices);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&order);

  for (guint i = 0; i < schedule->findings->len; i++)
    {
      const SwFinding *finding = schedule->findings->pdata[i];

      if (finding->severity == SW_STOP && g_strcmp0 (finding->about, substance) == 0)
        return FALSE;
    }
  return TRUE;
}

/* "group=substance" of those that fit in place of one that does not. (transfer full) */
static GStrv
fitting_instead (const SwCase *c, const SwPlan *plan, gint64 grams, const char *unfit)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  GStrvBuilder *builder = g_strv_builder_new ();
  GStrv pairs;

  for (guint i = 0; i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *group = protocol->groups->pdata[i];

      for (guint k = 0; sw_group_alternative (group, unfit) != NULL && k < group->alternatives->len; k++)
        {
          const char *substance = ((const SwAlternative *) group->alternatives->pdata[k])->substance;
          g_autofree char *pair = g_strdup_printf ("%s=%s", group->id, substance);

          if (!g_str_equal (substance, unfit) && alternative_fits (c, plan, grams, group->id, substance))
            g_strv_builder_add (builder, pair);
        }
    }
  pairs = g_strv_builder_end (builder);
  g_strv_builder_unref (builder);

  return pairs;
}

static GHashTable *
fitting_for (const SwCase *c, const SwPlan *plan, const GPtrArray *findings)
{
  GHashTable *fitting = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_strfreev);
  const SwWeight *weight = planning_weight (c);

  for (guint i = 0; weight != NULL && i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (finding->about != NULL
          && (finding->code == SW_FINDING_NO_TABLET_FITS || finding->code == SW_FINDING_NOT_LISTED)
          && !g_hash_table_contains (fitting, finding->about))
        g_hash_table_insert (fitting, g_strdup (finding->about),
                             fitting_instead (c, plan, weight->grams, finding->about));
    }
  return fitting;
}

static char *
sentences_of (const GPtrArray *findings)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < findings->len; i++)
    {
      g_autofree char *sentence = sw_finding_sentence (findings->pdata[i]);

      g_string_append_printf (text, "%s\n", sentence);
    }
  return g_string_free (text, FALSE);
}

static void
show_blocks (SwPlanDraft *self, const SwCase *c, const SwPlan *plan)
{
  g_autoptr (GPtrArray) findings = plan->treat_day != SW_NO_DAY ? sw_gate_a (c, plan) : sw_findings_new ();
  g_autoptr (GPtrArray) open = sw_findings_open (c, findings);
  g_autoptr (GHashTable) fitting = fitting_for (c, plan, open);
  g_autofree char *sentences = sentences_of (open);

  gtk_widget_set_visible (self->blocks_heading, open->len > 0);
  if (g_strcmp0 (sentences, self->shown_blocks) == 0)
    return;
  g_free (self->shown_blocks);
  self->shown_blocks = g_steal_pointer (&sentences);
  sw_block_list_set (self->blocks, open, fitting);
}

static gboolean
is_diabetic (const SwCase *c)
{
  const SwAnswer *answer = sw_dossier_answer (c->dossier, 0, 0, "diabetes", c->now.day);

  return answer != NULL && g_str_equal (answer->answer, "yes");
}

static void
show (SwPlanDraft *self)
{
  SwCase c = sw_page_context_case (context_of (self));
  SwPlan *plan = draft_plan (self, &c);
  const SwWeight *weight = planning_weight (&c);
  g_autoptr (SwSchedule) schedule = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  if (weight != NULL && plan->treat_day != SW_NO_DAY)
    {
      SwScheduleOrder order = sw_schedule_order (&c, plan->treat_day, weight->grams, plan->choices);

      schedule = sw_schedule_new (&order);
    }
  rows = schedule != NULL ? sw_plan_rows_of_schedule (schedule, plan->treat_day) : g_ptr_array_new ();
  show_weight (self, &c);
  show_days (self, schedule, plan->treat_day);
  sw_plan_table_show (self->table, rows);
  show_dispense (self, schedule);
  show_notes (self, schedule);
  gtk_widget_set_visible (self->orders_row, is_diabetic (&c));
  show_blocks (self, &c, plan);
  sw_fact_free (plan);
}

void
sw_plan_draft_update (SwPlanDraft *self, const SwPageContext *context, SwPageChanges changes)
{
  SwCase c = sw_page_context_case (context);
  const SwCourseDetails *details = sw_case_details (&c);

  if (changes & SW_CHANGED_SUBJECT)
    {
      sw_quantity_entry_set_value (self->day, first_day (&c));
      gtk_editable_set_text (GTK_EDITABLE (self->orders), "");
      gtk_widget_set_visible (GTK_WIDGET (self->stock), FALSE);
      sw_finding_view_clear (self->answer);
      self->protocol = 0;
    }
  if (self->protocol != details->document)
    sw_plan_table_set_groups (self->table, sw_case_protocol (&c), NULL);
  self->protocol = details->document;
  show (self);
}

gboolean
sw_plan_draft_has_unsaved (SwPlanDraft *self)
{
  return sw_quantity_entry_is_edited (self->day) || gtk_editable_get_text (GTK_EDITABLE (self->orders))[0] != '\0';
}

GtkWidget *
sw_plan_draft_first_empty (SwPlanDraft *self)
{
  return sw_quantity_entry_get_text (self->day)[0] == '\0' ? GTK_WIDGET (self->day) : NULL;
}

/* --- acts --- */

static void
changed_cb (GtkWidget *widget, SwPlanDraft *self)
{
  if (page_of (self) != NULL && context_of (self) != NULL && self->protocol != 0)
    show (self);
}

static void
take_day_cb (SwBlockList *blocks, gint64 day, SwPlanDraft *self)
{
  sw_quantity_entry_set_value (self->day, day);
  show (self);
}

static void
take_substance_cb (SwBlockList *blocks, const char *pair, SwPlanDraft *self)
{
  g_auto (GStrv) parts = g_strsplit (pair, "=", 2);

  sw_plan_table_choose (self->table, parts[0], parts[1]);
}

static void
stock_cb (SwBlockList *blocks, const char *substance, SwPlanDraft *self)
{
  sw_stock_form_ask (self->stock, substance);
}

static void
label_read_cb (SwBlockList *blocks, SwPlanDraft *self)
{
  SwRequest *request = sw_step_page_request (page_of (self), SW_ACT_ANSWER_WORK_UP);
  SwAnswer *answer = sw_new (SW_FACT_ANSWER, SwAnswer);
  SwMoment now = sw_page_context_now (context_of (self));

  answer->question = g_strdup ("packs-xylitol");
  answer->answer = g_strdup ("read-free");
  answer->day = now.day;
  answer->minute = now.minute;
  sw_request_add (request, answer);
  sw_step_page_perform (page_of (self), request, self->answer, NULL, NULL);
}

static void
signed_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwPlanDraft *self = data;

  if (reply != NULL && reply->done)
    {
      sw_quantity_entry_set_value (self->day, SW_UNKNOWN);
      gtk_editable_set_text (GTK_EDITABLE (self->orders), "");
    }
}

/* A diabetic's insulin and food on the treatment day are the vet's written order. */
static gboolean
take_orders (SwPlanDraft *self, char **orders)
{
  *orders = sw_field_dup_text (self->orders);
  if (*orders != NULL || !gtk_widget_get_visible (self->orders_row))
    return TRUE;
  sw_finding_view_set_sentence (self->answer, SW_STOP,
                                _("This dog is diabetic: insulin and food need the vet's written order."),
                                _("Write it in the field above."));
  gtk_widget_grab_focus (self->orders);
  return FALSE;
}

static void
sign_cb (GtkButton *button, SwPlanDraft *self)
{
  const SwPageContext *context = context_of (self);
  SwCase c = sw_page_context_case (context);
  const SwWeight *weight = planning_weight (&c);
  g_autofree char *choices = sw_plan_table_get_choices (self->table);
  g_autofree char *orders = NULL;
  SwRequest *request;
  gint64 day;

  if (!sw_quantity_entry_take (self->day, &day))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->day));
      return;
    }
  if (sw_block_list_focus (self->blocks) || !take_orders (self, &orders))
    return;
  request = sw_request_sign_plan (context->person, context->patient, context->course, day,
                                  weight != NULL ? weight->fact.id : 0, choices);
  sw_request_set_vet_orders (request, orders);
  sw_step_page_perform (page_of (self), request, self->answer, signed_cb, self);
}

/* --- making --- */

static GtkWidget *
wide_label_new (GtkLabel **label)
{
  GtkWidget *widget = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (widget), 0);
  gtk_label_set_wrap (GTK_LABEL (widget), TRUE);
  *label = GTK_LABEL (widget);
  return widget;
}

static GtkWidget *
orders_row_new (SwPlanDraft *self)
{
  GtkWidget *form = sw_form_new ();

  self->orders = sw_text_field_new (48);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->orders), _("what is given on the treatment day, and when"));
  sw_form_add (GTK_GRID (form), _("_insulin and food (vet's order)"), self->orders);
  self->orders_row = form;
  return form;
}

static GtkWidget *
head_new (SwPlanDraft *self)
{
  GtkWidget *form = sw_form_new ();
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *weigh = sw_button_new (_("_Weigh Now…"));

  self->day = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_DAY, _("treatment day")));
  sw_quantity_entry_set_required (self->day, TRUE);
  sw_form_add (GTK_GRID (form), _("_treatment day"), GTK_WIDGET (self->day));
  gtk_grid_attach (GTK_GRID (form), wide_label_new (&self->days), 2, 0, 1, 1);
  gtk_widget_add_css_class (GTK_WIDGET (self->days), "quiet");
  gtk_widget_set_valign (GTK_WIDGET (self->days), GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (line), wide_label_new (&self->weight));
  gtk_label_set_wrap (self->weight, FALSE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (weigh), "patient.weigh");
  gtk_box_append (GTK_BOX (line), weigh);
  sw_form_add (GTK_GRID (form), _("planning weight"), line);
  g_object_set (gtk_layout_manager_get_layout_child (gtk_widget_get_layout_manager (form), line), "column-span", 2,
                NULL);
  g_signal_connect (self->day, "changed", G_CALLBACK (changed_cb), self);

  return form;
}

static void
add_plan (SwPlanDraft *self)
{
  self->table = SW_PLAN_TABLE (sw_plan_table_new (TRUE));
  self->notes = SW_FINDING_VIEW (sw_finding_view_new ());
  self->stock = SW_STOCK_FORM (sw_stock_form_new ());
  self->dispense_heading = sw_heading_new (_("To dispense"));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->table));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->notes));
  gtk_box_append (GTK_BOX (self), orders_row_new (self));
  gtk_box_append (GTK_BOX (self), self->dispense_heading);
  gtk_box_append (GTK_BOX (self), wide_label_new (&self->dispense));
  g_signal_connect (self->table, "changed", G_CALLBACK (changed_cb), self);
}

static void
add_blocks (SwPlanDraft *self)
{
  self->blocks_heading = sw_heading_new (_("Missing before this plan can be signed"));
  self->blocks = SW_BLOCK_LIST (sw_block_list_new ());
  gtk_box_append (GTK_BOX (self), self->blocks_heading);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->blocks));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->stock));
  g_signal_connect (self->blocks, "take-day", G_CALLBACK (take_day_cb), self);
  g_signal_connect (self->blocks, "take-substance", G_CALLBACK (take_substance_cb), self);
  g_signal_connect (self->blocks, "stock", G_CALLBACK (stock_cb), self);
  g_signal_connect (self->blocks, "label-read", G_CALLBACK (label_read_cb), self);
}

static void
sw_plan_draft_finalize (GObject *object)
{
  g_free (SW_PLAN_DRAFT (object)->shown_blocks);
  G_OBJECT_CLASS (sw_plan_draft_parent_class)->finalize (object);
}

static void
sw_plan_draft_class_init (SwPlanDraftClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_plan_draft_finalize;
}

static void
sw_plan_draft_init (SwPlanDraft *self)
{
  GtkWidget *sign = sw_primary_button_new (_("_Sign the Plan"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 12);
  gtk_box_append (GTK_BOX (self), head_new (self));
  add_plan (self);
  add_blocks (self);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
  gtk_widget_set_halign (sign, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (self), sign);
  g_signal_connect (sign, "clicked", G_CALLBACK (sign_cb), self);
}

GtkWidget *
sw_plan_draft_new (void)
{
  return g_object_new (SW_TYPE_PLAN_DRAFT, NULL);
}
