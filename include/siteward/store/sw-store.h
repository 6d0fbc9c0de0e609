/* sw-store.h: a practice's record on disk: the only door to SQL
 *
 * A record is a folder: DIR/record.sqlite and DIR/photos/. Facts are added, never changed; every act is a line of the
 * journal whose digest covers the line before it, so that a changed row is found (sw-check.h). Calls block: they belong
 * on a worker thread, and a store belongs to one thread at a time. Several stores, in one program or in many, may have
 * the same record open.
 *
 * Errors, always with a whole sentence: SW_ERROR_RECORD (no record, a foreign, newer or damaged one, a network file
 * system), SW_ERROR_BUSY, SW_ERROR_DISK (full, read-only, failing: nothing was saved), SW_ERROR_ROLE,
 * SW_ERROR_CONFLICT, SW_ERROR_INPUT. After a failed write the transaction can only be rolled back.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-act.h"
#include "sw-dossier.h"
#include "sw-summary.h"
#include "sw-treated.h"

#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct _SwStore SwStore;

typedef enum { SW_STORE_WRITE, SW_STORE_READ } SwStoreMode;

/* What founds a record. The founding act makes the first person, with all roles (row 1), and the setting "zone". */
typedef struct
{
  const char *person; /* name of the first person */
  const char *zone;   /* IANA name of the record's zone */
  gboolean practice_only;
  const char *seed;   /* the record's 128-bit id derives from it, for practice-only records; NULL: random */
  gint64 at_us;       /* UTC microseconds */
  int offset_minutes; /* local minus UTC */
} SwStoreSetup;

/* Makes the record in an absent or empty folder and opens it for writing. */
SwStore *sw_store_create (const char *dir, const SwStoreSetup *setup, GError **error);
/* Opening for writing brings an older schema up to date, after a backup beside it. */
SwStore *sw_store_open (const char *dir, SwStoreMode mode, GError **error);
/* Rolls back what is open. NULL is allowed. */
void sw_store_close (SwStore *store);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwStore, sw_store_close)

const char *sw_store_dir (const SwStore *store);
const char *sw_store_id (const SwStore *store); /* 32 hexadecimal digits */
gboolean sw_store_is_practice_only (const SwStore *store);

/* While set, long queries of this store end with G_IO_ERROR_CANCELLED when it is cancelled. NULL: none. */
void sw_store_set_cancellable (SwStore *store, GCancellable *cancellable);

/* --- transactions; they don't nest --- */

/* BEGIN IMMEDIATE: from here on nobody else writes, and what is read stays true until commit. */
gboolean sw_store_begin (SwStore *store, GError **error);
/* TRUE: durable. FALSE: rolled back, nothing was saved. */
gboolean sw_store_commit (SwStore *store, GError **error);
/* Harmless when nothing is open. */
void sw_store_rollback (SwStore *store);
/* Several loads of one state of the record. Harmless inside a write transaction. */
gboolean sw_store_read_begin (SwStore *store, GError **error);
void sw_store_read_end (SwStore *store);

/* --- acts --- */

/* `patient` may be -n (the n-th fact of the act) or 0; with 0 the patient of the facts, if they have one, is taken. */
typedef struct
{
  SwActKind kind;
  gint64 person;
  gint64 patient;
  gint64 at_us;       /* UTC microseconds */
  int offset_minutes; /* local minus UTC */
  gint64 batch;       /* 0, or what sw_store_new_batch gave: many acts, one transaction */
} SwActHead;

/**
 * sw_store_append:
 * @facts: (element-type SwFact) (nullable): rows of the act, of one patient or none
 * @act: (out) (optional): number of the journal line
 *
 * Writes one act inside the open write transaction: asks the act x role table with the person's present roles,
 * validates every fact, resolves -n references (to earlier facts only), numbers the rows, inserts them, keeps the
 * search index, writes the journal line. The facts are filled in: id, act, patient, person, recorded_us and resolved
 * references.
 *
 * Rows that only a vet may write (release, injection, score ...) need a person who may do that act, under whatever act
 * they come; taking such a row back needs only the act itself.
 *
 * A correction keeps its subject (patient and subject fields): to say the same about another day or tumour, take the row
 * back and write a first one.
 *
 * SW_ERROR_CONFLICT names who was first and when, if a replaced row is already replaced or a subject already has its
 * first row. An act that is refused before its first row (role, input) leaves the transaction as it was; after any other
 * failure it can't be committed.
 */
