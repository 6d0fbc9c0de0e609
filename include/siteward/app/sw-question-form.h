/* sw-question-form.h: questions of sw-question.h with the answers given, each with what the rules say of it
 *
 *   sampled, before any corticosteroid  [mast cell tumour, by cytology v]  sampled on [2026-05-03]   ✓ meets
 *   grade                               [choose…                       v]                            ? not known
 *   surface                             [crust                         v]                            not recorded
 *
 * Nothing is recorded by choosing: collect() hands out the rows of all answers that are other than the record's, for one act.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-question.h"
#include "sw-request.h"
#include "sw-workup-findings.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_QUESTION_FORM (sw_question_form_get_type ())
G_DECLARE_FINAL_TYPE (SwQuestionForm, sw_question_form, SW, QUESTION_FORM, GtkWidget)

typedef gboolean (*SwQuestionWanted) (const SwQuestion *question);

/* The work-up's questions that are wanted. `tumour` 0: of the dog; `named` is put before each name that a screen reader says, so that
 * two tumours' fields are told apart, or NULL. Signal "edited" (). */
GtkWidget *sw_question_form_new (SwQuestionWanted wanted, gint64 tumour, const char *named);

/* Shows what the record holds, but writes into nothing that was chosen or typed and not recorded; `anew`: into everything. */
void sw_question_form_update (SwQuestionForm *self, const SwWorkUp *work_up, gboolean anew);
/* How many answers are other than the record's. */
guint sw_question_form_count_edited (SwQuestionForm *self);
/* Adds their rows. FALSE: one is wrong; its sentence is beside it and it has the focus. */
gboolean sw_question_form_collect (SwQuestionForm *self, const SwPageContext *context, SwRequest *request);
/* What was collected last is recorded now. */
void sw_question_form_settle (SwQuestionForm *self);
gboolean sw_question_form_focus (SwQuestionForm *self, const SwQuestion *question);
/* For tests: the choice of a question, and the field beside it (NULL: none). */
GtkWidget *sw_question_form_get_choice (SwQuestionForm *self, const char *question);
GtkWidget *sw_question_form_get_extra (SwQuestionForm *self, const char *question);

G_END_DECLS
