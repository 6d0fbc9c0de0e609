/* ui-fixture.h: what the tests of the window share: a record made through the desk, a window on it, and waiting
 *
 * One process per file, without forking (GTK doesn't survive it): call ui_init() first in main().
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-demo.h"
#include "sw-desk.h"
#include "sw-window.h"
#include "ui-wait.h"

#include <check.h>
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Warnings and criticals are fatal from here on. */
void ui_init (void);
/* Runs the suite in this process; what main() returns. */
int ui_run (Suite *suite);

/* A folder of this process that ui_forget() removes; (transfer full). */
char *ui_folder (void);
void ui_forget (const char *folder);

/* A folder with an invented practice: made once in a process, then copied; (transfer full). */
char *ui_demo (const SwDemoOptions *options);

/* 2026-05-13T09:00, where every practice of the fixtures begins. */
SwMoment ui_begin (void);

/* A practice-only record with one person who has all roles and one dog of 24.6 kg with tumour A at its left hock. */
typedef struct
{
  char *folder;
  SwClock *clock;
  gint64 person;
  gint64 patient;
  gint64 tumour;
} UiPractice;

UiPractice *ui_practice_new (void);
void ui_practice_free (UiPractice *practice);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (UiPractice, ui_practice_free)

/* Ends the program unless it is done; the caller frees. */
SwReply *ui_perform (SwDesk *desk, SwRequest *request);

/* The window, open on the record, at 1280 x 720. */
SwWindow *ui_open (const char *folder, SwClock *clock);
/* Shows the dog and waits until its page does. */
void ui_show_patient (SwWindow *window, gint64 patient);
/* Closes as a person would, and waits until everything queued is written. */
void ui_close (SwWindow *window);

/* The window that stands over this one; NULL: none. */
GtkWidget *ui_dialog (SwWindow *window);

/* The first widget below `root` (or it) of this type, and the one with this accessible name or text; NULL: none. */
GtkWidget *ui_find_type (GtkWidget *root, GType type);
GtkWidget *ui_find_button (GtkWidget *root, const char *words);
/* What a screen reader calls it; NULL: nothing. A field named by a label elsewhere answers with a word of its own.
 * (transfer full) */
char *ui_name (GtkWidget *widget);
void ui_click (GtkWidget *button);
/* Gives it the focus, does what Enter does, and settles. A button stays down for a moment before it is clicked; FALSE:
 * its page was built anew meanwhile (the record changed), look for the new one. */
gboolean ui_press_by_key (GtkWidget *button);
/* Whether Tab can come to it; the text inside an entry is read out by the entry's name. */
gboolean ui_takes_focus (GtkWidget *widget);
/* Fails unless each widget below that can be focused and is shown has a name that is not among `names` yet; adds them.
 * */
void ui_check_names (GtkWidget *widget, GHashTable *names);

/* The whole of the widget's window, as it is on the screen. */
void ui_photograph (GtkWidget *widget, const char *file);

G_END_DECLS
