/* sw-interval.h: time to an event known only to lie between two visits (Turnbull).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * SwTurnbullMass:
 * @left: the mass lies in (left, right]; with @left = @right it lies at that very time
 * @right: infinity: past the last visit
 * @mass: share of the courses
 *
 * Where inside the interval the mass lies the data can't tell: a curve is drawn as a step only outside of it.
 */
typedef struct
{
  double left;
  double right;
  double mass;
} SwTurnbullMass;

/**
 * SwTurnbull:
 * @n: courses
 * @masses: (array length=n_masses): the maximal intervals that carry mass, in time order; the masses sum to 1
 * @n_maximal: how many maximal intervals there are, with and without mass
 * @loglik: log likelihood reached (0 with no courses)
 * @gap: no other distribution has a log likelihood higher than @loglik + @gap; see sw_turnbull_fit()
 * @iterations: how many rounds of steps that took
 */
typedef struct
{
  gint64 n;
  SwTurnbullMass *masses;
  gsize n_masses;
  gsize n_maximal;
  double loglik;
  double gap;
  guint iterations;
} SwTurnbull;

/**
 * sw_turnbull_fit:
 * @left: (array length=n): last time known to be free of the event, finite, not negative; the interval is open here
 * @right: (array length=n): first time known to have it, at or above @left; infinity: not yet. @right = @left: an
 *   exact time
 * @n: courses, 0 and more
 * @cancellable: (nullable): a way to give up between steps
 *
 * The nonparametric maximum likelihood estimate. Mass can only lie in the maximal intervals (from a left end to the
 * next right end with no end between). Expectation and convex-minorant steps find which of them carry any, Newton
 * steps on these finish. It ends when the optimality (Kuhn-Tucker) condition is checked to hold on every maximal
 * interval: with d_j the sum of 1 / P(course i) over the courses whose interval covers interval j, max d_j <= n (1 +
 * 10^-9). By concavity max d_j - n is also the most by which any likelihood can still be higher: @gap.
 *
 * Sources: Peto R 1973 Appl Stat 22:86-91; Turnbull BW 1976 J R Stat Soc B 38:290-295; optimality: Gentleman R, Geyer
 * CJ 1994 Biometrika 81:618-623; steps: Wellner JA, Zhan Y 1997 J Am Stat Assoc 92:945-959 [memory].
 *
 * Errors: %SW_ERROR_INPUT when an interval is outside its domain (the sentence names the row) or when the condition
 * can't be met in double precision; %G_IO_ERROR_CANCELLED.
 *
 * Returns: (transfer full): free with sw_turnbull_free()
 */
SwTurnbull *sw_turnbull_fit (const double *left,
                             const double *right,
                             gsize n,
                             GCancellable *cancellable,
                             GError **error);

void sw_turnbull_free (SwTurnbull *turnbull);

/* The share with the event by @t: least and most, which differ only where @t lies inside an interval with mass. */
void sw_turnbull_at (const SwTurnbull *turnbull, double t, double *least, double *most);

/* The interval in which half have had the event; FALSE with no courses. @right may be infinity. */
gboolean sw_turnbull_median (const SwTurnbull *turnbull, double *left, double *right);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTurnbull, sw_turnbull_free)

G_END_DECLS
