/* sw-record.c: opening and closing a record, its two threads, and the signals of what changed
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-record-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

enum
{
  CHANGED,
  PRACTICE_CHANGED,
  DAY_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwRecord, sw_record, G_TYPE_OBJECT)

static void
writer_free (gpointer data)
{
  SwWriter *writer = data;

  sw_desk_free (writer->desk);
  g_weak_ref_clear (&writer->record);
  g_main_context_unref (writer->context);
  g_free (writer);
}

static void
reader_free (gpointer data)
{
  SwReader *reader = data;

  sw_store_close (reader->store);
  g_free (reader);
}

static void
stop (SwRecord *self, gboolean wait)
{
  SwWorker *writer = g_steal_pointer (&self->writer);
  SwWorker *reader = g_steal_pointer (&self->reader);

  if (self->pulse != NULL)
    g_source_destroy (self->pulse);
  g_clear_pointer (&self->pulse, g_source_unref);
  if (reader != NULL)
    sw_worker_stop (reader, reader_free, wait);
  if (writer != NULL)
    sw_worker_stop (writer, writer_free, wait);
}

static void
sw_record_dispose (GObject *object)
{
  stop (SW_RECORD (object), TRUE); /* only the closing of files is left to wait for: a queued task keeps its record */
  G_OBJECT_CLASS (sw_record_parent_class)->dispose (object);
}

static void
sw_record_finalize (GObject *object)
{
  SwRecord *self = SW_RECORD (object);

  sw_clock_unref (self->clock);
  sw_practice_free (self->practice);
  g_clear_pointer (&self->books, sw_books_unref);
  g_clear_pointer (&self->zone, g_time_zone_unref);
  g_free (self->directory);
  G_OBJECT_CLASS (sw_record_parent_class)->finalize (object);
}

static void
sw_record_class_init (SwRecordClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);

  object_class->dispose = sw_record_dispose;
  object_class->finalize = sw_record_finalize;

  signals[CHANGED] = g_signal_new ("changed", SW_TYPE_RECORD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                   G_TYPE_INT64);
  signals[PRACTICE_CHANGED] = g_signal_new ("practice-changed", SW_TYPE_RECORD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                            G_TYPE_NONE, 0);
  signals[DAY_CHANGED]
      = g_signal_new ("day-changed", SW_TYPE_RECORD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
sw_record_init (SwRecord *self)
{
}

/* --- news: from the writer thread to the signals --- */

static void
news_free (SwNews *news)
{
  g_clear_object (&news->record);
  g_clear_pointer (&news->changes, sw_changes_free);
  sw_practice_free (news->practice);
  g_clear_pointer (&news->books, sw_books_unref);
  g_free (news);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwNews, news_free)

static void
take_practice (SwRecord *self, SwNews *news)
{
  sw_practice_free (self->practice);
  self->practice = g_steal_pointer (&news->practice);
  g_clear_pointer (&self->books, sw_books_unref);
  self->books = g_steal_pointer (&news->books);
  g_clear_pointer (&self->zone, g_time_zone_unref);
  self->zone = g_time_zone_new_identifier (sw_practice_zone (self->practice));
}

static gboolean
deliver (gpointer data)
{
  SwNews *news = data;
  SwRecord *self = news->record;

  if (news->practice != NULL)
    {
      take_practice (self, news);
      g_signal_emit (self, signals[PRACTICE_CHANGED], 0);
    }
  for (guint i = 0; i < news->changes->patients->len; i++)
    g_signal_emit (self, signals[CHANGED], 0, g_array_index (news->changes->patients, gint64, i));
  return G_SOURCE_REMOVE;
}

/* Same priority as a task's reply, so it comes after the reply that was returned before it. */
static void
post (SwWriter *writer, SwNews *news)
{
  g_autoptr (GSource) source = g_idle_source_new ();

  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, deliver, news, (GDestroyNotify) news_free);
  g_source_attach (source, writer->context);
}

