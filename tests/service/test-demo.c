/* test-demo.c: the demo practice is the same every time, sound, and shows what it must
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-case.h"
#include "sw-course-picture.h"
#include "sw-course.h"
#include "sw-demo.h"
#include "sw-dose.h"
#include "sw-error.h"
#include "sw-gate.h"
#include "sw-schedule.h"
#include "sw-store.h"
#include "sw-suitability.h"

#include <string.h>

static char *
new_folder (void)
{
  g_autofree char *data = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", NULL);
  g_autofree char *parent = g_dir_make_tmp ("siteward-demo-XXXXXX", NULL);

  g_setenv ("SW_DATA_DIR", data, TRUE);
  return g_build_filename (parent, "record", NULL);
}

static char *
digest_of (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = sw_store_open (folder, SW_STORE_READ, &error);
  char *digest = store ? sw_store_head_digest (store, &error) : NULL;

  ck_assert_msg (digest != NULL, "%s", error ? error->message : "");
  return digest;
}

/* Makes one, checks it, throws it away; its digest. (transfer full) */
static char *
make (guint patients, guint seed, SwDay today)
{
  char *folder = new_folder ();
  SwDemoOptions options = { .patients = patients, .seed = seed, .today = today };
  g_autoptr (GError) error = NULL;
  char *digest;

  ck_assert_msg (sw_demo_make (folder, &options, &error), "%s", error ? error->message : "");
  fixture_assert_sound (folder);
  digest = digest_of (folder);
  fixture_remove (folder);
  return digest;
}

START_TEST (test_deterministic)
{
  g_autofree char *one = make (60, 1, FIXTURE_TODAY), *same = make (60, 1, FIXTURE_TODAY);
  g_autofree char *other_seed = make (60, 2, FIXTURE_TODAY), *other_day = make (60, 1, FIXTURE_TODAY + 1);

  ck_assert_str_eq (one, same);
  ck_assert_str_ne (one, other_seed);
  ck_assert_str_ne (one, other_day);
}
END_TEST

