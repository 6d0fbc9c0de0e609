/* sw-document.h: what every document with deciding figures has: head, sources, figures; how it contradicts itself
 *
 * A document is XML. Every figure is one element, <figure name="least-dose" value="0.1 mL" mark="second-hand"
 * source="x"/>, with its mark and its source; sources are listed once per document. Elements around a figure give its
 * name a path: "corticosteroid/prednisolone/phase-1/dose". A figure with an empty value is one that a vet must fill in
 * first: the document parses and can be looked at, but can't be adopted.
 *
 * A refusal is SW_ERROR_DOCUMENT: "FILE:LINE:COLUMN: KEY: sentence [kind]".
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-values.h"

#include <glib.h>

G_BEGIN_DECLS

/* How far a figure can be trusted (domain, head). Codes: seen, second-hand, memory, practice, ours. */
typedef enum
{
  SW_FIGURE_SEEN,        /* read in the source named */
  SW_FIGURE_SECOND_HAND, /* read in a text that quotes it */
  SW_FIGURE_MEMORY,      /* recalled, not re-read: a vet must confirm it */
  SW_FIGURE_PRACTICE,    /* common practice, no source */
  SW_FIGURE_OURS,        /* a rule of this program, proposed */
  SW_N_FIGURE_MARKS
} SwFigureMark;

const char *sw_figure_mark_code (SwFigureMark mark);
int sw_figure_mark_from_code (const char *code); /* -1: unknown */

/* The source id of a second-hand or recalled figure whose text was not noted: shown as such and ticked at adoption. */
#define SW_SOURCE_NOT_RECORDED "not-recorded"

typedef struct
{
  char *id;
  char *title; /* what a reader needs to find it: authors, year, doi, section */
} SwSource;

typedef struct
{
  char *name;          /* full path, unique in the document */
  char *value;         /* as written, "" when it is not filled in */
  SwFigureMark mark;
  const char *source;  /* id, or NULL for practice and ours; interned */
  int line, column;
} SwFigure;

/* The first member of every document. */
typedef struct
{
  SwDocumentKind kind;
  char *id;           /* "tigilanol-eu"; of a medicine its lower-case substance */
  char *revision;     /* "1" */
  char *title;
  char *name;         /* file name, for sentences */
  char *digest;       /* SHA-256 of the bytes, lower-case hex */
  GBytes *bytes;      /* the document itself */
  GPtrArray *sources; /* SwSource */
  GPtrArray *figures; /* SwFigure, in the order of the document */
} SwDocumentHead;

/* NULL when the document has no such figure. */
const SwFigure *sw_document_figure (const SwDocumentHead *head, const char *name);

/* The source of a figure: its title; for not-recorded and for figures without a source a word that says so. */
const char *sw_document_source_title (const SwDocumentHead *head, const SwFigure *figure);

/* Whether every figure has a value. */
gboolean sw_document_adoptable (const SwDocumentHead *head);

/* The figures that a vet ticks one by one at adoption: all whose mark is not seen. (transfer container) SwFigure */
GPtrArray *sw_document_figures_to_tick (const SwDocumentHead *head);

/* The figures without a value. (transfer container) SwFigure */
GPtrArray *sw_document_figures_to_fill (const SwDocumentHead *head);

/* Why a document is refused. The first five: it is malformed; all others: well-formed but contradictory. */
typedef enum
{
  SW_CONTRADICTION_MALFORMED,          /* no XML, no UTF-8, or not this kind of document */
  SW_CONTRADICTION_UNKNOWN_ELEMENT,    /* an element or attribute that has no meaning there */
  SW_CONTRADICTION_MISSING_ATTRIBUTE,
  SW_CONTRADICTION_MISSING_FIGURE,     /* a figure without which the document means nothing */
  SW_CONTRADICTION_BAD_VALUE,          /* not a number, not a code, out of any range */
  SW_CONTRADICTION_DUPLICATE_FIGURE,
  SW_CONTRADICTION_DUPLICATE_ID,       /* source, group, alternative, interaction, strength named twice */
  SW_CONTRADICTION_UNKNOWN_FIGURE,     /* a figure that decides nothing here: a slip of the name would go unseen */
  SW_CONTRADICTION_MISSING_MARK,
  SW_CONTRADICTION_UNKNOWN_MARK,
  SW_CONTRADICTION_MISSING_SOURCE,     /* seen, second-hand, memory need one */
  SW_CONTRADICTION_UNKNOWN_SOURCE,     /* not in the list of sources */
  SW_CONTRADICTION_UNWANTED_SOURCE,    /* practice and ours have none; a figure marked seen can't be not-recorded */
  SW_CONTRADICTION_UNIT_MISMATCH,      /* mg where mL belongs */
  SW_CONTRADICTION_BARE_UNIT,          /* "U", or IU per cm3: 1 USP unit of bleomycin is 1,000 IU */
  SW_CONTRADICTION_LEAST_OVER_MOST,
  SW_CONTRADICTION_DOSE_OVER_LIMIT,    /* the largest tumour's dose is over the limit of a treatment */
  SW_CONTRADICTION_TIERS_OVERLAP,
  SW_CONTRADICTION_TIER_GAP,           /* wider than a point */
  SW_CONTRADICTION_UNKNOWN_RULE,       /* volume rule, dose rule, response rule */
  SW_CONTRADICTION_UNKNOWN_MEDICINE,
  SW_CONTRADICTION_OUT_OF_RANGE,       /* a dose outside that medicine's range, a target outside its own */
  SW_CONTRADICTION_INTERVAL_MISMATCH,  /* every so many hours, which that medicine's document doesn't allow */
  SW_CONTRADICTION_DAY_OUTSIDE_COURSE,
  SW_CONTRADICTION_DAYS_REVERSED,
  SW_CONTRADICTION_PHASES_OVERLAP,     /* two phases of one medicine share a day */
  SW_CONTRADICTION_ABSENT_GROUP,       /* the gate counts a group that the medicines don't have */
  SW_CONTRADICTION_EMPTY_GROUP,
  SW_CONTRADICTION_GATE_UNREACHABLE,   /* the gate counts doses on days when that group has none */
  SW_CONTRADICTION_UNKNOWN_REGION,
  SW_CONTRADICTION_UNKNOWN_QUESTION,   /* a ruling on a question or an answer that isn't asked */
  SW_CONTRADICTION_FORM_MISMATCH,      /* halves of what has no tablets */
  SW_CONTRADICTION_UNKNOWN_CLASS,      /* an interaction of something that is neither class, substance nor fact */
  SW_N_CONTRADICTIONS
} SwContradiction;

const char *sw_contradiction_code (SwContradiction kind);

/* The kind that a refusal of a document names at its end, or -1 for any other error. */
int sw_contradiction_of_error (const GError *error);

G_END_DECLS
