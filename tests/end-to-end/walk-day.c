/* walk-day.c: the treatment day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "walk-steps.h"

static void
measure (Walk *walk, const char *const readings[2][3])
{
  static const char *const axes[] = { "length", "width", "height" };

  for (int i = 0; i < 2; i++)
    for (int axis = 0; axis < 3; axis++)
      {
        g_autofree char *name = g_strdup_printf ("tumour A, reading %d, %s in mm", i + 1, axes[axis]);

        walk_enter (walk, name, readings[i][axis]);
      }
}

static void
answer_again (Walk *walk)
{
  static const char *const choices[][2] = {
    { "vomiting in the last 24 hours", "none" },
    { "stool", "normal" },
    { "appetite", "normal" },
    { "any NSAID since the lead-in was planned", "no" },
    { "regional nodes", "felt, unchanged" },
    { "new lumps", "no" },
    { "suitability", "asked again, stands" },
    { "surface today, tumour A", "unbroken over all of the mass" },
    { "tumour marked, tumour A", "on the skin" },
    { "vein access", "catheter placed" },
    { "restraint", "none" },
    { "a sedative likely to cause vomiting", "no" },
    { "last food", "a mouthful with the medicines" },
    { "last water", "drinks freely" },
  };
  static const char *const ticks[] = {
    "adrenaline", "fluids for the vein", "injectable antihistamine", "injectable corticosteroid", "oxygen",
    "eye protection", "gloves", "Luer-lock syringe, low dead space", "sharps box at hand, no recapping",
  };

  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    walk_choose (walk, choices[i][0], choices[i][1]);
  for (guint i = 0; i < G_N_ELEMENTS (ticks); i++)
    walk_tick (walk, ticks[i]);
  walk_act (walk, "Record Today's Answers");
  walk_see (walk, "23 of 23 answers on record");
}

void
walk_prepare (Walk *walk, const char *weight, const char *const readings[2][3])
{
  walk_step (walk, "Treatment day");
  walk_picture (walk, "treatment-morning");
  walk_enter (walk, "weight today", weight);
  walk_see (walk, "Weigh Again");
  measure (walk, readings);
  walk_see (walk, "readings of an axis agree");
  ui_settle ();
  walk_picture (walk, "treatment-measured");
  answer_again (walk);
}

/* The person at the desk enters it, another reads. */
void
walk_read_aloud (Walk *walk)
{
  walk_choose (walk, "read aloud by", walk->technician);
  walk_act (walk, "Record the Reading Aloud");
  walk_scroll_to (walk, "Release the Dose");
  walk_picture (walk, "treatment-ready");
}

void
walk_release (Walk *walk, const char *inject)
{
  walk_press (walk, "Release the Dose");
  walk_see (walk, inject);
  walk_picture (walk, "treatment-release");
  walk_answer (walk, "Release the Dose");
  walk_see (walk, "Released by");
  walk_scroll_to (walk, "Record the Injection");
  walk_picture (walk, "treatment-released");
}

void
walk_inject (Walk *walk, const char *given, const char *left, const char *time)
{
  walk_type (walk, "vial 1: lot", "7K214");
  walk_type (walk, "vial 1: good until", "2099-03");
  walk_type (walk, "vial 1: agent", "tigilanol tiglate");
  walk_type (walk, "vial 1: strength", "1");
  walk_type (walk, "vial 1: left over", left);
  walk_type (walk, "vial 1: disposal", "cytotoxic waste");
  walk_choose (walk, "vial 1: witness of the disposal", walk->technician);
  walk_type (walk, "given into tumour A, left hock", given);
  walk_type (walk, "injected at", time);
  walk_choose (walk, "injected by", walk->vet);
  walk_choose (walk, "assisted by", walk->technician);
  walk_type (walk, "needle, its gauge", "23 G");
  walk_choose (walk, "after drawing, read aloud by", walk->technician);
  walk_act (walk, "Record the Injection");
  walk_see (walk, "Injected on");
  walk_scroll_to (walk, "Record the Look");
  walk_picture (walk, "treatment-injected");
}

void
walk_look (Walk *walk, const char *time)
{
  walk_type (walk, "time of the look", time);
  walk_type (walk, "heart rate a minute", "96");
  walk_choose (walk, "gums", "pink");
  walk_choose (walk, "breathing", "easy");
  walk_choose (walk, "vomiting", "no");
  walk_type (walk, "the site at this look", "swollen, warm");
  walk_act (walk, "Record the Look");
}

void
walk_discharge (Walk *walk, const char *time)
{
  walk_type (walk, "goes home at", time);
  walk_type (walk, "number out of hours", "555 0199");
  walk_type (walk, "contact at hour eight by", walk->technician);
  walk_act (walk, "Discharge the Dog");
  walk_see (walk, "Discharged by");
  walk_scroll_to (walk, "Record the Look");
  walk_picture (walk, "treatment-done");
}
