/* sw-schema-private.h: the versions of the schema and the steps from one to the next
 *
 * Changing the schema means four things together: a version here with its reason, a step in sw-schema.c with its SQL in
 * data/schema, a fixture (a small record of the version before, in tests/store/fixtures), and a test that brings that
 * fixture up to date. A step never touches act.payload; if it changes a fact table, it brings along how sw-check
 * compares rows with payloads of the version before. Guards (triggers, views, indexes of fact tables) are made anew
 * after the last step, and derived tables may be dropped.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-db-private.h"

G_BEGIN_DECLS

typedef enum
{
  SW_SCHEMA_FIRST = 1, /* 0001: founding, journal, facts, derived tables */
} SwSchemaVersion;
#define SW_SCHEMA_NOW SW_SCHEMA_FIRST

typedef struct
{
  int version;             /* after the step */
  const char *const *scripts; /* resource paths, in order, NULL at the end */
  gboolean (*code) (SwDb *db, GError **error); /* after the scripts; NULL: none */
} SwSchemaStep;

/* One step for each version, from the first. */
const SwSchemaStep *sw_schema_steps (guint *n);

/* What is in the file: its user_version. Refuses what is no record, and a newer one, with a sentence. */
gboolean sw_schema_identify (SwDb *db, int newest, gint64 *version, GError **error);

/* Runs the steps after `version`, makes the guards, and writes the header, all in one transaction. */
gboolean sw_schema_upgrade (SwDb *db, const SwSchemaStep *steps, guint n, gint64 version, GError **error);

G_END_DECLS
