/* sw-answer-field-private.h: one question of the treatment day with its answer and what is told beside it
 *
 * A question whose first answer is "yes" is a box to tick; any other is a choice, because there not ticking would say
 * something.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-fact.h"
#include "sw-question.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_ANSWER_FIELD (sw_answer_field_get_type ())
G_DECLARE_FINAL_TYPE (SwAnswerField, sw_answer_field, SW, ANSWER_FIELD, GtkWidget)

/* `of`: the tumour's letter, or NULL for the dog. Signal: changed (). */
GtkWidget *sw_answer_field_new (const SwQuestion *question, gint64 tumour, const char *of);
const SwQuestion *sw_answer_field_get_question (SwAnswerField *self);
gint64 sw_answer_field_get_tumour (SwAnswerField *self);
gboolean sw_answer_field_is_tick (SwAnswerField *self);
gboolean sw_answer_field_is_ticked (SwAnswerField *self);

/* Shows what the record has (NULL: nothing) and forgets what was chosen. */
void sw_answer_field_set (SwAnswerField *self, const SwAnswer *answer);
/* The answer's code; NULL: none is chosen. Of a box that is not ticked: "no" if `group_asked`, else none. */
const char *sw_answer_field_get (SwAnswerField *self, gboolean group_asked);
/* (transfer full) or NULL */
char *sw_answer_field_dup_note (SwAnswerField *self);
/* Other than what the record has. */
gboolean sw_answer_field_is_edited (SwAnswerField *self, gboolean group_asked);

G_END_DECLS
