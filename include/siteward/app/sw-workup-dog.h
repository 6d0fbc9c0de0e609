/* sw-workup-dog.h: the work-up's questions about the dog, but not those about medicines
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-question-form.h"
#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_DOG (sw_workup_dog_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpDog, sw_workup_dog, SW, WORKUP_DOG, SwWorkUpSection)

/* Whether a question is about medicines and vaccines, which have a part of their own. */
gboolean sw_question_is_about_medicines (const SwQuestion *question);

/* "2 answers are not recorded yet." (transfer full); NULL: all are. */
char *sw_answers_status (guint n_edited);

SwQuestionForm *sw_workup_dog_get_form (SwWorkUpDog *self);
GtkWidget *sw_workup_dog_get_record (SwWorkUpDog *self);

G_END_DECLS
