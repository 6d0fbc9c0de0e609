/* sw-treatment-section-private.h: one part of the treatment day's page, a column of widgets that knows what it cures
 *
 * The page hands every update to its sections in their order, asks them for unsent text, for the first empty cell,
 * and for the
 * widget at which something that blocks the needle can be cured.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_TREATMENT_SECTION (sw_treatment_section_get_type ())
G_DECLARE_DERIVABLE_TYPE (SwTreatmentSection, sw_treatment_section, SW, TREATMENT_SECTION, GtkWidget)

struct _SwTreatmentSectionClass
{
  GtkWidgetClass parent_class;

  /* Show the context, which has a course. Needed. */
  void (*update) (SwTreatmentSection *self, const SwPageContext *context, SwPageChanges changes);
  gboolean (*has_unsaved) (SwTreatmentSection *self);
  GtkWidget *(*first_empty_cell) (SwTreatmentSection *self);
  /* The widget that takes the focus when this finding is to be cured; NULL: not in this section. */
  GtkWidget *(*cure_of) (SwTreatmentSection *self, const SwFinding *finding);
};

/* A heading over the section (NULL: none); the section is a group of this name. Returns the label. */
GtkWidget *sw_treatment_section_set_heading (SwTreatmentSection *self, const char *heading);
void sw_treatment_section_append (SwTreatmentSection *self, GtkWidget *child);

SwStepPage *sw_treatment_section_page (SwTreatmentSection *self);
/* NULL until the section is on a page that shows a dog. */
const SwPageContext *sw_treatment_section_context (SwTreatmentSection *self);
/* A plain act by the person at the desk. (transfer full) */
SwRequest *sw_treatment_section_request (SwTreatmentSection *self, SwActKind act);
/* Takes the request; `replied` gets (owner, reply, data). */
void sw_treatment_section_perform (SwTreatmentSection *self, GtkWidget *owner, SwRequest *request,
                                   SwFindingView *beside, SwReplied replied, gpointer data);
/* The same for a correction or withdrawal of a row: asks first where a release is voided or an injection amended by it.
 * `replied` may get a NULL reply when the person gave up. */
void sw_treatment_section_correct (SwTreatmentSection *self, GtkWidget *owner, SwRequest *request,
                                   SwFindingView *beside, SwReplied replied, gpointer data);

/* --- what several sections ask of a dossier --- */

/* The case at the moment that counts: now, or that of the injection once there is one. */
SwCase sw_treatment_case (const SwPageContext *context);
/* "tumour A, left hock". (transfer full) */
char *sw_treatment_tumour_name (const SwPageContext *context, gint64 tumour);
/* "0.85 mL". (transfer full) */
char *sw_treatment_ml (gint64 nl);
/* "Ines, 09:12" or "Ines, 2026-05-14 09:12" when it was another day than `today`. (transfer full) */
char *sw_treatment_by (const SwPageContext *context, gint64 person, SwMoment at, SwDay today);
/* The release that stands for today or that the injection names; NULL: none. */
const SwRelease *sw_treatment_release (const SwPageContext *context);
/* What was released for a tumour; NULL: nothing. */
const SwReleaseTumour *
sw_treatment_released_for (const SwPageContext *context, const SwRelease *release, gint64 tumour);

G_END_DECLS
