/* sw-practice-view.h: the practice: people, clinical settings, documents and their adoption
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PRACTICE_VIEW (sw_practice_view_get_type ())
G_DECLARE_FINAL_TYPE (SwPracticeView, sw_practice_view, SW, PRACTICE_VIEW, GtkWidget)

void sw_practice_view_set_record (SwPracticeView *self, SwRecord *record);
void sw_practice_view_set_person (SwPracticeView *self, gint64 person);
/* "people", "settings", "documents" */
void sw_practice_view_show_section (SwPracticeView *self, const char *section);

G_END_DECLS
