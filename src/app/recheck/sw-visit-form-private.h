/* sw-visit-form-private.h: one contact after the injection: how, when, pain, cover, notes, and what each site shows
 *
 * Records a new visit or corrects one. Signal shown-day (gint64 day): the day that the form speaks of has changed.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_VISIT_FORM (sw_visit_form_get_type ())
G_DECLARE_FINAL_TYPE (SwVisitForm, sw_visit_form, SW, VISIT_FORM, GtkBox)

GtkWidget *sw_visit_form_new (void);

/* The course must be injected. */
void sw_visit_form_update (SwVisitForm *self, SwStepPage *page, SwPageChanges changes);
/* Fills the form with a recorded visit; what was typed goes. */
void sw_visit_form_correct (SwVisitForm *self, const SwVisit *visit);
SwDay sw_visit_form_get_day (SwVisitForm *self);

gboolean sw_visit_form_has_unsaved (SwVisitForm *self);
GtkWidget *sw_visit_form_first_empty (SwVisitForm *self);
void sw_visit_form_focus (SwVisitForm *self);

G_END_DECLS
