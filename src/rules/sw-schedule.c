/* sw-schedule.c: the medicine plan of a course
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-schedule.h"

#include "sw-finding.h"
#include "sw-lead-in.h"
#include "sw-quantity.h"
#include "sw-stock-private.h"

#include <glib/gi18n-lib.h>

static void
line_free (gpointer data)
{
  SwScheduleLine *line = data;

  g_free (line->group);
  g_free (line->substance);
  g_free (line);
}

void
sw_schedule_free (SwSchedule *schedule)
{
  if (schedule == NULL)
    return;
  g_ptr_array_unref (schedule->lines);
  g_ptr_array_unref (schedule->doses);
  g_ptr_array_unref (schedule->findings);
  g_free (schedule->choices);
  g_free (schedule);
}

SwScheduleOrder
sw_schedule_order (const SwCase *c, SwDay treat_day, gint64 grams, const char *choices)
{
  return (SwScheduleOrder) { sw_case_protocol (c), c->books, c->practice, grams, treat_day, choices };
}

/* Whether every phase of an alternative has a dose that the stock makes. */
static gboolean
alternative_fits (const SwScheduleOrder *order, const SwAlternative *alternative)
{
  const SwMedicine *medicine = sw_books_medicine (order->books, alternative->substance);

  for (guint i = 0; medicine != NULL && i < alternative->phases->len; i++)
    {
      const SwPhase *phase = alternative->phases->pdata[i];
      SwTabletChoice choice;

      if (!sw_stock_choose (order->practice, medicine, phase->ug_per_kg, order->grams, &choice))
        return FALSE;
    }
  return medicine != NULL;
}

/* Names of the group's alternatives, all or only those that fit. */
static char *
alternatives_text (const SwScheduleOrder *order, const SwMedicineGroup *group, gboolean fitting)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < group->alternatives->len; i++)
    {
      const SwAlternative *alternative = group->alternatives->pdata[i];

      if (!fitting || alternative_fits (order, alternative))
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", alternative->substance);
    }
  if (text->len == 0)
    g_string_append (text, _("none of those listed"));
  return g_string_free (text, FALSE);
}

static void
find_not_listed (SwSchedule *schedule, const SwScheduleOrder *order, const SwMedicineGroup *group,
                 const char *substance)
{
  SwFinding *finding = sw_finding_new (SW_FINDING_NOT_LISTED);
  g_autofree char *listed = alternatives_text (order, group, FALSE);

  finding->about = g_strdup (substance);
  sw_finding_text (finding, "substance", substance);
  sw_finding_text (finding, "group", group->title);
  sw_finding_text (finding, "listed", listed);
  g_ptr_array_add (schedule->findings, finding);
}

static void
find_no_document (SwSchedule *schedule, const char *substance)
{
  SwFinding *finding = sw_finding_new (SW_FINDING_NO_MEDICINE_DOCUMENT);

  finding->about = g_strdup (substance);
  sw_finding_text (finding, "substance", substance);
  g_ptr_array_add (schedule->findings, finding);
}

/* Milligrams of a dose per kg at a weight. */
static char *
dose_text (gint64 ug_per_kg, gint64 grams)
{
  SwRatio kg = sw_ratio (grams, SW_GRAMS_PER_KG), mg = sw_ratio (ug_per_kg, SW_UG_PER_MG);

  return sw_ratio_mul (kg, mg, &mg) ? sw_ratio_format_significant (mg, 2) : g_strdup ("?");
}

static char *
range_text (const SwMedicine *medicine, gint64 grams)
{
  gint64 least = sw_stock_least (medicine);
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;

  if (least == SW_UNKNOWN || medicine->high_ug_per_kg == SW_UNKNOWN)
    return g_strdup (_("no range in its document"));
  low = dose_text (least, grams);
  high = dose_text (medicine->high_ug_per_kg, grams);
  return g_strdup_printf (_("%s to %s mg"), low, high);
}

