/* after-ui.h: what the tests of rechecks and response share: two dogs after their injection, fields by name, acts
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "ui-fixture.h"

#include "sw-case.h"

G_BEGIN_DECLS

/* Dogs of after.txt, in the order they were registered. */
#define ARLO 1
#define LARK 2

typedef struct
{
  char *folder;
  SwClock *clock;
  SwWindow *window;
  GtkWidget *page; /* the patient's: its steps change */
  gint64 patient;
  SwDay zero;      /* the day of the dog's injection */
} After;

/* The record of after.txt on Lark's day 1 at 09:40, the window open on this dog's step. */
After *after_new (gint64 patient, const char *step);
void after_free (After *after);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (After, after_free)

void after_step (After *after, const char *step);
/* The clock moves on to this day of the course, 11:00. */
void after_day (After *after, int day);

/* What is shown of the page and has this name or, for buttons, these words; fails when there is none. */
GtkWidget *after_named (After *after, const char *name);
gboolean after_has (After *after, const char *name);
gboolean after_says (After *after, const char *words);
void after_wait_says (After *after, const char *words);
void after_type (After *after, const char *name, const char *text);
/* Types and presses Enter there. */
void after_enter (After *after, const char *name, const char *text);
void after_choose (After *after, const char *name, const char *choice);
/* By keyboard: the focus, then what Enter does; then until the record has answered. */
void after_press (After *after, const char *words);
void after_open (After *after, const char *expander);

/* As the record has it now. (transfer full) */
SwDossier *after_dossier (After *after);
gint64 after_course (const SwDossier *dossier);
/* The case of the newest course at the moment of the clock, for asking rules; borrows from the dossier and the window. */
SwCase after_case (After *after, const SwDossier *dossier, gint64 course);
/* Every widget that takes the focus has a name of its own. */
void after_check_names (After *after);

G_END_DECLS
