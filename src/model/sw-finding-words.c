/* sw-finding-words.c: the one table of stable names, severities and sentences of findings
 *
 * Rows stand in the order and under the section titles of sw-finding-codes.h. {name} is replaced by the argument of that name; one
 * that the finding does not carry stays as it is, which tests look for. A sentence says what, the number and the limit; the next
 * sentence says what is open to the vet. A ratio, length, mass, day or time brings its unit: write "{value}", never "{value} mL".
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-finding-private.h"

#include <glib/gi18n-lib.h>

#define WORDS(code, name, severity, sentence, next) [SW_FINDING_##code] = { name, severity, sentence, next }

static const SwFindingWords words[SW_N_FINDINGS] = {
  /* dose */
  WORDS (VOLUME_LIMIT, "volume", SW_STOP,
         N_("Tumour {tumour} measures {value}; this protocol allows at most {limit}. The dose is refused, never capped."),
         N_("Treat it another way, refer, or measure again if the readings are doubtful.")),
  WORDS (WEIGHT_LIMIT, "weight-limit", SW_STOP,
         N_("All tumours together need {value} of body weight; this protocol allows at most {limit}. The dose is refused, "
            "never capped."),
         N_("Treat fewer tumours now and the others not before {date}, treat another way, or refer.")),
  WORDS (TREATMENT_LIMIT, "treatment-limit", SW_STOP,
         N_("All tumours together need {value}; this protocol allows at most {limit} in one treatment. The dose is refused, "
            "never capped."),
         N_("Treat fewer tumours now and the others not before {date}, treat another way, or refer.")),
  WORDS (TIER_EDGE, "tier-edge", SW_STOP,
         N_("Tumour {tumour} measures exactly {value}, the edge between two dose steps at {limit}; the source does not say "
            "which one holds, so the dose is refused."),
         N_("Measure again, or treat another way.")),
  WORDS (ARITHMETIC, "overflow", SW_STOP,
         N_("The dose of tumour {tumour} can't be computed exactly from these readings, so it is refused."),
         N_("Look for a slip in the readings, or record fewer of them.")),
  WORDS (TINY_TUMOUR, "tiny-tumour", SW_VET_DECIDES,
         N_("Tumour {tumour} measures {value}, under {limit}: the least dose gives it {ratio}."),
         N_("Give a reason for treating it all the same, or leave it out.")),
  WORDS (AXIS_SPREAD, "axis-spread", SW_NOTE,
         N_("Readings of the {axis} of tumour {tumour} differ by {value}, more than {limit}."),
         N_("Measure once more.")),
  WORDS (TIER_CROSSING, "tier-crossing", SW_NOTE,
         N_("The interval of the volume of tumour {tumour} crosses {limit}, where the dose step changes: a small error of "
            "the caliper changes the dose much."),
         N_("Measure once more.")),
  WORDS (GIVEN_LATELY, "given-lately", SW_NOTE,
         N_("{value} given in the last {days} days count into both limits of this treatment."), NULL),

  /* suitability */

  /* medicines and interactions */

  /* plan */

  /* gate A */

  /* gate B */

  /* response and course */
};

const SwFindingWords *
sw_finding_words (SwFindingCode code)
{
  g_return_val_if_fail ((guint) code < SW_N_FINDINGS, NULL);
  return &words[code];
}
