/* walk-after.c: rechecks and the score
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "walk-steps.h"

static void
say_wound (Walk *walk, const WalkVisit *visit)
{
  walk_choose (walk, "Wound of tumour A", visit->wound);
  if (visit->length == NULL)
    return;
  walk_type (walk, "Length of the wound of tumour A, in mm", visit->length);
  walk_type (walk, "Width of the wound of tumour A, in mm", visit->width);
}

void
walk_visit (Walk *walk, const WalkVisit *visit)
{
  walk_step (walk, "Rechecks");
  walk_choose (walk, "seen", visit->seen);
  walk_choose (walk, "pain", visit->pain);
  if (visit->wound != NULL)
    say_wound (walk, visit);
  if (visit->cover != NULL)
    walk_choose (walk, "Care of the site", visit->cover);
  if (visit->note != NULL)
    walk_type (walk, "notes", visit->note);
  walk_picture (walk, "rechecks-visit");
  walk_act (walk, "Record the Visit");
  walk_picture (walk, "rechecks");
}

void
walk_measure_site (Walk *walk, int number, const char *const axes[3])
{
  static const char *const names[] = { "length", "width", "height" };

  walk_step (walk, "Rechecks");
  for (int axis = 0; axis < 3; axis++)
    {
      g_autofree char *name = g_strdup_printf ("tumour A, reading %d, %s in mm", number, names[axis]);

      walk_enter (walk, name, axes[axis]);
    }
  ui_settle ();
  ui_settle ();
}

void
walk_score (Walk *walk, const char *category)
{
  walk_step (walk, "Response");
  walk_see (walk, category);
  walk_picture (walk, "response");
  walk_act (walk, "Record the Score");
  walk_see (walk, "Inject Again");
  walk_picture (walk, "response-scored");
}
