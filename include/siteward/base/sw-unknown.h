/* sw-unknown.h: the one "no value" of a gint64 that may be absent.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* Stands wherever a quantity, a limit or an id may be missing. No quantity is it: parsers refuse negatives. */
#define SW_UNKNOWN G_MININT64