gboolean sw_store_append (SwStore *store, const SwActHead *head, GPtrArray *facts, gint64 *act, GError **error);

/* A number for a batch; 0 on error. Inside the write transaction. */
gint64 sw_store_new_batch (SwStore *store, GError **error);

/* Derived line of the patient list; replaces the course's line. Inside the write transaction of the act that touched
 * the course. */
gboolean sw_store_put_summary (SwStore *store, const SwCourseSummary *summary, GError **error);

/* Derived rows of what was injected into a dog: SwTreated, which replace all rows of that dog. Inside the write
 * transaction of the act that touched it. */
gboolean sw_store_put_treated (SwStore *store, gint64 patient, const GArray *rows, GError **error);

/* --- reading --- */

/* The derived rows of one dog, or (0) of all, by course and tumour. (transfer full) SwTreated */
GArray *sw_store_load_treated (SwStore *store, gint64 patient, GError **error);

SwPractice *sw_store_load_practice (SwStore *store, GError **error);
/* SW_ERROR_INPUT if there is no such patient. */
SwDossier *sw_store_load_dossier (SwStore *store, gint64 patient, GError **error);

typedef enum { SW_SHOW_ALL, SW_SHOW_OPEN, SW_SHOW_DUE, SW_N_SHOWS } SwShow;

typedef struct
{
  const char *search; /* words that must each begin a word of patient, client or number; NULL or "": no search */
  SwShow show;        /* open: has an open course; due: its next thing is due on or before `today` */
  SwDay today;
} SwSpineQuery;

/* Ids of the patients that match, by name (as folded), then by number. (transfer full) gint64 */
GArray *sw_store_spine (SwStore *store, const SwSpineQuery *query, GError **error);

typedef struct
{
  gint64 patient;
  char *name;
  char *client;
  const char *stage; /* interned code; "" without a course. The open course, else the newest */
  SwDay due_day;
  gint64 due_minute;
  gboolean open;
} SwListRow;

void sw_list_row_free (SwListRow *row);
/* (transfer full) SwListRow in the order of `ids`; unknown ids are left out. */
GPtrArray *sw_store_list_rows (SwStore *store, const gint64 *ids, guint n, GError **error);

typedef struct
{
  gint64 client;
  char *name;
  char *phone; /* nullable */
} SwClientRow;

void sw_client_row_free (SwClientRow *row);
/* Clients each of whose search words begins a word of the name, by name. (transfer full) SwClientRow */
GPtrArray *sw_store_find_clients (SwStore *store, const char *search, guint most, GError **error);

/* --- journal --- */

typedef struct
{
  SwFactKind kind;
  gint64 id;
  gint64 replaces;
  gboolean withdrawn;
} SwJournalRow;

typedef struct
{
  gint64 id;
  SwActKind kind;
  gint64 person;
  char *person_name; /* as it is now */
  gint64 roles;      /* the person's at that time */
  gint64 patient;    /* 0: none */
  gint64 at_us;
  int offset_minutes;
  gint64 batch;      /* 0: none */
  GArray *rows;      /* SwJournalRow: what it wrote */
  char digest[65];   /* SHA-256, hexadecimal */
} SwJournalLine;

void sw_journal_line_free (SwJournalLine *line);
/* Newest first: lines below `before` (0: from the newest), of one patient or (0) of all, at most `limit`. (transfer
 * full) */
GPtrArray *sw_store_journal (SwStore *store, gint64 patient, gint64 before, guint limit, GError **error);

/* Number of the newest line; -1 on error. */
gint64 sw_store_last_act (SwStore *store, GError **error);
/* (transfer full) hexadecimal digest of the newest line: what a printout or a safe may keep against the record. */
char *sw_store_head_digest (SwStore *store, GError **error);
/* Changes when another connection has committed; -1 on error. */
gint64 sw_store_data_version (SwStore *store, GError **error);

typedef struct
{
  gint64 last;      /* newest journal line looked at */
  GArray *patients; /* gint64: touched, also through their client; each once */
  gboolean practice; /* people, settings, documents or adoptions were written */
} SwChanges;

void sw_changes_free (SwChanges *changes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwChanges, sw_changes_free)
/* What was written after a journal line, by anyone. (transfer full) */
SwChanges *sw_store_changes_after (SwStore *store, gint64 act, GError **error);

G_END_DECLS
