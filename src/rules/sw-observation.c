/* sw-observation.c: how long and how often a dog is looked at after the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-observation.h"

#include "sw-definitions.h"

static SwMoment
injected_at (const SwCase *c)
{
  const SwInjection *injection = sw_dossier_injection (c->dossier, c->course);

  return injection != NULL ? (SwMoment){ injection->day, (int) injection->minute } : SW_NO_MOMENT;
}

SwMoment
sw_observation_until (const SwCase *c)
{
  SwMoment injected = injected_at (c);

  return sw_moment_is_set (injected) ? sw_moment_add_minutes (injected, sw_definition_whole (SW_DEF_OBSERVATION)) : injected;
}

SwMoment
sw_observation_next (const SwCase *c)
{
  SwMoment last = injected_at (c);
  SwMoment until = sw_observation_until (c);
  const SwObservation *look;

  if (!sw_moment_is_set (last))
    return last;
  for (guint i = 0; (look = sw_facts_next (&c->dossier->facts, SW_FACT_OBSERVATION, &i)) != NULL;)
    {
      SwMoment at = { look->day, (int) look->minute };

      if (look->course == c->course && sw_moment_compare (at, last) > 0)
        last = at;
    }
  if (sw_moment_compare (last, until) >= 0)
    return SW_NO_MOMENT;
  return sw_moment_add_minutes (last, sw_definition_whole (SW_DEF_OBSERVATION_EVERY));
}
