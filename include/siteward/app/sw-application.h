/* sw-application.h: the program: its options, its one window, the place of its record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_APPLICATION (sw_application_get_type ())
G_DECLARE_FINAL_TYPE (SwApplication, sw_application, SW, APPLICATION, GtkApplication)

/* --record DIR (else the place kept in the settings, else the user's data folder), --at YYYY-MM-DDTHH:MM (practice-only
 * records). */
SwApplication *sw_application_new (void);

/* Makes the templates and style sheet of this room known; for programs that build its widgets without
 * the application. */
void sw_application_register_resources (void);

G_END_DECLS
