/* test-course-sizes.c: dose and response of a course as the record holds it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dose.h"
#include "sw-response.h"

#include "shelf.h"
#include "sw-error.h"
#include "sw-quantity.h"

#include <stdlib.h>
#include <string.h>

#define TUMOUR_A 101
#define TUMOUR_B 102
#define FIRST 201
#define SECOND 202
#define DAY_0 G_GINT64_CONSTANT (20500)

typedef struct
{
  SwDossier *dossier;
  SwPractice *practice;
  SwBooks *books;
  SwCase c;
  gint64 next_id;
} Record;

static gpointer
put (Record *r, gpointer fact)
{
  return shelf_put (&r->dossier->facts, ++r->next_id, fact);
}

static void
put_tumour (Record *r, gint64 id, gint64 letter, SwDay found)
{
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);

  details->tumour = id;
  details->letter = letter;
  details->found = found;
  put (r, details);
}

static void
put_course (Record *r, gint64 id, gint64 document)
{
  SwCourse *course = sw_new (SW_FACT_COURSE, SwCourse);
  SwCourseDetails *details = sw_new (SW_FACT_COURSE_DETAILS, SwCourseDetails);

  shelf_put (&r->dossier->facts, id, course);
  details->course = id;
  details->document = document;
  put (r, details);
}

static void
put_treated (Record *r, gint64 course, gint64 tumour)
{
  SwCourseTumour *row = sw_new (SW_FACT_COURSE_TUMOUR, SwCourseTumour);

  row->course = course;
  row->tumour = tumour;
  row->treat = 1;
  put (r, row);
}

static SwReading *
put_reading (Record *r, gint64 tumour, SwDay day, const char *typed)
{
  SwReading *row = sw_new (SW_FACT_READING, SwReading);
  gint64 axes[3];

  ck_assert (sw_reading_parse (typed, axes, NULL));
  row->tumour = tumour;
  row->day = day;
  row->axis1 = axes[0];
  row->axis2 = axes[1];
  row->axis3 = axes[2];
  return put (r, row);
}

static void
put_injection (Record *r, gint64 course, SwDay day, gint64 tumour, gint64 given_nl)
{
  SwInjection *injection = sw_dossier_injection (r->dossier, course)
                             ? (SwInjection *) sw_dossier_injection (r->dossier, course)
                             : put (r, sw_new (SW_FACT_INJECTION, SwInjection));
  SwInjectionTumour *row = sw_new (SW_FACT_INJECTION_TUMOUR, SwInjectionTumour);

  injection->course = course;
  injection->day = day;
  row->course = course;
  row->injection = injection->fact.id;
  row->tumour = tumour;
  row->drawn_nl = row->given_nl = given_nl;
  put (r, row);
}

static void
put_look (Record *r, gint64 tumour, SwDay day, SwLookState state)
{
  SwLook *look = sw_new (SW_FACT_LOOK, SwLook);

  look->tumour = tumour;
  look->day = day;
  look->state = state;
  put (r, look);
}

static void
put_wound (Record *r, gint64 tumour, SwDay day, SwWoundState state)
{
  SwWound *wound = sw_new (SW_FACT_WOUND, SwWound);

  wound->tumour = tumour;
  wound->day = day;
  wound->state = state;
  put (r, wound);
}

static void
put_weight (Record *r, SwDay day, int minute, gint64 grams)
{
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);

  weight->day = day;
  weight->minute = minute;
  weight->grams = grams;
  put (r, weight);
}

/* A dog with tumours A and B and one course, tumour A treated in it. */
static void
record_init (Record *r, const char *protocol)
{
  g_autoptr (GError) error = NULL;

  *r = (Record){ .dossier = sw_dossier_new (SHELF_PATIENT), .practice = shelf_practice (protocol), .next_id = 1000 };
  r->books = sw_books_new (r->practice, &error);
  ck_assert_msg (r->books != NULL, "%s", error ? error->message : "");
  put_tumour (r, TUMOUR_A, 0, DAY_0 - 30);
  put_tumour (r, TUMOUR_B, 1, DAY_0 - 30);
  put_course (r, FIRST, SHELF_DOCUMENT);
  put_treated (r, FIRST, TUMOUR_A);
  r->c = (SwCase){ .dossier = r->dossier, .practice = r->practice, .books = r->books, .course = FIRST,
                   .now = { DAY_0, 10 * 60 } };
}

