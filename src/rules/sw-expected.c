/* sw-expected.c: what a treated site usually looks like on a day after the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-expected.h"

#include "sw-unknown.h"

#include <glib/gi18n-lib.h>

static gboolean
holds_on (const SwPicture *picture, gint64 day)
{
  return day >= picture->first_day && (picture->last_day == SW_UNKNOWN || day <= picture->last_day);
}

GArray *
sw_expected_on (gint64 course_day)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (SwPicture));
  gsize n;
  const SwPicture *pictures = sw_definition_pictures (&n);

  for (gsize i = 0; i < n; i++)
    if (holds_on (&pictures[i], course_day))
      {
        SwPicture picture = pictures[i];

        picture.when = _(picture.when);
        picture.words = _(picture.words);
        g_array_append_val (found, picture);
      }
  return found;
}
