/* sw-finding.h: what a rule found, as a code with typed arguments; sentences are made of it in one place
 *
 * A finding is a value, not an error. It is stored and compared by its code; sw_finding_sentence() makes the words through gettext
 * from the one table in sw-finding-words.c, where {name} stands for an argument. Each finding names what is open to the vet.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"
#include "sw-finding-codes.h"
#include "sw-wide.h"

#include <glib.h>

G_BEGIN_DECLS

/* The only severities. SW_MEETS is the answer of a rule that is satisfied: shown in the full list, never blocks. */
typedef enum { SW_MEETS, SW_NOTE, SW_VET_DECIDES, SW_NOT_KNOWN, SW_STOP, SW_N_SEVERITIES } SwSeverity;

typedef enum
{
  SW_ARG_TEXT,
  SW_ARG_COUNT,
  SW_ARG_LENGTH,  /* 0.01 mm */
  SW_ARG_MASS,    /* g */
  SW_ARG_DAY,     /* SwDay */
  SW_ARG_MINUTE,  /* minute of the day */
  SW_ARG_RATIO,   /* num/den in the unit named by `text`: "cm3", "mL", "mL/kg", "%" */
} SwArgType;

typedef struct
{
  const char *name; /* static: "value", "limit", "tumour", "substance", "date" ... */
  SwArgType type;
  SwWide num;
  SwWide den;
  char *text;
} SwArg;

typedef struct
{
  SwFindingCode code;
  SwSeverity severity;
  gint64 tumour;      /* 0: of the dog */
  gint64 dose;        /* 0 */
  char *about;        /* what tells two findings of one code apart (a substance, a question), or NULL */
  const char *source; /* interned: source and mark behind the limit, or NULL */
  const char *mark;   /* interned: seen, second-hand, memory, practice, ours */
  GArray *args;       /* SwArg */
} SwFinding;

/* (transfer full) with the severity that the table of words gives the code */
SwFinding *sw_finding_new (SwFindingCode code);
SwFinding *sw_finding_copy (const SwFinding *finding);
void sw_finding_free (SwFinding *finding);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwFinding, sw_finding_free)

void sw_finding_text (SwFinding *finding, const char *name, const char *text);
void sw_finding_count (SwFinding *finding, const char *name, gint64 count);
void sw_finding_length (SwFinding *finding, const char *name, gint64 hundredths_mm);
void sw_finding_mass (SwFinding *finding, const char *name, gint64 grams);
void sw_finding_day (SwFinding *finding, const char *name, SwDay day);
void sw_finding_minute (SwFinding *finding, const char *name, int minute);
void sw_finding_ratio (SwFinding *finding, const char *name, SwWide num, SwWide den, const char *unit);
void sw_finding_basis (SwFinding *finding, const char *source, const char *mark);
const SwArg *sw_finding_arg (const SwFinding *finding, const char *name); /* NULL: none */

/* The sentence, and the sentence of what is open to the vet (NULL: nothing to say). (transfer full)
 * A value and a limit of one finding are printed with enough digits that they differ. */
char *sw_finding_sentence (const SwFinding *finding);
char *sw_finding_next (const SwFinding *finding);

/* Stable codes: "weight-limit". */
const char *sw_finding_code (SwFindingCode code);
int sw_finding_from_code (const char *code);
const char *sw_severity_name (SwSeverity severity); /* meets, note, vet decides, not known, stop */

/* The order in which what blocks is told: a refused dose, other stops, what is not known, what the vet decides, and
 * then what is only still to be done before the needle: a reading aloud that is missing never hides a refusal. */
typedef enum
{
  SW_RANK_REFUSAL,
  SW_RANK_STOP,
  SW_RANK_NOT_KNOWN,
  SW_RANK_VET_DECIDES,
  SW_RANK_LAST_ACT,
  SW_RANK_NOTE,
  SW_RANK_MEETS,
  SW_N_RANKS
} SwBlockRank;

SwBlockRank sw_finding_rank (const SwFinding *finding);

/* Findings in a GPtrArray with sw_finding_free. */
GPtrArray *sw_findings_new (void);
/* By rank; those of one rank stay in their order, which is that of the work. */
void sw_findings_sort (GPtrArray *findings);
SwSeverity sw_findings_worst (const GPtrArray *findings); /* SW_MEETS for none */
/* "code:about@tumour;..." of those at or above a severity: what release and injection keep. (transfer full) */
char *sw_findings_codes (const GPtrArray *findings, SwSeverity least);

G_END_DECLS
