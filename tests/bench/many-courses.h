/* many-courses.h: a record of 100,000 treated dogs, for measuring the outcomes
 *
 * The derived rows are written straight into it: what is measured is reading, computing and showing.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* The day on which figures are computed; at 09:40. */
#define MANY_COURSES_TODAY 20783

/* Into an absent folder. */
void many_courses_make (const char *record);
