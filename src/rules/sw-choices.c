/* sw-choices.c: which substance is chosen for each group, as the text a plan keeps
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-schedule.h"

#include <string.h>

static gboolean
is_of_group (const char *pair, const char *group)
{
  gsize length = strlen (group);

  return strncmp (pair, group, length) == 0 && pair[length] == '=';
}

char *
sw_choices_get (const char *choices, const char *group)
{
  g_auto (GStrv) pairs = g_strsplit (choices != NULL ? choices : "", ";", -1);

  for (guint i = 0; pairs[i] != NULL; i++)
    if (is_of_group (pairs[i], group))
      return g_strdup (strchr (pairs[i], '=') + 1);
  return NULL;
}

char *
sw_choices_set (const char *choices, const char *group, const char *substance)
{
  g_auto (GStrv) pairs = g_strsplit (choices != NULL ? choices : "", ";", -1);
  GString *text = g_string_new (NULL);

  for (guint i = 0; pairs[i] != NULL; i++)
    if (*pairs[i] != '\0' && !is_of_group (pairs[i], group))
      g_string_append_printf (text, "%s%s", text->len > 0 ? ";" : "", pairs[i]);
  if (substance != NULL)
    g_string_append_printf (text, "%s%s=%s", text->len > 0 ? ";" : "", group, substance);
  return g_string_free (text, FALSE);
}
