/* sw-tool-private.h: what every command of sitewardctl shares
 *
 * A command family is one file sw-tool-FAMILY.c with a function for each command, and a row for each in main.c. A
 * command reads its options, asks the core, prints on stdout and returns how it ended.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-error.h"
#include "sw-finding.h"
#include "sw-json.h"
#include "sw-unknown.h"
#include "sw-wide.h"

#include <glib.h>

G_BEGIN_DECLS

/* Exit statuses, the same for every command. */
typedef enum
{
  SW_TOOL_DONE = 0,
  SW_TOOL_BAD_INPUT = 2, /* what was typed, or a document */
  SW_TOOL_REFUSED = 3,   /* by a clinical limit: the findings are on stdout */
  SW_TOOL_TROUBLE = 4,   /* record, role or disk */
} SwToolExit;

/* Said by every clinical command that has no record behind it. */
#define SW_TOOL_NOT_ADOPTED "not adopted: for checking only"

/**
 * SwTool: one run of a command
 * @json: --json was given
 * @field: the option that a wrong value came from, for the error; NULL
 * @rest: arguments that are no options
 */
typedef struct
{
  gboolean json;
  const char *field;
  char **rest;
} SwTool;

/* Reads the options of a command (entries end with { NULL }) and --json. Text options are G_OPTION_ARG_FILENAME or
 * _ARRAY: they come as the bytes that were typed. */
gboolean sw_tool_parse (SwTool *tool, const char *usage, const char *summary, const GOptionEntry *entries, int argc,
                        char **argv, GError **error);
void sw_tool_clear (SwTool *tool);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwTool, sw_tool_clear)

/* Prints an error, as a sentence on stderr or as JSON on stdout, and gives the exit status that belongs to it. */
SwToolExit sw_tool_fail (const SwTool *tool, const GError *error);

/* Makes the option's absence, or bytes that are no UTF-8, an error of that field. */
gboolean sw_tool_need (SwTool *tool, const char *field, const char *value, GError **error);

/* Prints a finished JSON text. */
void sw_tool_print_json (SwJson *json);

/* Exact quantities as decimals: a length in mm, a drug volume in mL, a rational. SW_UNKNOWN is null. */
void sw_tool_json_ratio (SwJson *json, const char *key, SwRatio value);
void sw_tool_json_scaled (SwJson *json, const char *key, gint64 value, gint64 per_unit);

/* Findings as {code, severity, tumour, sentence, next}; derivation as {label, formula, inputs, value, limit, source,
 * mark}. */
void sw_tool_json_notes (SwJson *json, const char *key, const GPtrArray *findings);
void sw_tool_json_why (SwJson *json, const GPtrArray *why);

/* The same for people: each finding as a line and what is open; each line of a derivation. */
void sw_tool_print_findings (const GPtrArray *findings);
void sw_tool_print_why (const GPtrArray *why);

/* The commands. */
SwToolExit sw_tool_dose (int argc, char **argv);
SwToolExit sw_tool_plan (int argc, char **argv);
SwToolExit sw_tool_score (int argc, char **argv);
SwToolExit sw_tool_protocols (int argc, char **argv);
SwToolExit sw_tool_record (int argc, char **argv);
SwToolExit sw_tool_outcomes (int argc, char **argv);
SwToolExit sw_tool_figures (int argc, char **argv);

G_END_DECLS
