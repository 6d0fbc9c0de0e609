/* sw-check-private.h: the parts of the check
 *
 * Each part adds sentences to report->troubles and returns FALSE only if it could not go on (cancelled, the disk
 * failed).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-check.h"
#include "sw-store-private.h"

G_BEGIN_DECLS

typedef struct
{
  SwStore *store;
  const SwCheckOptions *options;
  SwCheckReport *report;
  /* Not there, or not as they should be: nothing is read from them. */
  gboolean missing[SW_N_FACTS];
  gboolean no_journal;
  gboolean no_derived;
  gint64 treated; /* rows of the outcomes that should be there */
} SwCheck;

void sw_check_trouble (SwCheck *check, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Digest chain; each row against the payload that names it; rows that no payload names. */
gboolean sw_check_journal (SwCheck *check, GError **error);
/* Lists and search words against names; summaries against what rules say. */
gboolean sw_check_derived (SwCheck *check, GError **error);

G_END_DECLS
