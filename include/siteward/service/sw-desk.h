/* sw-desk.h: one open record and a clock: performs requests, synchronously
 *
 * Where store, rules and clock meet. The command line, the demo and tests use it directly; the window never does: it
 * goes through SwRecord, whose writer thread owns a desk. A desk belongs to one thread at a time.
 *
 * A guarded request runs wholly between BEGIN IMMEDIATE and COMMIT: load again, ask the rules, append or roll back.
 * Every act that touches a course rewrites its line in course_summary in the same transaction.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-clock.h"
#include "sw-dossier.h"
#include "sw-reply.h"
#include "sw-request.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct _SwDesk SwDesk;

/* What founds a record: one person with all three roles, the zone, whether it is only for trying out. */
typedef struct
{
  const char *first_name; /* the first person */
  const char *zone;       /* IANA name; NULL: the machine's */
  const char *practice;   /* its name, or NULL */
  gboolean practice_only;
  const char *seed;       /* practice-only: the record's identity derives from it; NULL: random */
} SwFounding;

/* Makes the record in an empty or absent directory, and opens it. SW_ERROR_RECORD where there is one. */
SwDesk *sw_desk_found (const char *directory, const SwFounding *founding, SwClock *clock, GError **error);
/* Refuses a scripted clock on a live record: SW_ERROR_RECORD. */
SwDesk *sw_desk_open (const char *directory, SwClock *clock, GError **error);
void sw_desk_free (SwDesk *desk);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDesk, sw_desk_free)

/* NULL: an error; otherwise done or refused. */
SwReply *sw_desk_perform (SwDesk *desk, const SwRequest *request, GError **error);

/* From here on requests share one transaction and one batch number, until the end, which keeps all or
 * (FALSE) nothing. */
gboolean sw_desk_begin_batch (SwDesk *desk, GError **error);
gboolean sw_desk_end_batch (SwDesk *desk, gboolean keep, GError **error);

SwDossier *sw_desk_load_dossier (SwDesk *desk, gint64 patient, GError **error);
/* As it is now; borrowed until the next request. */
const SwPractice *sw_desk_practice (SwDesk *desk, GError **error);
SwClock *sw_desk_clock (SwDesk *desk);
/* Now, in the record's zone. */
SwNow sw_desk_now (SwDesk *desk);

G_END_DECLS
