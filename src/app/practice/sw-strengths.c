/* sw-strengths.c: the strengths of a medicine on the shelf
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-strengths.h"

#include "sw-error.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define PER_ML "/mL"
#define UG_DIGITS 3 /* mg with three digits after the point are ug */

static void
cut_suffix (char *text, const char *suffix)
{
  if (g_str_has_suffix (text, suffix))
    text[strlen (text) - strlen (suffix)] = '\0';
  g_strchomp (text);
}

static gboolean
append_strength (GString *setting, const char *typed, GError **error)
{
  g_autofree char *entry = g_strstrip (g_strdup (typed));
  gboolean liquid = g_str_has_suffix (entry, PER_ML);
  gint64 ug;

  cut_suffix (entry, PER_ML);
  cut_suffix (entry, "mg");
  g_strdelimit (entry, ",", '.');
  if (!sw_decimal_parse (entry, UG_DIGITS, &ug, NULL) || ug == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("“%s” is no strength: write milligrams parted by semicolons, a liquid with mg/mL: 1; 2.5; 1.5 "
                     "mg/mL."), typed);
      return FALSE;
    }
  g_string_append_printf (setting, "%s%" G_GINT64_FORMAT "%s", setting->len > 0 ? ";" : "", ug, liquid ? PER_ML : "");

  return TRUE;
}

char *
sw_strengths_parse (const char *typed, GError **error)
{
  g_auto (GStrv) entries = g_strsplit (typed[0] != '\0' ? typed : " ", ";", -1); /* nothing is no strength either */
  g_autoptr (GString) setting = g_string_new (NULL);

  for (guint i = 0; entries[i] != NULL; i++)
    if (!append_strength (setting, entries[i], error))
      return NULL;
  return g_string_free (g_steal_pointer (&setting), FALSE);
}

char *
sw_strengths_format (const char *setting)
{
  g_auto (GStrv) entries = g_strsplit (setting, ";", -1);
  GString *text = g_string_new (NULL);

  for (guint i = 0; entries[i] != NULL; i++)
    {
      g_autofree char *mg = sw_ratio_format (sw_ratio (g_ascii_strtoll (entries[i], NULL, 10), 1000), UG_DIGITS);
      char *end = mg + strlen (mg);

      while (end[-1] == '0')
        *--end = '\0';
      if (end[-1] == '.')
        end[-1] = '\0';
      g_string_append_printf (text, "%s%s%s", i > 0 ? "; " : "", mg, g_str_has_suffix (entries[i], PER_ML) ? " mg/mL"
                              : "");
    }

  return g_string_free (text, FALSE);
}
