/* sw-quantity.c: exact quantities from typed text (the entry rules of domain 2)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-quantity.h"

#include "sw-error.h"
#include "sw-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Fifteen digits are more than any quantity needs, and keep every product below within 64 bits. */
#define MOST_MANTISSA_DIGITS 15
#define MOST_TYPED 80

/* 0.45359237 kg exactly (international pound), as g over 10^5. */
#define POUND_NUM G_GINT64_CONSTANT (45359237)
#define POUND_DEN G_GINT64_CONSTANT (100000)

/**
 * Unit:
 * @name: as shown
 * @num, @den: how many inside units one of it is
 * @digits: digits after the decimal mark that the inside unit holds
 */
typedef struct
{
  const char *name;
  gint64 num, den;
  guint digits;
} Unit;

/**
 * Kind:
 * @units: the default unit first
 * @least, @most: the range an entry may lie in, in inside units [ours: domain 2; the 100 mL is a slip of the unit]
 * @least_text, @most_text: the same for sentences
 * @if_zero: what a zero should have been
 */
typedef struct
{
  Unit units[4];
  gint64 least, most;
  const char *least_text, *most_text, *if_zero;
} Kind;

static const Kind length_kind = {
  .units = { { "mm", 100, 1, 2 }, { "cm", 1000, 1, 3 } },
  .least = 50,
  .most = 30000,
  .least_text = "0.5 mm",
  .most_text = "300 mm",
  .if_zero = N_ ("0 is no size: choose “gone” or “closed” where that is meant, or measure again."),
};

static const Kind mass_kind = {
  .units = { { "kg", 1000, 1, 3 }, { "g", 1, 1, 0 }, { "lb", POUND_NUM, POUND_DEN, 6 } },
  .least = 500,
  .most = 120000,
  .least_text = "0.5 kg",
  .most_text = "120 kg",
  .if_zero = N_ ("0 is no weight: weigh the dog and type what the scale shows."),
};

static const Kind drug_volume_kind = {
  .units = { { "mL", 1000000, 1, 6 } },
  .least = 1,
  .most = 100000000,
  .least_text = "0.000001 mL",
  .most_text = "100 mL",
  .if_zero = N_ ("0 is no volume: type the mL in the syringe, such as 0.85."),
};

/* A number as typed: mantissa / 10^decimals, and its unit or NULL. */
typedef struct
{
  gint64 mantissa;
  guint decimals;
  const Unit *unit;
} Typed;

static gboolean refuse (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

static gboolean
refuse (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  if (error != NULL)
    *error = g_error_new_valist (SW_ERROR, SW_ERROR_INPUT, format, args);
  va_end (args);
  return FALSE;
}

/* One short clean line with plain spaces and none at its ends, or NULL: what the sentences below may quote. */
static char *
accept_line (const char *text, GError **error)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *shown = sw_text_excerpt (text, 32);
  gboolean clean = g_utf8_validate (text, -1, NULL) && g_utf8_strlen (text, -1) <= MOST_TYPED;

  for (const char *p = text; clean && *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar letter = g_utf8_get_char (p);

      clean = g_unichar_isprint (letter) || g_unichar_isspace (letter);
      g_string_append_unichar (out, g_unichar_isspace (letter) ? ' ' : letter);
    }
  if (!clean)
    {
      refuse (error, _ ("“%s” can't be read as a measurement: type a number."), shown);
      return NULL;
    }
  return g_strdup (g_strstrip (out->str));
}

static gboolean
is_mark (char c)
{
  return c == '.' || c == ',';
}

static gboolean
has_word (const char *text, const char *word)
{
  return g_ascii_strncasecmp (text, word, strlen (word)) == 0;
}

/* Says why @text can't begin a number. */
static gboolean
check_beginning (const char *text, GError **error)
{
  const char *digits = text + strcspn (text, "0123456789");

  if (*text == '\0')
    return refuse (error, "%s", _ ("Nothing was typed: type a number."));
  if (*text == '-' || g_str_has_prefix (text, "−") || g_str_has_prefix (text, "–"))
    return *digits != '\0' ? refuse (error, _ ("“%s” is negative: type it without a sign."), text)
                           : refuse (error, _ ("“%s” is not a number: type digits, such as 21.4."), text);
  if (*text == '+')
    return refuse (error, _ ("“%s” begins with a sign: type the number without it."), text);
  if (has_word (text, "nan") || has_word (text, "inf") || g_str_has_prefix (text, "∞"))
    return refuse (error, _ ("“%s” is not a finite number: type digits, such as 21.4."), text);
  if (is_mark (*text) && g_ascii_isdigit (text[1]))
    return refuse (error, _ ("“%s” has no digit before its decimal mark: type 0.5 instead of .5."), text);
  if (!g_ascii_isdigit (*text))
    return refuse (error, _ ("“%s” is not a number: type digits, such as 21.4."), text);
  return TRUE;
}

