/* sw-next-step-private.h: what the protocol allows after the score, in words, each with its act
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_NEXT_STEP (sw_next_step_get_type ())
G_DECLARE_FINAL_TYPE (SwNextStep, sw_next_step, SW, NEXT_STEP, GtkBox)

GtkWidget *sw_next_step_new (void);

/* After the newest scores of the course; while none is as late as `day`, what a score of that day would lead to, without
 * acts. */
void sw_next_step_show (SwNextStep *self, SwStepPage *page, SwDay day);

G_END_DECLS
