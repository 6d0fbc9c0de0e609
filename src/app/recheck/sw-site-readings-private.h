/* sw-site-readings-private.h: caliper readings of one tumour on the day of a visit, each recorded once it is complete
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_SITE_READINGS (sw_site_readings_get_type ())
G_DECLARE_FINAL_TYPE (SwSiteReadings, sw_site_readings, SW, SITE_READINGS, GtkBox)

GtkWidget *sw_site_readings_new (gint64 tumour, const char *letter);

/* Shows what was read on that day, and when new readings count as taken. At another day, or `anew`, what was typed and
 * not recorded goes. */
void sw_site_readings_show (SwSiteReadings *self, SwStepPage *page, SwMoment at, gboolean anew);
gboolean sw_site_readings_has_unsaved (SwSiteReadings *self);
GtkWidget *sw_site_readings_first_empty (SwSiteReadings *self);
/* How many are on record for the day shown. */
guint sw_site_readings_count (SwSiteReadings *self);

G_END_DECLS
