/* sw-wide.c: checked 128-bit integers and exact rationals
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-wide.h"

#include <string.h>

/* More digits than this never helps a reader, and the loop that looks for a difference must end. */
#define MOST_DIGITS 18

gboolean
sw_wide_add (SwWide a, SwWide b, SwWide *sum)
{
  SwWide result;

  if (__builtin_add_overflow (a, b, &result))
    return FALSE;
  *sum = result;
  return TRUE;
}

gboolean
sw_wide_mul (SwWide a, SwWide b, SwWide *product)
{
  SwWide result;

  if (__builtin_mul_overflow (a, b, &result))
    return FALSE;
  *product = result;
  return TRUE;
}

static unsigned __int128
magnitude (SwWide a)
{
  return a < 0 ? -(unsigned __int128) a : (unsigned __int128) a;
}

/* @b is over 0, so the divisor is too, and it fits. */
static SwWide
common_divisor (SwWide a, SwWide b)
{
  unsigned __int128 left = magnitude (a), right = (unsigned __int128) b;

  while (left != 0)
    {
      unsigned __int128 rest = right % left;

      right = left;
      left = rest;
    }
  return (SwWide) right;
}

static SwRatio
lowest_terms (SwWide num, SwWide den)
{
  SwWide divisor = common_divisor (num, den);

  return (SwRatio){ num / divisor, den / divisor };
}

SwRatio
sw_ratio (gint64 num, gint64 den)
{
  g_assert (den != 0);

  return den < 0 ? lowest_terms (-(SwWide) num, -(SwWide) den) : lowest_terms (num, den);
}

/* Both numerators over the least common denominator, so that a sum of readings doesn't overflow before it must. */
static gboolean
over_one_denominator (SwRatio a, SwRatio b, SwWide *left, SwWide *right)
{
  SwWide divisor = common_divisor (a.den, b.den);

  return sw_wide_mul (a.num, b.den / divisor, left) && sw_wide_mul (b.num, a.den / divisor, right);
}

gboolean
sw_ratio_add (SwRatio a, SwRatio b, SwRatio *sum)
{
  SwWide left, right, num, den;

  if (!over_one_denominator (a, b, &left, &right) || !sw_wide_add (left, right, &num) ||
      !sw_wide_mul (a.den, b.den / common_divisor (a.den, b.den), &den))
    return FALSE;
  *sum = lowest_terms (num, den);
  return TRUE;
}

gboolean
sw_ratio_sub (SwRatio a, SwRatio b, SwRatio *difference)
{
  SwWide negated;

  return sw_wide_mul (b.num, -1, &negated) && sw_ratio_add (a, (SwRatio){ negated, b.den }, difference);
}

gboolean
sw_ratio_mul (SwRatio a, SwRatio b, SwRatio *product)
{
  SwRatio first = lowest_terms (a.num, b.den), second = lowest_terms (b.num, a.den);
  SwWide num, den;

  if (!sw_wide_mul (first.num, second.num, &num) || !sw_wide_mul (first.den, second.den, &den))
    return FALSE;
  *product = (SwRatio){ num, den };
  return TRUE;
}

gboolean
sw_ratio_div (SwRatio a, SwRatio b, SwRatio *quotient)
{
  SwWide sign = b.num < 0 ? -1 : 1, num, den;

  if (b.num == 0 || !sw_wide_mul (b.den, sign, &num) || !sw_wide_mul (b.num, sign, &den))
    return FALSE;
  return sw_ratio_mul (a, (SwRatio){ num, den }, quotient);
}

gboolean
sw_ratio_compare (SwRatio a, SwRatio b, int *order)
{
  SwWide left, right;

  if (!over_one_denominator (a, b, &left, &right))
    return FALSE;
  *order = (left > right) - (left < right);
  return TRUE;
}

static gboolean
fits_int64 (SwWide value, gint64 *whole)
{
  if (value < G_MININT64 || value > G_MAXINT64)
    return FALSE;
  *whole = (gint64) value;
  return TRUE;
}

gboolean
sw_ratio_floor (SwRatio r, gint64 *whole)
{
  SwWide quotient = r.num / r.den;

  return fits_int64 (r.num % r.den < 0 ? quotient - 1 : quotient, whole);
}

