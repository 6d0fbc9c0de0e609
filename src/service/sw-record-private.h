/* sw-record-private.h: the inside of an open record, shared by its two files
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-desk-private.h"
#include "sw-record.h"
#include "sw-worker-private.h"

G_BEGIN_DECLS

/* What the writer thread owns. */
typedef struct
{
  GWeakRef record;       /* who hears about changes */
  GMainContext *context; /* where */
  SwDesk *desk;          /* NULL until opened */
  gint64 seen;           /* journal line up to which changes were told */
  gint64 version;        /* data_version at the last look */
} SwWriter;

/* What the reader thread owns. */
typedef struct
{
  SwStore *store; /* NULL until opened */
} SwReader;

struct _SwRecord
{
  GObject parent_instance;

  SwWorker *writer; /* NULL once closed */
  SwWorker *reader;
  SwClock *clock;
  char *directory;
  gboolean practice_only;

  /* as last read, in the main context */
  SwPractice *practice;
  SwBooks *books;
  GTimeZone *zone;

  GSource *pulse; /* every second: midnight, and other programs' acts */
  SwDay day;
  gboolean looking;
};

/* What one look at the journal brought; handed to the main context. */
typedef struct
{
  SwRecord *record;
  SwChanges *changes;
  SwPractice *practice; /* set when it changed */
  SwBooks *books;
} SwNews;

/* On the writer thread: tells the record what was written since the last look, if it is still there. */
void sw_writer_tell (SwWriter *writer);

/* Queues `work`, which reads or writes on the writer thread; fails the task where the record is closed. Takes the
 * task. */
void sw_record_queue (SwRecord *self, GTask *task, SwWork work);
void sw_record_queue_reader (SwRecord *self, GTask *task, SwWork work);
/* On the reader thread: its connection, opened when first needed; NULL: error. */
SwStore *sw_reader_store (SwReader *reader, GTask *task, GError **error);

G_END_DECLS
