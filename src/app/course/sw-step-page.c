/* sw-step-page.c: the base of every page of a course
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-step-page.h"

typedef struct
{
  SwPageContext *context;
  SwPageChanges pending; /* what a hidden page has not shown yet */
} SwStepPagePrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (SwStepPage, sw_step_page, GTK_TYPE_WIDGET)

static SwStepPagePrivate *
private_of (SwStepPage *self)
{
  return sw_step_page_get_instance_private (self);
}

static void
catch_up (SwStepPage *self)
{
  SwStepPagePrivate *private = private_of (self);
  SwPageChanges changes = private->pending;
  g_autoptr (SwPageContext) context = NULL;

  if (changes == 0 || private->context == NULL)
    return;
  context = sw_page_context_ref (private->context); /* update() may lead to a newer one */
  private->pending = 0;
  SW_STEP_PAGE_GET_CLASS (self)->update (self, context, changes);
}

static void
sw_step_page_map (GtkWidget *widget)
{
  catch_up (SW_STEP_PAGE (widget));
  GTK_WIDGET_CLASS (sw_step_page_parent_class)->map (widget);
}

static gboolean
no_unsaved (SwStepPage *self)
{
  return FALSE;
}

static GtkWidget *
no_cell (SwStepPage *self)
{
  return NULL;
}

static gboolean
no_row (SwStepPage *self, SwFactKind kind, gint64 id)
{
  return FALSE;
}

static void
sw_step_page_dispose (GObject *object)
{
  SwStepPagePrivate *private = private_of (SW_STEP_PAGE (object));
  GtkWidget *child;

  g_clear_pointer (&private->context, sw_page_context_unref);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_step_page_parent_class)->dispose (object);
}

static void
sw_step_page_class_init (SwStepPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_step_page_dispose;
  widget_class->map = sw_step_page_map;
  class->has_unsaved = no_unsaved;
  class->first_empty_cell = no_cell;
  class->show_row = no_row;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "steppage");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_step_page_init (SwStepPage *self)
{
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
}

const SwPageContext *
sw_step_page_get_context (SwStepPage *self)
{
  return private_of (self)->context;
}

SwRequest *
sw_step_page_request (SwStepPage *self, SwActKind act)
{
  const SwPageContext *context = sw_step_page_get_context (self);

  return sw_request_new (act, context->person, context->patient);
}

void
sw_step_page_perform (SwStepPage *self, SwRequest *request, SwFindingView *beside, SwReplied replied, gpointer data)
{
  sw_perform (GTK_WIDGET (self), sw_step_page_get_context (self)->record, request, beside, replied, data);
}

void
sw_step_page_invalidate (SwStepPage *self, SwPageChanges changes)
{
  private_of (self)->pending |= changes;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    catch_up (self);
}

void
sw_step_page_set_context (SwStepPage *self, SwPageContext *context, SwPageChanges changes)
{
  SwStepPagePrivate *private = private_of (self);
  SwPageContext *old = private->context;

  private->context = sw_page_context_ref (context);
  g_clear_pointer (&old, sw_page_context_unref);
  sw_step_page_invalidate (self, changes);
}

gboolean
sw_step_page_has_unsaved (SwStepPage *self)
{
  return SW_STEP_PAGE_GET_CLASS (self)->has_unsaved (self);
}

GtkWidget *
sw_step_page_first_empty_cell (SwStepPage *self)
{
  return SW_STEP_PAGE_GET_CLASS (self)->first_empty_cell (self);
}

gboolean
sw_step_page_show_row (SwStepPage *self, SwFactKind kind, gint64 id)
{
  return SW_STEP_PAGE_GET_CLASS (self)->show_row (self, kind, id);
}
