/* sw-tool-figures-readers.c: do readings agree: figures agreement and figures judges
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-figures-private.h"

#include "sw-agreement.h"

#include <stdio.h>

static double *
read_column (const SwCsv *csv, const char *name, GError **error)
{
  g_autofree double *values = g_new (double, MAX (1, sw_csv_n_rows (csv))); /* NULL is the error */
  gsize column;

  if (!sw_csv_need_column (csv, name, &column, error))
    return NULL;
  for (gsize row = 0; row < sw_csv_n_rows (csv); row++)
    if (!sw_csv_double (csv, row, column, &values[row], error))
      return NULL;
  return g_steal_pointer (&values);
}

static void
agreement_json (const SwAgreement *found)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_int (json, "n", (gint64) found->n);
  sw_json_double (json, "mean_difference", found->mean_difference);
  sw_json_double (json, "sd", found->sd);
  sw_json_double (json, "lo", found->lo);
  sw_json_double (json, "hi", found->hi);
  sw_json_double (json, "tem", found->tem);
  sw_json_double (json, "tem_percent", found->tem_percent);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
agreement_text (const SwAgreement *found)
{
  printf ("%-24s %" G_GSIZE_FORMAT "\n", "pairs", found->n);
  sw_figures_print ("mean difference", found->mean_difference);
  sw_figures_print ("standard deviation", found->sd);
  sw_figures_print ("limits of agreement from", found->lo);
  sw_figures_print ("to", found->hi);
  sw_figures_print ("technical error", found->tem);
  sw_figures_print ("in percent", found->tem_percent);
}

gboolean
sw_figures_agreement (const SwTool *tool, const SwCsv *csv, GError **error)
{
  g_autofree double *a = NULL, *b = NULL;
  SwAgreement found;
  gsize subject;

  if (!sw_csv_need_column (csv, "subject", &subject, error))
    return FALSE;
  a = read_column (csv, "a", error);
  b = a ? read_column (csv, "b", error) : NULL;
  if (b == NULL || !sw_agreement_compute (a, b, sw_csv_n_rows (csv), SW_FIGURES_LEVEL, &found, error))
    return FALSE;
  if (tool->json)
    agreement_json (&found);
  else
    agreement_text (&found);
  return TRUE;
}

/* "2,1" for one judge; "2,4" for the mean of four. */
static char *
form_name (SwIccForm form, gsize judges)
{
  guint model = (guint) form % 3 + 1;

  return g_strdup_printf ("%u,%" G_GSIZE_FORMAT, model, form >= SW_ICC_1_K ? judges : 1);
}

static void
judges_json (const SwJudges *found)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_json_begin_object (json, "icc");
  for (guint i = 0; i < SW_N_ICC_FORMS; i++)
    {
      g_autofree char *name = form_name ((SwIccForm) i, found->n_judges);

      sw_json_double (json, name, found->icc[i]);
    }
  sw_json_end (json);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
judges_text (const SwJudges *found)
{
  for (guint i = 0; i < SW_N_ICC_FORMS; i++)
    {
      g_autofree char *name = form_name ((SwIccForm) i, found->n_judges);
      g_autofree char *label = g_strdup_printf ("ICC(%s)", name);

      sw_figures_print (label, found->icc[i]);
    }
}

/* Every column but the target's is a judge. */
static double *
read_ratings (const SwCsv *csv, gsize target, GError **error)
{
  gsize columns = sw_csv_n_columns (csv), at = 0;
  g_autofree double *ratings = g_new (double, MAX (1, sw_csv_n_rows (csv) * (columns - 1)));

  for (gsize row = 0; row < sw_csv_n_rows (csv); row++)
    for (gsize column = 0; column < columns; column++)
      if (column != target && !sw_csv_double (csv, row, column, &ratings[at++], error))
        return NULL;
  return g_steal_pointer (&ratings);
}

gboolean
sw_figures_judges (const SwTool *tool, const SwCsv *csv, GError **error)
{
  g_autofree double *ratings = NULL;
  SwJudges found;
  gsize target;

  if (!sw_csv_need_column (csv, "target", &target, error))
    return FALSE;
  ratings = read_ratings (csv, target, error);
  if (ratings == NULL
      || !sw_judges_compute (ratings, sw_csv_n_rows (csv), sw_csv_n_columns (csv) - 1, &found, error))
    return FALSE;
  if (tool->json)
    judges_json (&found);
  else
    judges_text (&found);
  return TRUE;
}
