/* sw-turnbull-newton.c: Newton steps on the cells that carry mass.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-turnbull-private.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#define STEPS 40       /* at most, per phase; each either converges quadratically or empties a cell */
#define HALVINGS 30
#define WORK 4e7       /* multiplications that one factorisation may cost */
#define NEGLIGIBLE 1e-11 /* a mass under this is none, if its pull is under the total too */
#define SETTLED 1e-13  /* largest change of a mass at which the phase ends */

/* The cells with mass, and the equations in the cumulative masses between them. */
typedef struct
{
  gsize k;          /* cells with mass */
  guint32 *cells;   /* which */
  guint32 *before;  /* by cell of the search and one more: how many with mass come before it */
  gsize bandwidth;
  gsl_matrix *bands; /* k - 1 rows: curvature of minus the likelihood, diagonal and bands under it */
  gsl_vector *gains; /* its gradient, then the step */
} Equations;

static void
equations_clear (Equations *equations)
{
  g_free (equations->cells);
  g_free (equations->before);
  g_clear_pointer (&equations->bands, gsl_matrix_free);
  g_clear_pointer (&equations->gains, gsl_vector_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Equations, equations_clear)

static void
find_cells (Equations *equations, const SwTurnbullSearch *search)
{
  equations->cells = g_new (guint32, search->n_cells);
  equations->before = g_new (guint32, search->n_cells + 1);
  for (gsize j = 0; j < search->n_cells; j++)
    {
      equations->before[j] = equations->k;
      if (search->mass[j] > 0)
        equations->cells[equations->k++] = j;
    }
  equations->before[search->n_cells] = equations->k;
}

/* A span reaches from one cumulative mass to another; those at both ends of the line are fixed at 0 and 1. */
static void
find_bandwidth (Equations *equations, const SwTurnbullSearch *search)
{
  for (gsize i = 0; i < search->n_spans; i++)
    {
      gsize low = equations->before[search->spans[i].first];
      gsize high = equations->before[search->spans[i].last + 1];
      if (low > 0 && high < equations->k)
        equations->bandwidth = MAX (equations->bandwidth, high - low);
    }
}

static gboolean
set_up (Equations *equations, const SwTurnbullSearch *search)
{
  find_cells (equations, search);
  find_bandwidth (equations, search);
  if (equations->k < 2 || (double) equations->k * equations->bandwidth * equations->bandwidth > WORK)
    return FALSE;

  equations->bands = gsl_matrix_calloc (equations->k - 1, equations->bandwidth + 1);
  equations->gains = gsl_vector_calloc (equations->k - 1);
  for (gsize i = 0; i < search->n_spans; i++)
    {
      gsize low = equations->before[search->spans[i].first];
      gsize high = equations->before[search->spans[i].last + 1];
      double slope = search->spans[i].weight / search->chance[i];
      double curvature = slope / search->chance[i];
      if (low > 0)
        {
          *gsl_vector_ptr (equations->gains, low - 1) -= slope;
          *gsl_matrix_ptr (equations->bands, low - 1, 0) += curvature;
        }
      if (high < equations->k)
        {
          *gsl_vector_ptr (equations->gains, high - 1) += slope;
          *gsl_matrix_ptr (equations->bands, high - 1, 0) += curvature;
        }
      if (low > 0 && high < equations->k)
        *gsl_matrix_ptr (equations->bands, low - 1, high - low) -= curvature;
    }
  return TRUE;
}

static gboolean
solve (Equations *equations)
{
  return gsl_linalg_cholesky_band_decomp (equations->bands) == GSL_SUCCESS
         && gsl_linalg_cholesky_band_svx (equations->bands, equations->gains) == GSL_SUCCESS;
}

/* By how much the step changes the mass of the @i-th cell with mass. */
static double
change (const Equations *equations, gsize i)
{
  double after = i + 1 < equations->k ? gsl_vector_get (equations->gains, i) : 0;
  double before = i > 0 ? gsl_vector_get (equations->gains, i - 1) : 0;

  return after - before;
}

/* The longest part of the step that leaves no mass under 0, and the largest change of a mass. */
static double
longest_step (const Equations *equations, const double *mass, double *largest)
{
  double longest = 1;

  *largest = 0;
  for (gsize i = 0; i < equations->k; i++)
    {
      double by = change (equations, i);
      *largest = MAX (*largest, fabs (by));
      if (-by * longest > mass[equations->cells[i]])
        longest = mass[equations->cells[i]] / -by;
    }
  return longest;
}

static void
take (SwTurnbullSearch *search, const Equations *equations, const double *from, double length)
{
  for (gsize i = 0; i < equations->k; i++)
    {
      guint32 cell = equations->cells[i];
      double mass = from[cell] + length * change (equations, i);
      search->mass[cell] = mass > 1e-15 * from[cell] ? mass : 0;
    }
}

/* Close to the optimum the likelihood no longer shows a gain; a step that costs less than its rounding is taken. */
static gboolean
step_along (SwTurnbullSearch *search, const Equations *equations, double length)
{
  g_autofree double *from = g_memdup2 (search->mass, search->n_cells * sizeof (double));
  double floor = search->loglik - 1e-14 * fabs (search->loglik);

  for (guint halving = 0; halving < HALVINGS; halving++, length /= 2)
    {
      take (search, equations, from, length);
      if (sw_turnbull_search_weigh (search) && search->loglik >= floor)
        return TRUE;
    }
  memcpy (search->mass, from, search->n_cells * sizeof (double));
  sw_turnbull_search_weigh (search);
  return FALSE;
}

static void
drop_negligible (SwTurnbullSearch *search)
{
  g_autofree double *from = g_memdup2 (search->mass, search->n_cells * sizeof (double));
  double sum = 0;

  for (gsize j = 0; j < search->n_cells; j++)
    {
      if (search->mass[j] < NEGLIGIBLE && search->pull[j] < search->total)
        search->mass[j] = 0;
      sum += search->mass[j];
    }
  for (gsize j = 0; j < search->n_cells; j++)
    search->mass[j] /= sum;
  if (sw_turnbull_search_weigh (search))
    return;
  memcpy (search->mass, from, search->n_cells * sizeof (double));
  sw_turnbull_search_weigh (search);
}

void
sw_turnbull_search_newton (SwTurnbullSearch *search)
{
  gsl_set_error_handler_off ();
  drop_negligible (search);
  for (guint step = 0; step < STEPS; step++)
    {
      g_auto (Equations) equations = { 0 };
      double largest;
      if (!set_up (&equations, search) || !solve (&equations))
        return;
      double length = longest_step (&equations, search->mass, &largest);
      if (!step_along (search, &equations, length) || largest < SETTLED)
        return;
    }
}
