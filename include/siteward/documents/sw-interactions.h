/* sw-interactions.h: what must not meet, and what a vet must decide (domain 3.2, "What must be raised")
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-document.h"
#include "sw-finding.h"
#include "sw-unknown.h"

G_BEGIN_DECLS

/* What one party of an interaction is. */
typedef enum
{
  SW_PARTY_CLASS,     /* a class of medicines: nsaid, h1, ssri ... */
  SW_PARTY_SUBSTANCE,
  SW_PARTY_FACT,      /* an answer to a question of sw-question.h: "diabetes/yes" */
  SW_PARTY_NOTHING,   /* the other party alone is enough */
} SwParty;

typedef enum
{
  SW_WHEN_TOGETHER, /* on the same day */
  SW_WHEN_WASHOUT,  /* b ends less than its washout before a begins, or begins less than it after a ended; the
                     * washout of unknown-nsaid is not known, whatever `days` says */
  SW_WHEN_WITHIN,   /* b within `days` of a, before or after */
  SW_WHEN_TAKEN,    /* b, brought along by the dog, within `days` before a begins */
  SW_WHEN_DOUBLE,   /* a planned while b of the same class goes on */
  SW_WHEN_MIXED,    /* a pack of a that is not a single substance */
  SW_WHEN_XYLITOL,  /* a human liquid or soft tablet whose pack isn't ticked "no xylitol" */
  SW_N_WHENS
} SwWhen;

typedef struct
{
  char *id;               /* "corticosteroid-with-nsaid" */
  char *a, *b;            /* codes; NULL where the party is nothing */
  SwParty a_is, b_is;
  SwWhen when;
  SwSeverity level;       /* SW_STOP, SW_VET_DECIDES or SW_NOTE */
  gint64 days;            /* SW_WHEN_WITHIN, SW_WHEN_TAKEN; the default washout of SW_WHEN_WASHOUT; else SW_UNKNOWN */
  char *reason;           /* why, in English, as the document says it */
  const SwFigure *figure; /* the level: its source and mark */
  const SwFigure *days_figure;
} SwInteraction;

/* A class and its members that have no document of their own. */
typedef struct
{
  char *id;
  char **substances;
  const SwFigure *figure;
} SwMedicineClass;

typedef struct
{
  SwDocumentHead head;
  GPtrArray *classes; /* SwMedicineClass */
  GPtrArray *rows;    /* SwInteraction */
} SwInteractions;

/* @medicines: SwMedicine whose classes and substances may be named besides the document's own; NULL: names are not
 * checked. */
SwInteractions *sw_interactions_parse (const char *name, GBytes *bytes, const GPtrArray *medicines, GError **error);
void sw_interactions_free (SwInteractions *interactions);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwInteractions, sw_interactions_free)

const SwInteraction *sw_interactions_row (const SwInteractions *interactions, const char *id);

G_END_DECLS