static void
record_clear (Record *r)
{
  sw_dossier_free (r->dossier);
  sw_practice_free (r->practice);
  sw_books_unref (r->books);
}

/* Measured before the lead-in, on day 0 (20 mm) and injected. */
static void
record_init_injected (Record *r)
{
  record_init (r, "tigilanol-eu");
  put_reading (r, TUMOUR_A, DAY_0 - 10, "12x12x12");
  put_reading (r, TUMOUR_A, DAY_0, "20x15x10");
  put_reading (r, TUMOUR_A, DAY_0, "20x15x10");
  put_injection (r, FIRST, DAY_0, TUMOUR_A, 750000);
}

static SwCategory
category_on (Record *r, gint64 day_number)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwResponse) response = sw_response_of_tumour (&r->c, TUMOUR_A, DAY_0 + day_number, &error);

  ck_assert_msg (response != NULL, "%s", error ? error->message : "");
  return response->category;
}

START_TEST (test_baseline_is_the_treatment_day)
{
  Record r;
  g_autoptr (GArray) sizes = NULL;
  g_autoptr (SwResponse) response = NULL;

  record_init_injected (&r);
  put_reading (&r, TUMOUR_A, DAY_0 + 28, "14x5x5");
  sizes = sw_response_sizes (&r.c, TUMOUR_A, DAY_0 + 28);
  ck_assert_uint_eq (sizes->len, 2);
  response = sw_response_of_tumour (&r.c, TUMOUR_A, DAY_0 + 28, NULL);
  ck_assert_int_eq (response->category, SW_CATEGORY_PARTIAL);
  ck_assert (response->family[SW_FAMILY_LONGEST].baseline.num == 2000);
  ck_assert (response->counts_as_day_28);
  ck_assert_int_eq (response->next->code, SW_FINDING_NEXT_SECOND);
  record_clear (&r);
}
END_TEST

START_TEST (test_looks)
{
  Record r;
  g_autoptr (SwResponse) response = NULL;

  record_init_injected (&r);
  put_look (&r, TUMOUR_A, DAY_0 + 14, SW_LOOK_HIDDEN);
  put_reading (&r, TUMOUR_A, DAY_0 + 14, "30x5x5"); /* slough hides the bed: calipers say nothing */
  ck_assert_int_eq (category_on (&r, 14), SW_CATEGORY_NOT_EVALUABLE);
  put_look (&r, TUMOUR_A, DAY_0 + 21, SW_LOOK_NOT_MEASURED);
  ck_assert_int_eq (category_on (&r, 21), SW_CATEGORY_NOT_EVALUABLE);
  put_reading (&r, TUMOUR_A, DAY_0 + 21, "19x5x5"); /* somebody did measure */
  ck_assert_int_eq (category_on (&r, 21), SW_CATEGORY_STABLE);
  put_look (&r, TUMOUR_A, DAY_0 + 25, SW_LOOK_TOO_SMALL);
  ck_assert_int_eq (category_on (&r, 25), SW_CATEGORY_PARTIAL);
  put_look (&r, TUMOUR_A, DAY_0 + 28, SW_LOOK_GONE);
  put_wound (&r, TUMOUR_A, DAY_0 + 14, SW_WOUND_OPEN);
  response = sw_response_of_tumour (&r.c, TUMOUR_A, DAY_0 + 28, NULL);
  ck_assert_int_eq (response->category, SW_CATEGORY_COMPLETE);
  ck_assert (response->wound_open);
  g_clear_pointer (&response, sw_response_free);
  put_wound (&r, TUMOUR_A, DAY_0 + 28, SW_WOUND_CLOSED);
  response = sw_response_of_tumour (&r.c, TUMOUR_A, DAY_0 + 28, NULL);
  ck_assert (!response->wound_open);
  record_clear (&r);
}
END_TEST

static void
put_recurrence (Record *r, SwDay day, gint64 sampled)
{
  SwRecurrence *row = sw_new (SW_FACT_RECURRENCE, SwRecurrence);

  row->course = FIRST;
  row->tumour = TUMOUR_A;
  row->day = day;
  row->sampled = sampled;
  put (r, row);
}

