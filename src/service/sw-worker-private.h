/* sw-worker-private.h: one thread that works off tasks in the order they came
 *
 * The only place that starts a thread. What the work functions share (a desk, a connection) is theirs alone.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct _SwWorker SwWorker;

/* Runs on the thread; must return through the task. A task cancelled while it waited is never begun. */
typedef void (*SwWork) (gpointer shared, GTask *task);

SwWorker *sw_worker_new (const char *name, gpointer shared);
/* Takes the task. */
void sw_worker_push (SwWorker *worker, GTask *task, SwWork work);
/* The thread ends once what is queued is worked off; `last` is called on it at the very end. Whether to wait for that;
 * the thread itself never does. */
void sw_worker_stop (SwWorker *worker, GDestroyNotify last, gboolean wait);

G_END_DECLS
