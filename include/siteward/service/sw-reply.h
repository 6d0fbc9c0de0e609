/* sw-reply.h: what became of a request
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"
#include "sw-finding.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  SwFactKind kind;
  gint64 id;
} SwRowRef;

/**
 * SwReply:
 *
 * Not done is an answer, not an error: the rules refused, `findings` say why, and nothing was written. Trouble with
 * role, conflict, input or disk is a GError instead. When done, `findings` may hold notes.
 */
typedef struct
{
  gboolean done;
  GPtrArray *findings; /* SwFinding */
  gint64 act;          /* the journal line, 0 if not done */
  gint64 patient;
  GArray *rows;        /* SwRowRef of each row written; of a plain act in the order they were handed over */
  gboolean amended;    /* it corrected what an injection or a score rests on */
  gboolean voided;     /* it voided a release */
} SwReply;

SwReply *sw_reply_new (void);
void sw_reply_free (SwReply *reply);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwReply, sw_reply_free)

/* Id of the first row of this kind that was written; 0: none. */
gint64 sw_reply_id (const SwReply *reply, SwFactKind kind);

G_END_DECLS