START_TEST (test_recurrence)
{
  Record r;
  g_autoptr (SwResponse) response = NULL;

  record_init_injected (&r);
  put_look (&r, TUMOUR_A, DAY_0 + 28, SW_LOOK_GONE);
  put_recurrence (&r, DAY_0 + 90, 1);
  ck_assert_int_eq (category_on (&r, 28), SW_CATEGORY_COMPLETE);
  response = sw_response_of_tumour (&r.c, TUMOUR_A, DAY_0 + 90, NULL);
  ck_assert_int_eq (response->category, SW_CATEGORY_RECURRENCE);
  ck_assert (!response->presumed);
  record_clear (&r);
}
END_TEST

/* A second injection after less than complete keeps the first baseline; a treated recurrence starts a new one. */
START_TEST (test_later_courses)
{
  Record r;
  g_autoptr (GArray) kept = NULL, anew = NULL;

  record_init_injected (&r);
  put_reading (&r, TUMOUR_A, DAY_0 + 28, "15x5x5");
  put_course (&r, SECOND, SHELF_DOCUMENT);
  put_reading (&r, TUMOUR_A, DAY_0 + 32, "15x5x5");
  put_injection (&r, SECOND, DAY_0 + 32, TUMOUR_A, 200000);
  r.c.course = SECOND;
  put_look (&r, TUMOUR_A, DAY_0 + 60, SW_LOOK_GONE);
  kept = sw_response_sizes (&r.c, TUMOUR_A, DAY_0 + 60);
  ck_assert_uint_eq (kept->len, 4);
  ck_assert_int_eq (category_on (&r, 60), SW_CATEGORY_COMPLETE);
  put_reading (&r, TUMOUR_A, DAY_0 + 120, "8x5x5");
  ck_assert_int_eq (category_on (&r, 120), SW_CATEGORY_RECURRENCE);
  put_course (&r, SECOND + 1, SHELF_DOCUMENT);
  put_reading (&r, TUMOUR_A, DAY_0 + 125, "9x5x5");
  put_injection (&r, SECOND + 1, DAY_0 + 125, TUMOUR_A, 200000);
  put_reading (&r, TUMOUR_A, DAY_0 + 150, "6x5x5");
  anew = sw_response_sizes (&r.c, TUMOUR_A, DAY_0 + 150);
  ck_assert_uint_eq (anew->len, 2);
  ck_assert_int_eq (category_on (&r, 150), SW_CATEGORY_PARTIAL);
  record_clear (&r);
}
END_TEST

static void
assert_no_score (Record *r, gint64 tumour, gint64 day_number, const char *part)
{
  g_autoptr (GError) error = NULL;

  ck_assert_ptr_null (sw_response_of_tumour (&r->c, tumour, DAY_0 + day_number, &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_INPUT));
  ck_assert_msg (strstr (error->message, part) != NULL, "%s", error->message);
}

START_TEST (test_nothing_to_score)
{
  Record r;

  record_init_injected (&r);
  assert_no_score (&r, TUMOUR_B, 28, "was not injected");
  assert_no_score (&r, TUMOUR_A, -1, "was not injected");
  assert_no_score (&r, TUMOUR_A, 0, "at least one later size");
  assert_no_score (&r, TUMOUR_A, 28, "Nothing was measured");
  put_reading (&r, TUMOUR_A, DAY_0 + 27, "14x5x5");
  assert_no_score (&r, TUMOUR_A, 28, "Nothing was measured");
  put_injection (&r, FIRST, DAY_0, TUMOUR_B, 100000);
  assert_no_score (&r, TUMOUR_B, 28, "no baseline");
  record_clear (&r);
}
END_TEST

