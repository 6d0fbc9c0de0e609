/* sw-finding-view.h: findings and errors as words beside what they concern
 *
 *   stop          This dose may not be given: ...
 *                 Open to you: ...
 *   vet decides   ...
 *
 * The severity is a word and a shape; the colour only repeats it. Takes no room while it is empty.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_FINDING_VIEW (sw_finding_view_get_type ())
G_DECLARE_FINAL_TYPE (SwFindingView, sw_finding_view, SW, FINDING_VIEW, GtkWidget)

GtkWidget *sw_finding_view_new (void);

/* SwFinding; the worst first. Those that are met are left out unless `all`. */
void sw_finding_view_set_findings (SwFindingView *self, const GPtrArray *findings, gboolean all);
void sw_finding_view_set_error (SwFindingView *self, const GError *error);
/* A sentence of one's own and what can be done about it (NULL: nothing to say). */
void sw_finding_view_set_sentence (SwFindingView *self, SwSeverity severity, const char *sentence, const char *next);
void sw_finding_view_clear (SwFindingView *self);
gboolean sw_finding_view_is_empty (SwFindingView *self);

/* A severity as its shape and its word. */
GtkWidget *sw_severity_new (SwSeverity severity);

/* One finding as a row of its own, for lists that put something beside it (a field for the vet's reason). */
GtkWidget *sw_finding_row_new (const SwFinding *finding);

G_END_DECLS
