/* sw-focus.h: Tab where GTK 4.8 loses it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A scrolled window holds the focus fast when nothing inside takes it. To be told whenever the children of `inside`, a strip that
 * scrolls, have changed: Tab passes it by while there are none. */
void sw_focus_strip_changed (GtkWidget *inside);

/* To be called before the focus moves in this window:
 * - A page that is hidden while it has the focus stays its parent's focus child, and Tab never comes back into what is shown instead:
 *   only the focus itself is remembered.
 * - Tab is offered to what is folded away in an expander, too, and complains of it. */
void sw_focus_prepare (GtkWindow *window);

G_END_DECLS
