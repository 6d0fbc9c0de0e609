/* sw-record-requests.c: acts and loads, queued for the record's threads
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-check-record.h"
#include "sw-record-private.h"

/* Numbers and text that a load needs. */
typedef struct
{
  gint64 patient;
  gint64 before;
  guint limit;
  SwShow show;
  char *text;
  GArray *ids;
} Query;

static void
query_free (gpointer data)
{
  Query *query = data;

  g_free (query->text);
  g_clear_pointer (&query->ids, g_array_unref);
  g_free (query);
}

static GTask *
new_task (SwRecord *self, gpointer tag, GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  GTask *task = g_task_new (self, cancellable, callback, data);

  g_task_set_source_tag (task, tag);
  return task;
}

/* A load of any kind: queued with its query. */
static void
queue_load (SwRecord *self, GTask *task, const Query *query, SwWork work)
{
  g_task_set_task_data (task, g_memdup2 (query, sizeof *query), query_free);
  sw_record_queue (self, task, work);
}

static void
return_pointer (GTask *task, gpointer result, GDestroyNotify free_result, GError *error)
{
  if (result != NULL)
    g_task_return_pointer (task, result, free_result);
  else
    g_task_return_error (task, error);
}

/* --- acts --- */

static void
perform (gpointer shared, GTask *task)
{
  SwWriter *writer = shared;
  GError *error = NULL;
  SwReply *reply = sw_desk_perform (writer->desk, g_task_get_task_data (task), &error);
  gboolean wrote = reply != NULL && reply->done;

  return_pointer (task, reply, (GDestroyNotify) sw_reply_free, error);
  if (wrote)
    sw_writer_tell (writer);
}

/* Once begun an act is not broken off: it is kept or refused, and the caller hears which. */
void
sw_record_perform_async (SwRecord *self, SwRequest *request, GCancellable *cancellable, GAsyncReadyCallback callback,
                         gpointer data)
{
  GTask *task = new_task (self, sw_record_perform_async, cancellable, callback, data);

  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, request, (GDestroyNotify) sw_request_free);
  sw_record_queue (self, task, perform);
}

SwReply *
sw_record_perform_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

/* --- loads, on the writer thread: they see every act queued before them --- */

static SwStore *
store_for (SwWriter *writer, GTask *task)
{
  SwStore *store = sw_desk_store (writer->desk);

  sw_store_set_cancellable (store, g_task_get_cancellable (task));
  return store;
}

static void
load_dossier (gpointer shared, GTask *task)
{
  const Query *query = g_task_get_task_data (task);
  SwStore *store = store_for (shared, task);
  GError *error = NULL;
  SwDossier *dossier = sw_store_load_dossier (store, query->patient, &error);

  sw_store_set_cancellable (store, NULL);
  return_pointer (task, dossier, (GDestroyNotify) sw_dossier_free, error);
}

void
sw_record_load_dossier_async (SwRecord *self, gint64 patient, GCancellable *cancellable, GAsyncReadyCallback callback,
                              gpointer data)
{
  queue_load (self, new_task (self, sw_record_load_dossier_async, cancellable, callback, data),
              &(Query){ .patient = patient }, load_dossier);
}

SwDossier *
sw_record_load_dossier_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
load_log (gpointer shared, GTask *task)
{
  const Query *query = g_task_get_task_data (task);
  SwStore *store = store_for (shared, task);
  GError *error = NULL;
  GPtrArray *lines = sw_store_journal (store, query->patient, query->before, query->limit, &error);

  sw_store_set_cancellable (store, NULL);
  return_pointer (task, lines, (GDestroyNotify) g_ptr_array_unref, error);
}

void
sw_record_load_log_async (SwRecord *self, gint64 patient, gint64 before, guint limit, GCancellable *cancellable,
                          GAsyncReadyCallback callback, gpointer data)
{
  queue_load (self, new_task (self, sw_record_load_log_async, cancellable, callback, data),
              &(Query){ .patient = patient, .before = before, .limit = limit }, load_log);
}

GPtrArray *
sw_record_load_log_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
find_clients (gpointer shared, GTask *task)
{
  const Query *query = g_task_get_task_data (task);
  SwStore *store = store_for (shared, task);
  GError *error = NULL;
  GPtrArray *clients = sw_store_find_clients (store, query->text, query->limit, &error);

  sw_store_set_cancellable (store, NULL);
  return_pointer (task, clients, (GDestroyNotify) g_ptr_array_unref, error);
}

