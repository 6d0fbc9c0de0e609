/* sw-exposure-private.h: every medicine in and around a dog over time, from elsewhere and from the plan
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"

G_BEGIN_DECLS

/* The last day of what goes on without an end known; a first day that is not known is SW_NO_DAY, before every day. */
#define SW_GOES_ON G_MAXINT64

typedef struct
{
  const char *substance;        /* borrowed */
  SwDay first, last;            /* both count */
  const SwMedicineTaken *taken; /* NULL: planned in this course */
  gint64 ug_per_kg_day;         /* of a planned medicine, the most on one day; SW_UNKNOWN for what is taken */
  gboolean liquid;              /* planned as a liquid */
} SwExposure;

/* SwExposure: what is taken from elsewhere first, then what the plan of this course gives. `choices` NULL: the
 * protocol's own. Doses that a draft is about to replace don't count: of those on record only the ones that have come
 * due. */
GArray *sw_exposures (const SwCase *c, SwDay treat_day, const char *choices, gboolean draft);

gboolean sw_exposure_overlaps (const SwExposure *a, const SwExposure *b);

/* Days from the end of the earlier to the beginning of the later; 0 or less when they overlap. */
gint64 sw_exposure_gap (const SwExposure *earlier, const SwExposure *later);

/* Goes on today or later. */
gboolean sw_exposure_is_active (const SwExposure *exposure, SwDay today);

G_END_DECLS
