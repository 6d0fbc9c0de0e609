/* sw-outside-dialog-private.h: a vet writes down that a dose was drawn although the gate or a limit stood against it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

void sw_outside_dialog_show (GtkWidget *parent, SwPageContext *context);

G_END_DECLS
