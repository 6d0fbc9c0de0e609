/* sw-finding-private.h: the words of a finding's code, for the room only
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding.h"

G_BEGIN_DECLS

typedef struct
{
  const char *name;     /* stable, kebab-case */
  SwSeverity severity;  /* what a new finding of this code begins with */
  const char *sentence; /* N_(), with {arguments} */
  const char *next;     /* N_(), what is open to the vet; NULL: nothing to say */
} SwFindingWords;

const SwFindingWords *sw_finding_words (SwFindingCode code);

G_END_DECLS
