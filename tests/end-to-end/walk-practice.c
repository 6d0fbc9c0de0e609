/* walk-practice.c: a new practice, and a dog that comes to it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "walk-steps.h"

#define PROTOCOL "Tigilanol tiglate, canine mast cell tumour (EU, UK)"

static gboolean
has_record (gpointer walk)
{
  return sw_window_get_record (((Walk *) walk)->window) != NULL;
}

void
walk_make_record (Walk *walk)
{
  walk_picture (walk, "start");
  walk_type (walk, "your name", walk->vet);
  walk_type (walk, "the practice", "Sample Practice (invented)");
  walk_type (walk, "time zone", "Europe/Lisbon");
  walk_press (walk, "Make the Record");
  ui_wait (has_record, walk, "the new record");
  walk->person = sw_window_get_person (walk->window);
  ui_settle ();
}

static gboolean
has_technician (gpointer walk)
{
  return sw_practice_person (sw_record_get_practice (sw_window_get_record (((Walk *) walk)->window)), 2) != NULL;
}

void
walk_add_technician (Walk *walk)
{
  walk_page (walk, "practice", "people");
  walk_type (walk, "name: new person", walk->technician);
  walk_tick (walk, "technician: new person");
  walk_press (walk, "Add the new person");
  ui_wait (has_technician, walk, "the technician");
  walk_picture (walk, "practice-people");
  walk_page (walk, "practice", "settings");
  walk_picture (walk, "practice-settings");
}

void
walk_adopt (Walk *walk)
{
  const SwPractice *practice;

  walk_page (walk, "practice", "documents");
  walk_picture (walk, "practice-documents");
  walk_press (walk, "Adopt… " PROTOCOL);
  walk_find (walk, "Adopt");
  walk_picture (walk, "practice-adoption");
  g_assert_cmpuint (walk_tick_all (walk), >, 10);
  walk_answer (walk, "Adopt");
  walk_find (walk, "Take Out of Use… " PROTOCOL);
  practice = sw_record_get_practice (sw_window_get_record (walk->window));
  g_assert_nonnull (sw_practice_adopted (practice, SW_DOCUMENT_PROTOCOL, "tigilanol-eu"));
  g_assert_nonnull (sw_practice_adopted (practice, SW_DOCUMENT_INTERACTIONS, "interactions"));
  walk_picture (walk, "practice-documents-adopted");
}

static gboolean
dog_is_shown (gpointer data)
{
  Walk *walk = data;

  walk->patient = sw_patient_page_get_patient (SW_PATIENT_PAGE (sw_window_get_patient_page (walk->window)));
  return walk->patient != 0 && ui_dialog (walk->window) == NULL;
}

void
walk_register (Walk *walk)
{
  walk_page (walk, "patients", NULL);
  walk_picture (walk, "patients");
  walk_press (walk, "Register a patient…");
  walk_find (walk, "Register the Patient");
  walk_picture (walk, "register");
  walk_type (walk, "name", "Sample");
  walk_type (walk, "breed", "vizsla");
  walk_choose (walk, "sex", "male");
  walk_choose (walk, "neutered", "yes");
  walk_type (walk, "born", "2019-03-02");
  walk_type (walk, "client", "Example, Vera");
  walk_press (walk, "Register the Patient");
  ui_wait (dog_is_shown, walk, "the dog's page");
  walk_see (walk, "Example, Vera");
}

void
walk_weigh (Walk *walk, const char *weight)
{
  walk_press (walk, "Weigh…");
  walk_type (walk, "weight", weight);
  walk_answer (walk, "Record the Weight");
}

void
walk_add_tumour (Walk *walk)
{
  walk_press (walk, "Add Tumour…");
  walk_choose (walk, "side", "left");
  walk_choose (walk, "region", "hock");
  walk_choose (walk, "layer", "cutaneous");
  walk_picture (walk, "tumour");
  walk_answer (walk, "Register the Tumour");
  walk_find (walk, "A  left hock, cutaneous");
}