static gboolean
begins_number (const char *text)
{
  return g_ascii_isdigit (*text) || ((*text == '-' || *text == '+') && g_ascii_isdigit (text[1]));
}

/* Three digits after a gap look like a thousands group, anything else like a second number. */
static gboolean
is_group (const char *text)
{
  return strspn (text, "0123456789") == 3;
}

/* Says why @rest, which follows the first number of @text, is no unit. */
static gboolean
check_rest (const char *text, const char *rest, GError **error)
{
  const char *next = rest + strspn (rest, " ");

  if ((is_mark (*rest) || *rest == '\'' || *rest == '_') && g_ascii_isdigit (rest[1]))
    return refuse (error, _ ("“%s” has a mark between thousands: type one decimal mark at most."), text);
  if (g_str_has_prefix (rest, "’") && g_ascii_isdigit (rest[strlen ("’")]))
    return refuse (error, _ ("“%s” has a mark between thousands: type one decimal mark at most."), text);
  if (is_mark (*rest))
    return refuse (error, _ ("“%s” has no digit after its decimal mark: type 5 or 5.0 instead of 5."), text);
  if ((*rest == 'e' || *rest == 'E') && begins_number (rest + 1))
    return refuse (error, _ ("“%s” has an exponent: type the number in full."), text);
  if (rest != next && is_group (next))
    return refuse (error, _ ("“%s” has a gap between digits: type one number without gaps."), text);
  if (strpbrk (next, "0123456789") != NULL)
    return refuse (error, _ ("“%s” holds more than one number: type one."), text);
  return TRUE;
}

/* Reads digits and at most one mark with digits; says so when there are more than can be held. */
static gboolean
read_number (const char *text, const char **rest, Typed *typed, GError **error)
{
  const char *p = text;
  guint count = 0;
  gboolean after_mark = FALSE;

  typed->mantissa = 0;
  typed->decimals = 0;
  for (; g_ascii_isdigit (*p) || (!after_mark && is_mark (*p) && g_ascii_isdigit (p[1])); p++)
    {
      if (is_mark (*p))
        {
          after_mark = TRUE;
          continue;
        }
      if (++count > MOST_MANTISSA_DIGITS)
        return refuse (error, _ ("“%s” has too many digits to be a measurement: check what was typed."), text);
      typed->mantissa = typed->mantissa * 10 + (*p - '0');
      typed->decimals += after_mark;
    }
  *rest = p;
  return TRUE;
}

static char *
list_units (const Kind *kind)
{
  GString *list = g_string_new (kind->units[0].name);

  for (guint i = 1; i < G_N_ELEMENTS (kind->units) && kind->units[i].name != NULL; i++)
    g_string_append_printf (list, ", %s", kind->units[i].name);
  return g_string_free (list, FALSE);
}

static gboolean
read_unit (const Kind *kind, const char *name, const Unit **unit, GError **error)
{
  g_autofree char *known = list_units (kind);

  *unit = NULL;
  if (*name == '\0')
    return TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (kind->units) && kind->units[i].name != NULL; i++)
    if (g_ascii_strcasecmp (name, kind->units[i].name) == 0)
      {
        *unit = &kind->units[i];
        return TRUE;
      }
  return refuse (error, _ ("“%s” is not a unit known here: type one of %s, or none for %s."), name, known,
                 kind->units[0].name);
}

/* @text has passed plain_spaces(). */
static gboolean
read_typed (const Kind *kind, const char *text, Typed *typed, GError **error)
{
  const char *rest = NULL;

  return check_beginning (text, error) && read_number (text, &rest, typed, error) && check_rest (text, rest, error) &&
         read_unit (kind, rest + strspn (rest, " "), &typed->unit, error);
}

static gboolean
check_range (const Kind *kind, const char *text, gint64 value, GError **error)
{
  if (value < kind->least)
    return refuse (error, _ ("“%s” is under %s, the least that can be entered: check number and unit."), text,
                   kind->least_text);
  if (value > kind->most)
    return refuse (error, _ ("“%s” is over %s, the most that can be entered: check number and unit."), text,
                   kind->most_text);
  return TRUE;
}

