/* sw-plan-rows.c: the medicine plan as rows of words
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-plan-rows-private.h"

#include "sw-dose-words-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

#define MILLI_PER_CENT 10 /* thousandths in a hundredth: a deviation is shown in per cent */

void
sw_plan_row_free (SwPlanRow *row)
{
  g_free (row->group);
  g_free (row->medicine);
  g_free (row->dose);
  g_free (row->mark);
  g_free (row->from);
  g_free (row->to);
  g_free (row->tablets);
  g_free (row);
}

static GPtrArray *
rows_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) sw_plan_row_free);
}

/* "12.3 mg: 1/2 x 25 mg = 12.5 mg (+1.6 %)" */
static char *
tablets_of_line (const SwScheduleLine *line)
{
  g_autofree char *tablets = sw_tablets_words (line->strength_ug, line->halves, line->volume_nl, line->dose_ug);
  g_autofree char *target = NULL;
  int milli = abs ((int) line->deviation_milli);

  if (line->target_ug == SW_UNKNOWN || milli == 0)
    return g_steal_pointer (&tablets);
  target = sw_milligrams (line->target_ug);
  return g_strdup_printf (_("%s mg: %s (%s%d.%d %%)"), target, tablets, line->deviation_milli < 0 ? "−" : "+",
                          milli / MILLI_PER_CENT, milli % MILLI_PER_CENT);
}

static void
add_figure (SwPlanRow *row, const SwFigure *figure, gint64 every_minutes)
{
  g_autofree char *interval = sw_interval_words (every_minutes);

  row->dose = figure != NULL ? g_strdup_printf ("%s %s", figure->value, interval) : g_strdup (interval);
  row->mark = figure != NULL ? g_strdup_printf ("[%s]", sw_figure_mark_code (figure->mark)) : g_strdup ("");
}

/* The first or the last dose of a line as a moment. */
static SwMoment
end_of_line (const SwSchedule *schedule, const SwScheduleLine *line, SwDay treat_day, gboolean last)
{
  SwMoment found = SW_NO_MOMENT;

  for (guint i = 0; i < schedule->doses->len; i++)
    {
      const SwDosePlan *dose = schedule->doses->pdata[i];
      gint64 number = dose->due_day - treat_day;

      if (!g_str_equal (dose->group, line->group) || dose->every_minutes != line->every_minutes
          || number < line->first_number)
        continue;
      if (!sw_moment_is_set (found) || (last && number <= line->last_number))
        found = sw_dose_due (dose);
    }
  return found;
}

static char *
end_words (const SwSchedule *schedule, const SwScheduleLine *line, SwDay treat_day, gboolean last)
{
  SwMoment end = end_of_line (schedule, line, treat_day, last);

  if (sw_moment_is_set (end))
    return sw_short_moment_words (end);
  return sw_day_words (treat_day + (last ? line->last_number : line->first_number));
}

GPtrArray *
sw_plan_rows_of_schedule (const SwSchedule *schedule, SwDay treat_day)
{
  GPtrArray *rows = rows_new ();

  for (guint i = 0; i < schedule->lines->len; i++)
    {
      const SwScheduleLine *line = schedule->lines->pdata[i];
      SwPlanRow *row = g_new0 (SwPlanRow, 1);

      row->group = g_strdup (line->group);
      row->medicine = g_strdup (line->substance);
      add_figure (row, line->figure, line->every_minutes);
      row->from = end_words (schedule, line, treat_day, FALSE);
      row->to = end_words (schedule, line, treat_day, TRUE);
      row->count = line->count;
      row->tablets = tablets_of_line (line);
      g_ptr_array_add (rows, row);
    }

  return rows;
}

/* --- of what is planned now --- */

static gboolean
same_run (const SwDosePlan *a, const SwDosePlan *b)
{
  return g_str_equal (a->substance, b->substance) && a->dose_ug == b->dose_ug && a->strength_ug == b->strength_ug
         && a->every_minutes == b->every_minutes;
}

/* The document's figure for a dose of this interval; NULL: it names none. */
static const SwFigure *
figure_of (const SwProtocol *protocol, const SwDosePlan *dose)
{
  const SwMedicineGroup *group = protocol != NULL ? sw_protocol_group (protocol, dose->group) : NULL;
  const SwAlternative *alternative = group != NULL ? sw_group_alternative (group, dose->substance) : NULL;

  for (guint i = 0; alternative != NULL && i < alternative->phases->len; i++)
    {
      const SwPhase *phase = alternative->phases->pdata[i];

      if (phase->every_hours * SW_MINUTES_PER_HOUR == dose->every_minutes)
        return phase->dose;
    }
  return NULL;
}

static void
close_run (SwPlanRow *row, const SwDosePlan *last)
{
  g_free (row->to);
  row->to = sw_short_moment_words (sw_dose_due (last));
  row->count++;
}

static SwPlanRow *
run_new (const SwCase *c, const SwDosePlan *dose)
{
  SwPlanRow *row = g_new0 (SwPlanRow, 1);

  row->group = g_strdup (dose->group);
  row->medicine = g_strdup (dose->substance);
  add_figure (row, figure_of (sw_case_protocol (c), dose), dose->every_minutes);
  row->from = sw_short_moment_words (sw_dose_due (dose));
  row->tablets = sw_tablets_words (dose->strength_ug, dose->halves, dose->volume_nl, dose->dose_ug);
  return row;
}

static void
add_runs (GPtrArray *rows, const SwCase *c, const GPtrArray *doses, const char *group)
{
  const SwDosePlan *before = NULL;
  SwPlanRow *row = NULL;

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (!g_str_equal (dose->group, group) || dose->instead_of != 0)
        continue;
      if (before == NULL || !same_run (before, dose))
        g_ptr_array_add (rows, row = run_new (c, dose));
      close_run (row, dose);
      before = dose;
    }
}

GPtrArray *
sw_plan_rows_of_doses (const SwCase *c, const GPtrArray *doses)
{
  const SwProtocol *protocol = sw_case_protocol (c);
  GPtrArray *rows = rows_new ();

  for (guint i = 0; protocol != NULL && i < protocol->groups->len; i++)
    add_runs (rows, c, doses, ((const SwMedicineGroup *) protocol->groups->pdata[i])->id);

  return rows;
}

/* --- what is handed out --- */

static char *
dispense_line (const SwDispense *entry)
{
  g_autofree char *strength = NULL, *ml = NULL;

  if (entry->strength_ug == SW_UNKNOWN)
    {
      ml = sw_drug_volume_format (entry->volume_nl);
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "%s: %s mL for %u dose", "%s: %s mL for %u doses", entry->doses),
          entry->substance, ml, entry->doses);
    }
  strength = sw_milligrams (entry->strength_ug);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%s %s mg: %d for %u dose", "%s %s mg: %d for %u doses", entry->doses),
      entry->substance, strength, (int)entry->tablets, entry->doses);
}

GPtrArray *
sw_dispense_lines (const GPtrArray *doses)
{
  g_autoptr (GPtrArray) entries = sw_schedule_dispense (doses);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < entries->len; i++)
    g_ptr_array_add (lines, dispense_line (entries->pdata[i]));

  return lines;
}
