/* sw-record.h: a record open in a window: everything asynchronous, and what changed as signals
 *
 * Two threads of its own: a writer that owns the desk and works off acts and page loads in order, and a reader on a
 * read-only connection for what takes long (check, backup). Replies arrive in the caller's main context; the main loop
 * never waits. Cancelling reaches into the database.
 *
 * Signals, emitted in the context the record was opened in:
 *   changed (gint64 patient)   something about this patient was written, here or by another program
 *   practice-changed ()        people, settings or documents; get_practice and get_books already answer anew
 *   day-changed ()             local midnight of the record's zone has passed
 * A change signal comes after the reply of the request that caused it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-check.h"
#include "sw-desk.h"
#include "sw-outcomes.h"
#include "sw-store.h"

#include <gio/gio.h>

G_BEGIN_DECLS

#define SW_TYPE_RECORD (sw_record_get_type ())
G_DECLARE_FINAL_TYPE (SwRecord, sw_record, SW, RECORD, GObject)

/* founding NULL: open the record that is there; else make it first. The clock is referenced. */
void sw_record_open_async (const char *directory, const SwFounding *founding, SwClock *clock, GCancellable *cancellable,
                           GAsyncReadyCallback callback, gpointer data);
SwRecord *sw_record_open_finish (GAsyncResult *result, GError **error);
/* Works off what is queued, then closes both connections. Later calls fail with SW_ERROR_RECORD. */
void sw_record_close_async (SwRecord *self, GAsyncReadyCallback callback, gpointer data);
gboolean sw_record_close_finish (SwRecord *self, GAsyncResult *result, GError **error);

/* Takes the request. */
void sw_record_perform_async (SwRecord *self, SwRequest *request, GCancellable *cancellable,
                              GAsyncReadyCallback callback, gpointer data);
SwReply *sw_record_perform_finish (SwRecord *self, GAsyncResult *result, GError **error);

void sw_record_load_dossier_async (SwRecord *self, gint64 patient, GCancellable *cancellable,
                                   GAsyncReadyCallback callback, gpointer data);
SwDossier *sw_record_load_dossier_finish (SwRecord *self, GAsyncResult *result, GError **error);

/* The practice as last read; never NULL on an open record. Borrowed until the next return to the main loop. */
const SwPractice *sw_record_get_practice (SwRecord *self);
const SwBooks *sw_record_get_books (SwRecord *self);
const char *sw_record_get_directory (SwRecord *self);
gboolean sw_record_get_practice_only (SwRecord *self);
GTimeZone *sw_record_get_zone (SwRecord *self);
SwNow sw_record_get_now (SwRecord *self);
/* What rules look at, for a page's dossier and a course of it or 0, now. All of it is borrowed: ask again in each
 * callback. */
void sw_record_get_case (SwRecord *self, const SwDossier *dossier, gint64 course, SwCase *c);

/* Newest first; as sw_store_journal. (transfer full) SwJournalLine */
void sw_record_load_log_async (SwRecord *self, gint64 patient, gint64 before, guint limit, GCancellable *cancellable,
                               GAsyncReadyCallback callback, gpointer data);
GPtrArray *sw_record_load_log_finish (SwRecord *self, GAsyncResult *result, GError **error);

/* As sw_store_find_clients. (transfer full) SwClientRow */
void sw_record_find_clients_async (SwRecord *self, const char *search, guint most, GCancellable *cancellable,
                                   GAsyncReadyCallback callback, gpointer data);
GPtrArray *sw_record_find_clients_finish (SwRecord *self, GAsyncResult *result, GError **error);

/* Ids and rows for SwPatientList. (transfer full) gint64; SwListRow */
void sw_record_load_spine_async (SwRecord *self, const char *search, SwShow show, GCancellable *cancellable,
                                 GAsyncReadyCallback callback, gpointer data);
GArray *sw_record_load_spine_finish (SwRecord *self, GAsyncResult *result, GError **error);
void sw_record_load_rows_async (SwRecord *self, const gint64 *patients, guint n, GCancellable *cancellable,
                                GAsyncReadyCallback callback, gpointer data);
GPtrArray *sw_record_load_rows_finish (SwRecord *self, GAsyncResult *result, GError **error);

/* Reports that take long, on the reader thread. */
void sw_record_check_async (SwRecord *self, const char *digest, GCancellable *cancellable, GAsyncReadyCallback callback,
                            gpointer data);
SwCheckReport *sw_record_check_finish (SwRecord *self, GAsyncResult *result, GError **error);
/* The outcomes of the whole record, today. @func hears of each section, in the caller's main context, as soon as it is
 * done; it is not called once @cancellable is cancelled, nor after the reply. */
void sw_record_outcomes_async (SwRecord *self, const SwOutcomeQuery *query, SwOutcomeFunc func, GCancellable *cancellable,
                               GAsyncReadyCallback callback, gpointer data);
SwOutcomes *sw_record_outcomes_finish (SwRecord *self, GAsyncResult *result, GError **error);
/* Into an absent or empty folder. */
void sw_record_backup_async (SwRecord *self, const char *copy, GCancellable *cancellable, GAsyncReadyCallback callback,
                             gpointer data);
gboolean sw_record_backup_finish (SwRecord *self, GAsyncResult *result, GError **error);

G_END_DECLS
