/* ui-treatment.h: what the tests of the treatment day's page share: three dogs, fields by their names, acts
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "ui-fixture.h"

G_BEGIN_DECLS

/* Dogs of treatment.txt. */
#define MARLO 1
#define TANSY 2
#define DUSK 3
/* Its people. */
#define INES 1
#define TOMAS 2
#define ODA 3

typedef struct
{
  char *folder;
  SwClock *clock;
  SwWindow *window;
  GtkWidget *page; /* the treatment day's, borrowed */
} UiDay;

/* The record of treatment.txt at 09:40 of its day, the window open on a dog's treatment day. */
UiDay *ui_day_new (gint64 patient);
void ui_day_free (UiDay *day);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (UiDay, ui_day_free)

void ui_day_show (UiDay *day, gint64 patient);
void ui_day_at (UiDay *day, int hours, int minutes);

/* By what a screen reader calls it; fails when there is none that is shown. */
GtkWidget *ui_named (GtkWidget *root, const char *name);
gboolean ui_has_named (GtkWidget *root, const char *name);
/* Whether a label that is shown holds this text. */
gboolean ui_shows (GtkWidget *root, const char *text);
void ui_wait_shows (GtkWidget *root, const char *text);
/* Types into an entry and presses Enter there. */
void ui_enter (GtkWidget *root, const char *name, const char *text);
void ui_fill (GtkWidget *root, const char *name, const char *text);
/* Chooses in the drop-down of this name. */
void ui_choose (GtkWidget *root, const char *name, const char *choice);
void ui_tick (GtkWidget *root, const char *name);
/* Presses the button with these words, which must be shown. */
void ui_press (GtkWidget *root, const char *words);
/* Waits for a dialog, and presses a button of it. */
void ui_answer (UiDay *day, const char *words);
/* The dossier as the record has it now. (transfer full) */
SwDossier *ui_dossier (UiDay *day, gint64 patient);
/* A picture of the page, so many pixels down, in the folder of SW_PHOTOGRAPHS, if that is set. */
void ui_keep_picture (UiDay *day, const char *name, double scroll);

/* Marlo's day, as it should go: 24.6 kg and two readings, which make 0.85 mL ... */
void ui_day_weigh_and_measure (UiDay *day);
void ui_day_answer_all (UiDay *day);
void ui_day_read_aloud (UiDay *day);
/* ... all of it, and the release. */
void ui_day_release (UiDay *day);

G_END_DECLS
