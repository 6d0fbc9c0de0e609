/* sw-outcome.c: the outcomes as values, and each figure as the text that people read
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <math.h>

/* --- making --- */

SwOutcomeFigure *
sw_outcome_figure_new (SwFigureKind kind, const char *code, const char *label)
{
  SwOutcomeFigure *figure = g_new0 (SwOutcomeFigure, 1);

  figure->kind = kind;
  figure->code = g_strdup (code);
  figure->label = g_strdup (label);
  figure->unit = "";
  figure->value = figure->value_to = NAN;
  figure->lo = figure->hi = figure->exact_lo = figure->exact_hi = NAN;
  return figure;
}

void
sw_outcome_figure_free (SwOutcomeFigure *figure)
{
  g_free (figure->code);
  g_free (figure->label);
  g_clear_pointer (&figure->rows, g_array_unref);
  g_free (figure);
}

static void
left_out_free (gpointer data)
{
  SwLeftOut *left_out = data;

  g_free (left_out->code);
  g_free (left_out->reason);
  g_array_unref (left_out->rows);
  g_free (left_out);
}

static void
group_free (gpointer data)
{
  SwOutcomeGroup *group = data;

  g_free (group->code);
  g_free (group->label);
  g_ptr_array_unref (group->figures);
  g_ptr_array_unref (group->left_out);
  g_free (group);
}

static void
section_clear (gpointer data)
{
  SwOutcomeSection *section = data;

  g_free (section->code);
  g_free (section->title);
  g_free (section->definition);
  g_free (section->empty);
  g_ptr_array_unref (section->groups);
  g_ptr_array_unref (section->tests);
  g_ptr_array_unref (section->charts);
}

SwOutcomeSection *
sw_outcome_section_new (const char *code, const char *title, const char *definition)
{
  SwOutcomeSection *section = g_atomic_rc_box_new0 (SwOutcomeSection);

  section->code = g_strdup (code);
  section->title = g_strdup (title);
  section->definition = g_strdup (definition);
  section->groups = g_ptr_array_new_with_free_func (group_free);
  section->tests = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_outcome_figure_free);
  section->charts = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_chart_free);
  return section;
}

SwOutcomeSection *
sw_outcome_section_ref (SwOutcomeSection *section)
{
  return g_atomic_rc_box_acquire (section);
}

void
sw_outcome_section_unref (SwOutcomeSection *section)
{
  g_atomic_rc_box_release_full (section, section_clear);
}

SwOutcomeGroup *
sw_outcome_section_add_group (SwOutcomeSection *section, const char *code, const char *label)
{
  SwOutcomeGroup *group = g_new0 (SwOutcomeGroup, 1);

  group->code = g_strdup (code);
  group->label = g_strdup (label);
  group->figures = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_outcome_figure_free);
  group->left_out = g_ptr_array_new_with_free_func (left_out_free);
  g_ptr_array_add (section->groups, group);
  return group;
}

SwOutcomeFigure *
sw_outcome_group_take (SwOutcomeGroup *group, SwOutcomeFigure *figure)
{
  g_ptr_array_add (group->figures, figure);
  return figure;
}

void
sw_outcome_group_leave_out (SwOutcomeGroup *group, const char *code, const char *reason, GArray *rows)
{
  SwLeftOut *left_out;

  if (rows->len == 0)
    {
      g_array_unref (rows);
      return;
    }
  left_out = g_new0 (SwLeftOut, 1);
  left_out->code = g_strdup (code);
  left_out->reason = g_strdup (reason);
  left_out->rows = rows;
  g_ptr_array_add (group->left_out, left_out);
}

SwOutcomes *
sw_outcomes_new (GArray *rows)
{
  SwOutcomes *outcomes = g_atomic_rc_box_new0 (SwOutcomes);

  outcomes->rows = g_array_ref (rows);
  outcomes->heads = g_ptr_array_new_with_free_func (g_free);
  outcomes->cautions = g_ptr_array_new_with_free_func (g_free);
  outcomes->sections = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_outcome_section_unref);
  return outcomes;
}

SwOutcomes *
sw_outcomes_ref (SwOutcomes *outcomes)
{
  return g_atomic_rc_box_acquire (outcomes);
}

