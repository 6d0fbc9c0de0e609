/* sw-quantity-format.c: exact quantities as they are shown
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-quantity.h"

#include <string.h>

/* Two decimals, of which the second goes when it is a zero. */
static char *
one_or_two_decimals (SwRatio r)
{
  char *text = sw_ratio_format (r, 2);
  gsize length = strlen (text);

  if (text[length - 1] == '0')
    text[length - 1] = '\0';
  return text;
}

char *
sw_length_format (gint64 hundredths_mm)
{
  return one_or_two_decimals (sw_ratio (hundredths_mm, 100));
}

char *
sw_reading_format (const gint64 axes[3])
{
  g_autofree char *first = sw_length_format (axes[0]), *second = sw_length_format (axes[1]);
  g_autofree char *third = sw_length_format (axes[2]);

  return g_strdup_printf ("%s × %s × %s", first, second, third);
}

char *
sw_mass_format (gint64 grams)
{
  return one_or_two_decimals (sw_ratio (grams, SW_GRAMS_PER_KG));
}

char *
sw_drug_volume_format (gint64 nl)
{
  return sw_ratio_format (sw_ratio (nl, SW_NL_PER_ML), 2);
}

char *
sw_volume_format (SwRatio cm3)
{
  return sw_ratio_format_significant (cm3, 3);
}
