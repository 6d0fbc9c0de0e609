/* sw-why.h: a derivation, line by line: what the *why* views and the command line's why[] show
 *
 * A line holds texts that are ready to show, so that a view adds nothing of its own; the words are translated when it
 * is made.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-definitions.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  char *label;        /* what is worked out: "Volume of tumour A" */
  char *formula;      /* "L x W x H / 2"; NULL: none */
  char *inputs;       /* the formula with its numbers; NULL: none */
  char *value;        /* the result with its unit */
  char *limit;        /* "at most 8 cm3"; NULL: none */
  const char *source; /* interned; NULL: none */
  const char *mark;   /* interned; NULL: nothing but arithmetic */
} SwWhy;

/* SwWhy lines with their free function. */
GPtrArray *sw_whys_new (void);

/* Append a line with these texts, copied. The rest is set by the functions below. */
SwWhy *sw_why_add (GPtrArray *why, const char *label, const char *value);
void sw_why_take_label (SwWhy *line, char *label);
void sw_why_take_value (SwWhy *line, char *value);
void sw_why_formula (SwWhy *line, const char *formula);
void sw_why_take_inputs (SwWhy *line, char *inputs);
void sw_why_take_limit (SwWhy *line, char *limit);
void sw_why_basis (SwWhy *line, const char *source, const char *mark);
void sw_why_definition (SwWhy *line, SwDefinitionId id);

G_END_DECLS
