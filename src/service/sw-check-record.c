/* sw-check-record.c: the whole check of a record
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-check-record.h"

#include "sw-desk-private.h"

static GArray *
summarise (const SwDossier *dossier, const SwPractice *practice, gpointer books)
{
  return sw_summarise (dossier, practice, books);
}

static GArray *
count_treated (const SwDossier *dossier, const SwPractice *practice, gpointer books)
{
  return sw_count_treated (dossier, practice, books);
}

SwCheckReport *
sw_check_record (SwStore *store, const char *digest, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwPractice) practice = sw_store_load_practice (store, error);
  g_autoptr (SwBooks) books = practice ? sw_books_new (practice, error) : NULL;
  SwCheckOptions options = { .digest = digest, .summarise = summarise, .count_treated = count_treated, .data = books };

  return books ? sw_store_check (store, &options, cancellable, error) : NULL;
}
