/* sw-dispense.c: how much to hand out
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-schedule.h"

static void
dispense_free (gpointer data)
{
  SwDispense *entry = data;

  g_free (entry->substance);
  g_free (entry);
}

static SwDispense *
entry_for (GPtrArray *entries, const SwDosePlan *dose)
{
  SwDispense *entry;

  for (guint i = 0; i < entries->len; i++)
    {
      entry = entries->pdata[i];
      if (g_str_equal (entry->substance, dose->substance) && entry->strength_ug == dose->strength_ug)
        return entry;
    }
  entry = g_new0 (SwDispense, 1);
  entry->substance = g_strdup (dose->substance);
  entry->strength_ug = dose->strength_ug;
  g_ptr_array_add (entries, entry);
  return entry;
}

GPtrArray *
sw_schedule_dispense (const GPtrArray *doses)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func (dispense_free);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      SwDispense *entry = entry_for (entries, dose);

      entry->doses++;
      if (dose->halves != SW_UNKNOWN)
        entry->halves += dose->halves;
      if (dose->volume_nl != SW_UNKNOWN)
        entry->volume_nl += dose->volume_nl;
      entry->tablets = (entry->halves + 1) / 2;
    }
  return entries;
}
