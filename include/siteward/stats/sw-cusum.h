/* sw-cusum.h: are failures becoming more or less frequent?
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwCusumPlan:
 * @p0: rate of failures that is accepted
 * @p1: rate that is not, above @p0
 * @alpha: chance taken of a false alarm
 * @beta: chance taken of missing the worse rate
 * @s: taken off on a success; a failure adds 1 - s
 * @h0: the sum at or under -@h0 speaks for @p0
 * @h1: the sum at or over @h1 speaks for @p1
 */
typedef struct
{
  double p0, p1;
  double alpha, beta;
  double s;
  double h0, h1;
} SwCusumPlan;

/**
 * sw_cusum_plan:
 * @p0: inside (0, 1), under @p1
 * @p1: inside (0, 1)
 * @alpha: inside (0, 0.5]
 * @beta: inside (0, 0.5]
 * @plan: (out caller-allocates): step and limits
 *
 * Wald's sequential test drawn as a running sum: Kestin IG 1995 Br J Anaesth 75:805-809 [memory].
 *
 * Errors: %SW_ERROR_INPUT when a rate or a chance is outside its domain.
 */
gboolean sw_cusum_plan (double p0, double p1, double alpha, double beta, SwCusumPlan *plan, GError **error);

/**
 * SwCusum:
 * @n: courses, in order of time
 * @sums: (array length=n): the sum after each
 * @first_worse: index of the first course at which the sum was at or over h1, -1 if none
 * @first_as_planned: index of the first course at which it was at or under -h0, -1 if none
 */
typedef struct
{
  gsize n;
  double *sums;
  gssize first_worse;
  gssize first_as_planned;
} SwCusum;

/**
 * sw_cusum_run:
 * @plan: from sw_cusum_plan()
 * @failures: (array length=n): 1 a failure, 0 a success, in order of time
 * @n: courses, 0 and more
 *
 * The sum runs on after it crossed a limit: the chart shows it all, who looks at it decides.
 *
 * Errors: %SW_ERROR_INPUT when an entry is neither 0 nor 1; the sentence names the row.
 *
 * Returns: (transfer full): free with sw_cusum_free()
 */
SwCusum *sw_cusum_run (const SwCusumPlan *plan, const guint8 *failures, gsize n, GError **error);

void sw_cusum_free (SwCusum *cusum);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCusum, sw_cusum_free)

G_END_DECLS
