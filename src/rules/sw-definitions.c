/* sw-definitions.c: the table of published definitions and of this program's own thresholds
 *
 * The only file of this room with numbers in it. Marks: seen, second-hand, memory, practice, ours (see DEVELOPERS.md).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-definitions.h"

#include "sw-unknown.h"

#include <glib/gi18n-lib.h>

#define OURS NULL, "ours"
#define PRACTICE NULL, "practice"
/* The consensus itself was not read, the criteria were: in RECIST 1.1, on which it builds. */
#define CANINE_RECIST "Nguyen 2015, doi 10.1111/vco.12032; read in RECIST 1.1, on which it builds", "second-hand"
#define TWO_DIMENSIONAL "two-dimensional criteria of the World Health Organization, 1979", "memory"
/* A sphere whose diameter passes the limit: 0.7^3 is 0.343, 1.2^3 is 1.728. */
#define THE_CUBE "the cubes of the limits on the longest diameter", "ours"

static const SwDefinition definitions[SW_N_DEFINITIONS] = {
  [SW_DEF_AXIS_MOST] = { "longest axis", 30000, 1, "0.01 mm", OURS },
  [SW_DEF_READINGS_MOST] = { "most readings of one tumour", 12, 1, "", OURS },
  [SW_DEF_TUMOURS_MOST] = { "most tumours in one treatment", 12, 1, "", OURS },
  [SW_DEF_READINGS_LEAST] = { "least readings on the treatment day", 2, 1, "", OURS },
  [SW_DEF_PI_SIXTH_PARTS] = { "parts of pi that an ellipsoid is of its box", 6, 1, "", "geometry", "seen" },
  [SW_DEF_READER_ERROR] = { "error of one axis until the practice knows its own", 1, 10, "", OURS },
  [SW_DEF_NORMAL_95] = { "two-sided 95 % point of the normal distribution", 196, 100, "",
                         "tables of the normal distribution", "seen" },
  [SW_DEF_AXIS_SPREAD] = { "largest spread of an axis without a note", 10, 100, "", OURS },
  [SW_DEF_TINY_VOLUME] = { "volume under which a vet decides", 1, 10, "cm3", OURS },
  [SW_DEF_SYRINGE_SMALL] = { "small syringe", 1000000, 1, "nL", PRACTICE },
  [SW_DEF_SYRINGE_SMALL_STEP] = { "its steps", 10000, 1, "nL", PRACTICE },
  [SW_DEF_SYRINGE_MIDDLE] = { "middle syringe", 3000000, 1, "nL", PRACTICE },
  [SW_DEF_SYRINGE_MIDDLE_STEP] = { "its steps", 100000, 1, "nL", PRACTICE },
  [SW_DEF_SYRINGE_LARGE] = { "large syringe", 5000000, 1, "nL", PRACTICE },
  [SW_DEF_SYRINGE_LARGE_STEP] = { "its steps", 200000, 1, "nL", PRACTICE },

  [SW_DEF_PIECES_MOST] = { "most pieces in one dose", 4, 1, "", OURS },
  [SW_DEF_TARGET_WINDOW] = { "share of the target inside which fewest pieces win", 10, 100, "", OURS },
  [SW_DEF_LIQUID_STEP] = { "step of a liquid", 100000, 1, "nL", OURS },

  [SW_DEF_PARTIAL_LONGEST] = { "longest diameter at or under this share of baseline", 7, 10, "", CANINE_RECIST },
  [SW_DEF_PROGRESSIVE_LONGEST] = { "longest diameter at or over this multiple of the smallest", 6, 5, "",
                                   CANINE_RECIST },
  [SW_DEF_PROGRESSIVE_GROWTH] = { "and grown by", 500, 1, "0.01 mm", CANINE_RECIST },
  [SW_DEF_PARTIAL_PRODUCT] = { "product at or under this share of baseline", 1, 2, "", TWO_DIMENSIONAL },
  [SW_DEF_PROGRESSIVE_PRODUCT] = { "product at or over this multiple of the smallest", 5, 4, "", TWO_DIMENSIONAL },
  [SW_DEF_PARTIAL_VOLUME] = { "volume at or under this share of baseline", 343, 1000, "", THE_CUBE },
  [SW_DEF_PROGRESSIVE_VOLUME] = { "volume at or over this multiple of the smallest", 1728, 1000, "", THE_CUBE },
  [SW_DEF_TOO_SMALL] = { "stands for present but too small to measure", 500, 1, "0.01 mm", CANINE_RECIST },
  [SW_DEF_DETECTABLE] = { "least change that is no reading error, in technical errors", 277, 100, "",
                          "1.96 times the square root of two", "seen" },
  [SW_DEF_LOOK_AGAIN_FIRST] = { "earliest next look at a hidden site", 7, 1, "days", OURS },
  [SW_DEF_LOOK_AGAIN_LAST] = { "latest next look at a hidden site", 14, 1, "days", OURS },
  [SW_DEF_SAMPLE_FROM_DAY] = { "day from which a hidden site is sampled", 56, 1, "days", OURS },
  [SW_DEF_WATCH_FIRST] = { "first look after a complete response", 56, 1, "days", OURS },
  [SW_DEF_WATCH_SECOND] = { "second look after a complete response", 84, 1, "days", OURS },
  [SW_DEF_WATCH_EVERY_MONTHS] = { "months between later looks", 3, 1, "months", OURS },
  [SW_DEF_WATCH_MONTHS] = { "months of looking", 12, 1, "months", OURS },
  [SW_DEF_REASON_FROM_INJECTION] = { "injection into one tumour that needs a reason", 3, 1, "",
                                     "not-recorded", "second-hand" },
  [SW_DEF_VISIT_SPAN] = { "days in which looks at several tumours make one visit", 7, 1, "days", OURS },

  [SW_DEF_DOSE_ON_TIME] = { "either side of due that is on time", 60, 1, "minutes", OURS },
  [SW_DEF_VOMITED_WITHIN] = { "vomiting after a dose that brings it up", 60, 1, "minutes", OURS },
  [SW_DEF_REPLACEMENT_BEFORE] = { "between a replacement and the injection", 120, 1, "minutes", OURS },
  [SW_DEF_WEIGHT_AGE] = { "oldest planning weight", 14, 1, "days", OURS },
  [SW_DEF_WEIGHT_CHANGE] = { "change of weight without weighing again", 10, 100, "", OURS },
  [SW_DEF_SECOND_LOOK] = { "until one person alone looks again", 2, 1, "minutes", OURS },
  [SW_DEF_DELAY] = { "longest delay without a vet's choice", 3, 1, "days", OURS },
  [SW_DEF_CORTICOSTEROID_RUN] = { "longest corticosteroid without a taper", 14, 1, "days", OURS },
  [SW_DEF_OBSERVATION] = { "observation after the injection", 120, 1, "minutes", OURS },
  [SW_DEF_OBSERVATION_EVERY] = { "from one look to the next after the injection", 30, 1, "minutes", OURS },
  /* Day 28 counts on days 25 to 35 (domain 8): an eighth less (rounded down), a quarter more. Other visits follow. */
  [SW_DEF_VISIT_EARLY] = { "share of its day by which a visit may be early", 1, 8, "", OURS },
  [SW_DEF_VISIT_LATE] = { "share of its day by which a visit may be late", 1, 4, "", OURS },
  [SW_DEF_LOST_OVERDUE] = { "overdue before a dog is lost", 30, 1, "days", OURS },
  [SW_DEF_LOST_ATTEMPTS] = { "attempts before a dog is lost", 2, 1, "", OURS },
  /* entry (domain 2) */
  [SW_DEF_SLIP_TIMES] = { "times off the last value that look like a slip of the unit", 8, 1, "", OURS },
  [SW_DEF_WEIGHT_MOVE] = { "share of the last weight that a new one may move unasked", 10, 100, "", OURS },
  [SW_DEF_WEIGHT_MOVE_DAYS] = { "days within which a move of the weight is asked about", 14, 1, "days", OURS },

  [SW_DEF_CONFIDENCE] = { "confidence of limits", 95, 100, "", PRACTICE },
  [SW_DEF_FEW] = { "fewest without a word of caution", 10, 1, "", OURS },
  [SW_DEF_SIZE_SMALL] = { "small tumours are under", 500, 1, "mm3", OURS },
  [SW_DEF_SIZE_LARGE] = { "large tumours are at or over", 2000, 1, "mm3", OURS },
  [SW_DEF_DOG_LIGHT] = { "light dogs are under", 10000, 1, "g", OURS },
  [SW_DEF_DOG_HEAVY] = { "heavy dogs are at or over", 25000, 1, "g", OURS },
  /* The days for which published shares exist (domain 7). */
  [SW_DEF_HEALED_FIRST] = { "first day for which closed wounds are told", 28, 1, "days", OURS },
  [SW_DEF_HEALED_SECOND] = { "second day for which closed wounds are told", 42, 1, "days", OURS },
  [SW_DEF_HEALED_THIRD] = { "third day for which closed wounds are told", 84, 1, "days", OURS },
  [SW_DEF_FREE_FIRST] = { "first day for which freedom of recurrence is told", 182, 1, "days", OURS },
  [SW_DEF_FREE_SECOND] = { "second day for which freedom of recurrence is told", 365, 1, "days", OURS },
  [SW_DEF_BAND_DRAWS] = { "draws behind the limits of the healing curve", 200, 1, "", PRACTICE },
  [SW_DEF_BAND_MOST] = { "most wounds for which these limits are drawn", 2000, 1, "", OURS },
  [SW_DEF_ALARM] = { "chance of a false alarm", 1, 10, "", PRACTICE },
  [SW_DEF_MISS] = { "chance of missing the worse rate", 1, 10, "", PRACTICE },
  [SW_DEF_ACCEPTED_GOOD] = { "accepted share of failures, strict", 1, 10, "", OURS },
  [SW_DEF_WORSE_GOOD] = { "share that is not, strict", 2, 10, "", OURS },
  [SW_DEF_ACCEPTED_USUAL] = { "accepted share of failures", 2, 10, "", OURS },
  [SW_DEF_WORSE_USUAL] = { "share that is not", 4, 10, "", OURS },
  [SW_DEF_ACCEPTED_LOOSE] = { "accepted share of failures, wide", 3, 10, "", OURS },
  [SW_DEF_WORSE_LOOSE] = { "share that is not, wide", 5, 10, "", OURS },
  [SW_DEF_PUBLISHED_FIRST] = { "complete response at day 28, tumours", 26, 32, "",
                               "Brown 2022, doi 10.3389/fvets.2022.1003165", "second-hand" },
  [SW_DEF_PUBLISHED_SECOND] = { "complete response at day 28", 85, 116, "", "Jones 2021, J Vet Intern Med",
                                "second-hand" },
};