void
sw_record_find_clients_async (SwRecord *self, const char *search, guint most, GCancellable *cancellable,
                              GAsyncReadyCallback callback, gpointer data)
{
  queue_load (self, new_task (self, sw_record_find_clients_async, cancellable, callback, data),
              &(Query){ .text = g_strdup (search), .limit = most }, find_clients);
}

GPtrArray *
sw_record_find_clients_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
load_spine (gpointer shared, GTask *task)
{
  const Query *query = g_task_get_task_data (task);
  SwWriter *writer = shared;
  SwStore *store = store_for (writer, task);
  SwSpineQuery spine = { query->text, query->show, sw_desk_now (writer->desk).local.day };
  GError *error = NULL;
  GArray *ids = sw_store_spine (store, &spine, &error);

  sw_store_set_cancellable (store, NULL);
  return_pointer (task, ids, (GDestroyNotify) g_array_unref, error);
}

void
sw_record_load_spine_async (SwRecord *self, const char *search, SwShow show, GCancellable *cancellable,
                            GAsyncReadyCallback callback, gpointer data)
{
  queue_load (self, new_task (self, sw_record_load_spine_async, cancellable, callback, data),
              &(Query){ .text = g_strdup (search), .show = show }, load_spine);
}

GArray *
sw_record_load_spine_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
load_rows (gpointer shared, GTask *task)
{
  const Query *query = g_task_get_task_data (task);
  SwStore *store = store_for (shared, task);
  GError *error = NULL;
  GPtrArray *rows = sw_store_list_rows (store, (const gint64 *) query->ids->data, query->ids->len, &error);

  sw_store_set_cancellable (store, NULL);
  return_pointer (task, rows, (GDestroyNotify) g_ptr_array_unref, error);
}

void
sw_record_load_rows_async (SwRecord *self, const gint64 *patients, guint n, GCancellable *cancellable,
                           GAsyncReadyCallback callback, gpointer data)
{
  GArray *ids = g_array_sized_new (FALSE, FALSE, sizeof (gint64), n);

  g_array_append_vals (ids, patients, n);
  queue_load (self, new_task (self, sw_record_load_rows_async, cancellable, callback, data), &(Query){ .ids = ids },
              load_rows);
}

GPtrArray *
sw_record_load_rows_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

/* --- what takes long, on the reader thread --- */

SwStore *
sw_reader_store (SwReader *reader, GTask *task, GError **error)
{
  SwRecord *self = g_task_get_source_object (task);

  if (reader->store == NULL)
    reader->store = sw_store_open (self->directory, SW_STORE_READ, error);
  return reader->store;
}

static void
check (gpointer shared, GTask *task)
{
  GError *error = NULL;
  SwStore *store = sw_reader_store (shared, task, &error);
  SwCheckReport *report
      = store ? sw_check_record (store, g_task_get_task_data (task), g_task_get_cancellable (task), &error) : NULL;

  return_pointer (task, report, (GDestroyNotify) sw_check_report_free, error);
}

void
sw_record_check_async (SwRecord *self, const char *digest, GCancellable *cancellable, GAsyncReadyCallback callback,
                       gpointer data)
{
  GTask *task = new_task (self, sw_record_check_async, cancellable, callback, data);

  g_task_set_task_data (task, g_strdup (digest), g_free);
  sw_record_queue_reader (self, task, check);
}

SwCheckReport *
sw_record_check_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
backup (gpointer shared, GTask *task)
{
  GError *error = NULL;
  SwStore *store = sw_reader_store (shared, task, &error);

  if (store != NULL
      && sw_store_backup (store, g_task_get_task_data (task), NULL, NULL, g_task_get_cancellable (task), &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
sw_record_backup_async (SwRecord *self, const char *copy, GCancellable *cancellable, GAsyncReadyCallback callback,
                        gpointer data)
{
  GTask *task = new_task (self, sw_record_backup_async, cancellable, callback, data);

  g_task_set_task_data (task, g_strdup (copy), g_free);
  sw_record_queue_reader (self, task, backup);
}

gboolean
sw_record_backup_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}