static gboolean
load_news_of_practice (SwWriter *writer, SwNews *news)
{
  if (sw_desk_practice (writer->desk, NULL) == NULL)
    return FALSE;
  news->practice = sw_store_load_practice (sw_desk_store (writer->desk), NULL);
  news->books = sw_books_ref (sw_desk_books (writer->desk));
  return news->practice != NULL;
}

/* Trouble while looking is no trouble of any caller: the next look starts at the same line. */
void
sw_writer_tell (SwWriter *writer)
{
  g_autoptr (SwNews) news = g_new0 (SwNews, 1);
  SwStore *store = sw_desk_store (writer->desk);

  news->changes = sw_store_changes_after (store, writer->seen, NULL);
  if (news->changes == NULL || (news->changes->practice && !load_news_of_practice (writer, news)))
    return;
  writer->seen = news->changes->last;
  news->record = g_weak_ref_get (&writer->record);
  if (news->record != NULL && (news->practice != NULL || news->changes->patients->len > 0))
    post (writer, g_steal_pointer (&news));
}

/* --- the pulse --- */

static void
look (gpointer shared, GTask *task)
{
  SwWriter *writer = shared;
  gint64 version = sw_store_data_version (sw_desk_store (writer->desk), NULL);

  if (version != writer->version)
    {
      writer->version = version;
      sw_writer_tell (writer);
    }
  g_task_return_boolean (task, TRUE);
}

static void
looked (GObject *source, GAsyncResult *result, gpointer data)
{
  SW_RECORD (source)->looking = FALSE;
}

static gboolean
pulse (gpointer data)
{
  SwRecord *self = data;
  SwDay today = sw_record_get_now (self).local.day;

  if (!self->looking)
    {
      self->looking = TRUE;
      sw_record_queue (self, g_task_new (self, NULL, looked, NULL), look);
    }
  if (today != self->day)
    {
      self->day = today;
      g_signal_emit (self, signals[DAY_CHANGED], 0);
    }
  return G_SOURCE_CONTINUE;
}

static void
start_pulse (SwRecord *self)
{
  self->day = sw_record_get_now (self).local.day;
  self->pulse = g_timeout_source_new_seconds (1);
  g_source_set_callback (self->pulse, pulse, self, NULL);
  g_source_attach (self->pulse, g_main_context_get_thread_default ());
}

/* --- queues --- */

static void
queue (SwWorker *worker, GTask *task, SwWork work)
{
  if (worker != NULL)
    {
      sw_worker_push (worker, task, work);
      return;
    }
  g_task_return_new_error (task, SW_ERROR, SW_ERROR_RECORD, _("The record has been closed."));
  g_object_unref (task);
}

void
sw_record_queue (SwRecord *self, GTask *task, SwWork work)
{
  queue (self->writer, task, work);
}

void
sw_record_queue_reader (SwRecord *self, GTask *task, SwWork work)
{
  queue (self->reader, task, work);
}

/* --- open --- */

typedef struct
{
  SwFounding founding; /* strings owned */
  gboolean found;
  SwPractice *practice; /* read on the way */
  SwBooks *books;
} Opening;

static void
opening_free (gpointer data)
{
  Opening *opening = data;

  g_free ((char *) opening->founding.first_name);
  g_free ((char *) opening->founding.zone);
  g_free ((char *) opening->founding.practice);
  g_free ((char *) opening->founding.seed);
  sw_practice_free (opening->practice);
  g_clear_pointer (&opening->books, sw_books_unref);
  g_free (opening);
}

static Opening *
opening_new (const SwFounding *founding)
{
  Opening *opening = g_new0 (Opening, 1);

  if (founding == NULL)
    return opening;
  opening->found = TRUE;
  opening->founding.first_name = g_strdup (founding->first_name);
  opening->founding.zone = g_strdup (founding->zone);
  opening->founding.practice = g_strdup (founding->practice);
  opening->founding.practice_only = founding->practice_only;
  opening->founding.seed = g_strdup (founding->seed);
  return opening;
}

