/* test-reference.c: our figures beside those of R's survival package, from the fixtures of tests/reference
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-competing.h"
#include "sw-interval.h"
#include "sw-proportion.h"
#include "sw-survival.h"

#include "near.h"

#include <stdlib.h>
#include <string.h>

#define AGREE 1e-8
#define AGREE_MASS 1e-5

/* A fixture: lines of a word and numbers. */
typedef struct
{
  char *word;
  double values[12];
  guint n;
} Line;

typedef struct
{
  char *kind;
  GArray *lines;   /* of Line, all but the rows */
  GArray *columns[3]; /* of double, the rows */
} Fixture;

static char *
fixture_folder (void)
{
  return g_build_filename (g_getenv ("SW_SOURCE_DIR"), "tests", "reference", "fixtures", NULL);
}

static void
read_line (Fixture *fixture, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", -1);
  Line line = { .word = parts[0] };

  if (strcmp (line.word, "kind") == 0)
    {
      fixture->kind = g_strdup (parts[1]);
      return;
    }
  for (; parts[line.n + 1]; line.n++)
    line.values[line.n] = g_ascii_strtod (parts[line.n + 1], NULL);
  if (strcmp (line.word, "row") == 0)
    {
      for (guint i = 0; i < line.n; i++)
        g_array_append_val (fixture->columns[i], line.values[i]);
      return;
    }
  line.word = g_strdup (line.word);
  g_array_append_val (fixture->lines, line);
}

static Fixture
read_fixture (const char *name)
{
  g_autofree char *folder = fixture_folder ();
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *text = NULL;
  Fixture fixture = { .lines = g_array_new (FALSE, FALSE, sizeof (Line)) };

  for (guint i = 0; i < G_N_ELEMENTS (fixture.columns); i++)
    fixture.columns[i] = g_array_new (FALSE, FALSE, sizeof (double));
  ck_assert (g_file_get_contents (path, &text, NULL, NULL));
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    if (*lines[i] && *lines[i] != '#')
      read_line (&fixture, lines[i]);
  return fixture;
}

static void
fixture_clear (Fixture *fixture)
{
  for (guint i = 0; i < fixture->lines->len; i++)
    g_free (g_array_index (fixture->lines, Line, i).word);
  for (guint i = 0; i < G_N_ELEMENTS (fixture->columns); i++)
    g_array_unref (fixture->columns[i]);
  g_array_unref (fixture->lines);
  g_free (fixture->kind);
}

/* A column as bytes, for the rows of group @group if there is one. */
static gsize
bytes_of (const Fixture *fixture, guint column, gboolean of_group, double group, double *times, guint8 *bytes)
{
  gsize n = 0;

  for (guint i = 0; i < fixture->columns[0]->len; i++)
    if (!of_group || g_array_index (fixture->columns[2], double, i) == group)
      {
        times[n] = g_array_index (fixture->columns[0], double, i);
        bytes[n++] = g_array_index (fixture->columns[column], double, i);
      }
  return n;
}

static void
check_step (const SwSurvivalStep *step, const double *v)
{
  assert_near (step->t, v[1], 0);
  assert_near (step->n, v[2], 0);
  assert_near (step->d, v[3], 0);
  assert_near (step->s, v[4], AGREE);
  assert_near (step->se, v[5], AGREE);
  assert_near (step->plain_lo, v[6], AGREE);
  assert_near (step->plain_hi, v[7], AGREE);
  assert_near (step->loglog_lo, v[8], AGREE);
  assert_near (step->loglog_hi, v[9], AGREE);
}

static void
check_curve (const SwSurvivalCurve *curve, const double *v)
{
  assert_near (curve->n, v[1], 0);
  assert_near (curve->events, v[2], 0);
  assert_near (curve->median, v[3], AGREE);
  assert_near (curve->median_lo, v[4], AGREE);
  assert_near (curve->median_hi, v[5], AGREE);
}

static void
compare_survival (const Fixture *fixture)
{
  gsize n = fixture->columns[0]->len;
  g_autofree double *times = g_new (double, n);
  g_autofree guint8 *events = g_new (guint8, n);
  g_autofree guint32 *groups = g_new (guint32, n);
  gsize seen[8] = { 0 };
  guint32 n_groups = 0;

  bytes_of (fixture, 1, FALSE, 0, times, events);
  for (gsize i = 0; i < n; i++)
    {
      groups[i] = g_array_index (fixture->columns[2], double, i);
      n_groups = MAX (n_groups, groups[i] + 1);
    }
  g_autoptr (SwSurvival) found = sw_survival_fit (times, events, groups, n, n_groups, 0.95, NULL);
  for (guint i = 0; i < fixture->lines->len; i++)
    {
      const Line *line = &g_array_index (fixture->lines, Line, i);
      gsize group = line->values[0];
      if (strcmp (line->word, "curve") == 0)
        check_curve (&found->curves[group], line->values);
      else if (strcmp (line->word, "step") == 0)
        check_step (&found->curves[group].steps[seen[group]++], line->values);
      else if (strcmp (line->word, "expected") == 0)
        {
          assert_near (found->logrank.observed[group], line->values[1], 0);
          assert_near (found->logrank.expected[group], line->values[2], AGREE);
        }
      else
        {
          ck_assert_str_eq (line->word, "logrank");
          assert_near (found->logrank.chi2, line->values[0], AGREE);
          assert_near (found->logrank.df, line->values[1], 0);
          assert_near (found->logrank.p, line->values[2], AGREE);
        }
    }
  for (guint32 g = 0; g < n_groups; g++)
    ck_assert_uint_eq (found->curves[g].n_steps, seen[g]);
}

