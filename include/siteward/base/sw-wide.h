/* sw-wide.h: checked 128-bit integers and exact rationals, for comparing with limits.
 *
 * Every operation that can overflow returns FALSE and leaves its out-argument alone; the caller refuses then
 * (domain 2: an overflow refuses). Nothing here rounds, except the functions that make text or a double for show.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

__extension__ typedef __int128 SwWide;

gboolean sw_wide_add (SwWide a, SwWide b, SwWide *sum) G_GNUC_WARN_UNUSED_RESULT;
gboolean sw_wide_mul (SwWide a, SwWide b, SwWide *product) G_GNUC_WARN_UNUSED_RESULT;

/**
 * SwRatio:
 * @num: numerator, of any sign
 * @den: denominator, always over 0
 *
 * An exact rational. The operations below return it in lowest terms.
 */
typedef struct
{
  SwWide num;
  SwWide den;
} SwRatio;

/* Pi as the exact decimal 3.14159265 (domain 2), so that a limit on pi/6 a b^2 has one answer. */
#define SW_PI ((SwRatio){ 314159265, 100000000 })

/* num / den in lowest terms; den must not be 0. */
SwRatio sw_ratio (gint64 num, gint64 den);

gboolean sw_ratio_add (SwRatio a, SwRatio b, SwRatio *sum) G_GNUC_WARN_UNUSED_RESULT;
gboolean sw_ratio_sub (SwRatio a, SwRatio b, SwRatio *difference) G_GNUC_WARN_UNUSED_RESULT;
gboolean sw_ratio_mul (SwRatio a, SwRatio b, SwRatio *product) G_GNUC_WARN_UNUSED_RESULT;

/* a / b; FALSE also when b is 0. */
gboolean sw_ratio_div (SwRatio a, SwRatio b, SwRatio *quotient) G_GNUC_WARN_UNUSED_RESULT;

/* order: below 0, 0 or over 0 as a is less than, equal to or more than b, cross-multiplied. */
gboolean sw_ratio_compare (SwRatio a, SwRatio b, int *order) G_GNUC_WARN_UNUSED_RESULT;

/* The whole number at or below r; FALSE when it does not fit. */
gboolean sw_ratio_floor (SwRatio r, gint64 *whole) G_GNUC_WARN_UNUSED_RESULT;

/* The nearest whole number, halves away from zero; FALSE when it does not fit. */
gboolean sw_ratio_round (SwRatio r, gint64 *whole) G_GNUC_WARN_UNUSED_RESULT;

/* For statistics and drawing only, never for a limit. */
double sw_ratio_to_double (SwRatio r);

/**
 * sw_ratio_format:
 * @r: a rational
 * @digits: digits after the point, 0 to 18
 *
 * Rounds halves away from zero. Always a point, never the locale's mark.
 *
 * Returns: (transfer full): "8.004"
 */
char *sw_ratio_format (SwRatio r, guint digits);

/* The same with at least @digits significant digits ("0.0625" has three); whole digits are never zeroed ("1234"). */
char *sw_ratio_format_significant (SwRatio r, guint digits);

/**
 * sw_ratio_format_beside:
 * @value: what is compared
 * @limit: the limit it is compared with
 * @digits: digits after the point to begin with
 * @value_text: (out) (transfer full): the value
 * @limit_text: (out) (transfer full): the limit
 *
 * Both with as many digits as they need to be told apart, and the limit with all of its own (up to six), trailing
 * zeros left out: 8.004 beside 8. Equal rationals give equal texts.
 */
void sw_ratio_format_beside (SwRatio value, SwRatio limit, guint digits, char **value_text, char **limit_text);

G_END_DECLS
