/* sw-people-choice.h: choose one of the people who work here
 *
 * Only people in service with a clinical role are offered. The choice is kept as an id when the practice changes.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dossier.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PEOPLE_CHOICE (sw_people_choice_get_type ())
G_DECLARE_FINAL_TYPE (SwPeopleChoice, sw_people_choice, SW, PEOPLE_CHOICE, GtkWidget)

/* `name`: what a screen reader says; `none`: the words for nobody ("choose …"), NULL: somebody is always chosen.
 * Signal: changed (). */
GtkWidget *sw_people_choice_new (const char *name, const char *none);
void sw_people_choice_update (SwPeopleChoice *self, const SwPractice *practice);
/* 0: nobody. Somebody who is not offered becomes nobody. */
void sw_people_choice_set (SwPeopleChoice *self, gint64 person);
gint64 sw_people_choice_get (SwPeopleChoice *self);

G_END_DECLS
