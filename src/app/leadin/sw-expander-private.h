/* sw-expander-private.h: a part of the page that is folded away until it is wanted, named for screen readers by its words
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *sw_expander_new (const char *words);

G_END_DECLS
