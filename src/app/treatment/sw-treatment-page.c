/* sw-treatment-page.c: the treatment day, put together from its sections
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-treatment-page.h"

#include "sw-discharge-section-private.h"
#include "sw-dose-section-private.h"
#include "sw-gate-section-private.h"
#include "sw-injection-section-private.h"
#include "sw-observation-section-private.h"
#include "sw-readings-section-private.h"
#include "sw-release-section-private.h"
#include "sw-today-section-private.h"
#include "sw-weight-section-private.h"

#define SECTIONS 9

struct _SwTreatmentPage
{
  SwStepPage parent_instance;

  /* template children */
  GtkStack *states;
  GtkScrolledWindow *scrolled;
  SwWeightSection *weight;
  SwReadingsSection *readings;
  SwDoseSection *dose;
  SwTodaySection *today;
  SwGateSection *gate;
  SwReleaseSection *release;
  SwInjectionSection *injection;
  SwObservationSection *observation;
  SwDischargeSection *discharge;
  GtkBox *why;
  GtkBox *blocks;
};

G_DEFINE_FINAL_TYPE (SwTreatmentPage, sw_treatment_page, SW_TYPE_STEP_PAGE)

/* In the order of the page. */
static void
sections_of (SwTreatmentPage *self, SwTreatmentSection *sections[SECTIONS])
{
  SwTreatmentSection *const all[SECTIONS] = {
    SW_TREATMENT_SECTION (self->weight),    SW_TREATMENT_SECTION (self->readings),
    SW_TREATMENT_SECTION (self->dose),      SW_TREATMENT_SECTION (self->today),
    SW_TREATMENT_SECTION (self->gate),      SW_TREATMENT_SECTION (self->release),
    SW_TREATMENT_SECTION (self->injection), SW_TREATMENT_SECTION (self->observation),
    SW_TREATMENT_SECTION (self->discharge),
  };

  for (int i = 0; i < SECTIONS; i++)
    sections[i] = all[i];
}

/* --- what blocks --- */

/* Within this page: where it is cured, else where it is listed. */
static GtkWidget *
cure_here (SwTreatmentPage *self, const SwFinding *finding)
{
  SwTreatmentSection *sections[SECTIONS];
  GtkWidget *cure = NULL;

  sections_of (self, sections);
  for (int i = 0; cure == NULL && i < SECTIONS; i++)
    cure = SW_TREATMENT_SECTION_GET_CLASS (sections[i])->cure_of (sections[i], finding);
  return cure;
}

static void
focus (SwTreatmentPage *self, const SwFinding *finding, GtkWidget *widget)
{
  if (finding->tumour != 0)
    sw_readings_section_show_tumour (self->readings, finding->tumour);
  gtk_widget_grab_focus (widget);
}

static void
cure_cb (SwGateSection *gate, const SwFinding *finding, SwTreatmentPage *self)
{
  GtkWidget *cure = cure_here (self, finding);
  const char *step = sw_gate_step_of (finding);

  if (cure != NULL)
    focus (self, finding, cure);
  else if (step != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "patient.step", "s", step);
}

/* The release was pressed: to the first thing that blocks, which the foot line names. */
static void
blocked_cb (SwReleaseSection *release, const SwFinding *finding, SwTreatmentPage *self)
{
  GtkWidget *cure = finding->severity == SW_VET_DECIDES ? NULL : cure_here (self, finding);

  if (cure == NULL)
    cure = sw_gate_section_act_of (self->gate, finding);
  if (cure != NULL)
    focus (self, finding, cure);
}

/* --- the step page --- */

static void
sw_treatment_page_update (SwStepPage *page, const SwPageContext *context, SwPageChanges changes)
{
  SwTreatmentPage *self = SW_TREATMENT_PAGE (page);
  SwTreatmentSection *sections[SECTIONS];

  gtk_stack_set_visible_child_name (self->states, context->course != 0 ? "course" : "empty");
  if (context->course == 0)
    return;
  sections_of (self, sections);
  for (int i = 0; i < SECTIONS; i++)
    SW_TREATMENT_SECTION_GET_CLASS (sections[i])->update (sections[i], context, changes);
}

static gboolean
sw_treatment_page_has_unsaved (SwStepPage *page)
{
  SwTreatmentSection *sections[SECTIONS];

  sections_of (SW_TREATMENT_PAGE (page), sections);
  for (int i = 0; i < SECTIONS; i++)
    if (SW_TREATMENT_SECTION_GET_CLASS (sections[i])->has_unsaved (sections[i]))
      return TRUE;
  return FALSE;
}

