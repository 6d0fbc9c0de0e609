/* sw-guard-private.h: what keeps facts from being changed
 *
 * Two guards, made from the descriptors of the facts:
 * - in the file, for whatever program opens it: triggers that abort UPDATE, DELETE and an INSERT that would take
 *   another row's place (REPLACE deletes without asking delete triggers, unless recursive_triggers is on), and indexes
 *   that keep subjects apart;
 * - on the store's own connection, an authorizer that knows only reading, adding, and rewriting derived tables.
 * What a foreign program does after dropping the guards, sw-check finds by the digests.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"

#include "sw-db-private.h"

G_BEGIN_DECLS

/* Drops and makes all triggers, indexes and views of fact tables, journal and founding. */
gboolean sw_guard_install (SwDb *db, GError **error);

/* From now on this connection can't change facts, schema or settings. */
void sw_guard_authorize (SwDb *db);

/* The column that says whose a row is: "patient"; "id" for patients themselves; NULL outside SW_SCOPE_PATIENT. */
const char *sw_guard_patient_column (SwFactKind kind);

G_END_DECLS
