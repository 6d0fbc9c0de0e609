/* sw-strengths.h: the strengths of a medicine on the shelf, as they are typed and as the setting keeps them
 *
 * Typed: "1; 2,5; 5 mg; 1.5 mg/mL". Kept: "1000;2500;5000;1500/mL", in ug and ug per mL, as rules read it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* SW_ERROR_INPUT with the entry that can't be read. (transfer full) */
char *sw_strengths_parse (const char *typed, GError **error);
/* (transfer full) */
char *sw_strengths_format (const char *setting);

G_END_DECLS