static void
find_no_tablet (SwSchedule *schedule, const SwScheduleOrder *order, const SwMedicineGroup *group,
                const SwMedicine *medicine, const SwPhase *phase)
{
  SwFinding *finding = sw_finding_new (SW_FINDING_NO_TABLET_FITS);
  g_autofree char *fits = alternatives_text (order, group, TRUE);
  g_autofree char *range = range_text (medicine, order->grams);
  SwRatio mg;

  finding->about = g_strdup (medicine->head.id);
  sw_finding_text (finding, "substance", medicine->head.id);
  sw_finding_text (finding, "limit", range);
  sw_finding_text (finding, "fits", fits);
  if (phase->ug_per_kg != SW_UNKNOWN
      && sw_ratio_mul (sw_ratio (phase->ug_per_kg, SW_UG_PER_MG), sw_ratio (order->grams, SW_GRAMS_PER_KG), &mg))
    sw_finding_ratio (finding, "target", mg.num, mg.den, "mg");
  else
    sw_finding_text (finding, "target", "?");
  g_ptr_array_add (schedule->findings, finding);
}

static void
note_deviation (SwSchedule *schedule, const char *substance, const SwTabletChoice *choice)
{
  SwFinding *finding;
  SwRatio per_mg = sw_ratio (1, SW_UG_PER_MG), value, target;

  if (!choice->deviates || !sw_ratio_mul (choice->dose, per_mg, &value)
      || !sw_ratio_mul (choice->target, per_mg, &target))
    return;
  finding = sw_finding_new (SW_FINDING_TABLET_DEVIATES);
  finding->about = g_strdup (substance);
  sw_finding_text (finding, "substance", substance);
  sw_finding_ratio (finding, "value", value.num, value.den, "mg");
  sw_finding_ratio (finding, "limit", target.num, target.den, "mg");
  g_ptr_array_add (schedule->findings, finding);
}

/* (dose - target) / target in thousandths; 0 where it can't be said. */
static gint64
deviation_milli (const SwTabletChoice *choice)
{
  SwRatio share;
  gint64 milli;

  if (sw_ratio_sub (choice->dose, choice->target, &share) && sw_ratio_div (share, choice->target, &share)
      && sw_ratio_mul (share, sw_ratio (SW_PER_MILLE, 1), &share) && sw_ratio_round (share, &milli))
    return milli;
  return 0;
}

static SwScheduleLine *
line_new (const SwMedicineGroup *group, const char *substance, const SwPhase *phase, const SwTabletChoice *choice)
{
  SwScheduleLine *line = g_new0 (SwScheduleLine, 1);

  line->group = g_strdup (group->id);
  line->substance = g_strdup (substance);
  line->first_number = phase->first_day;
  line->last_number = phase->last_day;
  line->every_minutes = phase->every_hours * SW_MINUTES_PER_HOUR;
  line->strength_ug = choice->strength_ug;
  line->halves = choice->halves;
  line->volume_nl = choice->volume_nl;
  line->deviation_milli = deviation_milli (choice);
  line->figure = phase->dose;
  if (!sw_ratio_floor (choice->target, &line->target_ug))
    line->target_ug = SW_UNKNOWN;
  if (!sw_ratio_floor (choice->dose, &line->dose_ug))
    line->dose_ug = SW_UNKNOWN;
  return line;
}

SwDosePlan *
sw_schedule_dose (const SwScheduleLine *line, SwDay treat_day, gint64 day_number, gint64 minute)
{
  SwDosePlan *dose = sw_new (SW_FACT_DOSE_PLAN, SwDosePlan);

  dose->group = g_strdup (line->group);
  dose->substance = g_strdup (line->substance);
  dose->day_number = day_number + minute / SW_MINUTES_PER_DAY;
  dose->due_day = treat_day + dose->day_number;
  dose->due_minute = minute % SW_MINUTES_PER_DAY;
  dose->every_minutes = line->every_minutes;
  dose->dose_ug = line->dose_ug;
  dose->strength_ug = line->strength_ug;
  dose->halves = line->halves;
  dose->volume_nl = line->volume_nl;
  return dose;
}

static void
add_doses (SwSchedule *schedule, const SwScheduleOrder *order, SwScheduleLine *line, gint64 every_hours)
{
  g_autoptr (GArray) minutes = sw_due_minutes (order->practice, every_hours);
  gint64 step = MAX (line->every_minutes / SW_MINUTES_PER_DAY, 1);

  for (gint64 day = line->first_number; day <= line->last_number; day += step)
    for (guint i = 0; i < minutes->len; i++)
      {
        gint64 minute = g_array_index (minutes, gint64, i);

        g_ptr_array_add (schedule->doses, sw_schedule_dose (line, order->treat_day, day, minute));
        line->count++;
      }
}

