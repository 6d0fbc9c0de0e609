/* sw-outcome-figures.c: the figures that sections are made of
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-proportion.h"

#include <math.h>

SwOutcomeGroup *
sw_outcome_add_group (SwOutcomeSection *section, const SwOutcomePart *part, gint64 n)
{
  SwOutcomeGroup *group = sw_outcome_section_add_group (section, part->code, part->label);

  group->n = n;
  group->few = n < sw_definition_whole (SW_DEF_FEW);
  return group;
}

static GArray *
copy_places (const GArray *places)
{
  GArray *copy = sw_places_new ();

  if (places->len > 0)
    g_array_append_vals (copy, places->data, places->len);
  return copy;
}

SwOutcomeFigure *
sw_outcome_share_of (const SwOutcomeRun *run, const char *code, const char *label, gint64 x, gint64 n,
                     const GArray *rows, GError **error)
{
  g_autoptr (SwOutcomeFigure) figure = sw_outcome_figure_new (SW_FIGURE_SHARE, code, label);
  SwProportion share;

  if (!sw_proportion_compute (x, n, run->level, &share, error))
    return NULL;
  figure->x = x;
  figure->n = n;
  figure->value = share.estimate;
  figure->lo = share.wilson_lo;
  figure->hi = share.wilson_hi;
  figure->exact_lo = share.exact_lo;
  figure->exact_hi = share.exact_hi;
  figure->rows = copy_places (rows);
  return g_steal_pointer (&figure);
}

SwOutcomeFigure *
sw_outcome_share (const SwOutcomeRun *run, const char *code, const char *label, gint64 x, const GArray *rows,
                  GError **error)
{
  return sw_outcome_share_of (run, code, label, x, rows->len, rows, error);
}

SwOutcomeFigure *
sw_outcome_count (const char *code, const char *label, gint64 x, const GArray *rows)
{
  SwOutcomeFigure *figure = sw_outcome_figure_new (SW_FIGURE_COUNT, code, label);

  figure->x = x;
  figure->n = rows->len;
  figure->rows = copy_places (rows);
  return figure;
}

SwOutcomeFigure *
sw_outcome_number (const char *code, const char *label, double value, const char *unit, const GArray *rows)
{
  SwOutcomeFigure *figure = sw_outcome_figure_new (SW_FIGURE_NUMBER, code, label);

  figure->value = value;
  figure->unit = unit;
  figure->n = rows->len;
  figure->rows = copy_places (rows);
  return figure;
}
