/* sw-tool-clinical-private.h: what the clinical commands without a record have in common
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-books.h"
#include "sw-tool-private.h"

G_BEGIN_DECLS

/* A shipped protocol by its id; @books (out) owns it. An unknown id is an error that lists the known ones. */
const SwProtocol *sw_tool_find_protocol (SwTool *tool, const char *id, SwBooks **books, GError **error);

gboolean sw_tool_parse_weight (SwTool *tool, const char *text, gint64 *grams, GError **error);

G_END_DECLS