START_TEST (test_dog)
{
  Record r;

  record_init_injected (&r);
  put_look (&r, TUMOUR_A, DAY_0 + 28, SW_LOOK_GONE);
  ck_assert_int_eq (sw_response_of_dog (&r.c, DAY_0 + 28, SW_NON_TARGETS_GONE), SW_CATEGORY_COMPLETE);
  ck_assert_int_eq (sw_response_of_dog (&r.c, DAY_0 + 28, SW_NON_TARGETS_PERSISTING), SW_CATEGORY_PARTIAL);
  ck_assert_int_eq (sw_response_of_dog (&r.c, DAY_0 + 60, SW_NON_TARGETS_NONE), SW_CATEGORY_NOT_EVALUABLE);
  put_tumour (&r, TUMOUR_B + 1, 2, DAY_0 + 40);
  ck_assert (!sw_response_new_tumour (&r.c, DAY_0 + 39));
  ck_assert (sw_response_new_tumour (&r.c, DAY_0 + 40));
  ck_assert_int_eq (sw_response_of_dog (&r.c, DAY_0 + 40, SW_NON_TARGETS_NONE), SW_CATEGORY_PROGRESSIVE);
  /* The treated tumour's own category stands. */
  ck_assert_int_eq (category_on (&r, 28), SW_CATEGORY_COMPLETE);
  record_clear (&r);
}
END_TEST

START_TEST (test_dose_of_case)
{
  Record r;
  SwReading *slip, *taken_back;
  g_autoptr (SwDoseResult) result = NULL;
  g_autoptr (GError) error = NULL;

  record_init (&r, "tigilanol-eu");
  ck_assert_ptr_null (sw_dose_of_case (&r.c, &error));
  ck_assert_str_eq (error->message, "There is no weight of the treatment day; weigh the dog.");
  g_clear_error (&error);
  put_weight (&r, DAY_0 - 1, 600, 30000);
  put_weight (&r, DAY_0, 540, 24000);
  put_weight (&r, DAY_0, 500, 99000);
  ck_assert_ptr_null (sw_dose_of_case (&r.c, &error));
  ck_assert_str_eq (error->message, "Tumour A has no reading; measure it.");
  put_reading (&r, TUMOUR_A, DAY_0 - 1, "50x50x50");
  put_reading (&r, TUMOUR_A, DAY_0, "20x20x20");
  slip = put_reading (&r, TUMOUR_A, DAY_0, "200x20x20");
  taken_back = sw_fact_withdrawal (slip);
  put (&r, taken_back);
  result = sw_dose_of_case (&r.c, NULL);
  ck_assert (result != NULL && !result->refused);
  ck_assert_int_eq (result->total_nl, 2000000);
  ck_assert_int_eq (g_array_index (result->tumours, SwTumourDose, 0).tumour, TUMOUR_A);
  record_clear (&r);
}
END_TEST

/* Given on a later day than today - 28 counts [ours]: day 27 after it does, day 28 does not. */
START_TEST (test_given_lately)
{
  Record r;
  SwDay free_day;
  g_autoptr (SwDoseResult) result = NULL;
  g_autofree char *next = NULL;

  record_init_injected (&r);
  put_course (&r, SECOND, SHELF_DOCUMENT);
  put_treated (&r, SECOND, TUMOUR_B);
  r.c.course = SECOND;
  ck_assert_int_eq (sw_dose_given_before (&r.c, DAY_0 + 27, &free_day), 750000);
  ck_assert_int_eq (free_day, DAY_0 + 28);
  ck_assert_int_eq (sw_dose_given_before (&r.c, DAY_0 + 28, &free_day), 0);
  ck_assert_int_eq (free_day, SW_NO_DAY);
  r.c.now.day = DAY_0 + 27;
  put_weight (&r, DAY_0 + 27, 540, 40000);
  put_reading (&r, TUMOUR_B, DAY_0 + 27, "40x20x17");
  result = sw_dose_of_case (&r.c, NULL);
  ck_assert (result != NULL && result->refused);
  next = sw_finding_next (result->refusals->pdata[0]);
  ck_assert_msg (strstr (next, "Wait until") != NULL, "%s", next);
  r.c.course = FIRST; /* its own injection is no earlier one */
  ck_assert_int_eq (sw_dose_given_before (&r.c, DAY_0 + 1, NULL), 0);
  record_clear (&r);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("course-sizes");
  TCase *tests = tcase_create ("course-sizes");
  SRunner *runner;

  tcase_add_test (tests, test_baseline_is_the_treatment_day);
  tcase_add_test (tests, test_looks);
  tcase_add_test (tests, test_recurrence);
  tcase_add_test (tests, test_later_courses);
  tcase_add_test (tests, test_nothing_to_score);
  tcase_add_test (tests, test_dog);
  tcase_add_test (tests, test_dose_of_case);
  tcase_add_test (tests, test_given_lately);
  suite_add_tcase (suite, tests);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
