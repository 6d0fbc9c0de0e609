/* sw-desk-private.h: one request on its way through the desk
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-desk.h"
#include "sw-move.h"
#include "sw-store.h"

G_BEGIN_DECLS

/**
 * SwOperation:
 *
 * Lives between BEGIN IMMEDIATE and its end. An operation reads `c`, adds what it found to the reply, and leaves the
 * rows to write in `facts`, or says refused. It may set c.now back to the moment it is about, and c.course to the
 * course that a row belongs to.
 */
typedef struct
{
  const SwRequest *request;
  SwActKind act;
  SwNow now;          /* of the desk */
  SwDossier *dossier; /* as it is now; NULL for a new patient and for the practice */
  SwCase c;
  GPtrArray *facts;
  SwReply *reply;
  gboolean refused;
} SwOperation;

/* FALSE: an error. */
typedef gboolean (*SwOperate) (SwOperation *op, GError **error);

gboolean sw_operate_tick (SwOperation *op, GError **error);
gboolean sw_operate_stop_dose (SwOperation *op, GError **error);
gboolean sw_operate_order_replacement (SwOperation *op, GError **error);
gboolean sw_operate_open_course (SwOperation *op, GError **error);
gboolean sw_operate_end_course (SwOperation *op, GError **error);
gboolean sw_operate_sign_plan (SwOperation *op, GError **error);
gboolean sw_operate_move_day (SwOperation *op, GError **error);
gboolean sw_operate_reweigh_plan (SwOperation *op, GError **error);
gboolean sw_operate_release (SwOperation *op, GError **error);
gboolean sw_operate_injection (SwOperation *op, GError **error);
gboolean sw_operate_score (SwOperation *op, GError **error);
gboolean sw_operate_adopt (SwOperation *op, GError **error);

/* Moves the findings into the reply. */
void sw_operation_take_findings (SwOperation *op, GPtrArray *findings);
/* The same, and refuses where one of them blocks. TRUE: none does. */
gboolean sw_operation_passes (SwOperation *op, GPtrArray *findings);
/* Adds a fact to write (transfer full); the number that later facts call it. */
gint64 sw_operation_add (SwOperation *op, gpointer fact);
/* Takes all of them, in order. */
void sw_operation_add_all (SwOperation *op, GPtrArray *facts);
/* Takes a preview: its findings into the reply and its facts to write; refused where it has none. */
void sw_operation_take_replan (SwOperation *op, SwReplan *replan);
/* The request names a course of this dog: SW_ERROR_INPUT. */
gboolean sw_operation_has_course (SwOperation *op, GError **error);
/* SW_ERROR_INPUT for a moment that has not come yet. */
gboolean sw_operation_not_ahead (SwOperation *op, SwMoment when, GError **error);
/* The moment the request is about, which must not lie ahead; now, if it names none. SW_ERROR_INPUT. */
gboolean sw_operation_moment (SwOperation *op, SwMoment *moment, GError **error);
/* An outside record needs a reason: SW_ERROR_INPUT. */
gboolean sw_operation_has_reason (SwOperation *op, GError **error);

/* sw-freeze.c */

/* All rows that a release at c->now rests on: "weight:12;reading:40;...". (transfer full) */
char *sw_freeze (const SwCase *c, const SwReadAloud *read_aloud);
/* What the rows about to be written do to releases, injections and scores: voids, or makes it an amendment. */
void sw_freeze_apply (SwOperation *op);

/* sw-summaries.c */

/* What the list shows of each of the dog's courses. (transfer full) SwCourseSummary */
GArray *sw_summarise (const SwDossier *dossier, const SwPractice *practice, const SwBooks *books);
/* What the outcomes count of the dog. (transfer full) SwTreated */
GArray *sw_count_treated (const SwDossier *dossier, const SwPractice *practice, const SwBooks *books);

/* For sw-record.c, which shares the desk's store on its writer thread. */
SwStore *sw_desk_store (SwDesk *desk);
SwBooks *sw_desk_books (SwDesk *desk);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPlan, sw_fact_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCourseEnd, sw_fact_free)

G_END_DECLS
