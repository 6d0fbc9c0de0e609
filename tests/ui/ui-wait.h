/* ui-wait.h: waiting for what happens in the main loop and on the record's threads
 *
 * Nothing here sleeps for a time of its own: what is waited for ends the wait. The bound is only there to end a test that
 * waits in vain; SW_TEST_PATIENCE in the environment multiplies it (sanitizers, valgrind).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef gboolean (*UiCondition) (gpointer data);

/* Runs the main loop until the condition holds; FALSE: 30 seconds are over. */
gboolean ui_wait_or_give_up (UiCondition condition, gpointer data);
/* The same, but ends the program. */
void ui_wait (UiCondition condition, gpointer data, const char *what);
/* Until every open record has done what it was asked for, what came of it too, and the windows are drawn again. */
void ui_settle (void);

G_END_DECLS
