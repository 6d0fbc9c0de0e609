/* sw-outcome.h: the outcomes of a practice as values: view, paper, tables and command line all read these
 *
 * A section is one question ("complete response at day 28"); it holds a group for all, and one for each part of a
 * split; a group holds its figures, each with the treated tumours behind it. Words are ready to show (translated),
 * codes are stable. NaN: there is no such value.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-chart.h"
#include "sw-treated.h"

G_BEGIN_DECLS

typedef enum
{
  SW_FIGURE_SHARE,  /* @x of @n; @lo, @hi Wilson's limits, @exact_lo, @exact_hi Clopper and Pearson's */
  SW_FIGURE_CHANCE, /* a share read off a curve, with its limits; from @value to @value_to where visits leave it open */
  SW_FIGURE_NUMBER, /* a quantity with @unit, perhaps with limits */
  SW_FIGURE_COUNT,  /* @x, a plain count */
  SW_FIGURE_P,      /* chance of a test */
} SwFigureKind;

/**
 * SwOutcomeFigure:
 * @code: stable: "of-scored"
 * @label: what it is, in words
 * @n: how many it rests on
 * @value_to: upper end where the figure is only known to lie in a range; else NaN
 * @rows: (element-type guint): places in SwOutcomes.rows of the treated tumours behind it; NULL: it has none of its own
 */
typedef struct
{
  SwFigureKind kind;
  char *code;
  char *label;
  gint64 x;
  gint64 n;
  double value, value_to;
  double lo, hi;
  double exact_lo, exact_hi;
  const char *unit; /* static; "" for none */
  GArray *rows;
} SwOutcomeFigure;

/* Some that a group's figures leave out, and why. */
typedef struct
{
  char *code;
  char *reason;
  GArray *rows; /* guint */
} SwLeftOut;

typedef struct
{
  char *code;  /* "all", "kiupel-low" */
  char *label;
  gint64 n;    /* behind its figures: under ten a word of caution is due */
  gboolean few;
  GPtrArray *figures;  /* SwOutcomeFigure */
  GPtrArray *left_out; /* SwLeftOut, those with a row at least */
} SwOutcomeGroup;

typedef struct
{
  char *code;
  char *title;
  char *definition; /* how it is counted, in a few sentences */
  char *empty;      /* why there is no figure yet; NULL: there are some */
  GPtrArray *groups; /* SwOutcomeGroup */
  GPtrArray *tests;  /* SwOutcomeFigure: comparisons between groups, or with what was published */
  GPtrArray *charts; /* SwChart */
} SwOutcomeSection;

/**
 * SwOutcomes:
 * @rows: (element-type SwTreated): every treated tumour of the record; figures point into it
 * @heads: char *: practice, period, filters, split: one line each
 * @cautions: char *: what a reader must know
 */
typedef struct
{
  GArray *rows;
  GPtrArray *heads;
  GPtrArray *cautions;
  GPtrArray *sections; /* SwOutcomeSection */
} SwOutcomes;

SwOutcomes *sw_outcomes_new (GArray *rows); /* a reference of @rows is taken */
SwOutcomes *sw_outcomes_ref (SwOutcomes *outcomes);
void sw_outcomes_unref (SwOutcomes *outcomes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwOutcomes, sw_outcomes_unref)

/* Shared between threads once complete. */
SwOutcomeSection *sw_outcome_section_new (const char *code, const char *title, const char *definition);
SwOutcomeSection *sw_outcome_section_ref (SwOutcomeSection *section);
void sw_outcome_section_unref (SwOutcomeSection *section);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwOutcomeSection, sw_outcome_section_unref)

SwOutcomeGroup *sw_outcome_section_add_group (SwOutcomeSection *section, const char *code, const char *label);
/* All values NaN, no rows. */
SwOutcomeFigure *sw_outcome_figure_new (SwFigureKind kind, const char *code, const char *label);
void sw_outcome_figure_free (SwOutcomeFigure *figure);
/* Takes the figure, and hands it back. */
SwOutcomeFigure *sw_outcome_group_take (SwOutcomeGroup *group, SwOutcomeFigure *figure);
/* Takes the rows; adds nothing when there are none. */
void sw_outcome_group_leave_out (SwOutcomeGroup *group, const char *code, const char *reason, GArray *rows);

/* "26 of 32: 81.3 % (64.7 to 91.1 %)": the figure as it stands everywhere a person reads it. (transfer full) */
char *sw_outcome_figure_text (const SwOutcomeFigure *figure);
/* "left out 5: 3 not due yet; 2 not evaluable"; NULL: nothing is left out. (transfer full) */
char *sw_outcome_group_left_out_text (const SwOutcomeGroup *group);

G_END_DECLS
