/* sw-dose-shape-private.h: the shape of a dose's state, as on the course line; the word stands beside it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-course-line.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *sw_dose_shape_new (void);
void sw_dose_shape_set (GtkWidget *shape, SwMarkState state);

G_END_DECLS