/* R puts a mass in the middle of its interval. Each of ours must have its partner, and together all of R's are met. */
static void
compare_interval (const Fixture *fixture)
{
  g_autoptr (SwTurnbull) found = sw_turnbull_fit ((const double *) fixture->columns[0]->data,
                                                  (const double *) fixture->columns[1]->data,
                                                  fixture->columns[0]->len, NULL, NULL);
  double met = 0;

  ck_assert_ptr_nonnull (found);
  ck_assert (found->gap <= 1e-9 * found->n);
  for (guint i = 0; i < fixture->lines->len; i++)
    {
      const Line *line = &g_array_index (fixture->lines, Line, i);
      if (strcmp (line->word, "loglik") == 0)
        {
          for (guint k = 0; k < 2; k++) /* R as shipped, R run on */
            ck_assert_msg (found->loglik >= line->values[k] - 1e-9, "R's log likelihood %.12g, ours %.12g",
                           line->values[k], found->loglik);
          continue;
        }
      double mass = 0;
      for (gsize j = 0; j < found->n_masses; j++)
        if ((found->masses[j].left + found->masses[j].right) / 2 == line->values[0])
          mass = found->masses[j].mass;
      assert_near (mass, line->values[1], AGREE_MASS);
      met += mass;
    }
  assert_near (met, 1, AGREE_MASS);
}

static void
compare_incidence (const Fixture *fixture, const double *v, gsize *step)
{
  gsize n = fixture->columns[0]->len;
  g_autofree double *times = g_new (double, n);
  g_autofree guint8 *causes = g_new (guint8, n);
  gsize n_own = bytes_of (fixture, 1, TRUE, v[0], times, causes);
  guint8 n_causes = 1;

  for (gsize i = 0; i < n_own; i++)
    n_causes = MAX (n_causes, causes[i]);
  g_autoptr (SwIncidence) found = sw_incidence_fit (times, causes, n_own, n_causes, 0.95, NULL);
  gsize at = ((gsize) v[1] - 1) * found->n_steps + *step;
  assert_near (found->steps[*step].t, v[2], 0);
  assert_near (found->steps[*step].n, v[3], 0);
  assert_near (found->events[at], v[4], 0);
  assert_near (found->incidence[at], v[5], AGREE);
  assert_near (found->se[at], v[6], AGREE);
  assert_near (found->lo[at], v[7], AGREE);
  assert_near (found->hi[at], v[8], AGREE);
  *step = *step + 1 < found->n_steps ? *step + 1 : 0;
}

static void
compare_competing (const Fixture *fixture)
{
  gsize step = 0;

  for (guint i = 0; i < fixture->lines->len; i++)
    compare_incidence (fixture, g_array_index (fixture->lines, Line, i).values, &step);
  ck_assert_uint_eq (step, 0);
}

static void
compare_exact (const Fixture *fixture)
{
  for (guint i = 0; i < fixture->lines->len; i++)
    {
      const Line *line = &g_array_index (fixture->lines, Line, i);
      const double *v = line->values;
      double p;
      if (strcmp (line->word, "share") == 0)
        {
          SwProportion share;
          ck_assert (sw_proportion_compute (v[0], v[1], 0.95, &share, NULL));
          assert_near (share.wilson_lo, v[2], AGREE);
          assert_near (share.wilson_hi, v[3], AGREE);
          assert_near (share.exact_lo, v[4], AGREE);
          assert_near (share.exact_hi, v[5], AGREE);
        }
      else if (strcmp (line->word, "binomial") == 0)
        {
          ck_assert (sw_binomial_test (v[0], v[1], v[2], &p, NULL));
          assert_near (p, v[3], AGREE);
        }
      else
        {
          ck_assert_str_eq (line->word, "fisher");
          ck_assert (sw_fisher_exact_test (v[0], v[1], v[2], v[3], &p, NULL));
          assert_near (p, v[4], AGREE);
        }
    }
}

static const struct
{
  const char *kind;
  guint least; /* fixtures of this kind there must be */
  void (*compare) (const Fixture *fixture);
} kinds[] = {
  { "survival", 7, compare_survival },
  { "interval", 5, compare_interval },
  { "competing", 3, compare_competing },
  { "exact", 1, compare_exact },
};

START_TEST (test_kind)
{
  g_autofree char *folder = fixture_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint compared = 0;

  while ((name = g_dir_read_name (dir)))
    {
      Fixture fixture = read_fixture (name);
      if (strcmp (fixture.kind, kinds[_i].kind) == 0)
        {
          g_print ("# %s\n", name);
          kinds[_i].compare (&fixture);
          compared++;
        }
      fixture_clear (&fixture);
    }
  ck_assert_uint_ge (compared, kinds[_i].least);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("reference");
  TCase *fixtures = tcase_create ("fixtures");

  tcase_add_loop_test (fixtures, test_kind, 0, G_N_ELEMENTS (kinds));
  suite_add_tcase (suite, fixtures);
  SRunner *runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  int failed = srunner_ntests_failed (runner);
  srunner_free (runner);
  return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
