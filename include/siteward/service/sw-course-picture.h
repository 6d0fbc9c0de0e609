/* sw-course-picture.h: the course line of a dog, made of its dossier
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-course-line.h"

G_BEGIN_DECLS

/* All courses of the dog on one line; c->course does not matter. Without a course the line has none. (transfer full) */
SwCourseLine *sw_course_picture (const SwCase *c);

G_END_DECLS
