/* sw-proportion.h: a share x of n with its limits, and the exact tests against other shares.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The most that any count here may be; past it the incomplete beta function of the library no longer converges. */
#define SW_PROPORTION_MOST 1000000

/**
 * SwProportion:
 *
 * @x of @n with two-sided limits. Wilson's score limits come from inverting the normal test; the exact ones (Clopper
 *   and Pearson) from inverting the two binomial tails, so they cover at least as often as they say. An estimate of
 *   none (@n = 0) is absent: all five doubles are NaN.
 */
typedef struct
{
  gint64 x;
  gint64 n;
  double estimate;
  double wilson_lo, wilson_hi;
  double exact_lo, exact_hi;
} SwProportion;

/**
 * sw_proportion_compute:
 * @x: how many had it, 0 to @n
 * @n: of how many, 0 to %SW_PROPORTION_MOST
 * @level: confidence, inside (0, 1), usually 0.95
 * @result: (out caller-allocates): what was found
 *
 * Sources: Wilson EB 1927 J Am Stat Assoc 22:209-212; Clopper CJ, Pearson ES 1934 Biometrika 26:404-413; compared in
 * Newcombe RG 1998 Stat Med 17:857-872.
 *
 * Errors: %SW_ERROR_INPUT when a count or the level is outside its domain.
 */
gboolean sw_proportion_compute (gint64 x, gint64 n, double level, SwProportion *result, GError **error);

/**
 * sw_binomial_test:
 * @x: how many had it, 0 to @n
 * @n: of how many, 0 to %SW_PROPORTION_MOST
 * @p0: the share to compare with, 0 to 1
 * @p: (out): the chance, were @p0 true, of an outcome no likelier than @x
 *
 * The exact two-sided test: the probabilities of all outcomes no likelier than the observed one are summed; outcomes
 * whose probabilities differ by less than one in 10^7 count as equally likely, so that rounding can't drop a tie. Of
 * none, 1.
 *
 * Source: the method of small p-values, Fisher RA 1935 "The Design of Experiments" [memory].
 *
 * Errors: %SW_ERROR_INPUT when a count or @p0 is outside its domain.
 */
gboolean sw_binomial_test (gint64 x, gint64 n, double p0, double *p, GError **error);

/**
 * sw_fisher_exact_test:
 * @x1: how many of the first group had it, 0 to @n1
 * @n1: the first group
 * @x2: how many of the second group had it, 0 to @n2
 * @n2: the second group; the groups together hold at most %SW_PROPORTION_MOST
 * @p: (out): the chance, were the shares equal, of a table no likelier than this one with the same margins
 *
 * Two-sided by the same rule as sw_binomial_test(). Source: Fisher RA 1935 J R Stat Soc 98:39-82 [memory].
 *
 * Errors: %SW_ERROR_INPUT when a count is outside its domain.
 */
gboolean sw_fisher_exact_test (gint64 x1, gint64 n1, gint64 x2, gint64 n2, double *p, GError **error);

G_END_DECLS
