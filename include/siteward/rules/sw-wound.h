/* sw-wound.h: the area of a wound by the ruler (domain 7)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-wide.h"

#include <glib.h>

G_BEGIN_DECLS

/* An ellipse: L x W x pi/4, in mm2, of a length and a width in 0.01 mm. FALSE on overflow. On real wounds it reads some 41 % over
 * for L x W (Rogers 2010, doi 10.1177/193229681000400405), of which the ellipse takes off 27.3 %. */
gboolean sw_wound_area (gint64 length, gint64 width, SwRatio *mm2) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
