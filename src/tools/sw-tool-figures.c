/* sw-tool-figures.c: sitewardctl figures: the statistics of the program on numbers or a table from elsewhere
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-figures-private.h"

#include "sw-cusum.h"
#include "sw-proportion.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>

#define USAGE                                                                                                          \
  "proportion X N | survival CSV | interval CSV | competing CSV | agreement CSV | judges CSV | cusum [0/1 SEQUENCE]"

#define SUMMARY                                                                                                        \
  "The statistics of the outcomes view on figures from elsewhere, so that anyone can recompute an export.\n\n"         \
  "Columns: survival time,status[,group] (status 1: event, 0: censored); interval left,right (open on the left; an\n"  \
  "empty right: not yet); competing time,cause[,group] (cause 0: censored); agreement subject,a,b; judges\n"           \
  "target,j1,j2,... Limits are of 95 %."

/* What was typed after the options of cusum. */
typedef struct
{
  char *p0, *p1, *alpha, *beta;
} Rates;

static void
rates_clear (Rates *rates)
{
  g_free (rates->p0);
  g_free (rates->p1);
  g_free (rates->alpha);
  g_free (rates->beta);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Rates, rates_clear)

void
sw_figures_print (const char *label, double value)
{
  if (isfinite (value))
    printf ("%-24s %.6g\n", label, value);
  else
    printf ("%-24s -\n", label);
}

/* --- proportion --- */

static gboolean
parse_count (SwTool *tool, const char *field, const char *text, gint64 *count, GError **error)
{
  tool->field = field;
  if (g_ascii_string_to_signed (text, 10, 0, SW_PROPORTION_MOST, count, NULL))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, "“%s” is no whole number from 0 to %d.", text, SW_PROPORTION_MOST);
  return FALSE;
}

static void
proportion_json (const SwProportion *p)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_int (json, "x", p->x);
  sw_json_int (json, "n", p->n);
  sw_json_double (json, "estimate", p->estimate);
  sw_json_double (json, "wilson_lo", p->wilson_lo);
  sw_json_double (json, "wilson_hi", p->wilson_hi);
  sw_json_double (json, "exact_lo", p->exact_lo);
  sw_json_double (json, "exact_hi", p->exact_hi);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static gboolean
proportion (SwTool *tool, char **arguments, GError **error)
{
  SwProportion p;
  gint64 x, n;

  if (!parse_count (tool, "x", arguments[0], &x, error) || !parse_count (tool, "n", arguments[1], &n, error)
      || !sw_proportion_compute (x, n, SW_FIGURES_LEVEL, &p, error))
    return FALSE;
  if (tool->json)
    {
      proportion_json (&p);
      return TRUE;
    }
  sw_figures_print ("estimate", p.estimate);
  sw_figures_print ("Wilson, from", p.wilson_lo);
  sw_figures_print ("Wilson, to", p.wilson_hi);
  sw_figures_print ("exact, from", p.exact_lo);
  sw_figures_print ("exact, to", p.exact_hi);
  return TRUE;
}

/* --- cusum --- */

static gboolean
parse_rate (SwTool *tool, const char *field, const char *text, double *rate, GError **error)
{
  char *end = NULL;

  if (!sw_tool_need (tool, field, text, error))
    return FALSE;
  errno = 0;
  *rate = g_ascii_strtod (text, &end);
  if (errno == 0 && end != text && *end == '\0' && isfinite (*rate))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, "“%s” is no number; type a rate such as 0.1.", text);
  return FALSE;
}

static gboolean
parse_sequence (SwTool *tool, const char *text, GByteArray *failures, GError **error)
{
  tool->field = "sequence";
  for (const char *at = text; *at != '\0'; at++)
    {
      guint8 failure = *at == '1';

      if (*at != '0' && *at != '1')
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INPUT, "“%s” is no sequence of 0 (success) and 1 (failure).", text);
          return FALSE;
        }
      g_byte_array_append (failures, &failure, 1);
    }
  return TRUE;
}

/* The place in the sequence, from 1; null when the limit was never reached. */
static void
json_place (SwJson *json, const char *key, gssize index)
{
  if (index < 0)
    sw_json_null (json, key);
  else
    sw_json_int (json, key, index + 1);
}

