/* sw-response.h: how a tumour answered, after the canine RECIST consensus, and what comes next (domain 8)
 *
 * A series of sizes goes in, baseline first, and the category at the last of them comes out, in three families beside
 * each other: longest diameter (the one that counts), product of two diameters, volume. All comparisons are exact. The
 * figures are in sw-definitions.c, each with its source.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"
#include "sw-values.h"
#include "sw-volume.h"
#include "sw-why.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_SITE_SIZE,          /* measured */
  SW_SITE_GONE,
  SW_SITE_TOO_SMALL,     /* present; the smaller of 5 mm and baseline stands for it */
  SW_SITE_NOT_EVALUABLE,
} SwSiteState;

typedef enum { SW_FAMILY_LONGEST, SW_FAMILY_PRODUCT, SW_FAMILY_VOLUME, SW_N_FAMILIES } SwFamily;

/**
 * SwSize: a tumour at one visit
 * @day: SW_NO_DAY where days are not known (command line)
 * @state: what the site showed
 * @value: by family, for SW_SITE_SIZE: 0.01 mm, (0.01 mm)^2, cm3
 * @known: whether the family has a value here; only the longest always has. At a site too small to measure the others
 * have none
 */
typedef struct
{
  SwDay day;
  SwSiteState state;
  SwRatio value[SW_N_FAMILIES];
  gboolean known[SW_N_FAMILIES];
} SwSize;

/* What is known about the score besides sizes. On the command line: nothing. */
typedef struct
{
  const SwProtocol *protocol; /* its window, and the days of a second injection; NULL */
  gint64 course_day;   /* days since the injection that is scored; SW_UNKNOWN */
  SwDay score_day;     /* SW_NO_DAY */
  gboolean wound_open; /* at this visit */
  gboolean recurrence; /* somebody recorded one */
  gboolean sampled;    /* and confirmed it by cytology or histology */
  gint64 injections;   /* of this tumour so far; 0: not known */
  gint64 reader_error; /* the practice's own technical error of an axis, thousandths; 0: it has none */
  gint64 tumour;       /* the tumour that findings name, or 0 */
} SwScoring;

typedef struct
{
  gboolean known;
  SwCategory category;
  SwRatio baseline;
  SwRatio smallest; /* before this visit; the baseline counts */
  SwRatio now;      /* 0 when gone; as counted when too small */
  gboolean has_now; /* FALSE: not evaluable */
} SwFamilyScore;

/**
 * SwResponse:
 * @category: of the longest diameter
 * @family: the three families; the others are computed beside it and named
 * @wound_open: flag of a complete response
 * @counts_as_day_28: scored within the window
 * @presumed: a recurrence that nobody sampled
 * @detectable: FALSE: the change is smaller than the practice can tell from reading error
 * @next: (owned): what comes next; its code is kept in SwScore.next_step
 * @findings: (owned): notes
 * @why: (owned): SwWhy lines
 */
typedef struct
{
  SwCategory category;
  SwFamilyScore family[SW_N_FAMILIES];
  gboolean wound_open;
  gboolean counts_as_day_28;
  gboolean presumed;
  gboolean detectable;
  SwFinding *next;
  GPtrArray *findings;
  GPtrArray *why;
} SwResponse;

/* "21.20 mm", "377.4 mm2", "1.70 cm3": a size as its family counts it. (transfer full) */
char *sw_family_format (SwFamily family, SwRatio size);
const char *sw_family_name (SwFamily family); /* translated: "longest diameter" */

/* A size of one measured tumour. */
SwSize sw_size_measured (SwDay day, const SwMeasured *measured, SwVolumeRule rule);
/* A size on which only the longest diameter is known, or only the state. */
SwSize sw_size_longest (SwDay day, SwRatio longest);
SwSize sw_size_of_state (SwDay day, SwSiteState state);
/* A tumour that has split: the parts are added. A merged one is measured once, and the joint size holds for each. */
void sw_size_add_part (SwSize *whole, const SwSize *part);

/* Scores the last of @sizes; the first is the baseline and must be a size. SW_ERROR_INPUT: fewer than two, no baseline.
 */
SwResponse *sw_response_score (const SwSize *sizes, guint n, const SwScoring *scoring, GError **error);
void sw_response_free (SwResponse *response);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwResponse, sw_response_free)

/* The sizes that count for a tumour up to a day, baseline first. Baseline: the treatment day of the first course on it;
 * a treated recurrence starts a new one. (transfer full) GArray of SwSize, empty when it was never injected. */
GArray *sw_response_sizes (const SwCase *c, gint64 tumour, SwDay day);

/* Scores a tumour on a day. SW_ERROR_INPUT with a sentence when it was not injected before, or nothing was recorded
 * that day. */
SwResponse *sw_response_of_tumour (const SwCase *c, gint64 tumour, SwDay day, GError **error);

/* Days after this course's injection, and before the next into the same tumour, on which one of its tumours was sized
 * or found to have come back: those that can be scored, the newest first. (transfer full) GArray of SwDay */
GArray *sw_response_days (const SwCase *c);

/* The category of all targets together on a day: any progress or recurrence is progress, one that is not evaluable or
 * was not looked at lately leaves all so, else the sum of longest diameters decides. @series: GArray of SwSize each, as
 * above; 1 or more. */
SwCategory sw_response_of_targets (const GPtrArray *series, SwDay day);

/* The dog: targets' category (ignored when @has_targets is FALSE) with non-targets and new tumours. */
SwCategory sw_response_overall (gboolean has_targets, SwCategory targets, SwNonTargets non_targets,
                                gboolean new_tumour);

/* Whether a tumour of the dog was found after day 0 of the course and by @day. */
gboolean sw_response_new_tumour (const SwCase *c, SwDay day);

/* The dog's overall response on a day: tumours injected in this course are the targets. */
SwCategory sw_response_of_dog (const SwCase *c, SwDay day, SwNonTargets non_targets);

G_END_DECLS
