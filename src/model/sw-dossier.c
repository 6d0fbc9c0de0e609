/* sw-dossier.c: what rules and pages ask of one dog's facts
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dossier.h"

#include "sw-unknown.h"

const SwPatientDetails *
sw_dossier_patient (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_PATIENT_DETAILS);
}

const SwClientDetails *
sw_dossier_client (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_CLIENT_DETAILS);
}

const SwTumourDetails *
sw_dossier_tumour (const SwDossier *dossier, gint64 tumour)
{
  const SwTumourDetails *details;

  for (guint i = 0; (details = sw_facts_next (&dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    if (details->tumour == tumour)
      return details;
  return NULL;
}

const SwCourse *
sw_dossier_course (const SwDossier *dossier, gint64 course)
{
  return sw_facts_by_id (&dossier->facts, SW_FACT_COURSE, course);
}

const SwCourse *
sw_dossier_last_course (const SwDossier *dossier)
{
  return sw_facts_last (&dossier->facts, SW_FACT_COURSE);
}

static int
by_letter (gconstpointer a, gconstpointer b, gpointer dossier)
{
  const SwTumourDetails *first = sw_dossier_tumour (dossier, *(const gint64 *) a);
  const SwTumourDetails *second = sw_dossier_tumour (dossier, *(const gint64 *) b);

  return (first && second) ? (first->letter > second->letter) - (first->letter < second->letter) : 0;
}

GArray *
sw_dossier_course_tumours (const SwDossier *dossier, gint64 course)
{
  GArray *tumours = g_array_new (FALSE, FALSE, sizeof (gint64));
  const SwCourseTumour *row;

  for (guint i = 0; (row = sw_facts_next (&dossier->facts, SW_FACT_COURSE_TUMOUR, &i)) != NULL;)
    if (row->course == course && row->treat)
      g_array_append_val (tumours, row->tumour);
  g_array_sort_with_data (tumours, by_letter, (gpointer) dossier);
  return tumours;
}

const SwPlan *
sw_dossier_plan (const SwDossier *dossier, gint64 course)
{
  return sw_facts_of_course (&dossier->facts, SW_FACT_PLAN, course);
}

static int
by_due (gconstpointer a, gconstpointer b)
{
  const SwDosePlan *first = *(const SwDosePlan *const *) a;
  const SwDosePlan *second = *(const SwDosePlan *const *) b;

  if (first->due_day != second->due_day)
    return first->due_day < second->due_day ? -1 : 1;
  if (first->due_minute != second->due_minute)
    return first->due_minute < second->due_minute ? -1 : 1;
  return (first->dose > second->dose) - (first->dose < second->dose);
}

GPtrArray *
sw_dossier_doses (const SwDossier *dossier, gint64 course)
{
  GPtrArray *doses = g_ptr_array_new ();
  SwDosePlan *dose;

  for (guint i = 0; (dose = sw_facts_next (&dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (dose->course == course)
      g_ptr_array_add (doses, dose);
  g_ptr_array_sort (doses, by_due);
  return doses;
}

const SwDoseEvent *
sw_dossier_dose_event (const SwDossier *dossier, gint64 dose)
{
  const SwDoseEvent *event;

  for (guint i = 0; (event = sw_facts_next (&dossier->facts, SW_FACT_DOSE_EVENT, &i)) != NULL;)
    if (event->dose == dose)
      return event;
  return NULL;
}

const SwRelease *
sw_dossier_release (const SwDossier *dossier, gint64 course)
{
  return sw_facts_of_course (&dossier->facts, SW_FACT_RELEASE, course);
}

const SwInjection *
sw_dossier_injection (const SwDossier *dossier, gint64 course)
{
  return sw_facts_of_course (&dossier->facts, SW_FACT_INJECTION, course);
}

GPtrArray *
sw_dossier_readings (const SwDossier *dossier, gint64 tumour, SwDay day)
{
  GPtrArray *readings = g_ptr_array_new ();
  SwReading *reading;

  for (guint i = 0; (reading = sw_facts_next (&dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->tumour == tumour && reading->day == day)
      g_ptr_array_add (readings, reading);
  return readings;
}

const SwAnswer *
sw_dossier_answer (const SwDossier *dossier, gint64 course, gint64 tumour, const char *question, SwDay day)
{
  const SwAnswer *answer, *newest = NULL;

  for (guint i = 0; (answer = sw_facts_next (&dossier->facts, SW_FACT_ANSWER, &i)) != NULL;)
    if (answer->course == course && answer->tumour == tumour && answer->day <= day
        && g_str_equal (answer->question, question)
        && (newest == NULL || answer->day > newest->day || (answer->day == newest->day && answer->fact.id > newest->fact.id)))
      newest = answer;
  return newest;
}

char *
sw_patient_number (gint64 patient)
{
  return g_strdup_printf ("P-%06" G_GINT64_FORMAT, patient);
}

char *
sw_course_number (const SwDossier *dossier, gint64 course)
{
  const SwCourse *row = sw_dossier_course (dossier, course);
  g_autofree char *patient = sw_patient_number (dossier->patient);

  return row ? g_strdup_printf ("%s/%" G_GINT64_FORMAT, patient, row->number) : g_strdup (patient);
}

char *
sw_tumour_letter (gint64 letter)
{
  g_return_val_if_fail (letter >= 0, NULL);

  if (letter < 26)
    return g_strdup_printf ("%c", (char) ('A' + letter));
  return g_strdup_printf ("%c%c", (char) ('A' + (letter / 26 - 1) % 26), (char) ('A' + letter % 26));
}
