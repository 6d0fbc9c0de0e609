/* sw-observation.h: how long and how often a dog is looked at after the injection (domain 6)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"

G_BEGIN_DECLS

/* The end of the observation; SW_NO_MOMENT before the injection. */
SwMoment sw_observation_until (const SwCase *c);

/* When the next look is due: so long after the injection or the last look. SW_NO_MOMENT before the injection, and once a look was
 * taken at or after the end. */
SwMoment sw_observation_next (const SwCase *c);

G_END_DECLS
