/* shelf.h: the shipped documents, and the dossier of one dog that tests fill row by row
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"

#include <check.h>

#define SHELF_PATIENT 12
#define SHELF_DOCUMENT 7000

static inline SwBooks *
shelf_shipped (void)
{
  g_autofree char *dir = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", NULL);
  g_autoptr (GError) error = NULL;
  SwBooks *books = sw_books_new_shipped (dir, &error);

  ck_assert_msg (books != NULL, "%s", error ? error->message : "");
  return books;
}

static inline GBytes *
shelf_bytes (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), folder, name, NULL);
  char *text = NULL;
  gsize size = 0;

  ck_assert_msg (g_file_get_contents (path, &text, &size, NULL), "%s", path);
  return g_bytes_new_take (text, size);
}

static inline SwProtocol *
shelf_protocol (const char *folder, const char *name)
{
  g_autoptr (GBytes) bytes = shelf_bytes (folder, name);
  g_autoptr (GError) error = NULL;
  SwProtocol *protocol = sw_protocol_parse (name, bytes, NULL, &error);

  ck_assert_msg (protocol != NULL, "%s", error ? error->message : "");
  return protocol;
}

/* Put a fact among others as store would after writing it. */
static inline gpointer
shelf_put (SwFacts *facts, gint64 id, gpointer fact)
{
  SwFact *head = fact;

  head->id = id;
  head->patient = SHELF_PATIENT;
  sw_facts_add (facts, fact);
  return fact;
}

/* A practice whose only document is a shipped protocol, under the row SHELF_DOCUMENT. */
static inline SwPractice *
shelf_practice (const char *name)
{
  SwPractice *practice = sw_practice_new ();
  SwDocument *document = sw_new (SW_FACT_DOCUMENT, SwDocument);
  g_autofree char *file = g_strconcat (name, ".xml", NULL);

  document->doc_kind = SW_DOCUMENT_PROTOCOL;
  document->doc_id = g_strdup (name);
  document->revision = g_strdup ("1");
  document->digest = g_strdup ("");
  document->bytes = shelf_bytes ("data/protocols", file);
  shelf_put (&practice->facts, SHELF_DOCUMENT, document);
  return practice;
}
