/* sw-tool-clinical-private.h: what the clinical commands have in common: a protocol and a practice to ask
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-books.h"
#include "sw-tool-private.h"

G_BEGIN_DECLS

/**
 * SwShelf: what a clinical command works with
 * @books: the documents of the record, or the shipped ones
 * @practice: the record's settings; without a record an empty one, which has the defaults
 * @protocol: (borrowed)
 * @adopted: a vet of the record's practice took the protocol into use
 */
typedef struct
{
  SwBooks *books;
  SwPractice *practice;
  const SwProtocol *protocol;
  gboolean adopted;
} SwShelf;

/* A protocol by its id, of the record in @record or, when that is NULL, a shipped one. An unknown id is an error that
 * lists the known ones. */
gboolean sw_shelf_open (SwShelf *shelf, SwTool *tool, const char *record, const char *protocol, GError **error);
void sw_shelf_clear (SwShelf *shelf);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwShelf, sw_shelf_clear)

/* "adopted", "note" when it is not, "protocol" and "revision". */
void sw_shelf_json (const SwShelf *shelf, SwJson *json);
void sw_shelf_print (const SwShelf *shelf);

gboolean sw_tool_parse_weight (SwTool *tool, const char *text, gint64 *grams, GError **error);

G_END_DECLS
