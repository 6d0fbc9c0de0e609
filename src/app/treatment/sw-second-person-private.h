/* sw-second-person-private.h: who read aloud: another person, or one alone who looked a second time
 *
 *   read aloud by [ Tomas v ]   [ ] I am alone: a second look
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_SECOND_PERSON (sw_second_person_get_type ())
G_DECLARE_FINAL_TYPE (SwSecondPerson, sw_second_person, SW, SECOND_PERSON, GtkWidget)

/* `name`: what the choice is called; `alone`: the words of the box. */
GtkWidget *sw_second_person_new (const char *name, const char *alone);
void sw_second_person_update (SwSecondPerson *self, const SwPractice *practice);
void sw_second_person_clear (SwSecondPerson *self);
/* NULL: nobody is chosen. Day and minute are now. (transfer full) */
SwReadAloud *sw_second_person_make (SwSecondPerson *self, const SwPageContext *context, SwReadAloudStage stage);

G_END_DECLS
