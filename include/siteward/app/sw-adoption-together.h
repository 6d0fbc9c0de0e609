/* sw-adoption-together.h: which documents are offered for adoption together with one
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-books.h"

G_BEGIN_DECLS

/* The document itself first. With a protocol the interactions and the medicines it plans; with the interactions those
 * medicines whose documents say which class they are, where no other document does. What the practice has adopted is
 * left out. (transfer container) SwDocumentHead of `books` */
GPtrArray *sw_adoption_together (const SwPractice *practice, const SwBooks *books, const SwDocumentHead *document);

G_END_DECLS
