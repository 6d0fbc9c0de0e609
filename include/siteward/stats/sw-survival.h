/* sw-survival.h: time to an event when some courses are still free of it: curves, limits, medians, comparison.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwSurvivalStep:
 * @t: a time at which events happened
 * @n: how many were at risk just before @t; who is censored at @t still counts
 * @d: events at @t
 * @s: share free of the event after @t
 * @se: its standard error (Greenwood)
 * @plain_lo: limits s -+ z se, cut to 0..1
 * @loglog_lo: limits on the log(-log) scale, which never leave 0..1
 *
 * When @s is 0 Greenwood's variance has no value: @se and all four limits are NaN (absent).
 */
typedef struct
{
  double t;
  gint64 n;
  gint64 d;
  double s;
  double se;
  double plain_lo, plain_hi;
  double loglog_lo, loglog_hi;
} SwSurvivalStep;

/* Courses censored at one time, for the marks on the curve, which stands at @s there. */
typedef struct
{
  double t;
  gint64 count;
  double s;
} SwSurvivalMark;

/**
 * SwSurvivalCurve:
 * @n: courses
 * @events: of these with the event
 * @median: the least time at which half have had the event, NaN when the curve stays above one half; where the curve
 *   runs level at one half, the middle of that level stretch [common convention]
 * @median_lo: limits of the median: where the log-log limits cross one half, by the same rule (Brookmeyer and Crowley)
 * @steps: @n_steps, in time order
 * @marks: @n_marks, in time order
 * @times: all @n times, sorted
 */
typedef struct
{
  gint64 n;
  gint64 events;
  double median, median_lo, median_hi;
  SwSurvivalStep *steps;
  gsize n_steps;
  SwSurvivalMark *marks;
  gsize n_marks;
  double *times;
} SwSurvivalCurve;

/**
 * SwLogRank:
 * @chi2: the statistic; NaN when there is nothing to compare (@df 0)
 * @df: groups that had somebody at risk at an event, less one
 * @p: chance of a larger statistic, were all groups alike; NaN with @df 0
 * @n_groups: length of @observed and @expected; @variance is @n_groups x @n_groups, row by row
 */
typedef struct
{
  double chi2;
  int df;
  double p;
  gsize n_groups;
  double *observed;
  double *expected;
  double *variance;
} SwLogRank;

/* One curve per group, and the groups compared. */
typedef struct
{
  gsize n_groups;
  SwSurvivalCurve *curves;
  SwLogRank logrank;
} SwSurvival;

/**
 * sw_survival_fit:
 * @times: (array length=n): time of the event or of censoring, finite, not negative, any unit
 * @events: (array length=n): 1 the event, 0 censored
 * @groups: (array length=n) (nullable): group of each course, 0 to @n_groups - 1; NULL puts all in group 0
 * @n: courses, 0 and more
 * @n_groups: 1 and more; a group may be empty
 * @level: confidence, inside (0, 1), usually 0.95
 *
 * Kaplan-Meier curves and the log-rank test. Events come before censorings of the same time. Times tie when they are
 * equal; nothing is rounded. Cost: a radix sort, then per event time a term per group and, between groups, one per
 * pair of groups.
 *
 * Sources: Kaplan EL, Meier P 1958 J Am Stat Assoc 53:457-481; Greenwood M 1926; log-log limits: Kalbfleisch JD,
 * Prentice RL 1980; median's limits: Brookmeyer R, Crowley J 1982 Biometrics 38:29-41; log-rank with the
 * hypergeometric variance: Mantel N 1966, Peto R, Peto J 1972 J R Stat Soc A 135:185-207 [memory for all but the
 * figures that the tests reproduce].
 *
 * Errors: %SW_ERROR_INPUT when a time, an event, a group or the level is outside its domain; the sentence names the
 * row.
 *
 * Returns: (transfer full): free with sw_survival_free()
 */
SwSurvival *sw_survival_fit (const double *times,
                             const guint8 *events,
                             const guint32 *groups,
                             gsize n,
                             gsize n_groups,
                             double level,
                             GError **error);

void sw_survival_free (SwSurvival *survival);

/* How many of @curve were still followed and free of the event just before @t: the number at risk under the axis. */
gint64 sw_survival_curve_at_risk (const SwSurvivalCurve *curve, double t);

/* The share free of the event after @t: 1 before the first step. */
double sw_survival_curve_at (const SwSurvivalCurve *curve, double t);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSurvival, sw_survival_free)

G_END_DECLS
