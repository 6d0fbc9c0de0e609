/* sw-visit-list-private.h: the visits of a course so far, the newest first, those corrected or taken back too
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

/* What is to be done with a visit that is on record. */
typedef void (*SwVisitAct) (SwStepPage *page, const SwVisit *visit);

/* How many there are. */
guint sw_visit_list_fill (GtkListBox *list, SwStepPage *page, SwVisitAct correct, SwVisitAct take_back);

G_END_DECLS
