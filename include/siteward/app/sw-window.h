/* sw-window.h: the one window: [Patients] [Outcomes] [Practice], who is at the desk, the foot line, and the bar of
 * page-wide failures
 *
 * Actions: win.page (s), win.person (s: id), win.trouble (s: sentence), win.new-patient, win.find.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_WINDOW (sw_window_get_type ())
G_DECLARE_FINAL_TYPE (SwWindow, sw_window, SW, WINDOW, GtkApplicationWindow)

/* Opens the record in `directory`; offers to make one if there is none. */
GtkWidget *sw_window_new (GtkApplication *application, const char *directory, SwClock *clock);

SwRecord *sw_window_get_record (SwWindow *self); /* NULL until it is open */
gint64 sw_window_get_person (SwWindow *self);
void sw_window_set_person (SwWindow *self, gint64 person);
void sw_window_show_patient (SwWindow *self, gint64 patient);
/* The pages, for tests that drive them. */
GtkWidget *sw_window_get_patient_page (SwWindow *self);
GtkWidget *sw_window_get_practice_view (SwWindow *self);

G_END_DECLS
