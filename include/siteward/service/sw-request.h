/* sw-request.h: what a person at the desk wants done
 *
 * A request is a value: made by a page, a command or the demo, handed to the desk (sw-desk.h) or queued on the record
 * (sw-record.h). Plain acts hand over the rows to write. Guarded ones hand over an intention; the desk reads the
 * record again inside its own transaction, asks the rules and writes the rows itself, or refuses with findings. Free
 * text is copied, facts are taken.
 *
 * Plain acts need no kind of their own:
 *   SwRequest *r = sw_request_new (SW_ACT_WEIGH, person, patient);
 *   SwWeight *w = sw_new (SW_FACT_WEIGHT, SwWeight); ... sw_request_add (r, w);
 * A row that names another row of the same request uses what sw_request_add returned for that one (-1, -2, ...). Rows
 * of a new patient carry fact.patient = that number; other patient-scope rows get the request's patient by themselves.
 * Correct a row with sw_fact_correction(), take it back with sw_fact_withdrawal(), under the act that wrote it: where
 * a release or an injection rests on the row, the desk does what domain 10 asks (the release is void; or only a vet,
 * and it counts as amended).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-act.h"
#include "sw-fact.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_REQUEST_ACT, /* rows as handed over */
  SW_REQUEST_TICK,
  SW_REQUEST_OPEN_COURSE,
  SW_REQUEST_SIGN_PLAN,
  SW_REQUEST_MOVE_DAY,
  SW_REQUEST_REWEIGH_PLAN,
  SW_REQUEST_ORDER_REPLACEMENT,
  SW_REQUEST_STOP_DOSE,
  SW_REQUEST_RELEASE,
  SW_REQUEST_INJECTION,
  SW_REQUEST_ADOPT,
  SW_REQUEST_SCORE,
  SW_REQUEST_END_COURSE,
  SW_N_REQUESTS
} SwRequestKind;

typedef struct
{
  SwRequestKind kind;
  SwActKind act;
  gint64 person;     /* who is at the desk */
  gint64 patient;    /* 0: about the practice, or a new patient */
  gint64 course;     /* 0: none */
  GPtrArray *facts;  /* rows handed over, owned */
  gint64 row;        /* the row it is about; see each maker */
  SwMoment when;     /* the moment or day it is about; SW_NO_MOMENT: now */
  gint64 choice;     /* a small value; see each maker */
  gint64 seen;       /* the row the page showed and this one corrects; 0: none */
  char *text;        /* see each maker; NULL */
  char *vet_orders;  /* taper, insulin, food: the vet's written order; NULL */
  char *reason;      /* NULL */
  gboolean outside;  /* record what has happened although a gate or limit was not met: only a vet, with a reason */
} SwRequest;

/* A plain act, and the base of all makers below. (transfer full) */
SwRequest *sw_request_new (SwActKind act, gint64 person, gint64 patient);
SwRequest *sw_request_copy (const SwRequest *request);
void sw_request_free (SwRequest *request);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRequest, sw_request_free)

/* Takes the fact; returns what later rows call it: -1 for the first, -2 ... */
gint64 sw_request_add (SwRequest *request, gpointer fact);
void sw_request_set_reason (SwRequest *request, const char *reason);
void sw_request_set_vet_orders (SwRequest *request, const char *orders);
/* Say that it has happened although it should not have. */
void sw_request_set_outside (SwRequest *request, const char *reason);

/* What the client told about a planned dose. `pressed` is the button: given takes the due time, late wants `given`,
 * missed and vomited may have it. The actual time decides the state recorded: a "late" beyond half the interval is
 * recorded missed. `seen`: the event row the page showed, which is corrected; 0: not told yet. Somebody else's tick in
 * between is SW_ERROR_CONFLICT. */
SwRequest *sw_request_tick (gint64 person, gint64 patient, gint64 dose, gint64 seen, SwDoseState pressed,
                            SwMoment given, const char *told_by);
/* Take a tick back: the dose is not known again. `event` is its current row. */
SwRequest *sw_request_untick (gint64 person, gint64 patient, const SwDoseEvent *event);

/* `document`: the adopted protocol's SwDocument row. `tumours`: ids treated in this course. `follows`: the course a
 * second injection follows, or 0. */
SwRequest *sw_request_open_course (gint64 person, gint64 patient, gint64 document, const gint64 *tumours,
                                   guint n_tumours, gint64 follows, const char *purpose);
/* Gate A, then the plan and all its doses. `weight`: SwWeight row it is computed on. `choices`: "group=substance;...".
 * Signed again for the same day, it changes the choices of the doses not yet due. */
SwRequest *sw_request_sign_plan (gint64 person, gint64 patient, gint64 course, SwDay treat_day, gint64 weight,
                                 const char *choices);
/* Doses due stay, later ones are planned anew. `way`: SwMoveWay (sw-move.h). A technician does it on the vet's word. */
SwRequest *sw_request_move_day (gint64 person, gint64 patient, gint64 course, SwDay treat_day, int way);
/* Remaining doses on another weight. */
SwRequest *sw_request_reweigh_plan (gint64 person, gint64 patient, gint64 course, gint64 weight);
/* A new dose at `due` in place of a missed or vomited one. */
SwRequest *sw_request_order_replacement (gint64 person, gint64 patient, gint64 dose, SwMoment due);
SwRequest *sw_request_stop_dose (gint64 person, gint64 patient, gint64 dose, const char *reason);

/* Gate B and the limits, for all tumours treated in the course, on today's recorded readings and weight. With
 * `outside` it says what was released at `when`; then facts may hold SwReleaseTumour rows {tumour, drawn_nl} with what
 * was drawn. */
SwRequest *sw_request_release (gint64 person, gint64 patient, gint64 course);
/* Takes an SwInjection, an SwInjectionTumour for each tumour, SwVial rows and the SwReadAloud after drawing, added by
 * the caller in any order; only what the person entered: references to release, course and injection are filled by the
 * desk. */
SwRequest *sw_request_injection (gint64 person, gint64 patient, gint64 course);

/* Adopts documents together: a protocol with the medicines it plans and the interactions. Their exact bytes are copied
 * into the record, where they are new. They are parsed and checked against each other and against what the
 * record has. */
SwRequest *sw_request_adopt (gint64 person);
/* `ticks`: names of the figures that were confirmed one by one, separated by ";": all whose mark is not seen. */
void sw_request_adopt_document (SwRequest *request, SwDocumentKind kind, GBytes *bytes, const char *ticks);

/* Scores every tumour treated in the course, and the dog, from what was recorded on `day`. */
SwRequest *sw_request_score (gint64 person, gint64 patient, gint64 course, SwDay day, SwNonTargets non_targets,
                             gboolean new_tumour);

/* Ends a course; before the injection that cancels it: doses not yet due are withdrawn, and once the lead-in began the
 * vet's orders (taper or stop) are needed. `cause` SW_UNKNOWN unless died or euthanised. */
SwRequest *sw_request_end_course (gint64 person, gint64 patient, gint64 course, SwEnd end, gint64 cause, SwDay day,
                                  gboolean certain);

G_END_DECLS
