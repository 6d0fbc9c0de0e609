/* sw-workup-section.h: the base of the parts of the work-up page: one part is shown at a time
 *
 *   body (scrolls)
 *   ---------------------------------------
 *   what is wrong          [the part's act]
 *
 * A part is shown its facts by update() like a step page, and keeps what is typed in the same way.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"
#include "sw-workup-findings.h"

G_BEGIN_DECLS

/* Answers, readings and medicines are the dog's: opening a course leaves what is being typed of them alone. */
#define SW_CHANGED_DOG (SW_CHANGED_PATIENT | SW_CHANGED_PERSON)

#define SW_TYPE_WORKUP_SECTION (sw_workup_section_get_type ())
G_DECLARE_DERIVABLE_TYPE (SwWorkUpSection, sw_workup_section, SW, WORKUP_SECTION, GtkWidget)

struct _SwWorkUpSectionClass
{
  GtkWidgetClass parent_class;

  void (*update) (SwWorkUpSection *self, const SwWorkUp *work_up, SwPageChanges changes); /* needed */
  gboolean (*has_unsaved) (SwWorkUpSection *self);
  GtkWidget *(*first_empty_cell) (SwWorkUpSection *self);
  /* Focus what settles this; FALSE: not in this part. */
  gboolean (*show_place) (SwWorkUpSection *self, const SwPlace *place);
};

void sw_workup_section_update (SwWorkUpSection *self, const SwWorkUp *work_up, SwPageChanges changes);
gboolean sw_workup_section_has_unsaved (SwWorkUpSection *self);
GtkWidget *sw_workup_section_first_empty_cell (SwWorkUpSection *self);
gboolean sw_workup_section_show_place (SwWorkUpSection *self, const SwPlace *place);

/* --- for the parts --- */

/* The box that the part fills, its messages, and where its buttons go. */
GtkBox *sw_workup_section_get_body (SwWorkUpSection *self);
SwFindingView *sw_workup_section_get_messages (SwWorkUpSection *self);
void sw_workup_section_add_button (SwWorkUpSection *self, GtkWidget *button);
/* A quiet word beside the buttons; NULL: nothing. */
void sw_workup_section_set_status (SwWorkUpSection *self, const char *status);

const SwPageContext *sw_workup_section_get_context (SwWorkUpSection *self);
SwRequest *sw_workup_section_request (SwWorkUpSection *self, SwActKind act);
/* As sw_step_page_perform, with the section's own messages beside. */
void sw_workup_section_perform (SwWorkUpSection *self, SwRequest *request, SwReplied replied, gpointer data);
/* Ask the page to show where something is settled. Signal "go" (pointer SwPlace). */
void sw_workup_section_go (SwWorkUpSection *self, const SwPlace *place);

/* Adds the fact to the request as the next row of its subject: in place of what is recorded or was taken back. */
void sw_request_add_next (SwRequest *request, const SwDossier *dossier, gpointer fact);

G_END_DECLS
