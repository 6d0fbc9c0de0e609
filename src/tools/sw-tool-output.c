/* sw-tool-output.c: quantities, findings and derivations, for programs and for people
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"
#include "sw-why.h"

#include <stdio.h>

void
sw_tool_json_ratio (SwJson *json, const char *key, SwRatio value)
{
  sw_json_double (json, key, sw_ratio_to_double (value));
}

void
sw_tool_json_scaled (SwJson *json, const char *key, gint64 value, gint64 per_unit)
{
  if (value == SW_UNKNOWN)
    sw_json_null (json, key);
  else
    sw_tool_json_ratio (json, key, sw_ratio (value, per_unit));
}

static void
json_note (SwJson *json, const SwFinding *finding)
{
  g_autofree char *sentence = sw_finding_sentence (finding), *next = sw_finding_next (finding);
  const SwArg *tumour = sw_finding_arg (finding, "tumour");

  sw_json_begin_object (json, NULL);
  sw_json_string (json, "code", sw_finding_code (finding->code));
  sw_json_string (json, "severity", sw_severity_name (finding->severity));
  sw_json_string (json, "tumour", tumour ? tumour->text : NULL);
  sw_json_string (json, "sentence", sentence);
  sw_json_string (json, "next", next);
  sw_json_string (json, "source", finding->source);
  sw_json_string (json, "mark", finding->mark);
  sw_json_end (json);
}

void
sw_tool_json_notes (SwJson *json, const char *key, const GPtrArray *findings)
{
  sw_json_begin_array (json, key);
  for (guint i = 0; i < findings->len; i++)
    json_note (json, findings->pdata[i]);
  sw_json_end (json);
}

void
sw_tool_json_why (SwJson *json, const GPtrArray *why)
{
  sw_json_begin_array (json, "why");
  for (guint i = 0; i < why->len; i++)
    {
      const SwWhy *line = why->pdata[i];

      sw_json_begin_object (json, NULL);
      sw_json_string (json, "label", line->label);
      sw_json_string (json, "formula", line->formula);
      sw_json_string (json, "inputs", line->inputs);
      sw_json_string (json, "value", line->value);
      sw_json_string (json, "limit", line->limit);
      sw_json_string (json, "source", line->source);
      sw_json_string (json, "mark", line->mark);
      sw_json_end (json);
    }
  sw_json_end (json);
}

void
sw_tool_print_findings (const GPtrArray *findings)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];
      g_autofree char *sentence = sw_finding_sentence (finding), *next = sw_finding_next (finding);

      printf ("%s: %s%s%s\n", sw_severity_name (finding->severity), sentence, next ? " " : "", next ? next : "");
    }
}

static void
print_part (const char *before, const char *text, const char *after)
{
  if (text != NULL)
    printf ("%s%s%s", before, text, after);
}

void
sw_tool_print_why (const GPtrArray *why)
{
  puts ("\nWhy:");
  for (guint i = 0; i < why->len; i++)
    {
      const SwWhy *line = why->pdata[i];

      printf ("  %s: %s", line->label, line->value);
      print_part (", ", line->limit, "");
      print_part ("; ", line->formula, "");
      print_part (" (", line->inputs, ")");
      print_part (" [", line->mark, "]");
      print_part (" ", line->source, "");
      putchar ('\n');
    }
}
