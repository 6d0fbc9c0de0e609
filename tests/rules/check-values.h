/* check-values.h: reads the check values that stand beside these tests, each file with its source in its first lines
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <check.h>
#include <glib.h>

/* Rows of tests/rules/values/NAME as string arrays (GStrv), the title row included; comment lines are left out. */
static inline GPtrArray *
check_values_read (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "tests", "rules", "values", name, NULL);
  g_autofree char *text = NULL;
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);

  ck_assert_msg (g_file_get_contents (path, &text, NULL, NULL), "no %s", path);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    if (*g_strstrip (lines[i]) != '\0' && lines[i][0] != '#')
      g_ptr_array_add (rows, g_strsplit (lines[i], ",", -1));
  return rows;
}
