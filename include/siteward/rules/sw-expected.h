/* sw-expected.h: what a treated site usually looks like on a day after the injection, in words (domain 7)
 *
 * Words and no predicted area: no published relation of dose and wound could be verified. Each picture keeps its source
 * and mark.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-definitions.h"

#include <glib.h>

G_BEGIN_DECLS

/* The pictures that hold on this day, translated, in the order of their days; none before the injection.
 * (transfer full) SwPicture */
GArray *sw_expected_on (gint64 course_day);

G_END_DECLS
