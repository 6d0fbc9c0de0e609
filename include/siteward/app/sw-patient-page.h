/* sw-patient-page.h: one dog: heading, course line, and the pages of its steps
 *
 *   heading          who, client, weight, warnings, tumours (+)
 *   course line      always visible; a dose is ticked on it
 *   [Work-up] ...    the switcher, and the page of the chosen step (sw-step-page.h)
 *
 * Loads the dog's dossier when it is asked to show it and whenever the record says that it changed; the step pages get
 * a new context each time. Property foot (string): the sentence of what blocks the next step.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PATIENT_PAGE (sw_patient_page_get_type ())
G_DECLARE_FINAL_TYPE (SwPatientPage, sw_patient_page, SW, PATIENT_PAGE, GtkWidget)

/* Once, before anything else. */
void sw_patient_page_set_record (SwPatientPage *self, SwRecord *record);
void sw_patient_page_set_person (SwPatientPage *self, gint64 person);
/* 0: no dog. Loses what is typed: ask has_unsaved first. */
void sw_patient_page_show (SwPatientPage *self, gint64 patient);
gint64 sw_patient_page_get_patient (SwPatientPage *self);
/* "log", "work-up" ...: FALSE if there is no such page. Asks first if something typed is not saved. */
gboolean sw_patient_page_show_step (SwPatientPage *self, const char *step);
const char *sw_patient_page_get_step (SwPatientPage *self);

gboolean sw_patient_page_has_unsaved (SwPatientPage *self);
/* Of the step that is shown; NULL: none. */
GtkWidget *sw_patient_page_first_empty_cell (SwPatientPage *self);
const char *sw_patient_page_get_foot (SwPatientPage *self);

G_END_DECLS