/* Days on which the clocks change, a leap day, the turn of a year. */
START_TEST (test_any_day)
{
  static const struct { int year, month, day; } days[] = {
    { 2026, 3, 29 }, { 2026, 10, 25 }, { 2028, 2, 29 }, { 2027, 1, 1 }, { 2026, 4, 5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      g_autofree char *digest = make (0, 1, sw_day_from_ymd (days[i].year, days[i].month, days[i].day));
    }
}
END_TEST

/* --- what it shows --- */

typedef struct
{
  char *folder;
  SwStore *store;
  SwPractice *practice;
  SwBooks *books;
  GTimeZone *zone;
  SwDossier *dossier; /* of the dog asked for last */
  SwCase c;
} Shown;

static Shown *
shown_new (void)
{
  Shown *shown = g_new0 (Shown, 1);
  SwDemoOptions options = { .seed = 1, .today = FIXTURE_TODAY };
  g_autoptr (GError) error = NULL;

  shown->folder = new_folder ();
  ck_assert_msg (sw_demo_make (shown->folder, &options, &error), "%s", error ? error->message : "");
  shown->store = sw_store_open (shown->folder, SW_STORE_READ, NULL);
  shown->practice = sw_store_load_practice (shown->store, NULL);
  shown->books = sw_books_new (shown->practice, NULL);
  shown->zone = g_time_zone_new_identifier (sw_practice_zone (shown->practice));
  return shown;
}

static void
shown_free (Shown *shown)
{
  sw_dossier_free (shown->dossier);
  g_time_zone_unref (shown->zone);
  sw_books_unref (shown->books);
  sw_practice_free (shown->practice);
  sw_store_close (shown->store);
  fixture_remove (shown->folder);
  g_free (shown);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Shown, shown_free)

static const SwCase *
show (Shown *shown, const char *name)
{
  SwSpineQuery query = { name, SW_SHOW_ALL, FIXTURE_TODAY };
  SwDemoOptions options = { .today = FIXTURE_TODAY };
  g_autoptr (GArray) ids = sw_store_spine (shown->store, &query, NULL);
  const SwCourse *course;

  ck_assert_msg (ids->len == 1, "%u dogs called %s", ids->len, name);
  sw_dossier_free (shown->dossier);
  shown->dossier = sw_store_load_dossier (shown->store, g_array_index (ids, gint64, 0), NULL);
  course = sw_dossier_last_course (shown->dossier);
  shown->c = (SwCase){ shown->dossier,         shown->practice, shown->books, course ? course->fact.id : 0,
                       sw_demo_now (&options), shown->zone };
  return &shown->c;
}

static gboolean
finds (GPtrArray *findings, const char *code)
{
  gboolean found = FALSE;

  for (guint i = 0; i < findings->len; i++)
    found = found || g_str_equal (sw_finding_code (((const SwFinding *) findings->pdata[i])->code), code);
  g_ptr_array_unref (findings);
  return found;
}

static GPtrArray *
of_tumour_a (const SwCase *c)
{
  const SwTumourDetails *tumour = sw_facts_last (&c->dossier->facts, SW_FACT_TUMOUR_DETAILS);

  return sw_suitability_of_tumour (c, tumour->tumour);
}

static GPtrArray *
of_plan (const SwCase *c)
{
  SwPlan *plan = sw_new (SW_FACT_PLAN, SwPlan);
  const SwFact *weight = sw_facts_last (&c->dossier->facts, SW_FACT_WEIGHT);

  GPtrArray *findings;

  plan->course = c->course;
  plan->treat_day = c->now.day + 3;
  plan->weight = weight->id;
  plan->choices = g_strdup ("");
  findings = sw_gate_a (c, plan);
  sw_fact_free (plan);
  return findings;
}

START_TEST (test_refusals)
{
  g_autoptr (Shown) shown = shown_new ();
  g_autoptr (SwDoseResult) dose = NULL;

  ck_assert (finds (of_tumour_a (show (shown, "Otis")), "tumour-too-large"));
  ck_assert (finds (of_tumour_a (show (shown, "Wren")), "wrong-place"));
  ck_assert (finds (of_plan (show (shown, "Sorrel")), "medicine-stop"));
  ck_assert (finds (of_plan (show (shown, "Juno")), "medicine-vet-decides"));
  ck_assert (finds (of_plan (show (shown, "Nib")), "no-tablet-fits"));
  dose = sw_dose_of_case (show (shown, "Pim"), NULL);
  ck_assert (dose != NULL && dose->refused);
  ck_assert (finds (g_ptr_array_ref (dose->refusals), "weight-limit"));
}
END_TEST

START_TEST (test_stages)
{
  static const struct { const char *name, *stage; } rows[] = {
    { "Fennel", "work-up" }, { "Tansy", "lead-in" }, { "Marlo", "treatment-day" }, { "Bracken", "treatment-day" },
    { "Ivy", "after" },      { "Heath", "score-due" }, { "Myrtle", "watch" },      { "Dove", "closed" },
  };
  g_autoptr (Shown) shown = shown_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    ck_assert_str_eq (sw_stage_code (sw_course_stage (show (shown, rows[i].name))), rows[i].stage);
}
END_TEST

static guint
n_current (const SwCase *c, SwFactKind kind)
{
  guint n = 0;

  for (guint i = 0; sw_facts_next (&c->dossier->facts, kind, &i) != NULL;)
    n++;
  return n;
}

START_TEST (test_named_cases)
{
  g_autoptr (Shown) shown = shown_new ();
  SwSpineQuery all = { NULL, SW_SHOW_ALL, FIXTURE_TODAY };
  g_autoptr (GArray) ids = sw_store_spine (shown->store, &all, NULL);
  g_autofree char *foot = NULL;
  const SwCase *c;

  ck_assert_uint_ge (ids->len, 24);
  foot = sw_course_foot_line (show (shown, "Tansy"));
  ck_assert_ptr_nonnull (strstr (foot, "missed"));
  ck_assert_uint_eq (n_current (show (shown, "Arlo"), SW_FACT_INJECTION_TUMOUR), 2); /* two tumours in one treatment */
  c = show (shown, "Thistle"); /* a second injection, which names the course it follows */
  ck_assert_uint_eq (n_current (c, SW_FACT_INJECTION), 2);
  ck_assert_int_ne (
      ((const SwCourseDetails *)sw_facts_of_course (&c->dossier->facts, SW_FACT_COURSE_DETAILS, c->course))->follows,
      0);
  ck_assert_uint_eq (n_current (show (shown, "Saffron"), SW_FACT_RECURRENCE), 1);
  c = show (shown, "Dove");
  ck_assert_int_eq (((const SwCourseEnd *) sw_facts_last (&c->dossier->facts, SW_FACT_COURSE_END))->end, SW_END_LOST);
  c = show (shown, "Moss");
  ck_assert_int_eq (sw_dossier_injection (c->dossier, c->course)->outside, 1);
  ck_assert_int_eq (((const SwWeight *)sw_facts_last (&show (shown, "Fennel")->dossier->facts, SW_FACT_WEIGHT))->grams,
                    12000);
  ck_assert_int_eq (((const SwWeight *)sw_facts_last (&show (shown, "Nib")->dossier->facts, SW_FACT_WEIGHT))->grams,
                    3500);
}
END_TEST

/* --- the picture --- */

static guint
n_marks (const SwCourseLine *line, const char *lane, SwMarkState state)
{
  guint n = 0;

  for (guint i = 0; i < line->lanes->len; i++)
    {
      const SwLineLane *each = line->lanes->pdata[i];

      for (guint k = 0; g_str_equal (each->title, lane) && k < each->marks->len; k++)
        n += ((const SwLineMark *) each->marks->pdata[k])->state == state;
    }
  return n;
}

START_TEST (test_picture)
{
  g_autoptr (Shown) shown = shown_new ();
  g_autoptr (SwCourseLine) tansy = sw_course_picture (show (shown, "Tansy"));
  g_autoptr (SwCourseLine) moss = sw_course_picture (show (shown, "Moss"));
  g_autoptr (SwCourseLine) none = sw_course_picture (show (shown, "Halley"));

  /* 14 doses every 12 hours and 3 in the morning (domain 3.1): three of day -2 and -1 told, one missed, this morning's
   * given */
  ck_assert_uint_eq (n_marks (tansy, "prednisolone", SW_MARK_GIVEN), 2);
  ck_assert_uint_eq (n_marks (tansy, "prednisolone", SW_MARK_MISSED), 1);
  ck_assert_uint_eq (n_marks (tansy, "prednisolone", SW_MARK_PLANNED), 14);
  ck_assert_uint_eq (n_marks (tansy, "visits", SW_MARK_INJECTION_PLANNED), 1);
  ck_assert_str_eq (((const SwLineLane *) tansy->lanes->pdata[tansy->lanes->len - 1])->title, "visits");
  ck_assert_uint_eq (n_marks (moss, "visits", SW_MARK_INJECTED), 1);
  ck_assert_uint_eq (n_marks (moss, "response", SW_MARK_SCORED), 1);
  ck_assert_uint_eq (moss->wounds->len, 1);
  ck_assert_uint_eq (moss->courses->len, 1);
  ck_assert (((const SwLineCourse *) moss->courses->pdata[0])->treated);
  ck_assert_uint_eq (none->courses->len, 0);
}
END_TEST

START_TEST (test_wrong_script)
{
  g_autofree char *folder = new_folder ();
  g_autofree char *script = g_strconcat (folder, ".txt", NULL);
  SwDemoOptions options = { .seed = 1, .today = FIXTURE_TODAY, .script = script };
  static const char *const scripts[] = {
    "practice name=X zone=Europe/Lisbon\nperson name=I roles=vet\ndog name=A client=B\ndance -1\n",
    "practice name=X zone=Europe/Lisbon\nperson name=I roles=vet\ndog name=A client=B\ncome soon\n",
    "practice name=X zone=Europe/Lisbon\nperson name=I roles=vet\ndog name=A client=B\ncome -1 weight=much\n",
    "practice name\n",
    "dog \"unfinished\n",
    "",
  };

  for (guint i = 0; i < G_N_ELEMENTS (scripts); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *parent = g_path_get_dirname (folder);

      ck_assert (g_file_set_contents (script, scripts[i], -1, NULL));
      ck_assert (!sw_demo_make (folder, &options, &error));
      ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_DOCUMENT), "%s", error->message);
      fixture_remove (g_strdup (folder));
      g_mkdir_with_parents (parent, 0700);
    }
}
END_TEST

static Suite *
demo_suite (void)
{
  Suite *suite = suite_create ("demo");
  TCase *tests = tcase_create ("demo");

  tcase_set_timeout (tests, 120);
  tcase_add_test (tests, test_deterministic);
  tcase_add_test (tests, test_any_day);
  tcase_add_test (tests, test_refusals);
  tcase_add_test (tests, test_stages);
  tcase_add_test (tests, test_named_cases);
  tcase_add_test (tests, test_picture);
  tcase_add_test (tests, test_wrong_script);
  suite_add_tcase (suite, tests);
  return suite;
}

int
main (void)
{
  return fixture_run (demo_suite ());
}
