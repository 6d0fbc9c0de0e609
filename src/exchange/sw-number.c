/* sw-number.c: a double as the shortest text that reads back as the same.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-number-private.h"

void
sw_number_append (GString *out, double value)
{
  static const char *const formats[] = { "%.15g", "%.16g", "%.17g" };
  char text[G_ASCII_DTOSTR_BUF_SIZE] = "0";

  for (guint i = 0; i < G_N_ELEMENTS (formats) && value != 0; i++)
    {
      g_ascii_formatd (text, sizeof text, formats[i], value);
      if (g_ascii_strtod (text, NULL) == value)
        break;
    }
  g_string_append (out, text);
}
