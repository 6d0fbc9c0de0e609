/* sw-demo-private.h: the inside of the demo practice: its script, its dogs, its steps
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-books.h"
#include "sw-demo.h"
#include "sw-desk.h"

G_BEGIN_DECLS

#define SW_DEMO_MOST_TUMOURS 12

typedef struct
{
  GHashTable *args;  /* of its line: name -> value */
  gint64 patient;    /* 0 until registered */
  gint64 course;     /* the newest */
  gint64 tumours[SW_DEMO_MOST_TUMOURS]; /* by letter */
  guint n_tumours;
} SwDemoDog;

typedef struct _SwDemo SwDemo;
typedef struct _SwDemoStep SwDemoStep;

typedef gboolean (*SwDemoPerform) (SwDemo *demo, const SwDemoStep *step, GError **error);

struct _SwDemoStep
{
  int line;          /* of the script */
  SwMoment when;
  SwDemoPerform perform;
  SwDemoDog *dog;    /* borrowed; NULL: the practice */
  GHashTable *args;  /* name -> value */
};

struct _SwDemo
{
  SwDay today;
  SwMoment now;          /* nothing is done after it */
  char *file;            /* for sentences */
  GHashTable *practice;  /* args of the line "practice" */
  GPtrArray *people;     /* args of the lines "person" */
  GHashTable *ids;       /* name of a person -> gint64 * */
  GHashTable *work_up;   /* question -> answer unless a step says otherwise */
  GHashTable *treatment; /* the same for the treatment day */
  GHashTable *words;     /* list name -> GStrv: for the crowd */
  GPtrArray *dogs;       /* SwDemoDog */
  GPtrArray *steps;      /* SwDemoStep, in order of time */
  SwBooks *shipped;      /* documents to adopt */
  SwClock *clock;
  SwDesk *desk;
};

/* sw-demo-script.c */

SwDemo *sw_demo_read (const char *file, SwDay today, GError **error);
void sw_demo_free (SwDemo *demo);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDemo, sw_demo_free)
/* Reads "-3" or "+2" as days from today. */
gboolean sw_demo_day (const SwDemo *demo, const char *text, SwDay *day, GError **error);

/* sw-demo-verbs.c: one function for each verb of the script; NULL: no such verb. `minute`: when it is done unless the
 * line says so. */
SwDemoPerform sw_demo_verb (const char *verb, int *minute);
/* What a line of a macro verb ("treat") stands for: verbs and minutes after its own; NULL: no macro. */
typedef struct
{
  const char *verb;
  int after;
} SwDemoPart;
const SwDemoPart *sw_demo_macro (const char *verb);

/* sw-demo-steps.c */

gboolean sw_demo_register (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_weigh (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_add_tumour (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_medicine (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_work_up (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_reason (SwDemo *demo, const SwDemoStep *step, GError **error);

/* sw-demo-course.c */

gboolean sw_demo_set (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_open (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_consent (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_sign (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_move (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_dose (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_tell (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_replace (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_contact (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_end (SwDemo *demo, const SwDemoStep *step, GError **error);

/* sw-demo-treatment.c */

gboolean sw_demo_measure (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_ask (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_read_aloud (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_release (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_inject (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_observe (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_discharge (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_visit (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_size (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_score (SwDemo *demo, const SwDemoStep *step, GError **error);
gboolean sw_demo_recur (SwDemo *demo, const SwDemoStep *step, GError **error);

/* sw-demo-crowd.c */

/* Registers `n` more dogs, some of them with an open course. */
gboolean sw_demo_crowd (SwDemo *demo, const SwDemoOptions *options, guint n, GError **error);

/* For the steps. */

/* Of the step, else of its dog, else NULL. */
const char *sw_demo_arg (const SwDemoStep *step, const char *name);
char *sw_demo_dup_arg (const SwDemoStep *step, const char *name);
/* The day that an argument names; FALSE with an error, or SW_NO_DAY, where it does not. */
gboolean sw_demo_need_day (SwDemo *demo, const SwDemoStep *step, const char *name, SwDay *day, GError **error);
SwDay sw_demo_day_if_said (SwDemo *demo, const SwDemoStep *step, const char *name);
/* The person of by=NAME, else the first who may do this act. */
gint64 sw_demo_person (SwDemo *demo, const SwDemoStep *step, SwActKind act);
/* A person other than this one who may do the act. */
gint64 sw_demo_other_person (SwDemo *demo, gint64 person, SwActKind act);
SwRequest *sw_demo_request (SwDemo *demo, const SwDemoStep *step, SwActKind act);
/* Performs and takes the request; NULL: an error that names the line. */
SwReply *sw_demo_perform (SwDemo *demo, const SwDemoStep *step, SwRequest *request, GError **error);
/* The same where the reply does not matter. */
gboolean sw_demo_do (SwDemo *demo, const SwDemoStep *step, SwRequest *request, GError **error);
/* Fails with a sentence about the line. Returns FALSE. */
gboolean sw_demo_fail (const SwDemo *demo, const SwDemoStep *step, GError **error, const char *format, ...)
    G_GNUC_PRINTF (4, 5);
/* The tumour of a letter, or 0. */
gint64 sw_demo_tumour (const SwDemoStep *step, const char *letter);

G_END_DECLS