const SwDefinition *
sw_definition (SwDefinitionId id)
{
  g_return_val_if_fail ((guint) id < SW_N_DEFINITIONS, NULL);
  return &definitions[id];
}

SwRatio
sw_definition_ratio (SwDefinitionId id)
{
  const SwDefinition *d = sw_definition (id);

  return sw_ratio (d->num, d->den);
}

gint64
sw_definition_whole (SwDefinitionId id)
{
  const SwDefinition *d = sw_definition (id);

  g_return_val_if_fail (d->num % d->den == 0, 0);
  return d->num / d->den;
}

double
sw_definition_double (SwDefinitionId id)
{
  const SwDefinition *d = sw_definition (id);

  return (double) d->num / (double) d->den;
}

/* Domain 7. The days belong to the observations they stand beside. */
static const SwPicture pictures[] = {
  { 0, 0, N_("within hours"), N_("Swelling, redness and bruising: the drug at work."), PRACTICE },
  { 0, 1, N_("first day"), N_("Dark and firm. Oedema may track down a limb."), NULL, "memory" },
  { 2, 4, N_("2 to 4 days"), N_("The swelling settles."), NULL, "memory" },
  { 4, 7, N_("4 to 7 days"), N_("The mass blackens, shrinks and separates; a little fluid and odour."), "not-recorded",
    "second-hand" },
  { 3, 14, N_("3 to 14 days"), N_("It comes away and leaves a pink granulating bed."), "Johannes 2021, 117 dogs", "seen" },
  { 7, 14, N_("7 to 14 days"), N_("The wound is at its largest."), "De Ridder 2021, doi 10.3389/fvets.2021.764800",
    "seen" },
  { 15, SW_UNKNOWN, N_("28, 42 and 84 days"), N_("57 %, 78 % and 96 % of wounds have healed by then."), "not-recorded",
    "second-hand" },
  { 15, SW_UNKNOWN, N_("14 to 154 days"),
    N_("Wounds of a referral practice healed in that time, half of them by day 30."),
    "Musser 2024, doi 10.1111/jvim.17211", "second-hand" },
};

const SwPicture *
sw_definition_pictures (gsize *n)
{
  *n = G_N_ELEMENTS (pictures);
  return pictures;
}
