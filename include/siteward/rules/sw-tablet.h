/* sw-tablet.h: which tablets, or how much of a liquid, make one dose (domain 3.2)
 *
 * One strength per dose. Inside the range and near the target: fewest pieces, then nearest, then lower, then fewer
 * halves, then the smaller strength; else the nearest inside the range, and the deviation is said. A stocked liquid is
 * taken when no tablet fits. Nothing fits: no choice, and the caller names what is open.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-wide.h"
#include "sw-why.h"

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwTabletInput:
 * @weight_g: the dog
 * @target: mg/kg per dose, over 0
 * @low: mg/kg; ignored when @at_least
 * @high: mg/kg
 * @at_least: the target is the least that may be given
 * @halves: tablets may be halved
 * @strengths_ug: tablet strengths in stock
 * @liquids_ug_ml: liquids in stock
 */
typedef struct
{
  gint64 weight_g;
  SwRatio target;
  SwRatio low;
  SwRatio high;
  gboolean at_least;
  gboolean halves;
  const gint64 *strengths_ug;
  guint n_strengths;
  const gint64 *liquids_ug_ml;
  guint n_liquids;
} SwTabletInput;

/**
 * SwTabletChoice:
 * @strength_ug: of one tablet, or SW_UNKNOWN for a liquid
 * @halves: half tablets, or SW_UNKNOWN
 * @volume_nl: of a liquid, or SW_UNKNOWN
 * @liquid_ug_ml: its strength, or SW_UNKNOWN
 * @dose: what is given, ug
 * @target: what was asked for, ug
 * @deviates: further from the target than the definition allows (never for "at least")
 */
typedef struct
{
  gint64 strength_ug;
  gint64 halves;
  gint64 volume_nl;
  gint64 liquid_ug_ml;
  SwRatio dose;
  SwRatio target;
  gboolean deviates;
} SwTabletChoice;

/* FALSE: nothing in stock fits (or the weight is not positive, or an overflow). */
gboolean sw_tablet_choose (const SwTabletInput *input, SwTabletChoice *choice) G_GNUC_WARN_UNUSED_RESULT;

/* Pieces in the hand: a half counts as one. */
gint64 sw_tablet_pieces (gint64 halves);

/* "2 1/2 x 4 mg", "0.7 mL of 1.5 mg/mL". (transfer full) */
char *sw_tablet_describe (const SwTabletChoice *choice);

/* Adds the derivation of a choice. */
void sw_tablet_explain (const SwTabletInput *input, const SwTabletChoice *choice, GPtrArray *why);

G_END_DECLS
