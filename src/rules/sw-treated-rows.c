/* sw-treated-rows.c: a dog's treated tumours: what was injected, where, by whom, how it was measured
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-treated-private.h"

#include "sw-course.h"

/* Every nullable column without a value. */
static SwTreated
empty_row (void)
{
  SwTreated row = { 0 };
  const SwTreatedField *fields;
  guint n;

  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].nullable && !fields[i].text)
      sw_treated_set_int (&row, &fields[i], SW_UNKNOWN);
  return row;
}

/* --- the injection --- */

static const SwInjection *
injection_of (const SwDossier *dossier, const SwInjectionTumour *part)
{
  const SwInjection *injection = sw_facts_by_id (&dossier->facts, SW_FACT_INJECTION, part->injection);

  while (injection != NULL && injection->fact.replaced_by != 0)
    injection = sw_facts_by_id (&dossier->facts, SW_FACT_INJECTION, injection->fact.replaced_by);
  return injection != NULL && !injection->fact.withdrawn ? injection : NULL;
}

/* The last recurrence of the tumour before a treatment day: what follows it is a first injection again. */
static SwDay
recurrence_before (const SwDossier *dossier, gint64 tumour, SwDay day)
{
  const SwRecurrence *row;
  SwDay last = SW_NO_DAY;

  for (guint i = 0; (row = sw_facts_next (&dossier->facts, SW_FACT_RECURRENCE, &i)) != NULL;)
    if (row->tumour == tumour && row->day <= day && (last == SW_NO_DAY || row->day > last))
      last = row->day;
  return last;
}

static gint64
count_injections (const SwDossier *dossier, gint64 tumour, SwDay day)
{
  SwDay after = recurrence_before (dossier, tumour, day);
  const SwInjectionTumour *part;
  gint64 count = 0;

  for (guint i = 0; (part = sw_facts_next (&dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    {
      const SwInjection *injection = injection_of (dossier, part);

      if (part->tumour == tumour && part->given_nl > 0 && injection != NULL && injection->day <= day
          && (after == SW_NO_DAY || injection->day >= after))
        count++;
    }
  return count;
}

static void
fill_vials (const SwDossier *dossier, SwTreated *row)
{
  const SwVial *vial;

  for (guint i = 0; (vial = sw_facts_next (&dossier->facts, SW_FACT_VIAL, &i)) != NULL;)
    if (vial->course == row->course)
      {
        row->vials++;
        row->left_nl += vial->left_nl;
      }
}

/* What was released stands as it was released, whatever was amended later. */
static void
fill_release (const SwDossier *dossier, const SwInjection *injection, SwTreated *row)
{
  const SwRelease *release = sw_facts_by_id (&dossier->facts, SW_FACT_RELEASE, injection->release);
  const SwWeight *weight = release ? sw_facts_by_id (&dossier->facts, SW_FACT_WEIGHT, release->weight) : NULL;
  const SwReleaseTumour *part;

  row->weight_g = weight ? weight->grams : 0;
  for (guint i = 0; (part = sw_facts_next (&dossier->facts, SW_FACT_RELEASE_TUMOUR, &i)) != NULL;)
    if (part->release == injection->release && part->tumour == row->tumour)
      {
        row->volume_mm3 = part->volume_mm3;
        row->released_nl = part->drawn_nl;
      }
}

/* --- who read, and how long --- */

static void
fill_readers (const SwDossier *dossier, SwTreated *row)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (dossier, row->tumour, row->day);

  for (guint i = 0; i < readings->len; i++)
    {
      const SwReading *reading = readings->pdata[i];
      gint64 longest = MAX (reading->axis1, MAX (reading->axis2, reading->axis3));

      if (row->reader_a == SW_UNKNOWN)
        {
          row->reader_a = reading->fact.person;
          row->longest_a = longest;
        }
      else if (reading->fact.person == row->reader_a)
        row->longest_again = row->longest_again == SW_UNKNOWN ? longest : row->longest_again;
      else if (row->reader_b == SW_UNKNOWN)
        {
          row->reader_b = reading->fact.person;
          row->longest_b = longest;
        }
    }
}

/* --- the tumour --- */

static void
fill_tumour (const SwDossier *dossier, SwTreated *row)
{
  const SwTumourDetails *details = sw_dossier_tumour (dossier, row->tumour);
  const SwAnswer *grade = sw_dossier_answer (dossier, 0, row->tumour, "grade", row->day);

  row->grade = grade ? g_intern_string (grade->answer) : NULL;
  if (details == NULL)
    return;
  row->letter = details->letter;
  row->region = details->region;
  row->side = details->side;
  row->depth = details->depth;
}

static SwTreated
treated_row (const SwCase *c, const SwInjection *injection, const SwInjectionTumour *part)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  SwTreated row = empty_row ();

  row.course = c->course;
  row.tumour = part->tumour;
  row.patient = c->dossier->patient;
  row.course_number = sw_dossier_course (c->dossier, c->course)->number;
  row.day = injection->day;
  row.minute = injection->minute;
  row.injection = count_injections (c->dossier, part->tumour, injection->day);
  row.agent = g_intern_string (protocol ? protocol->agent : "");
  row.window_last = injection->day + (protocol ? protocol->score_last_day : 0);
  row.injector = injection->injector;
  row.outside = injection->outside;
  row.past_limit = injection->past_limit;
  row.drawn_nl = part->drawn_nl;
  row.given_nl = part->given_nl;
  fill_tumour (c->dossier, &row);
  fill_release (c->dossier, injection, &row);
  fill_vials (c->dossier, &row);
  fill_readers (c->dossier, &row);
  sw_treated_lead_in (c, &row);
  sw_treated_follow (c, &row);
  sw_treated_wound (c, &row);
  return row;
}

static int
by_letter (gconstpointer a, gconstpointer b)
{
  const SwTreated *first = a, *second = b;

  return (first->letter > second->letter) - (first->letter < second->letter);
}

static void
add_course (const SwCase *c, GArray *rows)
{
  g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  const SwInjectionTumour *part;

  for (guint i = 0; (part = sw_facts_next (&c->dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    {
      const SwInjection *injection = part->course == c->course ? injection_of (c->dossier, part) : NULL;

      if (injection != NULL && part->given_nl > 0)
        {
          SwTreated row = treated_row (c, injection, part);

          g_array_append_val (own, row);
        }
    }
  g_array_sort (own, by_letter);
  for (guint i = 0; i < own->len; i++)
    {
      SwTreated *row = &g_array_index (own, SwTreated, i);

      row->tumours = own->len;
      row->place = i + 1;
    }
  if (own->len > 0)
    g_array_append_vals (rows, own->data, own->len);
}

GArray *
sw_treated_rows (const SwCase *c)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  SwCase own = *c;
  const SwCourse *course;

  for (guint i = 0; (course = sw_facts_next (&c->dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    {
      own.course = course->fact.id;
      add_course (&own, rows);
    }
  return rows;
}
