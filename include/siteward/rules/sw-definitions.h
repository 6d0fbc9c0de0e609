/* sw-definitions.h: published definitions and thresholds of this program, the only numbers in this room
 *
 * Figures that differ by agent, country or practice live in documents and never here. A rule asks for its number by
 * name, so that the number, its source and its mark are read in one place and a *why* view can show them.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-wide.h"

#include <glib.h>

G_BEGIN_DECLS

/* Factors between units; shares that practices set are kept in thousandths. */
#define SW_PER_MILLE G_GINT64_CONSTANT (1000)
#define SW_PER_CENT G_GINT64_CONSTANT (100)
#define SW_UG_PER_MG G_GINT64_CONSTANT (1000)

/* Each rule file has its section; add at the end of yours, and the row in sw-definitions.c. */
typedef enum
{
  /* volume and dose */
  SW_DEF_AXIS_MOST,            /* 0.01 mm, as entry takes it */
  SW_DEF_READINGS_MOST,        /* readings of one tumour on one day */
  SW_DEF_TUMOURS_MOST,         /* tumours in one treatment */
  SW_DEF_READINGS_LEAST,       /* on the treatment day, else a vet's reason */
  SW_DEF_PI_SIXTH_PARTS,       /* an ellipsoid is pi / 6 of its box */
  SW_DEF_READER_ERROR,         /* of one axis, before the practice knows its own */
  SW_DEF_NORMAL_95,            /* two-sided 95 % point of the normal distribution */
  SW_DEF_AXIS_SPREAD,          /* (max - min) / mean of an axis, over which a note is due */
  SW_DEF_TINY_VOLUME,          /* cm3, under which a vet decides */
  SW_DEF_SYRINGE_SMALL,        /* nL that it holds; its step follows */
  SW_DEF_SYRINGE_SMALL_STEP,
  SW_DEF_SYRINGE_MIDDLE,
  SW_DEF_SYRINGE_MIDDLE_STEP,
  SW_DEF_SYRINGE_LARGE,
  SW_DEF_SYRINGE_LARGE_STEP,
  /* tablets and liquids */
  SW_DEF_PIECES_MOST,          /* pieces of one strength in one dose; a half is a piece */
  SW_DEF_TARGET_WINDOW,        /* share of the target inside which fewest pieces win */
  SW_DEF_LIQUID_STEP,          /* nL */
  /* response */
  SW_DEF_PARTIAL_LONGEST,      /* now / baseline, at or under which it is partial */
  SW_DEF_PROGRESSIVE_LONGEST,  /* now / smallest, at or over which it is progressive ... */
  SW_DEF_PROGRESSIVE_GROWTH,   /* ... if the diameter also grew by this, 0.01 mm */
  SW_DEF_PARTIAL_PRODUCT,
  SW_DEF_PROGRESSIVE_PRODUCT,
  SW_DEF_PARTIAL_VOLUME,
  SW_DEF_PROGRESSIVE_VOLUME,
  SW_DEF_TOO_SMALL,            /* 0.01 mm that stand for present but too small to measure */
  SW_DEF_DETECTABLE,           /* times the technical error of one reading */
  SW_DEF_LOOK_AGAIN_FIRST,     /* days until a site that could not be judged is looked at again */
  SW_DEF_LOOK_AGAIN_LAST,
  SW_DEF_SAMPLE_FROM_DAY,      /* course day from which it is sampled instead */
  SW_DEF_WATCH_FIRST,          /* course days of the looks after a complete response */
  SW_DEF_WATCH_SECOND,
  SW_DEF_WATCH_EVERY_MONTHS,
  SW_DEF_WATCH_MONTHS,
  SW_DEF_REASON_FROM_INJECTION, /* from this injection into one tumour on a vet gives a reason */
  SW_DEF_VISIT_SPAN,           /* days in which looks at several tumours make one visit */
  /* medicine times, gates, moves, course */
  SW_DEF_DOSE_ON_TIME,         /* minutes either side of due that are on time */
  SW_DEF_VOMITED_WITHIN,       /* minutes after a dose in which vomiting brings it up */
  SW_DEF_REPLACEMENT_BEFORE,   /* minutes between a replacement and the injection */
  SW_DEF_WEIGHT_AGE,           /* days that a planning weight holds */
  SW_DEF_WEIGHT_CHANGE,        /* share of the planning weight, over which it is weighed again and a vet decides */
  SW_DEF_SECOND_LOOK,          /* minutes until one person alone looks again */
  SW_DEF_DELAY,                /* days of delay over which a vet chooses to go on or to lead in anew */
  SW_DEF_CORTICOSTEROID_RUN,   /* days of it, over which a vet writes the taper */
  SW_DEF_OBSERVATION,          /* minutes of observation after the injection */
  SW_DEF_OBSERVATION_EVERY,    /* minutes from one look to the next in it */
  SW_DEF_VISIT_EARLY,          /* share of its day number by which a visit may come before its day ... */
  SW_DEF_VISIT_LATE,           /* ... and after it */
  SW_DEF_LOST_OVERDUE,         /* days overdue from which a dog may be lost */
  SW_DEF_LOST_ATTEMPTS,        /* attempts to reach the client */
  /* entry */
  SW_DEF_SLIP_TIMES,           /* a value so many times off the last one, either way, is asked about */
  SW_DEF_WEIGHT_MOVE,          /* share of the last weight over which a new one is asked about ... */
  SW_DEF_WEIGHT_MOVE_DAYS,     /* ... within so many days */
  /* outcomes */
  SW_DEF_CONFIDENCE,           /* of all limits */
  SW_DEF_FEW,                  /* under so many a figure carries a word of caution */
  SW_DEF_SIZE_SMALL,           /* mm3, tumours under it are small ... */
  SW_DEF_SIZE_LARGE,           /* ... and from here on large */
  SW_DEF_DOG_LIGHT,            /* g, dogs under it are light ... */
  SW_DEF_DOG_HEAVY,            /* ... and from here on heavy */
  SW_DEF_HEALED_FIRST,         /* days for which the share of closed wounds is told */
  SW_DEF_HEALED_SECOND,
  SW_DEF_HEALED_THIRD,
  SW_DEF_FREE_FIRST,           /* days for which the share free of recurrence is told */
  SW_DEF_FREE_SECOND,
  SW_DEF_BAND_DRAWS,           /* draws of the bootstrap behind the limits of the healing curve ... */
  SW_DEF_BAND_MOST,            /* ... made for no more wounds than this */
  SW_DEF_ALARM,                /* chance of a false alarm of the running sum */
  SW_DEF_MISS,                 /* chance that it misses the worse rate */
  SW_DEF_ACCEPTED_GOOD,        /* pairs of failure rates for it: accepted and not */
  SW_DEF_WORSE_GOOD,
  SW_DEF_ACCEPTED_USUAL,
  SW_DEF_WORSE_USUAL,
  SW_DEF_ACCEPTED_LOOSE,
  SW_DEF_WORSE_LOOSE,
  SW_DEF_PUBLISHED_FIRST,      /* published shares of complete response at day 28, x / n as printed */
  SW_DEF_PUBLISHED_SECOND,

  SW_N_DEFINITIONS
} SwDefinitionId;

typedef struct
{
  const char *name;   /* "largest spread of an axis" */
  gint64 num;         /* the value is num / den */
  gint64 den;
  const char *unit;   /* "" for a share or a count */
  const char *source; /* NULL for [ours] and [practice] */
  const char *mark;   /* seen, second-hand, memory, practice, ours */
} SwDefinition;

const SwDefinition *sw_definition (SwDefinitionId id);
SwRatio sw_definition_ratio (SwDefinitionId id);
/* The value of one that is a whole number. */
gint64 sw_definition_whole (SwDefinitionId id);
/**
 * SwPicture: what a treated site usually looks like
 * @first_day: days since the injection; both ends count
 * @last_day: SW_UNKNOWN where it holds from then on
 * @source: NULL for common practice and where nobody recorded it
 */
typedef struct
{
  gint64 first_day;
  gint64 last_day;
  const char *when;  /* "4 to 7 days" */
  const char *words;
  const char *source;
  const char *mark;
} SwPicture;

/* All of them, not translated, in the order of their days. */
const SwPicture *sw_definition_pictures (gsize *n);

/* For statistics only. */
double sw_definition_double (SwDefinitionId id);

G_END_DECLS
