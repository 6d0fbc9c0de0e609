/* sw-response-dog.c: targets, non-targets and new tumours make the dog's overall response
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-response-private.h"

static const SwSize *
size_at (const GArray *sizes, guint i)
{
  return &g_array_index (sizes, SwSize, i);
}

/* The last size of one tumour at the visit of a day; NULL: it was not looked at then. */
static const SwSize *
size_at_visit (const GArray *sizes, SwDay day)
{
  const SwSize *found = NULL;

  for (guint i = 1; i < sizes->len; i++)
    if (size_at (sizes, i)->day <= day)
      found = size_at (sizes, i);
  return found != NULL && found->day > day - sw_definition_whole (SW_DEF_VISIT_SPAN) ? found : NULL;
}

/* The length that counts: the smaller of 5 mm and baseline when too small to measure. */
static SwRatio
length_of (const GArray *sizes, const SwSize *size)
{
  SwRatio baseline = size_at (sizes, 0)->value[SW_FAMILY_LONGEST], small = sw_definition_ratio (SW_DEF_TOO_SMALL);
  int order;

  if (size->state != SW_SITE_TOO_SMALL)
    return size->value[SW_FAMILY_LONGEST];
  return sw_ratio_compare (baseline, small, &order) && order < 0 ? baseline : small;
}

/* The sum over all targets at the visit of a day, not evaluable when one of them is not. */
static SwSize
sum_at_visit (const GPtrArray *series, SwDay day)
{
  SwSize sum = sw_size_longest (day, sw_ratio (0, 1));

  for (guint i = 0; i < series->len; i++)
    {
      const SwSize *size = size_at_visit (series->pdata[i], day);
      SwSize part;

      if (size == NULL || size->state == SW_SITE_NOT_EVALUABLE)
        return sw_size_of_state (day, SW_SITE_NOT_EVALUABLE);
      part = sw_size_longest (day, length_of (series->pdata[i], size));
      sw_size_add_part (&sum, &part);
    }
  return sum;
}

static SwSize
sum_of_baselines (const GPtrArray *series)
{
  SwSize sum = sw_size_longest (SW_NO_DAY, sw_ratio (0, 1));

  for (guint i = 0; i < series->len; i++)
    sw_size_add_part (&sum, size_at (series->pdata[i], 0));
  return sum;
}

static int
by_day (gconstpointer a, gconstpointer b)
{
  SwDay first = *(const SwDay *) a, second = *(const SwDay *) b;

  return (first > second) - (first < second);
}

/* Days after every baseline on which some target was sized, rising and distinct enough: a day twice is scored twice
 * alike. */
static GArray *
visit_days (const GPtrArray *series, SwDay day)
{
  GArray *days = g_array_new (FALSE, FALSE, sizeof (SwDay));
  SwDay after = G_MININT64;

  for (guint i = 0; i < series->len; i++)
    after = MAX (after, size_at (series->pdata[i], 0)->day);
  for (guint i = 0; i < series->len; i++)
    {
      const GArray *sizes = series->pdata[i];

      for (guint k = 1; k < sizes->len; k++)
        if (size_at (sizes, k)->day > after && size_at (sizes, k)->day <= day)
          g_array_append_val (days, size_at (sizes, k)->day);
    }
  g_array_sort (days, by_day);
  return days;
}

static SwCategory
category_of_sums (const GPtrArray *series, SwDay day)
{
  g_autoptr (GArray) days = visit_days (series, day);
  g_autoptr (GArray) sums = g_array_new (FALSE, FALSE, sizeof (SwSize));
  SwSize sum = sum_of_baselines (series);

  g_array_append_val (sums, sum);
  for (guint i = 0; i < days->len; i++)
    {
      sum = sum_at_visit (series, g_array_index (days, SwDay, i));
      g_array_append_val (sums, sum);
    }
  return sw_response_walk (size_at (sums, 0), sums->len, SW_FAMILY_LONGEST).category;
}

