/* sw-error.c: the error domain of the core
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-error.h"

G_DEFINE_QUARK (sw-error-quark, sw_error)
