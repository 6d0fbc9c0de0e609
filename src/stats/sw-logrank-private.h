/* sw-logrank-private.h: the log-rank comparison of sorted rows.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-stats-private.h"
#include "sw-survival.h"

/* @rows sorted by time, every group under @n_groups. */
void sw_logrank_fit (SwLogRank *logrank, const SwRow *rows, gsize n, gsize n_groups);
void sw_logrank_clear (SwLogRank *logrank);
