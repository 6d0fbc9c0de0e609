/* sw-start-page.h: the first start: offer a new record, or another place where one lies
 *
 * Signal opened (SwRecord *record): a record has been made or opened here.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_START_PAGE (sw_start_page_get_type ())
G_DECLARE_FINAL_TYPE (SwStartPage, sw_start_page, SW, START_PAGE, GtkWidget)

/* Where a new record would be made, and the clock it would get. */
void sw_start_page_set_place (SwStartPage *self, const char *directory, SwClock *clock);
/* Opens the record that lies there; the page says so if it can't be opened. */
void sw_start_page_open (SwStartPage *self, const char *directory);

G_END_DECLS
