/* sw-outcomes.h: what this practice achieved: every figure of the outcomes, from the record's treated tumours
 *
 * One read of the derived rows, then arithmetic: a whole record of 100,000 courses takes well under a second. How each
 * figure is counted stands in its section's definition. Results are values of model (sw-outcome.h); the same values are
 * shown, printed, and written as tables.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-definitions.h"
#include "sw-dossier.h"
#include "sw-outcome.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/* What a treated tumour may be told apart by. */
typedef enum
{
  SW_SPLIT_NONE,
  SW_SPLIT_GRADE,
  SW_SPLIT_SITE,
  SW_SPLIT_DEPTH,
  SW_SPLIT_SIZE,
  SW_SPLIT_WEIGHT,
  SW_SPLIT_AGENT,
  SW_SPLIT_OPERATOR,
  SW_SPLIT_REPEAT,
  SW_N_SPLITS
} SwSplit;

/* "none", "grade" ...; translated names. From a code: -1 where it is unknown. */
const char *sw_split_code (SwSplit split);
const char *sw_split_name (SwSplit split);
int sw_split_from_code (const char *code);

/* Pairs of failure rates that the running sum can be held against. */
typedef enum { SW_RATES_STRICT, SW_RATES_USUAL, SW_RATES_WIDE, SW_N_RATES } SwRates;

void sw_rates (SwRates rates, double *accepted, double *worse);

/**
 * SwOutcomeQuery: which treated tumours, and how they are told apart
 * @from: first treatment day; SW_NO_DAY: from the beginning
 * @to: last treatment day; SW_NO_DAY: up to today
 * @only: for each split the code that a tumour must have, e.g. "kiupel-low"; NULL: any
 * @published: SW_DEF_PUBLISHED_..., what complete response is compared with; SW_N_DEFINITIONS: nothing
 */
typedef struct
{
  SwDay from, to;
  SwSplit split;
  char *only[SW_N_SPLITS];
  SwRates rates;
  SwDefinitionId published;
} SwOutcomeQuery;

SwOutcomeQuery *sw_outcome_query_new (void);
SwOutcomeQuery *sw_outcome_query_copy (const SwOutcomeQuery *query);
void sw_outcome_query_free (SwOutcomeQuery *query);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwOutcomeQuery, sw_outcome_query_free)

/* A value that some treated tumour has for a split, to choose a filter from. */
typedef struct
{
  char *code;
  char *label;
} SwSplitValue;

void sw_split_value_free (SwSplitValue *value);
/* In their natural order. (transfer full) SwSplitValue */
GPtrArray *sw_split_values (const GArray *rows, const SwPractice *practice, SwSplit split);

/* A section is done, @done of @total; on the computing thread. It may be kept with sw_outcome_section_ref(). */
typedef void (*SwOutcomeFunc) (SwOutcomeSection *section, guint done, guint total, gpointer data);

/**
 * sw_outcomes_compute:
 * @rows: (element-type SwTreated): from sw_store_load_treated(), of all dogs
 * @practice: for the names of people
 * @query: which of them
 * @today: local day: whether a score is still to come
 * @func: (nullable): hears of each section as soon as it is done
 * @cancellable: (nullable): a way to give up between steps
 *
 * Errors: %G_IO_ERROR_CANCELLED; %SW_ERROR_INPUT where the statistics refuse.
 *
 * Returns: (transfer full)
 */
SwOutcomes *sw_outcomes_compute (GArray *rows,
                                 const SwPractice *practice,
                                 const SwOutcomeQuery *query,
                                 SwDay today,
                                 SwOutcomeFunc func,
                                 gpointer data,
                                 GCancellable *cancellable,
                                 GError **error);

/* The tables as comma-separated text: every figure; every point of every chart; every treated tumour of the record.
 * (transfer full) */
char *sw_outcomes_figures_csv (const SwOutcomes *outcomes);
char *sw_outcomes_curves_csv (const SwOutcomes *outcomes);
char *sw_outcomes_rows_csv (const SwOutcomes *outcomes);
/* All three into files: PATH for the figures, beside it PATH-curves.csv and PATH-tumours.csv. */
gboolean sw_outcomes_write_tables (const SwOutcomes *outcomes, const char *path, GError **error);
/* One chart's points. (transfer full) */
char *sw_chart_csv (const SwChart *chart);

/* "P-000012/2 A": a row as people name it. (transfer full) */
char *sw_treated_name (const SwTreated *row);

G_END_DECLS