/* The inside value of what was typed, floored where the unit is no multiple of the inside unit (lb). */
static gboolean
convert (const Kind *kind, const char *text, const Typed *typed, gint64 *value, GError **error)
{
  const Unit *unit = typed->unit != NULL ? typed->unit : &kind->units[0];
  SwWide power = unit->den;
  gint64 inside;

  if (typed->mantissa == 0)
    return refuse (error, "%s", _ (kind->if_zero));
  if (typed->decimals > unit->digits)
    return refuse (error,
                   g_dngettext (GETTEXT_PACKAGE,
                                "“%s” has more than %u digit after the decimal mark, finer than %s is kept: round it.",
                                "“%s” has more than %u digits after the decimal mark, finer than %s is kept: round it.",
                                unit->digits),
                   text, unit->digits, unit->name);
  for (guint i = 0; i < typed->decimals; i++)
    power *= 10;
  inside = (gint64) MIN ((SwWide) typed->mantissa * unit->num / power, (SwWide) G_MAXINT64);
  if (!check_range (kind, text, inside, error))
    return FALSE;
  *value = inside;
  return TRUE;
}

static gboolean
parse_one (const Kind *kind, const char *text, gint64 *value, GError **error)
{
  g_autofree char *line = accept_line (text, error);
  Typed typed;

  return line != NULL && read_typed (kind, line, &typed, error) && convert (kind, line, &typed, value, error);
}

gboolean
sw_length_parse (const char *text, gint64 *hundredths_mm, GError **error)
{
  return parse_one (&length_kind, text, hundredths_mm, error);
}

gboolean
sw_mass_parse (const char *text, gint64 *grams, GError **error)
{
  return parse_one (&mass_kind, text, grams, error);
}

gboolean
sw_drug_volume_parse (const char *text, gint64 *nl, GError **error)
{
  return parse_one (&drug_volume_kind, text, nl, error);
}

static char **
split_axes (const char *line)
{
  g_autoptr (GString) plain = g_string_new (line);

  g_string_replace (plain, "×", "x", 0);
  return g_strsplit_set (plain->str, "xX*", -1);
}

/* Reads the three axes and spreads the unit of the last one over those without. */
static gboolean
read_axes (char **parts, Typed typed[3], GError **error)
{
  for (int i = 0; i < 3; i++)
    if (!read_typed (&length_kind, g_strstrip (parts[i]), &typed[i], error))
      {
        g_prefix_error (error, _ ("Axis %d: "), i + 1);
        return FALSE;
      }
  for (int i = 0; i < 2; i++)
    {
      if (typed[i].unit != NULL && typed[i].unit != typed[2].unit)
        return refuse (error, _ ("“%s” has another unit than the last axis: type one, after the last axis."), parts[i]);
      typed[i].unit = typed[2].unit;
    }
  return TRUE;
}

gboolean
sw_reading_parse (const char *text, gint64 axes[3], GError **error)
{
  g_autofree char *line = accept_line (text, error);
  g_auto (GStrv) parts = NULL;
  Typed typed[3];
  gint64 values[3];

  if (line == NULL)
    return FALSE;
  if (*line == '\0')
    return check_beginning (line, error);
  parts = split_axes (line);
  if (g_strv_length (parts) != 3)
    return refuse (error, _ ("“%s” is not a reading: type length, width and height, such as 21.4x18.0x8.9 mm."), line);
  if (!read_axes (parts, typed, error))
    return FALSE;
  for (int i = 0; i < 3; i++)
    if (!convert (&length_kind, parts[i], &typed[i], &values[i], error))
      {
        g_prefix_error (error, _ ("Axis %d: "), i + 1);
        return FALSE;
      }
  memcpy (axes, values, sizeof values);
  return TRUE;
}

gboolean
sw_decimal_parse (const char *text, guint digits, gint64 *value, GError **error)
{
  const char *rest = text;
  Typed typed = { 0 };

  if (!g_ascii_isdigit (*text) || strchr (text, ',') != NULL)
    return refuse (error, _ ("“%s” is not a plain decimal number: write digits, such as 0.15."), text);
  if (!read_number (text, &rest, &typed, error))
    return FALSE;
  if (*rest != '\0')
    return refuse (error, _ ("“%s” is not a plain decimal number: write digits, such as 0.15."), text);
  if (typed.decimals > digits)
    return refuse (error, _ ("“%s” has more digits after the point than are kept for this figure."), text);
  for (; typed.decimals < digits; typed.decimals++)
    if (__builtin_mul_overflow (typed.mantissa, 10, &typed.mantissa))
      return refuse (error, _ ("“%s” is too large."), text);
  *value = typed.mantissa;
  return TRUE;
}

gboolean
sw_integer_parse (const char *text, gint64 *value, GError **error)
{
  gboolean negative = *text == '-';
  const char *digits = text + (negative || *text == '+');
  gint64 parsed;

  if (!g_ascii_isdigit (*digits) || strspn (digits, "0123456789") != strlen (digits))
    return refuse (error, _ ("“%s” is not a whole number."), text);
  if (!sw_decimal_parse (digits, 0, &parsed, error))
    return FALSE;
  *value = negative ? -parsed : parsed;
  return TRUE;
}
