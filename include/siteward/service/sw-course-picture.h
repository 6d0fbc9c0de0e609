/* sw-course-picture.h: the picture of a dog's courses as values, made of a case: sentences, states and days for the course line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-course-line.h"

G_BEGIN_DECLS

/* All courses up to the case's own, which is the last on the line; NULL where the case has no course. (transfer full) */
SwCourseLine *sw_course_picture (const SwCase *c);

G_END_DECLS