static void
outcomes_clear (gpointer data)
{
  SwOutcomes *outcomes = data;

  g_array_unref (outcomes->rows);
  g_ptr_array_unref (outcomes->heads);
  g_ptr_array_unref (outcomes->cautions);
  g_ptr_array_unref (outcomes->sections);
}

void
sw_outcomes_unref (SwOutcomes *outcomes)
{
  g_atomic_rc_box_release_full (outcomes, outcomes_clear);
}

/* --- as people read it --- */

/* "12.5", "1200": four digits that tell something; a dash when there is no value. */
static char *
number (double value)
{
  double size = fabs (value);

  if (!isfinite (value))
    return g_strdup ("–");
  if (size != 0 && size < 1)
    return g_strdup_printf ("%.3f", value);
  return size < 100 && value != rint (value) ? g_strdup_printf ("%.2f", value) : g_strdup_printf ("%.0f", value);
}

static char *
percent (double value)
{
  return isfinite (value) ? g_strdup_printf ("%.1f", 100 * value) : g_strdup ("–");
}

static char *
limits_text (const SwOutcomeFigure *figure, char *(*format) (double), const char *unit)
{
  g_autofree char *lo = format (figure->lo), *hi = format (figure->hi);

  if (!isfinite (figure->lo) && !isfinite (figure->hi))
    return g_strdup ("");
  /* Translators: the limits of confidence behind a figure: (64.7 to 91.1 %). */
  return g_strdup_printf (_(" (%s to %s%s)"), lo, hi, unit);
}

static char *
value_text (const SwOutcomeFigure *figure, char *(*format) (double))
{
  g_autofree char *from = format (figure->value), *to = format (figure->value_to);

  if (!isfinite (figure->value_to) || figure->value_to == figure->value)
    return isinf (figure->value_to) ? g_strdup_printf (_("past %s"), from) : g_steal_pointer (&from);
  return g_strdup_printf (_("between %s and %s"), from, to);
}

static char *
share_text (const SwOutcomeFigure *figure)
{
  g_autofree char *share = percent (figure->value), *limits = limits_text (figure, percent, " %");

  if (figure->n == 0)
    return g_strdup (_("0 of 0"));
  return g_strdup_printf (_("%" PRId64 " of %" PRId64 ": %s %%%s"), figure->x, figure->n, share, limits);
}

static char *
measured_text (const SwOutcomeFigure *figure, char *(*format) (double), const char *unit)
{
  g_autofree char *value = value_text (figure, format), *limits = limits_text (figure, format, unit);

  return g_strconcat (value, isfinite (figure->value) ? unit : "", limits, NULL);
}

static char *
number_text (const SwOutcomeFigure *figure)
{
  g_autofree char *unit = g_strconcat (*figure->unit != '\0' ? " " : "", figure->unit, NULL);

  return measured_text (figure, number, unit);
}

char *
sw_outcome_figure_text (const SwOutcomeFigure *figure)
{
  switch (figure->kind)
    {
    case SW_FIGURE_SHARE:
      return share_text (figure);
    case SW_FIGURE_CHANCE:
      if (isnan (figure->value))
        return g_strdup (_("nobody was followed so long"));
      return measured_text (figure, percent, " %");
    case SW_FIGURE_NUMBER:
      return number_text (figure);
    case SW_FIGURE_COUNT:
      return g_strdup_printf ("%" PRId64, figure->x);
    case SW_FIGURE_P:
      break;
    }
  if (!isfinite (figure->value))
    return g_strdup ("–");
  return figure->value < 0.0001 ? g_strdup (_("p under 0.0001")) : g_strdup_printf (_("p = %.4f"), figure->value);
}

char *
sw_outcome_group_left_out_text (const SwOutcomeGroup *group)
{
  g_autoptr (GString) reasons = g_string_new (NULL);
  guint count = 0;

  for (guint i = 0; i < group->left_out->len; i++)
    {
      const SwLeftOut *left_out = group->left_out->pdata[i];

      count += left_out->rows->len;
      g_string_append_printf (reasons, "%s%u %s", i > 0 ? "; " : "", left_out->rows->len, left_out->reason);
    }
  return count > 0 ? g_strdup_printf (_("left out %u: %s"), count, reasons->str) : NULL;
}