static GtkWidget *
sw_treatment_page_first_empty_cell (SwStepPage *page)
{
  const SwPageContext *context = sw_step_page_get_context (page);
  SwTreatmentSection *sections[SECTIONS];
  GtkWidget *cell = NULL;

  if (context == NULL || context->course == 0)
    return NULL;
  sections_of (SW_TREATMENT_PAGE (page), sections);
  for (int i = 0; cell == NULL && i < SECTIONS; i++)
    cell = SW_TREATMENT_SECTION_GET_CLASS (sections[i])->first_empty_cell (sections[i]);
  return cell;
}

/* Once the section has its place: the page may only now come to view. */
static gboolean
scroll_cb (GtkWidget *section, GdkFrameClock *clock, gpointer data)
{
  SwTreatmentPage *self = SW_TREATMENT_PAGE (gtk_widget_get_ancestor (section, SW_TYPE_TREATMENT_PAGE));
  GtkWidget *body = gtk_widget_get_parent (section);
  graphene_point_t top;

  if (gtk_widget_compute_point (section, body, &GRAPHENE_POINT_INIT (0, 0), &top))
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scrolled), top.y);
  return G_SOURCE_REMOVE;
}

static GtkWidget *
section_of (SwTreatmentPage *self, SwFactKind kind)
{
  const struct
  {
    SwFactKind kind;
    gpointer section;
  } places[] = {
    { SW_FACT_RELEASE, self->release },
    { SW_FACT_INJECTION, self->injection },
    { SW_FACT_OBSERVATION, self->observation },
    { SW_FACT_DISCHARGE, self->discharge },
  };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    if (places[i].kind == kind)
      return places[i].section;
  return NULL;
}

static gboolean
show_reading (SwTreatmentPage *self, const SwPageContext *context, gint64 id)
{
  const SwReading *reading = sw_facts_by_id (&context->dossier->facts, SW_FACT_READING, id);

  return reading != NULL && reading->course == context->course && reading->day == sw_treatment_case (context).now.day
         && sw_readings_section_show_tumour (self->readings, reading->tumour);
}

static gboolean
sw_treatment_page_show_row (SwStepPage *page, SwFactKind kind, gint64 id)
{
  SwTreatmentPage *self = SW_TREATMENT_PAGE (page);
  const SwPageContext *context = sw_step_page_get_context (page);
  GtkWidget *section = section_of (self, kind);

  if (context == NULL || context->course == 0)
    return FALSE;
  if (section != NULL)
    gtk_widget_add_tick_callback (section, scroll_cb, NULL, NULL);
  return section != NULL || (kind == SW_FACT_READING && show_reading (self, context, id));
}

static void
sw_treatment_page_class_init (SwTreatmentPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  SwStepPageClass *page_class = SW_STEP_PAGE_CLASS (class);

  page_class->update = sw_treatment_page_update;
  page_class->has_unsaved = sw_treatment_page_has_unsaved;
  page_class->first_empty_cell = sw_treatment_page_first_empty_cell;
  page_class->show_row = sw_treatment_page_show_row;

  g_type_ensure (SW_TYPE_WEIGHT_SECTION);
  g_type_ensure (SW_TYPE_READINGS_SECTION);
  g_type_ensure (SW_TYPE_DOSE_SECTION);
  g_type_ensure (SW_TYPE_TODAY_SECTION);
  g_type_ensure (SW_TYPE_GATE_SECTION);
  g_type_ensure (SW_TYPE_RELEASE_SECTION);
  g_type_ensure (SW_TYPE_INJECTION_SECTION);
  g_type_ensure (SW_TYPE_OBSERVATION_SECTION);
  g_type_ensure (SW_TYPE_DISCHARGE_SECTION);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-treatment-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, states);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, scrolled);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, weight);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, readings);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, dose);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, why);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, blocks);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, today);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, gate);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, release);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, injection);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, observation);
  gtk_widget_class_bind_template_child (widget_class, SwTreatmentPage, discharge);
  gtk_widget_class_bind_template_callback (widget_class, cure_cb);
  gtk_widget_class_bind_template_callback (widget_class, blocked_cb);
}

/* A place that holds nothing visible takes no room. */
static void
place (GtkBox *place_of, GtkWidget *widget)
{
  gtk_box_append (place_of, widget);
  g_object_bind_property (widget, "visible", place_of, "visible", G_BINDING_SYNC_CREATE);
}

static void
sw_treatment_page_init (SwTreatmentPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  place (self->why, sw_dose_section_get_why (self->dose));
  place (self->blocks, sw_gate_section_get_list (self->gate));
}
