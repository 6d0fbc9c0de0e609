/* sw-turnbull-private.h: masses of cells that maximise the likelihood of spans of cells.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

/* @weight courses each known to lie in one of the cells @first to @last. */
typedef struct
{
  guint32 first;
  guint32 last;
  double weight;
} SwSpan;

/* The search: masses and what follows from them. Every span holds some mass at all times; its weight is above 0. */
typedef struct
{
  const SwSpan *spans;
  gsize n_spans;
  gsize n_cells;
  double total;   /* sum of the weights */
  double *mass;   /* by cell */
  double *below;  /* by cell and one more: mass of all cells before */
  double *chance; /* by span: its mass */
  double *slope;  /* by cell and one more: pull of the cell less that of the one before */
  double *pull;   /* by cell: sum of weight / chance of the spans that cover it; at the end total where there is mass */
  double loglik;
  double gap;     /* greatest pull less total */
} SwTurnbullSearch;

/* The same mass in every cell. @spans stays the caller's and must outlive the search. */
void sw_turnbull_search_init (SwTurnbullSearch *search, const SwSpan *spans, gsize n_spans, gsize n_cells);
void sw_turnbull_search_clear (SwTurnbullSearch *search);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwTurnbullSearch, sw_turnbull_search_clear)

/* Sets @below, @chance and @loglik from @mass; FALSE, with @loglik minus infinity, when a span holds no mass. */
gboolean sw_turnbull_search_weigh (SwTurnbullSearch *search);

/* Newton's method on the cells with mass; those that lose it all are set to 0 exactly. It stops where the equations are
 * singular or too many. @mass, @below, @chance and @loglik agree afterwards. */
void sw_turnbull_search_newton (SwTurnbullSearch *search);

/* Runs the search from its masses to its end: on TRUE gap <= 10^-9 total. */
gboolean sw_turnbull_search_run (SwTurnbullSearch *search,
                                 guint *iterations,
                                 GCancellable *cancellable,
                                 GError **error);
