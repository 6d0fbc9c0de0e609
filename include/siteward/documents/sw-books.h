/* sw-books.h: the parsed documents of a record, so that rules look figures up and never parse
 *
 * Made once from the document rows of the practice (or from the shipped files, for the command line without a record)
 * and shared between threads: it never changes. A course keeps its protocol by document row, so an old revision stays
 * readable beside the new.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dossier.h"
#include "sw-interactions.h"
#include "sw-medicine.h"
#include "sw-protocol.h"

G_BEGIN_DECLS

typedef struct _SwBooks SwBooks;

/* Every document of the record. A row that does not parse is SW_ERROR_RECORD: it was parsed when it was adopted. */
SwBooks *sw_books_new (const SwPractice *practice, GError **error);

/* The documents under DIR (protocols, medicines, interactions), each checked against the others. None is adopted. NULL:
 * the shipped ones. */
SwBooks *sw_books_new_shipped (const char *dir, GError **error);

/* Where the shipped documents lie: SW_DATA_DIR of the environment, else where they were installed, else the source
 * tree. */
char *sw_books_shipped_dir (void);

SwBooks *sw_books_ref (SwBooks *books);
void sw_books_unref (SwBooks *books);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBooks, sw_books_unref)

/* By document row: what a course was made with. NULL: no such row, or no protocol. */
const SwProtocol *sw_books_protocol (const SwBooks *books, gint64 document);

/* By name: the adopted one, else the newest. NULL: none. */
const SwProtocol *sw_books_protocol_named (const SwBooks *books, const char *id);
const SwMedicine *sw_books_medicine (const SwBooks *books, const char *substance);
const SwInteractions *sw_books_interactions (const SwBooks *books);

/* Whether a substance belongs to a class, by its own document or by the lists of the interactions. */
gboolean sw_books_is_class (const SwBooks *books, const char *substance, const char *class_code);

/* SwMedicine: what a document handed in for adoption is checked against (transfer none). */
const GPtrArray *sw_books_medicines (const SwBooks *books);

/* Heads of all documents: protocols, medicines, interactions, each kind by id. (transfer container) SwDocumentHead */
GPtrArray *sw_books_heads (const SwBooks *books);

G_END_DECLS
