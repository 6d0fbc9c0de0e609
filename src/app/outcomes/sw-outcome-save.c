/* sw-outcome-save.c: outcomes into files
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-save.h"

#include "sw-chart-draw.h"
#include "sw-error.h"
#include "sw-outcome-paper.h"
#include "sw-outcomes.h"

#include <glib/gi18n-lib.h>

/* A name on this machine; other places are refused. (transfer full) */
static char *
path_of (GFile *file, GError **error)
{
  char *path = g_file_get_path (file);

  if (path == NULL)
    g_set_error_literal (error, SW_ERROR, SW_ERROR_DISK,
                         _("That place is not on this machine; choose a folder on a disk of it."));
  return path;
}

gboolean
sw_outcome_save_report (const SwOutcomes *outcomes, GFile *file, GError **error)
{
  g_autofree char *path = path_of (file, error);

  return path != NULL && sw_outcome_paper_write (outcomes, path, error);
}

gboolean
sw_outcome_save_tables (const SwOutcomes *outcomes, GFile *file, GError **error)
{
  g_autofree char *path = path_of (file, error);

  return path != NULL && sw_outcomes_write_tables (outcomes, path, error);
}

gboolean
sw_outcome_save_chart (const SwChart *chart, gboolean picture, GFile *file, GError **error)
{
  g_autofree char *path = path_of (file, error), *table = NULL;

  if (path == NULL || picture)
    return path != NULL && sw_chart_write_png (chart, path, error);
  table = sw_chart_csv (chart);
  return g_file_set_contents (path, table, -1, error);
}
