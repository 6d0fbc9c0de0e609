/* sw-outcome-private.h: what the sections of the outcomes share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-outcomes.h"

G_BEGIN_DECLS

/* A part of the chosen rows: places in the array of all. The first part is "all", later ones are those of the split. */
typedef struct
{
  char *code;
  char *label;
  GArray *rows; /* guint, rising */
} SwOutcomePart;

typedef struct
{
  const GArray *rows; /* SwTreated, by course and tumour */
  const SwPractice *practice;
  const SwOutcomeQuery *query;
  SwDay today;
  double level;
  GPtrArray *parts; /* SwOutcomePart, at least one */
  GCancellable *cancellable;
} SwOutcomeRun;

const SwTreated *sw_outcome_row (const SwOutcomeRun *run, const GArray *places, guint i);

/* Fills run->parts. */
void sw_outcome_split (SwOutcomeRun *run);
void sw_outcome_part_free (gpointer part);

/* The code of a row for a split, interned, and its words. (transfer full) of the label */
const char *sw_split_code_of (const SwTreated *row, SwSplit split);
char *sw_split_label_of (const SwTreated *row, SwSplit split, const SwPractice *practice);

/* A group of the section for a part, with the caution that its size asks for. */
SwOutcomeGroup *sw_outcome_add_group (SwOutcomeSection *section, const SwOutcomePart *part, gint64 n);
/* x of n with both pairs of limits. */
SwOutcomeFigure *sw_outcome_share (const SwOutcomeRun *run, const char *code, const char *label, gint64 x,
                                   const GArray *rows, GError **error);
SwOutcomeFigure *sw_outcome_share_of (const SwOutcomeRun *run, const char *code, const char *label, gint64 x, gint64 n,
                                      const GArray *rows, GError **error);
SwOutcomeFigure *sw_outcome_count (const char *code, const char *label, gint64 x, const GArray *rows);
SwOutcomeFigure *sw_outcome_number (const char *code, const char *label, double value, const char *unit,
                                    const GArray *rows);

/* An empty list of places; the next place in it. */
GArray *sw_places_new (void);
void sw_places_add (GArray *places, guint place);

/* The sections, each whole or NULL with an error. */
SwOutcomeSection *sw_outcome_complete (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_complete_two (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_complete_dog (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_change (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_recurrence (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_healing (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_readings (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_drift (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_lead_in (const SwOutcomeRun *run, GError **error);
SwOutcomeSection *sw_outcome_drug (const SwOutcomeRun *run, GError **error);

/* How a treated tumour counts for complete response at day 28. */
typedef enum
{
  SW_ANSWER_NOT_DUE,       /* the days on which a score counts are not over */
  SW_ANSWER_COMPLETE,
  SW_ANSWER_LESS,
  SW_ANSWER_DIED_OF_IT,    /* of the treatment, before the score: a failure */
  SW_ANSWER_NOT_EVALUABLE,
  SW_ANSWER_DIED,          /* of something else, before the score */
  SW_ANSWER_LOST,          /* lost, withdrawn or moved away before the score */
  SW_ANSWER_NOT_SCORED,
  SW_N_ANSWERS
} SwAnswerAt28;

SwAnswerAt28 sw_answer_at_28 (const SwOutcomeRun *run, const SwTreated *row);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwOutcomeFigure, sw_outcome_figure_free)

G_END_DECLS