/* A target's own category at the visit of a day. */
static SwCategory
category_of_one (const GArray *sizes, SwDay day)
{
  guint n = sizes->len;

  while (n > 1 && size_at (sizes, n - 1)->day > day)
    n--;
  if (n < 2 || size_at_visit (sizes, day) == NULL)
    return SW_CATEGORY_NOT_EVALUABLE;
  return sw_response_walk (size_at (sizes, 0), n, SW_FAMILY_LONGEST).category;
}

SwCategory
sw_response_of_targets (const GPtrArray *series, SwDay day)
{
  gboolean all_judged = TRUE;

  for (guint i = 0; i < series->len; i++)
    {
      SwCategory one = category_of_one (series->pdata[i], day);

      if (one == SW_CATEGORY_PROGRESSIVE || one == SW_CATEGORY_RECURRENCE)
        return SW_CATEGORY_PROGRESSIVE;
      all_judged = all_judged && one != SW_CATEGORY_NOT_EVALUABLE;
    }
  return all_judged ? category_of_sums (series, day) : SW_CATEGORY_NOT_EVALUABLE;
}

static SwCategory
overall_without_targets (SwNonTargets non_targets)
{
  switch (non_targets)
    {
    case SW_NON_TARGETS_GONE:
      return SW_CATEGORY_COMPLETE;
    case SW_NON_TARGETS_PERSISTING:
      return SW_CATEGORY_NON_CR_NON_PD;
    case SW_NON_TARGETS_PROGRESSIVE:
      return SW_CATEGORY_PROGRESSIVE;
    case SW_NON_TARGETS_NONE:
    case SW_NON_TARGETS_NOT_ASSESSED:
    case SW_N_NON_TARGETS:
      break;
    }
  return SW_CATEGORY_NOT_EVALUABLE;
}

SwCategory
sw_response_overall (gboolean has_targets, SwCategory targets, SwNonTargets non_targets, gboolean new_tumour)
{
  if (new_tumour || non_targets == SW_NON_TARGETS_PROGRESSIVE)
    return SW_CATEGORY_PROGRESSIVE;
  if (!has_targets)
    return overall_without_targets (non_targets);
  if (targets == SW_CATEGORY_PROGRESSIVE || targets == SW_CATEGORY_RECURRENCE)
    return SW_CATEGORY_PROGRESSIVE;
  if (targets == SW_CATEGORY_COMPLETE
      && (non_targets == SW_NON_TARGETS_PERSISTING || non_targets == SW_NON_TARGETS_NOT_ASSESSED))
    return SW_CATEGORY_PARTIAL;
  return targets;
}

gboolean
sw_response_new_tumour (const SwCase *c, SwDay day)
{
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  const SwTumourDetails *tumour;

  for (guint i = 0; injection != NULL
                    && (tumour = sw_facts_next (&c->dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    if (tumour->found > injection->day && tumour->found <= day)
      return TRUE;
  return FALSE;
}

/* Targets: the tumours injected in this course. */
static GPtrArray *
series_of_targets (const SwCase *c, SwDay day, gboolean *recurred)
{
  GPtrArray *series = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);
  const SwInjectionTumour *row;

  for (guint i = 0; injection != NULL
                    && (row = sw_facts_next (&c->dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    if (row->course == c->course && row->given_nl > 0)
      {
        *recurred = *recurred || sw_response_recurrence (c, row->tumour, injection->day, day) != NULL;
        g_ptr_array_add (series, sw_response_sizes (c, row->tumour, day));
      }
  return series;
}

SwCategory
sw_response_of_dog (const SwCase *c, SwDay day, SwNonTargets non_targets)
{
  gboolean recurred = FALSE, measured = TRUE;
  g_autoptr (GPtrArray) series = series_of_targets (c, day, &recurred);
  SwCategory targets = SW_CATEGORY_NOT_EVALUABLE;

  for (guint i = 0; i < series->len; i++)
    measured = measured && ((const GArray *) series->pdata[i])->len > 0;
  if (recurred)
    targets = SW_CATEGORY_RECURRENCE;
  else if (series->len > 0 && measured)
    targets = sw_response_of_targets (series, day);
  return sw_response_overall (series->len > 0, targets, non_targets, sw_response_new_tumour (c, day));
}
