/* sw-dose.h: the dose of every tumour of one treatment, the limits, and what is drawn (domain 3.1)
 *
 * Order of arithmetic: volume times the protocol's rule; each tumour floored to the least dose; the sum; every limit,
 * in the order volume, weight, treatment, tier edge. All breached limits are answered. A dose past a limit is refused,
 * never capped, and then nothing is drawn. What the dog was given of the same agent lately counts into both mL limits.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-finding.h"
#include "sw-protocol.h"
#include "sw-volume.h"
#include "sw-why.h"

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwDoseTumour:
 * @tumour: its row, for the findings; 0 on the command line
 * @letter: 0 = A; no two of an input are the same
 */
typedef struct
{
  gint64 tumour;
  gint64 letter;
  const SwAxes *readings;
  guint n_readings;
} SwDoseTumour;

/**
 * SwDoseInput:
 * @weight_g: on the treatment day
 * @given_before_nl: of the same agent, on days that still count; 0
 * @free_day: the first day on which none of that counts any more; SW_NO_DAY
 * @today: the treatment day, SW_NO_DAY on the command line
 * @reader_error: the practice's technical error of an axis, thousandths; 0: none of its own
 */
typedef struct
{
  const SwProtocol *protocol;
  gint64 weight_g;
  const SwDoseTumour *tumours;
  guint n_tumours;
  gint64 given_before_nl;
  SwDay free_day;
  SwDay today;
  gint64 reader_error;
} SwDoseInput;

/**
 * SwTumourDose:
 * @chance_over: chance that the protocol's largest tumour is exceeded; negative when it names none
 * @has_dose: FALSE exactly at the edge of a tier
 * @raw_ml: volume times the rule
 * @dose_ml: after the floor, before rounding to the syringe
 * @dose_lo_ml: the dose at the lower end of the interval, floor included; @dose_hi_ml at its upper end: for showing
 * @drawn_nl: to draw; SW_UNKNOWN when refused
 * @syringe_nl: what the syringe holds; SW_UNKNOWN when refused
 * @syringes: more than 1 when the largest one does not hold the dose; 0 when refused
 */
typedef struct
{
  gint64 tumour;
  gint64 letter;
  SwMeasured measured;
  SwRatio volume_cm3;
  SwInterval interval;
  double chance_over;
  gboolean has_dose;
  SwRatio raw_ml;
  SwRatio dose_ml;
  double dose_lo_ml;
  double dose_hi_ml;
  gint64 drawn_nl;
  gint64 syringe_nl;
  guint syringes;
} SwTumourDose;

/**
 * SwDoseShare: how much of one limit is used, for showing; whether it is breached is decided exactly.
 * @limit: SW_FINDING_VOLUME_LIMIT, SW_FINDING_WEIGHT_LIMIT or SW_FINDING_TREATMENT_LIMIT
 * @tumour: whose volume; 0 for the limits that all tumours share
 * @value: with what was given before and still counts
 * @unit: "cm3" or "mL", static
 * @percent: value of limit
 */
typedef struct
{
  SwFindingCode limit;
  gint64 tumour;
  SwRatio value;
  SwRatio most;
  const char *unit;
  SwRatio percent;
  gboolean over;
} SwDoseShare;

/**
 * SwDoseResult:
 * @tumours: SwTumourDose in the order of the input
 * @refused: a limit is breached: nothing is drawn
 * @total_nl: sum to draw; SW_UNKNOWN when refused
 * @vials: to open; 0 when refused
 * @left_nl: what is left of them; SW_UNKNOWN when refused
 * @refusals: SwFinding with arguments tumour (letter), value, limit; of severity stop
 * @notes: SwFinding, among them what a vet must decide
 * @why: SwWhy lines
 * @shares: SwDoseShare, in the order of the limits
 */
typedef struct
{
  GArray *tumours;
  gboolean refused;
  gint64 total_nl;
  guint vials;
  gint64 left_nl;
  GPtrArray *refusals;
  GPtrArray *notes;
  GPtrArray *why;
  GArray *shares;
} SwDoseResult;

/* SW_ERROR_INPUT: no tumour, too many, no readings, no weight. SW_ERROR_DOCUMENT: the protocol lacks the figures of its
 * rule. */
SwDoseResult *sw_dose_compute (const SwDoseInput *input, GError **error);
void sw_dose_result_free (SwDoseResult *dose);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDoseResult, sw_dose_result_free)

/* The course's tumours with the readings and the weight of the day of c->now: what the release freezes. SW_ERROR_INPUT
 * names what is missing. */
SwDoseResult *sw_dose_of_case (const SwCase *c, GError **error);

/* nL of the course's agent given on a later day than @today less the protocol's look-back in other courses; @free_day
 * (out) as above. */
gint64 sw_dose_given_before (const SwCase *c, SwDay today, SwDay *free_day);

G_END_DECLS
