/* sw-recheck-private.h: what the parts of the page share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The first row of a visit: wounds name any row of it. */
gint64 sw_visit_root (const SwFacts *facts, gint64 visit);
/* The current wound of a tumour at a visit; NULL: none. */
const SwWound *sw_visit_wound (const SwFacts *facts, const SwVisit *visit, gint64 tumour);

/* What somebody saw of a tumour on a day; NULL: nobody looked without a caliper. */
const SwLook *sw_visit_look (const SwPageContext *context, gint64 tumour, SwDay day);

/* "open, 18.0 × 12.0 mm, 170 mm2". (transfer full) */
char *sw_wound_words (const SwWound *wound);

/* A day and (`time` not NULL) a time on one line: now, unless something is typed. */
GtkWidget *sw_when_new (const char *day_name, const char *time_name, GtkWidget **day, GtkWidget **time);
void sw_when_set (GtkWidget *day, GtkWidget *time, SwMoment moment);
void sw_when_offer (GtkWidget *day, GtkWidget *time, SwMoment moment);
/* FALSE, with the focus in the field that is wrong: also for what has not come yet. */
gboolean sw_when_take (GtkWidget *day, GtkWidget *time, SwMoment now, SwMoment *moment);

/* A list without selection that is named. */
GtkListBox *sw_recheck_list_new (const char *name);

/* A row of a list: words, who recorded it, and buttons in `tools`; found by its fact. */
GtkWidget *sw_recheck_row_new (const SwFact *fact, const char *when, const char *words, const char *who,
                               GtkWidget *tools);
GtkWidget *sw_recheck_row_find (GtkListBox *list, SwFactKind kind, gint64 id);
void sw_recheck_rows_clear (GtkListBox *list);

G_END_DECLS
