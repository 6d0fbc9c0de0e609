/* sw-recheck-page.c: what follows the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-recheck-page.h"

#include "sw-contact-section-private.h"
#include "sw-course-end-section-private.h"
#include "sw-course-words.h"
#include "sw-recheck-private.h"
#include "sw-recurrence-section-private.h"
#include "sw-visit-days-private.h"
#include "sw-visit-form-private.h"
#include "sw-visit-list-private.h"

#include <glib/gi18n-lib.h>

struct _SwRecheckPage
{
  SwStepPage parent_instance;

  /* template children */
  GtkLabel *nothing;
  GtkWidget *after; /* what an injection is needed for */
  GtkFlowBox *days;
  GtkLabel *expected_heading;
  GtkBox *expected;
  SwVisitForm *form;
  GtkWidget *earlier;
  SwFindingView *answer;
  GtkListBox *visits;
  GtkExpander *back_expander;
  SwRecurrenceSection *back;
  GtkWidget *course; /* what a course is needed for */
  GtkExpander *contact_expander;
  SwContactSection *contact;
  GtkExpander *end_expander;
  SwCourseEndSection *end;

  guint injected : 1;
};

G_DEFINE_FINAL_TYPE (SwRecheckPage, sw_recheck_page, SW_TYPE_STEP_PAGE)

static void
show_expected (SwRecheckPage *self)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  SwCase c = sw_page_context_case (context);
  SwDay day = sw_visit_form_get_day (self->form);
  g_autofree char *words = sw_words_day (&c, day);
  g_autofree char *heading = g_strdup_printf (_("Usually seen on %s"), words);

  gtk_label_set_text (self->expected_heading, heading);
  sw_expected_fill (self->expected, context, day);
}

/* --- visits on record --- */

static void
correct_visit (SwStepPage *page, const SwVisit *visit)
{
  SwRecheckPage *self = SW_RECHECK_PAGE (page);

  sw_finding_view_clear (self->answer);
  sw_visit_form_correct (self->form, visit);
}

/* With the wounds that belong to it, and what was seen that day. */
static void
take_back_visit (SwStepPage *page, const SwVisit *visit)
{
  SwRecheckPage *self = SW_RECHECK_PAGE (page);
  const SwPageContext *context = sw_step_page_get_context (page);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, context->course);
  SwRequest *request = sw_step_page_request (page, SW_ACT_RECORD_RECHECK);

  sw_request_add (request, sw_fact_withdrawal (visit));
  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      const SwWound *wound = sw_visit_wound (&context->dossier->facts, visit, tumour);
      const SwLook *look = sw_visit_look (context, tumour, visit->day);

      if (wound != NULL)
        sw_request_add (request, sw_fact_withdrawal (wound));
      if (look != NULL)
        sw_request_add (request, sw_fact_withdrawal (look));
    }
  sw_step_page_perform (page, request, self->answer, NULL, NULL);
}

/* --- showing --- */

static void
show_visits (SwRecheckPage *self, const SwPageContext *context)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  sw_visit_days_fill (self->days, context);
  gtk_widget_set_visible (self->earlier, sw_visit_list_fill (self->visits, page, correct_visit, take_back_visit) > 0);
}

static const char *
why_nothing (const SwPageContext *context)
{
  if (context->course == 0)
    return _("No course is open: rechecks belong to a course.");
  return _("Nothing was injected in this course yet. Visits and wounds come here afterwards.");
}

static void
sw_recheck_page_update (SwStepPage *page, const SwPageContext *context, SwPageChanges changes)
{
  SwRecheckPage *self = SW_RECHECK_PAGE (page);

  self->injected = context->course != 0 && sw_dossier_injection (context->dossier, context->course) != NULL;
  gtk_widget_set_visible (GTK_WIDGET (self->nothing), !self->injected);
  gtk_label_set_text (self->nothing, why_nothing (context));
  gtk_widget_set_visible (self->after, self->injected);
  gtk_widget_set_visible (self->course, context->course != 0);
  if (changes & SW_CHANGED_SUBJECT)
    sw_finding_view_clear (self->answer);
  if (context->course != 0)
    {
      sw_contact_section_update (self->contact, page, changes);
      sw_course_end_section_update (self->end, page, changes);
    }
  if (!self->injected)
    return;
  sw_visit_form_update (self->form, page, changes);
  sw_recurrence_section_update (self->back, page, changes);
  show_expected (self);
  show_visits (self, context);
}

