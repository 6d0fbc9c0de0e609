/* sw-journal-private.h: how a line of the journal is spelled out and digested
 *
 *   payload = field (schema version) field (row 1) field (row 2) ...     each row: sw_fact_append_payload
 *   header  = field (id) field (kind) field (person) field (roles) field (patient) field (at_us) field (offset)
 *             field (batch)
 *   digest  = SHA-256 (digest of the line before, header, payload)
 *   digest before line 1 = SHA-256 (field (record id) field (practice-only))
 *
 * field: canonical text of sw-text.h, so no two different lines have the same spelling.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-store-private.h"

G_BEGIN_DECLS

typedef struct
{
  gint64 id;
  const char *kind;
  gint64 person;
  gint64 roles;
  gint64 patient;
  gint64 at_us;
  gint64 offset_minutes;
  gint64 batch;
} SwJournalHead;

/* (transfer full) of facts that are numbered and resolved; NULL facts: none. */
GString *sw_journal_payload (const GPtrArray *facts);
void sw_journal_genesis (const char *record, gboolean practice_only, guint8 *digest);
void sw_journal_digest (const guint8 *before, const SwJournalHead *head, const char *payload, guint8 *digest);
/* `text` holds 65 bytes. */
void sw_journal_hex (const guint8 *digest, char *text);

/* Fills store->next_act and store->head, if they are not known yet. */
gboolean sw_journal_read_head (SwStore *store, GError **error);
gboolean sw_journal_write (SwStore *store, const SwJournalHead *head, const char *payload, GError **error);

/* Walks the fields of canonical text: FALSE at the end, or where the text is broken (then *cursor is NULL). A missing
 * field has value NULL. */
gboolean sw_journal_next_field (const char **cursor, const char **value, gsize *length);

/* One row of a payload, and its whole text. */
typedef struct
{
  SwJournalRow row;
  const char *text;
  gsize length;
} SwPayloadRow;

/* (transfer full) SwPayloadRow, pointing into `payload`; NULL if it is broken. `version`: (out) (optional) */
GArray *sw_journal_parse (const char *payload, gint64 *version);

G_END_DECLS