static void
add_phase (SwSchedule *schedule, const SwScheduleOrder *order, const SwMedicineGroup *group, const SwMedicine *medicine,
           const SwPhase *phase)
{
  SwTabletChoice choice;
  SwScheduleLine *line;

  if (!sw_stock_choose (order->practice, medicine, phase->ug_per_kg, order->grams, &choice))
    {
      find_no_tablet (schedule, order, group, medicine, phase);
      return;
    }
  note_deviation (schedule, medicine->head.id, &choice);
  line = line_new (group, medicine->head.id, phase, &choice);
  add_doses (schedule, order, line, phase->every_hours);
  g_ptr_array_add (schedule->lines, line);
}

static void
add_alternative (SwSchedule *schedule, const SwScheduleOrder *order, const SwMedicineGroup *group,
                 const SwAlternative *alternative)
{
  const SwMedicine *medicine = sw_books_medicine (order->books, alternative->substance);
  char *choices = sw_choices_set (schedule->choices, group->id, alternative->substance);

  g_free (schedule->choices);
  schedule->choices = choices;
  if (medicine == NULL)
    {
      find_no_document (schedule, alternative->substance);
      return;
    }
  for (guint i = 0; i < alternative->phases->len; i++)
    add_phase (schedule, order, group, medicine, alternative->phases->pdata[i]);
}

static void
add_group (SwSchedule *schedule, const SwScheduleOrder *order, const SwMedicineGroup *group)
{
  const SwAlternative *alternative = sw_chosen_alternative (group, order->choices);
  g_autofree char *substance = sw_choices_get (order->choices, group->id);

  if (alternative != NULL)
    add_alternative (schedule, order, group, alternative);
  else if (substance != NULL)
    find_not_listed (schedule, order, group, substance);
}

static int
by_due (gconstpointer a, gconstpointer b)
{
  const SwDosePlan *first = *(const SwDosePlan *const *) a, *second = *(const SwDosePlan *const *) b;

  return sw_moment_compare (sw_dose_due (first), sw_dose_due (second));
}

SwSchedule *
sw_schedule_new (const SwScheduleOrder *order)
{
  SwSchedule *schedule = g_new0 (SwSchedule, 1);

  schedule->lines = g_ptr_array_new_with_free_func (line_free);
  schedule->doses = g_ptr_array_new_with_free_func (sw_fact_free);
  schedule->findings = sw_findings_new ();
  schedule->choices = g_strdup ("");
  for (guint i = 0; i < order->protocol->groups->len; i++)
    add_group (schedule, order, order->protocol->groups->pdata[i]);
  g_ptr_array_sort (schedule->doses, by_due);
  if (sw_findings_worst (schedule->findings) == SW_STOP)
    g_ptr_array_set_size (schedule->doses, 0);
  return schedule;
}

void
sw_schedule_append_doses (GPtrArray *facts, const GPtrArray *doses, gint64 patient, gint64 course, gint64 plan)
{
  for (guint i = 0; i < doses->len; i++)
    {
      SwDose *dose = sw_new (SW_FACT_DOSE, SwDose);
      SwDosePlan *row = sw_fact_copy (doses->pdata[i]);

      dose->fact.patient = row->fact.patient = patient;
      dose->course = row->course = course;
      g_ptr_array_add (facts, dose);
      row->dose = -(gint64) facts->len;
      row->plan = plan;
      g_ptr_array_add (facts, row);
    }
}

GPtrArray *
sw_schedule_facts (const SwSchedule *schedule, SwPlan *plan)
{
  GPtrArray *facts = g_ptr_array_new_with_free_func (sw_fact_free);

  g_ptr_array_add (facts, plan);
  sw_schedule_append_doses (facts, schedule->doses, plan->fact.patient, plan->course, -1);
  return facts;
}

gboolean
sw_dose_in_range (const SwCase *c, const SwDosePlan *dose, gint64 grams)
{
  const SwMedicine *medicine = sw_books_medicine (c->books, dose->substance);
  gint64 least;
  SwWide given, low, high;

  if (medicine == NULL || medicine->high_ug_per_kg == SW_UNKNOWN)
    return FALSE;
  least = sw_stock_least (medicine);
  return least != SW_UNKNOWN && sw_wide_mul (dose->dose_ug, SW_GRAMS_PER_KG, &given) && sw_wide_mul (least, grams, &low)
         && sw_wide_mul (medicine->high_ug_per_kg, grams, &high) && low <= given && given <= high;
}
