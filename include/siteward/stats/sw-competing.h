/* sw-competing.h: how many have had each of several events that exclude each other.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwIncidenceStep:
 * @t: a time at which an event of any cause happened
 * @n: at risk just before @t
 * @free: share free of every event after @t
 *
 * The columns per cause lie in #SwIncidence.
 */
typedef struct
{
  double t;
  gint64 n;
  double free;
} SwIncidenceStep;

/**
 * SwIncidence:
 * @n: courses
 * @n_causes: causes 1 to @n_causes
 * @steps: (array length=n_steps): in time order; at each, the incidences of all causes and @free sum to 1
 * @events: cause c (from 1) at step i: events[(c - 1) * n_steps + i]
 * @incidence: the same layout: cumulative incidence after the step
 * @se: its standard error
 * @lo: its limits on the log(-log) scale; NaN while the incidence is 0 or when it is 1
 * @times: all @n times, sorted
 */
typedef struct
{
  gint64 n;
  guint n_causes;
  SwIncidenceStep *steps;
  gsize n_steps;
  gint64 *events;
  double *incidence;
  double *se;
  double *lo, *hi;
  double *times;
} SwIncidence;

/**
 * sw_incidence_fit:
 * @times: (array length=n): finite, not negative
 * @causes: (array length=n): 0 censored, else which event came first, 1 to @n_causes
 * @n: courses, 0 and more
 * @n_causes: 1 and more
 * @level: confidence, inside (0, 1)
 *
 * The Aalen-Johansen estimate: unlike one minus a Kaplan-Meier curve it does not count those as still in danger of
 * one event who have had another. Standard error by the delta method on the same sums as Greenwood's; with one cause
 * it is his.
 *
 * Sources: Aalen OO, Johansen S 1978 Scand J Stat 5:141-150; Satagopan JM 2004 Br J Cancer 91:1229-1235; variance:
 * Marubini E, Valsecchi MG 1995 "Analysing Survival Data from Clinical Trials and Observational Studies" [memory].
 *
 * Errors: %SW_ERROR_INPUT when a time, a cause or the level is outside its domain; the sentence names the row.
 *
 * Returns: (transfer full): free with sw_incidence_free()
 */
SwIncidence *sw_incidence_fit (const double *times,
                               const guint8 *causes,
                               gsize n,
                               guint n_causes,
                               double level,
                               GError **error);

void sw_incidence_free (SwIncidence *incidence);

/* Cumulative incidence of @cause (from 1) after @t: 0 before the first step. */
double sw_incidence_at (const SwIncidence *incidence, guint cause, double t);

/* How many were still followed and free of every event just before @t. */
gint64 sw_incidence_at_risk (const SwIncidence *incidence, double t);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwIncidence, sw_incidence_free)

G_END_DECLS
