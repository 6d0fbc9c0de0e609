/* sw-reader-values.c: what a figure's text means
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-reader-private.h"

#include "sw-quantity.h"
#include "sw-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
has_value (const SwReader *reader, const SwFigure *figure)
{
  return reader->error == NULL && figure != NULL && *figure->value != '\0';
}

/* A bare U is not taken for IU: one USP unit of bleomycin is 1,000 IU. Nor is a dose per volume of tumour in IU: the
 * syringe holds mL, and the strength says how many IU are in one. */
static gboolean
is_bare_unit (const char *unit)
{
  return g_str_equal (unit, "U") || g_str_has_prefix (unit, "U/") || g_str_equal (unit, "IU") ||
         g_str_equal (unit, "IU/cm3");
}

static void
refuse_unit (SwReader *reader, const SwFigure *figure, const char *found, const char *unit)
{
  if (is_bare_unit (found))
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BARE_UNIT,
                             _ ("“%s” leaves open which units are meant (1 USP unit of bleomycin is 1,000 IU): "
                                "write %s, and the strength in IU/mL"),
                             figure->value, *unit != '\0' ? unit : _ ("none"));
  else if (*unit == '\0')
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNIT_MISMATCH, _ ("“%s” has a unit where none belongs"),
                             figure->value);
  else
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNIT_MISMATCH, _ ("“%s” is not in %s"), figure->value,
                             unit);
}

/* The number before the unit, or NULL when the unit is another one. */
static char *
number_before (SwReader *reader, const SwFigure *figure, const char *unit)
{
  gsize length = strcspn (figure->value, " ");
  const char *found = figure->value[length] == ' ' ? figure->value + length + 1 : "";

  if (!g_str_equal (found, unit))
    {
      refuse_unit (reader, figure, found, unit);
      return NULL;
    }
  return g_strndup (figure->value, length);
}

gint64
sw_reader_amount (SwReader *reader, const SwFigure *figure, const char *unit, guint digits)
{
  g_autofree char *number = NULL;
  g_autoptr (GError) error = NULL;
  gint64 value = SW_UNKNOWN;

  if (!has_value (reader, figure))
    return SW_UNKNOWN;
  number = number_before (reader, figure, unit);
  if (number != NULL && !sw_decimal_parse (number, digits, &value, &error))
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE, "%s", error->message);
  return value;
}

gint64
sw_reader_whole (SwReader *reader, const SwFigure *figure, const char *unit)
{
  return sw_reader_amount (reader, figure, unit, 0);
}

/* A day number or hour of a span: small and whole. */
static gboolean
small_number (const char *text, int *value)
{
  gint64 parsed;

  if (!sw_integer_parse (text, &parsed, NULL) || parsed < -10000 || parsed > 10000)
    return FALSE;
  *value = (int) parsed;
  return TRUE;
}

gboolean
sw_reader_days (SwReader *reader, const SwFigure *figure, int *first, int *last)
{
  g_auto (GStrv) parts = NULL;
  int from, to;

  if (!has_value (reader, figure))
    return FALSE;
  parts = g_strsplit (figure->value, " to ", -1);
  if (g_strv_length (parts) != 2 || !small_number (parts[0], &from) || !small_number (parts[1], &to))
    {
      sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE,
                               _ ("“%s” is no span of days: write it like -2 to +4"), figure->value);
      return FALSE;
    }
  if (from > to)
    {
      sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_DAYS_REVERSED,
                               _ ("the first day, %d, is after the last, %d"), from, to);
      return FALSE;
    }
  *first = from;
  *last = to;
  return TRUE;
}

char **
sw_reader_list (SwReader *reader, const SwFigure *figure)
{
  char **parts;

  if (!has_value (reader, figure))
    return NULL;
  parts = g_strsplit (figure->value, ";", -1);
  for (char **part = parts; *part != NULL; part++)
    if (*g_strstrip (*part) == '\0')
      sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE,
                               _ ("“%s” has an empty part between its semicolons"), figure->value);
  return parts;
}

int
sw_reader_code (SwReader *reader, const SwFigure *figure, const char *const *codes, SwContradiction kind)
{
  int index;

  if (!has_value (reader, figure))
    return -1;
  index = sw_code_index (codes, figure->value);
  if (index < 0)
    {
      g_autofree char *known = g_strjoinv (", ", (char **) codes);

      sw_reader_refuse_figure (reader, figure, kind, _ ("“%s” is not known here: write one of %s"), figure->value,
                               known);
    }
  return index;
}
