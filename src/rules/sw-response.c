/* sw-response.c: the category of a series of sizes, in three families
 *
 * Each family walks the same series with its own limits. What was found before binds: partial stays partial until
 * progress or a complete response, progress stays until a complete response, a size after a complete response is
 * recurrence for good.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-response-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  SwDefinitionId partial;
  SwDefinitionId progressive;
  gboolean growth; /* progress needs growth in mm besides: diameters only */
} Limits;

static const Limits limits[SW_N_FAMILIES] = {
  [SW_FAMILY_LONGEST] = { SW_DEF_PARTIAL_LONGEST, SW_DEF_PROGRESSIVE_LONGEST, TRUE },
  [SW_FAMILY_PRODUCT] = { SW_DEF_PARTIAL_PRODUCT, SW_DEF_PROGRESSIVE_PRODUCT, FALSE },
  [SW_FAMILY_VOLUME] = { SW_DEF_PARTIAL_VOLUME, SW_DEF_PROGRESSIVE_VOLUME, FALSE },
};

/* What a family has come to on the way through the series. */
typedef struct
{
  SwRatio baseline;
  SwRatio smallest;
  SwCategory bound; /* of the visits so far: SD until something binds */
  gboolean was_complete;
} Walk;

/* The sums of a dozen readings stay far from an overflow; were there one, the visit would not be evaluable. */
static gboolean
compare_share (SwRatio now, SwRatio reference, SwDefinitionId share, int *order)
{
  SwRatio limit;

  return sw_ratio_mul (reference, sw_definition_ratio (share), &limit) && sw_ratio_compare (now, limit, order);
}

static gboolean
is_progress (const Walk *walk, SwRatio now, const Limits *limit, gboolean *progress)
{
  SwRatio growth;
  int order;

  if (!compare_share (now, walk->smallest, limit->progressive, &order))
    return FALSE;
  *progress = order >= 0;
  if (!limit->growth)
    return TRUE;
  if (!sw_ratio_sub (now, walk->smallest, &growth)
      || !sw_ratio_compare (growth, sw_definition_ratio (SW_DEF_PROGRESSIVE_GROWTH), &order))
    return FALSE;
  *progress = *progress && order >= 0;
  return TRUE;
}

static SwCategory
categorise (Walk *walk, SwRatio now, const Limits *limit)
{
  gboolean progress;
  int to_partial;

  if (walk->bound == SW_CATEGORY_RECURRENCE || (now.num != 0 && walk->was_complete))
    return walk->bound = SW_CATEGORY_RECURRENCE;
  if (now.num == 0)
    {
      walk->was_complete = TRUE;
      return walk->bound = SW_CATEGORY_COMPLETE;
    }
  if (walk->bound == SW_CATEGORY_PROGRESSIVE)
    return walk->bound;
  if (!is_progress (walk, now, limit, &progress)
      || !compare_share (now, walk->baseline, limit->partial, &to_partial))
    return SW_CATEGORY_NOT_EVALUABLE;
  if (progress)
    walk->bound = SW_CATEGORY_PROGRESSIVE;
  else if (to_partial <= 0)
    walk->bound = SW_CATEGORY_PARTIAL;
  return walk->bound;
}

/* A visit at which the site could not be judged: what is final or lasts still stands. */
static SwCategory
unjudged (const Walk *walk)
{
  if (walk->bound == SW_CATEGORY_RECURRENCE || walk->bound == SW_CATEGORY_PROGRESSIVE)
    return walk->bound;
  return SW_CATEGORY_NOT_EVALUABLE;
}

/* The value that counts at a visit; FALSE: none. */
static gboolean
value_at (const SwSize *size, SwFamily family, SwRatio baseline, SwRatio *value)
{
  SwRatio small = sw_definition_ratio (SW_DEF_TOO_SMALL);
  int order;

  switch (size->state)
    {
    case SW_SITE_SIZE:
    case SW_SITE_GONE:
      *value = size->value[family];
      return size->known[family];
    case SW_SITE_TOO_SMALL:
      if (family != SW_FAMILY_LONGEST || !sw_ratio_compare (baseline, small, &order))
        return FALSE;
      *value = order < 0 ? baseline : small;
      return TRUE;
    case SW_SITE_NOT_EVALUABLE:
      return FALSE;
    }
  g_return_val_if_reached (FALSE);
}

SwFamilyScore
sw_response_walk (const SwSize *sizes, guint n, SwFamily family)
{
  Walk walk = { sizes[0].value[family], sizes[0].value[family], SW_CATEGORY_STABLE, FALSE };
  SwFamilyScore score = { sizes[0].known[family], SW_CATEGORY_NOT_EVALUABLE, walk.baseline, walk.baseline };

  for (guint i = 1; score.known && i < n; i++)
    {
      int order;

      score.smallest = walk.smallest;
      score.has_now = value_at (&sizes[i], family, walk.baseline, &score.now);
      score.category = score.has_now ? categorise (&walk, score.now, &limits[family]) : unjudged (&walk);
      if (score.has_now && sw_ratio_compare (score.now, walk.smallest, &order) && order < 0)
        walk.smallest = score.now;
    }
  if (!score.has_now)
    score.now = sw_ratio (0, 1);
  return score;
}

static gboolean
check_series (const SwSize *sizes, guint n, GError **error)
{
  if (n > 0 && (sizes[0].state != SW_SITE_SIZE || sizes[0].value[SW_FAMILY_LONGEST].num <= 0))
    g_set_error_literal (
        error, SW_ERROR, SW_ERROR_INPUT,
        _("The first size is the baseline and must be a length; enter the size on the treatment day."));
  else if (n < 2)
    g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT,
                         _("A response needs a baseline and at least one later size; enter a later size."));
  else
    return TRUE;
  return FALSE;
}

/* Two-dimensional and volume scores say something only where this visit has them. */
static void
score_families (SwResponse *response, const SwSize *sizes, guint n)
{
  for (int family = 0; family < SW_N_FAMILIES; family++)
    {
      SwFamilyScore *score = &response->family[family];

      *score = sw_response_walk (sizes, n, family);
      if (family != SW_FAMILY_LONGEST && !score->has_now)
        score->known = FALSE;
    }
  response->category = response->family[SW_FAMILY_LONGEST].category;
}

SwResponse *
sw_response_score (const SwSize *sizes, guint n, const SwScoring *scoring, GError **error)
{
  SwResponse *response;

  if (!check_series (sizes, n, error))
    return NULL;
  response = g_new0 (SwResponse, 1);
  response->findings = sw_findings_new ();
  response->why = sw_whys_new ();
  score_families (response, sizes, n);
  if (scoring->recurrence)
    response->category = response->family[SW_FAMILY_LONGEST].category = SW_CATEGORY_RECURRENCE;
  sw_response_conclude (response, scoring);
  return response;
}

void
sw_response_free (SwResponse *response)
{
  if (response == NULL)
    return;
  g_clear_pointer (&response->next, sw_finding_free);
  g_ptr_array_unref (response->findings);
  g_ptr_array_unref (response->why);
  g_free (response);
}