gboolean
sw_ratio_round (SwRatio r, gint64 *whole)
{
  SwWide quotient = r.num / r.den;
  unsigned __int128 rest = magnitude (r.num % r.den);

  if (rest >= (unsigned __int128) r.den - rest)
    quotient += r.num < 0 ? -1 : 1;
  return fits_int64 (quotient, whole);
}

double
sw_ratio_to_double (SwRatio r)
{
  return (double) r.num / (double) r.den;
}

static void
append_whole (GString *out, unsigned __int128 value)
{
  if (value >= 10)
    append_whole (out, value / 10);
  g_string_append_c (out, '0' + (char) (value % 10));
}

/* Adds one to the last digit of "9.99", carrying past the point and, if need be, to a new first digit. */
static void
increment_decimal (GString *digits)
{
  for (gsize i = digits->len; i-- > 0;)
    {
      if (digits->str[i] == '.')
        continue;
      if (digits->str[i] != '9')
        {
          digits->str[i]++;
          return;
        }
      digits->str[i] = '0';
    }
  g_string_prepend_c (digits, '1');
}

char *
sw_ratio_format (SwRatio r, guint digits)
{
  unsigned __int128 num = magnitude (r.num), den = (unsigned __int128) r.den, rest;
  g_autoptr (GString) text = g_string_new (NULL);

  /* Ten times the rest must fit; dropping bits this far down can't be seen in 18 digits. */
  while (den >> 124 != 0)
    {
      num >>= 1;
      den >>= 1;
    }
  append_whole (text, num / den);
  rest = num % den;
  if (digits > 0)
    g_string_append_c (text, '.');
  for (guint i = 0; i < MIN (digits, MOST_DIGITS); i++)
    {
      g_string_append_c (text, '0' + (char) (rest * 10 / den));
      rest = rest * 10 % den;
    }
  if (rest >= den - rest)
    increment_decimal (text);
  if (r.num < 0 && strpbrk (text->str, "123456789") != NULL)
    g_string_prepend_c (text, '-');
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static guint
count_significant (const char *text)
{
  const char *first = strpbrk (text, "123456789");
  guint count = 0;

  for (const char *p = first; p != NULL && *p != '\0'; p++)
    count += *p != '.';
  return count;
}

/* The first place that counts is that of the unrounded value: 0.0996 keeps its 6, though 0.100 has three digits too. */
char *
sw_ratio_format_significant (SwRatio r, guint digits)
{
  SwRatio positive = { r.num < 0 ? -r.num : r.num, r.den }, least = { 1, 1 };
  g_autofree char *text = NULL;
  guint decimals = 0;
  int order = 0;

  for (guint i = 1; i < digits; i++)
    least.num *= 10;
  while (r.num != 0 && decimals < MOST_DIGITS && sw_ratio_compare (positive, least, &order) && order < 0)
    {
      least.den *= 10;
      decimals++;
    }
  text = sw_ratio_format (r, decimals);
  if (decimals > 0 && count_significant (text) > digits)
    return sw_ratio_format (r, decimals - 1);
  return g_steal_pointer (&text);
}

static gboolean
is_exact_with (SwRatio r, guint digits)
{
  SwWide den = lowest_terms (r.num, r.den).den, power = 1;

  for (guint i = 0; i < digits; i++)
    power *= 10;
  return power % den == 0;
}

static char *
without_trailing_zeros (char *text)
{
  char *end = text + strlen (text);

  if (strchr (text, '.') == NULL)
    return text;
  while (end[-1] == '0')
    *--end = '\0';
  if (end[-1] == '.')
    end[-1] = '\0';
  return text;
}

void
sw_ratio_format_beside (SwRatio value, SwRatio limit, guint digits, char **value_text, char **limit_text)
{
  const guint most_for_limit = 6;
  g_autofree char *left = NULL, *right = NULL;
  gboolean same = value.num == limit.num && value.den == limit.den;

  while (digits < most_for_limit && !is_exact_with (limit, digits))
    digits++;
  left = sw_ratio_format (value, digits);
  right = sw_ratio_format (limit, digits);
  while (!same && digits < MOST_DIGITS && g_str_equal (left, right))
    {
      digits++;
      g_free (left);
      g_free (right);
      left = sw_ratio_format (value, digits);
      right = sw_ratio_format (limit, digits);
    }
  *value_text = without_trailing_zeros (g_steal_pointer (&left));
  *limit_text = without_trailing_zeros (g_steal_pointer (&right));
}