static gboolean
sw_recheck_page_has_unsaved (SwStepPage *page)
{
  SwRecheckPage *self = SW_RECHECK_PAGE (page);

  if (gtk_widget_get_visible (self->course)
      && (sw_contact_section_has_unsaved (self->contact) || sw_course_end_section_has_unsaved (self->end)))
    return TRUE;
  return self->injected && (sw_visit_form_has_unsaved (self->form) || sw_recurrence_section_has_unsaved (self->back));
}

static GtkWidget *
sw_recheck_page_first_empty_cell (SwStepPage *page)
{
  SwRecheckPage *self = SW_RECHECK_PAGE (page);

  return self->injected ? sw_visit_form_first_empty (self->form) : NULL;
}

static gboolean
show_visit (SwRecheckPage *self, gint64 id)
{
  GtkWidget *row = sw_recheck_row_find (self->visits, SW_FACT_VISIT, id);

  if (id == 0)
    sw_visit_form_focus (self->form);
  else if (row != NULL)
    gtk_widget_grab_focus (row);
  return id == 0 || row != NULL;
}

static gboolean
show_wound (SwRecheckPage *self, gint64 id)
{
  const SwPageContext *context = sw_step_page_get_context (SW_STEP_PAGE (self));
  const SwWound *wound = sw_facts_by_id (&context->dossier->facts, SW_FACT_WOUND, id);

  return wound != NULL && show_visit (self, wound->visit);
}

static gboolean
sw_recheck_page_show_row (SwStepPage *page, SwFactKind kind, gint64 id)
{
  SwRecheckPage *self = SW_RECHECK_PAGE (page);

  switch ((int) kind)
    {
    case SW_FACT_COURSE: /* a visit that is due */
      return self->injected && show_visit (self, 0);
    case SW_FACT_VISIT:
      return show_visit (self, id);
    case SW_FACT_WOUND:
      return show_wound (self, id);
    case SW_FACT_CONTACT:
      gtk_expander_set_expanded (self->contact_expander, TRUE);
      return sw_contact_section_show_row (self->contact, id);
    case SW_FACT_RECURRENCE:
      gtk_expander_set_expanded (self->back_expander, TRUE);
      return sw_recurrence_section_show_row (self->back, id);
    case SW_FACT_COURSE_END:
      gtk_expander_set_expanded (self->end_expander, TRUE);
      sw_course_end_section_focus (self->end);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
sw_recheck_page_class_init (SwRecheckPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  SwStepPageClass *page_class = SW_STEP_PAGE_CLASS (class);

  page_class->update = sw_recheck_page_update;
  page_class->has_unsaved = sw_recheck_page_has_unsaved;
  page_class->first_empty_cell = sw_recheck_page_first_empty_cell;
  page_class->show_row = sw_recheck_page_show_row;
  g_type_ensure (SW_TYPE_CONTACT_SECTION);
  g_type_ensure (SW_TYPE_COURSE_END_SECTION);
  g_type_ensure (SW_TYPE_FINDING_VIEW);
  g_type_ensure (SW_TYPE_RECURRENCE_SECTION);
  g_type_ensure (SW_TYPE_VISIT_FORM);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-recheck-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, nothing);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, after);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, days);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, expected_heading);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, expected);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, form);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, earlier);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, answer);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, visits);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, back_expander);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, back);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, course);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, contact_expander);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, contact);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, end_expander);
  gtk_widget_class_bind_template_child (widget_class, SwRecheckPage, end);
}

static void
sw_recheck_page_init (SwRecheckPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->form, "shown-day", G_CALLBACK (show_expected), self);
}
