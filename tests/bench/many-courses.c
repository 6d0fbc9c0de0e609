/* many-courses.c: a record of 100,000 treated dogs
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "many-courses.h"

#include "sw-store.h"
#include "sw-values.h"

#define COURSES 100000
#define BATCH 5000
#define TODAY MANY_COURSES_TODAY

static void
append (SwStore *store, SwActKind kind, GPtrArray *facts)
{
  SwActHead head = { .kind = kind, .person = 1, .at_us = G_USEC_PER_SEC };
  g_autoptr (GError) error = NULL;

  if (!sw_store_append (store, &head, facts, NULL, &error))
    g_error ("%s", error->message);
}

static gint64
between (GRand *rand, int least, int most)
{
  return g_rand_int_range (rand, least, most + 1);
}

static void
invent_end (SwTreated *row, GRand *rand)
{
  gint64 late = MIN (TODAY - row->day, between (rand, 0, 900));

  row->category = row->day + 35 > TODAY || between (rand, 0, 9) == 0 ? SW_UNKNOWN : between (rand, 0, 3) / 2 * between (rand, 0, 4);
  row->scores = row->category != SW_UNKNOWN;
  if (row->scores > 0)
    {
      row->best_num = -between (rand, -200, 1000);
      row->best_den = 1000;
    }
  if (row->category == SW_CATEGORY_COMPLETE)
    {
      row->clear_day = row->day + between (rand, 25, 35);
      row->last_clear_day = row->clear_day + late;
      if (between (rand, 0, 6) == 0)
        row->recurrence_day = row->last_clear_day + 1;
    }
  if (between (rand, 0, 20) == 0)
    row->died_day = row->day + 60 + late;
}

static SwTreated
invent (GRand *rand, gint64 dog, gint64 course)
{
  static const char *const grades[] = { "kiupel-low", "kiupel-high", "cytology-low", NULL };
  SwTreated row = { 0 };
  const SwTreatedField *fields;
  guint n;

  fields = sw_treated_fields (&n);
  for (guint i = 0; i < n; i++)
    if (fields[i].nullable && !fields[i].text)
      sw_treated_set_int (&row, &fields[i], SW_UNKNOWN);
  row.course = course;
  row.tumour = row.patient = dog;
  row.course_number = row.tumours = row.place = row.injection = row.injector = 1;
  row.day = TODAY - between (rand, 0, 3000);
  row.window_last = row.day + 35;
  row.agent = g_intern_static_string ("tigilanol tiglate");
  row.grade = g_intern_string (grades[between (rand, 0, 3)]);
  row.region = between (rand, 0, 24);
  row.depth = between (rand, 0, 1);
  row.volume_mm3 = between (rand, 100, 7000);
  row.weight_g = between (rand, 4000, 50000);
  row.wound_looks = 4;
  row.wound_open_day = row.day + between (rand, 1, 40);
  if (between (rand, 0, 4) > 0)
    row.wound_closed_day = row.wound_open_day + between (rand, 1, 28);
  row.reader_a = 1;
  row.longest_a = between (rand, 500, 3000);
  row.longest_again = row.longest_a + between (rand, -80, 80);
  row.doses = 5;
  row.doses_on_time = 4;
  row.doses_late = 1;
  row.released_nl = row.drawn_nl = row.given_nl = 500000;
  row.vials = 1;
  row.left_nl = 1500000;
  invent_end (&row, rand);
  return row;
}

/* A dog with one tumour and one course; its number is theirs too. */
static void
add_dog (SwStore *store, GRand *rand, gint64 number)
{
  g_autoptr (GPtrArray) facts = g_ptr_array_new_with_free_func (sw_fact_free);
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func (sw_fact_free);
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (SwTreated));
  SwTumour *tumour = sw_new (SW_FACT_TUMOUR, SwTumour);
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  SwTreated row = invent (rand, number, number);

  g_ptr_array_add (facts, sw_fact_new (SW_FACT_PATIENT));
  append (store, SW_ACT_REGISTER_PATIENT, facts);
  tumour->fact.patient = course->fact.patient = number;
  course->number = 1;
  g_ptr_array_add (own, tumour);
  g_ptr_array_add (own, course);
  append (store, SW_ACT_OPEN_COURSE, own);
  g_array_append_val (rows, row);
  if (!sw_store_put_treated (store, number, rows, NULL))
    g_error ("row %" G_GINT64_FORMAT " could not be kept", number);
}

void
many_courses_make (const char *record)
{
  SwStoreSetup setup = { .person = "Ines", .zone = "UTC", .practice_only = TRUE };
  SwStore *store = sw_store_create (record, &setup, NULL);
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);

  for (gint64 number = 1; number <= COURSES;)
    {
      gint64 last = number + BATCH;

      sw_store_begin (store, NULL);
      for (; number < last; number++)
        add_dog (store, rand, number);
      sw_store_commit (store, NULL);
    }
  sw_store_close (store);
}
