/* sw-check.h: is the record still what was written? and copies of it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-store.h"

G_BEGIN_DECLS

/* Called now and then with how much is done; on the calling thread. */
typedef void (*SwProgressFunc) (gint64 done, gint64 total, gpointer data);

/* What the courses of a dog should show in the list: SwCourseSummary, each course once. Rules know; store hands the
 * dossier in. (transfer full) of the array, whose elements are structs, not pointers. */
typedef GArray *(*SwSummariseFunc) (const SwDossier *dossier, const SwPractice *practice, gpointer data);
/* Likewise what the outcomes count of the dog: SwTreated, by course and tumour. */
typedef GArray *(*SwCountTreatedFunc) (const SwDossier *dossier, const SwPractice *practice, gpointer data);

typedef struct
{
  const char *digest; /* what the newest line's digest is expected to be, or NULL. Only this can find a cut tail */
  SwSummariseFunc summarise; /* NULL: summaries are not compared */
  SwCountTreatedFunc count_treated; /* NULL: the rows of the outcomes are not compared; else with summarise */
  SwProgressFunc progress;
  gpointer data; /* for all */
} SwCheckOptions;

typedef struct
{
  gint64 acts;
  gint64 rows;
  gint64 summaries;
  char *digest;        /* of the newest line */
  GPtrArray *troubles; /* char *: sentences; empty: the record is sound. At most 1000 */
} SwCheckReport;

void sw_check_report_free (SwCheckReport *report);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCheckReport, sw_check_report_free)

/* Recomputes the digest chain, compares every row with what its act wrote and looks for rows that no act wrote, missing
 * or altered tables and guards, broken pages and references, and derived tables that differ. NULL only if it could
 * not finish. */
SwCheckReport *sw_store_check (SwStore *store, const SwCheckOptions *options, GCancellable *cancellable,
                               GError **error);

/* Copies the record, as it is at one moment, into an absent or empty folder, and checks the copy's pages. */
gboolean sw_store_backup (SwStore *store, const char *copy, SwProgressFunc progress, gpointer data,
                          GCancellable *cancellable, GError **error);
/* The other way: from a backup's folder into an absent or empty one. */
gboolean sw_store_restore (const char *copy, const char *dir, SwProgressFunc progress, gpointer data,
                           GCancellable *cancellable, GError **error);

G_END_DECLS
