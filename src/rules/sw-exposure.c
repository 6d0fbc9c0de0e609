/* sw-exposure.c: medicines over time
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-exposure-private.h"

#include "sw-lead-in.h"
#include "sw-schedule.h"

static void
add_taken (const SwCase *c, GArray *exposures)
{
  const SwMedicineTaken *taken;

  for (guint i = 0; (taken = sw_facts_next (&c->dossier->facts, SW_FACT_MEDICINE_TAKEN, &i)) != NULL;)
    {
      SwExposure exposure = { taken->substance, taken->first_day, taken->last_day, taken, SW_UNKNOWN, FALSE };

      if (exposure.last == SW_NO_DAY)
        exposure.last = SW_GOES_ON;
      g_array_append_val (exposures, exposure);
    }
}

/* A substance of a group over all its phases, as the document asks for it. */
static SwExposure
planned (const SwAlternative *alternative, SwDay treat_day)
{
  SwExposure exposure = { .substance = alternative->substance, .ug_per_kg_day = 0 };

  for (guint i = 0; i < alternative->phases->len; i++)
    {
      const SwPhase *phase = alternative->phases->pdata[i];
      gint64 doses = MAX (SW_MINUTES_PER_DAY / (phase->every_hours * SW_MINUTES_PER_HOUR), 1);

      exposure.first = i == 0 ? treat_day + phase->first_day : MIN (exposure.first, treat_day + phase->first_day);
      exposure.last = i == 0 ? treat_day + phase->last_day : MAX (exposure.last, treat_day + phase->last_day);
      exposure.ug_per_kg_day = MAX (exposure.ug_per_kg_day, phase->ug_per_kg * doses);
    }
  return exposure;
}

static SwExposure *
find_planned (GArray *exposures, const char *substance)
{
  for (guint i = 0; i < exposures->len; i++)
    {
      SwExposure *exposure = &g_array_index (exposures, SwExposure, i);

      if (exposure->taken == NULL && g_str_equal (exposure->substance, substance))
        return exposure;
    }
  return NULL;
}

/* What the record holds may go beyond the document: a day that moved, a substance that was changed midway. */
static void
add_recorded (const SwCase *c, SwDay until, GArray *exposures)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      SwExposure fresh = { dose->substance, dose->due_day, dose->due_day, NULL, SW_UNKNOWN, FALSE };
      SwExposure *exposure = find_planned (exposures, dose->substance);

      if (dose->due_day > until)
        continue;
      if (exposure == NULL)
        {
          g_array_append_val (exposures, fresh);
          exposure = &g_array_index (exposures, SwExposure, exposures->len - 1);
        }
      exposure->first = MIN (exposure->first, dose->due_day);
      exposure->last = MAX (exposure->last, dose->due_day);
      exposure->liquid = exposure->liquid || dose->volume_nl != SW_UNKNOWN;
    }
}

/* A draft's strengths are not chosen yet: the schedule says which of its medicines come as liquids. */
static void
mark_liquids (const SwCase *c, SwDay treat_day, const char *choices, GArray *exposures)
{
  const SwWeight *weight = sw_facts_last (&c->dossier->facts, SW_FACT_WEIGHT);
  SwScheduleOrder order;
  g_autoptr (SwSchedule) schedule = NULL;

  if (weight == NULL || sw_case_protocol (c) == NULL)
    return;
  order = sw_schedule_order (c, treat_day, weight->grams, choices);
  schedule = sw_schedule_new (&order);
  for (guint i = 0; i < schedule->lines->len; i++)
    {
      const SwScheduleLine *line = schedule->lines->pdata[i];
      SwExposure *exposure = find_planned (exposures, line->substance);

      if (exposure != NULL && line->volume_nl != SW_UNKNOWN)
        exposure->liquid = TRUE;
    }
}

GArray *
sw_exposures (const SwCase *c, SwDay treat_day, const char *choices, gboolean draft)
{
  GArray *exposures = g_array_new (FALSE, FALSE, sizeof (SwExposure));
  const SwProtocol *protocol = sw_case_protocol (c);

  add_taken (c, exposures);
  for (guint i = 0; protocol != NULL && i < protocol->groups->len; i++)
    {
      const SwAlternative *alternative = sw_chosen_alternative (protocol->groups->pdata[i], choices);

      if (alternative != NULL && alternative->phases->len > 0)
        {
          SwExposure exposure = planned (alternative, treat_day);

          g_array_append_val (exposures, exposure);
        }
    }
  if (draft)
    mark_liquids (c, treat_day, choices, exposures);
  if (c->course != 0)
    add_recorded (c, draft ? c->now.day : SW_GOES_ON, exposures);
  return exposures;
}

gboolean
sw_exposure_overlaps (const SwExposure *a, const SwExposure *b)
{
  return MAX (a->first, b->first) <= MIN (a->last, b->last);
}

gint64
sw_exposure_gap (const SwExposure *earlier, const SwExposure *later)
{
  /* Open ends are no numbers to reckon with: only a later one that begins after the earlier ended leaves a gap. */
  return later->first > earlier->last ? later->first - earlier->last : 0;
}

gboolean
sw_exposure_is_active (const SwExposure *exposure, SwDay today)
{
  return exposure->last >= today;
}
