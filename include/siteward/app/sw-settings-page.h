/* sw-settings-page.h: the clinical settings: hours, time zone, washouts, strengths on the shelf
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_SETTINGS_PAGE (sw_settings_page_get_type ())
G_DECLARE_FINAL_TYPE (SwSettingsPage, sw_settings_page, SW, SETTINGS_PAGE, GtkWidget)

/* As often as the practice or the person at the desk changes. Fields that were typed into keep their text. */
void sw_settings_page_show (SwSettingsPage *self, SwRecord *record, gint64 person);

G_END_DECLS
