/* work-up-ui.h: driving the work-up page by its own widgets, as a vet would, and reading what it shows
 *
 * Every act waits until the page has loaded what it recorded.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "ui-fixture.h"

#include "sw-workup-page.h"

G_BEGIN_DECLS

typedef struct
{
  UiPractice *practice;
  SwWindow *window;
  SwWorkUpPage *page;
} UiWorkUp;

/* The record of ui_practice_new with every adoptable document adopted, open at the work-up of its dog. */
UiWorkUp *ui_work_up_new (void);
/* The same without documents. */
UiWorkUp *ui_work_up_new_bare (void);
void ui_work_up_free (UiWorkUp *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (UiWorkUp, ui_work_up_free)

const SwPageContext *ui_work_up_context (UiWorkUp *self);
SwDay ui_work_up_today (void);

/* [Course]: opens one with this protocol and all tumours. */
void ui_work_up_open_course (UiWorkUp *self, const char *protocol);
/* Chooses the answer, types the extra (NULL: leaves it empty) and records. answer NULL: none any more. */
void ui_work_up_answer (UiWorkUp *self, const char *question, const char *answer, const char *extra);
/* Chooses without recording. */
void ui_work_up_choose (UiWorkUp *self, const char *question, const char *answer);
/* Types a reading of the dog's tumour, Enter after each axis. */
void ui_work_up_measure (UiWorkUp *self, const char *length, const char *width, const char *height);
/* Signs with everything explained. */
void ui_work_up_consent (UiWorkUp *self);
/* All of it so that nothing stands before the lead-in. */
void ui_work_up_make_good (UiWorkUp *self);

typedef struct
{
  const char *substance; /* NULL: no pack */
  gint64 first, last;    /* days from today; SW_NO_DAY: not known, goes on */
  SwMedicineForm form;
  gint64 single;         /* 1, 0, SW_UNKNOWN */
  gboolean xylitol_free;
  const char *dose, *per_day; /* as typed, or NULL */
} UiPack;

void ui_work_up_take (UiWorkUp *self, const UiPack *pack);
/* Takes back every medicine listed. */
void ui_work_up_take_nothing (UiWorkUp *self);

/* The row shown in [What Is Open] about this: the worst whose code fits (SW_N_FINDINGS: any) and whose `about` begins so (NULL: any).
 * Its sentence is asserted to stand in a label of it. NULL: none is shown. */
GtkWidget *ui_work_up_row (UiWorkUp *self, SwFindingCode code, const char *about);
/* The severity of that row; SW_N_SEVERITIES: no such row. */
int ui_work_up_severity (UiWorkUp *self, SwFindingCode code, const char *about);
/* How many rows are shown that block. */
guint ui_work_up_blocks (UiWorkUp *self);

/* The fields of the dialog over the window, by name. */
void ui_dialog_choose (GtkWidget *dialog, const char *name, const char *choice);
void ui_dialog_type (GtkWidget *dialog, const char *name, const char *text);
/* Presses the button and waits until the dialog is gone and the page shows what it did. */
void ui_dialog_press (UiWorkUp *self, const char *button);

G_END_DECLS
