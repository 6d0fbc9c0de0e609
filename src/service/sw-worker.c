/* sw-worker.c: one thread that works off tasks in the order they came
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-worker-private.h"

struct _SwWorker
{
  GThread *thread;
  GAsyncQueue *queue;
  gpointer shared;
  GDestroyNotify last;
};

typedef struct
{
  GTask *task; /* NULL: the end of the queue */
  SwWork work;
} Job;

static gpointer
run (gpointer data)
{
  SwWorker *worker = data;

  while (TRUE)
    {
      g_autofree Job *job = g_async_queue_pop (worker->queue);

      if (job->task == NULL)
        break;
      if (!g_task_return_error_if_cancelled (job->task))
        job->work (worker->shared, job->task);
      g_object_unref (job->task);
    }
  if (worker->last != NULL)
    worker->last (worker->shared);
  g_async_queue_unref (worker->queue);
  g_free (worker);
  return NULL;
}

SwWorker *
sw_worker_new (const char *name, gpointer shared)
{
  SwWorker *worker = g_new0 (SwWorker, 1);

  worker->queue = g_async_queue_new ();
  worker->shared = shared;
  worker->thread = g_thread_new (name, run, worker);
  return worker;
}

static void
push (SwWorker *worker, GTask *task, SwWork work)
{
  Job *job = g_new0 (Job, 1);

  job->task = task;
  job->work = work;
  g_async_queue_push (worker->queue, job);
}

void
sw_worker_push (SwWorker *worker, GTask *task, SwWork work)
{
  push (worker, task, work);
}

void
sw_worker_stop (SwWorker *worker, GDestroyNotify last, gboolean wait)
{
  GThread *thread = worker->thread;

  worker->last = last;
  push (worker, NULL, NULL); /* from here on the thread owns the worker */
  if (wait && thread != g_thread_self ())
    g_thread_join (thread);
  else
    g_thread_unref (thread);
}
