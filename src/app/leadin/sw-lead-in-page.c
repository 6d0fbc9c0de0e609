/* sw-lead-in-page.c: the medicines round the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-lead-in-page.h"

#include "sw-plan-draft-private.h"
#include "sw-plan-in-force-private.h"

struct _SwLeadInPage
{
  SwStepPage parent_instance;

  /* template children */
  GtkWidget *none;
  SwPlanDraft *draft;
  SwPlanInForce *in_force;

  gint64 wanted_dose; /* while an idle waits to show it; -1: none, 0: the plan's day */
};

G_DEFINE_FINAL_TYPE (SwLeadInPage, sw_lead_in_page, SW_TYPE_STEP_PAGE)

static void
sw_lead_in_page_update (SwStepPage *page, const SwPageContext *context, SwPageChanges changes)
{
  SwLeadInPage *self = SW_LEAD_IN_PAGE (page);
  SwCase c = sw_page_context_case (context);
  gboolean course = sw_case_protocol (&c) != NULL, plan = course && sw_case_plan (&c) != NULL;
  gboolean draft = course && !plan && sw_case_end (&c) == NULL;

  gtk_widget_set_visible (self->none, !draft && !plan);
  gtk_widget_set_visible (GTK_WIDGET (self->draft), draft);
  gtk_widget_set_visible (GTK_WIDGET (self->in_force), plan);
  if (draft)
    sw_plan_draft_update (self->draft, context, changes);
  if (plan)
    sw_plan_in_force_update (self->in_force, context, changes);
}

static gboolean
sw_lead_in_page_has_unsaved (SwStepPage *page)
{
  SwLeadInPage *self = SW_LEAD_IN_PAGE (page);

  if (gtk_widget_get_visible (GTK_WIDGET (self->draft)))
    return sw_plan_draft_has_unsaved (self->draft);
  return gtk_widget_get_visible (GTK_WIDGET (self->in_force)) && sw_plan_in_force_has_unsaved (self->in_force);
}

static GtkWidget *
sw_lead_in_page_first_empty_cell (SwStepPage *page)
{
  SwLeadInPage *self = SW_LEAD_IN_PAGE (page);

  return gtk_widget_get_visible (GTK_WIDGET (self->draft)) ? sw_plan_draft_first_empty (self->draft) : NULL;
}

static gboolean
show_wanted (gpointer page)
{
  SwLeadInPage *self = page;

  if (self->wanted_dose >= 0 && gtk_widget_get_mapped (page))
    sw_plan_in_force_focus (self->in_force, self->wanted_dose);
  self->wanted_dose = -1;
  return G_SOURCE_REMOVE;
}

/* Whether the row is one of the plan of the course shown; 0 stands for the plan itself. */
static gboolean
find_wanted (SwLeadInPage *self, SwFactKind kind, gint64 id)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  const SwPlan *plan = sw_dossier_plan (context->dossier, context->course);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (context->dossier, context->course);

  self->wanted_dose = -1;
  if (kind == SW_FACT_PLAN && plan != NULL && plan->fact.id == id)
    self->wanted_dose = 0;
  for (guint i = 0; kind == SW_FACT_DOSE && i < doses->len; i++)
    if (((const SwDosePlan *) doses->pdata[i])->dose == id)
      self->wanted_dose = id;
  return self->wanted_dose >= 0;
}

/* The page is brought to view after this returns. */
static gboolean
sw_lead_in_page_show_row (SwStepPage *page, SwFactKind kind, gint64 id)
{
  if (!find_wanted (SW_LEAD_IN_PAGE (page), kind, id))
    return FALSE;
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, show_wanted, g_object_ref (page), g_object_unref);
  return TRUE;
}

static void
sw_lead_in_page_class_init (SwLeadInPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  SwStepPageClass *page_class = SW_STEP_PAGE_CLASS (class);

  page_class->update = sw_lead_in_page_update;
  page_class->has_unsaved = sw_lead_in_page_has_unsaved;
  page_class->first_empty_cell = sw_lead_in_page_first_empty_cell;
  page_class->show_row = sw_lead_in_page_show_row;
  g_type_ensure (SW_TYPE_PLAN_DRAFT);
  g_type_ensure (SW_TYPE_PLAN_IN_FORCE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-lead-in-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwLeadInPage, none);
  gtk_widget_class_bind_template_child (widget_class, SwLeadInPage, draft);
  gtk_widget_class_bind_template_child (widget_class, SwLeadInPage, in_force);
}

static void
sw_lead_in_page_init (SwLeadInPage *self)
{
  self->wanted_dose = -1;
  gtk_widget_init_template (GTK_WIDGET (self));
}
