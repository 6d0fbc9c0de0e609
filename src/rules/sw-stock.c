/* sw-stock.c: what the practice has on its shelf of a substance, and which of it makes a dose
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-stock-private.h"

/* "2500;5000;1500/mL": tablets in ug, liquids in ug per mL. What can't be read is left out: settings are checked when
 * they are set. */
static void
stock_from_setting (SwStock *stock, const char *setting)
{
  g_auto (GStrv) entries = g_strsplit (setting, ";", -1);

  for (guint i = 0; entries[i] != NULL; i++)
    {
      gboolean liquid = g_str_has_suffix (entries[i], "/mL");
      gint64 ug = g_ascii_strtoll (entries[i], NULL, 0);

      if (ug > 0)
        g_array_append_val (liquid ? stock->liquids : stock->tablets, ug);
    }
}

static void
stock_from_document (SwStock *stock, const SwMedicine *medicine)
{
  for (guint i = 0; i < medicine->strengths->len; i++)
    {
      const SwStrength *strength = medicine->strengths->pdata[i];

      g_array_append_val (strength->form == SW_FORM_LIQUID ? stock->liquids : stock->tablets, strength->ug);
    }
}

SwStock *
sw_stock_new (const SwPractice *practice, const SwMedicine *medicine)
{
  SwStock *stock = g_new0 (SwStock, 1);
  g_autofree char *key = g_strconcat ("strengths.", medicine->head.id, NULL);
  const char *setting = sw_practice_setting (practice, key);

  stock->tablets = g_array_new (FALSE, FALSE, sizeof (gint64));
  stock->liquids = g_array_new (FALSE, FALSE, sizeof (gint64));
  if (setting != NULL)
    stock_from_setting (stock, setting);
  else
    stock_from_document (stock, medicine);
  return stock;
}

void
sw_stock_free (SwStock *stock)
{
  if (stock == NULL)
    return;
  g_array_unref (stock->tablets);
  g_array_unref (stock->liquids);
  g_free (stock);
}

gint64
sw_stock_least (const SwMedicine *medicine)
{
  if (medicine->at_least || medicine->low_ug_per_kg == SW_UNKNOWN)
    return medicine->target_ug_per_kg;
  return medicine->low_ug_per_kg;
}

static SwRatio
mg_per_kg (gint64 ug_per_kg)
{
  return sw_ratio (ug_per_kg, SW_UG_PER_MG);
}

gboolean
sw_stock_choose (const SwPractice *practice, const SwMedicine *medicine, gint64 ug_per_kg, gint64 grams,
                 SwTabletChoice *choice)
{
  g_autoptr (SwStock) stock = NULL;
  SwTabletInput input = { .weight_g = grams, .at_least = medicine->at_least };

  if (ug_per_kg == SW_UNKNOWN || medicine->high_ug_per_kg == SW_UNKNOWN
      || (medicine->low_ug_per_kg == SW_UNKNOWN && !medicine->at_least))
    return FALSE;
  stock = sw_stock_new (practice, medicine);
  input.halves = medicine->divide == SW_DIVIDE_HALVES;
  input.target = mg_per_kg (ug_per_kg);
  input.low = mg_per_kg (medicine->low_ug_per_kg != SW_UNKNOWN ? medicine->low_ug_per_kg : ug_per_kg);
  input.high = mg_per_kg (medicine->high_ug_per_kg);
  input.strengths_ug = (const gint64 *) stock->tablets->data;
  input.n_strengths = stock->tablets->len;
  input.liquids_ug_ml = (const gint64 *) stock->liquids->data;
  input.n_liquids = stock->liquids->len;
  return sw_tablet_choose (&input, choice);
}