static gboolean
open_desk (SwWriter *writer, SwRecord *self, Opening *opening, GError **error)
{
  SwStore *store;

  writer->desk = opening->found ? sw_desk_found (self->directory, &opening->founding, self->clock, error)
                                : sw_desk_open (self->directory, self->clock, error);
  if (writer->desk == NULL)
    return FALSE;
  store = sw_desk_store (writer->desk);
  opening->practice = sw_store_load_practice (store, error);
  opening->books = sw_books_ref (sw_desk_books (writer->desk));
  writer->version = sw_store_data_version (store, error);
  writer->seen = sw_store_last_act (store, error);
  self->practice_only = sw_store_is_practice_only (store);
  return opening->practice != NULL && writer->version >= 0 && writer->seen >= 0;
}

/* The record is not yet anyone else's: the opening task is its only owner. */
static void
open_on_writer (gpointer shared, GTask *task)
{
  GError *error = NULL;

  if (open_desk (shared, g_task_get_source_object (task), g_task_get_task_data (task), &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
sw_record_open_async (const char *directory, const SwFounding *founding, SwClock *clock, GCancellable *cancellable,
                      GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr (SwRecord) self = g_object_new (SW_TYPE_RECORD, NULL);
  SwWriter *writer = g_new0 (SwWriter, 1);
  GTask *task = g_task_new (self, cancellable, callback, data);

  g_task_set_source_tag (task, sw_record_open_async);
  g_task_set_task_data (task, opening_new (founding), opening_free);
  self->directory = g_strdup (directory);
  self->clock = sw_clock_ref (clock);
  g_weak_ref_init (&writer->record, self);
  writer->context = g_main_context_ref_thread_default ();
  self->writer = sw_worker_new ("siteward-writer", writer);
  self->reader = sw_worker_new ("siteward-reader", g_new0 (SwReader, 1));
  sw_record_queue (self, task, open_on_writer);
}

SwRecord *
sw_record_open_finish (GAsyncResult *result, GError **error)
{
  GTask *task = G_TASK (result);
  Opening *opening = g_task_get_task_data (task);
  SwRecord *self = g_task_get_source_object (task);

  if (!g_task_propagate_boolean (task, error))
    return NULL;
  self->practice = g_steal_pointer (&opening->practice);
  self->books = g_steal_pointer (&opening->books);
  self->zone = g_time_zone_new_identifier (sw_practice_zone (self->practice));
  start_pulse (self);
  return g_object_ref (self);
}

/* --- close --- */

static void
close_on_writer (gpointer shared, GTask *task)
{
  SwWriter *writer = shared;

  g_clear_pointer (&writer->desk, sw_desk_free);
  g_task_return_boolean (task, TRUE);
}

void
sw_record_close_async (SwRecord *self, GAsyncReadyCallback callback, gpointer data)
{
  GTask *task = g_task_new (self, NULL, callback, data);

  g_task_set_source_tag (task, sw_record_close_async);
  sw_record_queue (self, task, close_on_writer);
  stop (self, FALSE);
}

gboolean
sw_record_close_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}

/* --- what is known without asking --- */

const SwPractice *
sw_record_get_practice (SwRecord *self)
{
  return self->practice;
}

const SwBooks *
sw_record_get_books (SwRecord *self)
{
  return self->books;
}

const char *
sw_record_get_directory (SwRecord *self)
{
  return self->directory;
}

gboolean
sw_record_get_practice_only (SwRecord *self)
{
  return self->practice_only;
}

GTimeZone *
sw_record_get_zone (SwRecord *self)
{
  return self->zone;
}

SwNow
sw_record_get_now (SwRecord *self)
{
  return sw_clock_now (self->clock, self->zone);
}

void
sw_record_get_case (SwRecord *self, const SwDossier *dossier, gint64 course, SwCase *c)
{
  *c = (SwCase){ dossier, self->practice, self->books, course, sw_record_get_now (self).local, self->zone };
}
