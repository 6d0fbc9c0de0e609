/* store-fixture.h: a record in a temporary folder, and facts to put into it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-check.h"
#include "sw-store.h"
#include "sw-store-private.h"

/* A folder that does not exist yet, in a fresh temporary one; fixture_remove takes both away. (transfer full) */
char *fixture_folder (void);
void fixture_remove (char *folder);

/* Practice-only, seeded, one person (1) with all roles; fails the test on error. */
SwStore *fixture_create (const char *folder);
SwStoreSetup fixture_setup (void);

/* One act in its own transaction, by `person`; takes the facts (NULL: none). The journal line; 0 and *error if it
 * failed (rolled back). */
gint64 fixture_act (SwStore *store, SwActKind kind, gint64 person, GPtrArray *facts, GError **error);
/* NULL-terminated facts. (transfer full) */
GPtrArray *fixture_facts (gpointer first, ...) G_GNUC_NULL_TERMINATED;

/* A person with these roles; its row. */
gint64 fixture_person (SwStore *store, const char *name, gint64 roles);
/* A client and a dog; the dog's row. */
gint64 fixture_patient (SwStore *store, const char *dog, const char *client);
gint64 fixture_weigh (SwStore *store, gint64 patient, gint64 grams);

/* A random fact of any kind whose values are possible. References are 1 where they must point somewhere. */
gpointer fixture_random_fact (SwFactKind kind, GRand *rand);
/* One row of every kind, in an order in which references hold, all about patient 1 and course 1. Written by person 1.
 * */
void fixture_fill (SwStore *store, GRand *rand);

/* The check finds nothing, or fails the test with what it found. */
void fixture_assert_sound (SwStore *store);
