/* sw-why.c: the lines of a derivation
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-why.h"

static void
why_free (gpointer data)
{
  SwWhy *line = data;

  g_free (line->label);
  g_free (line->formula);
  g_free (line->inputs);
  g_free (line->value);
  g_free (line->limit);
  g_free (line);
}

GPtrArray *
sw_whys_new (void)
{
  return g_ptr_array_new_with_free_func (why_free);
}

SwWhy *
sw_why_add (GPtrArray *why, const char *label, const char *value)
{
  SwWhy *line = g_new0 (SwWhy, 1);

  line->label = g_strdup (label);
  line->value = g_strdup (value);
  g_ptr_array_add (why, line);
  return line;
}

static void
take (char **field, char *text)
{
  g_free (*field);
  *field = text;
}

void
sw_why_take_label (SwWhy *line, char *label)
{
  take (&line->label, label);
}

void
sw_why_take_value (SwWhy *line, char *value)
{
  take (&line->value, value);
}

void
sw_why_formula (SwWhy *line, const char *formula)
{
  take (&line->formula, g_strdup (formula));
}

void
sw_why_take_inputs (SwWhy *line, char *inputs)
{
  take (&line->inputs, inputs);
}

void
sw_why_take_limit (SwWhy *line, char *limit)
{
  take (&line->limit, limit);
}

void
sw_why_basis (SwWhy *line, const char *source, const char *mark)
{
  line->source = g_intern_string (source);
  line->mark = g_intern_string (mark);
}

void
sw_why_definition (SwWhy *line, SwDefinitionId id)
{
  const SwDefinition *d = sw_definition (id);

  sw_why_basis (line, d->source, d->mark);
}
