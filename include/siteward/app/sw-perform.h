/* sw-perform.h: the one way from a widget to the record: queue a request, show what became of it, lose nothing typed
 *
 * The answer's findings and sentences appear in the finding view beside the fields; without one, and for a page-wide
 * failure (disk, record), in the window's bar, where they stay until handled. The caller's fields are never touched
 * here: they are emptied only by the caller, and only when the reply says done.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding-view.h"
#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* reply NULL: an error (already shown). Else reply->done, or refused with findings (already shown). Not called after
 * `owner` was taken out of its window. */
typedef void (*SwReplied) (GtkWidget *owner, const SwReply *reply, gpointer data);

/* Takes the request; keeps owner, beside and (a GObject or NULL) data until the reply. `beside` and `replied` may be
 * NULL. */
void sw_perform (GtkWidget *owner, SwRecord *record, SwRequest *request, SwFindingView *beside, SwReplied replied,
                 gpointer data);

/* A sentence in the bar at the top of the window, until handled. */
void sw_trouble (GtkWidget *widget, const char *sentence);
/* The same for an error; cancelled is no trouble. */
void sw_trouble_error (GtkWidget *widget, const GError *error);

G_END_DECLS
