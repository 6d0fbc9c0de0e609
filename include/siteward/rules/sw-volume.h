/* sw-volume.h: the volume of a tumour from caliper readings, exact, and how far it can be trusted
 *
 * Each reading is sorted longest first, then the axes are summed; volume and means are exact quotients of those sums,
 * so a limit is met or not met (domain 2). The interval and the chance are doubles: they inform and never decide.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"
#include "sw-finding.h"
#include "sw-protocol.h"
#include "sw-wide.h"

#include <glib.h>

G_BEGIN_DECLS

/* Places of a sorted reading. */
enum { SW_AXIS_LONGEST, SW_AXIS_MIDDLE, SW_AXIS_SHORTEST, SW_N_AXES };

/* One reading: three axes in any order, 0.01 mm. */
typedef struct
{
  gint64 axis[SW_N_AXES];
} SwAxes;

/**
 * SwMeasured:
 * @sum: sums of the longest, middle and shortest axes, 0.01 mm; sum[0] / count is the longest diameter
 * @count: readings, 1 to 12
 * @spread: (max - min) of each axis
 * @sd: their own standard deviation, 0.01 mm; 0 for one reading
 */
typedef struct
{
  gint64 sum[SW_N_AXES];
  gint64 count;
  gint64 spread[SW_N_AXES];
  double sd[SW_N_AXES];
} SwMeasured;

typedef struct
{
  double r;  /* standard error of ln V */
  double lo; /* cm3 */
  double hi;
} SwInterval;

/* The axes of SwReading rows, as many as there are. (transfer full) */
SwAxes *sw_axes_of_readings (const GPtrArray *readings);

/* FALSE without a reading, with more than 12, or with an axis that is not positive. */
gboolean sw_volume_measure (const SwAxes *readings, guint n, SwMeasured *measured) G_GNUC_WARN_UNUSED_RESULT;

/* The longest axis mean, 0.01 mm. */
SwRatio sw_volume_longest (const SwMeasured *measured);

/* Product of the two longest axis means, (0.01 mm)^2. */
gboolean sw_volume_product (const SwMeasured *measured, SwRatio *product) G_GNUC_WARN_UNUSED_RESULT;

/* In cm3; FALSE on overflow. */
gboolean sw_volume_cm3 (const SwMeasured *measured, SwVolumeRule rule, SwRatio *cm3) G_GNUC_WARN_UNUSED_RESULT;

/* @reader_error: technical error of one axis as a share of it, in thousandths; 0 while the practice has none of its
 * own. */
SwInterval sw_volume_interval (const SwMeasured *measured, SwVolumeRule rule, gint64 reader_error, double cm3);

/* Chance that the true volume is over @limit_cm3. */
double sw_volume_chance_over (const SwInterval *interval, double cm3, double limit_cm3);

/* The largest (max - min) / mean of the three axes, in per cent; FALSE for one reading or on overflow. */
gboolean sw_volume_widest_spread (const SwMeasured *measured, SwRatio *percent) G_GNUC_WARN_UNUSED_RESULT;

/* Adds the note when the readings of an axis lie further apart than the definition says. */
void sw_volume_note_spread (const SwMeasured *measured, gint64 tumour, const char *letter, GPtrArray *findings);

/* Adds what a vet must decide when there are fewer readings than the treatment day wants. */
void sw_volume_note_few (const SwMeasured *measured, gint64 tumour, const char *letter, GPtrArray *findings);

G_END_DECLS
