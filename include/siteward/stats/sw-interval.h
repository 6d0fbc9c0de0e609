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

/* The fewest draws that limits are read off from. */
#define SW_TURNBULL_LEAST_DRAWS 40

/**
 * sw_turnbull_band:
 * @left: as in sw_turnbull_fit(), likewise @right and @n
 * @level: confidence at each single time, inside (0, 1)
 * @n_draws: at least %SW_TURNBULL_LEAST_DRAWS, usually 200
 * @seed: of the draws: the same data and seed give the same band
 * @times: (array length=n_times): where the band is wanted, finite, not negative
 * @lo: (array length=n_times): lower limits of the share with the event; NaN with no courses
 * @hi: (array length=n_times): upper limits
 * @cancellable: (nullable): a way to give up between draws
 *
 * Limits by the percentile bootstrap: courses are drawn again with replacement and the estimate is made anew; the
 * lower limit is a quantile of the least share by that time, the upper one of the most. No formula like Greenwood's
 * holds for this estimate, and the bootstrap is an approximation too [common practice].
 *
 * Source: Efron B 1979 Ann Stat 7:1-26 [memory].
 *
 * Errors: as sw_turnbull_fit(), and %SW_ERROR_INPUT for a level, a number of draws or a time outside its domain.
 */
gboolean sw_turnbull_band (const double *left,
                           const double *right,
                           gsize n,
                           double level,
                           guint n_draws,
                           guint seed,
                           const double *times,
                           gsize n_times,
                           double *lo,
                           double *hi,
                           GCancellable *cancellable,
                           GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTurnbull, sw_turnbull_free)

G_END_DECLS
