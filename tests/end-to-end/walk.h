/* walk.h: a person at the window, for the walks: looks for what is shown by its name, presses, types, reads
 *
 * Everything is done to what can be seen now, in the dialog that is open or else in the window, and each act waits until the page has
 * loaded what it recorded. What is not there in time ends the program with a list of all that was.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "ui-fixture.h"

#include "sw-patient-page.h"

G_BEGIN_DECLS

typedef struct
{
  char *folder;         /* of the record */
  SwClock *clock;       /* standing; moved by walk_at */
  SwDay first_day;      /* the walk counts days from it */
  SwWindow *window;
  gint64 person;        /* at the desk; 0: whoever sat down first */
  const char *vet;      /* who works here, as the window calls them */
  const char *technician;
  gint64 patient;       /* 0: none yet */
  char *step;           /* of the dog's page */
  const char *pictures; /* folder; NULL: none are taken */
} Walk;

/* Opens the window where the walk has come to: on the dog and its step, if there are. */
void walk_open (Walk *walk);
void walk_close (Walk *walk);
/* Days after the first. Over night the window is closed and opened again. */
void walk_at (Walk *walk, int day, int hour, int minute);
SwDay walk_day (const Walk *walk, int day);
/* Somebody else sits down, by the menu's own action. */
void walk_sit_down (Walk *walk, gint64 person);
/* The page of a step, by its button. */
void walk_step (Walk *walk, const char *title);
/* [Patients], [Practice]; the sections of the latter. */
void walk_page (Walk *walk, const char *page, const char *section);

/* What is called so, by a screen reader or by the label beside it; waits for it. */
GtkWidget *walk_find (Walk *walk, const char *name);
gboolean walk_has (Walk *walk, const char *name);
/* A label that is shown holds this text. Waits; walk_says looks once. */
void walk_see (Walk *walk, const char *text);
gboolean walk_says (Walk *walk, const char *text);
/* The foot line says so. Waits. */
void walk_foot (Walk *walk, const char *text);

void walk_press (Walk *walk, const char *name);
/* Presses, and waits until the dog is loaded again. */
void walk_act (Walk *walk, const char *name);
/* Presses, and waits until the dialog is gone and what it did is loaded. */
void walk_answer (Walk *walk, const char *name);
void walk_type (Walk *walk, const char *name, const char *text);
/* And Enter in the field. */
void walk_enter (Walk *walk, const char *name, const char *text);
void walk_choose (Walk *walk, const char *name, const char *choice);
void walk_tick (Walk *walk, const char *name);
/* Ticks every box that is shown, as it is called: how many there were. */
guint walk_tick_all (Walk *walk);

/* The dossier as the record has it now. (transfer full) */
SwDossier *walk_dossier (Walk *walk);
/* NAME-light.png and NAME-dark.png of the window, or of the dialog over it. */
void walk_picture (Walk *walk, const char *name);
/* Scrolls the step's page so that this is seen. */
void walk_scroll_to (Walk *walk, const char *name);

G_END_DECLS
