/* sw-record-outcomes.c: the outcomes on the reader thread, section by section to the page that asked
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-record-private.h"

typedef struct
{
  SwOutcomeQuery *query;
  SwOutcomeFunc func;
  gpointer data;
  SwDay today;
} Asking;

static void
asking_free (gpointer data)
{
  Asking *asking = data;

  sw_outcome_query_free (asking->query);
  g_free (asking);
}

/* One section on its way to the caller's context. */
typedef struct
{
  GTask *task;
  SwOutcomeSection *section;
  guint done, total;
} Parcel;

static void
parcel_free (gpointer data)
{
  Parcel *parcel = data;

  g_object_unref (parcel->task);
  sw_outcome_section_unref (parcel->section);
  g_free (parcel);
}

static gboolean
deliver (gpointer data)
{
  const Parcel *parcel = data;
  const Asking *asking = g_task_get_task_data (parcel->task);

  if (!g_cancellable_is_cancelled (g_task_get_cancellable (parcel->task)))
    asking->func (parcel->section, parcel->done, parcel->total, asking->data);
  return G_SOURCE_REMOVE;
}

/* Same priority as the task's reply, so it comes before it. */
static void
post (SwOutcomeSection *section, guint done, guint total, gpointer data)
{
  GTask *task = data;
  g_autoptr (GSource) source = g_idle_source_new ();
  Parcel *parcel = g_new0 (Parcel, 1);

  parcel->task = g_object_ref (task);
  parcel->section = sw_outcome_section_ref (section);
  parcel->done = done;
  parcel->total = total;
  g_source_set_priority (source, g_task_get_priority (task));
  g_source_set_callback (source, deliver, parcel, parcel_free);
  g_source_attach (source, g_task_get_context (task));
}

static SwOutcomes *
compute (SwStore *store, GTask *task, GError **error)
{
  const Asking *asking = g_task_get_task_data (task);
  g_autoptr (SwPractice) practice = sw_store_load_practice (store, error);
  g_autoptr (GArray) rows = practice ? sw_store_load_treated (store, 0, error) : NULL;

  if (rows == NULL)
    return NULL;
  return sw_outcomes_compute (rows, practice, asking->query, asking->today, asking->func ? post : NULL, task,
                              g_task_get_cancellable (task), error);
}

static void
outcomes (gpointer shared, GTask *task)
{
  GError *error = NULL;
  SwStore *store = sw_reader_store (shared, task, &error);
  SwOutcomes *found = NULL;

  if (store != NULL)
    {
      sw_store_set_cancellable (store, g_task_get_cancellable (task));
      found = compute (store, task, &error);
      sw_store_set_cancellable (store, NULL);
    }
  if (found != NULL)
    g_task_return_pointer (task, found, (GDestroyNotify) sw_outcomes_unref);
  else
    g_task_return_error (task, error);
}

void
sw_record_outcomes_async (SwRecord *self, const SwOutcomeQuery *query, SwOutcomeFunc func, GCancellable *cancellable,
                          GAsyncReadyCallback callback, gpointer data)
{
  GTask *task = g_task_new (self, cancellable, callback, data);
  Asking *asking = g_new0 (Asking, 1);

  g_task_set_source_tag (task, sw_record_outcomes_async);
  asking->query = sw_outcome_query_copy (query);
  asking->func = func;
  asking->data = data;
  asking->today = sw_record_get_now (self).local.day;
  g_task_set_task_data (task, asking, asking_free);
  sw_record_queue_reader (self, task, outcomes);
}

SwOutcomes *
sw_record_outcomes_finish (SwRecord *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