static void
cusum_json (const SwCusumPlan *plan, const SwCusum *cusum)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_double (json, "p0", plan->p0);
  sw_json_double (json, "p1", plan->p1);
  sw_json_double (json, "alpha", plan->alpha);
  sw_json_double (json, "beta", plan->beta);
  sw_json_double (json, "s", plan->s);
  sw_json_double (json, "h0", plan->h0);
  sw_json_double (json, "h1", plan->h1);
  sw_json_int (json, "n", (gint64) cusum->n);
  sw_json_begin_array (json, "sums");
  for (gsize i = 0; i < cusum->n; i++)
    sw_json_double (json, NULL, cusum->sums[i]);
  sw_json_end (json);
  json_place (json, "first_worse", cusum->first_worse);
  json_place (json, "first_as_planned", cusum->first_as_planned);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
cusum_text (const SwCusumPlan *plan, const SwCusum *cusum)
{
  sw_figures_print ("off on a success", plan->s);
  sw_figures_print ("lower limit", -plan->h0);
  sw_figures_print ("upper limit", plan->h1);
  for (gsize i = 0; i < cusum->n; i++)
    printf ("%6" G_GSIZE_FORMAT " %.6g\n", i + 1, cusum->sums[i]);
}

static gboolean
cusum (SwTool *tool, const Rates *rates, const char *sequence, GError **error)
{
  g_autoptr (GByteArray) failures = g_byte_array_new ();
  g_autoptr (SwCusum) run = NULL;
  SwCusumPlan plan;
  double p0, p1, alpha, beta;

  if (!parse_rate (tool, "p0", rates->p0, &p0, error) || !parse_rate (tool, "p1", rates->p1, &p1, error)
      || !parse_rate (tool, "alpha", rates->alpha ? rates->alpha : "0.1", &alpha, error)
      || !parse_rate (tool, "beta", rates->beta ? rates->beta : "0.1", &beta, error))
    return FALSE;
  tool->field = NULL;
  if (!sw_cusum_plan (p0, p1, alpha, beta, &plan, error)
      || !parse_sequence (tool, sequence ? sequence : "", failures, error))
    return FALSE;
  run = sw_cusum_run (&plan, failures->data, failures->len, error);
  if (run == NULL)
    return FALSE;
  if (tool->json)
    cusum_json (&plan, run);
  else
    cusum_text (&plan, run);
  return TRUE;
}

/* --- the command --- */

static const struct
{
  const char *name;
  gboolean (*run) (const SwTool *tool, const SwCsv *csv, GError **error);
} tables[] = {
  { "survival", sw_figures_survival },   { "interval", sw_figures_interval }, { "competing", sw_figures_competing },
  { "agreement", sw_figures_agreement }, { "judges", sw_figures_judges },
};

static gboolean
table (SwTool *tool, const char *name, const char *path, GError **error)
{
  tool->field = "table";
  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    if (g_str_equal (tables[i].name, name))
      {
        g_autoptr (SwCsv) csv = sw_csv_read_file (path, 0, error);

        return csv != NULL && tables[i].run (tool, csv, error);
      }
  tool->field = "figures";
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, "There are no figures “%s”; sitewardctl figures --help lists them.",
               name);
  return FALSE;
}

static gboolean
figures (SwTool *tool, const Rates *rates, GError **error)
{
  guint n = g_strv_length (tool->rest);
  const char *name = n > 0 ? tool->rest[0] : "";

  if (g_str_equal (name, "cusum") && n <= 2)
    return cusum (tool, rates, tool->rest[1], error);
  if (g_str_equal (name, "proportion") && n == 3)
    return proportion (tool, tool->rest + 1, error);
  if (n == 2 && !g_str_equal (name, "proportion"))
    return table (tool, name, tool->rest[1], error);
  tool->field = "figures";
  g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT, "Give one of: " USAGE ".");
  return FALSE;
}

SwToolExit
sw_tool_figures (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  g_auto (Rates) rates = { NULL };
  const GOptionEntry entries[] = {
    { "p0", 0, 0, G_OPTION_ARG_FILENAME, &rates.p0, "cusum: rate of failures that is accepted", "RATE" },
    { "p1", 0, 0, G_OPTION_ARG_FILENAME, &rates.p1, "cusum: rate that is not, above it", "RATE" },
    { "alpha", 0, 0, G_OPTION_ARG_FILENAME, &rates.alpha, "cusum: chance of a false alarm, else 0.1", "CHANCE" },
    { "beta", 0, 0, G_OPTION_ARG_FILENAME, &rates.beta, "cusum: chance of missing the worse rate, else 0.1", "CHANCE" },
    { NULL },
  };
  g_autoptr (GError) error = NULL;

  if (sw_tool_parse (&tool, USAGE, SUMMARY, entries, argc, argv, &error) && figures (&tool, &rates, &error))
    return SW_TOOL_DONE;
  return sw_tool_fail (&tool, error);
}
