/* sw-outcomes.c: all figures of the outcomes, section by section
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include <glib/gi18n-lib.h>

/* In the order of the page: what answers soonest first. */
static SwOutcomeSection *(*const sections[]) (const SwOutcomeRun *run, GError **error) = {
  sw_outcome_complete, sw_outcome_complete_two, sw_outcome_complete_dog, sw_outcome_healing, sw_outcome_recurrence,
  sw_outcome_change,   sw_outcome_readings,     sw_outcome_drift,        sw_outcome_lead_in, sw_outcome_drug,
};

/* --- the lines at the head --- */

static char *
period_line (const SwOutcomeQuery *query, SwDay today)
{
  g_autofree char *from = sw_day_format (query->from), *to = sw_day_format (query->to == SW_NO_DAY ? today : query->to);

  return query->from == SW_NO_DAY ? g_strdup_printf (_("treated up to %s"), to)
                                  : g_strdup_printf (_("treated from %s to %s"), from, to);
}

static void
add_filter (SwOutcomes *outcomes, const SwOutcomeRun *run, SwSplit split)
{
  const char *code = run->query->only[split];
  g_autofree char *label = NULL;

  for (guint i = 0; code != NULL && label == NULL && i < run->rows->len; i++)
    {
      const SwTreated *row = &g_array_index (run->rows, SwTreated, i);

      if (g_str_equal (sw_split_code_of (row, split), code))
        label = sw_split_label_of (row, split, run->practice);
    }
  if (code != NULL)
    g_ptr_array_add (outcomes->heads, g_strdup_printf (_("only %s: %s"), sw_split_name (split), label ? label : code));
}

static void
add_heads (SwOutcomes *outcomes, const SwOutcomeRun *run)
{
  const char *practice = sw_practice_setting (run->practice, "name");
  const SwOutcomePart *all = run->parts->pdata[0];

  if (practice != NULL)
    g_ptr_array_add (outcomes->heads, g_strdup (practice));
  g_ptr_array_add (outcomes->heads, period_line (run->query, run->today));
  for (int split = 0; split < SW_N_SPLITS; split++)
    add_filter (outcomes, run, (SwSplit) split);
  if (run->query->split != SW_SPLIT_NONE)
    g_ptr_array_add (outcomes->heads, g_strdup_printf (_("told apart by %s"), sw_split_name (run->query->split)));
  g_ptr_array_add (
      outcomes->heads,
      g_strdup_printf (ngettext ("%u treated tumour", "%u treated tumours", all->rows->len), all->rows->len));
}

static void
add_cautions (SwOutcomes *outcomes, const SwOutcomeRun *run)
{
  if (run->practice->practice_only)
    g_ptr_array_add (outcomes->cautions, g_strdup (_("For practice only: the dogs of this record are invented.")));
  g_ptr_array_add (
      outcomes->cautions,
      g_strdup (_("Limits are of 95 %. What a practice sees in its own patients is no trial: groups differ in "
                   "more than what they are told apart by.")));
  g_ptr_array_add (outcomes->cautions,
                   g_strdup (_("This program supports a licensed veterinarian and replaces none.")));
}

/* --- computing --- */

static gboolean
compute (SwOutcomes *outcomes, const SwOutcomeRun *run, SwOutcomeFunc func, gpointer data, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    {
      SwOutcomeSection *section;

      if (g_cancellable_set_error_if_cancelled (run->cancellable, error))
        return FALSE;
      section = sections[i](run, error);
      if (section == NULL)
        return FALSE;
      g_ptr_array_add (outcomes->sections, section);
      if (func != NULL)
        func (section, i + 1, G_N_ELEMENTS (sections), data);
    }
  return TRUE;
}

SwOutcomes *
sw_outcomes_compute (GArray *rows, const SwPractice *practice, const SwOutcomeQuery *query, SwDay today,
                     SwOutcomeFunc func, gpointer data, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwOutcomes) outcomes = sw_outcomes_new (rows);
  SwOutcomeRun run = { .rows = rows, .practice = practice, .query = query, .today = today, .cancellable = cancellable };
  gboolean done;

  run.level = sw_definition_double (SW_DEF_CONFIDENCE);
  sw_outcome_split (&run);
  add_heads (outcomes, &run);
  add_cautions (outcomes, &run);
  done = compute (outcomes, &run, func, data, error);
  g_ptr_array_unref (run.parts);
  return done ? g_steal_pointer (&outcomes) : NULL;
}

char *
sw_treated_name (const SwTreated *row)
{
  g_autofree char *patient = sw_patient_number (row->patient), *letter = sw_tumour_letter (row->letter);

  return g_strdup_printf ("%s/%" G_GINT64_FORMAT " %s", patient, row->course_number, letter);
}
