/* sw-number-private.h: a double as the shortest text that reads back as the same.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* @value finite. "-0" is written as "0". */
void sw_number_append (GString *out, double value);
