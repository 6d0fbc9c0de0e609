/* sw-treatment-section.c: one part of the treatment day's page
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-treatment-section-private.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-quantity.h"
#include "sw-region.h"

#include <glib/gi18n-lib.h>

G_DEFINE_ABSTRACT_TYPE (SwTreatmentSection, sw_treatment_section, GTK_TYPE_WIDGET)

static gboolean
no_unsaved (SwTreatmentSection *self)
{
  return FALSE;
}

static GtkWidget *
no_cell (SwTreatmentSection *self)
{
  return NULL;
}

static GtkWidget *
no_cure (SwTreatmentSection *self, const SwFinding *finding)
{
  return NULL;
}

static void
sw_treatment_section_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_treatment_section_parent_class)->dispose (object);
}

static void
sw_treatment_section_class_init (SwTreatmentSectionClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_treatment_section_dispose;
  class->has_unsaved = no_unsaved;
  class->first_empty_cell = no_cell;
  class->cure_of = no_cure;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "section");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_treatment_section_init (SwTreatmentSection *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
}

GtkWidget *
sw_treatment_section_set_heading (SwTreatmentSection *self, const char *heading)
{
  GtkWidget *label = sw_heading_new (heading);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, heading, -1);
  sw_treatment_section_append (self, label);

  return label;
}

void
sw_treatment_section_append (SwTreatmentSection *self, GtkWidget *child)
{
  gtk_widget_set_parent (child, GTK_WIDGET (self));
}

SwStepPage *
sw_treatment_section_page (SwTreatmentSection *self)
{
  GtkWidget *page = gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE);

  return page != NULL ? SW_STEP_PAGE (page) : NULL;
}

const SwPageContext *
sw_treatment_section_context (SwTreatmentSection *self)
{
  SwStepPage *page = sw_treatment_section_page (self);

  return page != NULL ? sw_step_page_get_context (page) : NULL;
}

SwRequest *
sw_treatment_section_request (SwTreatmentSection *self, SwActKind act)
{
  return sw_step_page_request (sw_treatment_section_page (self), act);
}

void
sw_treatment_section_perform (SwTreatmentSection *self, GtkWidget *owner, SwRequest *request, SwFindingView *beside,
                              SwReplied replied, gpointer data)
{
  sw_perform (owner, sw_treatment_section_context (self)->record, request, beside, replied, data);
}

/* --- corrections --- */

typedef struct
{
  SwTreatmentSection *section;
  GtkWidget *owner;
  SwRequest *request;
  SwFindingView *beside; /* nullable */
  SwReplied replied;     /* nullable */
  gpointer data;         /* nullable GObject */
} Correcting;

static void
correcting_free (Correcting *correcting)
{
  g_object_unref (correcting->section);
  g_object_unref (correcting->owner);
  g_clear_pointer (&correcting->request, sw_request_free);
  g_clear_object (&correcting->beside);
  g_clear_object (&correcting->data);
  g_free (correcting);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Correcting, correcting_free)

static void
correct_answered_cb (gboolean yes, gpointer data)
{
  g_autoptr (Correcting) correcting = data;

  if (yes && sw_treatment_section_page (correcting->section) != NULL)
    sw_treatment_section_perform (correcting->section, correcting->owner, g_steal_pointer (&correcting->request),
                                  correcting->beside, correcting->replied, correcting->data);
  else if (correcting->replied != NULL)
    correcting->replied (correcting->owner, NULL, correcting->data);
}

static void
ask_to_correct (Correcting *correcting, const SwRelease *release, gboolean injected)
{
  g_autofree char *time = sw_time_format ((int) release->minute);
  g_autofree char *heading = g_strdup_printf (_("The dose was released at %s."), time);

  sw_dialog_ask (GTK_WIDGET (correcting->section), injected ? _ ("The injection is on record.") : heading,
                 injected
                     ? _ ("Only a vet may correct what it rests on. Both stand, marked as amended.")
                     : _ ("What it rests on is corrected: the release becomes void, and a vet releases the dose anew."),
                 _ ("Correct It"), correct_answered_cb, correcting);
}

void
sw_treatment_section_correct (SwTreatmentSection *self, GtkWidget *owner, SwRequest *request, SwFindingView *beside,
                              SwReplied replied, gpointer data)
{
  const SwPageContext *context = sw_treatment_section_context (self);
  const SwRelease *release = sw_treatment_release (context);
  Correcting *correcting;

  if (release == NULL)
    {
      sw_treatment_section_perform (self, owner, request, beside, replied, data);
      return;
    }
  correcting = g_new0 (Correcting, 1);
  correcting->section = g_object_ref (self);
  correcting->owner = g_object_ref (owner);
  correcting->request = request;
  g_set_object (&correcting->beside, beside);
  correcting->replied = replied;
  correcting->data = data != NULL ? g_object_ref (data) : NULL;
  ask_to_correct (correcting, release, sw_dossier_injection (context->dossier, context->course) != NULL);
}

/* --- what several sections ask --- */

SwCase
sw_treatment_case (const SwPageContext *context)
{
  SwCase c = sw_page_context_case (context);
  const SwInjection *injection = sw_dossier_injection (context->dossier, context->course);

  if (injection != NULL)
    c.now = (SwMoment){ injection->day, (int) injection->minute };
  return c;
}

char *
sw_treatment_tumour_name (const SwPageContext *context, gint64 tumour)
{
  const SwTumourDetails *details = sw_dossier_tumour (context->dossier, tumour);
  g_autofree char *letter = details != NULL ? sw_tumour_letter (details->letter) : g_strdup ("?");

  if (details == NULL)
    return g_strdup_printf (_("tumour %s"), letter);
  /* Translators: "tumour A, left hock" */
  return g_strdup_printf (_("tumour %s, %s %s"), letter, sw_side_name ((SwSide) details->side),
                          sw_region_name ((SwRegion) details->region));
}

char *
sw_treatment_ml (gint64 nl)
{
  g_autofree char *number = sw_drug_volume_format (nl);

  return g_strdup_printf ("%s mL", number);
}

char *
sw_treatment_by (const SwPageContext *context, gint64 person, SwMoment at, SwDay today)
{
  const char *name = sw_practice_person_name (sw_page_context_practice (context), person);
  g_autofree char *time = sw_time_format (at.minute);
  g_autofree char *day = NULL;

  if (at.day == today)
    return g_strdup_printf ("%s, %s", name, time);
  day = sw_day_format (at.day);
  return g_strdup_printf ("%s, %s %s", name, day, time);
}

const SwRelease *
sw_treatment_release (const SwPageContext *context)
{
  const SwRelease *release = sw_dossier_release (context->dossier, context->course);

  if (release == NULL || sw_dossier_injection (context->dossier, context->course) != NULL)
    return release;
  return release->day == sw_page_context_now (context).day ? release : NULL;
}

const SwReleaseTumour *
sw_treatment_released_for (const SwPageContext *context, const SwRelease *release, gint64 tumour)
{
  const SwReleaseTumour *row;

  for (guint i = 0; (row = sw_facts_next (&context->dossier->facts, SW_FACT_RELEASE_TUMOUR, &i)) != NULL;)
    if (row->release == release->fact.id && row->tumour == tumour)
      return row;
  return NULL;
}
